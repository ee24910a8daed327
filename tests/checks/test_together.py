"""Many mounts, or many ways to bolt one, looked at together come to what each comes to alone."""

from dataclasses import fields, replace

import numpy as np
import pytest

from tests.checks.shop import BOLTS, JOB, MOUNT, SHEET, setup_of, whole
from transom.catalogue import SHIPPED
from transom.checks import all_checks, crossmembers, frame
from transom.checks.patch import Around, Patch
from transom.job.records import Backing, Frame, FrameBolts, Hole, Job, Layer, Mount
from transom.judge import fasteners
from transom.judge.evaluate import trial_of, weakest
from transom.judge.fasteners import frame_options, pod_options
from transom.loads.cases import build_cases

THIN = Mount((Layer(SHEET, "across"),), replace(BOLTS, forward=Backing(washer="1/2 wide")))
HOLED = replace(JOB, board=replace(JOB.board, openings=(Hole(100.0, 200.0, 60.0),)))


def numbers(patch: Patch) -> dict[str, np.ndarray]:
    """Each field of a patch, of its perimeters too."""
    flat = {f.name: getattr(patch, f.name) for f in fields(Patch) if f.name != "around"}
    flat |= {f"around.{f.name}": getattr(patch.around, f.name) for f in fields(Around)}
    return {name: np.asarray(x, dtype=float) for name, x in flat.items()}


@pytest.mark.parametrize("job", [JOB, HOLED], ids=["plain", "holed"])
@pytest.mark.parametrize("row", ["upper_patch", "lower_patch"])
def test_patches_of_many_mounts_are_those_of_each(job: Job, row: str) -> None:
    setup = setup_of(job)
    cases = build_cases(setup.loads)
    shape = (1, len(cases))
    assert len(np.unique(trial_of(setup, cases, [MOUNT]).k)) > 1
    together = numbers(getattr(trial_of(setup, cases, [MOUNT, THIN]), row))
    for i, mount in enumerate((MOUNT, THIN)):
        alone = numbers(getattr(trial_of(setup, cases, [mount]), row))
        for name, x in alone.items():
            mine = np.broadcast_to(together[name], (2, len(cases)))[i : i + 1]
            assert np.array_equal(mine, np.broadcast_to(x, shape)), name


def test_mounts_together_pass_and_fail_as_each_alone() -> None:
    setup = setup_of(HOLED)
    cases = build_cases(setup.loads)
    alone = [weakest(all_checks(trial_of(setup, cases, [m])))[0] for m in (MOUNT, THIN)]
    np.testing.assert_allclose(weakest(all_checks(trial_of(setup, cases, [MOUNT, THIN]))), alone, rtol=1e-12)


NEW = replace(JOB, frame=Frame("pod", bolts=FrameBolts(keep=False)))


@pytest.mark.parametrize("job", [JOB, NEW], ids=["old bolts", "new ones"])
def test_bolts_looked_at_together_are_each_alone(job: Job) -> None:
    trial, options = whole(job), frame_options(job, SHIPPED)
    values, place = fasteners.values_of(fasteners.collect(job, SHIPPED)), trial.setup.place

    def worst(some: tuple[FrameBolts, ...]) -> np.ndarray:
        held = replace(trial.setup, frame=fasteners._frame(job, SHIPPED, values, place, some))
        return np.broadcast_to(weakest(frame.checks(fasteners._held_by(trial, held))), len(some))

    alone = np.concatenate([worst((b,)) for b in options])
    np.testing.assert_allclose(worst(options), alone, rtol=1e-12)
    assert np.ptp(alone) > 0.01


def test_bolts_into_crossmembers_looked_at_together_are_each_alone() -> None:
    trial, options = whole(), pod_options(JOB, SHIPPED)
    values = fasteners.values_of(fasteners.collect(JOB, SHIPPED))

    def worst(some: tuple[FrameBolts, ...]) -> np.ndarray:
        jobs = [fasteners._with(JOB, JOB.frame.bolts, b) for b in some]
        hung = fasteners._hung(jobs, SHIPPED, values, trial)
        return np.broadcast_to(weakest(crossmembers.checks(hung)), len(some))

    alone = np.concatenate([worst((b,)) for b in options])
    np.testing.assert_allclose(worst(options), alone, rtol=1e-12)
    assert np.ptp(alone) > 0.01
