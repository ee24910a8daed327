"""How side plates share a wrench, against a space frame solved apart: beams built in at the base, one stiff engine plate.

The convention takes twist as cantilevers free at the engine plate (twice the root moment of a stiff one) and adds all signs
as the worst; otherwise both say the same.
"""

import numpy as np
import pytest

from tests.checks.setbacks import job, under
from transom.checks.setback_forces import sections
from transom.setup.setback_records import Sides

E, NU = 71700.0, 0.33
LEVEL = {"side_plates__depth": 300.0, "side_plates__engine_depth": 300.0}


def beam(L: float, t: float, d: float) -> np.ndarray:
    """Stiffness (6, 6) of the tip of a beam along x built in at its root: x, y, z and turns about them."""
    A, strong, weak = t * d, t * d**3 / 12, d * t**3 / 12
    G_J = E / (2 * (1 + NU)) * d * t**3 / 3
    k = np.zeros((6, 6))
    k[0, 0], k[3, 3] = E * A / L, G_J / L
    for force, turn, stiff, sign in ((1, 5, E * weak, -1.0), (2, 4, E * strong, 1.0)):
        k[force, force], k[turn, turn] = 12 * stiff / L**3, 4 * stiff / L
        k[force, turn] = k[turn, force] = sign * 6 * stiff / L**2
    return k


def stiff_link(y: float) -> np.ndarray:
    """Moves of a point y across from those of the stiff plate's middle."""
    T = np.eye(6)
    T[0, 5], T[2, 3] = -y, y
    return T


def frame(wrench: np.ndarray, s: Sides) -> tuple[float, float]:
    """Largest stress at a corner of any plate at the base and at the engine plate; the wrench is about the latter's middle."""
    L, t, d = float(s.x_1 - s.x_0), float(s.t), float(s.d_0)
    links = [stiff_link(float(y)) for y in s.y]
    k = beam(L, t, d)
    moves = np.linalg.solve(sum(T.T @ k @ T for T in links), wrench)
    root, tip = [], []
    for T in links:
        N, V_y, V_z, _, M_y, M_z = k @ T @ moves
        for m_y, m_z, where in ((M_y, M_z, tip), (M_y - L * V_z, M_z + L * V_y, root)):
            where.append(abs(N) / (t * d) + 6 * abs(m_y) / (t * d**2) + 6 * abs(m_z) / (d * t**2))
    return max(root), max(tip)


def both(wrench: np.ndarray, count: int) -> tuple[tuple[float, float], tuple[float, float]]:
    """Ours and the frame's, at base and engine plate, under a wrench about the engine plate's middle."""
    x, z = 250.0, -170.0
    F, M = wrench[:3], wrench[3:] + np.cross([x, 0.0, z], wrench[:3])
    of = under((*F, *M), job(side_plates__count=count, **LEVEL))
    hold = of.setup.bracket
    assert hold is not None
    assert hold.plates is not None
    found = sections(of, hold.plates)
    ours = tuple(float(np.ravel(s.edge + s.face)[0]) for s in (found[0], found[-1]))
    return (ours[0], ours[1]), frame(wrench, hold.plates.sides)


@pytest.mark.parametrize("count", [2, 3])
def test_never_less_than_the_frame(count: int) -> None:
    """Random wrenches of an engine's size: the bending of plates whose ends are stiff is covered."""
    r = np.random.default_rng(count)
    size = np.array([4000.0, 4000.0, 6000.0, 2.5e6, 3.0e6, 1.0e6])
    for _ in range(60):
        ours, theirs = both(r.uniform(-1.0, 1.0, 6) * size, count)
        for one, other in zip(ours, theirs, strict=True):
            assert 0.999 * other <= one <= 2.2 * other


@pytest.mark.parametrize("wrench", [
    (-4000.0, 0.0, 0.0, 0.0, 0.0, 0.0), (0.0, 0.0, -6000.0, 0.0, 0.0, 0.0), (0.0, 0.0, 0.0, 0.0, 3.0e6, 0.0),
    (0.0, 4000.0, 0.0, 0.0, 0.0, 0.0), (0.0, 0.0, 0.0, 0.0, 0.0, 1.0e6), (-4000.0, 0.0, -3000.0, 0.0, 2.0e6, 0.0),
])  # fmt: skip
def test_the_same_as_the_frame_without_twist(wrench: tuple[float, ...]) -> None:
    ours, theirs = both(np.array(wrench), 2)
    assert ours == pytest.approx(theirs, rel=0.03)


def test_twist_is_twice_the_frames_at_the_base() -> None:
    (base, engine), theirs = both(np.array([0.0, 0.0, 0.0, 2.0e6, 0.0, 0.0]), 2)
    assert base == pytest.approx(2 * theirs[0], rel=0.03)
    assert engine == pytest.approx(theirs[1], rel=0.03)
