"""Thickness that bending and twist need, `ahead`, against an independent plate model's table.

The table is of 610 x 450 mm pod boards and boards between uprights 450 mm apart at a 20 mm grid, short
shaft throughout, holes left out; `ahead` governs it up to 150 hp (computed independently).
"""

import numpy as np
import pytest

from examples.yardsticks import BOARDS, PLATE, POWERS, setup_of
from tests.board.boards import board
from transom.board.answer import answer
from transom.board.elements import Section
from transom.loads.cases import build_cases

# hp: thrust N, propeller axis mm, centre of gravity aft mm, heavy and light mass kg
ENGINES = {
    15: (1365, -640.1, 178.3, 60.33, 57.61),
    25: (1765, -650.2, 195.0, 88.90, 84.82),
    40: (2604, -662.9, 220.0, 136.08, 129.73),
    60: (3884, -675.6, 240.0, 136.08, 129.73),
    90: (5343, -698.5, 260.0, 209.11, 199.13),
    115: (6420, -701.0, 272.5, 250.38, 238.59),
    150: (7069, -707.4, 290.0, 267.17, 254.47),
}
POD = {15: 25.5, 25: 29.6, 40: 36.7, 60: 43.9, 90: 53.8, 115: 59.7, 150: 63.2}
UPRIGHTS = {40: 29.4, 60: 36.2, 90: 45.9, 115: 50.6}
OKOUME = {60: 44.8, 90: 54.9}
FIR_ROW, OKOUME_ROW = (7000, 4000, 500, 120, 23, 14, 3.5), (4100, 2200, 300, 80, 18.8, 14, 3.0)


def ahead(hp: int, t: float) -> np.ndarray:
    """Factored wrenches at mid-thickness: 1.5 on thrust, weight 1.35 heavy and 0.9 light, leaning 14°."""
    T, z_p, x, heavy, light = ENGINES[hp]
    c, s = np.cos(np.radians(14)), np.sin(np.radians(14))
    rows = []
    for factor, mass in ((1.35, heavy), (0.9, light)):
        W = factor * mass * 9.80665
        F_x, F_z = -1.5 * T * c + W * s, -1.5 * T * s - W * c
        rows.append([F_x, -1.5 * T * z_p + W * x - F_z * t / 2, 0.0])
    return np.array(rows)


def used(wrenches: np.ndarray, t: float, kind: str, W: float, row) -> np.ndarray:
    """Share of the strength without k_mod and gamma_M, each case."""
    E_1, E_2, G, G_t, f_1, f_2, f_v = row
    inertia = t**3 / 12
    section = Section(E_1 * inertia, 0.0, E_2 * inertia, G * inertia, G_t * t / 1.2, G_t * t / 1.2)
    b = board(t, kind, W, 450.0, section=section)
    f = answer(b, wrenches, [str(i) for i in range(len(wrenches))]).fields
    bent = np.maximum(np.abs(f.M_1) / f_1, np.abs(f.M_2) / f_2)
    return np.nanmax(np.hypot(bent, f.M_12 / f_v), axis=(0, 1)) / (t**2 / 6)


def utilisation(hp: int, t: float, kind: str, W: float, row) -> float:
    return float(used(ahead(hp, t), t, kind, W, row).max()) / (0.7 / 1.2)


CASES = (
    [("pod", 610.0, FIR_ROW, hp, t) for hp, t in POD.items()]
    + [("uprights", 450.0, FIR_ROW, hp, t) for hp, t in UPRIGHTS.items()]
    + [("pod", 610.0, OKOUME_ROW, hp, t) for hp, t in OKOUME.items()]
)


@pytest.mark.parametrize("kind, W, row, hp, yardstick", CASES)
def test_required_thickness_is_within_five_per_cent(kind, W, row, hp, yardstick):
    assert utilisation(hp, 1.05 * yardstick, kind, W, row) < 1 < utilisation(hp, 0.95 * yardstick, kind, W, row)


# The tool's own cases, ahead and in waves, on all of the table: never thinner, and up to 5 % thicker but for these. Two
# are thinner than the tool judges (25 mm); in okoume the wave decides, and is 5 % harder here than there.
BEYOND = {("uprights, Douglas-fir", 15): 1.08, ("uprights, Douglas-fir", 25): 1.07} | {
    ("pod, okoume", hp): 1.06 for hp in (150, 200, 300)
}
K_MOD = {"short": 0.7, "instantaneous": 0.9}


def by_the_tools_cases(name: str, hp: int, t: float) -> float:
    """Share of the limit, bending and twist, worst of `ahead` and `wave`."""
    kind = BOARDS[name][0]
    cases = build_cases(setup_of(kind, hp).loads)
    some = cases.take([i for i, of in enumerate(cases.of) if of in ("ahead", "wave")])
    w = np.reshape(some.design, (-1, 6))
    wrenches = np.column_stack([w[:, 0], w[:, 4] - w[:, 2] * t / 2, w[:, 5] + w[:, 1] * t / 2])
    row, W = OKOUME_ROW if "okoume" in name else FIR_ROW, 450.0 if kind == "uprights" else 610.0
    k = np.array([K_MOD[d] for d in some.duration]) / 1.2
    return float(np.max(used(wrenches, t, kind, W, row) / k))


@pytest.mark.parametrize("hp", POWERS)
@pytest.mark.parametrize("name", BOARDS)
def test_the_tools_own_cases_ask_as_much_as_the_table_and_little_more(name: str, hp: int) -> None:
    t = PLATE[name][POWERS.index(hp)]
    assert by_the_tools_cases(name, hp, t) > 1
    assert by_the_tools_cases(name, hp, t * BEYOND.get((name, hp), 1.05)) < 1
