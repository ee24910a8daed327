"""Where the answer flips: every assumed number varied, all at once, until the weakest link comes to its limit."""

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property

import numpy as np

from transom.catalogue import Catalogue
from transom.checks import all_checks, crossmembers, framed
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.job.records import Job
from transom.judge.evaluate import PENCIL, Calibration, weakest, worst
from transom.loads.cases import build_cases
from transom.result import Assumption, CheckArray, rounded
from transom.setup.build import build, values_of
from transom.setup.facts import Facts
from transom.setup.records import Fact
from transom.units import Array, Value

RATIOS = np.array([0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 1.75, 2.0])
NEAR = RATIOS[2:9]  # one past what may decide on either side
ROWS = 250  # values asked at once: what more would gain nothing and takes memory
FINE = 12
# Near enough to matter: an assumption decides where the answer flips within this share of what was used.
DECIDES_WITHIN = 0.25
Ratios = Sequence[tuple[str, Array]]  # a key and the ratios (r,) to ask of it; as many of each

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
class Joint:
    """Facts that one joint is made of: only its own checks read them, and no load does."""

    keys: tuple[str, ...]  # how these keys begin
    checks: Callable[[Trial], Sequence[CheckArray]]


JOINTS = (
    Joint(("frame.flange.", "frame.bolts."), framed),
    Joint(("crossmembers.", "pod."), crossmembers.checks),
)


def joint_of(key: str) -> Joint | None:
    """The joint whose checks alone read a fact; None for what enters more than that."""
    return next((j for j in JOINTS if key.startswith(j.keys)), None)


@dataclass(frozen=True)
class _WhatIf:
    """What stands around a sweep; `trial` is of one mount and of the facts as used."""

    job: Job
    tables: Catalogue
    facts: Facts
    trial: Trial
    calibration: Calibration
    pencil: Sequence[CheckArray]  # of the trial, all

    def sweep(self, wanted: Ratios) -> Array:
        """The weakest link against each key's ratios (k, r), all else as used."""
        out = np.empty((len(wanted), len(wanted[0][1])))
        few = max(1, ROWS // out.shape[1])
        for joint in (None, *JOINTS):
            places = [i for i, (key, _) in enumerate(wanted) if joint_of(key) == joint]
            for some in (places[i : i + few] for i in range(0, len(places), few)):
                out[some] = self._together([wanted[i] for i in some], joint)
        return out

    def _together(self, wanted: Ratios, joint: Joint | None) -> Array:
        """The same in one evaluation: of all checks, or of a joint's own and the rest as it is."""
        setup = build(self.job, self.tables, self._values(wanted))
        cases = self.trial.cases if joint else build_cases(setup.loads)
        varied = Trial(setup, cases, self.trial.stacks, self.trial.hardware)
        u = worst(varied, self.calibration, joint.checks if joint else all_checks)
        if joint:
            u = np.maximum(u, self._rest[joint])
        k, r = len(wanted), len(wanted[0][1])
        return np.broadcast_to(u, k * r).reshape(k, r)

    def _values(self, wanted: Ratios) -> dict[str, Value]:
        """Numbers of the facts, of the keys asked as columns (k r,)."""
        base = values_of(self.facts) | dict.fromkeys(WOOD, 1.0)
        out: dict[str, Value] = dict(base)
        r = len(wanted[0][1])
        for i, (key, ratios) in enumerate(wanted):
            for tied in TIED.get(key, (key,)):
                column = np.array(np.broadcast_to(out[tied], len(wanted) * r), dtype=float)  # may be asked twice
                column[i * r : (i + 1) * r] *= ratios
                out[tied] = column
        return out

    @cached_property
    def _rest(self) -> dict[Joint, float]:
        """The weakest link of all that a joint's own checks leave."""
        own = {joint: {c.name for c in joint.checks(self.trial)} for joint in JOINTS}
        return {
            j: float(weakest([c for c in self.pencil if c.name not in own[j]], self.calibration)[0]) for j in JOINTS
        }


def assumptions(
    job: Job,
    tables: Catalogue,
    facts: Facts,
    trial: Trial,
    calibration: Calibration = PENCIL,
    near: bool = False,
    pencil: Sequence[CheckArray] | None = None,
) -> tuple[Assumption, ...]:
    """Each assumption with the nearest values either side at which the mount would pass or fail instead.

    `holds_from` and `holds_to` are None where the answer does not flip between half and twice the value. The
    pencil method is run for each value and brought to the careful one's level by `calibration`. `trial` is of one
    mount and of these facts. `near`: only what somebody could measure, looked at only as far as it may decide (`decides`).
    `pencil` are all checks of the trial, where somebody has them.
    """
    every = varied(facts)
    keys = {k: f for k, f in every.items() if f.measure} if near else every
    if not keys:
        return ()
    what_if = _WhatIf(job, tables, facts, trial, calibration, all_checks(trial) if pencil is None else pencil)
    ratios = NEAR if near else RATIOS
    coarse = what_if.sweep([(key, ratios) for key in keys])
    at_one = int(np.flatnonzero(ratios == 1.0)[0])
    passes = bool(coarse[0, at_one] <= 1.0)
    brackets: dict[tuple[str, int], tuple[float, float]] = {}
    for key, u in zip(keys, coarse, strict=True):
        other = (u <= 1.0) != passes
        below, above = np.flatnonzero(other[:at_one]), np.flatnonzero(other[at_one + 1 :])
        if below.size:
            brackets[key, BELOW] = (float(ratios[below[-1]]), float(ratios[below[-1] + 1]))
        if above.size:
            brackets[key, ABOVE] = (float(ratios[at_one + above[0]]), float(ratios[at_one + 1 + above[0]]))
    flips = _refine(what_if, brackets, passes)
    return tuple(
        _assumption(key, fact, (flips.get((key, BELOW)), flips.get((key, ABOVE)))) for key, fact in keys.items()
    )


BELOW, ABOVE = 0, 1


def _refine(
    what_if: _WhatIf, brackets: Mapping[tuple[str, int], tuple[float, float]], passes: bool
) -> dict[tuple[str, int], float]:
    """The flip inside each bracket: the last fine value that still gives today's answer.

    The bracket's ends are known: the one nearer to 1 gives it, the other does not.
    """
    if not brackets:
        return {}
    fine = {at: np.linspace(*ends, FINE) for at, ends in brackets.items()}
    found = what_if.sweep([(key, ratios[1:-1]) for (key, _), ratios in fine.items()])
    out = {}
    for ((key, side), ratios), u in zip(fine.items(), found, strict=True):
        same = np.flatnonzero([side == ABOVE, *((u <= 1.0) == passes), side == BELOW])
        out[key, side] = float(ratios[same[0] if side == BELOW else same[-1]])
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
