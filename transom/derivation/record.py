"""Which formulas ran, on what and with what result, and which rows of the tables were looked up.

While somebody records, a recording function stands in each module's place of each formula; afterwards the
formulas stand there again. So a formula stays the plain function it is, and a search pays nothing for what
it does not use: a decorator that could record would be paid for on each of its calls. The price is that
nothing else may compute in this process meanwhile.

A recording can mark results: each number of each result gets its own small share on top, so that no two
have the same bits, and an argument tells which result it is, whatever arrays, choices and turns of sign lie
between. What is printed comes from a recording without marks.
"""

import functools
import inspect
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import field, fields, is_dataclass, replace
from typing import Any

import numpy as np

from transom.formula import Formula, formulas
from transom.frozen import dataclass
from transom.units import Array

MARK = 2e-10  # relative; far above rounding, far below what tells two lines of a grid, a whole number of steps, a band


@dataclass(frozen=True)
class Call:
    """One call of a formula: arguments and result as they were, scalars or arrays."""

    formula: Formula
    arguments: Mapping[str, Array]
    result: Array


@dataclass(frozen=True)
class Lookup:
    """What a watched function gave: a row of the tables, mostly. `place`: how many calls came before."""

    table: str
    row: Any
    place: int


@dataclass
class Recording:
    """What ran, in order. `inside` has the formulas that ran within others and within the closed functions."""

    marks: np.random.Generator | None = None
    calls: list[Call] = field(default_factory=list)
    lookups: list[Lookup] = field(default_factory=list)
    inside: dict[str, Formula] = field(default_factory=dict)
    rows: dict[str, Any] = field(default_factory=dict)  # as marked, by what they were
    depth: int = 0

    @contextmanager
    def closed(self) -> Iterator[None]:
        """What is called within is somebody else's business."""
        self.depth += 1
        try:
            yield
        finally:
            self.depth -= 1

    def marked(self, value: Any) -> Any:
        """The value with its own small share on top, where results are marked; shape and kind as they were."""
        if self.marks is None:
            return value
        share = self.marks.uniform(0.5 * MARK, MARK, np.shape(value))
        return (np.asarray(value, dtype=float) * (1.0 + share))[()]


def formula_in(recording: Recording, found: Formula) -> Callable[..., Any]:
    """The formula, recorded."""
    signature = inspect.signature(found.function)

    @functools.wraps(found.function)
    def recorded(*args: Any, **kwargs: Any) -> Any:
        if recording.depth:
            recording.inside[found.name] = found
            return found.function(*args, **kwargs)
        bound = signature.bind(*args, **kwargs)
        bound.apply_defaults()
        # Copies: some arrays are written to later.
        arguments = {k: np.array(v, dtype=float) for k, v in bound.arguments.items()}
        with recording.closed():
            result = recording.marked(found.function(*args, **kwargs))
        recording.calls.append(Call(found, arguments, np.array(result, dtype=float)))
        return result

    return recorded


def lookup_in(recording: Recording, table: str, function: Callable[..., Any]) -> Callable[..., Any]:
    """A function that looks a row up, recorded; what it calls is not."""

    @functools.wraps(function)
    def recorded(*args: Any, **kwargs: Any) -> Any:
        if recording.depth:
            return function(*args, **kwargs)
        # A row is looked up by what was asked for, not by its mark.
        asked = [float(f"{a:.9g}") if isinstance(a, float) and recording.marks is not None else a for a in args]
        with recording.closed():
            row = function(*asked, **kwargs)
        row = _marked_row(recording, row)
        recording.lookups.append(Lookup(table, row, len(recording.calls)))
        return row

    return recorded


def _marked_row(recording: Recording, row: Any) -> Any:
    """A row, or rows, with their fractions marked, the same row always alike; whole numbers count things."""
    if recording.marks is None:
        return row
    if isinstance(row, tuple):
        return tuple(_marked_row(recording, r) for r in row)
    if not is_dataclass(row) or isinstance(row, type):
        return row
    key = repr(row)
    if key not in recording.rows:
        reals = {f.name: getattr(row, f.name) for f in fields(row)}
        marked = {k: float(recording.marked(v)) for k, v in reals.items() if isinstance(v, float)}
        recording.rows[key] = replace(row, **marked)
    return recording.rows[key]


def closed_in(recording: Recording, function: Callable[..., Any]) -> Callable[..., Any]:
    """A function whose inside is not recorded."""

    @functools.wraps(function)
    def recorded(*args: Any, **kwargs: Any) -> Any:
        with recording.closed():
            return function(*args, **kwargs)

    return recorded


@contextmanager
def standing_in(owner: Any, others: Mapping[str, Any]) -> Iterator[None]:
    """Others in the place of what a module or a class holds by these names."""
    before = {name: vars(owner)[name] for name in others}
    for name, other in others.items():
        setattr(owner, name, other)
    try:
        yield
    finally:
        for name, own in before.items():
            setattr(owner, name, own)


@dataclass(frozen=True)
class Watched:
    """What else is watched: methods, by class, whose results are looked up; methods and functions that are closed."""

    rows: Mapping[type, tuple[str, ...]]
    closed: tuple[Callable[..., Any], ...]
    closed_methods: Mapping[type, tuple[str, ...]]


@contextmanager
def watching(what: Watched, marks: np.random.Generator | None = None) -> Iterator[Recording]:
    """Record every formula called within; with `marks` to draw from, mark what it gives."""
    recording = Recording(marks)
    stand_ins: dict[int, Any] = {id(f.function): formula_in(recording, f) for f in formulas().values()}
    stand_ins |= {id(f): closed_in(recording, f) for f in what.closed}
    with ExitStack() as stack:
        for module in [m for name, m in sys.modules.items() if name.startswith("transom.")]:
            ours = {k: stand_ins[id(v)] for k, v in vars(module).items() if id(v) in stand_ins}
            stack.enter_context(standing_in(module, ours))
        for owner, names in what.rows.items():
            watched = {name: lookup_in(recording, name, getattr(owner, name)) for name in names}
            stack.enter_context(standing_in(owner, watched))
        for owner, names in what.closed_methods.items():
            closed = {name: closed_in(recording, getattr(owner, name)) for name in names}
            stack.enter_context(standing_in(owner, closed))
        yield recording
