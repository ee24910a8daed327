"""Candidates of one stack side by side: each as it is alone, whatever is cut out of the board and whatever backs the bolts."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import BOLTS, HP, JOB, MOUNT, PAIR, cases, on_board, setup_of
from transom.checks import plate_checks
from transom.checks.abreast import beside, can_stand
from transom.checks.careful import Careful
from transom.job.records import Backing, Corners, EngineBolts, Hole, Job, Mount
from transom.judge.evaluate import quick_look, trial_of
from transom.result import CheckArray

BACKINGS = (
    PAIR,
    Backing(washer="1/2 wide"),
    Backing("", "6061-T6", 9.525, 76.2, 76.2, "bolt"),
    Backing("", "6061-T6", 6.35, 420.0, 290.0, "all"),
    Backing(washer="1/2 wide"),  # the same wood under another bolt
)
SETS = (
    *(replace(BOLTS, forward=b, length=101.6) for b in BACKINGS[:-1]),
    replace(BOLTS, grade="SAE 5", forward=BACKINGS[-1]),
)
LOADS = cases()
JOBS = {
    "pod, drain and a cable's hole": on_board(openings=(Hole(0.0, 420.0, 25.4), Hole(140.0, 120.0, 38.0))),
    "pod, a wide opening": on_board(openings=(Hole(60.0, 330.0, 150.0),)),
    "uprights, notched": replace(
        on_board(notch_width=180.0, notch_depth=35.0), frame=replace(JOB.frame, kind="uprights")
    ),
    "cap rail, corners cut": replace(
        on_board(top_corners=Corners(60.0, 50.0)), frame=replace(JOB.frame, kind="cap rail")
    ),
}


def mounts(sets: tuple[EngineBolts, ...] = SETS) -> list[Mount]:
    return [replace(MOUNT, engine_bolts=s) for s in sets]


@pytest.fixture(scope="module", params=list(JOBS))
def job(request: pytest.FixtureRequest) -> Job:
    return JOBS[request.param]


@pytest.fixture(scope="module")
def alone(job: Job) -> list[Careful]:
    return [quick_look(trial_of(setup_of(job), LOADS, [m])) for m in mounts()]


def rows(check: CheckArray, n: int) -> np.ndarray:
    """Utilisations (n, cases)."""
    return np.broadcast_to(check.utilisation, (n, len(check.cases)))


def test_each_is_as_it_is_alone(job: Job, alone: list[Careful]) -> None:
    many = plate_checks(beside(alone[0], trial_of(setup_of(job), LOADS, mounts()), range(len(LOADS))))
    for i, one in enumerate(alone):
        for by_itself, beside_others in zip(plate_checks(one), many, strict=True):
            assert by_itself.name == beside_others.name
            np.testing.assert_allclose(rows(beside_others, len(alone))[i], rows(by_itself, 1)[0], rtol=1e-9, atol=1e-12)


def test_in_some_cases_alone(job: Job, alone: list[Careful]) -> None:
    """Of cases of one duration: what the backing works in hangs on all cases of the whole, strips on those asked."""
    some = [LOADS.names.index(name) for name in ("astern", "ahead")]
    trial = trial_of(setup_of(job), LOADS, mounts()[1:3])
    few = {c.name: c for c in plate_checks(beside(alone[0], trial, some))}
    for i, mount in enumerate(mounts()[1:3]):
        own = trial_of(setup_of(job), LOADS, [mount])
        for check in plate_checks(quick_look(own, some)):
            np.testing.assert_allclose(rows(few[check.name], 2)[i], rows(check, 1)[0], rtol=1e-9, atol=1e-12)


def test_loads_of_one_patch_are_worked_out_once(alone: list[Careful]) -> None:
    twice = trial_of(setup_of(JOBS["uprights, notched"]), LOADS, mounts((SETS[1], SETS[4], SETS[1])))
    kin = quick_look(trial_of(setup_of(JOBS["uprights, notched"]), LOADS, mounts(SETS[:1])))
    loads = beside(kin, twice, [0]).answer.seated[0].unit_loads
    assert loads.shape[-1] == kin.answer.seated[0].unit_loads.shape[-1] + 4


def test_clamp_screws_and_glued_plates_stand_alone() -> None:
    assert can_stand(quick_look(trial_of(setup_of(JOB), LOADS, [MOUNT])))
    glued = replace(MOUNT, engine_bolts=replace(BOLTS, forward=replace(PAIR, bonded=True)))
    assert not can_stand(quick_look(trial_of(setup_of(JOB), LOADS, [glued])))
    light = replace(JOB, engine=replace(JOB.engine, power=9.9 * HP, power_low=9.9 * HP, mass=40.0, held_by="clamps"))
    assert not can_stand(quick_look(trial_of(setup_of(light), LOADS, [replace(MOUNT, engine_bolts=None)])))


def test_none_stands_beside_nobody() -> None:
    one = trial_of(setup_of(JOB), LOADS, [MOUNT])
    nobody = replace(beside(quick_look(one), one, [0]), kin=None)
    with pytest.raises(ValueError, match="looked at alone"):
        _ = nobody.answer
