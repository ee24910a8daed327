"""Unit loads: half of them solved and turned round are what solving each of them gives."""

from dataclasses import fields as parts
from dataclasses import replace

import numpy as np
import pytest

from tests.board.boards import board
from transom.board.grid import Rectangle
from transom.board.plate import Solution
from transom.board.recover import Fields, fields
from transom.board.unit_loads import Units


def check(units: Units, worked_out: int) -> None:
    """Every value of every load, beside the plate's own."""
    each = units.plate.solve(units.loads)
    moments = fields(units.plate, each)
    assert len(units.own) == worked_out
    for kind, whole, found in ((Solution, each, units.solution), (Fields, moments, units.field)):
        for name in (part.name for part in parts(kind)):
            expected = getattr(whole, name)
            assert found(name) == pytest.approx(expected, abs=1e-9 * np.nanmax(np.abs(expected)), nan_ok=True)
    flat = units.loads.reshape(-1, units.loads.shape[-1])
    assert units.flexibility == pytest.approx(flat.T @ each.w.reshape(flat.shape), rel=1e-9, abs=1e-12)


def test_a_board_that_is_its_own_image_solves_half_its_loads():
    seated = board(36.7).seated()[0]
    m = seated.unit_loads.shape[-1]
    check(seated.units, m // 2)


def test_a_load_on_the_middle_line_is_its_own_image():
    plate = board(36.7).seated()[0].plate
    loads = np.zeros((*plate.grid.nodes.shape, 3))
    middle = len(plate.grid.y) // 2
    loads[middle, 2, 0] = loads[1, 3, 1] = loads[-2, 3, 2] = 1.0
    check(Units(plate, loads), 2)


def test_one_load_without_an_image_has_each_solved():
    plate = board(36.7).seated()[0].plate
    loads = np.zeros((*plate.grid.nodes.shape, 3))
    loads[1, 3, 0] = loads[-2, 3, 1] = loads[2, 4, 2] = 1.0
    check(Units(plate, loads), 3)
    # Two halves that weigh the same at the same place and are no images: told apart when compared whole.
    loads[..., 2] = loads[..., 0] / 2 + loads[..., 1] / 2
    loads[1, 1, 2] = loads[-2, 1, 2] = loads[1, 5, 2] = 0.25
    check(Units(plate, loads), 3)


def test_a_lopsided_board_has_each_solved():
    seated = board(36.7).seated()[0]
    lopsided = replace(seated.plate, supports=seated.plate.supports[:1] + seated.plate.supports[2:])
    check(Units(lopsided, seated.unit_loads[..., :5]), 5)


@pytest.mark.parametrize("new", [[], [0, 1], [3], [-1]])
def test_what_kin_know_is_not_solved_again(new: list[int]) -> None:
    """Loads of which some differ, in pairs or one alone, and one more than the kin have."""
    plate, loads = board(36.7).seated()[0].plate, board(36.7).seated()[0].unit_loads
    loads = np.concatenate([loads, loads[..., :1] + loads[..., 1:2]], axis=-1)
    kin = Units(plate, loads[..., :-1])
    others = loads.copy()
    others[..., new] *= 1.5
    units, alone = Units(plate, others, kin), Units(plate, others)
    assert len(units._fresh) == len({*new, -1})
    factors = np.random.default_rng(len(new)).normal(size=(loads.shape[-1], 3))
    over = plate.grid.means((Rectangle(-175.0, -175.0, -300.0, -100.0), Rectangle(-90.0, 200.0, -150.0, -150.0)))
    pairs = [(units.flexibility, alone.flexibility)]
    for name in ("w", "reaction", "M_1", "M_12", "Q_2"):
        pairs += [(units.sums(name, factors), alone.sums(name, factors))]
        pairs += [(units.at(name, *np.nonzero(plate.held)), alone.at(name, *np.nonzero(plate.held)))]
        pairs += [(units.means(name, over, factors), alone.means(name, over, factors))]
        pairs += [(alone.means(name, over, factors), over.of(alone.sums(name, factors)))]
    for found, expected in pairs:
        assert found == pytest.approx(expected, rel=1e-9, abs=1e-9 * np.abs(expected).max())
