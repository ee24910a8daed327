# ruff: noqa: N815 - a column ends in its unit, as the unit is written
"""Records of bolts, washers, plates and welds. Working units in the names."""

import math
from collections.abc import Iterator
from typing import Annotated

from transom.catalogue.schema import Between, OneOf, Row
from transom.frozen import dataclass

_SYSTEM = OneOf(("inch", "metric"))
_D = Between(1, 60)
_FORCE = Between(10, 2000)
_T = Between(0.1, 200)


@dataclass(frozen=True)
class Thread(Row):
    """A coarse thread: nominal diameter, tensile stress area A_s, plain shank area A."""

    name: str
    size: str
    system: Annotated[str, _SYSTEM]
    d_mm: Annotated[float, _D]
    pitch_mm: Annotated[float, Between(0.2, 6)]
    A_s_mm2: Annotated[float, Between(0.5, 2500)]
    A_mm2: Annotated[float, Between(0.5, 3000)]

    rising = ("system", "d_mm")

    def disorder(self) -> Iterator[tuple[str, str]]:
        """The areas are those of the diameter and pitch, to 1 %."""
        shank = math.pi / 4 * self.d_mm**2
        root = 0.9743 if self.system == "inch" else 0.9382  # ASME B1.1, ISO 898-1
        stress = math.pi / 4 * (self.d_mm - root * self.pitch_mm) ** 2
        if abs(self.A_mm2 / shank - 1) > 0.01:
            yield "A_mm2", f"{self.A_mm2} is not the area of {self.d_mm} mm, {shank:.1f}"
        if abs(self.A_s_mm2 / stress - 1) > 0.01:
            yield "A_s_mm2", f"{self.A_s_mm2} is not the stress area of the thread, {stress:.1f}"


@dataclass(frozen=True)
class Grade(Row):
    """A bolt grade over a range of diameters. `proof_MPa` is 0 where the standard lists none."""

    name: str
    title: str
    kind: Annotated[str, OneOf(("stainless", "steel", "bronze"))]
    system: Annotated[str, _SYSTEM]
    d_min_mm: Annotated[float, _D]
    d_max_mm: Annotated[float, _D]
    f_ub_MPa: Annotated[float, _FORCE]
    f_yb_MPa: Annotated[float, _FORCE]
    alpha_v: Annotated[float, Between(0.3, 0.6)]
    proof_MPa: Annotated[float, Between(0, 2000)] = 0.0

    key = ("name", "d_min_mm")

    @property
    def proof(self) -> float:
        """The proof stress, MPa: the listed one, else the 0.2 % proof stress in its place."""
        return self.proof_MPa or self.f_yb_MPa

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Proof, yield and tensile strength rise in that order; so do the diameters."""
        if self.d_min_mm > self.d_max_mm:
            yield "d_min_mm", f"{self.d_min_mm} is above d_max_mm {self.d_max_mm}"
        if self.f_yb_MPa >= self.f_ub_MPa:
            yield "f_yb_MPa", f"{self.f_yb_MPa} is not below f_ub_MPa {self.f_ub_MPa}"
        if self.proof_MPa > self.f_yb_MPa:
            yield "proof_MPa", f"{self.proof_MPa} is above f_yb_MPa {self.f_yb_MPa}"


@dataclass(frozen=True)
class Head(Row):
    """A hexagon bolt head and the thread under it."""

    thread: str
    AF_mm: Annotated[float, _D]
    height_mm: Annotated[float, _T]
    b_mm: Annotated[float, _T]
    b_long_mm: Annotated[float, _T]
    long_over_mm: Annotated[float, _T]

    key = ("thread",)

    def thread_length(self, length_mm: float) -> float:
        """Threaded length of a bolt, mm: the reference length, or all of a bolt shorter than it."""
        return min(length_mm, self.b_mm if length_mm <= self.long_over_mm else self.b_long_mm)

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Longer bolts have no less thread."""
        if self.b_long_mm < self.b_mm:
            yield "b_long_mm", f"{self.b_long_mm} is below b_mm {self.b_mm}"


@dataclass(frozen=True)
class Nut(Row):
    """A nut, at its greatest height; a lock nut has a nylon insert."""

    thread: str
    kind: Annotated[str, OneOf(("plain", "lock"))]
    AF_mm: Annotated[float, _D]
    height_mm: Annotated[float, _T]

    key = ("thread", "kind")

    def disorder(self) -> Iterator[tuple[str, str]]:
        """A nut is wider than high."""
        if self.height_mm > self.AF_mm:
            yield "height_mm", f"{self.height_mm} is above AF_mm {self.AF_mm}"


@dataclass(frozen=True)
class Washer(Row):
    """A flat washer for one bolt size."""

    name: str
    size: str
    kind: str
    ID_mm: Annotated[float, _D]
    OD_mm: Annotated[float, Between(2, 300)]
    t_mm: Annotated[float, Between(0.3, 30)]

    def disorder(self) -> Iterator[tuple[str, str]]:
        """A washer has a rim."""
        if self.ID_mm >= self.OD_mm:
            yield "ID_mm", f"{self.ID_mm} is not below OD_mm {self.OD_mm}"


@dataclass(frozen=True)
class BoltLength(Row):
    """A stocked length under the head."""

    name: str
    system: Annotated[str, _SYSTEM]
    length_mm: Annotated[float, Between(5, 600)]

    rising = ("system", "length_mm")


@dataclass(frozen=True)
class Plate(Row):
    """A plate material over a range of thickness, base metal, minimum values."""

    name: str
    title: str
    kind: Annotated[str, OneOf(("aluminium", "stainless", "steel", "laminate"))]
    thickness_min_mm: Annotated[float, _T]
    thickness_max_mm: Annotated[float, _T]
    Fu_MPa: Annotated[float, _FORCE]
    Fy_MPa: Annotated[float, _FORCE]
    E_MPa: Annotated[float, Between(1000, 220_000)]
    rho_kg_m3: Annotated[float, Between(500, 9000)]

    key = ("name", "thickness_min_mm")

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Yield is below strength; the range of thickness is one."""
        if self.Fy_MPa >= self.Fu_MPa:
            yield "Fy_MPa", f"{self.Fy_MPa} is not below Fu_MPa {self.Fu_MPa}"
        if self.thickness_min_mm > self.thickness_max_mm:
            yield "thickness_min_mm", f"{self.thickness_min_mm} is above {self.thickness_max_mm}"


@dataclass(frozen=True)
class PlateStock(Row):
    """A plate thickness kept in stock."""

    name: str
    thickness_mm: Annotated[float, _T]


@dataclass(frozen=True)
class Rivet(Row):
    """A blind rivet by diameter: least shear and pull that one holds."""

    name: str
    d_mm: Annotated[float, _T]
    shear_N: Annotated[float, Between(10, 20_000)]
    tension_N: Annotated[float, Between(10, 20_000)]


@dataclass(frozen=True)
class Welded(Row):
    """Aluminium beside a weld."""

    alloy: str
    thickness_min_mm: Annotated[float, _T]
    thickness_max_mm: Annotated[float, _T]
    filler: str
    basis: Annotated[str, OneOf(("minimum", "heat-affected", "typical"))]
    Fu_w_MPa: Annotated[float, _FORCE]
    Fy_w_MPa: Annotated[float, _FORCE]
    Fs_w_MPa: Annotated[float, _FORCE]

    key = ("alloy", "thickness_min_mm", "filler", "basis", "source")

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Yield is below strength; the range of thickness is one."""
        if self.Fy_w_MPa >= self.Fu_w_MPa:
            yield "Fy_w_MPa", f"{self.Fy_w_MPa} is not below Fu_w_MPa {self.Fu_w_MPa}"
        if self.thickness_min_mm > self.thickness_max_mm:
            yield "thickness_min_mm", f"{self.thickness_min_mm} is above {self.thickness_max_mm}"


@dataclass(frozen=True)
class Galvanic(Row):
    """Potential of a metal in flowing sea water against a calomel electrode."""

    name: str
    noble_V: Annotated[float, Between(-2, 1)]
    active_V: Annotated[float, Between(-2, 1)]

    def disorder(self) -> Iterator[tuple[str, str]]:
        """The active end lies lower."""
        if self.active_V > self.noble_V:
            yield "active_V", f"{self.active_V} is above noble_V {self.noble_V}"


@dataclass(frozen=True)
class Anodic(Row):
    """Anodic index of a metal."""

    name: str
    index_V: Annotated[float, Between(0, 2)]
