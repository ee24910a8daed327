"""What is cut out of a board: geometry by hand, inner corners that no grid makes worse, and a plate cut and stiffened
like with like against another program's."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tests.board.boards import board, uniform
from transom.board.answer import Answer, answer
from transom.board.elements import Section
from transom.board.grid import Rectangle, grid
from transom.board.outline import Corner, about, beside, corners, cut_corners, notch, relieved, square
from transom.board.plate import Plate, Support, edges
from transom.board.recover import fields

BOARD = Rectangle(-300.0, 300.0, -450.0, 0.0)
(NOTCH,) = notch(200.0, 40.0)


def test_a_notch_of_no_size_is_none() -> None:
    assert notch(0.0, 40.0) == notch(200.0, 0.0) == ()
    assert notch(0.5, 0.5) == (Rectangle(-0.25, 0.25, -0.5, 0.0),)
    assert Rectangle(-100.0, 100.0, -40.0, 0.0) == NOTCH


def test_what_lies_beside_a_notch() -> None:
    """A pad from y 80 to 180 over a notch to 100: below it 20 x 290, beside it 80 x 330."""
    found = beside(Rectangle(80.0, 180.0, -330.0, 0.0), (NOTCH,))
    assert set(found) == {Rectangle(100.0, 180.0, -330.0, 0.0), Rectangle(80.0, 100.0, -330.0, -40.0)}
    assert beside(Rectangle(-50.0, 50.0, -30.0, -10.0), (NOTCH,)) == ()
    clear = Rectangle(120.0, 180.0, -330.0, 0.0)
    assert beside(clear, (NOTCH,)) == (clear,)


def test_an_opening_in_the_middle_of_a_pad_leaves_four_parts() -> None:
    hole = square(0.0, -100.0, 60.0, BOARD)
    parts = beside(Rectangle(-100.0, 100.0, -200.0, 0.0), (hole,))
    assert sum(p.area for p in parts) == pytest.approx(200.0 * 200.0 - 60.0 * 60.0)
    assert len(parts) == 4


def test_a_patch_ends_alike_on_both_sides_of_its_bolt() -> None:
    """Bolt 20 from the board's top, 30 under and 25 beside the notch: the way that leaves more."""
    assert about(0.0, -20.0, (50.0, 50.0), BOARD, ()) == Rectangle(-50.0, 50.0, -40.0, 0.0)
    assert about(0.0, -70.0, (50.0, 50.0), BOARD, (NOTCH,)) == Rectangle(-50.0, 50.0, -100.0, -40.0)
    assert about(145.0, -45.0, (50.0, 50.0), BOARD, (NOTCH,)) == Rectangle(100.0, 190.0, -90.0, 0.0)
    off = about(100.0, -20.0, (30.0, 30.0), BOARD, (NOTCH,))
    assert off.centre == (100.0, -20.0)
    assert off.y_hi == 100.0


def test_corners_that_lie_on_an_edge_are_none() -> None:
    assert set(corners(NOTCH, BOARD)) == {Corner(-100.0, -40.0, -1.0, -1.0), Corner(100.0, -40.0, 1.0, -1.0)}
    assert len(list(corners(square(0.0, -200.0, 120.0, BOARD), BOARD))) == 4


def test_no_finer_grid_makes_an_inner_corner_worse() -> None:
    """The corner's own moment grows by a sixth from the first grid to the last; its mean over a thickness by 3 %."""
    raw, kept = [], []
    for target in (40.0, 20.0, 10.0):
        b = board(36.7, target=target)
        y, z = (sorted({*v, *more}) for v, more in ((b.grid.y, (-100.0, 100.0)), (b.grid.z, (-40.0,))))
        cut = grid(y, z, target, missing=[NOTCH])
        a = answer(type(b)(cut, b.section, b.supports, b.seat), np.array([[-3e3, 2.6e6, 0.0]]), ["ahead"])
        near = Corner(100.0, -40.0, 1.0, -1.0).near(a.grid, 36.7, [(bolt.y, bolt.z) for bolt in a.seat.bolts])
        raw.append(np.abs(a.fields.M_1[near]).max())
        kept.append(np.abs(relieved(a, corners(NOTCH, BOARD), 36.7)[0][near]).max())
    assert raw[2] > 1.15 * raw[0]
    assert kept == pytest.approx(np.full(3, kept[2]), rel=0.03)


def test_a_peak_at_a_bolt_beside_a_corner_stays() -> None:
    b = board(36.7, target=20.0)
    cut = grid(sorted({*b.grid.y, -140.0, 140.0}), b.grid.z, 20.0, missing=notch(280.0, 20.0))
    a = answer(type(b)(cut, b.section, b.supports, b.seat), np.array([[-3e3, 2.6e6, 0.0]]), ["ahead"])
    i, j = (int(np.argmin(np.abs(line - at))) for line, at in ((a.grid.y, 163.5), (a.grid.z, -47.6)))
    M = relieved(a, corners(notch(280.0, 20.0)[0], BOARD), 36.7)[0]
    assert M[i, j] == a.fields.M_1[i, j]


def test_every_load_on_a_cut_board_finds_its_way_to_the_supports() -> None:
    """Notch and both lower corners cut; nothing of the grid there carries, and the solve stays block by block."""
    gone = [NOTCH, Rectangle(-300.0, -240.0, -450.0, -400.0), Rectangle(240.0, 300.0, -450.0, -400.0)]
    on = grid([-300.0, 0.0, 300.0], [-450.0, 0.0], 25.0, missing=gone)
    plate = Plate(on, uniform(36.7), tuple(Support(line) for line in edges((-300.0, 300.0), (-450.0, 0.0))))
    load = on.spread(BOARD)[..., None] * 1000.0
    s = plate.solve(load)
    assert s.reaction.sum() == pytest.approx(-1000.0, rel=1e-9)
    assert (s.w[~on.nodes] == 0).all()
    assert plate.mirrored
    assert np.isnan(fields(plate, s).M_1[~on.nodes]).all()


def test_pynite_quad_on_a_notched_and_stiffened_board() -> None:
    """Like with like on one grid: 600 x 400 x 40, notch 240 x 60 in its free top edge, 60 x 240 mm of it 52 thick.

    Deflections 1 %; mean moment over 60 mm below the notch's corner, where no grid settles the corner's own, and the
    thinner board's own share of the moment in the middle of the patch 2 %.
    """
    Pynite = pytest.importorskip("Pynite")
    E, nu, thick, thin, cut = 10000.0, 0.3, 52.0, 40.0, Rectangle(-120.0, 120.0, -60.0, 0.0)
    on = grid([-300.0, -120.0, 0.0, 120.0, 300.0], [-400.0, -240.0, -210.0, -180.0, -60.0, 0.0], 15.0, missing=[cut])
    y, z = ((v[1:] + v[:-1]) / 2 for v in (on.y, on.z))
    t = np.where(np.outer(np.abs(y) < 120.0, (z > -240.0) & (z < -180.0)), thick, thin)
    supports = tuple(Support(line) for line in LINES)
    s = Plate(on, section(t, E, nu), supports).solve(
        on.spread(BOARD_400)[..., None] * 0.01 * (600.0 * 400.0 - cut.area)
    )
    M = fields(Plate(on, section(thin, E, nu), supports), s).M_1
    model, names = pynite(Pynite, on, t, E, nu)
    for place in ((0.0, -210.0), (120.0, 0.0), (0.0, -60.0), (0.0, -300.0)):
        i, j = node(on, *place)
        assert s.w[i, j, 0] == pytest.approx(abs(model.nodes[names[i, j]].DZ["Combo 1"]), rel=1e-2)
    weights = on.spread(Rectangle(120.0, 120.0, -120.0, -60.0))
    mine = float((weights[weights > 0] @ M[weights > 0]).item())
    assert mine == pytest.approx(mean_below(model, on, 120.0, (-120.0, -60.0)), rel=2e-2)
    middle = node(on, 0.0, -210.0)
    assert M[*middle, 0] == pytest.approx(at_node(model, *middle) * (thin / thick) ** 3, rel=2e-2)


def section(t, E, nu):  # type: ignore[no-untyped-def]
    """Of a uniform plate, one thickness or one for each cell."""
    D, S = E * t**3 / 12 / (1 - nu**2), 5 / 6 * E / 2 / (1 + nu) * t
    return Section(D, nu * D, D, (1 - nu) / 2 * D, S, S)


def node(on, y, z):  # type: ignore[no-untyped-def]
    """The node nearest to a place."""
    return int(np.argmin(np.abs(on.y - y))), int(np.argmin(np.abs(on.z - z)))


BOARD_400 = Rectangle(-300.0, 300.0, -400.0, 0.0)
LINES = edges((-300.0, 300.0), (-400.0, 0.0))[:3]  # both sides and the bottom; the top is free
LOCAL = ((-1, -1), (1, -1), (1, 1), (-1, 1))


def pynite(Pynite, on, t, E, nu):  # type: ignore[no-untyped-def]
    """The starboard half of the same board in the other program, and the names of its nodes."""
    model = Pynite.FEModel3D()
    model.add_material("wood", E, E / 2 / (1 + nu), nu, 1e-9)
    names = np.empty(on.nodes.shape, dtype=object)
    half = len(on.y) // 2
    for i, j in zip(*np.nonzero(on.nodes), strict=True):
        if i < half:
            continue
        names[i, j] = f"N{i}_{j}"
        model.add_node(names[i, j], on.y[i], on.z[j], 0)
        model.def_support(names[i, j], True, True, i == len(on.y) - 1 or j == 0, False, bool(i == half), True)
    for i, j in zip(*np.nonzero(on.present), strict=True):
        if i < half:
            continue
        around = (names[i, j], names[i + 1, j], names[i + 1, j + 1], names[i, j + 1])
        model.add_quad(f"Q{i}_{j}", *around, t[i, j], "wood")
        model.add_quad_surface_pressure(f"Q{i}_{j}", 0.01)
    model.analyze_linear(sparse=True, check_stability=False)
    return model, names


def at_node(model, i, j):  # type: ignore[no-untyped-def]
    """Moment along y at a node: mean of the quads that meet there."""
    quads = [model.quads.get(f"Q{i + m}_{j + n}") for m, n in ((0, 0), (-1, 0), (-1, -1), (0, -1))]
    return abs(np.mean([q.moment(*p, True, "Combo 1").ravel()[0] for q, p in zip(quads, LOCAL, strict=True) if q]))


def mean_below(model, on, y, ends):  # type: ignore[no-untyped-def]
    """Mean moment along y over an upright line, from the middles of the sides of the quads on both sides of it."""
    i, _ = node(on, y, 0.0)
    rows = [j for j in range(len(on.z) - 1) if ends[0] < (on.z[j] + on.z[j + 1]) / 2 < ends[1]]
    both = [
        [model.quads[f"Q{k}_{j}"].moment(side, 0, True, "Combo 1").ravel()[0] for k, side in ((i - 1, 1), (i, -1))]
        for j in rows
    ]
    return abs(np.mean(both))


def test_nodes_near_a_corner_and_nearer_to_no_bolt() -> None:
    """Lines 10 apart, corner at (20, -30), within 15: itself, the four beside it and the four askew (14.1); a bolt at
    (44, -30) takes none of them; one at (40, -30) is as near to the three to starboard, which is enough; one 12 above
    takes the three above."""
    on = grid(np.arange(0.0, 71.0, 10.0), np.arange(-80.0, 1.0, 10.0), 10.0)
    corner = Corner(20.0, -30.0, 1.0, -1.0)

    def near(*bolts: tuple[float, float], within: float = 15.0) -> set[tuple[float, float]]:
        i, j = np.nonzero(corner.near(on, within, bolts))
        return {(float(on.y[a]), float(on.z[b])) for a, b in zip(i, j, strict=True)}

    block = {(y, z) for y in (10.0, 20.0, 30.0) for z in (-40.0, -30.0, -20.0)}
    assert near() == near((44.0, -30.0)) == block
    assert near((40.0, -30.0)) == block - {(30.0, z) for z in (-40.0, -30.0, -20.0)}
    assert near((20.0, -18.0)) == block - {(y, -20.0) for y in (10.0, 20.0, 30.0)}
    assert near(within=10.0) == {(20.0, -30.0), (10.0, -30.0), (30.0, -30.0), (20.0, -40.0), (20.0, -20.0)}


@pytest.mark.parametrize(
    "r",
    [
        Rectangle(-180.0, -100.0, -60.0, 0.0),
        Rectangle(100.0, 180.0, -60.0, 0.0),
        Rectangle(-50.0, 50.0, -90.0, -40.0),
        Rectangle(-150.0, 150.0, -90.0, -40.0),
        Rectangle(-150.0, 150.0, 0.0, 30.0),
        Rectangle(-50.0, 50.0, 0.0, 30.0),
    ],
)
def test_what_only_touches_a_cut_is_whole(r: Rectangle) -> None:
    """To port, to starboard, below and above a notch from -100 to 100 and from -40 to 0; a hair inside it is cut."""
    assert beside(r, (NOTCH,)) == (r,)
    assert beside(Rectangle(r.y_lo - 0.5, r.y_hi + 0.5, r.z_lo - 0.5, r.z_hi + 0.5), (NOTCH,)) != (r,)


def test_cut_corners_of_a_board() -> None:
    """50 by 80 off both top corners, or both bottom ones; none where either has no size."""
    assert cut_corners(BOARD, 50.0, 80.0, top=True) == (
        Rectangle(-300.0, -250.0, -80.0, 0.0),
        Rectangle(250.0, 300.0, -80.0, 0.0),
    )
    assert cut_corners(BOARD, 50.0, 80.0, top=False) == (
        Rectangle(-300.0, -250.0, -450.0, -370.0),
        Rectangle(250.0, 300.0, -450.0, -370.0),
    )
    for width, height in ((0.0, 80.0), (50.0, 0.0), (0.0, 0.0), (-1.0, 80.0)):
        assert cut_corners(BOARD, width, height, top=True) == ()
    assert len(cut_corners(BOARD, 0.5, 0.5, top=True)) == 2


@pytest.mark.parametrize("outward, upward", [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)])
def test_cuts_through_a_corner_go_into_the_wood(outward: float, upward: float) -> None:
    upright, level = Corner(20.0, -30.0, outward, upward).cuts(10.0)
    z, y = sorted((-30.0, -30.0 + 10.0 * upward)), sorted((20.0, 20.0 + 10.0 * outward))
    assert upright == Rectangle(20.0, 20.0, *z)
    assert level == Rectangle(*y, -30.0, -30.0)


def test_a_patch_reaches_as_far_as_it_may_each_way() -> None:
    """70 across and 20 up; 60 and 25 from the board's starboard and lower edge; from a thing cut out 30 to port of it."""
    assert about(0.0, -200.0, (70.0, 20.0), BOARD, ()) == Rectangle(-70.0, 70.0, -220.0, -180.0)
    assert about(240.0, -425.0, (70.0, 40.0), BOARD, ()) == Rectangle(180.0, 300.0, -450.0, -400.0)
    assert about(-240.0, -10.0, (70.0, 40.0), BOARD, ()) == Rectangle(-300.0, -180.0, -20.0, 0.0)
    hole = Rectangle(-130.0, -30.0, -250.0, -150.0)
    assert about(0.0, -200.0, (70.0, 20.0), BOARD, (hole,)) == Rectangle(-30.0, 30.0, -220.0, -180.0)
    # Askew of it: 30 beside and 10 above; 30 x 40 leaves more than 70 x 10, and 70 x 30 more than 30 x 40.
    assert about(0.0, -140.0, (70.0, 40.0), BOARD, (hole,)) == Rectangle(-30.0, 30.0, -180.0, -100.0)
    assert about(0.0, -120.0, (70.0, 40.0), BOARD, (hole,)) == Rectangle(-70.0, 70.0, -150.0, -90.0)
    # The same of things to starboard, above and below.
    for y_lo, y_hi, z_lo, z_hi in ((30.0, 130.0, -250.0, -150.0), (30.0, 130.0, -210.0, -190.0)):
        cut = Rectangle(y_lo, y_hi, z_lo, z_hi)
        assert about(0.0, -200.0, (70.0, 20.0), BOARD, (cut,)) == Rectangle(-30.0, 30.0, -220.0, -180.0)
    over, under = Rectangle(-50.0, 50.0, -190.0, -150.0), Rectangle(-50.0, 50.0, -250.0, -210.0)
    for cut in (over, under):
        assert about(0.0, -200.0, (70.0, 20.0), BOARD, (cut,)) == Rectangle(-70.0, 70.0, -210.0, -190.0)
    # On the edge itself nothing is left across.
    assert about(300.0, -200.0, (70.0, 20.0), BOARD, ()) == Rectangle(300.0, 300.0, -220.0, -180.0)


def test_a_corners_peak_of_either_sign_falls_to_its_mean() -> None:
    """Nodes 10 apart, 10 N everywhere and 90 at the corner (0, 0), wood to starboard and below. Over 20 mm through it:
    (90/2 + 10 + 10/2)/2 = 30 N; M_1 by the upright cut, M_2 by the level one, the twist by the worse."""
    on = grid(np.arange(-40.0, 41.0, 10.0), np.arange(-40.0, 41.0, 10.0), 10.0)
    even = np.full((9, 9, 2), 10.0)
    even[..., 1] *= -1
    one, two, twist = even.copy(), even.copy(), even.copy()
    one[4, 4] = two[4, 4] = twist[4, 4] = 90.0, -90.0
    one[4, 3], two[5, 4], twist[5, 4] = (12.0, -12.0), (14.0, -14.0), (20.0, -20.0)
    fields = SimpleNamespace(M_1=one, M_2=two, M_12=twist)
    of: Any = SimpleNamespace(fields=fields, grid=on, seat=SimpleNamespace(bolts=()))
    of.mean = lambda field, where: Answer.mean(of, field, where)
    found = relieved(of, [Corner(0.0, 0.0, 1.0, -1.0)], 20.0)
    for moments, raw, most in zip(found, (one, two, twist), (31.0, 32.0, 35.0), strict=True):
        assert moments[4, 4] == pytest.approx([most, -most])
        raw[4, 4] = most, -most
        assert moments == pytest.approx(raw)
    assert relieved(of, [], 20.0)[0] is one


@pytest.mark.parametrize("top, upward", [(True, -1.0), (False, 1.0)])
def test_a_cut_corner_has_one_inner_corner(top: bool, upward: float) -> None:
    """The other three of its rectangle lie on the board's edges."""
    port, starboard = cut_corners(BOARD, 50.0, 80.0, top=top)
    z = -80.0 if top else -370.0
    assert list(corners(port, BOARD)) == [Corner(-250.0, z, 1.0, upward)]
    assert list(corners(starboard, BOARD)) == [Corner(250.0, z, -1.0, upward)]
