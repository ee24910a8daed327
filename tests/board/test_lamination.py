"""Stacks of plywood sheets against their panel's table, a plain loop, and elementary bending."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from transom.board.lamination import Panel, stacks
from transom.errors import JobError

PANEL = Panel(7000.0, 4000.0, 23.0, 14.0, 3.5, 1.4, 2.24, 500.0, 120.0, 460.0)
OTHER = Panel(4100.0, 2200.0, 18.8, 14.0, 3.0, 1.1, 1.6, 300.0, 80.0, 400.0)


def lone(across: bool = True, plies: int = 5, panel: Panel = PANEL):
    return stacks([[19.0]], [[across]], [[plies]], panel)


def effective_strengths(board) -> np.ndarray:
    """Stress of the uniform board at which a veneer reaches its limit: across, up, in twist."""
    m = board.t**2 / 6
    return np.array([1 / board.veneer_utilisation(*row, 1.0)[:, 0] for row in ((m, 0, 0), (0, m, 0), (0, 0, m))])[:, 0]


@pytest.mark.parametrize("plies", [3, 5, 7, 9])
@pytest.mark.parametrize("panel", [PANEL, OTHER])
def test_one_sheet_returns_both_rows_of_its_table(plies, panel):
    board = lone(True, plies, panel)
    assert board.E_1[0] == pytest.approx(panel.E_par, rel=1e-12)
    assert board.E_2[0] == pytest.approx(panel.E_perp, rel=1e-12)
    assert effective_strengths(board) == pytest.approx([panel.f_par, panel.f_perp, panel.f_v], rel=1e-12)
    assert board.G_12[0] == pytest.approx(panel.G_12, rel=1e-12)
    assert board.G_trans[0] == pytest.approx(panel.G_trans, rel=1e-12)


def test_a_sheet_turned_swaps_the_rows():
    a, b = lone(True), lone(False)
    assert (a.E_1, a.E_2, a.c_1, a.c_2) == (b.E_2, b.E_1, b.c_2, b.c_1)
    assert a.E_1[0] > a.E_2[0] > 0


def test_a_stack_is_not_a_sheet():
    """Two equal 5-ply sheets: 0.83 and 1.16 of the panel's strengths (independent veneer model)."""
    board = stacks([[19.0, 19.0]], [[True, True]], [[5, 5]], PANEL)
    along, up, _ = effective_strengths(board)
    assert along / 23.0 == pytest.approx(0.83, abs=0.005)
    assert up / 14.0 == pytest.approx(1.16, abs=0.005)


def test_planar_shear_factors_of_trade_boards():
    """One 5-ply sheet 2.15; two and three sheets all across near 1.5 along and 1.7 across the face."""
    assert lone().c_2[0] == pytest.approx(2.15, abs=0.006)
    two = stacks([[19.0] * 2], [[True] * 2], [[5] * 2], PANEL)
    assert two.c_2[0] == pytest.approx(1.7, abs=0.05)
    three = stacks([[19.0] * 3], [[True] * 3], [[5] * 3], PANEL)
    assert three.c_1[0] == pytest.approx(1.5, abs=0.05)


def brute(thickness, across, plies, panel):
    """Plain loops: stiffness, planar shear factor by fine slices, both about each elastic axis."""
    layers, z = [], 0.0
    for t, turned, p in zip(thickness, across, plies, strict=True):
        h = 1.0 / p
        inertia = [((-0.5 + (j + 1) * h) ** 3 - (-0.5 + j * h) ** 3) / 3 for j in range(p)]
        I_par, I_cross = sum(inertia[0::2]), sum(inertia[1::2])
        E_par = panel.E_par / 12 / (I_par + 0.05 * I_cross)
        E_cross = panel.E_perp / 12 / (I_cross + 0.05 * I_par)
        for j in range(p):
            own, other = (E_par, E_cross) if j % 2 == 0 else (E_cross, E_par)
            along_y = turned == (j % 2 == 0)
            layers.append((z, z + t * h, own if along_y else 0.05 * other, 0.05 * other if along_y else own, along_y))
            z += t * h
    out = []
    for direction in (0, 1):
        EA = sum((b - a) * row[direction] for a, b, *row in layers)
        z_0 = sum((b * b - a * a) / 2 * row[direction] for a, b, *row in layers) / EA
        D = sum(((b - z_0) ** 3 - (a - z_0) ** 3) / 3 * row[direction] for a, b, *row in layers)
        flow, worst = 0.0, 0.0
        for a, b, *row in layers:
            edges = np.linspace(a, b, 401)
            steps = row[direction] * ((edges[1:] - z_0) ** 2 - (edges[:-1] - z_0) ** 2) / 2
            along = flow + np.concatenate([[0.0], np.cumsum(steps)])
            if row[2] != (direction == 0):
                worst = max(worst, np.abs(along).max())
            flow = along[-1]
        out += [12 * D / z**3, worst * z / D]
    return out


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.sampled_from([6.4, 12.2, 18.3, 25.0]), st.booleans(), st.sampled_from([3, 5, 7, 9])),
        min_size=1, max_size=4,
    )
)  # fmt: skip
def test_any_stack_equals_a_plain_loop(sheets):
    t, across, plies = ([s[i] for s in sheets] for i in range(3))
    board = stacks([t], [across], [plies], PANEL)
    E_1, c_1, E_2, c_2 = brute(t, across, plies, PANEL)
    assert [board.E_1[0], board.E_2[0]] == pytest.approx([E_1, E_2], rel=1e-10)
    assert [board.c_1[0], board.c_2[0]] == pytest.approx([c_1, c_2], rel=1e-4)


def test_many_stacks_equal_each_alone_and_empty_places_count_for_nothing():
    rng = np.random.default_rng(1)
    n, L = 40, 4
    t = rng.choice([12.0, 18.0], (n, L))
    across, plies = rng.random((n, L)) < 0.5, rng.choice([5, 7], (n, L))
    used = np.arange(L) < rng.integers(1, L + 1, n)[:, None]
    together = stacks(t, across, plies, PANEL, used)
    v = 7
    M = rng.normal(0, 4e3, (3, n, v))
    k = rng.uniform(0.4, 0.8, v)
    u = together.veneer_utilisation(*M, k)
    bending = together.veneer_utilisation(M[0], M[1], 0.0, k)
    assert u.shape == bending.shape == (n, v)
    for i in range(n):
        m = used[i]
        alone = stacks(t[i][m][None], across[i][m][None], plies[i][m][None], PANEL)
        assert together.E_1[i] == alone.E_1[0]
        assert together.c_2[i] == alone.c_2[0]
        assert together.mass[i] == pytest.approx(alone.mass[0], rel=1e-12)
        assert u[i] == pytest.approx(alone.veneer_utilisation(*M[:, i], k)[0], rel=1e-12)
    assert (u >= bending).all()
    assert (u > bending).any()


def test_scaling_a_lay_up_equals_gluing_it_up_thicker():
    base = stacks([[12.0, 18.0]], [[True, False]], [[5, 7]], PANEL)
    factors = np.array([0.5, 1.0, 1.7])
    many = base.scaled(factors)
    again = stacks(factors[:, None] * [[12.0, 18.0]], [[True, False]] * 3, [[5, 7]] * 3, PANEL)
    for name, value in vars(again).items():
        assert np.allclose(getattr(many, name), value, rtol=1e-12), name
    assert many.t == pytest.approx(factors * 30.0)


def test_mass_is_density_times_thickness():
    assert lone().mass[0] == pytest.approx(460 * 0.019)


def test_a_mixed_stack_takes_the_weaker_face():
    both = Panel(*([[a, b]] for a, b in zip(list(vars(PANEL).values()), vars(OTHER).values(), strict=True)))
    board = stacks([[19.0, 19.0]], [[True, True]], [[5, 5]], both)
    assert (board.f_r[0], board.f_c_90[0], board.rho[0]) == (1.1, 1.6, 400.0)
    assert board.G_trans[0] == pytest.approx(2 / (1 / 120 + 1 / 80))
    assert OTHER.E_par < board.E_1[0] < PANEL.E_par


def test_nan_moment_is_not_a_pass():
    assert np.isnan(lone().veneer_utilisation(np.nan, 0.0, 0.0, 0.7)).all()


def test_every_fault_is_told_in_one_run():
    with pytest.raises(JobError) as error:
        stacks(
            [[19.0, -1.0]],
            [[True, True]],
            [[4, 5]],
            Panel(7000, np.nan, 23, 14, 3.5, 1.4, 2.24, 500, 120, 460),
        )
    assert len(error.value.faults) == 3
    with pytest.raises(JobError, match="no sheets"):
        stacks([[19.0]], [[True]], [[5]], PANEL, used=[[False]])
    with pytest.raises(JobError, match="shape"):
        stacks([[19.0, 19.0]], [[True]], [[5, 5]], PANEL)


def test_a_sheet_of_no_thickness_is_refused():
    with pytest.raises(JobError, match=r"sheet thickness 0\.0 mm"):
        stacks([[19.0, 0.0]], [[True, True]], [[5, 5]], PANEL)


def test_the_worst_place_of_one_stack_is_the_worst_of_all_places():
    """Whatever the sense of the moments; a moment that is no number stays none."""
    rng = np.random.default_rng(5)
    M, k = rng.normal(size=(3, 40, 7)) * 1e3, rng.uniform(0.4, 0.8, 7)
    one = stacks([[18.0, 18.0, 12.0]], [[True, False, True]], [[7, 7, 5]], PANEL)
    each = one.veneer_utilisation(*M, k)
    assert one.worst_utilisation(*M, k).tolist() == each.max(axis=0, keepdims=True).tolist()
    M[1, 3, 4] = np.nan
    assert np.isnan(one.worst_utilisation(*M, k)).tolist() == [[v == 4 for v in range(7)]]


def test_only_the_share_across_the_grain_may_be_nothing():
    """Veneers without stiffness across are allowed, no other panel number of nought is."""
    numbers = vars(PANEL)
    assert "e_90" in numbers
    stacks([[19.0]], [[True]], [[5]], Panel(**(numbers | {"e_90": 0.0})))
    for name in numbers:
        if name != "e_90":
            with pytest.raises(JobError, match=f"panel number {name} is not above zero"):
                stacks([[19.0]], [[True]], [[5]], Panel(**(numbers | {name: 0.0})))
    with pytest.raises(JobError, match="e_90"):
        stacks([[19.0]], [[True]], [[5]], Panel(**(numbers | {"e_90": -0.1})))
