"""Edges, spacing, openings, obstructions: EN 1995-1-1:2004 Table 8.4; 3.5 d in cross-banded plywood is a convention."""

from dataclasses import replace
from math import hypot

import pytest

from tests.checks.shop import JOB, MOUNT, on_board, plate, row, setup_of, trial, with_bolts, with_engine
from transom.job.records import Backing, EngineBracket, Hole, Job

EDGE, PITCH = "engine-bolts.edge-distance.ec5", "engine-bolts.bolt-spacing.ec5"
FOUR = ((163.5, 47.6), (-163.5, 47.6), (125.4, 250.8), (-125.4, 250.8))


def odd(*more: tuple[float, float]) -> Job:
    """The usual four bolts listed one by one, and more."""
    return with_engine(bracket=EngineBracket(bolts=tuple(Hole(y, z) for y, z in (*FOUR, *more))))


def test_the_usual_pattern_is_accepted_on_its_edge() -> None:
    """3.5 x 12.7 = 44.45 against 47.6; the nearest two bolts are (38.1, 203.2): 206.7 against 5 x 12.7 = 63.5."""
    one, two = row(trial(), EDGE), row(trial(), PITCH)
    assert (one.demand, one.resistance) == (pytest.approx(44.45), pytest.approx(47.6))
    assert (two.demand, two.resistance) == (pytest.approx(63.5), pytest.approx(hypot(38.1, 203.2)))
    assert one.passes
    assert two.passes
    assert one.evidence == "convention"


@pytest.mark.parametrize("down, good", [(44.46, True), (44.44, False)])
def test_edge_at_its_floor(down: float, good: bool) -> None:
    assert row(trial(setup=setup_of(engine__bracket__top_to_upper=down)), EDGE).passes is good


def test_side_and_bottom_edges_count() -> None:
    """A board 400 wide leaves 200 - 163.5 = 36.5 at the upper bolts' sides; one 290 high 39.2 below the lower."""
    assert row(trial(on_board(width=400.0)), EDGE).resistance == pytest.approx(36.5)
    assert row(trial(on_board(height=290.0)), EDGE).resistance == pytest.approx(39.2)
    assert not row(trial(on_board(width=400.0)), EDGE).passes
    assert not row(trial(on_board(height=290.0)), EDGE).passes


def test_a_bolt_off_the_board_fails() -> None:
    assert not row(trial(on_board(width=320.0)), EDGE).passes


@pytest.mark.parametrize(
    "width, depth, left",
    [
        (300.0, 60.0, 13.5),  # beside the notch, level with it
        (300.0, 20.0, hypot(13.5, 27.6)),  # from its corner
        (400.0, 20.0, 27.6),  # below it
        (400.0, 60.0, 0.0),  # in it
        (100.0, 30.0, 47.6),  # far from it: the top edge
    ],
)
def test_the_notch_is_an_edge(width: float, depth: float, left: float) -> None:
    one = row(trial(on_board(notch_width=width, notch_depth=depth)), EDGE)
    assert one.resistance == pytest.approx(left, abs=1e-6)
    assert one.passes is (left >= 44.45)


def test_every_bolt_of_an_odd_pattern_counts() -> None:
    """A bolt at y 285, 150 down is 20 from the side; one at y 150, 90 down is 44.5 from an upper bolt."""
    assert row(trial(odd((285.0, 150.0), (-285.0, 150.0))), EDGE).resistance == pytest.approx(20.0)
    assert row(trial(odd((150.0, 90.0), (-150.0, 90.0))), PITCH).resistance == pytest.approx(hypot(13.5, 42.4))
    assert not row(trial(odd((285.0, 150.0), (-285.0, 150.0))), EDGE).passes
    assert not row(trial(odd((150.0, 90.0), (-150.0, 90.0))), PITCH).passes


def test_listing_the_usual_four_changes_little() -> None:
    """The same bolts one by one: the same edges; the row's share at the smallest spacing, 0.986, not 0.983."""
    a, b = trial(), trial(odd())
    for name in (EDGE, PITCH):
        assert row(a, name).resistance == pytest.approx(row(b, name).resistance)
    name = "engine-bolts.sideways-in-wood.ec5"
    assert row(b, name, "ahead").resistance == pytest.approx(row(a, name, "ahead").resistance, rel=0.01)


def test_three_rows_in_line_share_less() -> None:
    """Six bolts, rows 101.6 apart: 3^0.9 (a/165.1)^0.25 / 3 with a = 101.6 the smallest spacing: 0.7935 of each."""
    line = with_engine(
        bracket=EngineBracket(bolts=tuple(Hole(s * 150, z) for z in (60.0, 161.6, 263.2) for s in (1, -1)))
    )
    of = trial(line)
    share = 3**0.9 * (101.6 / 165.1) ** 0.25 / 3
    assert share == pytest.approx(0.7935, abs=1e-3)
    one = row(of, "engine-bolts.sideways-in-wood.ec5", "ahead").resistance
    # Worked in test_bolts.py: 11,481 N before duration, edge and row; the edge is over 4 d here.
    assert one == pytest.approx(11481 * 0.7 / 1.3 * share, rel=1e-3)


@pytest.mark.parametrize("down, good", [(104.6, True), (104.4, False)])
def test_openings_keep_an_edges_distance(down: float, good: bool) -> None:
    """A 25 mm drain below an upper bolt: rim at down - 47.6 - 12.5, 44.45 asked (104.55 down)."""
    one = row(trial(on_board(openings=(Hole(163.5, down, 25.0),))), "board.opening-1.ec5")
    assert one.passes is good
    assert one.resistance == pytest.approx(down - 60.1)


def test_an_opening_over_a_bolt_fails() -> None:
    assert not row(trial(on_board(openings=(Hole(163.5, 47.6, 25.0),))), "board.opening-1.ec5").passes


@pytest.mark.parametrize(
    "y, down, room",
    [
        (0.0, 47.6, -20.0),  # on a pair's plate, between its bolts
        (0.0, 120.0, 120.0 - 85.7 - 20.0),  # below it
        (240.0, 47.6, 240.0 - 190.5 - 20.0),  # beside it
        (0.0, 330.0, 330.0 - 288.9 - 20.0),  # below the lower plate
    ],
)
def test_obstructions_keep_clear_of_a_pairs_plate(y: float, down: float, room: float) -> None:
    """A 40 mm thing; upper plate y +-190.5, 9.5 to 85.7 down, lower 212.7 to 288.9; 3 mm are asked."""
    one = row(trial(on_board(obstructions=(Hole(y, down, 40.0),))), "assembly.obstruction-1")
    assert one.resistance == pytest.approx(max(room, 0.0), abs=1e-6)
    assert one.passes is (room >= 3.0)


def test_obstructions_see_the_long_side_of_a_plate_per_bolt() -> None:
    """Plates 76 wide, 90 high: one 30 mm thing 65 below an upper bolt: 65 - 45 - 15 = 5 clear."""
    of = trial(on_board(obstructions=(Hole(163.5, 112.6, 30.0),)), plate(width=76.0, height=90.0, per="bolt"))
    assert row(of, "assembly.obstruction-1").resistance == pytest.approx(5.0)


def test_obstructions_under_one_plate_for_all() -> None:
    of = trial(on_board(obstructions=(Hole(0.0, 150.0, 30.0),)), plate(height=280.0, per="all"))
    assert not row(of, "assembly.obstruction-1").passes


def test_obstructions_see_washers_of_an_odd_pattern() -> None:
    """A middle bolt at y 60, 150 down with a 44.45 washer: a 20 mm thing 30 beside it: 30 - 22.2 - 10 < 3."""
    job = replace(odd((60.0, 150.0), (-60.0, 150.0)), board=replace(JOB.board, obstructions=(Hole(90.0, 150.0, 20.0),)))
    assert not row(trial(job, with_bolts(forward=Backing(washer="1/2 wide"))), "assembly.obstruction-1").passes


def test_plate_pitch() -> None:
    """3 x 12.7 = 38.1 against 206.7."""
    one = row(trial(), "backing.plate-pitch")
    assert (one.demand, one.resistance) == (pytest.approx(38.1), pytest.approx(hypot(38.1, 203.2)))
    assert MOUNT.layers
