"""Where a number came from: the result, fact, row or constant that it is, to the last bit.

Between two formulas the checks only pick, join and turn round numbers; what was computed passes from one to
the next unchanged, all fifty-three bits of it. With marks no two results have the same bits. So an argument
is the result that has its bits in the marked run, if it has its value in the plain one too (of two bolts
that pull alike to the twelfth digit either may be the harder). A number that bears
no mark is the plate's, or stands in the program or in the job. One that bears a mark of nobody's was computed between two
formulas: it is said to be untraced.
"""

import difflib
import inspect
import re
from collections.abc import Iterator, Mapping
from functools import cached_property
from math import isclose, isfinite

import numpy as np
from numpy.typing import NDArray

from transom.checks.moments import Moments
from transom.derivation.plate import PlateValue, PlateValues, plate_values
from transom.derivation.record import Call
from transom.derivation.trace import Given, Number, Trace
from transom.formula import Formula
from transom.frozen import dataclass
from transom.units import Array, Unit

Indices = NDArray[np.intp]
SAME = 1e-9
LAST = 10**9  # later than any call
LIKE = 0.6
LISTED = 6  # items from which a sum is printed as one over a list


@dataclass(frozen=True)
class Constant:
    """A number that stands in the program; `traced` False where it was computed, and nobody knows how."""

    value: float
    traced: bool = True


@dataclass(frozen=True)
class Computed:
    """One number of one call: which call, and which element of its result."""

    call: Call
    marked: Call
    index: int
    place: int

    @property
    def value(self) -> float:
        """The number."""
        return float(np.ravel(self.call.result)[self.place])

    def arguments(self, units: Mapping[str, Unit]) -> Iterator[tuple[str, Unit, list[Number]]]:
        """Each argument of this one element: its name and unit, and its number, or the items of a sum."""
        shape = self.call.result.shape
        if len(np.broadcast_shapes(*(a.shape for a in self.call.arguments.values()))) == len(shape):
            # Lists that are gone through item by item: of one item the arguments are single numbers.
            units = {k: Unit(u.text) for k, u in units.items()}
        at = np.unravel_index(self.place, shape) if shape else ()
        n = max((self.call.arguments[k].shape[-1] for k, u in units.items() if u.vector and self.call.arguments[k].ndim),
                default=1)  # fmt: skip
        for name, unit in units.items():
            whole = (*shape, n) if unit.vector else shape
            both = (c.arguments[name] for c in (self.call, self.marked))
            pair = ((a if a.shape == whole else np.broadcast_to(a, whole))[at].reshape(-1) for a in both)
            yield name, unit, [Number(a, b) for a, b in zip(*(x.tolist() for x in pair), strict=True)]


Origin = Computed | Given | PlateValue | Constant


@dataclass(frozen=True)
class Source:
    """Where a number came from, and whether it was turned round on the way."""

    origin: Origin
    turned: bool = False


def alike(symbol: str, name: str) -> float:
    """How much a symbol looks like an argument's name, 0 to 1."""
    a, b = (re.sub(r"[^a-z0-9]", "", s.lower()) for s in (symbol, name))
    return difflib.SequenceMatcher(None, a, b).ratio() if a and b else 0.0


@dataclass(frozen=True)
class Resolver:
    """Looks numbers up in a trace."""

    trace: Trace

    @cached_property
    def _known(self) -> dict[str, tuple[dict[str, Unit], dict[str, float]]]:
        """Units and defaults of the formulas asked for so far."""
        return {}

    def _of(self, formula: Formula) -> tuple[dict[str, Unit], dict[str, float]]:
        if formula.name not in self._known:
            self._known[formula.name] = (formula.parameters, defaults(formula))
        return self._known[formula.name]

    def arguments(self, computed: Computed) -> Iterator[tuple[str, Unit, list[Number]]]:
        """Name, unit and number, or items, of each argument of a computed number."""
        return computed.arguments(self._of(computed.call.formula)[0])

    def defaults(self, formula: Formula) -> dict[str, float]:
        """What a formula says of itself where nobody says otherwise."""
        return self._of(formula)[1]

    @cached_property
    def _likeness(self) -> dict[tuple[str, str], float]:
        """How alike the names compared so far are: few names, asked of again and again."""
        return {}

    def _alike(self, given: Given, name: str) -> float:
        """How much what entered is called like an argument."""
        pair = (_last(given.name), name)
        if pair not in self._likeness:
            self._likeness[pair] = alike(*pair)
        return self._likeness[pair]

    @cached_property
    def _entered(self) -> dict[float, list[Given]]:
        """Numbers that enter, by their marked value."""
        out: dict[float, list[Given]] = {}
        for g, marked in self.trace.given:
            out.setdefault(marked, []).append(g)
        return out

    @cached_property
    def plate(self) -> PlateValues | None:
        """Every number the careful method handed on."""
        run = self.trace.run
        means = [
            (x.table, x.row) for x in run.recording.lookups if isinstance(x.row, Moments) and x.place >= run.solved
        ]
        return None if run.plate is None else plate_values(run.plate, run.trial, means)

    @cached_property
    def _index(self) -> tuple[Array, Indices, Indices]:
        """Every marked result: its bits in rising order, its call, its element."""
        calls = [marked for _, marked in self.trace.calls]
        bits = np.concatenate([np.ravel(c.result) for c in calls])
        call = np.repeat(np.arange(len(calls)), [c.result.size for c in calls])
        element = np.concatenate([np.arange(c.result.size) for c in calls])
        order = np.argsort(bits)  # of alike ones in any order: which is meant is told by call and element
        return bits[order], call[order], element[order]

    @cached_property
    def _plain(self) -> tuple[Call, ...]:
        """The calls of the plain run."""
        return tuple(plain for plain, _ in self.trace.calls)

    def source(self, number: Number, name: str, before: int, column: int, default: float | None) -> Source:
        """Where a number came from.

        Args:
            number: the number.
            name: the argument that takes it.
            before: the index of the call that takes it; only earlier results count.
            column: the case, as the checks' columns have it.
            default: what the formula itself says where nobody says otherwise.
        """
        if not isfinite(number.value):
            return Source(self._endless(number.value, before, column))
        if number.value == number.marked:
            return self._unmarked(number.value, name, before, column, default)
        for turned in (False, True):
            meant = -number if turned else number
            origin = self._computed(meant, before, column) or self._given(meant, before, column)
            if origin is not None:
                return Source(origin, turned)
        return Source(Constant(number.value, traced=False))

    def _computed(self, number: Number, before: int, column: int) -> Computed | None:
        """The latest earlier result with the marked bits, and the plain value."""
        bits, call, element = self._index
        low, high = (int(bits.searchsorted(number.marked, side)) for side in ("left", "right"))
        some: zip[tuple[int, int]] = zip(call[low:high].tolist(), element[low:high].tolist(), strict=True)
        found = [(c, e) for c, e in some if c < before]
        plain = self._plain
        same = [(c, e) for c, e in found if isclose(np.ravel(plain[c].result)[e], number.value, rel_tol=SAME)]
        if not same:
            return None
        c, e = max(same, key=lambda ce: (ce[0], self._mine(plain[ce[0]], ce[1], column), -ce[1]))
        return Computed(*self.trace.calls[c], c, e)

    def _endless(self, value: float, before: int, column: int) -> Computed | Constant:
        """What came out without end bears no mark: the formula it is of, if in this case it is the only one."""
        calls = self.trace.calls
        found = [
            (i, int(e)) for i, (c, _) in enumerate(calls[:before])
            for e in np.flatnonzero(~np.isfinite(c.result)) if self._mine(c, int(e), column)
        ]  # fmt: skip
        if len({i for i, _ in found}) != 1:
            return Constant(value)
        (i, e), *_ = found
        return Computed(*calls[i], i, e)

    def _mine(self, call: Call, element: int, column: int) -> bool:
        last = call.result.shape[-1] if call.result.ndim else 1
        return element % last in self.trace.columns[column]

    def _given(self, number: Number, before: int, column: int) -> Given | PlateValue | None:
        """What entered with these bits, or what the plate handed on."""
        for g in self._entered.get(number.marked, []):
            if float(g.value) == number.value:
                return g
        return self._solved(number.value, before, column)

    def _solved(self, value: float, before: int, column: int) -> PlateValue | None:
        """What the plate came to, for those that come after it."""
        if self.plate is None or before <= self.trace.run.solved:
            return None
        return self.plate.find(value, column)

    def _unmarked(self, value: float, name: str, before: int, column: int, default: float | None) -> Source:
        """A number of the plate; of the job that no fact took up, told by its name; else one of the program."""
        if not simple(value):
            for turned in (False, True):
                solved = self._solved(-value if turned else value, before, column)
                if solved is not None:
                    return Source(solved, turned)
        same = [g for g in self._entered.get(value, []) if float(g.value) == value]
        best = max(same, key=lambda g: self._alike(g, name), default=None)
        # Of several with this value only one that is called the same is meant; else it stands as a number.
        sure = best is not None and (self._alike(best, name) >= LIKE or (len(same) == 1 and not simple(value)))
        if best is None or not sure or value in (0.0, default):
            return Source(Constant(value))
        return Source(best)


def simple(value: float) -> bool:
    """True for numbers that recur by chance: none, small whole ones and their quarters."""
    return abs(value) <= 100 and float(4 * value).is_integer()


def _last(name: str) -> str:
    return re.split(r"[. ]", name)[-1]


def defaults(formula: Formula) -> dict[str, float]:
    """What a formula says of itself where nobody says otherwise."""
    found = inspect.signature(formula.function).parameters.items()
    return {k: float(p.default) for k, p in found if p.default is not inspect.Parameter.empty}


def table_of(items: list[Number], trace: Trace) -> Given | None:
    """The table whose column these items are."""
    values = np.array([n.value for n in items])
    return next((g for g in trace.columns_given if np.array_equal(g.value, values)), None)
