"""Where the answer flips: every assumed number varied, all at once, until the weakest link comes to its limit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from transom.catalogue import Catalogue
from transom.checks.trial import Trial
from transom.job.records import Job
from transom.judge.evaluate import PENCIL, Calibration, worst
from transom.loads.cases import build_cases
from transom.result import Assumption, rounded
from transom.setup.build import build, values_of
from transom.setup.facts import Facts
from transom.setup.records import Fact
from transom.units import Array, Value

RATIOS = np.array([0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 1.75, 2.0])
FINE = 12
# Near enough to matter: an assumption decides where the answer flips within this share of what was used.
DECIDES_WITHIN = 0.25

WOOD = {
    "panel.strength": "bending and sliding strength of the sheets, against the table's low value",
    "panel.face_bearing": "strength of the face under washers and pads, against the table's low value",
}
TIED = {
    "engine.weight": ("engine.weight", "engine.weight_light"),
    "frame.flange.f_u": ("frame.flange.f_u", "frame.flange.f_y"),
    "bracket.metal.f_u": ("bracket.metal.f_u", "bracket.metal.f_y"),
    "bracket.metal.f_s_w": ("bracket.metal.f_s_w", "bracket.metal.f_y_w", "bracket.metal.f_u_w"),
    "bracket.weight": ("bracket.weight", "bracket.weight_light"),
    "crossmembers.f_u": ("crossmembers.f_u", "crossmembers.f_y"),
    "frame.bolts.washer": ("frame.bolts.washer", "frame.bolts.washer_t"),
    "crossmembers.bolts.washer": ("crossmembers.bolts.washer", "crossmembers.bolts.washer_t"),
}


def varied(facts: Facts) -> dict[str, Fact]:
    """What was assumed and somebody could measure, and the wood's strength, which a declared class would tell."""
    out = {k: f for k, f in facts.items() if f.assumed}
    for key, says in WOOD.items():
        out[key] = Fact(1.0, "", "estimate", "derived", "shipped panel row", says)
    return out


@dataclass(frozen=True)
class _Sweep:
    """The weakest link against each key's ratio: `ratios` and `u` (k, r)."""

    ratios: Array
    u: Array


def _sweep(
    job: Job, tables: Catalogue, facts: Facts, trial: Trial, ratios: Mapping[str, Array], calibration: Calibration
) -> _Sweep:
    """Every key at each of its ratios, all else as used; one evaluation of all of them together."""
    base = values_of(facts) | dict.fromkeys(WOOD, 1.0)
    keys, r = list(ratios), len(next(iter(ratios.values())))
    n = len(keys) * r
    values: dict[str, Value] = dict(base)
    for i, key in enumerate(keys):
        for tied in TIED.get(key, (key,)):
            column = np.full(n, float(base[tied]))
            column[i * r : (i + 1) * r] *= ratios[key]
            values[tied] = column
    setup = build(job, tables, values)
    u = worst(Trial(setup, build_cases(setup.loads), trial.stacks, trial.hardware), calibration)
    return _Sweep(np.array([ratios[k] for k in keys]), np.broadcast_to(u, n).reshape(len(keys), r))


def assumptions(
    job: Job, tables: Catalogue, facts: Facts, trial: Trial, calibration: Calibration = PENCIL
) -> tuple[Assumption, ...]:
    """Each assumption with the nearest values either side at which the mount would pass or fail instead.

    `holds_from` and `holds_to` are None where the answer does not flip between half and twice the value. The
    pencil method is run for each value and brought to the careful one's level by `calibration`.
    """
    keys = varied(facts)
    coarse = _sweep(job, tables, facts, trial, dict.fromkeys(keys, RATIOS), calibration)
    at_one = int(np.flatnonzero(RATIOS == 1.0)[0])
    passes = bool(coarse.u[0, at_one] <= 1.0)
    brackets = {}
    for key, u in zip(keys, coarse.u, strict=True):
        other = (u <= 1.0) != passes
        below, above = np.flatnonzero(other[:at_one]), np.flatnonzero(other[at_one + 1 :])
        brackets[key] = (
            (RATIOS[below[-1]], RATIOS[below[-1] + 1]) if below.size else None,
            (RATIOS[at_one + above[0]], RATIOS[at_one + 1 + above[0]]) if above.size else None,
        )
    flips = _refine(job, tables, facts, trial, brackets, passes, calibration)
    return tuple(_assumption(key, fact, flips[key]) for key, fact in keys.items())


Bracket = tuple[float, float] | None


def _refine(
    job: Job,
    tables: Catalogue,
    facts: Facts,
    trial: Trial,
    brackets: Mapping[str, tuple[Bracket, Bracket]],
    passes: bool,
    calibration: Calibration,
) -> dict[str, list[float | None]]:
    """The flip inside each bracket: the last fine value that still gives today's answer."""
    out: dict[str, list[float | None]] = {key: [None, None] for key in brackets}
    for side in (0, 1):
        wanted = {k: np.linspace(b[side][0], b[side][1], FINE) for k, b in brackets.items() if b[side]}  # type: ignore[index]
        if not wanted:
            continue
        fine = _sweep(job, tables, facts, trial, wanted, calibration)
        for key, ratios, u in zip(wanted, fine.ratios, fine.u, strict=True):
            same = np.flatnonzero((u <= 1.0) == passes)
            out[key][side] = float(ratios[same[0] if side == 0 else same[-1]])
    return out


def _assumption(key: str, fact: Fact, flips: Sequence[float | None]) -> Assumption:
    low, high = (None if f is None else rounded(f * fact.value) for f in flips)
    return Assumption(
        key,
        rounded(fact.value),
        fact.unit,
        fact.evidence,
        fact.known_by,
        fact.source,
        low,
        high,
        fact.says,
        fact.measure,
    )


def decides(a: Assumption) -> bool:
    """True where the answer flips within a quarter of what was used."""
    return nearness(a) <= DECIDES_WITHIN


def nearness(a: Assumption) -> float:
    """Distance to the nearer flip as a share of the value used; infinite where there is none."""
    if not a.value:
        return float("inf")
    return min((abs(f / a.value - 1.0) for f in (a.holds_from, a.holds_to) if f is not None), default=float("inf"))
