"""The careful method's own signs: what bolts pull and pads push is the load by statics, worked here apart from the code.

Depths d down, y to starboard: pads push forward (C), bolts pull aft (T). Of a wrench at mid-thickness, N = -Fx forward, M = My - Fz t/2
with the top aft, Mz' = Mz + Fy t/2: N = C - T; M = sum C d - sum T d; Mz' = sum C y - sum T y. A slip in any of the three, or in the
lever of half the board, leaves a gap.
"""

import numpy as np
import pytest

from tests.checks.shop import AHEAD, ASTERN, HARD_OVER, alone, found, trial
from tests.unsafe.hand import T
from transom.checks.careful import Careful
from transom.judge.evaluate import careful_of

SIDE = (-500.0, -4000.0, -6000.0, -5e5, 1.6e6, 3e5)


def solved(load: tuple[float, ...], times: float = 1.0) -> Careful:
    """The shop's mount by the plate under one design wrench."""
    return careful_of(trial(loads=alone(load, times=times)))


@pytest.mark.parametrize("load", [AHEAD, HARD_OVER, ASTERN, SIDE])
def test_bolts_and_pads_are_the_load(load: tuple[float, ...]) -> None:
    of = solved(load)
    seat, borne = of.answer.seat, of.answer.borne
    pulls, pushes = borne.bolts[:, 0], borne.pads[:, 0]
    places = [
        np.array([(b.y, -b.z) for b in seat.bolts]),
        np.array([(p.where.centre[0], -p.where.centre[1]) for p in seat.pads]),
    ]
    F_x, F_y, F_z, _, M_y, M_z = load
    assert pushes.sum() - pulls.sum() == pytest.approx(-F_x, rel=1e-6)
    assert pushes @ places[1][:, 1] - pulls @ places[0][:, 1] == pytest.approx(M_y - F_z * T / 2, rel=1e-6)
    assert pushes @ places[1][:, 0] - pulls @ places[0][:, 0] == pytest.approx(M_z + F_y * T / 2, rel=1e-6, abs=1.0)


def test_which_row_and_which_side_pull() -> None:
    """Ahead the upper row, astern the lower; a turn that pulls starboard aft (Mz under nought) its bolts."""
    pulls = {
        name: solved(load).answer.borne.bolts[:, 0]
        for name, load in (("ahead", AHEAD), ("astern", ASTERN), ("over", HARD_OVER))
    }
    assert pulls["ahead"][:2].sum() > 5 * pulls["ahead"][2:].sum()
    assert pulls["astern"][2:].sum() > 5 * pulls["astern"][:2].sum()
    port, starboard = pulls["over"][:2]
    assert starboard > port


@pytest.mark.parametrize("load, rows", [(AHEAD, "upper"), (ASTERN, "lower")])
def test_the_plate_fails_what_statics_fails(load: tuple[float, ...], rows: str) -> None:
    """The row that statics says pulls carries its least share of the couple whichever way the pads bear: at the load where
    that alone crushes the wood the careful method fails it too. Pads cannot bear below their foot (330) or above their top."""
    F_x, _, F_z, _, M_y, _ = load
    M = M_y - F_z * T / 2
    least = (M + 330 * F_x) / (2 * (330 - 47.6)) if rows == "upper" else -M / (2 * 250.8)
    area = {"upper": 5192.7, "lower": 6413.6}[rows]  # worked in tests/checks/test_backing.py
    k = 1.02 * 3.92 * area / least
    name = f"backing.wood-crushing-{rows}-bolts.ec5.plate"
    checks = {c.name: c for c in found(solved(load, k)).values()}
    assert float(checks[name].worst[0]) > 1.0
