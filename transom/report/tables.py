"""The shipped tables on a screen: families, and rows with their columns, sources and evidence."""

from collections.abc import Iterator, Mapping
from typing import Any

from transom.catalogue import families, provisional, rows
from transom.report.text import block, columns, rule
from transom.report.words import EVIDENCE, plural

ABOUT = {
    "panels": "plywood: strength and stiffness of one sheet",
    "sheets": "sheets as sold: what they measure, plies, weight",
    "species": "clear wood behind the panels",
    "d510": "sanded fir plywood, allowable stress, for comparison",
    "adhesives": "glues for the stack",
    "epoxy": "what the epoxy is taken as",
    "threads": "bolt threads",
    "grades": "bolt grades",
    "heads": "bolt heads and thread lengths",
    "nuts": "nuts",
    "washers": "washers",
    "bolt_lengths": "lengths kept at the counter",
    "plates": "plate metals",
    "plate_stock": "plate thicknesses kept in stock",
    "plates_welded": "aluminum beside a weld",
    "rivets": "blind rivets",
    "engine_weights": "engine weights by power",
    "propellers": "usual propellers by power",
    "gravity": "engines' centers of gravity by power",
    "brackets": "usual engine brackets",
    "presets": "the board's place by kind of boat",
    "b_series": "propeller series coefficients",
    "factors": "factors and defaults of the method",
    "galvanic": "potentials of metals in sea water",
    "anodic": "anodic index of metals",
    "frp": "glass laminate",
}
ENDS = ("source", "evidence", "known_by", "note")
SCHEMA = "transom-materials-1"


def chosen(family: str | None, only_provisional: bool) -> dict[str, list[dict[str, Any]]]:
    """Rows by family: of one or of all, all or those known from memory.

    Raises:
        JobError: no such family.
    """
    names = families() if family is None else (family,)
    return {name: (provisional(name) if only_provisional else rows(name)) for name in names}


def as_object(found: Mapping[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """The rows as plain values, for JSON."""
    return {"schema": SCHEMA, "families": dict(found)}


def index(found: Mapping[str, list[dict[str, Any]]]) -> Iterator[str]:
    """The families, how many rows each has, and how many of those rest on memory."""
    yield " TABLES   transom materials FAMILY prints the rows of one"
    listed = [("family", "rows", "by memory", "what")]
    for name, of in found.items():
        memory = sum(row["known_by"] == "memory" for row in of)
        listed.append((name, str(len(of)), str(memory or ""), ABOUT.get(name, "")))
    yield from columns(listed, (16, 6, 11, 45))


def table(name: str, found: list[dict[str, Any]]) -> Iterator[str]:
    """The rows of one family, a block each."""
    yield f" {name.upper()}   {ABOUT.get(name, '')}   {plural(len(found), 'row')}"
    yield rule()
    for row in found:
        yield from _row(row)


def _row(row: Mapping[str, Any]) -> Iterator[str]:
    values = {k: v for k, v in row.items() if k not in ENDS and v not in (None, "")}
    first, *rest = values.items()
    yield from block(str(first[1]), "", at=0) if first[0] in ("name", "title", "thread", "boat", "alloy") else block(
        f"{first[0]} {first[1]}", "", at=0)  # fmt: skip
    yield from block("", "; ".join(f"{k} {_value(v)}" for k, v in rest), at=3)
    memory = "; known from memory: provisional" if row["known_by"] == "memory" else f"; {row['known_by']}"
    yield from block("", f"{EVIDENCE[row['evidence']]}{memory}; {row['source']}" + (f"; {row['note']}" if row["note"] else ""),
                     at=3)  # fmt: skip


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)
