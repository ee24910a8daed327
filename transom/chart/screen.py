"""The chart as lines for the terminal: each panel at each power, then what the paper says too."""

from collections.abc import Iterator
from dataclasses import replace

from transom.chart import words
from transom.chart.page import chart_identity
from transom.chart.records import NOTHING, Chart, Line, Point
from transom.drawing import notes
from transom.quantity import show
from transom.report.amounts import percent, power
from transom.report.page import head
from transom.report.text import block, columns, rule
from transom.report.words import spelled

WIDTHS = (12, 12, 26, 28)


def chart_screen(c: Chart) -> Iterator[str]:
    """Line by line."""
    i = chart_identity(c)
    yield from head(replace(c.own, paper=i.paper))
    yield " THICKNESS OF WOOD AGAINST ENGINE POWER"
    yield from (x for said in notes.reasons(i) for x in block("", said, at=0))
    for line in c.lines:
        yield from _line(line, c)
    yield rule()
    yield from _own(c)
    yield from (x for said in words.stopped(c) for x in block("", said, at=0))
    for heading, lines in (("ASSUMED", words.assumed(c)), ("CAREFUL", i.cautions)):
        yield f" {heading}"
        yield from (x for said in lines for x in block("", f"- {said}", at=2))


def _line(line: Line, c: Chart) -> Iterator[str]:
    yield rule()
    yield f" {spelled(words.panel(line, c.own.setup.tables), c.own.job.head.units)}"
    yield from columns([("power", "needs", "picked", "weakest link of it")], WIDTHS)
    yield from columns((_row(p, c) for p in line.points), WIDTHS)
    if not line.points:
        yield from block("", "nothing in stock comes near", at=2)


def _row(p: Point, c: Chart) -> tuple[str, str, str, str]:
    units = c.own.job.head.units
    built = f"{words.board(p.layers, c.own.setup.tables)}: {show.measured(p.wood, units)}"
    picked = "NOTHING IN STOCK WORKS" if p.state == NOTHING else built
    weakest = f"{words.linked(p, c)}, {percent(p.weakest.utilisation)}"
    return show.power(p.power, units), words.needs(p, units), picked, weakest


def _own(c: Chart) -> Iterator[str]:
    j = c.own
    says = "; ".join(words.own_words(c)).capitalize() if j.mount is None else "; ".join(words.own_words(c)[1:])
    yield from block("THIS JOB", f"{power(j.facts['engine.power'].value, j.job.head.units)}: {says}")
