"""What to measure first: the weakest link at both ends of each assumption's range, all else as used."""

import numpy as np

from transom.chance.inputs import overruled, spread_of
from transom.chance.reliability import TWO_SIDED, scattered
from transom.checks import all_checks
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.judge.assumptions import TIED
from transom.judge.evaluate import decided, trial_of
from transom.judge.records import Judgement
from transom.loads.cases import build_cases
from transom.result import ONCE, rounded
from transom.setup.build import build, values_of
from transom.setup.records import Fact
from transom.units import Value

LEAST = 0.005  # moves the weakest link by less: not worth a tape


@dataclass(frozen=True)
class Effect:
    """An assumption and its range, and the weakest link's utilisation at its low and its high end, factors in."""

    key: str
    fact: Fact
    low: float
    high: float
    at_low: float
    at_high: float
    used: float

    @property
    def moves(self) -> float:
        """How far the weakest link moves over the range; infinite where an end cannot be carried at all."""
        return max(self.at_low, self.at_high, self.used) - min(self.at_low, self.at_high, self.used)


def measure_first(j: Judgement) -> tuple[Effect, ...]:
    """Every assumption that moves the weakest link, the one that moves it most first; one evaluation of them all."""
    if j.mount is None:
        return ()
    assumed = {k: f for k, f in j.facts.items() if f.assumed and not overruled(k, j)}
    ranges = {k: r for k, f in assumed.items() if (r := range_of(f, j)) is not None}
    if not ranges:
        return ()
    u = _weakest(j, ranges)
    found = [
        Effect(k, assumed[k], *r, rounded(u[2 * i]), rounded(u[2 * i + 1]), rounded(u[-1]))
        for i, (k, r) in enumerate(ranges.items())
    ]
    return tuple(sorted((e for e in found if e.moves >= LEAST), key=lambda e: (-e.moves, e.key)))


def range_of(fact: Fact, j: Judgement) -> tuple[float, float] | None:
    """Where 19 of 20 lie: the range seen, else what its evidence scatters by; None for what is counted."""
    if fact.low is not None and fact.high is not None and fact.low < fact.high:
        return fact.low, fact.high
    found = spread_of(fact, j.setup.tables)
    if found is None:
        return None
    s, middle = found[:2]
    ends = (
        rounded(float(scattered(1.0 if middle == 1.0 else middle, s, q)) * fact.value) for q in (-TWO_SIDED, TWO_SIDED)
    )
    low, high = sorted(ends)
    return low, high


def _weakest(j: Judgement, ranges: dict[str, tuple[float, float]]) -> list[float]:
    """The weakest link at each low and high end in turn, and last as used."""
    base = values_of(j.facts)
    n = 2 * len(ranges) + 1
    values: dict[str, Value] = dict(base)
    for i, (key, ends) in enumerate(ranges.items()):
        for tied in (k for k in TIED.get(key, (key,)) if k in base):
            column = np.full(n, float(base[tied]))
            column[2 * i : 2 * i + 2] *= [end / base[key] if base[key] else 1.0 for end in ends]
            values[tied] = column
        if not base[key]:
            values[key] = np.concatenate([np.zeros(2 * i), ends, np.zeros(n - 2 * i - 2)])
    setup = build(j.setup.job, j.setup.tables, values)
    base_trial = trial_of(j.setup, j.cases, [j.mount] if j.mount else [])
    trial = Trial(setup, build_cases(setup.loads), base_trial.stacks, base_trial.hardware)
    return _links(trial, j, n)


def _links(trial: Trial, j: Judgement, n: int) -> list[float]:
    """The largest utilisation of each, (n,); fit and length are no link and count only where they fail."""
    worst = np.zeros(n)
    for check in decided(all_checks(trial)):
        u = np.broadcast_to(np.max(j.calibration.applied(check), axis=1), n)
        worst = np.maximum(worst, np.where(u <= 1.0, 0.0, u) if check.cases == (ONCE,) else u)
    return [float(x) for x in worst]
