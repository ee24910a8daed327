"""More load, worse wood, less metal: what each of them is, and which checks would find less for it.

On seeded jobs of every kind of boat, by the pencil or by the plate, in every case. The worst of each check counts.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np

from tests.laws import jobs
from tests.laws.laws import a_mount, worst_by_check
from transom.catalogue import SHIPPED
from transom.checks import all_checks
from transom.checks.trial import Trial
from transom.job.read import loads
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.judging import prepared
from transom.loads.cases import build_cases

NOISE = 1e-9
# Two grids of the plate and contacts that open and shut; what is less than this of a utilisation is no finding.
GRID = 0.01


@cache
def basis(seed: int) -> Trial:
    """Some mount on a random job, in every case."""
    job = loads(jobs.text(jobs.job(seed)))
    _, setup, cases = prepared(job, SHIPPED)
    return trial_of(setup, cases, [a_mount(seed, job)])


def put(of: Trial, **changed: Any) -> Trial:
    """The trial with its loads changed."""
    setup = replace(of.setup, loads=replace(of.setup.loads, **changed))
    return Trial(setup, build_cases(setup.loads), of.stacks, of.hardware)


def thrust(of: Trial) -> Trial:
    """A fifth more thrust, tied up and under way."""
    x = of.setup.loads
    return put(of, thrust_N=1.2 * x.thrust_N, thrust_under_way_N=1.2 * x.thrust_under_way_N)


def shaft(of: Trial) -> Trial:
    """The propeller 127 mm lower."""
    return put(of, z_prop=of.setup.loads.z_prop - 127.0)


def rougher(of: Trial) -> Trial:
    """A g more in waves, a fifth more on the road."""
    x = of.setup.loads
    names = ("road_down_g", "road_up_g", "road_forward_g", "road_rearward_g", "road_sideways_g")
    return put(of, service_g=x.service_g + 1.0, **{n: 1.2 * getattr(x, n) for n in names})


def heavier(of: Trial) -> Trial:
    """A fifth more weight wherever it adds."""
    return put(of, mass_kg=1.2 * of.setup.loads.mass_kg)


def wood(of: Trial) -> Trial:
    """Wood of four fifths of every strength."""
    setup = replace(of.setup, wood_share=0.8 * np.asarray(of.setup.wood_share), crush_share=0.8 * of.setup.crush_share)
    return Trial(setup, of.cases, of.stacks, of.hardware)


def metal(of: Trial) -> Trial:
    """Flange of four fifths the thickness."""
    frame = replace(of.setup.frame, flange=0.8 * np.asarray(of.setup.frame.flange))
    return Trial(replace(of.setup, frame=frame), of.cases, of.stacks, of.hardware)


def plates(of: Trial) -> Trial:
    """Washers and plates inside of four fifths the thickness."""
    return Trial(of.setup, of.cases, of.stacks, replace(of.hardware, t=0.8 * of.hardware.t))


# Less of a plate reaches less far: it is bent less itself, and a softer bolt draws less. It serves the wood under it.
SERVES = {"plates": ("backing.wood-crushing", "board.plies-sliding-upper")}
WORSE: dict[str, Callable[[Trial], Trial]] = {
    f.__name__: f for f in (thrust, shaft, rougher, heavier, wood, metal, plates)
}


def lower(of: Trial, worse: Callable[[Trial], Trial], careful: bool) -> dict[str, tuple[float, float]]:
    """Checks whose worst falls."""
    before, after = (worst_by_check(all_checks(careful_of(t) if careful else t)) for t in (of, worse(of)))
    slack = GRID if careful else NOISE
    served = SERVES.get(worse.__name__, ("",))
    return {n: (u, after[n]) for n, u in before.items() if n.startswith(served) and after[n] < u * (1 - slack) - slack}


def worse(seed: int) -> Iterator[str]:
    """Nothing that is worse is found better, by either method."""
    for name, change in WORSE.items():
        for careful in (False, True):
            for check, (before, after) in lower(basis(seed), change, careful).items():
                yield f"{name}, {'plate' if careful else 'pencil'}: {check} {before:.4f} to {after:.4f}"
