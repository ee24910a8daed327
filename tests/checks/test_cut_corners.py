"""Corners cut off: by hand, in balance, and never to the good."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, cases, on_board, row, setup_of, trial
from transom.checks import all_checks, board
from transom.checks.careful import Careful
from transom.checks.frame import edge_of_holes
from transom.checks.frame_pull import bolt_places, forces
from transom.checks.lifting import FORCES, lifting, rests
from transom.checks.wood_about import above, below, free_below, free_outward, outward, width_for_pads
from transom.errors import JobError
from transom.job.records import Corners, Job
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.off_board import refuse_off_board

EDGE = "engine-bolts.edge-distance.ec5"
LOADS = cases()
BENDING = ("board.bending.ec5", "board.plies-sliding-upper-bolts.ec5", "board.plies-sliding-lower-bolts.ec5",
           "board.plies-sliding-pads.ec5", "board.pad-bearing.ec5", "engine-bolts.tension.ec3")  # fmt: skip


def cut(top: tuple[float, float] = (0.0, 0.0), bottom: tuple[float, float] = (0.0, 0.0), kind: str = "pod") -> Job:
    job = on_board(top_corners=Corners(*top), bottom_corners=Corners(*bottom))
    return replace(job, frame=replace(JOB.frame, kind=kind))


def careful(job: Job) -> Careful:
    return careful_of(trial_of(setup_of(job), LOADS, [MOUNT]))


@pytest.fixture(scope="module", params=["pod", "uprights", "cap rail"])
def whole(request: pytest.FixtureRequest) -> Careful:
    return careful(cut(kind=request.param))


def used(of: Careful) -> dict[str, float]:
    return {c.name.removesuffix(".plate").removesuffix(".hand"): float(np.max(c.utilisation)) for c in all_checks(of)}


def on_lines(of: Careful) -> Careful:
    """The board, and what it may be instead, as lines hold it."""
    for one in (of, *of.instead):
        one.kept.update(dict.fromkeys(("k_l", *FORCES), np.ones(len(one.cases))))
    return of


def test_how_far_the_wood_goes_by_hand() -> None:
    """Board 610 x 450, top corners 100 x 60, bottom 120 x 90: sides at 205 and 185, levels at 60 and 360.

    A point level with the top cut, 163 out and 40 down, has 42 beside it. One at 250 and 100 has 40 above it and 55 to
    the side; one at 250 and 300 has 60 below. One at 190 and 70 has 15 beside and 10 above: 15 leaves more.
    """
    place = setup_of(cut((100.0, 60.0), (120.0, 90.0))).place
    there = [outward(place, 163.0, 40.0), above(place, 163.0, 40.0), above(place, 250.0, 100.0)]
    assert there == [pytest.approx(42.0), pytest.approx(40.0), pytest.approx(40.0)]
    assert outward(place, 250.0, 100.0) == pytest.approx(55.0)
    assert below(place, 250.0, 300.0) == free_below(place, 250.0, 300.0) == pytest.approx(60.0)
    assert outward(place, 190.0, 70.0) == pytest.approx(15.0)
    assert above(place, 190.0, 70.0) == pytest.approx(70.0)
    # Inside a cut there is no wood to any side.
    assert outward(place, 250.0, 40.0) == outward(place, 250.0, 400.0) == 0.0


def test_a_cut_that_reaches_past_the_side_line_leaves_the_wood_free_there() -> None:
    """Side lines at 280 (half a 50 mm flange in from 305): a cut 20 wide lies outside them, one 100 wide does not."""
    small, large = (setup_of(cut((wide, 60.0))).place for wide in (20.0, 100.0))
    assert free_outward(small, 163.0, 40.0) > 1e5
    assert free_outward(large, 163.0, 40.0) == pytest.approx(42.0)


def test_pads_lie_between_cuts_that_come_down_to_them() -> None:
    """Pads from 0 to 330: the top cut always counts, a bottom one from 120 high on a board of 450."""
    place = [
        setup_of(cut(*sizes)).place
        for sizes in (((200.0, 30.0),), ((0.0, 0.0), (200.0, 110.0)), ((0.0, 0.0), (200.0, 130.0)))
    ]
    assert [float(np.ravel(width_for_pads(p, 0.0, 330.0))[0]) for p in place] == [210.0, 610.0, 210.0]
    one = row(trial(cut((150.0, 20.0))), "board.pad-bearing.ec5", "ahead")
    two = row(trial(), "board.pad-bearing.ec5", "ahead")
    # 50 of 70 mm of each pad are left: the block is 7/5 as high, and a little more for its lever.
    assert one.demand > 1.4 * two.demand


@pytest.mark.parametrize(
    ("top", "left"),
    [
        ((20.0, 40.0), 47.6),  # 121.5 aside: the top edge stays nearest
        ((130.0, 40.0), np.hypot(11.5, 7.6)),
        ((130.0, 60.0), 11.5),  # level with it
        ((145.0, 30.0), 17.6),  # under it
        ((145.0, 60.0), 0.0),  # inside
    ],
)
def test_a_cut_corner_is_an_edge_of_the_engine_bolts(top: tuple[float, float], left: float) -> None:
    """Upper bolts at 163.5 and 47.6 down; the cut's side at 305 less its width."""
    assert row(trial(cut(top)), EDGE).resistance == pytest.approx(left, abs=1e-6)


def test_every_bolt_of_a_listed_pattern_counts() -> None:
    setup = setup_of(cut((130.0, 60.0)), board__width=np.array([610.0, 640.0]))
    one = row(trial(setup=setup), EDGE)
    assert one is not None


def test_frame_bolts_lie_between_the_cuts() -> None:
    """Sides: 50 and the usual 25 below the top, as far above the bottom; bottom line: between 150 either side."""
    of = trial(cut((50.0, 50.0), (155.0, 30.0)))
    names, y, z = bolt_places(of)
    sides = np.array([n.endswith("side") for n in names])
    assert (z[sides].max(), z[sides].min()) == pytest.approx((-75.0, -375.0))
    assert np.abs(y[~sides]).max() < 150.0
    assert float(np.min(edge_of_holes(of))) > 0


def test_frame_bolts_in_a_cut_do_not_pass() -> None:
    """A cut so high that the sides keep no room for their bolts."""
    of = trial(cut((60.0, 230.0)))
    one = row(of, "frame.hole-to-board-edge")
    assert not one.passes


def test_bolts_and_pads_inside_a_cut_are_refused_each_in_one_line() -> None:
    with pytest.raises(
        JobError,
        match=r"upper holes: 12.9 in \(327 mm\) apart and 1.87 in \(47.6 mm\) down, inside a top corner cut 5.91 in \(150 mm\) wide and 2.36 in \(60 mm\) high",
    ):
        refuse_off_board(setup_of(cut((150.0, 60.0))))
    with pytest.raises(JobError, match="inside a bottom corner"):
        refuse_off_board(setup_of(cut((0.0, 0.0), (200.0, 220.0))))
    with pytest.raises(JobError, match=r"pads: 0 in \(0 mm\) to 13 in \(330 mm\) down, inside"):
        refuse_off_board(setup_of(cut((240.0, 340.0))))
    refuse_off_board(setup_of(cut((130.0, 60.0), (100.0, 100.0))))


SIZES = [((50.0, 50.0), (0.0, 0.0)), ((0.0, 0.0), (120.0, 60.0)), ((25.0, 25.0), (25.3, 24.0)), ((100.0, 30.0), (3.0, 3.0)),
         ((0.0, 0.0), (150.0, 150.0)), ((18.0, 30.0), (18.5, 26.0))]  # fmt: skip


@pytest.mark.parametrize(("top", "bottom"), SIZES[:4])
def test_no_cut_helps(whole: Careful, top: tuple[float, float], bottom: tuple[float, float]) -> None:
    """Nor does a bolt pull less, or the wood about it slide less; the frame's own bolts are laid elsewhere, and tell nothing,
    nor does what the edge does between them."""
    plain, now = (
        used(on_lines(of))
        for of in (replace(whole, solved=whole.answer), careful(cut(top, bottom, whole.setup.place.kind)))
    )
    for name in BENDING:
        assert now[name] >= plain[name] * (1 - 1e-6) > 0, name


@pytest.mark.parametrize(("top", "bottom"), SIZES)
def test_no_cut_helps_by_the_pencil(top: tuple[float, float], bottom: tuple[float, float]) -> None:
    plain, now = (
        {c.name: float(np.max(c.utilisation)) for c in all_checks(trial(job))} for job in (JOB, cut(top, bottom))
    )
    for name in BENDING[:5]:
        found = next(n for n in plain if n.startswith(name))
        assert now[found] >= plain[found] * (1 - 1e-9), name
    if min(bottom) > 100 or min(top) > 40:
        assert now["board.bending.ec5.hand"] > 1.1 * plain["board.bending.ec5.hand"]


def test_a_cut_is_missing_in_the_plate_and_what_is_left_is_in_balance() -> None:
    of = careful(cut((60.0, 50.0), (90.0, 70.0)))
    g, s, r = of.answer.grid, of.answer.solution, of.actions
    assert not g.nodes[np.outer(np.abs(g.y) > 246.0, g.z > -49.0)].any()
    assert not g.nodes[np.outer(np.abs(g.y) > 216.0, g.z < -381.0)].any()
    assert s.reaction.sum(axis=(0, 1)) == pytest.approx(np.broadcast_to(r.N, (1, len(LOADS)))[0], rel=1e-6)
    assert forces(of).pull.min() >= 0


@pytest.mark.parametrize("off", [-1.5, -0.4, 0.0, 0.4, 1.5])
def test_lines_that_hold_the_board_stay_where_a_cut_ends_beside_them(off: float) -> None:
    """Lines 25 in from side and bottom; a cut that ends within a hair of one leaves both in the grid."""
    of = careful(cut((0.0, 0.0), (25.0 + off, 25.0 + off)))
    for line in of.lines:
        assert of.board.grid.on_line(line).sum() > 8


def test_a_frame_bolt_in_a_cut_holds_nothing_where_the_edge_lifts() -> None:
    """It is left out, and no JobError ends the job for it."""
    of = careful(cut((0.0, 0.0), (60.0, 240.0)))
    held = [r for r in rests(of) if not r.pushes]
    assert 0 < len(held) < len(bolt_places(of)[1])
    assert np.isfinite(lifting(of, board._worse)).all()
