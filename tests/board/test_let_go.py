"""A board let go along its lines is the plate with the same rests in it as springs: forces, movements, moments."""

from dataclasses import replace

import numpy as np
import pytest

from tests.board.boards import board
from transom.board.answer import Board, on_one_grid
from transom.board.bracket import Borne, Rest, Seated
from transom.board.grid import Rectangle
from transom.board.let_go import LetGo
from transom.board.plate import Plate, Spring
from transom.board.unit_loads import Moves

NAMES = ("aft", "forward", "twist", "turn", "low")
WRENCHES = np.array([[-4e3, 1.5e6, 0.0], [3e3, -1.2e6, 0.0], [-2e3, 9e5, 3e5], [1e3, 2e5, -6e5], [2e3, 1.4e6, 0.0]])
SOFT = 0.5  # times the stiffness of bolts and pads


def rests(on: Board, bolts: int, k: float = 4e4) -> tuple[Rest, ...]:
    """Flanges along every line of a board, bolts at as many nodes of its sides and at two nodes beside its foot."""
    flanges = [Rest(s.where, 3e5, True) for s in on.supports]
    z = on.grid.z[np.linspace(0, len(on.grid.z) - 1, max(bolts, 1)).round().astype(int)][:bolts]
    sides = [s.where.y_lo for s in on.supports[:2]]
    at = [(y, v) for y in sides for v in z]
    at += [(on.grid.y[n], on.grid.z[1]) for n in (3, -4)] if bolts > 1 else []
    return (*flanges, *(Rest(Rectangle(y, y, v, v), k, False) for y, v in at))


def both(on: Board, bolts: int) -> tuple[LetGo, Seated]:
    """Let go from its lines, and as a plate of its own."""
    lying = Seated(Plate(on.grid, on.section, on.supports, on.springs), on.seat)
    free = Plate(on.grid, on.section, (), on.springs)
    return LetGo(lying.plate, on.seat, rests(on, bolts), lying.units), Seated(free, on.seat, rests(on, bolts))


def alike(found: object, expected: object) -> None:
    x, y = np.asarray(found), np.asarray(expected)
    assert x == pytest.approx(y, rel=1e-9, abs=1e-9 * np.nanmax(np.abs(y)), nan_ok=True)


BOARDS = {
    "pod": board(36.7),
    "uprights": board(30.0, kind="uprights"),
    "lopsided": replace(board(36.7), springs=(Spring(Rectangle(-305.0, -305.0, -450.0, 0.0), 2e4),)),
}


def same(let: LetGo, own: Seated, wrenches: np.ndarray) -> Borne:
    """Everything of both under the same wrenches."""
    names = NAMES[: len(wrenches)]
    one, other = let.bear(wrenches, names), own.bear(wrenches, names)
    for part in ("motion", "bolts", "pads", "rests"):
        alike(getattr(one, part), getattr(other, part))
    for field in ("M_1", "M_2", "M_12", "Q_1", "Q_2"):
        alike(let.units.sums(field, one.forces), own.units.sums(field, other.forces))
    alike(let.units.sums("w", one.forces), own.solution(other).w)
    return one


@pytest.mark.parametrize("bolts", [2, 5])
@pytest.mark.parametrize("name", BOARDS)
def test_it_is_the_plate_with_the_rests_in_it(name: str, bolts: int) -> None:
    let, own = both(BOARDS[name], bolts)
    assert not let._sprung.all()
    rests = same(let, own, WRENCHES).rests
    assert (rests > 0).any(axis=1).sum() > 4
    assert (rests == 0).any(axis=1).sum() > 4


@pytest.mark.parametrize("name", BOARDS)
def test_where_bolts_do_not_hold_the_board_flanges_are_springs_first(name: str) -> None:
    """One a side: the board pushed onto its flanges about its middle stays there all the same."""
    let, own = both(BOARDS[name], 1)
    assert let._sprung.all()
    same(let, own, np.array([[-3e3, 6e5, 0.0], [-3e3, 7e5, 1e5]]))


def test_no_first_try_changes_what_comes_out() -> None:
    """Contacts as the lines had them, as the same rests had them with other pads, or none."""
    let, _ = both(BOARDS["pod"], 5)
    lines = on_one_grid(BOARDS["pod"], WRENCHES, NAMES).borne
    soft = let.seat.stiffness * SOFT
    plain = let.bear(WRENCHES, NAMES, None, soft)
    for like in (lines, let.bear(WRENCHES, NAMES), replace(plain, rests=np.zeros_like(plain.rests))):
        alike(let.bear(WRENCHES, NAMES, like, soft).rests, plain.rests)


def test_means_of_nodes_are_those_of_the_fields() -> None:
    let, _ = both(BOARDS["pod"], 5)
    borne = let.bear(WRENCHES, NAMES)
    places = Rectangle(100.0, 160.0, -200.0, -200.0), Rectangle(-50, -50, -90, -10)
    weights = np.moveaxis(let.plate.grid.spreads(places), -1, 0)
    for field in ("M_1", "M_12"):
        alike(
            let.units.means(field, let.plate.grid.means(places), borne.forces),
            np.tensordot(weights, let.units.sums(field, borne.forces), 2),
        )


@pytest.mark.parametrize("name", BOARDS)
def test_all_nodes_moved_alike_are_a_board_moved_whole(name: str) -> None:
    """By a millimetre, or turned: what was held goes along, no force and no moment anywhere."""
    on = replace(BOARDS[name], springs=())
    moves = Moves(Plate(on.grid, on.section, on.supports))
    y, z = on.grid.y[moves.places[0]], on.grid.z[moves.places[1]]
    whole = np.stack([np.ones_like(y), y / 100.0, z / 100.0], axis=1)
    assert moves.sums("w", whole)[..., 0] == pytest.approx(1.0, abs=1e-9)
    assert moves.sums("w", whole)[..., 1] == pytest.approx(
        np.broadcast_to(on.grid.y[:, None] / 100.0, on.grid.nodes.shape), abs=1e-9
    )
    size = np.abs(moves.stiffness).max()
    assert np.abs(moves.stiffness @ whole).max() < 1e-9 * size
    assert np.abs(moves.sums("M_1", whole)).max() < 1e-9 * np.abs(moves.field("M_1")).max()
