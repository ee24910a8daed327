"""Bolts, nuts and washers to have at hand, from what the estimate counts, with a spare of each."""

import math
from collections import Counter
from collections.abc import Iterator

from transom.catalogue import Catalogue
from transom.drawing.records import Drawing
from transom.drawing.words import plate_size
from transom.estimate.needs import Need, needs_of
from transom.estimate.work import work_of
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import dual, tape
from transom.report.words import spelled

Row = tuple[str, str, str, str]
DRY = "dry"  # the estimate's case in which nothing but the board is mended
FLUID_OUNCE = 0.0295735295625  # L, US, NIST SP 811
SORT = {"bolt": "bolt", "nut": "lock nut, new", "washer": "flat washer", "plate_washer": "plate washer"}


def needs(j: Judgement) -> tuple[Need, ...]:
    """Everything a mount takes on a sound boat, as the estimate counts it: bare, without waste or spares.

    Raises:
        ValueError: the judgement has no mount.
    """
    if j.mount is None:
        raise ValueError("no mount, nothing to buy")
    work = work_of(j, j.mount, j.fasteners)
    return tuple(n for n in needs_of(j, j.mount, work, j.fasteners) if n.case == DRY)


def fasteners(j: Judgement) -> tuple[Need, ...]:
    """What holds engine, board and pod, like things together. Counts are bare: see `spares`."""
    return tuple(n for n in needs(j) if n.group == "fasteners" and n.amount > 0)


def spares(n: Need) -> int:
    """Spares of one thing: its share rounded up, at least one."""
    return max(1, math.ceil(n.amount * n.spares - 1e-9)) if n.spares else 0


def to_buy(j: Judgement, d: Drawing) -> tuple[Row, ...]:
    """All that is bought beside the sheets: plates, epoxy, angle, then bolts; count, spare, size, what."""
    rows = (*_plates(d), *_poured(j), *bolts_to_hand(j))
    return tuple(
        (count, spare, spelled(size, j.job.head.units), spelled(what, j.job.head.units))
        for count, spare, size, what in rows
    )


def _plates(d: Drawing) -> Iterator[Row]:
    """Blanks of plate, like ones together."""
    sizes = Counter((plate_size(p, d.identity.units), p.title) for p in d.plates)
    yield from ((str(n), "", size, f"plate, {title}") for (size, title), n in sizes.items())


def _poured(j: Judgement) -> Iterator[Row]:
    """Epoxy for glue lines, coats and plugs, and angle for the flange, each with its waste."""
    units = j.job.head.units
    for n in needs(j):
        amount = n.amount * (1.0 + n.waste)
        if n.kind == "epoxy":
            yield "", "", volume(amount, units), "epoxy, mixed; glue, coats, plugs and waste"
        elif (n.kind, n.name) == ("supply", "angle"):
            yield "", "", tape(1000.0 * amount, units, "up"), "aluminum angle for doublers"


def volume(liters: float, units: str) -> str:
    """A volume to mix, rounded up: fluid ounces, or hundredths of a liter."""
    if units == "us":
        return f"{math.ceil(liters / FLUID_OUNCE - 1e-9)} fl oz"
    return f"{math.ceil(liters * 20 - 1e-9) / 20:g} L"


def bolts_to_hand(j: Judgement) -> Iterator[Row]:
    """Count, spares, what, and of what sort, a row each."""
    for n in fasteners(j):
        yield f"{n.amount:.0f}", f"{spares(n)}", _what(n, j.setup.tables, j.job.head.units), SORT.get(n.kind, n.kind)


def _what(n: Need, tables: Catalogue, units: str) -> str:
    if n.kind == "plate_washer":
        side, t = (show.length(float(x), units, step="1/16", step_mm="0.5", unit=False) for x in n.name.split(" x "))
        return f"{side} x {side} x {t} {'in' if units == 'us' else 'mm'}"
    if n.kind != "bolt":
        return n.name
    thread, grade = n.name.split(" ", 1)
    row = tables.grade(grade, thread)
    metric = tables.thread(thread).system == "metric"
    return f"{thread} x {dual(n.size, units, metric=metric)}, {row.title.split(',')[0]} {grade}"
