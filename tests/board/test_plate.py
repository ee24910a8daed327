"""The plate against series with shear, rates of convergence, locking, equilibrium, and two libraries.

Thin plates of handbooks are in materials/published (plates_exact, roark, timoshenko_plates).
"""

import numpy as np
import pytest

from transom.board.elements import Section
from transom.board.grid import Rectangle, grid, stations
from transom.board.handbook import handbook_ratio
from transom.board.plate import Plate, Spring, Support, edges
from transom.board.recover import extrapolated, fields, richardson
from transom.errors import JobError

PLY = (7000.0, 4000.0, 500.0, 120.0)


def plywood(t: float) -> Section:
    E_1, E_2, G_12, G_t = PLY
    inertia = t**3 / 12
    return Section(E_1 * inertia, 0.0, E_2 * inertia, G_12 * inertia, 5 / 6 * G_t * t, 5 / 6 * G_t * t)


def hard(a: float, b: float) -> tuple[Support, ...]:
    """Simple supports that hold the slope along them, as a sine series does."""
    e = edges((0, a), (0, b))
    return tuple(Support(line, True, n >= 2, n < 2) for n, line in enumerate(e))


def navier(a, b, s: Section, load: Rectangle, at, terms=199):
    """Simply supported Mindlin plate under a unit force on `load`: w, M_1, M_2, M_12 by double sine series.

    Reissner-Mindlin equations for w = sin·sin, b_1 = cos·sin, b_2 = sin·cos (Reddy, *Mechanics of
    Laminated Composite Plates*, Navier solution of the first-order theory); summed to `terms`.
    """
    m = np.arange(1, terms + 1)
    p, q = (m * np.pi / a)[:, None], (m * np.pi / b)[None, :]
    along = (np.cos(p * load.y_lo) - np.cos(p * load.y_hi)) / p
    up = (np.cos(q * load.z_lo) - np.cos(q * load.z_hi)) / q
    force = 4 / (a * b) * along * up / load.area
    k = np.zeros((terms, terms, 3, 3))
    k[..., 0, 0] = s.S_1 * p**2 + s.S_2 * q**2
    k[..., 0, 1] = k[..., 1, 0] = np.broadcast_to(-s.S_1 * p, k.shape[:2])
    k[..., 0, 2] = k[..., 2, 0] = np.broadcast_to(-s.S_2 * q, k.shape[:2])
    k[..., 1, 1] = s.D_11 * p**2 + s.D_66 * q**2 + s.S_1
    k[..., 2, 2] = s.D_66 * p**2 + s.D_22 * q**2 + s.S_2
    k[..., 1, 2] = k[..., 2, 1] = (s.D_12 + s.D_66) * p * q
    W, X, Y = np.moveaxis(np.linalg.solve(k, np.stack([force, 0 * force, 0 * force], -1)[..., None])[..., 0], -1, 0)
    y, z = at
    sines, cosines = np.sin(p * y) * np.sin(q * z), np.cos(p * y) * np.cos(q * z)
    return np.array(
        [(W * sines).sum(), ((s.D_11 * p * X + s.D_12 * q * Y) * sines).sum(),
         ((s.D_12 * p * X + s.D_22 * q * Y) * sines).sum(), -(s.D_66 * (q * X + p * Y) * cosines).sum()]
    )  # fmt: skip


def ours(a, b, section, load, at, target=40.0):
    """The same four, by two grids."""
    on = grid([0, a, at[0], load.y_lo, load.y_hi], [0, b, at[1], load.z_lo, load.z_hi], target)
    plates = [Plate(g, section, hard(a, b)) for g in (on, on.finer())]
    solved = [p.solve(p.grid.spread(load)[..., None]) for p in plates]
    better, _ = extrapolated(on, *(fields(p, s) for p, s in zip(plates, solved, strict=True)))
    i, j = np.argmin(np.abs(on.y - at[0])), np.argmin(np.abs(on.z - at[1]))
    w = richardson(solved[0].w[i, j, 0], solved[1].w[2 * i, 2 * j, 0])
    return np.array([w, *(f[2 * i, 2 * j, 0] for f in (better.M_1, better.M_2, better.M_12))])


@pytest.mark.parametrize("t", [20.0, 36.7, 60.0, 90.0])
def test_thick_orthotropic_against_a_series_with_shear(t):
    """Deflection and both moments within 0.2 % under a spread load, default grid; plywood's E/G near 60."""
    a, b, load, at = 600.0, 400.0, Rectangle(0, 600, 0, 400), (300.0, 200.0)
    exact = navier(a, b, plywood(t), load, at)
    assert ours(a, b, plywood(t), load, at)[:3] == pytest.approx(exact[:3], rel=2e-3)


def test_patch_off_centre_and_twist_against_the_series():
    a, b, load = 600.0, 400.0, Rectangle(120, 240, 80, 200)
    at = (180.0, 140.0)
    exact, got = navier(a, b, plywood(36.7), load, at), ours(a, b, plywood(36.7), load, at)
    assert got[0] == pytest.approx(exact[0], rel=2e-3)
    assert got[1:3] == pytest.approx(exact[1:3], rel=1e-2)
    corner = (60.0, 40.0)
    exact, got = navier(a, b, plywood(36.7), load, corner), ours(a, b, plywood(36.7), load, corner)
    assert got[3] == pytest.approx(exact[3], rel=1e-2)


def test_laminates_of_c10_classical_limit():
    """Reddy, CLPT columns (memory; recomputed): E1 = 25 E2, G12 = .5 E2, nu12 = .25, uniform load, 100 w E2 h³/(q a⁴)."""
    a, h, E_2 = 400.0, 0.4, 1.0
    Q = 25 / (1 - 0.25**2 / 25)
    for plies, printed in (((1,), 0.6497), ((1, 0, 1), 0.6660), ((1, 0, 0, 1), 0.6797)):
        z = np.linspace(-h / 2, h / 2, len(plies) + 1)
        share = np.diff(z**3) / 3
        along = np.array(plies)
        D_11, D_22 = (share * np.where(along, Q, Q / 25)).sum(), (share * np.where(along, Q / 25, Q)).sum()
        S = 5 / 6 * 0.5 * h
        section = Section(D_11, 0.25 * Q / 25 * h**3 / 12, D_22, 0.5 * h**3 / 12, S, S)
        w = ours(a, a, section, Rectangle(0, a, 0, a), (a / 2, a / 2))[0]
        assert 100 * w * a * a * E_2 * h**3 / a**4 == pytest.approx(printed, rel=5e-3)


def test_errors_fall_with_the_square_of_the_step():
    a, b, load, at = 600.0, 400.0, Rectangle(0, 600, 0, 400), (300.0, 200.0)
    exact = navier(a, b, plywood(36.7), load, at)
    errors = []
    for target in (100.0, 50.0, 25.0, 12.5):
        on = grid([0, 300, 600], [0, 200, 400], target)
        plate = Plate(on, plywood(36.7), hard(a, b))
        s = plate.solve(on.spread(load)[..., None])
        f = fields(plate, s)
        i, j = len(on.y) // 2, len(on.z) // 2
        errors.append(np.abs(np.array([s.w[i, j, 0], f.M_1[i, j, 0], f.M_2[i, j, 0]]) / exact[:3] - 1))
    rates = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    assert (rates[-1] > 1.8).all()
    assert (rates[-1] < 2.2).all()


@pytest.mark.parametrize("slenderness", [100.0, 1000.0, 10000.0])
def test_no_locking(slenderness):
    """T&WK Table 8 and 35 (exact columns) however thin."""
    assert handbook_ratio("w", [0.5, 0.5], slenderness=slenderness) == pytest.approx(0.004062, rel=5e-3)
    w = handbook_ratio("w", [0.5, 0.5], edges="CCCC", slenderness=slenderness)
    assert w == pytest.approx(0.001265, rel=5e-3)


def test_strip_equals_the_shear_beam_at_any_grid():
    """A strip on two supports under a mid-span force: P L³/(48 EI) + P L/(4 S), PL/4 (Timoshenko beam)."""
    L, t, width = 500.0, 40.0, 60.0
    s = plywood(t)
    for target in (250.0, 30.0):
        on = grid([0, L / 2, L], [0, width], target)
        plate = Plate(on, s, (Support(Rectangle(0, 0, 0, width)), Support(Rectangle(L, L, 0, width))))
        solution = plate.solve(on.spread(Rectangle(L / 2, L / 2, 0, width))[..., None])
        i = len(on.y) // 2
        beam = L**3 / (48 * s.D_11 * width) + L / (4 * s.S_1 * width)
        assert solution.w[i, :, 0] == pytest.approx(beam, rel=1e-9)
        assert fields(plate, solution).M_1[i, :, 0] == pytest.approx(L / 4 / width, rel=1e-9)
        assert fields(plate, solution).Q_1[0, :, 0] == pytest.approx(0.5 / width, rel=1e-9)


def cut(rng) -> Plate:
    """A board with a top notch and a cut corner on lines, springs and a fixed edge."""
    gone = (Rectangle(-80, 90, -70, 0), Rectangle(200, 300, -450, -380))
    on = grid([-300, 300, -120, 130], [-450, 0, -200], 30.0, gone)
    supports = (Support(Rectangle(-300, -300, -450, 0), True, True, True), Support(Rectangle(300, 300, -380, 0)))
    springs = tuple(
        Spring(Rectangle(y, y + 30, -450, -420), k)
        for y, k in zip((-200, 0, 150), rng.uniform(1e2, 1e5, 3), strict=True)
    )
    return Plate(on, plywood(rng.uniform(20, 80)), supports, springs)


def test_every_load_finds_its_way_to_the_supports():
    rng = np.random.default_rng(5)
    for _ in range(10):
        plate = cut(rng)
        loads = rng.normal(0, 1e3, (*plate.grid.nodes.shape, 4)) * plate.grid.nodes[..., None]
        s = plate.solve(loads)
        held = s.reaction.sum(axis=(0, 1)) + plate.spring_forces(s).sum(axis=0)
        assert np.abs(held + loads.sum(axis=(0, 1))).max() < 1e-9 * np.abs(loads).sum()
        assert np.isnan(fields(plate, s).M_1[~plate.grid.nodes]).all()
        assert np.isfinite(fields(plate, s).M_1[plate.grid.nodes]).all()


def test_mirrored_board_gives_mirrored_answer():
    a, b = 610.0, 450.0
    sup = tuple(Support(e) for e in edges((-a / 2, a / 2), (-b, 0))[:3])
    on = grid([-a / 2, a / 2, -160, 160], [-b, 0, -50], 25.0)
    plate = Plate(on, plywood(36.7), sup)
    left, right = (on.spread(Rectangle(y - 30, y + 30, -80, -20)) for y in (-160, 160))
    s = plate.solve(np.stack([left, right], -1))
    assert s.w[..., 0] == pytest.approx(s.w[::-1, :, 1], rel=1e-8)
    f = fields(plate, s)
    assert f.M_12[..., 0] == pytest.approx(-f.M_12[::-1, :, 1], abs=1e-7)


def test_stronger_springs_tend_to_a_support():
    on = grid([0, 600], [0, 400], 50.0)
    line = Rectangle(0, 0, 0, 400)
    other = Support(Rectangle(600, 600, 0, 400))
    load = on.spread(Rectangle(200, 400, 100, 300))[..., None]
    rigid = Plate(on, plywood(30.0), (Support(line), other)).solve(load).w.max()
    soft = [Plate(on, plywood(30.0), (other,), (Spring(line, k),)).solve(load).w.max() for k in (1e3, 1e6, 1e10)]
    assert soft[0] > soft[1] > soft[2] > rigid
    assert soft[2] == pytest.approx(rigid, rel=1e-5)


@pytest.mark.parametrize(
    "held",
    [(), (Support(Rectangle(0, 0, 0, 400)),), (Support(Rectangle(0, 600, 0, 0)),)],
)
def test_a_board_that_is_not_held_is_refused(held):
    on = grid([0, 600], [0, 400], 40.0)
    with pytest.raises(JobError, match="not held"):
        Plate(on, plywood(30.0), held).solve(on.spread(Rectangle(0, 600, 0, 400))[..., None])


def test_supports_and_loads_off_the_board_are_refused():
    on = grid([0, 600], [0, 400], 40.0, (Rectangle(0, 100, 300, 400),))
    with pytest.raises(JobError, match="off the board"):
        on.spread(Rectangle(10, 90, 310, 390))
    with pytest.raises(JobError, match="no grid line"):
        Plate(on, plywood(30.0), (Support(Rectangle(333, 333, 0, 400)),)).solve(
            on.spread(Rectangle(0, 600, 0, 400))[..., None]
        )
    with pytest.raises(JobError, match="stations"):
        stations([1.0, np.nan], 20.0)
    with pytest.raises(JobError, match="nothing"):
        grid([0, 10], [0, 10], 5.0, (Rectangle(-1, 11, -1, 11),))


def test_spread_loads_keep_their_sum_and_centre():
    on = grid([0, 600, 77], [0, 400], 37.0)
    for r in (Rectangle(13, 222, 31, 99), Rectangle(50, 50, 11, 200), Rectangle(71.5, 71.5, 33, 33)):
        weights = on.spread(r)
        assert weights.sum() == pytest.approx(1.0)
        assert (weights.sum(axis=1) @ on.y, weights.sum(axis=0) @ on.z) == pytest.approx(r.centre)


def test_grid_lines_pass_through_the_stations():
    on = grid([-305, 305, 163.5, -163.5], [-450, 0, -47.6], 20.0)
    assert {-163.5, 163.5} <= set(on.y)
    assert -47.6 in on.z
    assert np.diff(on.y).max() <= 20 + 1e-9
    assert np.isin(on.y, on.finer().y).all()


def test_scikit_fem_argyris_thin_against_thin():
    """Kirchhoff plate by scikit-fem's Argyris element: 0.5 % deflection, 1 % moment, a patch off centre.

    Its second derivatives at nodes are freedoms of the element.
    """
    skfem = pytest.importorskip("skfem")
    from skfem.helpers import dd, ddot, eye, trace

    a, b, nu = 600.0, 400.0, 0.3
    load, at = Rectangle(150, 270, 120, 240), (210.0, 180.0)
    mesh = skfem.MeshTri.init_tensor(np.linspace(0, a, 21), np.linspace(0, b, 21))
    basis = skfem.Basis(mesh, skfem.ElementTriArgyris())

    @skfem.BilinearForm
    def stiffness(u, v, w):
        kappa = dd(u)
        moment = (1 - nu) * kappa + nu * eye(trace(kappa), 2)
        return ddot(moment, dd(v))

    @skfem.LinearForm
    def patch(v, w):
        x, y = w.x
        on = (x > load.y_lo) & (x < load.y_hi) & (y > load.z_lo) & (y < load.z_hi)
        return np.where(on, 1 / load.area, 0.0) * v

    # nodal freedoms in order: u, u_x, u_y, u_xx, u_xy, u_yy; none of the mid-side slopes is held
    x, y = mesh.p
    left, low = np.isclose(x, 0) | np.isclose(x, a), np.isclose(y, 0) | np.isclose(y, b)
    rows = basis.nodal_dofs
    hold = {*rows[0][left | low], *rows[2][left], *rows[5][left], *rows[1][low], *rows[3][low]}
    solution = skfem.solve(*skfem.condense(stiffness.assemble(basis), patch.assemble(basis), D=np.array(sorted(hold))))
    node = int(np.argmin(np.hypot(x - at[0], y - at[1])))
    w, w_yy, w_zz = (solution[rows[k][node]] for k in (0, 3, 5))
    where = [load.y_lo / a, load.y_hi / a, load.z_lo / b, load.z_hi / b]

    def mine(quantity):
        return handbook_ratio(quantity, [at[0] / a, at[1] / b], "SSSS", a, b, where, "force")

    assert mine("w") * a * a == pytest.approx(w, rel=5e-3)
    assert mine("M_1") == pytest.approx(-(w_yy + nu * w_zz), rel=1e-2)
    assert mine("M_2") == pytest.approx(-(nu * w_yy + w_zz), rel=1e-2)


def test_pynite_quad_thick_against_thick():
    """PyNiteFEA's Quad on our own finer grid: 1 % deflection, 2 % moment, at span over thickness 10."""
    Pynite = pytest.importorskip("Pynite")
    a, b, t, E, nu = 600.0, 400.0, 40.0, 10000.0, 0.3
    G, D = E / 2 / (1 + nu), E * t**3 / 12 / (1 - nu**2)
    section = Section(D, nu * D, D, (1 - nu) / 2 * D, 5 / 6 * G * t, 5 / 6 * G * t)
    on = grid([0, 300, 600], [0, 200, 400], 25.0)
    model = Pynite.FEModel3D()
    model.add_material("wood", E, G, nu, 1e-9)
    names = np.empty(on.nodes.shape, dtype=object)
    for i, y in enumerate(on.y):
        for j, z in enumerate(on.z):
            names[i, j] = f"N{i}_{j}"
            model.add_node(names[i, j], y, z, 0)
            rim = i in (0, len(on.y) - 1), j in (0, len(on.z) - 1)
            model.def_support(names[i, j], True, True, any(rim), rim[0], rim[1], True)
    for i in range(len(on.y) - 1):
        for j in range(len(on.z) - 1):
            corners = (names[i, j], names[i + 1, j], names[i + 1, j + 1], names[i, j + 1])
            model.add_quad(f"Q{i}_{j}", *corners, t, "wood")
            model.add_quad_surface_pressure(f"Q{i}_{j}", 0.01)
    model.analyze_linear(sparse=False, check_stability=False)
    i, j = len(on.y) // 2, len(on.z) // 2
    theirs = abs(model.nodes[names[i, j]].DZ["Combo 1"])
    quads = [model.quads[f"Q{i + m}_{j + n}"] for m, n in ((0, 0), (-1, 0), (-1, -1), (0, -1))]
    local = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    moments = np.mean([q.moment(*p, True, "Combo 1").ravel()[:2] for q, p in zip(quads, local, strict=True)], axis=0)
    load = Rectangle(0, a, 0, b)
    plate = Plate(on, section, hard(a, b))
    s = plate.solve(on.spread(load)[..., None] * 0.01 * a * b)
    f = fields(plate, s)
    assert s.w[i, j, 0] == pytest.approx(theirs, rel=1e-2)
    assert [f.M_1[i, j, 0], f.M_2[i, j, 0]] == pytest.approx(np.abs(moments), rel=2e-2)
