"""How thick each check wants the board, and how much engine the pick would carry."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from transom.catalogue import Catalogue
from transom.checks import all_checks, one_check, plate_checks
from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.job.records import Job
from transom.job.usual import as_usual
from transom.judge.evaluate import PENCIL, Calibration, decided, key_of, worst
from transom.judge.records import GoodFor, Required
from transom.loads.cases import build_cases
from transom.result import ONCE, CheckArray
from transom.setup.build import build, values_of
from transom.setup.facts import Facts, collect
from transom.sizing.led import begun_from, worst_of_led
from transom.units import Array, Value

THIN, THICK, STEP = 5.0, 160.0, 0.1  # mm: what is searched, and to what
COARSE = 63  # 2.5 mm apart
FEW = 5
FINE, FINER = 6, 2  # a fifth of that, twice: 0.1 mm
SHORT = (
    2 * STEP
)  # what a secant still moves that is no longer: it was never 0.01 mm off (in examples and 20 random jobs)


def _loaded(trial: Trial, calibration: Calibration) -> dict[str, Array]:
    """Worst utilisation of each check that a load enters, (n,), at the careful method's level."""
    n = len(trial.stacks)
    return {
        _named(c, calibration): np.broadcast_to(np.max(calibration.applied(c), axis=1), n)
        for c in decided(all_checks(trial))
        if c.cases != (ONCE,)
    }


def _named(check: CheckArray, calibration: Calibration) -> str:
    return replace(check, method="plate").name if key_of(check) in calibration.times else check.name


def required_thickness(
    trial: Trial, calibration: Calibration = PENCIL, careful: Careful | None = None
) -> tuple[Required, ...]:
    """Thickness of wood at which each check's worst utilisation is 1.00, to 0.1 mm upward, all else as it is.

    `trial` holds one candidate; its lay-up is scaled. The last thickness that fails counts, so that a check
    that is not monotone is never under-read. A check that passes at 5 mm reads 5.0, one that fails at
    160 mm reads infinity. Where the plate decides, the pencil is brought to its level at the thickness built,
    and the largest of them is worked out again with plates of its own; `careful` is the one at that thickness.
    """
    coarse = np.linspace(THIN, THICK, COARSE)
    starts = {name: _last_failing(u) for name, u in _loaded(_scaled(trial, coarse), calibration).items()}
    out = {name: THIN if i < 0 else math.inf for name, i in starts.items()}
    between = {name: (coarse[i], coarse[i + 1]) for name, i in starts.items() if 0 <= i < COARSE - 1}
    for _ in range(FINER):
        between = _closer(trial, calibration, between)
    out |= {name: math.ceil(round(float(high) / STEP, 6)) * STEP for name, (_, high) in between.items()}
    # What no thickness cures says nothing of the thickness that the rest wants.
    thick = {name: t for name, t in out.items() if THIN < t < math.inf}
    if calibration.times and thick:
        governing = max(thick, key=lambda name: (thick[name], name))
        out[governing] = _by_plates(trial, governing, calibration, careful, out[governing])
    return tuple(Required(name, round(t, 1)) for name, t in sorted(out.items(), key=lambda kv: (-kv[1], kv[0])))


def most_wanted(required: Sequence[Required]) -> Required | None:
    """The check that wants the thickest board and can have it; None where thickness cures nothing."""
    return next((r for r in required if math.isfinite(r.thickness)), None)


def _closer(
    trial: Trial, calibration: Calibration, between: Mapping[str, tuple[float, float]]
) -> dict[str, tuple[float, float]]:
    """Thicknesses that fail and pass, a fifth as far apart; all checks' in one evaluation."""
    if not between:
        return {}
    fine = {name: np.linspace(low, high, FINE) for name, (low, high) in between.items()}
    # The ends were seen to fail and to pass.
    found = _loaded(_scaled(trial, np.concatenate([t[1:-1] for t in fine.values()])), calibration)
    out = {}
    for row, (name, t) in enumerate(fine.items()):
        i = 1 + _last_failing(found[name].reshape(len(fine), -1)[row])
        out[name] = (float(t[i]), float(t[i + 1]))
    return out


def _by_plates(
    trial: Trial, name: str, calibration: Calibration, careful: Careful | None, guess: float, rounds: int = 3
) -> float:
    """Thickness at which one check comes to its limit by the plate, by secants on a power law, to 0.1 mm upward.

    `calibration` has the plate's own word at the thickness built.
    """
    solved = [] if careful is None else [careful]  # the last one last: its contacts are those the next one tries first

    def u(t: float) -> float:
        thick = _scaled(trial, np.array([t]))

        def asked(rows: list[int]) -> Array:
            plate = begun_from(thick, rows, solved)
            solved.append(plate)
            check = one_check(plate, name)
            return np.full(len(rows), math.nan) if check is None else check.utilisation[0]

        return worst_of_led(_by_case(thick, calibration, name), asked)

    t_0, t_1 = float(trial.stacks.t[0]), guess
    u_0, u_1 = float(np.max(_by_case(trial, calibration, name))), u(t_1)
    for _ in range(rounds):
        if not (u_0 > 0 and u_1 > 0) or abs(math.log(t_1 / t_0)) < 1e-6 or u_0 == u_1:
            break
        power = math.log(u_1 / u_0) / math.log(t_1 / t_0)
        t_0, u_0 = t_1, u_1
        t_1 = min(max(t_1 * u_1 ** (-1 / power), THIN), THICK) if power else t_1
        if abs(t_1 - t_0) < SHORT:
            break
        u_1 = u(t_1)
    if t_1 >= THICK:
        return math.inf
    return math.ceil(round(t_1 / STEP, 2)) * STEP if math.isfinite(t_1) else guess


def _by_case(trial: Trial, calibration: Calibration, name: str) -> Array:
    """One check's utilisation of the one candidate in every case, (v,), at the careful method's level."""
    check = next(c for c in decided(all_checks(trial)) if _named(c, calibration) == name)
    return np.asarray(calibration.applied(check)[0])


def _scaled(trial: Trial, thicknesses: Array) -> Trial:
    return Trial(trial.setup, trial.cases, trial.stacks.scaled(thicknesses / trial.stacks.t[0]), trial.hardware)


def _last_failing(u: Array) -> int:
    failing = np.flatnonzero(~(u <= 1.0))
    return int(failing[-1]) if failing.size else -1


def good_for(
    job: Job,
    tables: Catalogue,
    facts: Facts,
    trial: Trial,
    calibration: Calibration = PENCIL,
    careful: Careful | None = None,
) -> GoodFor:
    """Largest power (W) and engine mass (kg) the one candidate carries, all else as it is; `careful`: its own plate."""
    most = tables.factor("scope.power_max_W").value
    power, mass = facts["engine.power"].value, facts["engine.weight"].value

    def found(values: Callable[[Array], dict[str, Value]], low: float, high: float) -> float:
        far = _largest(values, trial, calibration, low, high)
        return _borne_out(values, trial, calibration, low, far, careful) if calibration.times else far

    return GoodFor(
        power=found(lambda p: _at_powers(job, tables, p), power, most),
        mass=found(lambda m: _at_masses(facts, m), mass, 4 * mass),
    )


def _borne_out(
    values: Callable[[Array], dict[str, Value]],
    trial: Trial,
    calibration: Calibration,
    low: float,
    far: float,
    careful: Careful | None,
    rounds: int = 3,
) -> float:
    """The value where a plate of its own passes it, else drawn back towards `low`, which has passed already."""
    for _ in range(rounds):
        if far <= low:
            break
        setup = build(trial.setup.job, trial.setup.tables, values(np.array([far])))
        u = _carried(Trial(setup, build_cases(setup.loads), trial.stacks, trial.hardware), calibration, careful)
        if u <= 1.0:
            return far
        far = max(low, min(far / u**2, (low + far) / 2 if not math.isfinite(u) else far))
    return low


def _carried(trial: Trial, calibration: Calibration, careful: Careful | None) -> float:
    """The largest utilisation of one candidate: what a plate decides by its own, in the cases that lead; all else by the pencil."""
    pencil = decided(all_checks(trial))
    mine = [c for c in pencil if key_of(c) in calibration.times]
    solved = [] if careful is None else [careful]

    def asked(rows: list[int]) -> Array:
        plate = begun_from(trial, rows, solved)
        solved.append(plate)
        found = {key_of(c): c.utilisation[0] for c in decided(plate_checks(plate))}
        return np.asarray(np.max(np.broadcast_arrays(*(found[key_of(c)] for c in mine)), axis=0))

    others = max(float(c.worst[0]) for c in pencil if key_of(c) not in calibration.times)
    expected = np.max(np.broadcast_arrays(*(calibration.applied(c)[0] for c in mine)), axis=0)
    return max(others, worst_of_led(expected, asked))


def _at_powers(job: Job, tables: Catalogue, powers: Array) -> dict[str, Value]:
    """Facts at each power: at the job's own as stated, above it those of an engine as usual there.

    What the job states of its engine's weight, centre of gravity, thrust and propeller is no larger engine's.
    """
    own = float(collect(job, tables)["engine.power"].value)
    other = replace(job, engine=as_usual(job.engine))
    rows = [values_of(collect(other if float(p) > own else job, tables, float(p))) for p in powers]
    return {key: np.array([r[key] for r in rows], dtype=float) for key in rows[0] if key in rows[-1]}


def _at_masses(facts: Facts, masses: Array) -> dict[str, Value]:
    base = values_of(facts)
    share = facts["engine.weight_light"].value / facts["engine.weight"].value
    return base | {"engine.weight": masses, "engine.weight_light": masses * share}


def _largest(
    values: Callable[[Array], dict[str, Value]],
    trial: Trial,
    calibration: Calibration,
    low: float,
    high: float,
    points: int = 17,
    rounds: int = 2,
) -> float:
    """The largest value from `low` up before the mount first fails; `low` itself where it fails there."""
    for _ in range(rounds):
        at = np.linspace(low, high, points)
        # Most fail soon: the others are looked at only where none of the first does.
        first = (_first_failing(part, values, trial, calibration) for part in (at[:FEW], at[FEW:]))
        failing = next((value for value in first if value is not None), None)
        if failing is None:
            return high
        i = int(np.flatnonzero(at == failing)[0])
        if i == 0:
            return low
        low, high = float(at[i - 1]), float(at[i])
    return low


def _first_failing(
    at: Array, values: Callable[[Array], dict[str, Value]], trial: Trial, calibration: Calibration
) -> float | None:
    """The first of some values at which the mount fails; None where it fails at none."""
    setup = build(trial.setup.job, trial.setup.tables, values(at))
    varied = Trial(setup, build_cases(setup.loads), trial.stacks, trial.hardware)
    failing = np.flatnonzero(~(np.broadcast_to(worst(varied, calibration), len(at)) <= 1.0))
    return float(at[failing[0]]) if failing.size else None
