"""The ruler check against beams by hand, and how it must follow push, board and frame."""

from dataclasses import replace

import numpy as np
import pytest

from tests.report.jobs import DRAWN, job, sized
from transom.catalogue import SHIPPED
from transom.checks.careful import Careful
from transom.checks.ruler import PUSH, movement, push_aft, ruler, stop_and_look
from transom.judge.judging import judge


def plate(name: str = "example") -> Careful:
    careful = sized(name).careful
    assert careful is not None
    return careful


def stiffer(careful: Careful, times: float) -> Careful:
    s = careful.stacks
    return replace(careful, stacks=replace(s, E_1=s.E_1 * times, E_2=s.E_2 * times, G_12=s.G_12 * times,
                                           G_trans=s.G_trans * times))  # fmt: skip


def test_the_push_stands_a_propellers_radius_aft_of_the_steering_axis() -> None:
    assert push_aft(150.0, 280.0) == 290.0
    assert stop_and_look(2.0) == 3.0  # half as much again, a convention
    r = ruler(plate(), PUSH["us"], 11 * 25.4)
    assert r.push == pytest.approx(180 * 4.4482216152605)
    assert r.limit == pytest.approx(1.5 * r.moves)


def test_twice_the_push_moves_twice_as_far() -> None:
    """Contact without gaps: nothing but the size of the forces follows the size of the push."""
    down, once = movement(plate(), 800.0, 290.0)
    assert movement(plate(), 1600.0, 290.0) == pytest.approx((down, 2 * once))


def test_a_stiffer_board_and_a_shorter_lever_move_less() -> None:
    _, usual = movement(plate(), 800.0, 290.0)
    assert movement(stiffer(plate(), 2.0), 800.0, 290.0)[1] < usual
    assert movement(plate(), 800.0, 145.0)[1] < usual


def test_against_a_beam_by_hand() -> None:
    """A board on its two sides alone, its upper strip a simple beam under two upper bolts, Timoshenko.

    For P at a from either support of a span L: w(middle) = P a (3 L^2 - 4 a^2) / (24 E I) + P a / (kappa G A)
    (any handbook; Gere and Timoshenko, Mechanics of Materials, app. G). The strip is the wood from the top edge
    to as far again below the bolts, at most half the board; the real strip is helped by what hangs below it and
    pressed by pads, so that the two are of one size only.
    """
    careful = judge(job("example"), SHIPPED, DRAWN["example"]).careful
    assert careful is not None
    a = careful.setup.holding.pattern
    push, x = 800.0, 290.0
    M = push * x + push * float(careful.t[0, 0]) / 2  # about mid-thickness; the lean turns no weight's moment
    d = 0.85 * float(np.ravel(a.h)[0]) - float(np.ravel(a.z_u)[0])  # pads push near their foot
    P = M / d / 2
    L, t = float(np.ravel(careful.setup.place.span)[0]), float(careful.t[0, 0])
    y = L / 2 - float(np.ravel(a.y_u)[0])
    E, G = float(careful.stacks.E_1[0]), float(careful.stacks.G_trans[0])
    deflections = []
    for b in (2 * float(np.ravel(a.z_u)[0]), float(np.ravel(careful.setup.place.height)[0]) / 2):
        EI, GA = E * b * t**3 / 12, 5 / 6 * G * b * t
        deflections.append(P * y * (3 * L**2 - 4 * y**2) / (24 * EI) + P * y / GA)
    found = movement(careful, push, x)[1]
    assert deflections[1] < found < deflections[0]


def test_a_cap_rail_holds_the_top_edge_so_that_it_is_measured_below() -> None:
    found = ruler(plate("clamps"), PUSH["us"], 9.25 * 25.4)
    assert found.moves > 0
    assert 0 < found.down < float(np.ravel(plate("clamps").setup.place.height)[0])
    assert ruler(plate(), PUSH["us"], 279.4).down == 0
