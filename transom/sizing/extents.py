"""How thick each check wants the board, and how much engine the pick would carry."""

import math

import numpy as np

from transom.catalogue import Catalogue
from transom.checks import all_checks
from transom.checks.trial import Trial
from transom.errors import TransomError
from transom.job.records import Job
from transom.judge.evaluate import decided, worst
from transom.judge.records import GoodFor, Required
from transom.loads.cases import build_cases
from transom.result import ONCE
from transom.setup.build import build, values_of
from transom.setup.facts import Facts, collect
from transom.units import Array, Value

THIN, THICK, STEP = 5.0, 160.0, 0.1  # mm: what is searched, and to what
COARSE = 63
FINE = 26


def _loaded(trial: Trial) -> dict[str, Array]:
    """Worst utilisation of each check that a load enters, (n,)."""
    n = len(trial.stacks)
    return {c.name: np.broadcast_to(c.worst, n) for c in decided(all_checks(trial)) if c.cases != (ONCE,)}


def required_thickness(trial: Trial) -> tuple[Required, ...]:
    """Thickness of wood at which each check's worst utilisation is 1.00, to 0.1 mm upward, all else as it is.

    `trial` holds one candidate; its lay-up is scaled. The last thickness that fails counts, so that a check
    that is not monotone is never under-read. A check that passes at 5 mm reads 5.0, one that fails at
    160 mm reads infinity.
    """
    coarse = np.linspace(THIN, THICK, COARSE)
    found = _loaded(_scaled(trial, coarse))
    starts = {name: _last_failing(u) for name, u in found.items()}
    inside = {name: i for name, i in starts.items() if 0 <= i < COARSE - 1}
    out = {name: THIN if i < 0 else math.inf for name, i in starts.items() if name not in inside}
    if inside:
        fine = np.concatenate([np.linspace(coarse[i], coarse[i + 1], FINE) for i in inside.values()])
        again = _loaded(_scaled(trial, fine))
        for row, name in enumerate(inside):
            mine = slice(row * FINE, (row + 1) * FINE)
            i = _last_failing(again[name][mine])
            out[name] = math.ceil(round(float(fine[mine][i + 1]) / STEP, 6)) * STEP
    return tuple(Required(name, round(t, 1)) for name, t in sorted(out.items(), key=lambda kv: (-kv[1], kv[0])))


def _scaled(trial: Trial, thicknesses: Array) -> Trial:
    return Trial(trial.setup, trial.cases, trial.stacks.scaled(thicknesses / trial.stacks.t[0]), trial.hardware)


def _last_failing(u: Array) -> int:
    failing = np.flatnonzero(~(u <= 1.0))
    return int(failing[-1]) if failing.size else -1


def good_for(job: Job, tables: Catalogue, facts: Facts, trial: Trial) -> GoodFor:
    """Largest power (W) and engine mass (kg) the one candidate carries, all else as it is."""
    most = tables.factor("scope.power_max_W").value
    power, mass = facts["engine.power"].value, facts["engine.weight"].value
    return GoodFor(
        power=_largest(lambda p: _at_powers(job, tables, p), trial, power, most),
        mass=_largest(lambda m: _at_masses(facts, m), trial, mass, 4 * mass),
    )


def _at_powers(job: Job, tables: Catalogue, powers: Array) -> dict[str, Value]:
    """Facts with a propeller, weight and centre of gravity usual for each power, unless stated."""
    rows = [values_of(collect(job, tables, float(p))) for p in powers]
    return {key: np.array([r[key] for r in rows], dtype=float) for key in rows[0] if key in rows[-1]}


def _at_masses(facts: Facts, masses: Array) -> dict[str, Value]:
    base = values_of(facts)
    share = facts["engine.weight_light"].value / facts["engine.weight"].value
    return base | {"engine.weight": masses, "engine.weight_light": masses * share}


def _largest(values, trial: Trial, low: float, high: float, points: int = 17, rounds: int = 2) -> float:  # type: ignore[no-untyped-def]
    """The largest value from `low` up before the mount first fails; `low` itself where it fails there."""
    for _ in range(rounds):
        at = np.linspace(low, high, points)
        setup = build(trial.setup.job, trial.setup.tables, values(at))
        u = np.broadcast_to(worst(Trial(setup, build_cases(setup.loads), trial.stacks, trial.hardware)), points)
        failing = np.flatnonzero(~(u <= 1.0))
        if not failing.size:
            return high
        if failing[0] == 0:
            return low
        low, high = float(at[failing[0] - 1]), float(at[failing[0]])
    return low


__all__ = ["TransomError", "good_for", "required_thickness"]
