"""Laminate theory: Kaw Ex 4.2 (strains; the stiffness is in the published files), limits, composipy."""

import numpy as np
import pytest

from transom.board.laminate import abd, layer_stresses, strained, transverse_shear
from transom.errors import JobError


def kaw():
    return abd(181e3, 10.3e3, 7.17e3, 0.28, np.radians([0.0, 30.0, -45.0]), 5.0)


def test_kaw_example_4_2_strains():
    """Kaw, *Mechanics of Composite Materials*, Ex 4.2 (memory): Nx = Ny = 1000 N/m; curvatures in 1/m."""
    e = strained(kaw(), [1.0, 1.0, 0.0], [0.0, 0.0, 0.0])
    assert e.eps == pytest.approx([3.123e-7, 3.492e-6, -7.598e-7], rel=2e-4)
    assert 1e3 * e.kappa == pytest.approx([2.971e-5, -3.285e-4, 4.101e-4], rel=2e-4)


def test_layer_stresses_carry_the_loads():
    """Turned back and integrated through the thickness, layer stresses give the forces and moments."""
    laminate, N, M = kaw(), np.array([3.0, -1.0, 0.5]), np.array([20.0, 5.0, -8.0])
    own = layer_stresses(laminate, strained(laminate, N, M))
    c, s = np.cos(laminate.theta)[:, None], np.sin(laminate.theta)[:, None]
    a, b, t = np.moveaxis(own, -1, 0)
    whole = np.stack(
        [c * c * a + s * s * b - 2 * s * c * t, s * s * a + c * c * b + 2 * s * c * t,
         s * c * (a - b) + (c * c - s * s) * t], axis=-1,
    )  # fmt: skip
    lo, hi = laminate.z[:-1, None], laminate.z[1:, None]
    assert ((whole[:, 0] + whole[:, 1]) / 2 * (hi - lo)).sum(axis=0) == pytest.approx(N, rel=1e-10)
    simpson = (whole[:, 0] * lo + (whole[:, 0] + whole[:, 1]) * (lo + hi) + whole[:, 1] * hi) * (hi - lo) / 6
    assert simpson.sum(axis=0) == pytest.approx(M, rel=1e-10)


def test_uniform_plate_has_five_sixths():
    one = abd(7000.0, 4000.0, 500.0, 0.0, 0.0, 20.0)
    three = abd(7000.0, 4000.0, 500.0, 0.0, 0.0, [5.0, 8.0, 7.0])
    assert transverse_shear(one, 120.0, 90.0) == pytest.approx((5 / 6 * 2400, 5 / 6 * 1800), rel=1e-12)
    assert transverse_shear(three, 120.0, 90.0) == pytest.approx((2000, 1500), rel=1e-12)


def test_sandwich_tends_to_its_core():
    """Thin stiff skins on a soft core: S = G d²/c, elementary sandwich theory."""
    c, f = 20.0, 0.02
    sandwich = abd([70e3, 1e-3, 70e3], [70e3, 1e-3, 70e3], [27e3, 1e-3, 27e3], 0.3, 0.0, [f, c, f])
    x, y = transverse_shear(sandwich, [27e3, 50.0, 27e3], [27e3, 40.0, 27e3])
    assert (x, y) == pytest.approx((50 * (c + f) ** 2 / c, 40 * (c + f) ** 2 / c), rel=1e-3)


def test_glass_skins_on_plywood_are_far_from_five_sixths():
    """Skins move the shear to the core: less than 5/6 of its G t does not follow, more does not either."""
    core, skins = 40.0, 3.0
    laminate = abd([16e3, 5.8e3, 16e3], [16e3, 5.8e3, 16e3], [3e3, 500.0, 3e3], 0.0, 0.0, [skins, core, skins])
    S, _ = transverse_shear(laminate, [3e3, 120.0, 3e3], 120.0)
    mean = 5 / 6 * (2 * skins * 3e3 + core * 120.0)
    assert 120.0 * core < S < 0.5 * mean


def test_composipy_agrees_on_random_laminates():
    composipy = pytest.importorskip("composipy")
    rng = np.random.default_rng(3)
    for _ in range(20):
        E_1, E_2, G, nu = (
            rng.uniform(3e3, 9e4),
            rng.uniform(1e3, 3e4),
            rng.uniform(1e2, 9e3),
            rng.uniform(0, 0.3),
        )
        angles, t = rng.uniform(-90, 90, 5), rng.uniform(0.5, 6.0)
        ply = composipy.OrthotropicMaterial(E_1, E_2, nu, G, t)
        theirs = composipy.LaminateProperty(list(angles), ply)
        ours = abd(E_1, E_2, G, nu, np.radians(angles), t)
        scale = np.abs(theirs.A).max()
        assert np.abs(ours.A - theirs.A).max() < 1e-9 * scale
        assert np.abs(np.abs(ours.B) - np.abs(theirs.B)).max() < 1e-9 * scale * t
        assert np.abs(ours.D - theirs.D).max() < 1e-9 * np.abs(theirs.D).max()


def test_refusals():
    with pytest.raises(JobError) as error:
        abd(-1.0, 1.0, 0.0, 0.3, [0.0, 1.0], 2.0)
    assert len(error.value.faults) == 4
    with pytest.raises(JobError, match="nu_12"):
        abd(1.0, 10.0, 1.0, 0.5, 0.0, 1.0)
