"""What a column of a table may hold, said in the annotation of the record, and the check of one row."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import MISSING, Field, fields
from typing import Annotated, Any, ClassVar, NamedTuple, TypeVar

from transom.frozen import dataclass

EVIDENCE = ("published", "stated", "common practice", "convention", "estimate")
KNOWN_BY = ("read", "transcribed", "memory", "derived", "computed")


def shown(value: Any) -> str:
    """A value in a message: as Python has it, short, and never an error: a whole number may have too many figures."""
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) >= 10**30:
        return "a number of more than 30 figures"
    try:
        text = repr(value)
    except (ValueError, RecursionError):
        return f"a {type(value).__name__} too large to show"
    return text if len(text) <= 80 else f"{text[:76]}...{text[-1]}"


@dataclass(frozen=True)
class Between:
    """A finite number in the closed range low to high."""

    low: float
    high: float
    whole: bool = False

    def fault(self, value: Any) -> str:
        """What is wrong with `value`, or nothing."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            return f"{shown(value)} is not a number"
        if isinstance(value, float) and not math.isfinite(value):
            return f"{shown(value)} is not finite"
        if self.whole and not isinstance(value, int):
            return f"{shown(value)} is not a whole number"
        return "" if self.low <= value <= self.high else f"{shown(value)} is outside {self.low:g} to {self.high:g}"


@dataclass(frozen=True)
class OneOf:
    """One of a few words."""

    words: tuple[str, ...]

    def fault(self, value: Any) -> str:
        """What is wrong with `value`, or nothing."""
        return "" if value in self.words else f"{shown(value)} is none of {', '.join(map(repr, self.words))}"


@dataclass(frozen=True)
class Words:
    """Text that says something."""

    def fault(self, value: Any) -> str:
        """What is wrong with `value`, or nothing."""
        return "" if isinstance(value, str) and value.strip() else f"{shown(value)} is not text, or empty"


@dataclass(frozen=True)
class YesNo:
    """true or false."""

    def fault(self, value: Any) -> str:
        """What is wrong with `value`, or nothing."""
        return "" if isinstance(value, bool) else f"{shown(value)} is neither true nor false"


_PLAIN: Mapping[Any, Any] = {str: Words(), str | None: Words(), bool: YesNo()}


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row of a table: what it says, where that comes from, how good it is and how it is known."""

    source: str
    evidence: Annotated[str, OneOf(EVIDENCE)]
    known_by: Annotated[str, OneOf(KNOWN_BY)]
    note: str = ""

    key: ClassVar[tuple[str, ...]] = ("name",)  # the columns that tell one row from another
    rising: ClassVar[tuple[str, ...]] = ()  # the columns by which the table is sorted, strictly

    @property
    def id(self) -> str:
        """The row's name in messages."""
        return " ".join(str(getattr(self, k)) for k in self.key)

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Columns, and why, that contradict each other within the row."""
        yield from ()


R = TypeVar("R", bound=Row)


def columns(record: type[Row]) -> tuple[str, ...]:
    """The columns of a table in printing order: its own, then source, evidence, known_by, note."""
    names = [f.name for f in fields(record)]
    base = [f.name for f in fields(Row)]
    return tuple([n for n in names if n not in base] + base)


class Plan(NamedTuple):
    """What a record asks of its columns, worked out once a table."""

    key: tuple[str, ...]
    rules: Mapping[str, Any]
    required: tuple[str, ...]
    reals: frozenset[str]


def plan(record: type[Row]) -> Plan:
    """The plan of a record: a rule for each column, those that must be there, those of real numbers."""
    rules = {f.name: _rule(f) for f in fields(record)}
    required = tuple(f.name for f in fields(record) if f.default is MISSING)
    reals = frozenset(k for k, rule in rules.items() if isinstance(rule, Between) and not rule.whole)
    return Plan(record.key, rules, required, reals)


def _rule(column: Field[Any]) -> Any:
    extra = getattr(column.type, "__metadata__", None)
    return extra[0] if extra else _PLAIN[column.type]


def row_faults(asked: Plan, values: Mapping[str, Any]) -> Iterator[str]:
    """One line, naming row and key, for each unknown, missing or unfit value of a row."""
    where = "row " + shown(" ".join(v if isinstance(v := values.get(k, "?"), str) else shown(v) for k in asked.key))
    for k, value in values.items():
        if k not in asked.rules:
            yield f"{where}, {shown(k)[1:-1]}: unknown column"
        elif why := asked.rules[k].fault(value):
            yield f"{where}, {k}: {why}"
    yield from (f"{where}, {k}: missing" for k in asked.required if k not in values)


def table_faults(rows: tuple[Row, ...]) -> Iterator[str]:
    """One line for each name given twice and each row out of order."""
    seen: set[str] = set()
    last: tuple[Any, ...] | None = None
    for row in rows:
        if row.id in seen:
            yield f"row {shown(row.id)}, {row.key[0]}: given twice"
        seen.add(row.id)
        place = tuple(getattr(row, k) for k in row.rising)
        if row.rising and last is not None and place <= last:
            yield f"row {shown(row.id)}, {row.rising[-1]}: {place[-1]!r} does not follow {last[-1]!r}"
        last = place


def read_rows(record: type[R], values: Sequence[Mapping[str, Any]]) -> tuple[tuple[R, ...], tuple[str, ...]]:
    """The rows that are sound, and one line for each fault of the others and between rows."""
    faults: list[str] = []
    rows: list[R] = []
    asked = plan(record)
    for each in values:
        if not isinstance(each, Mapping):
            faults.append(f"row {shown(each)}: not a table of columns")
            continue
        if bad := list(row_faults(asked, each)):
            faults += bad
            continue
        sound: dict[str, Any] = {k: float(v) if k in asked.reals else v for k, v in each.items()}
        row = record(**sound)
        faults += [f"row {shown(row.id)}, {k}: {why}" for k, why in row.disorder()]
        rows.append(row)
    return tuple(rows), (*faults, *table_faults(tuple(rows)))
