"""Pages before the tiles: which paper and why, what to print and tape and check, what is where, every caution."""

from collections.abc import Iterator, Sequence

from transom.drawing import ink, notes
from transom.drawing.band import fold
from transom.drawing.records import AFT, FORWARD, Drawing
from transom.drawing.taped import check_words
from transom.drawing.tiles import MARGIN, Layout
from transom.drawing.words import legend_words
from transom.frozen import dataclass
from transom.report.words import spelled

READ, SMALL, HEAD = 3.4, 3.0, 5.5  # mm
EDGE = MARGIN + 6.0


@dataclass(frozen=True)
class Listed:
    """A sheet as the cover lists it."""

    title: str
    layout: Layout
    first: int


@dataclass(frozen=True)
class Line:
    """A line of the cover: its words, the font, and the room over it, mm."""

    words: str
    size: float
    bold: bool = False
    over: float = 0.0


def cover_lines(d: Drawing, listed: Sequence[Listed], holes_only: bool, room: float) -> list[Line]:
    """Everything the cover says, folded to the room."""
    out: list[Line] = []
    for words, size, bold, over in _said(d, listed, holes_only):
        for k, line in enumerate(fold(words, size * (1.04 if bold else 1.0), room)):
            out.append(Line(line, size, bold, over if not k else 0.0))
    return out


def _said(d: Drawing, listed: Sequence[Listed], holes_only: bool) -> Iterator[tuple[str, float, bool, float]]:
    first, *rest = notes.page_words(d.identity)
    yield first, HEAD, True, 0.0
    yield from ((words, READ, False, 0.0) for words in (*rest, *notes.reasons(d.identity)))
    yield "FULL-SIZE TEMPLATE: HOLES ONLY" if holes_only else "FULL-SIZE TEMPLATE", READ * 1.2, True, 3.0
    yield from ((f"- {words}", READ, False, 0.0) for words in _how(d, holes_only))
    yield "AFTER TAPING, MEASURE", READ, True, 2.0
    yield from ((words, READ, False, 0.0) for words in check_words(d, holes_only))
    yield "WHAT IS WHERE", READ, True, 2.0
    if not holes_only:
        yield "Both faces with dimensions, and the section: the three pages before the template", READ, False, 0.0
    for s in listed:
        count = s.layout.columns * s.layout.rows
        pages = f"page {s.first}" if count == 1 else f"pages {s.first} to {s.first + count - 1}"
        across = f", {s.layout.columns} across and {s.layout.rows} down" if count > 1 else ""
        yield f"{s.title}: {pages}{across}", READ, False, 0.0
    yield from ((words, SMALL, False, 0.0) for words in (*notes.about(d), *_legends(d, holes_only)))
    yield "CAREFUL", READ, True, 2.0
    yield from ((f"- {words}", SMALL, False, 0.0) for words in notes.cautions(d))


def _legends(d: Drawing, holes_only: bool) -> tuple[str, ...]:
    if holes_only:
        return ()
    return f"Aft face. {legend_words(d, AFT)}", f"Forward face. {legend_words(d, FORWARD)}"


def _how(d: Drawing, holes_only: bool) -> Iterator[str]:
    yield f"{notes.PRINT} In the printer's box: actual size, no scaling, no fit to page."
    yield "Measure the check square of every page in both directions before you tape."
    yield "Lay each page over the next so that mark lies on mark, hold it to a window or a lamp, tape."
    yield spelled("Prick every hole's center through the paper with an awl. Drill by the sizes written, not by the rings.",
                  d.identity.units)  # fmt: skip
    if holes_only:
        yield "The old board is the outline. Lay TOP EDGE on its top edge and the line on its center line, found from both sides."


def cover(c: ink.Canvas, page: tuple[float, float], lines: Sequence[Line], d: Drawing, first: int, pages: int) -> int:
    """Draw the lines on as many pages as they take; how many. The paper's word heads each of them."""
    drawn = 0
    rest = list(lines)
    while rest or not drawn:
        y = page[1] - EDGE
        number = f"{d.identity.tool}, page {first + drawn} of {pages}"
        ink.text(c, page[0] - EDGE, MARGIN + 2.0, number, SMALL, anchor="end")
        ink.text(c, EDGE, MARGIN + 2.0, ink.cut(_foot(d), SMALL, page[0] - 2 * EDGE - 50.0), SMALL)
        while rest and y - rest[0].over - rest[0].size * 1.35 > EDGE + 4.0:
            line = rest.pop(0)
            y -= line.over + line.size * 1.35
            ink.text(c, EDGE, y, line.words, line.size, bold=line.bold)
        c.showPage()
        drawn += 1
        if drawn > 1 and not rest:
            break
    return drawn


def _foot(d: Drawing) -> str:
    return " - ".join((notes.paper_words(d.identity), notes.job_words(d.identity)))


def cover_pages(page: tuple[float, float], lines: Sequence[Line]) -> int:
    """How many pages the lines take."""
    count, y = 1, page[1] - EDGE
    for line in lines:
        need = line.over + line.size * 1.35
        if y - need <= EDGE + 4.0:
            count, y = count + 1, page[1] - EDGE
        y -= need
    return count
