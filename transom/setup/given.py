"""A number the job states, or the table's in its place: how a fact is made."""

from dataclasses import replace
from typing import Any

from transom.catalogue import Catalogue
from transom.setup.records import Fact

STATED = "the job"
Facts = dict[str, Fact]


def stated(value: float, unit: str, says: str, measure: str = "") -> Fact:
    """A fact the user gave."""
    return Fact(value, unit, "stated", "read", STATED, says, measure)


def given_or(value: float | None, unit: str, says: str, measure: str, default: Fact) -> Fact:
    """What the job states, else the default in its place."""
    if value is None:
        return replace(default, unit=unit, says=says, measure=measure)
    return stated(value, unit, says, measure)


def of_row(row: Any, value: float, unit: str = "") -> Fact:
    """A default out of a table's row."""
    return Fact(value, unit, row.evidence, row.known_by, row.source, "")


def of_factor(tables: Catalogue, name: str) -> Fact:
    """A default out of the table of factors."""
    row = tables.factor(name)
    return Fact(row.value, row.unit, row.evidence, row.known_by, row.source, row.says, low=row.low, high=row.high)
