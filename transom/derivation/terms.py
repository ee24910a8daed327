"""What stands for the arguments of a formula on its line: symbols, numbers, lists."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, replace

import numpy as np

from transom.derivation.digits import enough, shown
from transom.derivation.symbolic import (
    constant_latex,
    constant_text,
    double_brackets_off,
    latex_name,
    latex_number,
    latex_text,
    meant,
    plain_text,
    traced,
)
from transom.formula import Formula
from transom.frozen import dataclass
from transom.units import Array


@dataclass(frozen=True)
class Term:
    """What stands for one argument: its symbol, its value with its sign, the line it comes from.

    `symbol` is empty and `line` zero for a plain number, which has no line. `turned` where minus the line's
    result is meant.
    """

    symbol: str
    value: float
    line: int = 0
    turned: bool = False

    def name(self, digits: int) -> str:
        """In names."""
        return (f"(-{self.symbol})" if self.turned else self.symbol) if self.symbol else self.number(digits)

    def number(self, digits: int) -> str:
        """As a number, in brackets where it is below zero; a constant that is pi/180 or 1/9 as such."""
        if not self.line and meant(self.value)[1]:
            return f"({constant_text(self.value)})"
        text = shown(self.value, digits)
        return f"({text})" if text.startswith("-") else text

    def latex(self, digits: int) -> str:
        """In names, in LaTeX."""
        name = latex_name(self.symbol) if self.symbol else self.latex_number(digits)
        return f"(-{name})" if self.turned else name

    def latex_number(self, digits: int) -> str:
        """As a number, in LaTeX."""
        if not self.line and meant(self.value)[1]:
            return constant_latex(self.value)
        return latex_number(self.number(digits))


@dataclass(frozen=True)
class Listed:
    """The items of a long sum: one symbol for all of them, and the lines some of them come from."""

    symbol: str
    items: Array
    lines: tuple[int, ...] = ()

    def latex_number(self, digits: int) -> str:
        """The items in square brackets, in LaTeX."""
        return latex_number(self.number(digits))

    def number(self, digits: int) -> str:
        """The items in square brackets."""
        return f"[{', '.join(shown(float(x), digits) for x in self.items)}]"


Stands = Term | tuple[Term, ...] | Listed


@dataclass(frozen=True)
class Pattern:
    """A formula printed once, in ASCII and in LaTeX, with a place for each of its symbols."""

    plain: str
    latex: str

    def filled(self, names: Mapping[str, str]) -> str:
        """In ASCII, with these in their places."""
        return double_brackets_off(PLACE.sub(lambda m: names[m[1]], self.plain))

    def filled_latex(self, names: Mapping[str, str]) -> str:
        """In LaTeX, with these in their places."""
        return PLACE.sub(lambda m: names[m[1]], self.latex)


PLACE = re.compile("\N{LEFT CEILING}([^\N{RIGHT CEILING}]*)\N{RIGHT CEILING}")


def _place(name: str) -> str:
    return f"\N{LEFT CEILING}{name}\N{RIGHT CEILING}"


def pattern(formula: Formula, items: Mapping[str, int]) -> Pattern:
    """The formula with so many items to each list; zero: one symbol for all."""
    expression = traced(formula, items)
    places = {s.name: _place(s.name) for s in expression.free_symbols}
    return Pattern(plain_text(expression, places), latex_text(expression, places))


@dataclass(frozen=True)
class Written:
    """A formula written out."""

    expression: str
    numbers: str
    tex: tuple[str, ...]


@dataclass(frozen=True)
class Patterns:
    """Formulas traced and printed, each once; and what was written with them, since checks share most of their lines."""

    known: dict[tuple[str, tuple[tuple[str, int], ...]], Pattern] = field(default_factory=dict)
    texts: dict[tuple[object, ...], Written] = field(default_factory=dict)

    def of(self, formula: Formula, items: Mapping[str, int]) -> Pattern:
        """The pattern of a formula with so many items to each list."""
        key = (formula.name, tuple(sorted(items.items())))
        if key not in self.known:
            self.known[key] = pattern(formula, items)
        return self.known[key]


def written(formula: Formula, arguments: Mapping[str, Stands], result: str, cache: Patterns) -> Written:
    """A formula with what stands for its arguments, with as many digits as its printed result needs."""
    if any(isinstance(stands, Listed) for stands in arguments.values()):
        return _written(formula, arguments, result, cache)
    # Of a term's line only whether there is one tells.
    told = ((name, replace(t, line=min(t.line, 1))) for name, t in _each(arguments) if isinstance(t, Term))
    key = (formula.name, result, *told)
    if key not in cache.texts:
        cache.texts[key] = _written(formula, arguments, result, cache)
    return cache.texts[key]


def _written(formula: Formula, arguments: Mapping[str, Stands], result: str, cache: Patterns) -> Written:
    size = max((float(np.max(np.abs(_values(t)), initial=0.0)) for _, t in _each(arguments)), default=0.0)
    digits = enough(lambda r: _again(formula, arguments, r), result, size)
    found = cache.of(formula, {k: len(v) if isinstance(v, tuple) else 0 for k, v in arguments.items()})
    names = {k: t.symbol if isinstance(t, Listed) else t.name(digits) for k, t in _each(arguments)}
    numbers = {k: t.number(digits) for k, t in _each(arguments)}
    tex = {k: latex_name(t.symbol) if isinstance(t, Listed) else t.latex(digits) for k, t in _each(arguments)}
    parts = [found.filled_latex(tex)]
    # Lists are too long for a line of math; the ASCII has them.
    if not any(isinstance(t, Listed) for t in arguments.values()):
        parts.append(found.filled_latex({k: t.latex_number(digits) for k, t in _each(arguments)}))
    return Written(found.filled(names), found.filled(numbers), tuple(parts))


def _each(arguments: Mapping[str, Stands]) -> Iterator[tuple[str, Term | Listed]]:
    """Every symbol of the traced formula with what stands for it."""
    for name, stands in arguments.items():
        if isinstance(stands, tuple):
            yield from ((f"{name}_{i + 1}", term) for i, term in enumerate(stands))
        else:
            yield name, stands


def _values(stands: Term | Listed) -> Array:
    return np.asarray(stands.value) if isinstance(stands, Term) else stands.items


def _again(formula: Formula, arguments: Mapping[str, Stands], r: Callable[[float], float]) -> float:
    """The result from arguments that have each been put through r."""

    def value(stands: Stands) -> float | Array:
        if isinstance(stands, Term):
            return r(stands.value) if stands.line else stands.value
        items = stands.items if isinstance(stands, Listed) else [t.value for t in stands]
        return np.array([r(float(x)) for x in items])

    return float(np.asarray(formula.function(**{k: value(s) for k, s in arguments.items()})))
