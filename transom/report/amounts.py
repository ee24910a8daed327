"""Numbers of the judgement as the job's units read: minima round up, maxima down."""

import math

from transom.quantity import show
from transom.report.words import verbs
from transom.result import Check

FAR_BEYOND = 9.995
HOLE_STEP_MM = "0.5"


def amount(value: float, unit: str, units: str, towards: str = "nearest") -> str:
    """A number in a working unit as text; words where it is not finite."""
    if not math.isfinite(value):
        return "more than any number"
    return _SHOWN.get(unit, _bare)(value, unit, units, towards)


CALIPER = ("ear", "thickness", "wall")  # ends of the keys of metal that a caliper measures


def of_key(key: str, value: float, unit: str, units: str, towards: str = "nearest") -> str:
    """The number of a fact as text: metal in decimals, as a caliper reads it, or what was used and where the answer
    flips would read alike."""
    if unit == "mm" and math.isfinite(value) and key.rsplit(".", 1)[-1] in CALIPER:
        return show.measured(value, units, towards=towards)
    return amount(value, unit, units, towards)


def _bare(value: float, unit: str, units: str, towards: str) -> str:
    return f"{value:.3g} {unit}".strip()


def _length(value: float, unit: str, units: str, towards: str) -> str:
    return show.length(value, units, step="1/32", towards=towards)


def _mass(value: float, unit: str, units: str, towards: str) -> str:
    return show.mass(value, units, towards=towards)


def _force(value: float, unit: str, units: str, towards: str) -> str:
    return show.force(value, units, towards=towards)


def _stress(value: float, unit: str, units: str, towards: str) -> str:
    return show.stress(value, units, towards=towards)


def _moment(value: float, unit: str, units: str, towards: str) -> str:
    return show.moment(value, units, towards=towards)


def _power(value: float, unit: str, units: str, towards: str) -> str:
    return power(value, units, towards)


def _speed(value: float, unit: str, units: str, towards: str) -> str:
    return show.speed(value, units, towards=towards)


def _angle(value: float, unit: str, units: str, towards: str) -> str:
    return show.angle(value, towards=towards)


def _rotation(value: float, unit: str, units: str, towards: str) -> str:
    return show.rotation(value, towards=towards)


def _share(value: float, unit: str, units: str, towards: str) -> str:
    return show.percent(value, towards=towards)


def _line(value: float, unit: str, units: str, towards: str) -> str:
    """Force per length, as of a weld: by the inch where lengths are."""
    if units == "si":
        return _bare(value, unit, units, towards)
    return f"{show.force(value * INCH, units, towards=towards)} per in"


INCH = 25.4

_SHOWN = {
    "mm": _length, "kg": _mass, "N": _force, "MPa": _stress, "N*mm": _moment, "W": _power, "m/s": _speed,
    "rad": _angle, "1/s": _rotation, "%": _share, "N/mm": _line,
}  # fmt: skip


def power(watts: float, units: str, towards: str = "nearest") -> str:
    """A power; SI readers get the hp of the cowl beside it."""
    own = show.power(watts, units, towards=towards)
    return own if units == "us" else f"{own} ({show.power(watts, 'us', towards=towards)})"


def carried(value: float, unit: str, what: str, units: str) -> str:
    """What a check carries or may carry; a check that compares shares has no unit of its own."""
    if not math.isfinite(value):
        return "more than any number"
    if what.startswith("plate-bending"):
        return f"{show.force(value, units).split()[0]} {'lb-in per in' if units == 'us' else _per_mm(value)}"
    if not unit:
        return f"{value:g}" if what == "count" else f"{value:.2f}" if value < 1000.0 else "over 1000"
    return amount(value, unit, units)


def _per_mm(value: float) -> str:
    return "N mm per mm" if value < 1000 else "kN mm per mm"


def compared(check: Check, units: str) -> str:
    """A check's two numbers: what it carries, or asks for, against what it may carry, or has."""
    before, after = verbs(check.what)
    if check.unit == "mm":
        low, high = (amount(v, "mm", units, to) for v, to in ((check.demand, "up"), (check.resistance, "down")))
    else:
        low, high = (carried(v, check.unit, check.what, units) for v in (check.demand, check.resistance))
    return f"{before} {low}, {after} {high}"


def percent(ratio: float) -> str:
    """Share of the limit; far beyond it, no more than that."""
    return show.percent(ratio) if ratio < FAR_BEYOND else "over 999 %"


def drill(mm: float, units: str, towards: str) -> str:
    """A drill or bore in stocked sizes: 1/32 in to an inch and 1/8 in above; half millimeters to 16, then whole ones."""
    step, step_mm = drill_steps(mm)
    return show.length(mm, units, step=step, towards=towards, step_mm=step_mm)


def drill_steps(mm: float) -> tuple[str, str]:
    """From one stocked drill or bore to the next, inch and mm."""
    return "1/32" if mm < 25.39 else "1/8", HOLE_STEP_MM if mm < 16.01 else "1"


def place(mm: float, units: str) -> str:
    """Where a hole goes: to 1/32 in or half a millimeter."""
    return show.length(mm, units, step="1/32", step_mm=HOLE_STEP_MM)


def tape(mm: float, units: str, towards: str = "nearest", *, unit: bool = True) -> str:
    """A length for saw and tape: to 1/16 in or a millimeter."""
    return show.length(mm, units, step="1/16", towards=towards, unit=unit, step_mm="1")


def dual(mm: float, units: str, *, metric: bool) -> str:
    """A length sold in metric keeps its name, with inches beside it for those who read inches."""
    if not metric:
        return show.length(mm, units, step="1/16", towards="nearest")
    own = show.length(mm, "si", step_mm="1")
    return f"{own} ({show.length(mm, 'us', step='1/16')})" if units == "us" else own
