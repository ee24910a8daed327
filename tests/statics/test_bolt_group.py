"""Elastic bolt groups: equilibrium, symmetry, and a general-purpose open-source library beside them."""

import warnings

import numpy as np
import pytest

from transom.statics.bolt_group import bolt_group

Y, Z = np.array([163.5, -163.5, 125.4, -125.4]), np.array([-47.6, -47.6, -250.8, -250.8])


def test_the_bolts_carry_the_load_and_its_moment() -> None:
    rng = np.random.default_rng(3)
    F_y, F_z, M_x = rng.uniform(-5e3, 5e3, (3, 7)) * np.array([[1], [1], [100]])
    b = bolt_group(F_y=F_y, F_z=F_z, M_x=M_x, y=Y, z=Z)
    assert b.across.shape == (7, 4)
    np.testing.assert_allclose(b.across.sum(-1), F_y)
    np.testing.assert_allclose(b.up.sum(-1), F_z)
    np.testing.assert_allclose((Y * b.up - Z * b.across).sum(-1), M_x, atol=1e-6)
    np.testing.assert_allclose(b.largest, b.resultant.max(-1))


def test_a_force_through_the_centroid_is_shared_equally() -> None:
    b = bolt_group(F_y=0.0, F_z=-8000.0, M_x=0.0, y=Y, z=Z)
    np.testing.assert_allclose(b.resultant, 2000.0)


def test_bolts_at_one_place_resist_no_couple() -> None:
    with pytest.raises(ValueError, match="resist no couple"):
        bolt_group(F_y=0.0, F_z=1.0, M_x=0.0, y=np.array([10.0]), z=np.array([5.0]))


# AISC Manual Tables 7-6 to 7-10 layouts, s = 3 in: rows, columns, gage, e_x, angle, elastic C (computed).
LAYOUTS = [
    (2, 1, 0, 2, 0, 1.200), (3, 1, 0, 3, 0, 1.664), (4, 1, 0, 4, 0, 2.120), (6, 1, 0, 12, 0, 1.680),
    (4, 1, 0, 3, 30, 2.265), (2, 2, 3, 6, 0, 1.109), (4, 2, 3, 6, 0, 3.073), (3, 2, 5.5, 10, 0, 1.600),
    (4, 2, 5.5, 16, 0, 1.575), (3, 3, 3, 12, 0, 1.800),
]  # fmt: skip


def layout(rows: int, columns: int, gage: float) -> tuple[np.ndarray, np.ndarray]:
    y, z = np.meshgrid(np.arange(columns) * gage, np.arange(rows) * 3.0)
    return y.ravel() - y.mean(), z.ravel() - z.mean()


@pytest.mark.parametrize("rows, columns, gage, e, angle, C", LAYOUTS)
def test_elastic_coefficient_of_the_manuals_layouts(
    rows: int, columns: int, gage: float, e: float, angle: float, C: float
) -> None:
    y, z = layout(rows, columns, gage)
    V_y, V_z = np.sin(np.radians(angle)), np.cos(np.radians(angle))
    b = bolt_group(F_y=V_y, F_z=V_z, M_x=V_z * e, y=y, z=z)
    assert 1 / float(b.largest) == pytest.approx(C, abs=6e-4)


def test_ezbolt_gives_the_same_bolt_forces() -> None:
    """ezbolt 0.3.0, elastic method by superposition; a test-only reference."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        ezbolt = pytest.importorskip("ezbolt")
        group = ezbolt.BoltGroup()
        for y, z in zip(Y, Z, strict=True):
            group.add_bolt_single(y, z)
        table = group.solve(Vx=3.0, Vy=-8.0, torsion=700.0, verbose=False)["Elastic Method - Superposition"]
    ours = bolt_group(F_y=3.0, F_z=-8.0, M_x=700.0 + Y.mean() * -8.0 - Z.mean() * 3.0, y=Y, z=Z)
    assert float(ours.largest) == pytest.approx(float(table["Bolt Demand"]), rel=1e-9)


def test_several_patterns_at_once_are_each_as_if_alone() -> None:
    """Two patterns of four under three loads."""
    y = np.array([[-100.0, 100.0, -80.0, 80.0], [-50.0, 50.0, -50.0, 60.0]])[:, None]
    z = np.array([[-50.0, -50.0, -250.0, -250.0], [-40.0, -40.0, -140.0, -150.0]])[:, None]
    F_y, F_z, M_x = np.array([0.0, 500.0, -200.0]), np.array([-1000.0, 0.0, 300.0]), np.array([0.0, 4e4, -1e5])
    found = bolt_group(F_y=F_y, F_z=F_z, M_x=M_x, y=y, z=z)
    assert found.up.shape == (2, 3, 4)
    for n in range(2):
        for v in range(3):
            one = bolt_group(F_y=F_y[v], F_z=F_z[v], M_x=M_x[v], y=y[n, 0], z=z[n, 0])
            assert found.up[n, v] == pytest.approx(one.up)
            assert found.across[n, v] == pytest.approx(one.across)
