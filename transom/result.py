"""What a judgement is made of: assumptions, cases, checks. Frozen records, no printing."""

import math
from collections.abc import Sequence
from functools import cached_property
from typing import overload

import numpy as np
from numpy.typing import NDArray

from transom.frozen import dataclass
from transom.units import Array

ONCE = "once"  # the case name of a check that no load enters (fit, length, spacing)


def rounded(value: float) -> float:
    """Nine significant digits: what is ranked and written, so that the same job gives the same bytes."""
    return float(f"{value:.9g}")


@dataclass(frozen=True)
class Assumption:
    """A number the job did not state: what was used instead, and between which values the answer holds."""

    key: str
    value: float
    unit: str
    evidence: str
    known_by: str
    source: str
    holds_from: float | None = None
    holds_to: float | None = None
    says: str = ""
    measure: str = ""


@dataclass(frozen=True)
class Cases:
    """Load cases as arrays over v variants (every side, tilt angle and weight sense is one).

    `wrench` is characteristic and `design` is factored; both (..., v, 6) with Fx, Fy, Fz in N and Mx,
    My, Mz in N*mm about the datum, board axes, acting on the mount. `k_mod` and `gamma_M` (v,) follow
    from the duration class; `accidental` (v,) marks the strike.
    """

    names: tuple[str, ...]
    of: tuple[str, ...]
    factor: Array
    weight_factor: Array
    duration: tuple[str, ...]
    wrench: Array
    design: Array

    @property
    def accidental(self) -> NDArray[np.bool_]:
        """Which variants are accidental."""
        return np.array([d == "accidental" for d in self.duration])

    def __len__(self) -> int:
        return len(self.names)

    def take(self, rows: Sequence[int]) -> "Cases":
        """The variants at these places."""
        i = list(rows)
        return Cases(
            names=tuple(self.names[k] for k in i),
            of=tuple(self.of[k] for k in i),
            factor=self.factor[..., i],
            weight_factor=self.weight_factor[..., i],
            duration=tuple(self.duration[k] for k in i),
            wrench=self.wrench[..., i, :],
            design=self.design[..., i, :],
        )


def rows_of(x: object) -> Array:
    """An array of candidates and cases; `np.atleast_2d` asks for longer than most checks take to compute."""
    if type(x) is np.ndarray and x.ndim >= 2 and x.dtype.char == "d":
        return x
    out = np.asarray(x, dtype=float)
    return out if out.ndim >= 2 else np.atleast_2d(out)


@dataclass(frozen=True)
class CheckArray:
    """One check over n candidates and the variants of its cases.

    `demand` and `resistance` broadcast to (n, v), v = len(cases); one unit for both. Where the resistance
    is not a positive finite number, or the demand is not finite, the utilisation is infinite: a missing
    number never passes.

    >>> c = CheckArray("board", "bending", "ec5", "hand", "MPa", "a book", "published", "read", ("ahead", "turn"),
    ...                demand=np.array([[3.0, 9.0], [3.0, math.nan]]), resistance=np.array([[10.0], [10.0]]))
    >>> c.worst.tolist(), c.worst_row(0).id
    ([0.9, inf], 'board.bending.ec5.hand.turn')
    """

    part: str
    what: str
    rule: str
    method: str
    unit: str
    source: str
    evidence: str
    known_by: str
    cases: tuple[str, ...]
    demand: Array
    resistance: Array
    note: str = ""
    information: bool = False

    @property
    def name(self) -> str:
        """`part.what[.rule].method`, the id without its case."""
        return ".".join(p for p in (self.part, self.what, self.rule, self.method) if p)

    @cached_property
    def utilisation(self) -> Array:
        """Demand over resistance, (n, v)."""
        demand, resistance = rows_of(self.demand), rows_of(self.resistance)
        if resistance.size == 1 and 0.0 < resistance.item() < math.inf:  # one for all, as every second is
            u = demand / resistance
            if np.isfinite(u).all():
                return np.asarray(u)
        known, sound = np.isfinite(demand), np.isfinite(resistance) & (resistance > 0)
        if known.all() and sound.all():  # as nearly always; each asked in its own shape, often a row or a column
            return np.asarray(demand / resistance)
        return np.where(known & sound, demand / np.where(sound, resistance, 1.0), np.inf)

    @property
    def worst(self) -> Array:
        """The largest utilisation of each candidate, (n,)."""
        u = self.utilisation
        return np.asarray(u.reshape(u.shape[0], -1).max(axis=1))

    def rows(self, i: int = 0) -> tuple["Check", ...]:
        """The checks of candidate i, one for each case."""
        return self._rows(i, range(len(self.cases)))

    def worst_row(self, i: int = 0) -> "Check":
        """The check of candidate i in its worst case; of cases alike to nine digits, the last by name."""
        u = np.broadcast_to(self.utilisation[i], len(self.cases))
        near = np.flatnonzero(u >= u.max() * (1 - 1e-8 * np.sign(u.max())))
        return max(self._rows(i, near.tolist()), key=lambda c: (c.utilisation, c.id))

    def row(self, case: str, i: int = 0) -> "Check":
        """The check of candidate i in the case named. Raises ValueError where it has no such case."""
        return self._rows(i, [self.cases.index(case)])[0]

    def _rows(self, i: int, places: Sequence[int]) -> tuple["Check", ...]:
        n = np.broadcast_shapes(np.atleast_2d(self.demand).shape, np.atleast_2d(self.resistance).shape)[0]
        shape = (n, len(self.cases))
        demand = np.broadcast_to(np.asarray(self.demand, dtype=float), shape)[i].tolist()
        resistance = np.broadcast_to(np.asarray(self.resistance, dtype=float), shape)[i].tolist()
        return tuple(
            Check(self.part, self.what, self.rule, self.cases[k], self.method, demand[k], resistance[k], self.unit,
                  self.source, self.evidence, self.known_by, self.note, self.information)
            for k in places
        )  # fmt: skip


@dataclass(frozen=True)
class Check:
    """One check of one mount in one case."""

    part: str
    what: str
    rule: str
    case: str
    method: str
    demand: float
    resistance: float
    unit: str
    source: str
    evidence: str
    known_by: str
    note: str = ""
    information: bool = False

    @property
    def id(self) -> str:
        """`part.what[.rule].method.case`, stable between versions."""
        return ".".join(p for p in (self.part, self.what, self.rule, self.method, self.case) if p)

    @cached_property
    def utilisation(self) -> float:
        """Demand over resistance; infinite where either is not a usable number."""
        if not (math.isfinite(self.demand) and math.isfinite(self.resistance) and self.resistance > 0):
            return math.inf
        return rounded(self.demand / self.resistance)

    @property
    def passes(self) -> bool:
        """True only where the utilisation is a number and at most one."""
        return self.utilisation <= 1.0


class CheckRows(Sequence[Check]):
    """Every check of one mount in every case, made into records when first asked for: most are never looked at.

    `arrays` have the mount as their first candidate.
    """

    def __init__(self, arrays: Sequence[CheckArray]) -> None:
        self._arrays = tuple(arrays)

    @cached_property
    def _rows(self) -> tuple[Check, ...]:
        return tuple(row for array in self._arrays for row in array.rows())

    @cached_property
    def worst(self) -> tuple[Check, ...]:
        """The worst case of each array."""
        return tuple(array.worst_row() for array in self._arrays)

    def __len__(self) -> int:
        return sum(len(array.cases) for array in self._arrays)

    @overload
    def __getitem__(self, place: int) -> Check: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[Check, ...]: ...
    def __getitem__(self, place: int | slice) -> Check | tuple[Check, ...]:
        return self._rows[place]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and self._rows == tuple(other)

    def __hash__(self) -> int:
        return hash(self._rows)


def worst_of(checks: Sequence[Check]) -> Sequence[Check]:
    """At least the worst case of each check, of all of them."""
    return checks.worst if isinstance(checks, CheckRows) else checks
