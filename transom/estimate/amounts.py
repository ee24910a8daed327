"""How much of what a mount is: areas to glue and coat, epoxy by mass and volume."""

from transom.formula import formula
from transom.maths import PI
from transom.units import KG, KG_PER_M2, KG_PER_M3, M2, M3, ONE, M

AREA = "areas of a rectangular board"


@formula(symbol="A_g", source="one line of glue between each two sheets", known_by="derived")
def glued_area(width: M, height: M, lines: ONE) -> M2:
    """Area of all glue lines of a stack."""
    return width * height * lines


@formula(symbol="A_c", source=AREA, known_by="derived")
def coated_area(width: M, height: M, thickness: M) -> M2:
    """Both faces and all four edges."""
    return 2 * width * height + 2 * (width + height) * thickness


@formula(symbol="V_p", source="volume of a cylinder", known_by="derived")
def plug_volume(bore: M, thickness: M, count: ONE) -> M3:
    """Over-bores filled from face to face; what is drilled out again is lost."""
    return PI / 4 * bore * bore * thickness * count


@formula(symbol="m_s", source="mass of a spread", known_by="derived")
def spread_mass(area: M2, spread: KG_PER_M2) -> KG:
    """Mass of what is spread on an area."""
    return area * spread


@formula(symbol="m_f", source="mass of a film", known_by="derived")
def film_mass(area: M2, film: M, rho: KG_PER_M3) -> KG:
    """Mass of a film on an area."""
    return area * film * rho


@formula(symbol="m_V", source="mass of a volume", known_by="derived")
def volume_mass(volume: M3, rho: KG_PER_M3) -> KG:
    """Mass of a volume."""
    return volume * rho


@formula(symbol="V", source="volume of a mass", known_by="derived")
def volume_of(mass: KG, rho: KG_PER_M3) -> M3:
    """Volume of a mass."""
    return mass / rho
