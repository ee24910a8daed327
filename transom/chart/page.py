"""The chart as a page: what every page says above it, how to read it, what it rests on and every caution below."""

from collections.abc import Iterator
from dataclasses import replace

from transom.chart import words
from transom.chart.figure import SIZE, SMALL, figure
from transom.chart.records import Chart
from transom.drawing import notes
from transom.drawing import shapes as s
from transom.drawing.identity import identity
from transom.drawing.records import Identity
from transom.drawing.svg import svg

LEADING = 1.45
WORD_ROOM = 240.0  # mm, the least a page is wide


def chart_identity(c: Chart) -> Identity:
    """What the page says of itself: good for a price at most, since it rests on engines that nobody weighed."""
    return replace(identity(c.own), paper="QUOTE", cautions=words.cautions(c))


def chart_svg(c: Chart) -> str:
    """The whole file."""
    return svg(page(c))


def page(c: Chart) -> s.Scene:
    """The figure with its words above and below."""
    view, i = figure(c), chart_identity(c)
    wide = max(view.box.width, WORD_ROOM)
    left, room = view.box.x_lo + 2.0, wide - 4.0
    above, below = list(_above(i, room)), list(_below(c, i, room))
    y = view.box.y_hi + LEADING * SIZE * len(above)
    head = [
        s.Label(left, y - LEADING * SIZE * n, line, size, "start", bold=bold)
        for n, (line, size, bold) in enumerate(above)
    ]
    start = view.box.y_lo - SMALL
    under = [
        s.Label(left, start - LEADING * SMALL * n, line, SMALL, "start", bold=bold)
        for n, (line, bold) in enumerate(below)
    ]
    box = s.Box(view.box.x_lo, start - LEADING * SMALL * (len(below) + 1), view.box.x_lo + wide, y + LEADING * SIZE)
    return s.Scene(view.title, (*view.shapes, *head, *under), box)


def _above(i: Identity, room: float) -> Iterator[tuple[str, float, bool]]:
    first, *rest = notes.page_words(i)
    yield s.clipped(f"{first} - Thickness of wood against engine power", SIZE * 1.2, room), SIZE * 1.2, True
    for line in (*rest, *notes.reasons(i)):
        yield from ((folded, SIZE, False) for folded in notes.folded(line, SIZE, room))


def _below(c: Chart, i: Identity, room: float) -> Iterator[tuple[str, bool]]:
    for line in (*words.reading(c), *words.stopped(c)):
        yield from ((folded, False) for folded in notes.folded(line, SMALL, room))
    for heading, lines in (("ASSUMED", words.assumed(c)), ("CAREFUL", i.cautions)):
        yield heading, True
        for line in lines:
            yield from ((folded, False) for folded in notes.folded(f"- {line}", SMALL, room))
    yield i.tool, False
