# ruff: noqa: N803 - an argument ends in its unit, as the unit is written
"""Finding a row by what the job calls it: shipped tables, with the shop's own rows over them."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import field, fields, replace
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from transom.catalogue.engine import Bracket, EngineWeight, Factor, Gravity, Preset, Propeller, Spread, Term
from transom.catalogue.metal import BoltLength, Grade, Head, Nut, Plate, PlateStock, Thread, Washer, Welded
from transom.catalogue.schema import Row
from transom.catalogue.tables import checked, load, nearest
from transom.catalogue.wood import Adhesive, Panel, Sheet
from transom.errors import JobError, TableError
from transom.frozen import dataclass

if TYPE_CHECKING:
    from transom.units import Array

SHOP_FAMILIES = ("panels", "sheets", "washers")
_ROUNDING = 1e-6  # share by which a stated power may miss the end of its band through conversion


@dataclass(frozen=True)
class Polynomial:
    """Terms of a B-series polynomial as arrays (n,): coefficient C and the four exponents."""

    C: "Array"
    s: "Array"
    t: "Array"
    u: "Array"
    v: "Array"


@dataclass(frozen=True)
class BSeries:
    """The thrust and torque coefficient polynomials of the B-series."""

    KT: Polynomial
    KQ: Polynomial


def _polynomial(terms: Sequence[Term]) -> Polynomial:
    import numpy as np

    return Polynomial(*(np.array([getattr(t, k) for t in terms], dtype=float) for k in "Cstuv"))


def _in_proportion(band: EngineWeight, power: float) -> EngineWeight:
    """What an engine above the table would weigh if weight grew with power; it grows more slowly."""
    times = power / band.power_max_W
    weights = {f.name: getattr(band, f.name) * times for f in fields(band) if f.name.endswith("_kg")}
    return replace(band, name="above the table", power_min_W=band.power_max_W, power_max_W=power,
                   source=f"{band.source}, in proportion to power above it", evidence="estimate", known_by="derived",
                   **weights)  # fmt: skip


def _between(rows: Sequence[Any], power_W: float) -> Any:
    """The row of a power: real columns interpolated between two rows, an end row outside the table."""
    for row in rows:
        if abs(power_W - row.power_W) <= _ROUNDING * row.power_W:
            return row
    for low, high in pairwise(rows):
        if low.power_W < power_W < high.power_W:
            return _mix(low, high, power_W)
    return rows[0] if power_W < rows[0].power_W else rows[-1]


def _mix(low: Any, high: Any, power_W: float) -> Any:
    share = (power_W - low.power_W) / (high.power_W - low.power_W)
    reals = [f.name for f in fields(low) if isinstance(getattr(low, f.name), float)]
    mixed = {k: (1 - share) * getattr(low, k) + share * getattr(high, k) for k in reals}
    return replace(low, **{**mixed, "name": f"between {low.name} and {high.name}"})


@dataclass(frozen=True)
class Catalogue:
    """The tables of one job: the shipped ones, and over them the rows of the shop (`stocked`)."""

    shop: Mapping[str, tuple[Row, ...]] = field(default_factory=dict)

    def rows(self, family: str) -> tuple[Any, ...]:
        """All rows of a family; a shop's row takes the place of the shipped one of its name."""
        shipped = load(family)
        if family not in self.shop:
            return shipped
        own = {row.id: row for row in self.shop[family]}
        kept = tuple(own.pop(row.id, row) for row in shipped)
        return kept + tuple(own.values())

    @cached_property
    def _places(self) -> dict[tuple[str, str], Mapping[Any, Any]]:
        """The first row of each name, by family and column, as far as somebody asked."""
        return {}

    def _by(self, family: str, key: str) -> Mapping[Any, Any]:
        asked = (family, key)
        if asked not in self._places:
            self._places[asked] = {getattr(row, key): row for row in reversed(self.rows(family))}
        return self._places[asked]

    def _find(self, family: str, what: str, name: str, key: str = "name") -> Any:
        found = self._by(family, key).get(name)
        if found is not None:
            return found
        names = tuple(dict.fromkeys(str(getattr(row, key)) for row in self.rows(family)))
        raise JobError(f"no {what} {name!r}{nearest(name, names)}; `transom materials {family}` lists what there is")

    def panel(self, name: str) -> Panel:
        """A family of plywood. Raises JobError, with the nearest name, for an unknown one."""
        found: Panel = self._find("panels", "panel", name)
        return found

    def sheet(self, name: str) -> Sheet:
        """A sheet as sold, by "<panel> <nominal>". Raises JobError for an unknown one.

        >>> from transom.catalogue import SHIPPED
        >>> sheet = SHIPPED.sheet("douglas-fir-marine 3/4 in")
        >>> sheet.thickness_mm, sheet.plies, sheet.evidence
        (18.26, 5, 'common practice')
        """
        found: Sheet = self._find("sheets", "sheet", name)
        return found

    def sheets_of(self, panel: str) -> tuple[Sheet, ...]:
        """The sheets of a panel a stack may be made of (`Sheet.stackable`), thinnest first.

        Raises:
            JobError: an unknown panel.
        """
        name = self.panel(panel).name
        found = [s for s in self.rows("sheets") if s.panel == name and s.stackable]
        return tuple(sorted(found, key=lambda s: (s.thickness_mm, s.name)))

    def adhesive(self, name: str) -> Adhesive:
        """A glue. Raises JobError for an unknown one."""
        found: Adhesive = self._find("adhesives", "adhesive", name)
        return found

    def thread(self, name: str) -> Thread:
        """A thread by name, "1/2-13" or "M12". Raises JobError for an unknown one."""
        found: Thread = self._find("threads", "thread", name)
        return found

    def grade(self, name: str, thread: str) -> Grade:
        """A bolt grade in the size of `thread`.

        Raises:
            JobError: an unknown grade or thread, or one not made in the other's size.
        """
        self._find("grades", "bolt grade", name)
        made = self.grades_for(thread)
        for each in made:
            if each.name == name:
                return each
        others = ", ".join(g.name for g in made)
        raise JobError(f"bolt grade {name!r} is not made in {thread}; in that size there is {others}")

    def grades_for(self, thread: str) -> tuple[Grade, ...]:
        """The grades made in the size of `thread`. Raises JobError for an unknown thread."""
        t = self.thread(thread)
        return tuple(g for g in load("grades") if g.system == t.system and g.d_min_mm <= t.d_mm <= g.d_max_mm)

    def washer(self, name: str) -> Washer:
        """A washer by "<size> <kind>", "1/2 wide" or "M12 large". Raises JobError for an unknown one."""
        found: Washer = self._find("washers", "washer", name)
        return found

    def washers_for(self, thread: str) -> tuple[Washer, ...]:
        """The washers of a thread's size, smallest first. Raises JobError for an unknown thread."""
        size = self.thread(thread).size
        found = [w for w in self.rows("washers") if w.size == size]
        return tuple(sorted(found, key=lambda w: (w.OD_mm, w.t_mm, w.name)))

    def nut(self, thread: str, kind: str = "plain") -> Nut:
        """The nut of a thread, "plain" or "lock". Raises JobError for an unknown thread or kind."""
        found: Nut | None = self._nuts.get((self.thread(thread).name, kind))
        if found is not None:
            return found
        raise JobError(f"no {kind!r} nut for {thread}; `transom materials nuts` lists what there is")

    @cached_property
    def _nuts(self) -> Mapping[tuple[str, str], Nut]:
        return {(row.thread, row.kind): row for row in reversed(load("nuts"))}

    def head(self, thread: str) -> Head:
        """The head and thread length of a bolt. Raises JobError for an unknown thread."""
        found: Head = self._find("heads", "bolt head for thread", self.thread(thread).name, "thread")
        return found

    def bolt_lengths(self, thread: str) -> tuple[BoltLength, ...]:
        """The stocked lengths in a thread's system, shortest first. Raises JobError for an unknown thread."""
        system = self.thread(thread).system
        return tuple(row for row in load("bolt_lengths") if row.system == system)

    def plate(self, alloy: str, thickness_mm: float | None = None) -> Plate:
        """A plate material; in several ranges of thickness, the one of `thickness_mm`, else the weakest.

        Raises:
            JobError: an unknown alloy, or a thickness no row covers.
        """
        self._find("plates", "plate", alloy)
        made = [p for p in load("plates") if p.name == alloy]
        fits = [p for p in made if thickness_mm is None or _covers(p, thickness_mm)]
        if not fits:
            raise JobError(f"plate {alloy!r} has no listed strength at {thickness_mm:g} mm")
        found: Plate = min(fits, key=lambda p: p.Fy_MPa)
        return found

    def plate_thicknesses(self) -> tuple[PlateStock, ...]:
        """The plate thicknesses kept in stock, thinnest first."""
        return tuple(sorted(load("plate_stock"), key=lambda p: (p.thickness_mm, p.name)))

    def welded(self, alloy: str, thickness_mm: float) -> Welded:
        """The lowest listed values beside a weld, whatever the filler.

        Raises:
            JobError: an unknown alloy, or a thickness no row covers.
        """
        self._find("plates_welded", "welded alloy", alloy, "alloy")
        made = [w for w in load("plates_welded") if w.alloy == alloy and _covers(w, thickness_mm)]
        if not made:
            raise JobError(f"welded {alloy!r} has no listed strength at {thickness_mm:g} mm")
        lowest: Welded = min(made, key=lambda w: (w.Fy_w_MPa, w.Fu_w_MPa))
        return replace(lowest, Fu_w_MPa=min(w.Fu_w_MPa for w in made), Fs_w_MPa=min(w.Fs_w_MPa for w in made))

    def engine_weight(self, power_W: float) -> EngineWeight:
        """The band of a power; in a gap between bands, the heavier one. Above the table the last, in proportion.

        Nothing passes up there (the method stops at 300 hp), but a stop hides no numbers.

        Raises:
            JobError: a power that is not positive.
        """
        power, bands = _positive(power_W), load("engine_weights")
        last: EngineWeight = bands[-1]
        found = next((b for b in bands if power <= b.power_max_W * (1 + _ROUNDING)), None)
        return _in_proportion(last, power) if found is None else found

    def propeller(self, power_W: float) -> Propeller:
        """The generic propeller of a power, interpolated; the end rows outside the table."""
        found: Propeller = _between(load("propellers"), _positive(power_W))
        return found

    def gravity(self, power_W: float) -> Gravity:
        """The centre of gravity typical of a power, interpolated; the end rows outside the table."""
        found: Gravity = _between(load("gravity"), _positive(power_W))
        return found

    def bracket(self, power_W: float) -> Bracket:
        """The engine bracket typical of a power."""
        power = _positive(power_W) * (1 + _ROUNDING)
        found: Bracket = [b for b in load("brackets") if b.power_min_W <= power][-1]
        return found

    def preset(self, boat: str) -> Preset:
        """The board's place usual on a kind of boat. Raises JobError for an unknown one."""
        found: Preset = self._find("presets", "kind of boat", boat, "boat")
        return found

    def factor(self, name: str) -> Factor:
        """A number of the method by name. Raises TableError for an unknown one: no job can name it."""
        found: Factor | None = self._by("factors", "name").get(name)
        if found is not None:
            return found
        raise TableError(f"factors.toml has no {name!r}{nearest(name, tuple(r.name for r in load('factors')))}")

    def spread(self, name: str) -> Spread:
        """How far a kind of number scatters. Raises TableError for an unknown one: no job can name it."""
        found: Spread | None = self._by("spreads", "name").get(name)
        if found is not None:
            return found
        raise TableError(f"spreads.toml has no {name!r}{nearest(name, tuple(r.name for r in load('spreads')))}")

    def b_series(self) -> BSeries:
        """The B-series polynomials as arrays, 39 and 47 terms."""
        terms = load("b_series")
        return BSeries(*(_polynomial([t for t in terms if t.of == k]) for k in ("KT", "KQ")))


def _covers(row: Plate | Welded, thickness_mm: float) -> bool:
    return row.thickness_min_mm <= thickness_mm <= row.thickness_max_mm


def _positive(power_W: float) -> float:
    if not 0 < power_W < math.inf:
        raise JobError(f"engine power {power_W:g} W is not a positive, finite power; state the engine's")
    return power_W


def stocked(shop: Mapping[str, Sequence[Mapping[str, Any]]], file: str = "shop.toml") -> Catalogue:
    """The shipped tables with the shop's rows added to them, or in place of those of the same name.

    `shop` maps "panels", "sheets" or "washers" to rows as in the shipped tables; `source`, `evidence` and
    `known_by` may be left out: the shop says so.

    Raises:
        JobError: a family that is not the shop's to change.
        TableError: one line for each fault, naming file, row and key.
    """
    wrong = [f for f in shop if f not in SHOP_FAMILIES]
    if wrong:
        allowed = ", ".join(SHOP_FAMILIES)
        raise JobError(*(f"{file}, {f}: a shop may add rows to {allowed} only" for f in wrong))
    bare = [f for f, own in shop.items() if isinstance(own, str) or not isinstance(own, Sequence)]
    if bare:
        raise JobError(*(f"{file}, {f}: not a list of rows, [[{f}]]" for f in bare))
    merged = Catalogue({f: checked(f, [_said(row, file) for row in own], file) for f, own in shop.items()})
    panels = {p.name for p in merged.rows("panels")}
    lost = [s for s in merged.shop.get("sheets", ()) if isinstance(s, Sheet) and s.panel not in panels]
    if lost:
        raise TableError("\n".join(f"{file}, row {s.name!r}, panel: no panel {s.panel!r}" for s in lost))
    return merged


def _said(row: Any, file: str) -> Any:
    """A row of the shop, with the shop as its source where it names none."""
    if not isinstance(row, Mapping):
        return row
    return {"source": file, "evidence": "stated", "known_by": "read", **row}
