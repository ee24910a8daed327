"""Board checks against figures worked with a pocket calculator; clauses of EN 1995-1-1:2004 named beside them."""

from dataclasses import replace
from math import hypot, pi, sqrt

import numpy as np
import pytest

from tests.checks.shop import AHEAD, ASTERN, JOB, MOUNT, SHEET, alone, cases, on_board, plate, row, setup_of, trial
from transom.checks import all_checks
from transom.checks.trial import Trial
from transom.job.records import Hole, Job, Layer, Mount

T = 36.52  # two sheets of 18.26
K = 0.7 / 1.2  # EN 1995-1-1 Table 3.1 plywood, service class 3, short; Table 2.3 plywood


def upper_tension(N: float = 3000.0, F_z: float = -2000.0, M_y: float = 2.6e6) -> float:
    """M = My - Fz t/2 = 2.6e6 + 2000 x 18.26 = 2,636,520; T_u = (M - 264 N)/(2 x 216.4) = 4261.8 N a bolt."""
    return (M_y - F_z * 18.26 - 264.0 * N) / (2 * (264.0 - 47.6))


def test_upper_tension_is_what_the_docstring_says() -> None:
    assert upper_tension() == pytest.approx(4261.8, abs=0.1)
    assert float(trial().strips.T_u[0, 0]) == pytest.approx(4261.8, abs=0.1)


def moments() -> tuple[float, float, float]:
    """Crossed strips by hand for `ahead`, span 560, bottom line at 425, rows at 47.6 (bolts) and 264 (pads).

    P1 = 4261.8, P2 = C/2 = (3000 + 2 x 4261.8)/2 = 5761.8; E1 5806.6, E2 6210.0, G 120 (lamination worked below).
    Upper strip b1 = (47.6 + 264)/2 = 155.8, lower b2 = 425 - 155.8 = 269.2, upright b_v = 280 each.
    """
    P1, P2 = 4261.8, 5761.8
    I = T**3 / 12  # 4059 mm^3 per mm  # noqa: E741
    a1, a2 = 280 - 163.5, 280 - 140.0
    f1 = a1**2 * (3 * 560 - 4 * a1) / (6 * 5806.6 * I * 155.8) + a1 / (5 / 6 * 120 * 155.8 * T)
    f2 = a2**2 * (3 * 560 - 4 * a2) / (6 * 5806.6 * I * 269.2) + a2 / (5 / 6 * 120 * 269.2 * T)
    d, L1, L2 = 216.4, 425 - 47.6, 425 - 264.0
    r = L1 / L2
    fv = d * d * L1 / (3 * 6210.0 * I * 280) + (d + d * d / L2) / (5 / 6 * 120 * 280 * T)
    q1 = (P1 * f1 + r * P2 * f2) / (f1 + r * r * f2 + fv)
    Mx = max(abs(P1 - q1) * a1 / 155.8, abs(P2 - r * q1) * a2 / 269.2) + 0.05 * P2
    return Mx, q1 * d / 280 + 0.08 * P2, 0.075 * P2


def test_lamination_by_hand() -> None:
    """Unit sheet of five plies of 0.2: face plies I 0.066, cross plies 0.017333; 5 % of the modulus across the grain.

    E_face = 7000/12/(0.066 + 0.05 x 0.017333) = 8723.8, E_cross = 4000/12/(0.017333 + 0.05 x 0.066) = 16,155.
    Two sheets: I_face 2(0.066 + 0.6/4) = 0.432, I_cross 2(0.017333 + 0.4/4) = 0.23467; over 2^3/12:
    E1 = 12/8 (8723.8 x 0.432 + 436.2 x 0.23467) = 5806.6; E2 = 12/8 (16,155 x 0.23467 + 807.8 x 0.432) = 6210.0.
    """
    stacks = trial().stacks
    assert stacks.E_1[0] == pytest.approx(5806.6, rel=1e-4)
    assert stacks.E_2[0] == pytest.approx(6210.0, rel=1e-4)


def bending(share_across: float, share_up: float) -> float:
    """Face veneer 28.66 MPa at z = h, cross veneer 33.93 at 0.8 h, h = 18.26 (fitted as in the lamination above).

    Stress over strength per moment: face 8723.8/(3871.0 x 28.66)/h^2 = 2.358e-4, cross
    16,155 x 0.8/(4140.0 x 33.93)/h^2 = 2.760e-4; twist 1.5/(3.5 h^2) = 1.2853e-3 and 0.8 of it.
    """
    Mx, My, Mxy = moments()
    across = hypot(2.358e-4 * Mx / share_across, 1.2853e-3 * Mxy)
    up = hypot(2.760e-4 * My / share_up, 1.0283e-3 * Mxy)
    return max(across, up) / K


def test_bending_with_holes() -> None:
    """Over-bore 12.7 + 12.7 = 25.4. Across: 4 holes 101.6, but twice the edge 95.2: 1 - 25.4/95.2 = 0.7332.

    Up: plate reaches 43.0 + 27 = 70, less than 101.6: 1 - 25.4/101.6 = 0.75.
    """
    one = row(trial(), "board.bending.ec5", "ahead")
    assert one.demand == pytest.approx(bending(0.7332, 0.75), rel=2e-3)
    assert one.resistance == 1.0
    assert not one.passes


def test_holes_count_at_any_load() -> None:
    """EN 1995-1-1, 5.2 takes holes out whatever is used of the strength: demand goes in proportion to the load, no step."""
    for times in (0.3, 0.6, 0.9):
        of = trial(loads=alone(AHEAD, times=times))
        assert row(of, "board.bending.ec5", "only").demand == pytest.approx(times * bending(0.7332, 0.75), rel=2e-3)


def test_holes_count_alike_in_weaker_sheets() -> None:
    weak = setup_of(JOB, panel__strength=0.5)
    one = row(trial(loads=alone(AHEAD, times=0.3), setup=weak), "board.bending.ec5", "only")
    assert one.resistance == 0.5
    assert one.demand == pytest.approx(0.3 * bending(0.7332, 0.75), rel=2e-3)


def test_openings_and_notch_are_taken_from_the_strips_they_lie_in() -> None:
    """25 mm drain 400 down in the lower strip, 269.2 wide; a notch 100 wide, 30 deep in the upper, 155.8.

    Across the worse of 1 - 25/269.2 and what is above (nothing), times 1 - 30/155.8: 0.9071 x 0.8074 = 0.7325. Up: the
    strip runs 0 to 280 from the center line, half of the drain on either side: (1 - 12.5/280)(1 - 100/610) = 0.7987.
    """
    job = on_board(openings=(Hole(0.0, 400.0, 25.0),), notch_width=100.0, notch_depth=30.0)
    expected = bending(0.7325 * 0.7332, 0.7987 * 0.75)
    assert row(trial(job), "board.bending.ec5", "ahead").demand == pytest.approx(expected, rel=2e-3)


def test_an_opening_that_lies_in_both_strips_takes_its_part_of_each() -> None:
    """40 mm at 160 down: 15.8 of it above 155.8, 24.2 below; at y 100 whole in the strip up the board."""
    of = trial(on_board(openings=(Hole(100.0, 160.0, 40.0),)))
    expected = bending(min(1 - 15.8 / 155.8, 1 - 24.2 / 269.2) * 0.7332, (1 - 40 / 280) * 0.75)
    assert row(of, "board.bending.ec5", "ahead").demand == pytest.approx(expected, rel=2e-3)


def test_turning_a_sheet_swaps_which_way_is_strong() -> None:
    """All along: a cap rail's or pod's strips across now lie along the cross plies; 6210 and 5806.6 change places."""
    along = Mount((Layer(SHEET, "along"), Layer(SHEET, "along")), MOUNT.engine_bolts)
    of = trial(mount=along)
    assert of.stacks.E_1[0] == pytest.approx(6210.0, rel=1e-4)
    assert of.stacks.E_2[0] == pytest.approx(5806.6, rel=1e-4)
    assert row(of, "board.bending.ec5", "ahead").demand != pytest.approx(bending(0.7332, 0.75), rel=0.02)


C_1, C_2 = 1.3071, 1.6779  # of the lay-up: along the board, and up it (test_shear_factor_by_hand)
CORNER = pi * T / 8
REACH = 19.05 / 2 + 6.35 * sqrt(240 / (2 * 3.92 * 1.1))


def sliding_perimeter() -> float:
    """Reach of the plate: p_d = 3 x 2.24 x 0.5833 = 3.92; m = 6.35 sqrt(240/(2 x 3.92 x 1.1)) = 33.50, + 19.05/2 = 43.02.

    Inner 43.02, outer (381 - 327)/2 = 27, up and down 38.1. At t/2 = 18.26 outside, up lies past the edge
    (56.36 > 47.6): nothing there, and the upright sides run out to it. Corners pi t/8 = 14.34 a piece. Upright sides
    47.6 + 52.44 = 100.04, below 57.36 + 41.34 = 98.71: 2 x 100.04/1.3071 + 98.71/1.6779 = 211.9 mm. Half of
    the one round both bolts, open to the middle at 163.5: 100.04/1.3071 + (163.5 + 41.34)/1.6779 = 198.6 mm.
    With no couple both pull alike and the shorter counts.
    """
    upright = 47.6 + 38.1 + CORNER
    closed = 2 * upright / C_1 + (REACH + 27 + 2 * CORNER) / C_2
    return min(closed, upright / C_1 + (163.5 + 27 + CORNER) / C_2)


def test_a_bolt_that_pulls_harder_than_its_twin_slides_by_its_own_perimeter() -> None:
    """Hard over: 5308.8 N with the couple, 4488.4 without: 5308.8/211.9 = 25.05 against 4488.4/198.6 = 22.60 N/mm."""
    one = row(trial(), "board.plies-sliding-upper-bolts.ec5", "hard-over")
    assert one.demand == pytest.approx(5308.8 / (211.9 * T), rel=1e-3)


def test_plies_sliding_at_an_upper_bolt() -> None:
    """T with prying 4261.8 x 45/36.52 = 5251.4; tau = 5251.4/(198.6 x 36.52) = 0.7240 against 1.4 x 0.5833 = 0.8167."""
    one = row(trial(), "board.plies-sliding-upper-bolts.ec5", "ahead")
    assert sliding_perimeter() == pytest.approx(198.6, abs=0.1)
    assert one.demand == pytest.approx(0.7240, rel=1e-3)
    assert one.resistance == pytest.approx(0.8167, rel=1e-3)
    assert one.passes


def test_shear_factor_by_hand() -> None:
    """Shear up the board: cross veneers carry it, the face veneers roll; the largest first moment beyond a rolling layer.

    From mid-plane out the order is face (0 to 0.2 of h), cross 0.2 to 0.4, face to 0.6, cross to 0.8, face to 1.
    E S beyond mid-plane: cross 16,155 (0.2 x 0.3 + 0.2 x 0.7) = 3231, faces 807.8 (0.2)(0.1 + 0.5 + 0.9) = 242.3:
    c = t S/D = 2 x 3473.3/4140.0 = 1.678. Along the board faces and cross veneers change places, and the cross ones
    roll: E S beyond 0.2 is 807.8 (0.2)(0.3 + 0.7) + 16,155 (0.2)(0.5 + 0.9) = 4685; 2 x 4685/7168.5 = 1.307.
    """
    assert trial().stacks.c_1[0] == pytest.approx(1.307, rel=1e-3)
    assert trial().stacks.c_2[0] == pytest.approx(1.678, rel=1e-3)


def test_couple_about_the_upward_axis_adds_at_the_worse_side() -> None:
    """Hard over: Mz + Fy t/2 = -500,000 - 2000 x 18.26 = -536,520; over 4 x 163.5: 820.4 N more, 4 x 125.4: 1069.6.

    T_u = (2.2e6 + 36,520 - 264 x 2500)/432.8 = 3642.6, with prying 4488.4: 5308.8 N. Lower: couple alone.
    """
    of = trial()
    at = of.cases.names.index("hard-over")
    assert of.upper_tension[0, at] == pytest.approx(5308.8, rel=1e-4)
    assert of.lower_tension[0, at] == pytest.approx(1069.6, rel=1e-4)


def test_lower_row_astern_and_its_sliding() -> None:
    """M = -1.4e6 + 1000 x 18.26 = -1,381,740, N = -3000; T_l = (1,381,740 - 66 x 3000)/(2 x 184.8) = 3202.8,
    with prying 3946.5. Lower plate: outer (381 - 250.8)/2 = 65.1, so 43.02 both ways; nothing lies past an edge:
    2 x 114.73/1.6779 + 2 x 104.88/1.3071 = 297.2 mm (open to the middle 298.1); tau = 3946.5/(297.2 x 36.52) = 0.3636.
    """
    one = row(trial(), "board.plies-sliding-lower-bolts.ec5", "astern")
    assert one.demand == pytest.approx(0.3636, rel=1e-3)
    assert row(trial(), "board.plies-sliding-upper-bolts.ec5", "astern").demand == 0.0


def test_plies_sliding_at_a_pad() -> None:
    """C/2 = 5761.8 on 70 x 132 at 264 down. Closed 2 x 98.68/1.6779 + 2 x 160.68/1.3071 = 363.5 mm; both pads together,
    open to the middle at 140: 2 (140 + 49.34)/1.6779 + 160.68/1.3071 = 348.6. tau = 5761.8/(348.6 x 36.52) = 0.4526.
    """
    assert row(trial(), "board.plies-sliding-pads.ec5", "ahead").demand == pytest.approx(0.4526, rel=1e-3)


def test_pad_at_the_top_loses_the_side_past_the_edge() -> None:
    """Astern the pad pushes at 66, +-66: its top side lies past the edge, sides end at 66. C = -3000 + 2 x 3202.8.

    Upright 146.34; open to the middle 146.34/1.3071 + (140 + 49.34)/1.6779 = 224.8 (else 282.7);
    tau = 1702.8/(224.8 x 36.52) = 0.2074.
    """
    assert row(trial(), "board.plies-sliding-pads.ec5", "astern").demand == pytest.approx(0.2074, rel=1e-3)


def test_pad_block() -> None:
    """f = 3.92 MPa on 2 x 70 = 140 mm; about the upper bolts M' = 2,636,520 - 3000 x 47.6 = 2,493,720, L = 282.4.

    y = L - sqrt(L^2 - 2 M'/(f b)) = 282.4 - sqrt(79,750 - 9088) = 16.57 against 165 mm.
    """
    one = row(trial(), "board.pad-bearing.ec5", "ahead")
    assert one.demand == pytest.approx(16.57, rel=1e-3)
    assert one.resistance == 165.0


def test_pad_off_the_board_presses_on_what_is_there() -> None:
    """A board 320 wide leaves 160 - 105 = 55 of each pad of 70: b 110, 2 M'/(f b) = 11,566, y = 21.28."""
    one = row(trial(on_board(width=320.0)), "board.pad-bearing.ec5", "ahead")
    assert one.demand == pytest.approx(21.28, rel=1e-3)


def test_the_strips_are_loaded_where_a_pad_lies_on_wood() -> None:
    """Pads 70 wide at 140 on a board 320 wide: from 105 to 160, middle 132.5; on one 350 wide they just fit."""
    for width, y in ((320.0, 132.5), (350.0, 140.0)):
        narrow = trial(on_board(width=width))
        moved = replace(narrow.setup.holding, pattern=replace(narrow.setup.holding.pattern, y_pad=y), pad_width=0.0)
        same = replace(narrow, setup=replace(narrow.setup, holding=moved))
        assert narrow.strips.Mx == pytest.approx(same.strips.Mx)
        assert narrow.strips.My == pytest.approx(same.strips.My)
        assert np.ptp(narrow.strips.Mx) > 100.0


def test_pad_over_a_notch_presses_beside_it() -> None:
    """A notch 250 wide reaches 125: of a pad from 105 to 175 there are 50; b 100, 2 M'/(f b) = 12,723, y = 23.54."""
    one = row(trial(on_board(notch_width=250.0, notch_depth=20.0)), "board.pad-bearing.ec5", "ahead")
    assert one.demand == pytest.approx(23.54, rel=2e-3)


def test_second_opinion_d510() -> None:
    """APA D510: service moments; what is asked is over one where twice the load is, and it decides nothing."""
    one, two = (row(trial(loads=cases(times=k)), "board.bending.d510", "ahead") for k in (1.0, 2.0))
    assert one.information
    assert two.demand == pytest.approx(2 * one.demand, rel=1e-6)
    Mx, My, _ = moments()
    gross = [6 * M / 1.5 / T**2 for M in (Mx, My)]
    # Table 9 of D510, sanded Group 1 23/32 in: 775 and 455 lbf in/ft over the section's own 18.26 mm, x 1.25 x 0.75.
    allowed = [6 * F / 18.26**2 * 1.25 * 0.75 for F in (775 * 0.37069, 455 * 0.37069)]
    # Moments scale with the load, but stiffness shares them, so the service ones are the design ones over 1.5.
    assert one.demand == pytest.approx(max(g / a for g, a in zip(gross, allowed, strict=True)), rel=2e-3)


def test_opening_in_the_perimeter_takes_its_diameter() -> None:
    """A hole of 50 at y 163.5, 140 down: rim 29.3 below the plate's edge at 85.7, nearer than 45: 50 mm less along
    the board. tau = 5251.4/((198.6 - 50/1.3071) x 36.52) = 0.8967, over 0.8167.
    """
    one = row(trial(on_board(openings=(Hole(163.5, 140.0, 50.0),))), "board.plies-sliding-upper-bolts.ec5", "ahead")
    assert one.demand == pytest.approx(0.8967, rel=1e-3)
    assert not one.passes


@pytest.mark.parametrize("y", [163.5, -163.5])
def test_opening_counts_on_either_side(y: float) -> None:
    one = row(trial(on_board(openings=(Hole(y, 140.0, 50.0),))), "board.plies-sliding-upper-bolts.ec5", "ahead")
    assert not one.passes


def test_notch_over_the_bolts_is_their_edge() -> None:
    """Notch 400 wide, 20 deep: 27.6 mm of wood above the bolts; upright 27.6 + 52.44 = 80.04, below 98.71:
    2 x 80.04/1.3071 + 98.71/1.6779 = 181.3 mm.
    """
    one = row(trial(on_board(notch_width=400.0, notch_depth=20.0)), "board.plies-sliding-upper-bolts.ec5", "ahead")
    assert one.demand == pytest.approx(5251.4 / (181.3 * T), rel=1e-3)


def test_notch_beside_the_bolts_is_their_edge() -> None:
    """Notch 240 wide: its side is 43.5 from the bolt, nearer than 43.02 + 18.26: that side carries nothing,
    and the one below ends there: 100.04/1.3071 + (43.5 + 41.34)/1.6779 = 127.1 mm.
    """
    one = row(trial(on_board(notch_width=240.0, notch_depth=60.0)), "board.plies-sliding-upper-bolts.ec5", "ahead")
    assert one.demand == pytest.approx(5251.4 / (127.1 * T), rel=1e-3)


def test_astern_bends_by_the_lower_row() -> None:
    """The lower bolts pull, the top of the pads pushes: load sides change, the board still works."""
    of = trial(loads=alone(ASTERN))
    assert not of.strips.ahead[0, 0]
    assert row(of, "board.bending.ec5", "only").demand > 0.4


def test_a_thicker_board_carries_what_a_thinner_one_does() -> None:
    """Plate 50.8 high, three sheets, 54.78 mm: at t/2 the top side lies past the edge (25.4 + 27.39 > 47.6); at 44.4 it
    just does not, and the perimeter that runs out there was the shorter one already: nothing jumps.
    """
    of = trial(mount=Mount((*MOUNT.layers, MOUNT.layers[0]), plate(height=50.8).engine_bolts))
    around = [replace(of, stacks=of.stacks.scaled(np.array([t]) / of.stacks.t[0])).upper_patch.around.own[0, 0]
              for t in (44.3, 44.5)]  # fmt: skip
    assert around[0] < around[1] < 1.01 * around[0]


@pytest.mark.parametrize("side", [30.0, 50.8, 76.2, 95.0])
@pytest.mark.parametrize(
    "job", [JOB, on_board(openings=(Hole(163.5, 130.0, 30.0),), notch_width=240.0, notch_depth=30.0)]
)
def test_thicker_is_never_worse_in_bending_or_sliding(side: float, job: Job) -> None:
    """Bolt tension moves with thickness as in-plane load acts at the aft face: by 0.1 % here, allowed for."""
    one = trial(job, plate(height=side))
    t = np.linspace(25.0, 90.0, 131)
    many = Trial(one.setup, one.cases, one.stacks.scaled(t / T), one.hardware)
    for c in all_checks(many):
        if c.what == "bending" or c.what.startswith("plies-sliding"):
            assert (np.diff(np.broadcast_to(c.worst, t.shape)) <= 1e-3 * c.worst[:-1]).all(), c.what
