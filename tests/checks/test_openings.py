"""Openings and the top notch by the plate: by place, by hand, never to the good."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import AHEAD, HARD_OVER, JOB, MOUNT, cases, on_board, setup_of
from transom.checks import frame
from transom.checks.board import bending, pads
from transom.checks.careful import Careful
from transom.checks.openings import Strip, shares, strips_about, wide_openings
from transom.checks.spacing import between_frame
from transom.errors import JobError
from transom.job.records import Hole, Job
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.off_board import refuse_off_board

LOADS = cases({"ahead": ("short", AHEAD), "hard-over": ("short", HARD_OVER)})


def careful(job: Job = JOB) -> Careful:
    return careful_of(trial_of(setup_of(job), LOADS, [MOUNT]))


@pytest.fixture(scope="module")
def plain() -> Careful:
    return careful()


def used(of: Careful) -> float:
    return float(bending(of).worst[0])


def test_share_of_a_strip_by_hand() -> None:
    """Strip 100 wide from 50 to 150, its own 25 mm hole at 100, another of 20 at 145 (15 of it inside, 10 aside).

    1 - (25 + 15)/100 = 0.6; level, 60 wide from -30 to 30: the other one's section is 45 off, 35 to its rim, over 25.4.
    """
    own, other = Hole(0.0, 100.0, 25.0), Hole(10.0, 145.0, 20.0)
    across, up = shares([Strip(0.0, 100.0, -30.0, 30.0, 50.0, 150.0)], [own, other], 25.4)
    assert across[0, 0] == pytest.approx(0.6)
    assert up[0, 0] == pytest.approx(1 - 25 / 60)


def test_the_wood_about_an_opening_ends_at_the_edge(plain: Careful) -> None:
    """1 in drain 30 above the bottom edge of 450: from 420 - 50.8 to 450; 60 mm: 30 + 1.5 x 36.52 either way."""
    small, large = strips_about(plain, (Hole(0.0, 420.0, 25.4), Hole(0.0, 200.0, 60.0)))
    assert (small.top, small.bottom) == pytest.approx((369.2, 450.0))
    assert (large.port, large.starboard) == pytest.approx((-84.78, 84.78), abs=0.01)


def test_a_drain_where_little_bends_takes_nothing(plain: Careful) -> None:
    """It used to count in full against the narrower strip, wherever it was."""
    assert used(careful(on_board(openings=(Hole(0.0, 425.0, 25.4),)))) == pytest.approx(used(plain), rel=1e-9)


def test_an_opening_where_most_bends_counts(plain: Careful) -> None:
    """20 mm, 80 down under an upper bolt: whole in the 95.2 mm of wood about it, so that 0.790 times as much is left for bending (not for the twist, a little of the whole)."""
    u = used(careful(on_board(openings=(Hole(163.5, 80.0, 20.0),))))
    assert u == pytest.approx(used(plain) / (1 - 20 / 95.2), rel=0.02)


@pytest.mark.parametrize("hole", [Hole(0.0, 60.0, 30.0), Hole(80.0, 120.0, 50.0), Hole(-200.0, 250.0, 80.0)])
def test_no_opening_helps(plain: Careful, hole: Hole) -> None:
    assert used(careful(on_board(openings=(hole,)))) >= used(plain) * (1 - 1e-9) > 0.1


def test_a_wide_opening_is_cut_out_of_the_plate(plain: Careful) -> None:
    """Over three times 36.52: the square about it has no nodes inside, and the board is worse for it."""
    of = careful(on_board(openings=(Hole(0.0, 160.0, 130.0),)))
    assert len(wide_openings(of)) == 1
    g = of.answer.grid
    inside = np.outer(np.abs(g.y) < 60, np.abs(g.z + 160) < 60)
    assert not g.nodes[inside].any()
    assert used(of) > used(plain)


@pytest.fixture(scope="module")
def notched() -> Careful:
    return careful(on_board(notch_width=220.0, notch_depth=25.0))


def test_a_notch_is_missing_in_the_plate(plain: Careful, notched: Careful) -> None:
    g = notched.answer.grid
    assert not g.nodes[np.outer(np.abs(g.y) < 109, g.z > -24)].any()
    assert notched.board.grid.y[[0, -1]] == pytest.approx(plain.board.grid.y[[0, -1]])
    assert used(notched) > used(plain)


def test_everything_stays_in_balance_beside_a_notch(notched: Careful) -> None:
    """Bolts pull at their holes and pads push at their middles, whatever is cut out beside them."""
    s, r = notched.answer.solution, notched.actions
    y, z = notched.answer.grid.y[:, None, None], notched.answer.grid.z[None, :, None]
    size = np.abs(r.M).max()
    assert s.reaction.sum(axis=(0, 1)) == pytest.approx(np.ravel(r.N), abs=1e-9 * np.abs(r.N).max())
    assert (s.reaction * z).sum(axis=(0, 1)) == pytest.approx(-np.ravel(r.M), abs=1e-9 * size)
    assert (s.reaction * y).sum(axis=(0, 1)) == pytest.approx(np.ravel(r.M_z), abs=1e-9 * size)


def test_pads_bear_beside_and_below_the_notch_alone(notched: Careful) -> None:
    """Notch to 110, pads from 105 to 175: 5 mm of them over 25 mm hang over it."""
    area = sum(p.where.area for p in notched.board.seat.pads)
    assert area == pytest.approx(2 * (70.0 * 330.0 - 5.0 * 25.0))
    assert pads(notched).worst[0] > 0


@pytest.mark.parametrize("width, depth", [(2.0, 1.0), (558.0, 20.0), (210.0, 30.0), (352.0, 12.0), (327.0, 5.0)])
def test_notches_of_any_size_are_judged(plain: Careful, width: float, depth: float) -> None:
    """Hair-thin, on the side lines, on pad edges, over a bolt: no grid line is lost, no bending grows less."""
    assert used(careful(on_board(notch_width=width, notch_depth=depth))) > 0.99 * used(plain)


def test_bolts_inside_the_notch_are_refused() -> None:
    with pytest.raises(
        JobError, match=r"upper holes: 12.9 in \(327 mm\) apart and 1.87 in \(47.6 mm\) down, inside a notch"
    ):
        refuse_off_board(setup_of(on_board(notch_width=400.0, notch_depth=60.0)))
    refuse_off_board(setup_of(on_board(notch_width=300.0, notch_depth=60.0)))


def test_a_hole_in_wood_that_is_not_there_never_passes() -> None:
    with pytest.raises(JobError, match="nan"):
        bending(careful(on_board(openings=(Hole(0.0, 200.0, float("nan")),))))


def test_cap_rail_with_a_notch_as_wide_as_its_sides() -> None:
    job = replace(on_board(notch_width=600.0, notch_depth=20.0), frame=replace(JOB.frame, kind="cap rail"))
    of = careful(job)
    assert len(of.lines) == 3
    assert np.isfinite(used(of))


def frame_edge(**changes: float) -> tuple[float, float]:
    """Least and found distance from a frame bolt to an edge, of the shop's job under a cap rail."""
    job = replace(on_board(**changes), frame=replace(JOB.frame, kind="cap rail"))
    (found,) = (c for c in frame.checks(trial_of(setup_of(job), LOADS, [MOUNT])) if c.what == "hole-to-board-edge")
    return float(found.demand[0, 0]), float(found.resistance[0, 0])


def test_frame_bolts_laid_into_the_notch_do_not_pass() -> None:
    """Seven bolts along the top line, 25 down: the middle one stands on the center line, in air or 15 under the floor."""
    least, whole = frame_edge()
    assert whole == pytest.approx(25.0)
    assert frame_edge(notch_width=200.0, notch_depth=40.0) == (least, 0.0)
    assert frame_edge(notch_width=200.0, notch_depth=10.0)[1] == pytest.approx(15.0)
    assert frame_edge(notch_width=540.0, notch_depth=40.0)[1] == 0.0


def lowest_plate(height: float) -> tuple[float, float]:
    forward = replace(MOUNT.engine_bolts.forward, height=height)  # type: ignore[union-attr]
    mount = replace(MOUNT, engine_bolts=replace(MOUNT.engine_bolts, forward=forward))  # type: ignore[type-var]
    found = between_frame(trial_of(setup_of(), LOADS, [mount]))
    return float(found.demand[0, 0]), float(found.resistance[0, 0])


def test_a_plate_over_the_pods_bottom_flange_does_not_pass() -> None:
    """Lower bolts 250.8 down, flange from 450 - 2 x 25 = 400 on: a plate 310 high reaches to 405.8; 76 high, it is the
    sides that are nearer: 381/2 = 190.5 of 280 - 25 = 255."""
    assert lowest_plate(310.0) == pytest.approx((405.8, 400.0))
    assert lowest_plate(76.2) == pytest.approx((190.5, 255.0))
