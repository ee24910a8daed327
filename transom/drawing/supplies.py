"""Bolts, nuts and washers to have at hand, from what the estimate counts, with a spare of each."""

import math
from collections.abc import Iterator

from transom.catalogue import Catalogue
from transom.estimate.needs import Need, needs_of
from transom.estimate.work import work_of
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import dual

SORT = {"bolt": "bolt", "nut": "lock nut, new", "washer": "flat washer", "plate_washer": "plate washer"}


def fasteners(j: Judgement) -> tuple[Need, ...]:
    """What holds engine, board and pod, like things together. Counts are bare: see `spares`."""
    assert j.mount is not None
    work = work_of(j, j.mount, j.fasteners)
    return tuple(n for n in needs_of(j, j.mount, work, j.fasteners) if n.group == "fasteners" and n.amount > 0)


def spares(n: Need) -> int:
    """Spares of one thing: its share rounded up, at least one."""
    return max(1, math.ceil(n.amount * n.spares - 1e-9)) if n.spares else 0


def bolts_to_hand(j: Judgement) -> Iterator[tuple[str, str, str, str]]:
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
