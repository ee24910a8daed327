# ruff: noqa: N815 - a column ends in its unit, as the unit is written
"""Records of the board: panels, sheets, glue, and what they are compared with. Working units in the names."""

from collections.abc import Iterator
from typing import Annotated

from transom.catalogue.schema import Between, OneOf, Row
from transom.frozen import dataclass

_STIFF = Between(200, 30_000)
_STRONG = Between(0.1, 200)
_PROPERTY = Between(0.01, 50_000)
STACKABLE_PLIES = 5


@dataclass(frozen=True)
class Panel(Row):
    """A family of plywood: stiffness and characteristic strength of one sheet, gross section, dry."""

    name: str
    title: str
    E_par_MPa: Annotated[float, _STIFF]
    E_perp_MPa: Annotated[float, _STIFF]
    f_m_par_k_MPa: Annotated[float, _STRONG]
    f_m_perp_k_MPa: Annotated[float, _STRONG]
    f_v_k_MPa: Annotated[float, Between(0.1, 20)]
    f_r_k_MPa: Annotated[float, Between(0.1, 10)]
    f_c_90_k_MPa: Annotated[float, Between(0.1, 20)]
    rho_k_kg_m3: Annotated[float, Between(200, 1000)]
    G12_MPa: Annotated[float, Between(50, 2000)]
    G_trans_MPa: Annotated[float, Between(10, 1000)]

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Rolling shear is never the stronger; nor transverse shear the stiffer."""
        if self.f_r_k_MPa > self.f_v_k_MPa:
            yield "f_r_k_MPa", f"{self.f_r_k_MPa} is above f_v_k_MPa {self.f_v_k_MPa}"
        if self.G_trans_MPa > self.G12_MPa:
            yield "G_trans_MPa", f"{self.G_trans_MPa} is above G12_MPa {self.G12_MPa}"


@dataclass(frozen=True)
class Sheet(Row):
    """A sheet as sold; `thickness_mm` is what it measures."""

    name: str
    panel: str
    nominal: str
    thickness_mm: Annotated[float, Between(2, 60)]
    plies: Annotated[int, Between(3, 35, whole=True)]
    width_mm: Annotated[float, Between(300, 3000)]
    length_mm: Annotated[float, Between(300, 6000)]
    areal_mass_kg_m2: Annotated[float, Between(0.5, 60)]

    @property
    def stackable(self) -> bool:
        """False below five veneers: fitted to the panel's row, the cross veneer is stiffer than any wood."""
        return self.plies >= STACKABLE_PLIES

    def disorder(self) -> Iterator[tuple[str, str]]:
        """Plywood is balanced; the density of the sheet is that of wood."""
        if self.plies % 2 == 0:
            yield "plies", f"{self.plies} is even: count the layers, not the sheets of veneer in them"
        if self.width_mm > self.length_mm:
            yield "width_mm", f"{self.width_mm} is above length_mm {self.length_mm}"
        density = 1000.0 * self.areal_mass_kg_m2 / self.thickness_mm
        if not 250.0 <= density <= 1000.0:
            yield "areal_mass_kg_m2", f"{self.areal_mass_kg_m2} makes {density:.0f} kg/m3 of the sheet"


@dataclass(frozen=True)
class Species(Row):
    """Clear wood, means of small specimens; None where nothing is published."""

    name: str
    title: str
    moisture: Annotated[str, OneOf(("green", "12 %"))]
    gravity: Annotated[float, Between(0.1, 1.3)]
    gravity_basis: str
    MOR_MPa: Annotated[float, _PROPERTY]
    MOE_MPa: Annotated[float, _PROPERTY]
    c_par_MPa: Annotated[float | None, _PROPERTY] = None
    c_perp_MPa: Annotated[float | None, _PROPERTY] = None
    shear_MPa: Annotated[float | None, _PROPERTY] = None
    t_perp_MPa: Annotated[float | None, _PROPERTY] = None


@dataclass(frozen=True)
class Sanded(Row):
    """Allowable-stress capacities of sanded fir plywood per mm of width, dry, normal duration (APA D510)."""

    name: str
    thickness_mm: Annotated[float, Between(5, 40)]
    EI_par_N_mm2_mm: Annotated[float, Between(1e4, 1e9)]
    EI_perp_N_mm2_mm: Annotated[float, Between(1e4, 1e9)]
    FbS_par_N_mm_mm: Annotated[float, Between(1, 1e5)]
    FbS_perp_N_mm_mm: Annotated[float, Between(1, 1e5)]
    FsIbQ_par_N_mm: Annotated[float, Between(0.1, 1e3)]
    FsIbQ_perp_N_mm: Annotated[float, Between(0.1, 1e3)]

    rising = ("thickness_mm",)


@dataclass(frozen=True)
class Adhesive(Row):
    """A glue for the stack: when it may be used and what water does to it."""

    name: str
    title: str
    type: Annotated[str, OneOf(("epoxy", "resorcinol", "polyurethane", "PVA"))]
    structural: bool
    cure_floor_C: Annotated[float, Between(-20, 60)]
    service_ceiling_C: Annotated[float, Between(20, 250)]
    gap_mm: Annotated[float, Between(0.01, 5)]
    wet: str
    standards: str

    def disorder(self) -> Iterator[tuple[str, str]]:
        """A glue cures below the temperature that softens it."""
        if self.cure_floor_C >= self.service_ceiling_C:
            yield (
                "cure_floor_C",
                f"{self.cure_floor_C} is not below service_ceiling_C {self.service_ceiling_C}",
            )


@dataclass(frozen=True)
class Laminate(Row):
    """A property of glass-epoxy laminate."""

    name: str
    value_MPa: Annotated[float, Between(0.1, 1e5)]
