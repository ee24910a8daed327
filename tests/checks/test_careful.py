"""The careful method's own bookkeeping, on one solved board: what stands where, which bolt, which pad, which line."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, ROUND, cases, setup_of
from transom.board.grid import Rectangle
from transom.checks import frame_pull
from transom.checks.board import times_more_of
from transom.checks.careful import Careful
from transom.judge.evaluate import careful_of, trial_of

AHEAD, HARD_OVER, ASTERN, WAVE, STRIKE = range(5)


def solved(job: object = JOB) -> Careful:
    return careful_of(trial_of(setup_of(job), cases(), [MOUNT]))  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def of() -> Careful:
    return solved()


def test_pads_stand_where_the_bracket_has_them(of: Careful) -> None:
    """Centers 140 off, 70 wide, from the top edge 330 down; cut off at a board 300 high."""
    assert vars(of._pad(1.0)) == pytest.approx(vars(Rectangle(105.0, 175.0, -330.0, 0.0)))
    assert vars(of._pad(-1.0)) == pytest.approx(vars(Rectangle(-175.0, -105.0, -330.0, 0.0)))


def test_seat_lists_upper_then_lower_bolts_port_first(of: Careful) -> None:
    b = of.answer.seat.bolts
    assert [(x.y, x.z) for x in b] == [
        (pytest.approx(s * y), pytest.approx(z)) for y, z in ((163.5, -47.6), (125.4, -250.8)) for s in (-1, 1)
    ]
    for x in b:
        assert x.plate.y_hi - x.y == pytest.approx(x.y - x.plate.y_lo)
        assert x.plate.z_hi - x.z == pytest.approx(x.z - x.plate.z_lo)


def test_a_bolts_wood_reaches_further_inward(of: Careful) -> None:
    """Inward 43, outward 27 of a pair's plate: mirrored from port to starboard, loaded only as far as the shorter."""
    one, two = of.answer.seat.bolts[:2]
    reach = float(np.ravel(np.minimum(of.upper_patch.inner, of.upper_patch.outer))[0])
    assert one.k == pytest.approx(two.k)
    assert two.plate.y_hi - two.y == pytest.approx(reach)
    lopsided = replace(of.upper_patch, inner=10.0, outer=30.0)
    port, starboard = (of._bolt(y, 47.6, lopsided, 250.0) for y in (-163.5, 163.5))
    assert port.k == pytest.approx(starboard.k)
    assert starboard.plate.y_hi - 163.5 == pytest.approx(10.0)


def test_tensions_are_of_the_worse_bolt_of_their_row_with_the_grids_error(of: Careful) -> None:
    """And with the wood as soft or as stiff as it may be, whichever pulls most."""
    most = np.max([b.bolts for b in (of.answer.borne, *of.answer.bounds)], axis=0)
    assert len(of.answer.bounds) == 2
    assert (most > 1.02 * of.answer.borne.bolts).any()
    T = most + of.answer.bolt_error
    upper, lower = (times_more_of(of)[k] for k in ("k_u", "k_o"))
    T = np.concatenate([T[:2] * upper, T[2:] * lower])
    assert of.upper_tension[0] == pytest.approx(T[:2].max(axis=0))
    assert of.lower_tension[0] == pytest.approx(T[2:].max(axis=0))
    assert of.upper_mean[0] == pytest.approx(T[:2].mean(axis=0))
    assert of.lower_mean[0] == pytest.approx(T[2:].mean(axis=0))
    assert of.upper_tension.shape == of.lower_tension.shape == (1, len(ROUND))
    assert of.upper_tension[0, AHEAD] > 1000.0
    assert of.lower_tension[0, ASTERN] > 1000.0


def test_pads_push_what_bolts_pull_and_the_bracket_presses(of: Careful) -> None:
    """Forces forward: 3000 N ahead, 3000 aft astern; both pads alike where nothing turns, and not hard over."""
    push, each = of.pads, (of.answer.borne, *of.answer.bounds)
    for b in each:
        assert b.pads.sum(axis=0) == pytest.approx(b.bolts.sum(axis=0) + of.actions.N.ravel(), rel=1e-6)
    assert push.sum(axis=0) == pytest.approx(np.max([b.pads.sum(axis=0) for b in each], axis=0), rel=0.02)
    assert push[0, AHEAD] == pytest.approx(push[1, AHEAD], rel=1e-6)
    assert abs(push[0, HARD_OVER] - push[1, HARD_OVER]) > 500.0
    assert of.pad_push[0] == pytest.approx(push.max(axis=0))
    assert of.pad_mean[0] == pytest.approx(push.mean(axis=0))
    assert of.pushes_low[0].tolist() == [True, True, False, True, False]


def test_lines_overhang_as_far_as_the_board_does(of: Careful) -> None:
    place = of.setup.place
    span, bottom = float(np.ravel(place.span)[0]), float(np.ravel(place.z_bottom)[0])
    sides, low = of.edge_lines[:2], of.edge_lines[2]
    assert [line.overhang for line in sides] == pytest.approx([(610.0 - span) / 2] * 2)
    assert low.overhang == pytest.approx(450.0 - bottom)
    for line in sides:
        assert line.along[[0, -1]] == pytest.approx([0.0, 450.0])
        assert np.all(np.diff(line.along) > 0)
    assert low.along[[0, -1]] == pytest.approx([-span / 2, span / 2])


def test_lines_hold_what_the_bracket_puts_on_the_board(of: Careful) -> None:
    """All pulls of the three lines against the force aft, but for a corner that two lines share."""
    held = sum(np.asarray(line.pull).sum(axis=0) for line in of.edge_lines[:2])
    corners = [np.abs(of.edge_lines[2].places[:, 0]) < 0.999 * float(np.ravel(of.setup.place.span)[0]) / 2]
    held = held + np.asarray(of.edge_lines[2].pull)[corners[0]].sum(axis=0)
    assert held == pytest.approx(-of.actions.N.ravel(), rel=1e-6, abs=1e-3)


def test_bottom_bolts_pull_where_the_bottom_line_does(of: Careful) -> None:
    F = frame_pull.forces(of)
    assert F.bottom.max() > 100.0
    assert F.top.max() == 0.0
    none = replace(of, setup=replace(of.setup, frame=replace(of.setup.frame, n_bottom=0)))
    assert frame_pull._end_pull(none, of.edge_lines[2], 0.0).tolist() == [[0.0] * len(ROUND)]
    assert frame_pull._end_pull(of, of.edge_lines[2], 1.0).max() > 0.0
    assert frame_pull._end_pull(of, None, 3.0).max() == 0.0


def test_moments_at_bolts_are_means_over_their_own_strips(of: Careful) -> None:
    """Upper strips 60 high, lower 20; level ones 40 wide, all about the hole."""
    m = of.moments_at_bolts(60.0, 20.0, 40.0)
    a = of.answer
    for n, bolt in enumerate(a.seat.bolts):
        half = 30.0 if n < 2 else 10.0
        up = Rectangle(bolt.y, bolt.y, bolt.z - half, min(bolt.z + half, 0.0))
        level = Rectangle(bolt.y - 20.0, bolt.y + 20.0, bolt.z, bolt.z)
        assert np.asarray(m.Mx)[n] == pytest.approx(a.mean(a.fields.M_1, up))
        assert np.asarray(m.My)[n] == pytest.approx(a.mean(a.fields.M_2, level))


def test_two_grids_tell_how_far_they_have_to_go(of: Careful) -> None:
    coarse, fine = of.answer.each
    assert of.answer.bolt_error == pytest.approx(np.abs(fine.bolts - coarse.bolts) / 3)
    alone = replace(of.answer, seated=of.answer.seated[-1:], each=(fine,))
    assert np.isnan(alone.bolt_error).all()
