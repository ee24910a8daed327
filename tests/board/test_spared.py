"""What one answer spares another: plates, unit loads, contacts to try first. It may change no result."""

from dataclasses import replace

import numpy as np
import pytest

from tests.board.boards import board
from transom.board.answer import Answer, answer, on_one_grid
from transom.board.bracket import Rest
from transom.board.grid import Rectangle

NAMES = ("aft", "forward", "twist", "turn")
WRENCHES = np.array([[-4e3, 1.5e6, 0.0], [3e3, -1.2e6, 0.0], [-2e3, 9e5, 3e5], [1e3, 2e5, -6e5]])
PLAIN, LARGER = board(36.7), board(36.7, plate=80.0)


def alike(one: Answer, other: Answer) -> None:
    """Forces and moments of both."""
    for a, b in zip(one.each, other.each, strict=True):
        assert a.forces == pytest.approx(b.forces, rel=1e-9, abs=1e-9 * np.abs(b.forces).max())
    for name in ("M_1", "M_2", "M_12", "Q_1"):
        expected = getattr(other.fields, name)
        assert getattr(one.fields, name) == pytest.approx(expected, abs=1e-9 * np.nanmax(np.abs(expected)))
    assert one.solution.w == pytest.approx(other.solution.w, abs=1e-9 * np.abs(other.solution.w).max())
    assert one.solution.reaction == pytest.approx(other.solution.reaction, abs=1e-6)


def test_other_cases_on_the_same_board_take_its_unit_loads():
    first = answer(PLAIN, WRENCHES[:2], NAMES[:2])
    seated = PLAIN.seated_as(PLAIN, first.seated)
    assert seated is first.seated
    alike(answer(PLAIN, WRENCHES, NAMES, seated, first), answer(PLAIN, WRENCHES, NAMES))


def test_another_backing_solves_its_bolts_alone():
    first = answer(PLAIN, WRENCHES, NAMES)
    seated = LARGER.seated_as(PLAIN, first.seated)
    assert seated is not None
    for before, after in zip(first.seated, seated, strict=True):
        assert after.plate is before.plate
        assert len(after.units._new.own) == 2  # an upper and a lower bolt; the others are their images
    alike(answer(LARGER, WRENCHES, NAMES, seated, first), answer(LARGER, WRENCHES, NAMES))


def test_on_one_grid_too():
    first = on_one_grid(PLAIN, WRENCHES, NAMES)
    seated = LARGER.seated_as(PLAIN, first.seated)
    one, other = on_one_grid(LARGER, WRENCHES, NAMES, seated, first), on_one_grid(LARGER, WRENCHES, NAMES)
    alike(one, other)


def test_another_board_is_spared_nothing():
    first = answer(PLAIN, WRENCHES, NAMES).seated
    for other in (board(36.8), board(36.7, kind="uprights"), board(36.7, W=611.0), board(36.7, target=30.0)):
        assert other.seated_as(PLAIN, first) is None
    assert PLAIN.seated_as(PLAIN, first) is first
    rest = Rest(Rectangle(-305.0, -305.0, -450.0, 0.0), 1e5, pushes=True)
    assert PLAIN.seated_as(replace(PLAIN, rests=(rest,)), first) is None
    assert replace(PLAIN, rests=(rest,)).seated_as(PLAIN, first) is None


def test_contacts_of_the_case_that_pulls_most_alike_are_tried_first():
    borne = answer(PLAIN, WRENCHES, NAMES).borne
    m = len(borne.bolts) + len(borne.pads)
    assert np.array_equal(borne.touching(WRENCHES, m), borne.forces > 0)
    assert np.array_equal(borne.touching(2.0 * WRENCHES[[2, 0]], m), borne.forces[:, [2, 0]] > 0)
    assert PLAIN.seat.fits(borne)
    assert not board(36.7, cell=40.0).seat.fits(borne)


@pytest.mark.parametrize("turned", [False, True])
def test_a_bad_first_try_changes_nothing(turned: bool):
    """Also contacts that hold nothing: all open, all shut, those of the opposite pull."""
    good = answer(PLAIN, WRENCHES, NAMES)
    forces = -good.borne.forces if turned else np.zeros_like(good.borne.forces)
    bad = Answer((), (replace(good.borne, wrenches=-WRENCHES, forces=forces),))
    alike(answer(PLAIN, WRENCHES, NAMES, None, bad), good)
