"""What must hold for any job: more load is never kinder, more metal or wood never worse; where it may, why.

By the pencil method, which sees thousands of jobs in a minute. Each exception is a test of its own: it shows a
job in which it happens, so that an exception which has gone stops the tests.
"""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.random_jobs import HP, MANY, MOUNT, NOISE, found, jobs, mounts, part, trial
from transom.catalogue import SHIPPED
from transom.checks.trial import Trial
from transom.job.records import (
    Backing,
    Board,
    Boat,
    Engine,
    Frame,
    Head,
    Job,
    Layer,
    Mount,
)  # fmt: skip
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases
from transom.result import Cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.units import Array


def fallen(
    before: Mapping[str, Array], after: Mapping[str, Array], cases: Cases, of: tuple[str, ...]
) -> set[tuple[str, str]]:
    """Checks, and what situation, whose utilisation in some case of these situations fell."""
    out = set()
    for name, u in before.items():
        if u.shape[1] != len(cases):
            continue
        fell = after[name] < u * (1 - NOISE) - NOISE
        out |= {(part(name), cases.of[i]) for i in np.flatnonzero(fell.any(axis=0)) if cases.of[i] in of}
    return out


def lower(before: Mapping[str, Array], after: Mapping[str, Array]) -> set[str]:
    """Checks whose worst utilisation over all cases fell."""
    return {part(n) for n, u in before.items() if after[n].max() < u.max() * (1 - NOISE) - NOISE}


IN_PLANE = {"engine-bolts.shear", "engine-bolts.sideways-in-wood", "engine-bolts.pull-and-sideways-in-wood",
            "engine-bolts.tension-and-shear", "frame.bolt-shear", "frame.sideways-in-wood", "frame.flange-bearing",
            "frame.bolt-tension-and-shear", "frame.pull-and-sideways-in-wood"}  # fmt: skip
# What a roll about the engine's own line enters: bolts in the board's plane, and those the pod hangs from.
ROLLED = IN_PLANE | {f"crossmembers.{what}" for what in (
    "bolt-tension", "bolt-shear", "bolt-tension-and-shear", "wall-bearing", "wall-pull-through")}  # fmt: skip
# What pulls in reverse, where the weight holds down.
LOWER = {"backing.wood-crushing-lower-bolts", "backing.plate-bending-lower-bolts", "board.plies-sliding-lower-bolts",
         "engine-bolts.tension", "engine-bolts.tension-and-shear", "engine-bolts.pull-and-sideways-in-wood",
         "board.bending", "board.plies-sliding-pads", "board.pad-bearing", "frame.bolt-tension",
         "frame.bolt-tension-and-shear", "frame.flange-bending-end", "frame.flange-bending-side",
         "frame.flange-pull-through", "frame.pull-and-sideways-in-wood", "frame.washer-on-wood",
         "crossmembers.bolt-tension", "crossmembers.bolt-tension-and-shear", "crossmembers.wall-pull-through"}  # fmt: skip
# A plate over a pair of bolts bends with the board, whatever its own bolts pull.
FOLLOWS = "backing.plate-bending-upper-bolts"
FORWARD = ("ahead", "hard-over", "wave")


def pushed(job: Job, mount: Mount, times: float) -> Trial:
    """The same job with its thrust stated as so many times what it is; the propeller's bound is not looked at."""
    setup = build(job, SHIPPED, values_of(collect(job, SHIPPED)))
    x = setup.loads
    loads_ = replace(x, thrust_N=x.thrust_N * times, thrust_under_way_N=x.thrust_under_way_N * times)
    return trial_of(replace(setup, loads=loads_), build_cases(loads_), [mount])


@MANY
@given(jobs(), mounts(), st.floats(1.001, 1.5))
def test_more_thrust_never_lowers_a_utilisation(job: Job, mount: Mount, times: float) -> None:
    one, other = pushed(job, mount, 1.0), pushed(job, mount, times)
    before, after = found(one), found(other)
    assert lower(before, after) == set()
    assert fallen(before, after, one.cases, FORWARD) == set()
    # In a turn of a full-turn engine the thrust may point against the weight thrown outward.
    assert {n for n, _ in fallen(before, after, one.cases, ("turn",))} <= ROLLED


POD = Job(Head(), Boat("pontoon"), Engine(40 * HP, 40 * HP, shaft=508.0, mass=136.0, gravity_aft=220.0),
          Board(610.0, 450.0, lean=0.25), Frame("pod"))  # fmt: skip


def test_exception_thrust_astern_lifts_a_leaning_engine() -> None:
    """The board leans: astern and strike push up it as well, against the weight, so that the bolts shear less."""
    one, other = pushed(POD, MOUNT, 1.0), pushed(POD, MOUNT, 1.3)
    fell = fallen(found(one), found(other), one.cases, ("astern", "strike"))
    assert ("engine-bolts.shear", "astern") in fell
    assert {n for n, _ in fell} <= IN_PLANE
    upright = replace(POD, board=replace(POD.board, lean=0.0))
    one, other = pushed(upright, MOUNT, 1.0), pushed(upright, MOUNT, 1.3)
    straight = [i for i, n in enumerate(one.cases.names) if n in ("astern", "astern-light", "strike", "strike-light")]
    for name, u in found(one).items():
        if u.shape[1] == len(one.cases):
            assert (found(other)[name][:, straight] >= u[:, straight] * (1 - NOISE)).all(), name


@MANY
@given(jobs(), mounts(), st.floats(1.001, 1.5))
def test_more_mass_never_lowers_a_utilisation(job: Job, mount: Mount, times: float) -> None:
    """Where the weight that helps is not known to be more: never an envelope, nor ahead, hard over or in a wave."""
    one, other = trial(job, mount), trial(job, mount, engine__weight=times)
    before, after = found(one), found(other)
    assert lower(before, after) == set()
    assert fallen(before, after, one.cases, FORWARD) == set()
    assert {n for n, _ in fallen(before, after, one.cases, ("turn",))} <= ROLLED


@MANY
@given(jobs(), mounts(), st.floats(1.001, 1.5))
def test_more_stated_mass_lowers_only_what_it_holds_down(job: Job, mount: Mount, times: float) -> None:
    """Stated, it helps with nine tenths of itself in reverse, on the road and where an engine is turned far enough to push aft."""
    one, other = trial(job, mount), trial(job, mount, engine__weight=times, engine__weight_light=times)
    before, after = found(one), found(other)
    assert lower(before, after) <= LOWER
    assert fallen(before, after, one.cases, ("ahead", "wave")) == set()
    assert {n for n, _ in fallen(before, after, one.cases, ("turn",))} <= ROLLED | LOWER | {FOLLOWS}


@MANY
@given(jobs(), mounts(), st.floats(1.001, 1.5))
def test_more_setback_lowers_only_what_it_holds_down(job: Job, mount: Mount, times: float) -> None:
    """The centre of gravity further aft: a longer arm ahead, and a longer arm against reverse thrust."""
    one, other = trial(job, mount), trial(job, mount, engine__gravity__aft=times)
    before, after = found(one), found(other)
    assert lower(before, after) <= LOWER | ROLLED
    assert fallen(before, after, one.cases, ("ahead", "wave")) == set()
    assert {n for n, _ in fallen(before, after, one.cases, ("turn",))} <= ROLLED


@pytest.mark.parametrize(
    "changed", [{"engine__weight": 1.3, "engine__weight_light": 1.3}, {"engine__gravity__aft": 1.3}]
)
def test_exception_weight_holds_the_top_down_in_reverse(changed: dict[str, float]) -> None:
    """Astern and strike pull the lower bolts; weight aft of the board turns the other way and relieves them."""
    before, after = found(trial(POD, MOUNT)), found(trial(POD, MOUNT, **changed))
    fell = lower(before, after)
    assert "board.plies-sliding-lower-bolts" in fell
    assert "board.plies-sliding-upper-bolts" not in fell


def test_exception_weight_thrown_outward_rolls_against_the_thrust() -> None:
    """In a turn the weight, above the bolts, and the propeller, far below them, pull to the same side: the couples
    they turn the bracket by are opposed, so that a heavier engine may shear its bolts less there. It never governs."""
    low = replace(POD, engine=replace(POD.engine, gravity_up=50.0))
    one, other = trial(low, MOUNT), trial(low, MOUNT, engine__weight=1.3)
    fell = fallen(found(one), found(other), one.cases, ("turn",))
    assert ("engine-bolts.shear", "turn") in fell
    assert lower(found(one), found(other)) == set()


def test_exception_weight_that_relieves_the_board_relieves_the_plate_that_follows_it() -> None:
    """Turned until it pushes aft, the thrust bends the board the other way than the weight. On a thin board a heavier
    engine pulls the upper bolts harder and still bends the plate behind them less, as the board. It never governs."""
    engine = replace(POD.engine, power=90e3, power_low=90e3, mass=None, gravity_aft=160.0, steering="full turn")
    assert MOUNT.engine_bolts is not None
    whole = replace(MOUNT.engine_bolts, forward=Backing("", "6061-T6", 6.35, 420.0, 290.0, "all"))
    thin, turned = Mount((Layer("okoume 12 mm", "along"),) * 2, whole), replace(POD, engine=engine)
    one, other = trial(turned, thin), trial(turned, thin, engine__weight=1.01, engine__weight_light=1.01)
    before, after = found(one), found(other)
    plate, board = (next(n for n in before if part(n) == what) for what in (FOLLOWS, "board.bending"))
    fell = [i for i in np.flatnonzero(after[plate] < before[plate] * (1 - NOISE)) if one.cases.of[i] == "turn"]
    assert fell
    assert (np.ravel(other.upper_tension)[fell] > np.ravel(one.upper_tension)[fell]).all()
    assert (after[board][0, fell] < before[board][0, fell]).all()
    assert FOLLOWS not in lower(before, after)


@MANY
@given(jobs(), mounts(), st.lists(st.floats(25.0, 90.0), min_size=2, max_size=12))
def test_a_thicker_board_is_never_bent_more(job: Job, mount: Mount, thicknesses: list[float]) -> None:
    one = trial(job, mount)
    thin_first = np.sort(thicknesses)
    scaled = replace(one, stacks=one.stacks.scaled(thin_first / one.stacks.t[0]))
    for name, u in found(scaled).items():
        if part(name) in ("board.bending", "board.plies-sliding-pads"):
            worst = np.broadcast_to(u, (len(thin_first), u.shape[1])).max(axis=1)
            assert (np.diff(worst) <= NOISE * (1 + worst[:-1])).all(), name


@MANY
@given(jobs(), mounts(), st.lists(st.floats(25.0, 90.0), min_size=2, max_size=12))
def test_plies_of_a_thicker_board_slide_only_as_far_as_its_bolts_pull_harder(
    job: Job, mount: Mount, thicknesses: list[float]
) -> None:
    """For the same pull never sooner. The pull may rise: in-plane load acts at the aft face, half a thickness from the
    board's middle."""
    one = trial(job, mount)
    thin_first = np.sort(thicknesses)
    scaled = replace(one, stacks=one.stacks.scaled(thin_first / one.stacks.t[0]))
    u, shape = found(scaled), (len(thin_first), len(one.cases))
    pulls = {"upper": (scaled.upper_tension, scaled.upper_mean), "lower": (scaled.lower_tension, scaled.lower_mean)}
    for row, of_row in pulls.items():
        each = np.broadcast_to(u[f"board.plies-sliding-{row}-bolts.ec5.hand"], shape)
        # The worse bolt on a perimeter of its own or both on a shared one: whichever of the two pulls grew more.
        worse, mean = (np.broadcast_to(np.asarray(T), shape) for T in of_row)
        both = (mean[1:] > 1.0) & (mean[:-1] > 1.0)
        grown = np.maximum(worse[1:][both] / worse[:-1][both], mean[1:][both] / mean[:-1][both])
        assert (each[1:][both] <= each[:-1][both] * grown * (1 + NOISE)).all(), row


def test_exception_a_thicker_board_may_pull_its_bolts_harder() -> None:
    one = trial(POD, MOUNT)
    scaled = replace(one, stacks=one.stacks.scaled(np.array([45.0, 90.0]) / one.stacks.t[0]))
    T = np.broadcast_to(np.asarray(scaled.upper_tension), (2, len(one.cases))).max(axis=1)
    assert T[0] < T[1] < 1.15 * T[0]


SERVED = {"backing.wood-crushing-upper-bolts", "backing.wood-crushing-lower-bolts", "board.bending"}


def grown(one: Trial, mount: Mount, k: float) -> Trial:
    """The same with k times as large a washer or plate; one that joins bolts keeps its distance between them."""
    assert mount.engine_bolts is not None
    per, w = mount.engine_bolts.forward.per, one.hardware
    width = w.width * k if per == "bolt" else w.width + (k - 1) * 76.2
    height = w.height * k if per != "all" else w.height + (k - 1) * 76.2
    return replace(one, hardware=replace(w, outside=w.outside * k, width=width, height=height))


def past_edges(of: Trial, upper: bool) -> Array:
    """Which sides of the sliding perimeter, at t/2 outside a bolt's patch, lie past an edge or a neighbor's half."""
    patch, edges = (of.upper_patch if upper else of.lower_patch), of.edges(upper=upper)
    sides = ((patch.inner, edges.inner), (patch.outer, edges.outer), (patch.up, edges.up), (patch.down, edges.down))
    shape = (len(of.stacks), len(of.cases))
    return np.stack([np.broadcast_to(np.asarray(r) + of.t / 2 >= np.asarray(e), shape) for r, e in sides])


@MANY
@given(jobs(), mounts(), st.lists(st.floats(1.0, 2.0), min_size=2, max_size=10))
def test_a_larger_washer_or_plate_never_hurts_what_it_serves(job: Job, mount: Mount, times: list[float]) -> None:
    """Same metal, same thickness. Its own bending may rise until it is all at work: it serves the wood, not itself."""
    one = trial(job, mount)
    for small, large in pairwise(grown(one, mount, k) for k in sorted(times)):
        before, after = found(small), found(large)
        for name, u in before.items():
            if part(name) in SERVED:
                assert after[name].max() <= u.max() * (1 + NOISE) + NOISE, name
        for row, upper in (("upper", True), ("lower", False)):
            name = f"board.plies-sliding-{row}-bolts.ec5.hand"
            inside = ~past_edges(large, upper)[3 if upper else 2].any(axis=0)
            assert (after[name][0, inside] <= before[name][0, inside] * (1 + NOISE) + NOISE).all(), name


def test_a_larger_plate_near_the_top_edge_slides_no_sooner() -> None:
    """Plates of 50 to 100 mm under each nut: the perimeter that runs out at the edge counts before it touches it."""
    small = replace(MOUNT, layers=MOUNT.layers[:2])
    assert small.engine_bolts is not None
    each = Backing("", "6061-T6", 4.7625, 50.8, 50.8, "bolt")
    small = replace(small, engine_bolts=replace(small.engine_bolts, forward=each))
    one = trial(POD, small)
    name = "board.plies-sliding-upper-bolts.ec5.hand"
    worst = np.array([found(grown(one, small, k))[name].max() for k in np.linspace(1.0, 2.0, 41)])
    assert (np.diff(worst) <= NOISE).all()
    assert worst[0] > 1.05 * worst[-1]


@MANY
@given(jobs(), mounts(), st.floats(0.0, 60.0))
def test_more_edge_distance_never_lowers_what_a_bolt_carries(job: Job, mount: Mount, more: float) -> None:
    """More board beside the bolts, held where it was: between the same side lines, down to the same bottom line."""
    one = trial(job, mount)
    place = one.setup.place
    wider = replace(one, setup=replace(one.setup, place=replace(place, width=place.width + 2 * more)))
    for name, u in found(one).items():
        served = part(name) in SERVED | IN_PLANE or "plies-sliding" in name or "edge-distance" in name
        if served and not name.startswith("frame"):
            assert found(wider)[name].max() <= u.max() * (1 + NOISE) + NOISE, name
