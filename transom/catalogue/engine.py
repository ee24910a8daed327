# ruff: noqa: N815 - a column ends in its unit, as the unit is written
"""Records of engines, propellers and the numbers of the method. Working units in the names."""

from collections.abc import Iterator
from typing import Annotated

from transom.catalogue.schema import Between, OneOf, Row
from transom.frozen import dataclass

_POWER = Between(0, 500_000)
_MASS = Between(5, 1000)
_LENGTH = Between(1, 2000)
_EXPONENT = Between(0, 6, whole=True)
UNITS = ("", "mm", "kg", "deg", "m/s", "m/s^2", "kg/m^3", "kg/m^2", "MPa", "W", "V", "degC")


@dataclass(frozen=True)
class EngineWeight(Row):
    """Weights of outboards in a band of power."""

    name: str
    power_min_W: Annotated[float, _POWER]
    power_max_W: Annotated[float, _POWER]
    dry_kg: Annotated[float, _MASS]
    dry_short_kg: Annotated[float, _MASS]
    running_kg: Annotated[float, _MASS]
    swamped_kg: Annotated[float, _MASS]
    total_kg: Annotated[float, _MASS]

    rising = ("power_max_W",)

    def disorder(self) -> Iterator[tuple[str, str]]:
        """An engine ready to run is heavier than a dry one, and lighter than with battery and fuel."""
        if self.power_min_W >= self.power_max_W:
            yield "power_min_W", f"{self.power_min_W} is not below power_max_W {self.power_max_W}"
        if not self.dry_short_kg <= self.dry_kg <= self.running_kg <= self.total_kg:
            yield "running_kg", "dry_short_kg, dry_kg, running_kg, total_kg do not rise"


@dataclass(frozen=True)
class Propeller(Row):
    """A generic propeller of a power; gear is engine turns for one of the propeller."""

    name: str
    power_W: Annotated[float, _POWER]
    diameter_mm: Annotated[float, _LENGTH]
    pitch_mm: Annotated[float, _LENGTH]
    blades: Annotated[int, Between(2, 7, whole=True)]
    area_ratio: Annotated[float, Between(0.3, 1.05)]
    gear: Annotated[float, Between(1, 4)]
    speed_1_s: Annotated[float, Between(10, 150)]
    below_plate_mm: Annotated[float, _LENGTH]
    diameter_min_mm: Annotated[float, _LENGTH]
    diameter_max_mm: Annotated[float, _LENGTH]
    gear_min: Annotated[float, Between(1, 4)]
    gear_max: Annotated[float, Between(1, 4)]

    rising = ("power_W",)

    def disorder(self) -> Iterator[tuple[str, str]]:
        """The typical value lies in its range."""
        if not self.diameter_min_mm <= self.diameter_mm <= self.diameter_max_mm:
            yield "diameter_mm", f"{self.diameter_mm} is outside its own range"
        if not self.gear_min <= self.gear <= self.gear_max:
            yield "gear", f"{self.gear} is outside its own range"


@dataclass(frozen=True)
class Gravity(Row):
    """Where the centre of gravity of an engine lies aft of its bracket face."""

    name: str
    power_W: Annotated[float, _POWER]
    x_cg_mm: Annotated[float, _LENGTH]

    rising = ("power_W",)


@dataclass(frozen=True)
class Bracket(Row):
    """The engine's own bracket from a power up; hole columns are None where `bolted` is false."""

    name: str
    power_min_W: Annotated[float, _POWER]
    bolted: bool
    pad_y_mm: Annotated[float, _LENGTH]
    pad_width_mm: Annotated[float, _LENGTH]
    pad_height_mm: Annotated[float, _LENGTH]
    thread: str | None = None
    upper_apart_mm: Annotated[float | None, _LENGTH] = None
    upper_down_mm: Annotated[float | None, _LENGTH] = None
    lower_apart_mm: Annotated[float | None, _LENGTH] = None
    lower_down_mm: Annotated[float | None, _LENGTH] = None

    rising = ("power_min_W",)

    def disorder(self) -> Iterator[tuple[str, str]]:
        """All holes or none; the lower row lies lower."""
        holes = (
            self.upper_apart_mm,
            self.upper_down_mm,
            self.lower_apart_mm,
            self.lower_down_mm,
            self.thread,
        )
        if any((h is not None) != self.bolted for h in holes):
            yield "bolted", "true wants the thread and all four hole distances, false none"
        elif self.upper_down_mm and self.lower_down_mm and self.upper_down_mm >= self.lower_down_mm:
            yield "upper_down_mm", f"{self.upper_down_mm} is not above the lower row {self.lower_down_mm}"


@dataclass(frozen=True)
class Preset(Row):
    """The board's place by kind of boat, where the job does not say."""

    boat: Annotated[str, OneOf(("pontoon", "aluminium hull", "glass hull"))]
    frame: Annotated[str, OneOf(("pod", "uprights", "cap rail"))]
    width_mm: Annotated[float, _LENGTH]
    height_mm: Annotated[float, _LENGTH]
    apart_mm: Annotated[float, _LENGTH]

    key = ("boat",)


@dataclass(frozen=True)
class Term(Row):
    """One term of a B-series polynomial: C J^s (P/D)^t (A_E/A_0)^u Z^v."""

    of: Annotated[str, OneOf(("KT", "KQ"))]
    C: Annotated[float, Between(-1, 1)]
    s: Annotated[int, _EXPONENT]
    t: Annotated[int, _EXPONENT]
    u: Annotated[int, _EXPONENT]
    v: Annotated[int, _EXPONENT]

    key = ("of", "s", "t", "u", "v")


@dataclass(frozen=True)
class Factor(Row):
    """A number of the method; `low` and `high` the range seen, where there is one."""

    name: str
    value: Annotated[float, Between(0, 1e6)]
    unit: Annotated[str, OneOf(UNITS)]
    says: str
    low: Annotated[float | None, Between(0, 1e6)] = None
    high: Annotated[float | None, Between(0, 1e6)] = None

    def disorder(self) -> Iterator[tuple[str, str]]:
        """The value lies in its range; a range has two ends; the unit is the one the name ends in."""
        yield from _range_faults(self.value, self.low, self.high)
        suffix = self.unit.replace("/", "_").replace("^", "")
        if suffix and not self.name.endswith("_" + suffix):
            yield "unit", f"{self.unit!r} is not what the name ends in, _{suffix}"


@dataclass(frozen=True)
class Quantity(Row):
    """A property with its unit; `low` and `high` the range seen, where there is one."""

    name: str
    value: Annotated[float, Between(0, 1e6)]
    unit: Annotated[str, OneOf(UNITS)]
    low: Annotated[float | None, Between(0, 1e6)] = None
    high: Annotated[float | None, Between(0, 1e6)] = None

    def disorder(self) -> Iterator[tuple[str, str]]:
        """The value lies in its range."""
        yield from _range_faults(self.value, self.low, self.high)


STANDS = ("low value", "middle")


@dataclass(frozen=True)
class Spread(Row):
    """How far a kind of number scatters; `stands` says where in its spread the number used lies."""

    name: str
    cov: Annotated[float, Between(0, 1)]
    stands: Annotated[str, OneOf(STANDS)]
    says: str


def _range_faults(value: float, low: float | None, high: float | None) -> Iterator[tuple[str, str]]:
    if (low is None) != (high is None):
        yield "low", "low and high come together"
    elif low is not None and high is not None and not low <= value <= high:
        yield "value", f"{value} is outside {low} to {high}"
