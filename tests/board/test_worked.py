"""The plate's own parts on their own: cells, stations, sections, flexibilities, one grid and two, worked by hand."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tests.board.boards import board, seat, uniform
from transom.board.answer import answer, backed, on_one_grid
from transom.board.blocks import inverted
from transom.board.bracket import Borne, pad_cells
from transom.board.grid import Rectangle, grid, stations
from transom.board.handbook import _Case, handbook_ratio
from transom.board.laminate import abd, transverse_shear
from transom.board.layers import rigidity
from transom.board.recover import correct
from transom.board.touching import held
from transom.errors import JobError

AHEAD, STRIKE = [-3234.0, 2437.7e3, 0.0], [4851.0, -2922.6e3, 0.0]


@pytest.fixture(scope="module")
def both() -> tuple[Any, Any]:
    """One board ahead and struck, on two grids and on the coarser alone."""
    b, cases = board(36.7), np.array([AHEAD, STRIKE])
    return answer(b, cases, "as"), on_one_grid(b, cases, "as")


def test_pads_are_cut_into_cells_of_an_inch_at_most() -> None:
    """70 x 330: three by fourteen of 25 mm at most, one stiffness E/t a mm2; one of 25 x 50 in two."""
    cells = pad_cells(Rectangle(105.0, 175.0, -330.0, 0.0), 250.0, 40.0)
    assert len(cells) == 3 * 14
    assert sum(c.where.area for c in cells) == pytest.approx(70.0 * 330.0)
    assert sum(c.k for c in cells) == pytest.approx(250.0 / 40.0 * 70.0 * 330.0)
    assert len(pad_cells(Rectangle(0.0, 25.0, 0.0, 50.0), 250.0, 40.0)) == 2
    assert len(pad_cells(Rectangle(0.0, 5.0, 0.0, 3.0), 250.0, 40.0)) == 1


def test_stations_are_at_most_a_step_apart_and_never_nearly_twice() -> None:
    assert stations([0.0, 100.0], 40.0) == pytest.approx([0.0, 100 / 3, 200 / 3, 100.0])
    assert stations([0.0, 80.0], 40.0) == pytest.approx([0.0, 40.0, 80.0])
    assert stations([0.0, 1.9, 40.0], 40.0) == pytest.approx([0.0, 40.0])
    assert stations([0.0, 2.1, 40.0], 40.0) == pytest.approx([0.0, 2.1, 40.0])
    assert grid([0.0, 40.0], [0.0, 40.0]).y == pytest.approx([0.0, 20.0, 40.0])
    for bad, step in (([0.0], 10.0), ([0.0, np.nan], 10.0), ([0.0, 10.0], 0.0), ([0.0, 10.0], -1.0)):
        with pytest.raises(JobError, match="stations"):
            stations(bad, step)


def test_a_load_spread_over_part_of_a_board_counts_where_wood_is() -> None:
    """A rectangle half over a missing corner: all its weight on the wood half; sums are one, its middle stays."""
    on = grid([0.0, 40.0, 80.0], [0.0, 40.0, 80.0], 40.0, [Rectangle(40.0, 80.0, 40.0, 80.0)])
    whole = on.spread(Rectangle(0.0, 40.0, 0.0, 40.0))
    assert whole[:2, :2] == pytest.approx(0.25)
    part = on.spread(Rectangle(20.0, 60.0, 50.0, 70.0))
    assert part.sum() == pytest.approx(1.0)
    assert (part * on.y[:, None]).sum() == pytest.approx(30.0)
    assert part[2].sum() == 0.0
    two = on.spreads([Rectangle(0.0, 40.0, 0.0, 40.0), Rectangle(20.0, 60.0, 50.0, 70.0)])
    assert two[..., 0] == pytest.approx(whole)
    assert two[..., 1] == pytest.approx(part)


def test_the_handbooks_plate_has_unit_stiffness() -> None:
    """D 1: E 12(1 - nu^2)/t^3, G 6(1 - nu)/t^3, so 5/6 G t is 5 (1 - nu)/t^2: 350 at t 0.1, nu 0.3."""
    s = _Case(1.0, 2.0, "SSSS", 0.3, 0.1).section
    assert pytest.approx([1.0, 0.3, 1.0, 0.35, 350.0, 350.0]) == [s.D_11, s.D_12, s.D_22, s.D_66, s.S_1, s.S_2]
    assert pytest.approx(350.0) == _Case(3.0, 2.0, "SSSS", 0.3, 0.1).section.S_1


def test_a_handbooks_plate_is_as_thick_as_its_side_a_says() -> None:
    """Twice the plate at the same slenderness has the same coefficient; thick enough that shear counts."""
    small = handbook_ratio("w", [0.5, 0.5], "CCCC", 1.5, 1.0, slenderness=8.0)
    assert handbook_ratio("w", [0.5, 0.5], "CCCC", 3.0, 2.0, slenderness=8.0) == pytest.approx(small, rel=1e-9)
    assert handbook_ratio("w", [0.5, 0.5], "CCCC", 3.0, 2.0, slenderness=16.0) < 0.9 * small


@pytest.mark.parametrize("quantity, other", [("w", "w"), ("M_1", "M_2"), ("M_2", "M_1"), ("M_12", "M_12")])
def test_a_long_plate_is_a_wide_one_turned(quantity: str, other: str) -> None:
    """Sides, edges, load, place and quantity change their names together: w D/(q a^4) goes by a, so does M/(q a^2)."""
    long = handbook_ratio(quantity, [0.3, 0.6], "CSSF", 1.0, 2.0, patch=[0.1, 0.5, 0.2, 0.6], slenderness=20.0)
    wide = handbook_ratio(other, [0.6, 0.3], "SFCS", 2.0, 1.0, patch=[0.2, 0.6, 0.1, 0.5], slenderness=40.0)
    assert long == pytest.approx(wide * 2.0 ** (4 if quantity == "w" else 2), rel=1e-8)
    assert abs(long) > 1e-4


def test_a_loose_plate_adds_its_own_bending_and_no_shear() -> None:
    """6 mm of aluminum: 70,000 x 216/12/(1 - 0.33^2) over the cells it covers, half of it over one half covered."""
    on = grid([0.0, 40.0, 80.0], [0.0, 40.0], 40.0)
    base, D = uniform(30.0), 70_000 * 216 / 12 / (1 - 0.33**2)
    k = vars(backed(base, on, Rectangle(0.0, 60.0, 0.0, 40.0), 70_000.0, 6.0))
    own = {name: np.asarray(v) for name, v in vars(base).items()}
    share = np.array([[1.0], [0.5]])
    for name, times in (("D_11", 1.0), ("D_12", 0.33), ("D_22", 1.0), ("D_66", 0.335), ("S_1", 0.0), ("S_2", 0.0)):
        assert np.asarray(k[name]) == pytest.approx(own[name] + times * D * share)


def test_shear_of_two_unlike_layers_by_fine_slices() -> None:
    """2 mm of 10,000 over 6 mm of 1,000 MPa, G 500 and 100: energy of the stress that bending implies."""
    lam = abd([10_000.0, 1_000.0], [10_000.0, 1_000.0], [500.0, 100.0], 0.0, 0.0, [2.0, 6.0])
    assert lam.t == pytest.approx(8.0)
    n = 80_000
    z = (np.arange(n) + 0.5) * 8.0 / n
    E, G = np.where(z < 2, 10_000.0, 1_000.0), np.where(z < 2, 500.0, 100.0)
    z_0 = (E * z).sum() / E.sum()
    D = (E * (z - z_0) ** 2).sum() * 8.0 / n
    tau = -np.cumsum(E * (z - z_0)) * 8.0 / n / D
    assert transverse_shear(lam, [500.0, 100.0], [500.0, 100.0])[0] == pytest.approx(
        1 / ((tau**2 / G).sum() * 8.0 / n), rel=1e-3
    )


def test_a_pivot_that_has_lost_its_own_stiffness_is_not_held() -> None:
    own = np.eye(2)
    assert inverted(2 * own, 2 * own) == pytest.approx(own / 2)
    for pivot in (np.diag([1.0, -1.0]), np.diag([1.0, 1e-14]), np.zeros((2, 2))):
        with pytest.raises(JobError, match="not held"):
            inverted(pivot, own)


@pytest.mark.parametrize(
    "gap, load, holds",
    [(1e-3, 0.0, False), (0.0, 1e-3, False), (1e-4, 1e-4, True), (1e-5, 0.0, True), (np.nan, 0.0, False)],
)
def test_equations_hold_within_a_part_of_their_loads(gap: float, load: float, holds: bool) -> None:
    """The worse of gaps and loads left over, at most 1e-4 of the larger of b and W, here 1."""
    left: Any = SimpleNamespace(left=lambda *_: (np.array([[gap], [0.0]]), np.array([[0.0], [load]])))
    b, W, on = np.array([[1.0], [0.5]]), np.array([[0.25], [-0.5]]), np.ones((2, 1), dtype=bool)
    assert held(left, on, b, W, b, W, 1e-4).tolist() == [holds]


def test_contacts_give_as_the_plate_and_their_own_springs_do() -> None:
    """Flexibility between contacts against the plate loaded by each alone; on the diagonal 1/k besides."""
    s = board(36.7).seated()[0]
    w = s.plate.solve(s.unit_loads).w
    M = np.einsum("ijm,ijn->mn", s.unit_loads, w) + np.diag(1 / s.seat.stiffness)
    assert pytest.approx(M, rel=1e-9, abs=1e-12 * M.max()) == s.contacts.M


def test_one_grid_answers_like_two_and_knows_no_error(both: tuple[Any, Any]) -> None:
    two, one = both
    assert one.grid.y == pytest.approx(two.grid.y[::2])
    assert one.seat is one.seated[0].seat
    assert one.solution.w == pytest.approx(two.solution.w[::2, ::2], rel=0.05, abs=0.02)
    assert one.springs.shape == (0, 2)
    assert one.pressure == pytest.approx(one.borne.pads / seat(36.7).areas[:, None])
    assert np.isnan(one.bolt_error).all()
    for name, field in vars(one.error).items():
        assert np.isnan(field).all(), name
        assert getattr(one.fields, name).shape == (*one.grid.nodes.shape, 2)


def test_two_grids_differ_by_three_times_what_is_left(both: tuple[Any, Any]) -> None:
    """Richardson: errors fall by four, so a third of the difference is left; at the coarser grid's nodes."""
    two, _ = both
    coarse, fine = two.each
    assert two.bolt_error == pytest.approx(np.abs(fine.bolts - coarse.bolts) / 3)
    for name, error in vars(two.error).items():
        a, b = two.fields.on_each(name)
        assert error[::2, ::2] == pytest.approx(np.abs(b[::2, ::2] - a) / 3, nan_ok=True), name
        better = getattr(two.fields, name)
        assert better[::2, ::2] == pytest.approx(b[::2, ::2] + (b[::2, ::2] - a) / 3, nan_ok=True), name


def test_moments_over_lines_with_the_seat_as_it_is_and_softer() -> None:
    """Bounds add places: the same mean where nothing differs, and the softer seat's own difference where it does."""
    b = board(36.7)
    places = [Rectangle(-30.0, 30.0, -100.0, -100.0), Rectangle(0.0, 0.0, -300.0, -200.0)]
    softer = seat(36.7, E_90=125.0).stiffness
    cases = np.array([AHEAD, STRIKE])
    a = answer(replace(b, bounds=(b.seat.stiffness, softer)), cases, "as")
    m = a.means("M_1", places)
    assert m[:2] == pytest.approx(np.array([a.mean(a.fields.M_1, p) for p in places]), rel=1e-9)
    assert m[2:4] == pytest.approx(m[:2], rel=1e-9)
    other = a.bounds[1].forces - a.borne.forces
    weights = [a.grid.spread(p) for p in places]
    field = a.seated[-1].units.field("M_1")
    some = [w > 0 for w in weights]
    change = [w[s] @ field[s] @ other for w, s in zip(weights, some, strict=True)]
    assert m[4:] == pytest.approx(m[:2] + np.array(change), rel=1e-9)
    assert rigidity(12.0, 10.0) == pytest.approx(1000.0)


def test_a_correction_is_spread_between_nodes_that_lie_on_the_board() -> None:
    """Known at the coarser grid's nodes; beside one that is off the board, nodes between keep what they have."""
    fine, change = np.zeros((3, 3, 1)), np.array([[1.0, 2.0], [3.0, 4.0]])[..., None]
    correct(fine, change)
    assert fine[..., 0].tolist() == [[1.0, 1.5, 2.0], [2.0, 2.5, 3.0], [3.0, 3.5, 4.0]]
    edge = np.zeros((3, 3, 1))
    change[:, 1] = np.nan
    correct(edge, change)
    assert edge[:, :2, 0].tolist() == [[1.0, 0.0], [2.0, 0.0], [3.0, 0.0]]


@pytest.mark.parametrize(
    "edges, held",
    [
        ("SSSS", [(True, False, True), (True, False, True), (True, True, False), (True, True, False)]),
        ("CSFC", [(True, True, True), (True, False, True), (True, True, True)]),
        ("FFSF", [(True, True, False)]),
    ],
)
def test_supports_of_the_handbooks_plate(edges: str, held: list[tuple[bool, bool, bool]]) -> None:
    """A simple support holds deflection and the slope along itself, a clamped edge both slopes, a free one nothing."""
    case = _Case(1.0, 2.0, edges, 0.3, 100.0)
    found = case.plate(grid([0.0, 1.0], [0.0, 2.0], 0.5)).supports
    assert [tuple(v for v in vars(s).values() if isinstance(v, bool)) for s in found] == held


def test_navier_and_a_corner_that_wants_to_lift() -> None:
    """Timoshenko and Woinowsky-Krieger: w 0.00406 q a4/D and M 0.0479 q a2 in the middle of a square plate, nu 0.3."""
    assert handbook_ratio("w", [0.5, 0.5]) == pytest.approx(0.00406, rel=0.002)
    assert handbook_ratio("M_1", [0.5, 0.5]) == pytest.approx(0.0479, rel=0.002)
    assert handbook_ratio("w", [0.5, 0.5], factor=2.0) == pytest.approx(2 * 0.00406, rel=0.002)
    with pytest.raises(JobError, match="not known"):
        handbook_ratio("w", [0.5, 0.5], "SSS")


def test_the_case_that_pulls_most_alike_is_sought_by_parts_of_each_ones_largest() -> None:
    """Largest force 1,000 N and moment 1e6 N mm: 500 N with 4e5 is more of a pull than of a turn, with 6e5 it is not."""
    nothing = np.zeros((0, 3))
    known = np.array([[1000.0, 0.0, 0.0], [0.0, 1e6, 0.0], [0.0, 0.0, -2e5]])
    borne = Borne(known, np.ones((1, 3)), nothing, nothing, nothing, nothing)
    asked = np.array([[500.0, 4e5, 0.0], [500.0, 6e5, 0.0], [1.0, 0.0, -1e5], [-400.0, 0.0, 1e5], [30.0, 2e4, 0.0]])
    assert borne.nearest(asked).tolist() == [0, 1, 2, 1, 0]
    assert borne.nearest(known).tolist() == [0, 1, 2]


def test_likeness_of_cases_is_by_shares_of_the_largest() -> None:
    """(1, 0.5) and (0.2, 1) of the largest; (0.3, 0.8) lies nearer to the second, (0.7, 0.4) to the first."""
    nothing = np.zeros((0, 2))
    known = np.array([[1000.0, 5e5, 0.0], [200.0, 1e6, 0.0]])
    borne = Borne(known, np.ones((1, 2)), nothing, nothing, nothing, nothing)
    assert borne.nearest(np.array([[300.0, 8e5, 0.0], [700.0, 4e5, 0.0]])).tolist() == [1, 0]


def test_what_lies_within_a_hair_of_a_line_is_on_it() -> None:
    """A millionth of a millimeter either way; lines have their own nodes on the board alone."""
    on = grid([0.0, 40.0, 80.0], [0.0, 40.0, 80.0], 40.0, [Rectangle(40.0, 80.0, 40.0, 80.0)])
    assert on.on_line(Rectangle(40.0 + 5e-7, 40.0 + 5e-7, 0.0, 80.0)).sum() == 3
    assert on.on_line(Rectangle(40.0 - 5e-7, 40.0 - 5e-7, 0.0, 80.0)).sum() == 3
    assert on.on_line(Rectangle(40.0 + 2e-6, 40.0 + 2e-6, 0.0, 80.0)).sum() == 0
    assert on.on_line(Rectangle(80.0, 80.0, 0.0, 80.0)).sum() == 2
    assert on.on_line(Rectangle(0.0, 80.0, 0.0, 80.0)).sum() == 8


def test_a_free_plates_flexibility_is_what_its_loads_move_it_where_they_act(both: tuple[Any, Any]) -> None:
    """Both ways alike (Maxwell), and the mean deflection under one rectangle for a unit force on another."""
    _, one = both
    units = one.seated[0].units
    F, w = units.flexibility, units.solution("w")
    assert pytest.approx(F.T) == F
    for k, other in ((0, 1), (2, 5), (3, 3)):
        moved = float((units.loads[..., k] * w[..., other]).sum())
        assert F[k, other] == pytest.approx(moved, rel=1e-9)


def test_what_others_begin_from_is_the_finest_grids_forces(both: tuple[Any, Any]) -> None:
    two, one = both
    for of in both:
        assert of.outcome.seated == ()
        assert of.outcome.each == (of.borne,)
    assert two.outcome.borne is two.each[1]
    assert one.seated[0].fits(two.borne)
    assert not one.seated[0].fits(replace(two.borne, pads=two.borne.pads[:2]))
    assert not one.seated[0].fits(replace(two.borne, rests=np.ones((2, 2))))


def test_means_of_a_part_of_the_moments(both: tuple[Any, Any]) -> None:
    """A quarter of them everywhere is a quarter of the mean; nothing on the port side leaves a line there nothing."""
    two, _ = both
    lines = [Rectangle(100.0, 100.0, -300.0, -100.0), Rectangle(-100.0, -100.0, -300.0, -100.0)]
    whole, shape = two.means("M_1", lines), two.grid.nodes.shape
    assert np.abs(whole).min() > 1.0
    assert two.means("M_1", lines, np.full(shape, 0.25)) == pytest.approx(whole / 4)
    half = two.means("M_1", lines, np.broadcast_to(two.grid.y[:, None] > 0.0, shape) * 1.0)
    assert half[0] == pytest.approx(whole[0])
    assert half[1] == pytest.approx(0.0, abs=1e-12)
