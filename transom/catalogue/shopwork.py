# ruff: noqa: N815 - a column ends in its unit, as the unit is written
"""Records of shop work: hours by operation, what is used up, how things are bought, what opening-up finds."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Annotated

from transom.catalogue.schema import Between, OneOf, Row
from transom.frozen import dataclass

CASES = ("dry", "wet", "frame")
CLASSES = ("wood", "epoxy", "metal", "fasteners", "supplies", "labour")
BASES = ("job", "glued area", "coated area", "epoxy", "engine bolts", "frame bolts", "edge")
_HOURS = Between(0, 40)
_SHARE = Between(0, 1)


@dataclass(frozen=True)
class Operation(Row):
    """An operation of the work: its hours, what they grow with, and the visit to the boat that it falls in.

    `case` is the least that opening-up must find for it; `frame` is what the board is held by, or any.
    `low` and `high` are shares of the likely hours. `visit` 6 comes weeks after the others. `cure` is the
    stage of the glue (`Cure`) that is waited for before the next visit; load is counted from the engine's hanging on.
    """

    name: str
    title: str
    group: Annotated[str, OneOf(("board", "engine off and on", "opening-up"))]
    case: Annotated[str, OneOf(CASES)]
    frame: Annotated[str, OneOf(("any", "pod", "uprights", "cap rail"))]
    visit: Annotated[int, Between(1, 6, whole=True)]
    base_h: Annotated[float, _HOURS]
    per_area_h_m2: Annotated[float, _HOURS]
    per_layer_h: Annotated[float, _HOURS]
    per_hole_h: Annotated[float, _HOURS]
    per_bolt_h: Annotated[float, _HOURS]
    per_plate_h: Annotated[float, _HOURS]
    per_power_h_kW: Annotated[float, Between(0, 1)]
    aluminium: Annotated[float, Between(0.5, 3)]
    glass: Annotated[float, Between(0.5, 3)]
    low: Annotated[float, Between(0.3, 1)]
    high: Annotated[float, Between(1, 3)]
    cure: Annotated[str, OneOf(("none", "work", "hang", "load"))]

    def disorder(self) -> Iterator[tuple[str, str]]:
        """An operation takes time."""
        if not self.base_h > 0:
            yield "base_h", "is not above zero: every operation has a start and an end"


@dataclass(frozen=True)
class Supply(Row):
    """What is used up: `amount` of its `unit` for one of `per`, with `waste` on top."""

    name: str
    title: str
    unit: str
    supplier: str
    case: Annotated[str, OneOf(CASES)]
    per: Annotated[str, OneOf(BASES)]
    amount: Annotated[float, Between(0, 10)]
    waste: Annotated[float, _SHARE]


@dataclass(frozen=True)
class Buying(Row):
    """How a class of things is bought: waste and spares on top of the need, how far prices spread, and where."""

    name: Annotated[str, OneOf(CLASSES)]
    title: str
    supplier: str
    waste: Annotated[float, _SHARE]
    spares: Annotated[float, _SHARE]
    spread: Annotated[float, _SHARE]


@dataclass(frozen=True)
class Opening(Row):
    """What opening the place up may find, in words for a customer."""

    name: Annotated[str, OneOf(CASES)]
    title: str
    says: str
    see: str
    decides: str
    work: str


@dataclass(frozen=True)
class Cure(Row):
    """How long a glue wants at `ref_C`; times double for each `doubling_C` colder."""

    name: str
    ref_C: Annotated[float, Between(10, 30)]
    doubling_C: Annotated[float, Between(4, 20)]
    open_h: Annotated[float, Between(0.1, 12)]
    clamp_h: Annotated[float, Between(1, 96)]
    work_h: Annotated[float, Between(1, 168)]
    recoat_h: Annotated[float, Between(1, 168)]
    hang_h: Annotated[float, Between(1, 336)]
    load_h: Annotated[float, Between(1, 672)]

    def disorder(self) -> Iterator[tuple[str, str]]:
        """What comes later takes longer."""
        order = ("open_h", "clamp_h", "work_h", "hang_h", "load_h")
        for before, after in pairwise(order):
            if getattr(self, after) < getattr(self, before):
                yield after, f"{getattr(self, after)} is less than {before} {getattr(self, before)}"
