"""A check of a judgement, derived: lines from what enters to its share of the limit."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.derivation.digits import shown
from transom.derivation.entering import entering
from transom.derivation.lines import FORMULA, Derivation, Line
from transom.derivation.plate import PlateValue
from transom.derivation.resolve import LAST, LISTED, Computed, Constant, Origin, Resolver, table_of
from transom.derivation.symbolic import latex_name, latex_result
from transom.derivation.terms import Listed, Patterns, Stands, Term, written
from transom.derivation.trace import Number, trace
from transom.formula import Formula
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.result import Check
from transom.units import ONE, Unit

NAME = re.compile(r"[A-Za-z]+'*(_[A-Za-z0-9,]+)*'*")


def share_of_limit(carries: ONE, may_carry: ONE) -> ONE:
    """Share of its limit that the check comes to; it passes up to 1."""
    return carries / may_carry


# Of any unit over the same one, so it stands in no registry of formulas with one unit each.
SHARE = Formula("check", share_of_limit, "u", "carries over may carry", "published", "derived")


def derive(j: Judgement, checks: Iterable[Check], of: Resolver | None = None) -> tuple[Derivation, ...]:
    """The derivation of each of some checks of a judgement; `of` looks numbers up in its trace, where there is one.

    Raises:
        ValueError: a judgement without a mount, or a check that is not the judgement's.
    """
    from sympy.core.parameters import distribute

    wanted = list(checks)
    resolver, cache = of or Resolver(trace(j)), Patterns()
    # As each formula is traced; set once, since setting it anew empties SymPy's caches.
    with distribute(False):
        return tuple(_derivation(resolver, cache, c) for c in wanted)


def _derivation(resolver: Resolver, cache: Patterns, check: Check) -> Derivation:
    again = resolver.trace.again(check)
    return _Writer(resolver, cache, again.check, again.column).derivation(again.demand, again.resistance)


@dataclass
class _Writer:
    """Writes the lines of one check, each after the lines it uses."""

    resolver: Resolver
    cache: Patterns
    check: Check
    column: int
    lines: list[Line] = field(default_factory=list)
    numbers: dict[object, int] = field(default_factory=dict)
    taken: dict[str, int] = field(default_factory=dict)

    def derivation(self, demand: Number, resistance: Number) -> Derivation:
        """The lines, the share of the limit last."""
        c, unit = self.check, Unit({"MPa": "N/mm^2"}.get(self.check.unit, self.check.unit))
        sides = {
            "carries": self._term(demand, unit, "S", LAST),
            "may_carry": self._term(resistance, unit, "R", LAST),
        }
        self._write(SHARE, c.id, sides, c.utilisation, "u")
        return Derivation(c, tuple(self.lines))

    def _term(self, number: Number, unit: Unit, name: str, before: int, default: float | None = None) -> Term:
        """What stands for a number: its line's symbol, written first if need be, or the number itself."""
        source = self.resolver.source(number, name, before, self.column, default)
        if isinstance(source.origin, Constant) and source.origin.traced:
            return Term("", number.value)
        line = self._line(source.origin, name, unit)
        return Term(self.lines[line - 1].symbol, number.value, line, source.turned)

    def _line(self, origin: Origin, name: str, unit: Unit) -> int:
        """The number of an origin's line."""
        key = (origin.index, origin.place) if isinstance(origin, Computed) else (type(origin), origin_key(origin))
        if key not in self.numbers:
            if isinstance(origin, Computed):
                self.numbers[key] = self._formula(origin, name)
            else:
                into = self._into_plate if isinstance(origin, PlateValue) else ()
                self.numbers[key] = self._add(replace(entering(origin, name, unit.text), uses=into))
        return self.numbers[key]

    @cached_property
    def _into_plate(self) -> tuple[int, ...]:
        """Lines of what the plate was given."""
        given, solved = self.resolver.trace.into_plate(self.column), self.resolver.trace.run.solved
        terms = [self._term(number, Unit(unit), name, solved) for name, unit, number in given]
        return tuple(t.line for t in terms if t.line)

    def _formula(self, computed: Computed, name: str) -> int:
        found = computed.call.formula
        known = self.resolver.defaults(found)
        arguments = {
            k: self._stands(k, u, n, computed.index, known.get(k)) for k, u, n in self.resolver.arguments(computed)
        }
        symbol = found.symbol if NAME.fullmatch(found.symbol) else name
        return self._write(found, found.name, arguments, computed.value, symbol)

    def _stands(self, name: str, unit: Unit, numbers: list[Number], before: int, default: float | None) -> Stands:
        if not unit.vector:
            return self._term(numbers[0], unit, name, before, default)
        if len(numbers) <= LISTED:
            return tuple(self._term(n, unit, name, before, default) for n in numbers)
        if len(set(numbers)) == 1:
            return self._term(numbers[0], unit, name, before, default)
        items = np.array([n.value for n in numbers])
        if table_of(numbers, self.resolver.trace) is not None:
            return Listed(name, items)
        return Listed(name, items, tuple(dict.fromkeys(self._items(name, unit, numbers, before))))

    def _items(self, name: str, unit: Unit, numbers: list[Number], before: int) -> Iterator[int]:
        """Lines of items of a list: the first and the last of each formula, or of what the plate solved for."""
        found: dict[str, list[Computed | PlateValue]] = {}
        for n in dict.fromkeys(numbers):
            origin = self.resolver.source(n, name, before, self.column, None).origin
            if isinstance(origin, Computed | PlateValue):
                kind = origin.call.formula.name if isinstance(origin, Computed) else origin.symbol
                found.setdefault(kind, []).append(origin)
        for alike in found.values():
            yield from (self._line(origin, name, unit) for origin in (alike[0], alike[-1]))

    def _write(self, found: Formula, name: str, arguments: Mapping[str, Stands], value: float, symbol: str) -> int:
        result = shown(value)
        text = written(found, without_nothing(found, arguments), result, self.cache)
        # The same of the same again, as for each of two like sheets, is one line.
        key = (name, text.expression, text.numbers)
        if key not in self.numbers:
            self.numbers[key] = self._add(
                Line(0, FORMULA, name, symbol, text.expression, text.numbers, result, found.returns.text, value,
                     found.says, found.source, found.evidence, found.known_by, text.tex,
                     tuple(sorted(set(uses(arguments.values())))))
            )  # fmt: skip
        return self.numbers[key]

    def _add(self, line: Line) -> int:
        """Number the line and give it a symbol of its own."""
        n = self.taken[line.symbol] = self.taken.get(line.symbol, 0) + 1
        symbol = line.symbol if n == 1 else f"{line.symbol}[{n}]"
        tex = (latex_name(symbol), *line.tex, latex_result(line.result, line.unit))
        self.lines.append(replace(line, number=len(self.lines) + 1, symbol=symbol, tex=tex))
        return len(self.lines)


def origin_key(origin: Origin) -> object:
    """What tells two numbers that enter apart."""
    return (
        origin.value if isinstance(origin, Constant) else (getattr(origin, "name", None) or getattr(origin, "what", ""))
    )


def uses(arguments: Iterable[Stands]) -> Iterator[int]:
    """The lines that arguments come from."""
    for stands in arguments:
        if isinstance(stands, Listed):
            yield from stands.lines
        else:
            yield from (t.line for t in (stands if isinstance(stands, tuple) else (stands,)) if t.line)


def without_nothing(found: Formula, arguments: Mapping[str, Stands]) -> Mapping[str, Stands]:
    """The arguments with those items of a long sum left out that add nothing to it."""
    listed = {k: v for k, v in arguments.items() if isinstance(v, Listed)}
    if not listed:
        return arguments

    def total(keep: NDArray[np.intp]) -> float:
        values = {k: (v.items[keep] if isinstance(v, Listed) else v.value) for k, v in arguments.items()}  # type: ignore[union-attr]
        return float(np.asarray(found.function(**values)))

    n = len(next(iter(listed.values())).items)
    alone = np.array([total(np.array([i])) for i in range(n)])
    keep = np.flatnonzero(alone)
    if len(keep) in (0, n) or not np.isclose(total(keep), total(np.arange(n)), rtol=1e-12):
        return arguments
    return {k: replace(v, items=v.items[keep]) if isinstance(v, Listed) else v for k, v in arguments.items()}
