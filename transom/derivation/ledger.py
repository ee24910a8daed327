"""What a judgement rests on, row by row: numbers, formulas and checks by their evidence, and what rests on memory.

Only what its checks reach counts: a default that the job's own number replaced, or a row looked up for
something else, is not in the ledger.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import field
from functools import cached_property

from transom.derivation.plate import PlateValue
from transom.derivation.resolve import LAST, Computed, Origin, Resolver
from transom.derivation.trace import Given, trace
from transom.formula import Formula
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.result import Check

NUMBER, FORMULA, CHECK = "number", "formula", "check"


@dataclass(frozen=True)
class Entry:
    """One thing the judgement rests on.

    `kind` is "number" (a fact or a row's column, `value` in `unit`), "formula" or "check". `evidence` and
    `known_by` are the program's words (published, stated, ...; read, memory, ...). `weakest`: the weakest
    link rests on it too. `plate`: a formula that only the careful method's own solution uses.
    """

    kind: str
    name: str
    says: str
    value: float | None
    unit: str
    evidence: str
    known_by: str
    source: str
    weakest: bool
    plate: bool = False


@dataclass(frozen=True)
class Ledger:
    """Everything a judgement rests on: numbers, then formulas, then checks."""

    entries: tuple[Entry, ...]

    def of(self, kind: str, weakest: bool = False) -> tuple[Entry, ...]:
        """The entries of a kind; only those the weakest link rests on if asked."""
        return tuple(e for e in self.entries if e.kind == kind and (e.weakest or not weakest))

    def counts(self, kind: str, weakest: bool = False) -> dict[str, int]:
        """How many of a kind by evidence, most first."""
        return dict(Counter(e.evidence for e in self.of(kind, weakest)).most_common())

    @cached_property
    def memory(self) -> tuple[Entry, ...]:
        """What is known from memory only, and so provisional."""
        return tuple(e for e in self.entries if e.known_by == "memory")


@dataclass
class _Reached:
    """What checks reach, each once, in the order it is met."""

    resolver: Resolver
    column: int = 0
    formulas: dict[str, Formula] = field(default_factory=dict)
    given: dict[str, tuple[Given, str]] = field(default_factory=dict)  # and the unit it is taken in
    seen: set[tuple[int, int]] = field(default_factory=set)

    def walk(self, check: Check) -> None:
        """Everything a check reaches."""
        again = self.resolver.trace.again(check)
        self.column = again.column
        unit = check.unit
        open_ = [
            (self.resolver.source(n, "", LAST, self.column, None).origin, unit)
            for n in (again.demand, again.resistance)
        ]
        while open_:
            origin, unit = open_.pop()
            if isinstance(origin, Given):
                self.given.setdefault(origin.name, (origin, unit))
            elif isinstance(origin, PlateValue):
                open_ += self._into_plate()
            elif isinstance(origin, Computed) and (origin.index, origin.place) not in self.seen:
                self.seen.add((origin.index, origin.place))
                self.formulas.setdefault(origin.call.formula.name, origin.call.formula)
                open_ += self._before(origin)

    def _into_plate(self) -> Iterator[tuple[Origin, str]]:
        """What the plate was given in the case in hand."""
        for _, unit, number in self.resolver.trace.into_plate(self.column):
            yield self.resolver.source(number, "", self.resolver.trace.run.solved, self.column, None).origin, unit

    def _before(self, computed: Computed) -> Iterator[tuple[Origin, str]]:
        known = self.resolver.defaults(computed.call.formula)
        for name, unit, numbers in self.resolver.arguments(computed):
            for n in dict.fromkeys(numbers):
                yield self.resolver.source(n, name, computed.index, self.column, known.get(name)).origin, unit.text


def ledger(j: Judgement, of: Resolver | None = None) -> Ledger:
    """What the worst case of each deciding check of a judgement rests on; nothing where no mount was judged.

    `of` looks numbers up in the judgement's trace, where there is one.
    """
    if j.mount is None:
        return Ledger(())
    resolver = of or Resolver(trace(j))
    weakest, all_ = _reached(resolver, [j.governing]), _reached(resolver, j.worst)
    inside = resolver.trace.run.recording.inside
    return Ledger((
        *(_number(g, unit, g.name in weakest.given) for g, unit in all_.given.values()),
        *(_formula(f, f.name in weakest.formulas) for f in all_.formulas.values()),
        *(_formula(f, j.governing.method == "plate", plate=True) for n, f in inside.items() if n not in all_.formulas),
        *(_check(c, c.id == j.governing.id) for c in j.worst),
    ))  # fmt: skip


def _reached(resolver: Resolver, checks: Iterable[Check]) -> _Reached:
    reached = _Reached(resolver)
    for check in checks:
        reached.walk(check)
    return reached


def _number(g: Given, unit: str, weakest: bool) -> Entry:
    return Entry(
        NUMBER,
        g.name,
        g.says,
        float(g.value),
        unit if g.unit is None else g.unit,
        g.evidence,
        g.known_by,
        g.source,
        weakest,
    )


def _formula(f: Formula, weakest: bool, plate: bool = False) -> Entry:
    return Entry(FORMULA, f.name, f.says, None, f.returns.text, f.evidence, f.known_by, f.source, weakest, plate)


def _check(c: Check, weakest: bool) -> Entry:
    return Entry(CHECK, c.id, f"{c.part}, {c.what}", c.utilisation, "", c.evidence, c.known_by, c.source, weakest)
