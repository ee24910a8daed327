"""Bending of a board whose edge may lift between the frame's bolts: against a beam by hand, and its own bookkeeping."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.board.boards import uniform
from tests.checks.shop import JOB, MOUNT, cases, setup_of
from transom.board.answer import Answer, Board, on_one_grid
from transom.board.bracket import Bolt, Rest, Seat, pad_cells
from transom.board.grid import Rectangle, grid
from transom.board.plate import Support
from transom.checks import backing
from transom.checks.backing import own_bending
from transom.checks.board import _worse, bending, times_more_of
from transom.checks.careful import Careful
from transom.checks.frame_pull import holding_give
from transom.checks.lifting import (
    FORCES,
    MOST,
    held_by_lines,
    in_some_cases,
    lifting,
    on_flanges,
    rests,
    times_harder,
)
from transom.job.records import FrameBolts, Job
from transom.judge.evaluate import careful_of, trial_of
from transom.units import Array

T = 36.52  # two sheets of 18.26


def held_by(count: int) -> Job:
    """The shop's job with so many frame bolts, on 76 x 6.35 plate washers and an angle in the flange."""
    bolts = FrameBolts("3/8 in", count, False, 9.525, washer=76.2, washer_t=6.35, doubler=6.35, chosen=True)
    return replace(JOB, frame=replace(JOB.frame, bolts=bolts))


def solved(count: int) -> Careful:
    return careful_of(trial_of(setup_of(held_by(count)), cases(), [MOUNT]))


@pytest.fixture(scope="module")
def few() -> Careful:
    return solved(8)


def afresh(of: Careful, **changes: Any) -> Careful:
    """The same, solved already, with nothing else of it worked out."""
    return replace(of, solved=of.answer, **changes)


def bent(of: Careful) -> Array:
    """What the board's own check says of bending, (1, v)."""
    return bending(of).utilisation


def test_few_bolts_let_the_edge_lift_and_the_check_says_so(few: Careful) -> None:
    k = lifting(afresh(few), _worse)
    assert k.shape == (len(few.cases),)
    assert (k >= 1.0).all()
    assert k.max() > 1.02
    assert bent(few)[0] == pytest.approx(k * _worse(few)[0], rel=1e-12)


def test_many_stiff_bolts_hold_the_edge_as_lines_do() -> None:
    many = solved(40)
    assert lifting(many, _worse).tolist() == [1.0] * len(many.cases)
    assert bent(many)[0].tolist() == _worse(many)[0].tolist()


def test_a_quick_look_leaves_it_out(few: Careful) -> None:
    assert lifting(afresh(few, two_grids=False), _worse).tolist() == [1.0] * len(few.cases)


def test_a_board_that_is_not_bent_is_not_bent_more(few: Careful) -> None:
    assert lifting(afresh(few), lambda of: np.zeros((1, len(of.cases)))).tolist() == [1.0] * len(few.cases)


def test_where_only_passing_is_asked_a_board_over_its_limit_is_not_solved_again(few: Careful) -> None:
    """What is under its limit is raised all the same: it might not pass then."""
    over = afresh(few, passing_only=True)
    times = 1.001 / _worse(few).max()
    assert lifting(over, lambda of: _worse(of) * times).tolist() == [1.0] * len(few.cases)
    under = lifting(afresh(few, passing_only=True), lambda of: _worse(of) * times * 0.998)
    assert under == pytest.approx(lifting(afresh(few), _worse), rel=1e-12)
    assert under.max() > 1.02


def test_contacts_found_elsewhere_change_nothing(few: Careful) -> None:
    """Of fewer cases, of the wrong ones, and of other bolts, which fit no more."""
    k = lifting(afresh(few), _worse)
    for other in (on_flanges(few, range(3)), on_flanges(few, range(len(few.cases)))):
        assert other.solved is not None
        assert lifting(afresh(few, lifted=other.solved.outcome), _worse) == pytest.approx(k, rel=1e-9)
    more = solved(12)
    assert lifting(afresh(few, lifted=on_flanges(more, range(3)).answer.outcome), _worse) == pytest.approx(k, rel=1e-9)
    assert len(few.let_go) == 1


def test_each_case_takes_its_own_and_what_is_not_solved_again_the_most(few: Careful) -> None:
    held = _worse(held_by_lines(few, range(len(few.cases))))[0]
    again = np.flatnonzero(held >= MOST * held.max())
    assert 1 < len(again) < len(held)
    own = np.maximum(_worse(on_flanges(few, again.tolist()))[0] / held[again], 1.0)
    assert own.min() < own.max()
    k = lifting(afresh(few), _worse)
    assert k[again] == pytest.approx(own, rel=1e-12)
    assert np.delete(k, again) == pytest.approx(own.max(), rel=1e-12)


@pytest.mark.parametrize(
    "free, held, times", [(1100.0, 1000.0, 1.1), (900.0, 1000.0, 1.0), (50.0, 0.0, 50.0), (0.0, 0.0, 1.0)]
)
def test_times_harder_by_hand(free: float, held: float, times: float) -> None:
    """Less than on lines counts as on lines; of next to nothing a newton is taken."""
    assert times_harder(free, held) == pytest.approx(times)


def test_bolts_and_pads_carry_what_they_would_with_the_edge_free(few: Careful) -> None:
    """Where each pulls or pushes hardest for what the wood bears: as on flanges in that case, and no less than on lines."""
    of = afresh(few)
    free, held = (solve(few, range(len(few.cases))) for solve in (on_flanges, held_by_lines))
    for symbol, name in zip(FORCES, ("upper_tension", "lower_tension", "pad_push"), strict=True):
        k = times_more_of(of)[symbol]
        assert np.ptp(k) == 0.0
        there, loose = (np.ravel(getattr(x, name)) for x in (held, free))
        hardest = int(np.argmax(there / few.k))
        error = few.answer.bolt_error[{"k_u": slice(0, 2), "k_o": slice(2, 4)}.get(symbol, slice(0, 0))]
        raised = np.ravel(getattr(of, name))[hardest]
        assert k[0] >= max(1.0, loose[hardest] / there[hardest]) * (1 - 1e-9)
        assert raised >= loose[hardest] * (1 - 1e-9)
        assert raised <= (there[hardest] + error.max(initial=0.0)) * k[0] * (1 + 1e-9)
        assert k[0] <= 1.1
    assert max(times_more_of(of)[symbol][0] for symbol in FORCES) > 1.003


def test_a_plate_over_a_pair_of_bolts_bends_as_much_more_as_the_board(few: Careful) -> None:
    """Of its moment, what follows the board grows by k_l; what the bolts' pull makes of it grows by theirs alone."""
    asked, none = [], np.ones(len(few.cases))
    for k_l in (none, 1.1 * none, 1.2 * none):
        of = afresh(few)
        of.kept.update({"k_l": k_l, **dict.fromkeys(FORCES, none)})
        asked.append(np.ravel(own_bending(of)[0].demand))
    pressed = np.ravel(
        backing._cantilever(few.upper_tension / times_more_of(few)["k_u"], few.upper_patch, few.hardware.flats)
    )
    assert asked[0].max() > pressed.max()
    assert asked[2] - asked[0] == pytest.approx(2.0 * (asked[1] - asked[0]), abs=1e-6)
    assert asked[2] - asked[0] == pytest.approx(0.2 * (asked[0] - pressed), rel=1e-6, abs=1e-6)


def test_a_quick_look_and_a_board_over_its_limit_leave_forces_as_they_are(few: Careful) -> None:
    quick = afresh(few, two_grids=False)
    assert quick.lower_tension.max() == max(b.bolts[2:].max() for b in (few.answer.borne, *few.answer.bounds))
    over = afresh(few, passing_only=True)
    times = 1.001 / _worse(few).max()
    lifting(over, lambda of: _worse(of) * times)
    assert all(over.kept[symbol].tolist() == [1.0] * len(few.cases) for symbol in FORCES)


def test_held_by_many_stiff_bolts_nothing_carries_much_more() -> None:
    many = times_more_of(solved(40))
    assert max(float(many[symbol].max()) for symbol in FORCES) < 1.01


def test_flanges_and_bolts_balance_the_engine(few: Careful) -> None:
    """Along the boat and about both lines of the board, in every case; a flange never pulls, a bolt never pushes."""
    every = on_flanges(few, range(len(few.cases)))
    (seated,), borne = every.answer.seated, every.answer.borne
    sense = np.array([n[3] for n in seated.nodes])
    on = seated.plate.grid
    y, z = on.y[[n[0] for n in seated.nodes]], on.z[[n[1] for n in seated.nodes]]
    Fx, My, Mz = (np.ravel(m) for m in (np.negative(few.actions.N), few.actions.M, few.actions.M_z))
    assert (borne.rests >= 0.0).all()
    assert set(sense) == {1.0, -1.0}
    assert np.abs(Mz).max() > 1e5
    assert sense @ borne.rests == pytest.approx(-Fx, abs=1e-3)
    assert (sense * z) @ borne.rests == pytest.approx(-My, abs=1.0)
    assert (sense * y) @ borne.rests == pytest.approx(Mz, abs=1.0)


def test_every_flange_pushes_and_every_bolt_holds_where_it_is(few: Careful) -> None:
    """E_90 25 mm l/t a flange; a bolt's stiffness is one over what its steel, its wood and its flange give."""
    on = list(rests(few))
    flanges, bolts = [r for r in on if r.pushes], [r for r in on if not r.pushes]
    assert [r.where for r in flanges] == list(few.lines)
    E_90 = few.factor("board.pad_stiffness_MPa")
    lengths = [max(r.where.y_hi - r.where.y_lo, r.where.z_hi - r.where.z_lo) for r in flanges]
    assert [r.k for r in flanges] == pytest.approx([E_90 * 25.0 * length / T for length in lengths], rel=1e-3)
    assert len(bolts) == 8
    assert [r.k for r in bolts] == pytest.approx(
        [1 / float(np.ravel(holding_give(few, few.setup.frame.side_pitch))[0])] * 8
    )
    fine = few.board.grid.finer()
    assert {r.where.y_lo for r in bolts} <= set(fine.y)
    assert {r.where.z_lo for r in bolts} <= set(fine.z)


# A strip 60 wide and 480 high on a flange along each long side, bolted at its four corners. The bracket's four bolts pull
# it aft at its quarters, or its pads push it forward there.
WIDE, HIGH, PULL = 60.0, 480.0, 4000.0
LINES = tuple(Rectangle(s * WIDE / 2, s * WIDE / 2, -HIGH, 0.0) for s in (-1, 1))
CORNERS = tuple(Rectangle(s * WIDE / 2, s * WIDE / 2, z, z) for s in (-1, 1) for z in (0.0, -HIGH))
QUARTERS = tuple((s * 15.0, z) for z in (-HIGH / 4, -3 * HIGH / 4) for s in (-1, 1))


def middle(lifts: bool, pull: float) -> float:
    """Mean moment per mm up the strip at half its height, N."""
    spots = [Rectangle(y - 5.0, y + 5.0, z - 5.0, z + 5.0) for y, z in QUARTERS]
    pads = [c for spot in spots for c in pad_cells(spot, 250.0, T)]
    seat = Seat(tuple(Bolt(y, z, 1e5, spot) for (y, z), spot in zip(QUARTERS, spots, strict=True)), tuple(pads))
    stations = sorted({-HIGH, 0.0, -HIGH / 2, -HIGH / 4, -3 * HIGH / 4})
    inside = grid([-WIDE / 2, -15.0, 15.0, WIDE / 2], stations, 20.0)
    on = tuple(Rest(line, 1e6, True) for line in LINES) + tuple(Rest(at, 1e5, False) for at in CORNERS)
    lines = tuple(Support(line) for line in LINES)
    strip = Board(inside, uniform(T), () if lifts else lines, seat, rests=on if lifts else ())
    found = on_one_grid(strip, np.array([[pull, -pull * HIGH / 2, 0.0]]), ["one"])
    return mean_up(found)


def mean_up(found: Answer) -> float:
    y, z = found.grid.y, found.grid.z
    across = found.fields.M_2[:, int(np.argmin(np.abs(z + HIGH / 2))), 0]
    # By hand, since numpy's own goes by another name from version 2 on.
    return abs(float(np.sum((across[1:] + across[:-1]) * np.diff(y)) / 2 / WIDE))


def test_pulled_off_its_flanges_it_is_a_beam_between_its_bolts() -> None:
    """Half the pull at either quarter: (4000/2) 120/60 = 4000 N mm a mm all the way between, whatever the bolts give."""
    assert middle(True, PULL) == pytest.approx(PULL / 2 * (HIGH / 4) / WIDE, rel=0.02)


def test_pushed_onto_them_or_held_by_lines_it_is_not() -> None:
    assert middle(True, -PULL) < 0.1 * middle(True, PULL)
    assert middle(False, PULL) < 0.1 * middle(True, PULL)


def test_patches_of_some_cases_are_the_whole_s() -> None:
    """Taken from all cases, of some of some too, and worked out for themselves where it is not known which they are."""
    of = trial_of(setup_of(held_by(8)), cases(), [MOUNT])
    some = careful_of(of, [4, 0, 3])  # of three strengths
    fewer = in_some_cases(some, [1, 0])
    assert fewer.rows == (0, 4)
    assert in_some_cases(careful_of(of), [1]).rows == (1,)
    assert in_some_cases(replace(some, rows=None), [1]).rows is None
    assert len(np.unique(some.upper_patch.area)) == 3
    for plate in (some, fewer):
        own = replace(plate, rows=None)
        for name in ("upper_patch", "lower_patch"):
            taken, found = getattr(plate, name), getattr(own, name)
            sides = [(taken.around.own, found.around.own), (taken.around.shared, found.around.shared)]
            sides += [(getattr(taken, side), getattr(found, side)) for side in ("inner", "outer", "up", "down", "area")]
            for a, b in sides:
                assert np.array_equal(np.broadcast_to(a, np.shape(b)), b)
