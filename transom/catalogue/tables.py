"""The shipped tables: where they lie, and how a file becomes a tuple of checked records."""

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from transom.catalogue import engine, metal, shopwork, wood
from transom.catalogue.schema import Row, columns, read_rows
from transom.errors import JobError, TableError

FAMILIES: Mapping[str, type[Row]] = {
    "panels": wood.Panel,
    "sheets": wood.Sheet,
    "species": wood.Species,
    "d510": wood.Sanded,
    "adhesives": wood.Adhesive,
    "epoxy": engine.Quantity,
    "threads": metal.Thread,
    "grades": metal.Grade,
    "heads": metal.Head,
    "nuts": metal.Nut,
    "washers": metal.Washer,
    "bolt_lengths": metal.BoltLength,
    "plates": metal.Plate,
    "plate_stock": metal.PlateStock,
    "plates_welded": metal.Welded,
    "rivets": metal.Rivet,
    "engine_weights": engine.EngineWeight,
    "propellers": engine.Propeller,
    "gravity": engine.Gravity,
    "brackets": engine.Bracket,
    "presets": engine.Preset,
    "b_series": engine.Term,
    "factors": engine.Factor,
    "spreads": engine.Spread,
    "galvanic": metal.Galvanic,
    "anodic": metal.Anodic,
    "frp": wood.Laminate,
    "labour": shopwork.Operation,
    "cures": shopwork.Cure,
    "supplies": shopwork.Supply,
    "buying": shopwork.Buying,
    "opening": shopwork.Opening,
}

R = TypeVar("R", bound=Row)


def folder() -> Path:
    """The shipped tables: inside the installed package, else beside it in a checkout.

    Raises:
        TableError: neither is there.
    """
    package = Path(__file__).resolve().parents[1]
    beside = package.parent / "materials"
    for place in (package / "materials", beside):
        if place.is_dir():
            return place
    raise TableError(f"the material tables are missing: no folder {beside}. Install transom again.")


def nearest(name: str, names: tuple[str, ...]) -> str:
    """A hint that names what is closest to `name`, or all of a few, or nothing."""
    import difflib

    close = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    if close:
        return f"; nearest is {close[0]!r}"
    return f"; there is {', '.join(map(repr, names))}" if 0 < len(names) <= 6 else ""


def families() -> tuple[str, ...]:
    """The names of all tables, in the order they are listed."""
    return tuple(FAMILIES)


def record(family: str) -> type[Row]:
    """The record class of a family.

    Raises:
        JobError: no such family.
    """
    if family not in FAMILIES:
        raise JobError(f"no table {family!r}{nearest(family, families())}; `transom materials` lists them")
    return FAMILIES[family]


def parse(family: str, text: str, file: str) -> tuple[Row, ...]:
    """The checked rows of a table's text; `file` is what messages call it.

    Raises:
        TableError: one line for each fault, naming file, row and key.
    """
    try:
        data = tomllib.loads(text)
    except ValueError as error:  # TOML syntax; a whole number too long for Python is one too
        raise TableError(f"{file}: {error}") from error
    values = data.pop("row", None)
    if data or not isinstance(values, list) or not values:
        raise TableError(f"{file}: holds rows, [[row]], and nothing else; found {', '.join(data) or 'none'}")
    return checked(family, values, file)


def checked(family: str, values: Sequence[Mapping[str, Any]], file: str) -> tuple[Row, ...]:
    """Rows as records.

    Raises:
        TableError: one line for each fault, naming file, row and key.
    """
    rows, faults = read_rows(record(family), values)
    if faults:
        raise TableError("\n".join(f"{file}, {fault}" for fault in faults))
    return rows


@cache
def load(family: str) -> tuple[Any, ...]:
    """The rows of a shipped table, as records of its family.

    Raises:
        JobError: no such family.
        TableError: a missing file, or one line for each fault, naming file, row and key.
    """
    record(family)
    file = folder() / f"{family}.toml"
    if not file.is_file():
        raise TableError(f"{family}.toml is missing from the material tables. Install transom again.")
    try:
        text = file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise TableError(f"{file.name} cannot be read: {error}") from error
    return parse(family, text, file.name)


def as_dict(row: Row) -> dict[str, Any]:
    """A row's columns in printing order, those it leaves out too (None or empty)."""
    return {name: getattr(row, name) for name in columns(type(row))}


def rows(family: str) -> list[dict[str, Any]]:
    """A shipped table for printing, columns in order.

    Raises:
        JobError, TableError: as `load`.
    """
    return [as_dict(row) for row in load(family)]


def provisional(family: str) -> list[dict[str, Any]]:
    """The rows of a shipped table that rest on memory.

    Raises:
        JobError, TableError: as `load`.
    """
    return [as_dict(row) for row in load(family) if row.known_by == "memory"]
