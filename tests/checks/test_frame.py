"""Board to frame: sums by hand, an independent bolt group, limits, and what the boat has to hold."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.checks.shop import AHEAD, ASTERN, JOB, MOUNT, alone, found, setup_of, trial, whole
from tests.sizing.jobs import job_of
from transom.catalogue import SHIPPED
from transom.checks import frame, frame_pull, framed
from transom.checks.joints import area_on_board, cut_off
from transom.checks.plate_reactions import held
from transom.checks.pod_reactions import pod_reactions
from transom.checks.reactions import Reactions, reactions
from transom.checks.trial import Trial
from transom.job.records import Frame, FrameBolts, Job
from transom.judge.evaluate import quick_look
from transom.judge.fasteners import additions, fastened, frame_options, frames
from transom.judge.judging import prepared
from transom.sizing.field import field_of
from transom.standards.ec5 import round_net_area
from transom.statics.bolt_group import bolt_group

KEPT = FrameBolts("3/8 in", 12, True, 9.525, 50.8, 4.7625, 0.0, True)
FLANGE = Frame("pod", 38.1, 6.35, "5052-H32", KEPT, flange_weld=np.inf)


def job(**bolts: object) -> Job:
    return replace(JOB, frame=replace(FLANGE, bolts=replace(KEPT, **bolts)))


def worst(of: Trial, name: str) -> float:
    return float(found(of)[f"frame.{name}"].worst[0])


def test_bolts_stand_where_the_lines_are() -> None:
    """12 bolts on 450 + 450 + 571.9 mm: floor(12 x 450/1471.9) = 3 a side, 6 below; first half a flange down."""
    f = setup_of(job()).frame
    assert (f.n_side, f.n_bottom, f.n_top) == (3, 6, 0)
    assert (f.first, f.side_pitch) == pytest.approx((19.05, (450 - 38.1) / 2))


def test_the_group_is_that_of_its_bolts() -> None:
    """Centroid and polar moment of the listed places; the worst bolt is never under the vector method's."""
    of = trial(job())
    f, r = of.setup.frame, reactions(of)
    y, z = r.at[:, 1], r.at[:, 2]
    assert f.n == len(y)
    assert -f.z_c == pytest.approx(z.mean())
    assert pytest.approx(np.sum(y**2 + (z - z.mean()) ** 2)) == f.J
    w = of.cases.design
    exact = bolt_group(F_y=w[:, 1], F_z=w[:, 2], M_x=w[:, 3], y=y, z=z).largest
    ours = frame_pull.forces(of).shear[0]
    assert np.all(ours >= exact)
    assert np.all(ours <= 1.3 * exact)


def test_ahead_by_hand() -> None:
    """Upper row 47.6 down, bolts at 19.05 and 225: the nearer takes 1 - 28.55/205.95 = 0.8614 of the side's pull."""
    of = trial(job(), loads=alone(AHEAD))
    pull = float(of.strips.side_pull[0, 0])
    # The foot's row (264 mm) lies 0.810 of a pitch from its nearer bolt: the upper row's share is the larger.
    assert float(frame_pull.forces(of).side[0, 0]) == pytest.approx(pull * (1 - 28.55 / 205.95), rel=1e-9)
    # 5052-H32, 6.35 thick: 40.32 x 160/4.4; arm 19.05, length 4 x 19.05 + 1.25 x 19.05 = 100.0.
    u = pull * 0.86137 * 19.05 / 100.0125 / (6.35**2 * 160 / 4.4)
    assert worst(of, "flange-bending-side.ec9") == pytest.approx(u, rel=1e-4)


def test_plate_washer_on_wood_by_hand() -> None:
    """2.24 MPa x 3 x 0.7/1.2 = 3.92 MPa under the circle of a 2 in washer, 10.3 mm hole: 2027 - 83.7 = 1943 mm2.

    The bolt is 19.05 mm from the board's edge, the washer reaches 25.4: pi/2 x 6.35 x sqrt(25.4^2 - 19.05^2) = 167.6 mm2
    hang off (a segment: exactly 147 mm2), so 3.92 x 1775.7 = 6961 N.
    """
    check = found(trial(job(), loads=alone(AHEAD)))["frame.washer-on-wood.ec5"]
    off = np.pi / 2 * 6.35 * np.sqrt(25.4**2 - 19.05**2)
    assert off > 25.4**2 * np.arccos(0.75) - 19.05 * np.sqrt(25.4**2 - 19.05**2)
    assert float(check.resistance[0, 0]) == pytest.approx(3.92 * (np.pi / 4 * (50.8**2 - 10.325**2) - off), rel=1e-6)


@given(st.floats(5.0, 200.0), st.floats(0.0, 1.0))
def test_what_hangs_off_is_never_taken_too_small(D: float, share: float) -> None:
    """Against the segment of a circle, at any distance from its middle."""
    R, e = D / 2, share * D / 2
    segment = R**2 * np.arccos(e / R) - e * np.sqrt(max(R**2 - e**2, 0.0))
    assert segment - 1e-6 * D <= cut_off(D, e) <= 1.2 * segment + 1e-6 * D


@given(st.floats(5.0, 200.0), st.floats(1.0, 2.0), st.floats(0.0, 60.0))
def test_a_larger_washer_at_an_edge_never_bears_less(D: float, times: float, e: float) -> None:
    small, large = (area_on_board(round_net_area(d, 0.0), cut_off(d, e)) for d in (D, D * times))
    assert large >= small * (1 - 1e-9)
    assert small == pytest.approx(np.pi / 4 * D**2 - cut_off(D, e))


# Under a 30 mm washer: 0.9 f_ub A_s/1.25; 3.92 MPa under the ring; 0.6 pi (flats + 2 x 4.7625) t f_u/1.25.
CARRIES = {
    "bolt-tension.ec3": 0.9 * 500 * 50.0 / 1.25,
    "washer-on-wood.ec5": 3.92 * np.pi / 4 * (30.0**2 - 10.325**2),
    "flange-pull-through.ec9": 0.6 * np.pi * (14.29 + 9.525) * 6.35 * 215 / 1.25,
}


@pytest.mark.parametrize("load", [AHEAD, ASTERN])
@pytest.mark.parametrize("what", CARRIES)
def test_larger_washers_and_bolts_never_weaken(load: tuple[float, ...], what: str) -> None:
    narrow = trial(job(washer=30.0), loads=alone(load))
    assert float(found(narrow)[f"frame.{what}"].resistance[0, 0]) == pytest.approx(CARRIES[what], rel=1e-3)
    assert worst(trial(job(washer=60.0), loads=alone(load)), what) <= worst(narrow, what)
    thin, thick = (worst(trial(job(diameter=d), loads=alone(load)), "bolt-tension.ec3") for d in (7.9, 12.7))
    assert thick < thin


def test_thicker_flange_and_a_doubler_never_weaken() -> None:
    names = ("flange-bending-side.ec9", "flange-pull-through.ec9", "flange-bearing.ec9", "sideways-in-wood.ec5")
    for name in names:
        u = [worst(trial(replace(JOB, frame=replace(FLANGE, flange_thickness=t))), name) for t in (3.0, 5.0, 8.0)]
        assert u == sorted(u, reverse=True), name
        assert u[0] > u[-1] > 0, name
    assert worst(trial(job(doubler=6.35)), names[0]) == pytest.approx(worst(trial(job()), names[0]) / 2)


def test_farther_from_the_edge_is_never_weaker() -> None:
    near, far = (setup_of(job(), frame__inset=e) for e in (15.0, 40.0))
    name = "frame.sideways-in-wood.ec5"
    assert found(trial(setup=far))[name].resistance[0, 0] > found(trial(setup=near))[name].resistance[0, 0]


def test_too_few_bolts_fail() -> None:
    assert worst(trial(job(count=4)), "count") == pytest.approx(6 / 4)


def test_what_is_not_a_number_never_passes() -> None:
    for key in ("frame__bolts__washer", "frame__flange__f_y", "frame__bolts__f_ub"):
        good = setup_of(job())
        bad = replace(good, frame=replace(good.frame, f_y=np.nan, f_u=np.nan,
                                          bolts=replace(good.frame.bolts, washer=np.nan, f_ub=np.nan)))  # fmt: skip
        assert key
        of = trial(setup=bad)
        for name in ("washer-on-wood.ec5", "flange-bending-side.ec9", "bolt-tension.ec3", "bolt-tension-and-shear.ec3",
                     "flange-bearing.ec9", "flange-pull-through.ec9", "pull-and-sideways-in-wood.ec5"):  # fmt: skip
            assert worst(of, name) > 1, name


def test_bolts_still_to_be_chosen_are_taken_by_their_best_choice() -> None:
    """Of 8 to 24 bolts each board's own best; what is known of the board is kept, and is the same as found anew."""
    bare = replace(JOB, frame=replace(FLANGE, bolts=FrameBolts("3/8 in", keep=False)))
    setup = setup_of(bare)
    open_ = replace(setup, frames=frames(bare, SHIPPED, setup))
    assert len(open_.frames) > 1
    of = trial(setup=open_)
    worst_of = [max(float(c.worst[0]) for c in frame.checks(trial(setup=replace(setup, frame=f))) if not c.information)
                for f in open_.frames]  # fmt: skip
    assert max(worst_of) > 1.05 * min(worst_of)
    assert max(float(c.worst[0]) for c in framed(of) if not c.information) == pytest.approx(min(worst_of), rel=1e-12)
    # The first that is good enough is taken where that is all that is asked.
    for n, enough in ((0, 1.001 * worst_of[0]), (int(np.argmin(worst_of)), 1.001 * min(worst_of))):
        first = framed(trial(setup=open_), enough=enough)
        assert max(float(c.worst[0]) for c in first if not c.information) == pytest.approx(worst_of[n], rel=1e-12)


def test_options_run_from_nothing_to_most() -> None:
    bare = replace(JOB, frame=replace(FLANGE, bolts=FrameBolts("3/8 in", 8, True, 9.525)))
    first, *_, last = frame_options(bare, SHIPPED)
    assert (first.count, first.washer, first.doubler) == (8, None, 0.0)
    assert (last.count, last.washer, last.doubler) == (16, 101.6, 12.7)


def test_old_bolts_get_the_least_that_carries() -> None:
    """As found they crush the wood; plate washers cure it; what is added passes and one step less does not."""
    bare = replace(JOB, frame=replace(FLANGE, bolts=FrameBolts("3/8 in", 8, True, 9.525)))
    settled = fastened(bare, SHIPPED, whole(bare))
    (added, pod) = additions(bare, settled, SHIPPED, MOUNT)
    assert not added.enough
    assert added.washer is not None
    assert pod.joint == "crossmembers"
    options = frame_options(bare, SHIPPED)
    i = options.index(settled.job.frame.bolts)
    for bolts, works in ((options[i - 1], False), (options[i], True)):
        other = replace(settled.job, frame=replace(settled.job.frame, bolts=bolts))
        _, setup, cases = prepared(other, SHIPPED)
        checks = frame.checks(trial(other, loads=cases, setup=setup))
        assert all(c.worst[0] <= 1 for c in checks if not c.information) is works


def about(r: Reactions) -> np.ndarray:
    """Resultants (v, 6) about the datum, written out apart from the code."""
    return np.concatenate([r.force.sum(axis=1), np.cross(r.at[None], r.force).sum(axis=1)], axis=-1)


def lines_about(r: Reactions) -> np.ndarray:
    """The same from the lines' own wrenches."""
    return sum(
        np.concatenate([w[:, :3], w[:, 3:] + np.cross(at[None], w[:, :3])], axis=-1) for _, at, w in r.of_lines()
    )


@pytest.mark.parametrize("seed", range(100))
def test_what_the_boat_has_to_hold_balances(seed: int) -> None:
    """Forces of bolts and bearing places about the datum are the wrench and the board's weight, all six: by pencil, by
    plate, and, with the pod's weight, of the crossmembers in level axes."""
    stated = job_of(seed)
    _, setup, cases = prepared(stated, SHIPPED)
    field = field_of(stated, SHIPPED, setup, cases, "material")
    of = field.trial(field.order[:1])
    for r in (reactions(of), held(quick_look(of))):
        own = np.concatenate([r.own_weight, np.cross(r.weight_at, r.own_weight)])
        want = cases.wrench + own
        scale = np.abs(want).max(axis=0) + 1.0
        assert np.max(np.abs(about(r) - want) / scale) < 1e-6
        assert np.max(np.abs(lines_about(r) - want) / scale) < 1e-6
    pod = pod_reactions(of)
    assert (pod is None) is (stated.frame.kind != "pod")
    if pod is None:
        return
    turn, t = np.eye(3), float(setup.place.lean)
    turn[[0, 0, 2, 2], [0, 2, 0, 2]] = np.cos(t), np.sin(t), -np.sin(t), np.cos(t)
    level = np.concatenate([cases.wrench[:, :3] @ turn.T, cases.wrench[:, 3:] @ turn.T], axis=-1)
    for at, W in zip(pod.weights_at, pod.weights, strict=True):
        level = level + np.concatenate([W, np.cross(at, W)])
    scale = np.abs(level).max(axis=0) + 1.0
    assert np.max(np.abs(about(pod.forces) - level) / scale) < 1e-6
    assert np.max(np.abs(lines_about(pod.forces) - level) / scale) < 1e-6


@pytest.mark.parametrize("seed", range(6))
def test_strips_leave_little_open(seed: int) -> None:
    """What the ends of the side lines are given beside the strips' own forces is the board's weight and the couple
    alone, wherever a bolt pulls and the strips are not clipped."""
    stated = job_of(seed)
    _, setup, cases = prepared(stated, SHIPPED)
    field = field_of(stated, SHIPPED, setup, cases, "material")
    of = field.trial(field.order[:1])
    s = of.strips
    sense = np.where(np.asarray(s.ahead | s.lifted), 1.0, -1.0)
    N = 2 * sense * (s.P1 - s.P2)
    M = -2 * sense * (s.P1 * s.z1 - s.P2 * s.z2)
    pulls = ~np.broadcast_to(s.pressed, N.shape)
    np.testing.assert_allclose(N[pulls], np.broadcast_to(-of.actions.N, N.shape)[pulls], rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(M[pulls], np.broadcast_to(of.actions.M, N.shape)[pulls], rtol=1e-9, atol=1e-3)


@pytest.mark.parametrize("seed", range(12))
def test_no_bolt_carries_more_than_the_checks_say(seed: int) -> None:
    """Pulls of the checks, factored, against those of the reactions under the same loads: signs may relieve, never add."""
    stated = job_of(seed)
    _, setup, cases = prepared(stated, SHIPPED)
    field = field_of(stated, SHIPPED, setup, cases, "material")
    of = field.trial(field.order[:1])
    factored = replace(of, cases=replace(cases, wrench=cases.design))
    r, F = reactions(factored), frame_pull.forces(of)
    pulls = ~np.broadcast_to(of.strips.pressed, (1, len(cases)))[0]
    weight = float(np.abs(r.own_weight).sum())
    for lines, ours in ((("port side", "starboard side"), F.side), (("bottom",), F.bottom), (("top",), F.top)):
        which = np.isin(r.lines, lines)
        if which.any():
            found_pull = r.force[pulls][:, which, 0].max(axis=1)
            assert np.all(found_pull <= np.broadcast_to(ours, (1, len(cases)))[0][pulls] + weight)


def test_bolts_in_the_board_s_edge_hold_nothing() -> None:
    """Uprights as far apart as the board is wide: no wood beside the holes, so never a pass and never a warning."""
    wide = replace(JOB, frame=Frame("uprights", at=(-305.0, 305.0), bolts=KEPT))
    for name in ("sideways-in-wood.ec5", "pull-and-sideways-in-wood.ec5", "hole-to-board-edge"):
        assert worst(trial(wide), name) > 1.0
