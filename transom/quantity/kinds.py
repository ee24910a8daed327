"""What may be asked for, its working unit, and each unit's spellings in a shop."""

import re
from collections.abc import Mapping
from functools import cache

from transom.frozen import dataclass

Spellings = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Kind:
    """One kind of quantity; `units` maps a Pint unit to the ways a shop writes it."""

    says: str
    working: str
    example: str
    units: Spellings

    @property
    def named(self) -> str:
        """With its article, for a message."""
        return f"{'an' if self.says[0] in 'aeiou' else 'a'} {self.says}"

    @property
    def accepted(self) -> str:
        """The first spelling of each unit, for a message."""
        return ", ".join(spellings[0] for spellings in self.units.values())


def plain(unit: str) -> str:
    """One form for a unit's spellings: lower case, no points, words joined by a hyphen, 2 for squared.

    Case carries nothing here: no accepted unit differs from another of its kind by case alone.
    """
    joined = re.sub(r"[\s·⋅•-]+", "-", unit.lower().replace(".", "").strip())
    return joined.replace("°-", "°").replace("²", "2").replace("^", "")


_POUND = ("lb", "lbs", "pound", "pounds")
_POUND_FORCE = (*_POUND, "lbf", "lbsf")


def _arm(forces: tuple[str, ...], arms: tuple[str, ...]) -> tuple[str, ...]:
    """Every way to write force times arm, either first: lb-ft, ft-lb, lbft, ftlb."""
    pairs = [(f, a) for f in forces for a in arms]
    return tuple(join.join(p) for join in ("-", "") for f, a in pairs for p in ((f, a), (a, f)))


_LENGTH: Spellings = {
    "inch": ("in", '"', "inch", "inches", "ins"),
    "foot": ("ft", "'", "foot", "feet"),
    "millimeter": ("mm", "mms", "millimeter", "millimeters", "millimetre", "millimetres"),
    "centimeter": ("cm", "cms", "centimeter", "centimeters", "centimetre", "centimetres"),
    "meter": ("m", "meter", "meters", "metre", "metres"),
    "yard": ("yd", "yds", "yard", "yards"),
}
_MASS: Spellings = {
    "pound": (*_POUND, "lbm"),
    "kilogram": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
    "ounce": ("oz", "ounce", "ounces"),
    "gram": ("g", "gram", "grams", "gramme", "grammes"),
}
_FORCE: Spellings = {
    "pound_force": ("lbf", "lbsf", "pound-force", "pounds-force"),
    "newton": ("N", "newton", "newtons"),
    "kilonewton": ("kN", "kilonewton", "kilonewtons"),
    "kilogram_force": ("kgf", "kilogram-force"),
    "kip": ("kip", "kips"),
}
_POWER: Spellings = {
    "horsepower": ("hp", "bhp", "horsepower"),
    "metric_horsepower": ("PS", "metric-hp", "metric-horsepower"),
    "kilowatt": ("kW", "kilowatt", "kilowatts"),
    "watt": ("W", "watt", "watts"),
}
_TORQUE: Spellings = {
    "pound_force*foot": _arm(_POUND_FORCE, ("ft", "foot", "feet")),
    "pound_force*inch": _arm(_POUND_FORCE, ("in", "inch", "inches")),
    "newton*meter": ("Nm", "n-m", *_arm(("newton", "newtons"), ("meter", "meters", "metre", "metres"))),
    "newton*millimeter": ("N-mm", "Nmm"),
    "kilonewton*meter": ("kN-m", "kNm"),
    "kilogram_force*meter": ("kgf-m", "kgfm"),
    "kilogram_force*centimeter": ("kgf-cm", "kgfcm"),
}
_SPEED: Spellings = {
    "mph": ("mph", "mi/h", "miles-per-hour"),
    "knot": ("kn", "kt", "kts", "knot", "knots"),
    "kph": ("km/h", "kmh", "kph"),
    "meter/second": ("m/s",),
    "foot/second": ("ft/s", "fps"),
}
_ROTATION: Spellings = {"rpm": ("rpm", "r/min", "rev/min"), "rps": ("rps", "r/s", "rev/s")}
_ANGLE: Spellings = {
    "degree": ("deg", "°", "degs", "degree", "degrees"),
    "radian": ("rad", "radian", "radians"),
}
_TEMPERATURE: Spellings = {
    "degF": ("F", "°f", "deg-f", "degf", "degrees-f", "fahrenheit", "degrees-fahrenheit"),
    "degC": ("C", "°c", "deg-c", "degc", "degrees-c", "celsius", "degrees-celsius"),
}
_STRESS: Spellings = {
    "megapascal": ("MPa", "n/mm2"),
    "psi": ("psi", "lbf/in2"),
    "ksi": ("ksi",),
    "gigapascal": ("GPa", "kn/mm2"),
}
_AREA: Spellings = {
    "inch**2": ("sq in", "in2"),
    "foot**2": ("sq ft", "ft2"),
    "millimeter**2": ("mm2", "sq-mm"),
    "centimeter**2": ("cm2", "sq-cm"),
}
_AREA_DENSITY: Spellings = {
    "kilogram/meter**2": ("kg/m2",),
    "gram/meter**2": ("g/m2", "gsm"),
    "pound/foot**2": ("lb/ft2",),
    "ounce/yard**2": ("oz/yd2", "oz/sq-yd"),
}

KINDS: Mapping[str, Kind] = {
    "length": Kind("length", "millimeter", "20-1/2 in", _LENGTH),
    "mass": Kind("weight", "kilogram", "260 lb", _MASS),
    "force": Kind("force", "newton", "700 lbf", _FORCE),
    "power": Kind("power", "watt", "40 hp", _POWER),
    "torque": Kind("torque", "newton*millimeter", "55 lb-ft", _TORQUE),
    "speed": Kind("speed", "meter/second", "22 mph", _SPEED),
    "rotation": Kind("turning speed", "1/second", "5500 rpm", _ROTATION),
    "angle": Kind("angle", "radian", "14 deg", _ANGLE),
    "temperature": Kind("temperature", "degC", "58 F", _TEMPERATURE),
    "stress": Kind("stress", "megapascal", "40 MPa", _STRESS),
    "area": Kind("area", "millimeter**2", "4.5 sq in", _AREA),
    "area_density": Kind("weight per area", "kilogram/meter**2", "10 kg/m2", _AREA_DENSITY),
}


@cache
def spellings(kind: str) -> Mapping[str, str]:
    """Spelling, as `plain` leaves it, to Pint unit."""
    return {plain(way): unit for unit, ways in KINDS[kind].units.items() for way in ways}


def kinds_of(unit: str) -> tuple[str, ...]:
    """The kinds that have a unit of this spelling."""
    return tuple(kind for kind in KINDS if plain(unit) in spellings(kind))
