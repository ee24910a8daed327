"""A line of an estimate as people say it: what, how many, how long."""

from decimal import Decimal

from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.estimate.lines import Line
from transom.estimate.money import shown
from transom.estimate.reading import sides
from transom.estimate.records import Case, Estimate
from transom.quantity import show
from transom.report.amounts import dual
from transom.report.mounts import washer_words
from transom.report.words import spelled

SQ_FT = Decimal("0.09290304")  # m2
FOOT = Decimal("0.3048")  # m
QUART = Decimal("0.946352946")  # L


def line_words(line: Line, tables: Catalogue, units: str) -> str:
    """What a line is, without how many."""
    return spelled(_SAID[line.kind](line, tables, units), units)


def _sheet(line: Line, tables: Catalogue, units: str) -> str:
    row = tables.sheet(line.name)
    return f"{row.nominal} {tables.panel(row.panel).title.split(' (')[0]}"


def _epoxy(line: Line, tables: Catalogue, units: str) -> str:
    return "epoxy, resin with hardener"


def _plate(line: Line, tables: Catalogue, units: str) -> str:
    try:
        title = tables.plate(line.name, line.size).title
    except JobError:
        title = line.name
    return f"{_thick(line.size, units)} {title} plate"


def _thick(mm: float, units: str) -> str:
    """A plate's thickness as it is sold: metric ones keep their millimeters."""
    metric = abs(mm * 2 - round(mm * 2)) < 1e-6
    if metric:
        return show.measured(mm, "si") + (f" ({show.measured(mm, units)})" if units == "us" else "")
    return show.length(mm, units)


def _bolt(line: Line, tables: Catalogue, units: str) -> str:
    thread, _, grade = line.name.partition(" ")
    if not grade or not line.size:
        return f"bolts {line.name}"
    metric = tables.thread(thread).system == "metric"
    metal = tables.grade(grade, thread).title.split(",")[0]
    return f"bolts {thread} x {dual(line.size, units, metric=metric)}, {metal} {grade}"


def _nut(line: Line, tables: Catalogue, units: str) -> str:
    return f"lock nuts {line.name}"


def _washer(line: Line, tables: Catalogue, units: str) -> str:
    return f"washers {washer_words(line.name, tables, units)}"


def _plate_washer(line: Line, tables: Catalogue, units: str) -> str:
    side, t = sides(line.name)
    a, b = (show.length(x, units, step="1/16", unit=False, step_mm="1") for x in (side, t))
    return f"plate washers {a} x {a} x {b} {'in' if units == 'us' else 'mm'}"


def _supply(line: Line, tables: Catalogue, units: str) -> str:
    return str(next(r.title for r in tables.rows("supplies") if r.name == line.name))


def _labour(line: Line, tables: Catalogue, units: str) -> str:
    return str(next(r.title for r in tables.rows("labour") if r.name == line.name))


def _other(line: Line, tables: Catalogue, units: str) -> str:
    return line.name


_SAID = {
    "sheet": _sheet, "epoxy": _epoxy, "plate": _plate, "bolt": _bolt, "nut": _nut, "washer": _washer,
    "plate_washer": _plate_washer, "supply": _supply, "labour": _labour, "other": _other,
}  # fmt: skip


def count_words(line: Line, units: str) -> str:
    """How many, in the unit it is sold by: "2 packets of 10", "1 half sheet", "0.13 sq ft"."""
    number = line.quantity.likely
    if line.kind == "sheet" and not number:
        return "from offcuts"
    if line.unit == "m2":
        return f"{number / SQ_FT:.2f} sq ft" if units == "us" else f"{number:.3f} m2"
    name = _unit(line, units)
    if number != 1 and name in _MANY:
        name = f"{name}s"
    elif number != 1 and " of " in name:
        name = name.replace(" of ", "s of ", 1)
    return f"{number.normalize():f} {name}".strip()


def _unit(line: Line, units: str) -> str:
    if line.kind == "epoxy" and line.sold:
        return f"kit of {volume(line.sold, units)}"
    if line.pack != 1:
        return f"packet of {_amount(line.pack, line.need_unit, units)}"
    if line.unit == line.need_unit:
        return _amount(line.quantity.likely, line.unit, units).partition(" ")[2]
    return "" if line.unit == "each" else line.unit


_US = {"m": (FOOT, "ft"), "L": (QUART, "qt"), "kg": (Decimal("0.45359237"), "lb")}


def _amount(number: Decimal, unit: str, units: str) -> str:
    """An amount of a supply; what is sold by the meter, liter or kilogram keeps its name, with the other beside it."""
    text = f"{number.normalize():f} {unit}".removesuffix(" each")
    if units != "us" or unit not in _US:
        return text
    size, name = _US[unit]
    return f"{text} ({(number / size).quantize(Decimal('0.1')).normalize():f} {name})"


_MANY = ("sheet", "half sheet", "tube")


def piece_words(line: Line, units: str) -> str:
    """The pieces to cut from it; nothing for what is bought as it is."""
    if line.kind == "sheet":
        return ", ".join(f"{n} layer{'s' * (n > 1)}" for n, _, _ in line.pieces)
    step = {"step": "1/16", "step_mm": "1", "unit": False}
    end = "in" if units == "us" else "mm"
    return ", ".join(
        f"{n} x {show.length(w, units, **step)} x {show.length(h, units, **step)} {end}"  # type: ignore[arg-type]
        for n, w, h in line.pieces
    )


def remarks(line: Line, units: str) -> tuple[str, ...]:
    """What else to know of a line: what is sold in its place, how much is really used, its age, why it has no price."""
    old = f"OLD price of {line.asked.isoformat()}" if line.old and line.asked is not None else ""
    rack = "on the rack" if line.stocked else ""
    waste = f"{line.waste * 100:.0f} % waste in it" if line.waste else ""
    return tuple(x for x in (_sold(line, units), waste, line.note, rack, old, line.why) if x)


def _sold(line: Line, units: str) -> str:
    if line.kind == "bolt" and line.sold - line.size > SAME:
        return f"priced as {show.length(line.sold, units, step='1/8', step_mm='1')}, the next longer in the book"
    if line.kind == "sheet" and not line.quantity.likely:
        return "cut from your offcuts, not charged"
    if line.kind == "epoxy":
        return f"{volume(line.wanted, units)} needed"
    return ""


SAME = 0.05  # mm


def volume(liters: float, units: str) -> str:
    """A volume to a hundredth: liters, or quarts."""
    return f"{liters / float(QUART):.2f} qt" if units == "us" else f"{liters:.2f} L"


def money(amount: Decimal, e: Estimate) -> str:
    """An amount in the book's currency."""
    return shown(amount, e.book.currency)


def days_text(case: Case) -> str:
    """ "9 to 10", or "10"."""
    d = case.days
    return f"{d.low}" if d.low == d.high else f"{d.low} to {d.high}"


def hours_text(hours: Decimal) -> str:
    """ "18.5 h"."""
    return f"{hours.normalize():f} h"
