"""Small formulas of the load path worked by hand in round figures: floors, limits, and both sides of each choice."""

from collections.abc import Callable
from dataclasses import replace
from math import pi
from typing import Any

import numpy as np
import pytest

from tests.checks.shop import on_board, trial
from transom.checks import (
    assembly,
    backing,
    board,
    careful,
    crossmembers,
    frame,
    frame_pull,
    hardware,
    joints,
    patch,
    places,
    reactions,
    ruler,
    sideways,
    spacing,
)
from transom.checks import trial as of_trial
from transom.checks.patch import FAR, Edges, perimeters_of
from transom.job.records import Hole

Row = tuple[Callable[..., Any], tuple[float, ...], float]
BOARD: list[Row] = [
    (assembly.thickness_under_bracket, (37.0, 6.0, 2.0), 45.0),
    (assembly.grip, (19.0, 37.0, 6.0, 2.0), 64.0),
    (assembly.least_bolt_length, (64.0, 11.0, 2.0, 2.0), 79.0),
    (assembly.shank_length, (88.9, 31.75), 57.15),
    (assembly.room_needed, (37.0, 3.0), 40.0),
    (backing.bearing_pressure, (1000.0, 500.0), 2.0),
    *((backing.overhang, (*sides, 20.0), 30.0)
      for sides in ((40.0, 1.0, 2.0, 3.0), (1.0, 40.0, 2.0, 3.0), (1.0, 2.0, 40.0, 3.0), (1.0, 2.0, 3.0, 40.0))),
    (backing.overhang, (1.0, 2.0, 3.0, 4.0, 20.0), 0.0),
    (backing.cantilever_moment, (4.0, 30.0), 1800.0),
    (backing.plate_moment_resistance, (6.0, 220.0, 1.1), 1800.0),
    (board.strip_about_hole, (30.0, 10.0), 40.0),
    (board.strip_about_hole, (50.0, 10.0), 50.0),
    (board.strip_to_edge, (80.0, 30.0), 60.0),
    (board.strip_to_edge, (50.0, 30.0), 50.0),
    (board.strip_to_edge, (50.0, 0.0), 0.001),
    (board.net_share, (10.0, 40.0), 0.75),
    (board.net_share, (50.0, 40.0), 0.0),
    (board.pad_on_wood, (140.0, 70.0, 600.0, 0.0), 70.0),
    (board.pad_on_wood, (140.0, 70.0, 300.0, 0.0), 45.0),
    (board.pad_on_wood, (140.0, 70.0, 600.0, 250.0), 50.0),
    (board.pad_on_wood, (140.0, 70.0, 200.0, 0.0), 0.01),
    (board.share_beside, (20.0, 80.0), 0.75),
    (board.share_beside, (90.0, 80.0), 0.001),
    (board.both_shares, (0.5, 0.8), 0.4),
    (board.moment_on_net_section, (100.0, 0.5), 200.0),
    (board.moment_on_net_section, (100.0, 0.0), 1e8),
    (board.pad_contact_height, (300.0,), 120.0),
    (board.both_pads, (70.0,), 140.0),
    (board.across_bolt, (30.0, 20.0), 50.0),
    (careful.tension_with_error, (1000.0, 50.0), 1050.0),
    (careful.mean_of_two, (100.0, 200.0), 150.0),
    (careful.softer, (250.0, 2.0), 125.0),
    (careful.stiffer, (250.0, 2.0), 500.0),
    (of_trial.coated_thickness, (36.0, 2.0, 0.2, 0.3), 36.8),
    (of_trial.coated_thickness, (54.0, 3.0, 0.2, 0.3), 55.0),
    (hardware.plates_mass, (0.4, 0.1, 0.01, 2700.0, 2.0), 2.16),
    (hardware.washers_mass, (40.0, 20.0, 2.0, 1.0, 4.0), 2400 * pi),
    (hardware.hole_diameter, (12.7, 0.8), 13.5),
    (joints.pressed_diameter, (40.0, 19.0, 3.0), 25.0),
    (joints.pressed_diameter, (22.0, 19.0, 3.0), 22.0),
    (joints.stiff_diameter, (40.0, 19.0, 3.0), 25.0),
    (joints.spread_strength, (2.0, 3.0), 6.0),
    (joints.bearing_force, (6.0, 100.0), 600.0),
    (joints.cut_off, (20.0, 0.0), 50 * pi),
    (joints.cut_off, (20.0, 6.0), pi / 2 * 4 * 8),
    (joints.cut_off, (20.0, 10.0), 0.0),
    (joints.cut_off, (20.0, 30.0), 0.0),
    (joints.area_on_board, (100.0, 30.0), 70.0),
    (joints.area_on_board, (100.0, 130.0), 0.0),
    (joints.up_to_next, (20.0, 30.0), 20.0),
    (joints.up_to_next, (20.0, 15.0), 15.0),
    (spacing.least_reach, (4.0, 3.0, 2.0, 1.0), 1.0),
    (spacing.least_reach, (1.0, 2.0, 3.0, 4.0), 1.0),
    (spacing.least_reach, (4.0, 1.0, 3.0, 2.0), 1.0),
    (spacing.least_reach, (4.0, 3.0, 1.0, 2.0), 1.0),
    (spacing.share_of_room, (10.0, 40.0), 0.25),
    (spacing.share_of_room, (10.0, 0.0), 10_000.0),
    (spacing.outermost, (160.0, 38.0), 198.0),
    (spacing.clear_inside, (600.0, 20.0), 280.0),
    (places.nearest_edge, (1.0, 2.0, 3.0), 1.0),
    (places.nearest_edge, (2.0, 1.0, 3.0), 1.0),
    (places.nearest_edge, (3.0, 2.0, 1.0), 1.0),
    (places.side_edge, (600.0, -160.0), 140.0),
    (places.bottom_edge, (450.0, 250.0), 200.0),
    (places.offset, (10.0, 25.0), 15.0),
    (places.distance, (3.0, 4.0), 5.0),
    (places.to_rim, (30.0, 20.0), 20.0),
    (places.past, (30.0, 10.0, 5.0), 20.0),
    (places.past, (-30.0, 10.0, 5.0), 25.0),
    (places.past, (3.0, 10.0, 5.0), 0.0),
    (places.seen_from, (30.0, 10.0), 20.0),
    (sideways.stagger_of_one_row, (200.0,), 50.0),
    (sideways.pair_pitch, (160.0,), 320.0),
    (sideways.side_plate, (10.0, 19.0), 10.0),
    (sideways.side_plate, (10.0, 8.0), 8.0),
    (sideways.row_share, (1.9, 2.0), 0.95),
    (sideways.sideways_resistance, (1000.0, 0.5, 0.9, 0.8), 360.0),
    (sideways.at_edge_in_row, (1000.0, 0.9, 0.8), 720.0),
    (ruler.push_aft, (150.0, 280.0), 290.0),
    (ruler.stop_and_look, (4.0,), 6.0),
    (ruler.stop_and_look, (4.0, 2.0), 8.0),
]  # fmt: skip
PATCH: list[Row] = [
    (patch.reach_on_side, (38.0, 19.0, 20.0), 29.5),
    (patch.reach_on_side, (25.0, 19.0, 20.0), 25.0),
    (patch.working_diameter, (44.0, 19.0, 10.0), 39.0),
    (patch.working_diameter, (30.0, 19.0, 10.0), 30.0),
    (patch.square_of_equal_perimeter, (40.0,), 10 * pi),
    (patch.net_bearing_area, (10.0, 20.0, 15.0, 25.0, 10.0), 1200 - 25 * pi),
    (patch.net_bearing_area, (1.0, 1.0, 1.0, 1.0, 10.0), 0.0),
    # Reach 20 and t/2 18: 38 lies inside an edge at 38.1, on one at 38 no longer.
    (patch.side_end, (20.0, 38.1, 36.0), 20 + 4.5 * pi),
    (patch.side_end, (20.0, 38.0, 36.0), 38.0),
    (patch.side_inside, (20.0, 38.1, 36.0), 1.0),
    (patch.side_inside, (20.0, 38.0, 36.0), 0.0),
    (patch.side_length, (10.0, 20.0), 30.0),
    (patch.run_out_length, (30.0, 10.0, 20.0, 15.0, 60.0), 35.0),
    (patch.run_out_length, (30.0, 10.0, 20.0, 60.0, 25.0), 35.0),
    (patch.sides_left_open, (2.0,), 1.0),
    (patch.sides_left_open, (0.0,), 0.0),
    (patch.sides_inside, (1.0, 1.0), 2.0),
    (patch.weighted_perimeter, (2.0, 30.0, 1.5, 1.0, 34.0, 1.7), 60.0),
    (patch.sliding_stress, (1000.0, 100.0, 20.0), 0.5),
    (patch.sliding_stress, (1000.0, 0.0, 20.0), 2500.0),
    (patch.remaining, (10.0, 4.0), 6.0),
    (patch.remaining, (4.0, 10.0), 0.0),
    (patch.half_of, (10.0,), 5.0),
    (patch.thickness_at_edge, (20.0, 30.0, 36.0), 19.99998),
    (patch.thickness_at_edge, (20.0, 60.0, 36.0), 36.0),
    (patch.thickness_at_edge, (20.0, 10.0, 36.0), 0.001),
    (patch.perimeter_of_thinner, (100.0, 18.0, 36.0), 50.0),
    (patch.worse_sliding, (1.0, 2.0), 2.0),
    (patch.worse_sliding, (2.0, 1.0), 2.0),
    (patch.gap_to_hole, (50.0, 60.0, 10.0, 20.0, 15.0, 20.0, 10.0), 45.0),
    (patch.gap_to_hole, (-40.0, -55.0, 10.0, 20.0, 15.0, 20.0, 10.0), 45.0),
    (patch.gap_to_hole, (5.0, 5.0, 10.0, 20.0, 15.0, 20.0, 10.0), -5.0),
    # Half of the thickest board, 90 mm; the hole that touches it is not within.
    (patch.perimeter_lost, (44.9, 25.0), 25.0),
    (patch.perimeter_lost, (45.0, 25.0), 0.0),
    (patch.area_lost, (-0.1, 20.0), 100 * pi),
    (patch.area_lost, (0.0, 20.0), 0.0),
    (patch.outward_of, (-30.0, 20.0, -1.0), 10.0),
    (patch.below_of, (50.0, 20.0), 30.0),
    (patch.lost_of_weighted, (25.0, 1.25), 20.0),
]
FRAME: list[Row] = [
    (crossmembers.back_to_level, (0.2,), -0.2),
    (crossmembers.with_pod, (-1000.0, 10.0, 40.0, 100.0), -1500.0),
    # One row square to the other: 20 x 5 - 3 x 2 over 4 x 5 - 4.
    (crossmembers.lever_of_moment, (20.0, 3.0, 4.0, 5.0, 2.0), 94 / 16),
    (crossmembers.corner_pull, (-600.0, 6.0, -1000.0, 0.1, 500.0, -0.2), 300.0),
    (crossmembers.corner_pull, (600.0, 6.0, -1000.0, 0.1, 500.0, -0.2, 1.5), 300.0),
    (crossmembers.polar, (10.0, 20.0), 30.0),
    (crossmembers.stiff_both_ways, (4.0, 5.0, 2.0), 0.8),
    (crossmembers.rivet_resistance, (1000.0, 1.25), 800.0),
    (frame.flange_moment, (1000.0, 20.0, 80.0), 250.0),
    (frame.flange_resistance, (4.0, 110.0, 2.0, 55.0, 1.1), 450.0),
    (frame.least_hole_edge, (10.0, 1.5), 15.0),
    (frame.both_thicknesses, (4.0, 2.0), 6.0),
    (frame.opposite_of, (1.25,), 0.8),
    (frame_pull.stations, (70.0, 30.0, 20.0), 2.0),
    (frame_pull.gaps, (5.0,), 4.0),
    (frame_pull.part_of_pitch, (2.25, 4.0, 2.0), 0.25),
    (frame_pull.part_of_pitch, (-1.0, 4.0, 0.0), 0.0),
    (frame_pull.part_of_pitch, (9.0, 4.0, 4.0), 0.0),
    (frame_pull.nearer_share, (0.25,), 0.75),
    (frame_pull.nearer_share, (0.75,), 0.75),
    (frame_pull.share_with_overhang, (1.0, -0.5, 4.0), 1.5),
    (frame_pull.share_with_overhang, (1.0, 4.5, 4.0), 1.5),
    (frame_pull.share_with_overhang, (1.0, 2.5, 4.0), 1.0),
    (frame_pull.couple_on_sides, (-1000.0, 500.0), 2.0),
    (frame_pull.bolt_pull, (100.0, 20.0, 0.5), 60.0),
    (frame_pull.bolt_pull, (-100.0, 20.0, 0.5), 10.0),
    (frame_pull.with_own_weight, (-1000.0, 20.0, 100.0), -1200.0),
    (frame_pull.mass_of_board, (0.6, 0.5, 20.0), 6.0),
    (frame_pull.worst_component, (-10.0, -20.0), 30.0),
    (frame_pull.depth_as_height, (100.0,), -100.0),
    (frame_pull.half_span, (500.0,), 250.0),
    (frame_pull.working_length, (60.0, 20.0, 16.0), 60.0),
    (frame_pull.working_length, (200.0, 20.0, 16.0), 100.0),
    (frame_pull.flange_give, (20.0, 80.0, 4.0, 2.0), 4 * 8000 / (70000 * 80 * 72)),
    (frame_pull.bolt_give, (36.0, 4.0, 50.0, 2e5), 4e-6),
    (frame_pull.wood_give, (36.0, 600.0, 250.0), 2.4e-4),
    (frame_pull.edge_area, (60.0, 20.0), 600.0),
    (frame_pull.gives_together, (1.0, 2.0, 4.0), 7.0),
    (frame_pull.edge_travel, (-0.4, 10.0, 20.0), 0.2),
    (frame_pull.edge_travel, (0.4, 10.0, 20.0), 0.0),
    (frame_pull.prying, (0.5, 1000.0, 3e-4, 1e-4), 500.0),
    (frame_pull.prying, (0.2, 1000.0, 3e-4, 1e-4), 0.0),
    (frame_pull.hat, (-0.25,), 0.75),
    (frame_pull.hat, (1.5,), 0.0),
    (frame_pull.first_of_even, (4.0, 20.0), -30.0),
    (frame_pull.travel_between, (5.0, 4.0, 8.0, 1.0, 3.0), 1.5),
    (frame_pull.travel_between, (3.0, 4.0, 8.0, 1.0, 3.0), 1.0),
    (frame_pull.travel_between, (9.0, 4.0, 8.0, 1.0, 3.0), 3.0),
    (frame_pull.place_of, (-30.0, 2.0, 20.0), 10.0),
    (reactions.row_on_line, (-1.0, 1000.0, 300.0), -700.0),
    (reactions.rest_of, (0.3,), 0.7),
    (reactions.upper_end_force, (100.0, 20_000.0, -100.0, -300.0), 125.0),
    (reactions.lower_end_force, (100.0, 20_000.0, -100.0, -300.0), -75.0),
    (reactions.couple_at_end, (1000.0, 50.0), 10.0),
    (reactions.gap, (10.0, 4.0), 6.0),
]


@pytest.mark.parametrize("function, given, expected", BOARD + PATCH + FRAME)
def test_worked_by_hand(function: Callable[..., Any], given: tuple[float, ...], expected: float) -> None:
    assert function(*given) == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_where_two_pulls_balance_force_and_moment() -> None:
    """Two of each at -100 and -300: twice their sum is the force, twice their sum of moments the moment."""
    a, b = (end(100.0, 20_000.0, -100.0, -300.0) for end in (reactions.upper_end_force, reactions.lower_end_force))
    assert 2 * (a + b) == pytest.approx(100.0)
    assert 2 * (-100.0 * a - 300.0 * b) == pytest.approx(20_000.0)


WIDE = Edges(100.0, 300.0, 300.0, 300.0, FAR, FAR, FAR, FAR)
TEN = (10.0, 10.0, 10.0, 10.0)


def test_perimeter_far_from_every_edge_is_closed() -> None:
    """2 (20 + 20) + 36 pi; of the pair's, half: two level sides of 100 + 10 + 36 pi/8 and one upright one."""
    around = perimeters_of(TEN, WIDE, 36.0, (1.0, 1.0))
    assert around.own == pytest.approx(80 + 36 * pi)
    assert around.shared == pytest.approx(2 * (110 + 4.5 * pi) + 20 + 9 * pi)
    less = perimeters_of(TEN, WIDE, 36.0, (1.5, 1.25), 25.0)
    assert less.own == pytest.approx((40 + 18 * pi) * (1 / 1.5 + 1 / 1.25) - 20.0)


def test_perimeter_runs_out_at_a_free_edge() -> None:
    """Outer edge 30 off: one upright side and two level ones run out to it, 10 + 4.5 pi + 30 each."""
    edges = replace(WIDE, outer=30.0, free_outer=30.0)
    assert perimeters_of(TEN, edges, 36.0, (1.0, 1.0)).own == pytest.approx(20 + 9 * pi + 2 * (40 + 4.5 * pi))


@pytest.mark.parametrize("up", [25.0, 12.0])
def test_a_thicker_board_carries_no_less_beside_an_edge_that_holds(up: float) -> None:
    """25 above, t of 30 is where the perimeter touches; what 29.99 carries is kept: p t/t."""
    edges = replace(WIDE, up=up)
    t = np.linspace(1.0, 90.0, 400)
    around = perimeters_of(TEN, edges, t, (1.5, 1.7))
    assert np.all(np.diff(around.own * t) > -1e-9)
    assert np.all(np.diff(around.shared * t) > -1e-9)
    assert around.own[0] > 20.0  # one side of the square at least


def test_past_the_touching_the_thinner_boards_perimeter_counts() -> None:
    """Up 25: at 30 all four sides of 2 (40) + 30 pi; at 31 three are left, 3 x (20 + 31 pi/4) - less: 30 thick decides."""
    edges = replace(WIDE, up=25.0)
    closed = (80 + 30 * pi) * 30 / 31
    assert perimeters_of(TEN, edges, 31.0, (1.0, 1.0)).own == pytest.approx(closed, rel=1e-4)


@pytest.mark.parametrize("width, inward, free", [(300.0, 13.5, 13.5), (327.0, 0.0, 0.0), (340.0, 163.5, FAR)])
def test_a_notch_beside_a_bolt_is_an_edge_inward(width: float, inward: float, free: float) -> None:
    """Upper bolts at 163.5: a notch that ends short of them, at them, and past them (it lies over them then)."""
    of = trial(on_board(notch_width=width, notch_depth=20.0))
    assert of.towards_middle(163.5) == pytest.approx(inward)
    assert of.free_inward(163.5) == pytest.approx(free)
    assert of.above(163.5, 47.6) == pytest.approx(27.6 if width > 327.0 else 47.6)


def test_openings_count_against_the_strip_they_lie_in() -> None:
    """Bored 25, 400 down. Half way between the rows at 155.8 ahead, 158.4 astern; below it 269.2 and 266.6 to the bottom line.

    On the center line half of it lies in the strip up the board on either side, 280 wide.
    """
    whole, bored = trial(), trial(on_board(openings=(Hole(0.0, 400.0, 25.0),)))
    across, up = map(np.ravel, board._left_of_strips(bored))
    assert across[[0, 2]] == pytest.approx([1 - 25 / 269.2, 1 - 25 / 266.6])
    assert up[0] == pytest.approx(1 - 12.5 / 280.0)
    assert [float(np.ravel(s)[0]) for s in board._left_of_strips(whole)] == [1.0, 1.0]
