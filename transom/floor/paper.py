"""Pages to print and to write on: headings, lines of words, boxes to tick, tables, room to write. PDF, same bytes each time."""

from collections.abc import Callable, Sequence
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from transom.drawing.ink import BOLD, FACE, MM, cut, text, written
from transom.drawing.notes import job_words, paper_words, reasons
from transom.drawing.records import Identity
from transom.drawing.words import short
from transom.frozen import dataclass

PAPERS = {"us": (215.9, 279.4), "si": (210.0, 297.0)}
MARGIN, HEAD, FOOT = 14.0, 14.0, 10.0  # mm
SIZE = 9.0
DENSE = 7.6
MOST_STOPS = 4

Flow = Any  # reportlab says nothing of its types


@dataclass(frozen=True)
class Tick:
    """Something to tick: a box, what it is for, and a line for initials or a figure with its unit."""

    words: str
    line: str = "initials"


def heading(words: str) -> Flow:
    """A heading that stays with what follows."""
    return _para(words, SIZE + 2.5, bold=True, before=7.0, keep=True)


def words(said: str, *, bold: bool = False) -> Flow:
    """A paragraph; nothing in it is markup."""
    return _para(said, SIZE, bold=bold, before=1.5)


def ticks(found: Sequence[Tick], columns: int = 2) -> Flow:
    """Boxes to tick, some in a row."""
    from reportlab.lib.colors import black  # type: ignore[import-untyped]
    from reportlab.platypus import Table, TableStyle  # type: ignore[import-untyped]

    cells = [("", _para(t.words, SIZE), f"______________ {written(t.line)}" if t.line else "") for t in found]
    cells += [("", "", "")] * (-len(cells) % columns)
    rows = [[c for cell in cells[i : i + columns] for c in cell] for i in range(0, len(cells), columns)]
    box, line = 5.0 * MM, 36.0 * MM
    table = Table(rows, colWidths=[box, None, line] * columns)
    style = [("FONT", (0, 0), (-1, -1), FACE, SIZE - 1.5), ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
             ("TOPPADDING", (0, 0), (-1, -1), 3), ("BOTTOMPADDING", (0, 0), (-1, -1), 3)]  # fmt: skip
    style += [
        ("BOX", (3 * i, n), (3 * i, n), 0.8, black)
        for n, row in enumerate(rows)
        for i in range(columns)
        if row[3 * i + 1]
    ]
    table.setStyle(TableStyle(style))
    return table


def table(rows: Sequence[Sequence[str]], widths: Sequence[float | None] | None = None, *, head: bool = True) -> Flow:
    """A table of words; empty cells are for a pen. `widths` in mm."""
    from reportlab.lib.colors import Color
    from reportlab.platypus import Table, TableStyle

    cells = [[_para(c, SIZE - 0.5, bold=head and n == 0) for c in row] for n, row in enumerate(rows)]
    made = Table(cells, colWidths=[w * MM if w else None for w in widths] if widths else None, repeatRows=int(head))
    gray = Color(0.55, 0.55, 0.55)
    style = [("GRID", (0, 0), (-1, -1), 0.4, gray), ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
             ("TOPPADDING", (0, 0), (-1, -1), 2), ("BOTTOMPADDING", (0, 0), (-1, -1), 3)]  # fmt: skip
    made.setStyle(TableStyle(style))
    return made


def dense(rows: Sequence[Sequence[str]], widths: Sequence[float | None]) -> Flow:
    """A table with as many rows on a page as can still be written on by hand."""
    from reportlab.lib.colors import Color
    from reportlab.platypus import Table, TableStyle

    cells = [[_para(c, DENSE, bold=n == 0) for c in row] for n, row in enumerate(rows)]
    made = Table(cells, colWidths=[w * MM if w else None for w in widths], repeatRows=1)
    made.setStyle(TableStyle([("GRID", (0, 0), (-1, -1), 0.3, Color(0.6, 0.6, 0.6)), ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                              ("TOPPADDING", (0, 0), (-1, -1), 1.0), ("BOTTOMPADDING", (0, 0), (-1, -1), 3.0)]))  # fmt: skip
    return made


def signatures(names: Sequence[str]) -> Flow:
    """Room to sign and date, one beside the other."""
    from reportlab.platypus import Table, TableStyle

    made = Table([[f"{n}:" for n in names], ["date:"] * len(names)], rowHeights=[13 * MM, 7 * MM])
    made.setStyle(TableStyle([("GRID", (0, 0), (-1, -1), 0.4, "#777777"), ("FONT", (0, 0), (-1, -1), FACE, SIZE - 1),
                              ("VALIGN", (0, 0), (-1, -1), "TOP")]))  # fmt: skip
    return made


def lines(label: str, count: int = 1) -> Flow:
    """Room to write: a label and lines under it."""
    from reportlab.platypus import Table, TableStyle

    made = Table([[_para(label, SIZE - 0.5)], *[[""]] * count], rowHeights=[None, *[7.0 * MM] * count])
    made.setStyle(TableStyle([("LINEBELOW", (0, 1), (-1, -1), 0.4, "#777777"), ("TOPPADDING", (0, 0), (-1, 0), 4),
                              ("BOTTOMPADDING", (0, 0), (-1, 0), 0)]))  # fmt: skip
    return made


def together(flows: Sequence[Flow]) -> Flow:
    """Flows that stay on one page where they fit."""
    from reportlab.platypus import KeepTogether

    return KeepTogether(list(flows))


def pdf(title: str, flows: Sequence[Flow], units: str, identity: Identity | None = None) -> bytes:
    """The pages. With an identity every page says the paper's word, the job, stops passed over and DOES NOT PASS."""
    from reportlab.platypus import SimpleDocTemplate

    wide, high = PAPERS[units]
    stops = identity.accepted[:MOST_STOPS] if identity else ()
    head = HEAD + 4.0 * len(stops) + (4.0 if identity and (identity.fails or identity.draft) else 0.0)
    put, size = BytesIO(), (wide * MM, high * MM)
    made = SimpleDocTemplate(
        put, pagesize=size, leftMargin=MARGIN * MM, rightMargin=MARGIN * MM, topMargin=(MARGIN + head) * MM,
        bottomMargin=(MARGIN + FOOT) * MM, invariant=1, title=written(title), author="transom",
    )  # fmt: skip
    frame = _frame(title, identity, (wide, high))
    made.build(list(flows), onFirstPage=frame, onLaterPages=frame)
    return put.getvalue()


def _frame(title: str, identity: Identity | None, size: tuple[float, float]) -> Callable[[Any, Any], None]:
    wide, high = size
    room = wide - 2 * MARGIN

    def frame(c: Any, document: Any) -> None:
        y = high - MARGIN - 4
        text(c, MARGIN, y, title, 4.2, bold=True)
        if identity:
            text(c, wide - MARGIN, y, paper_words(identity), 4.2, bold=True, anchor="end")
            text(c, MARGIN, y - 5, cut(job_words(identity), 2.9, room), 2.9)
            y -= 9
            for said in (*_one_line(identity), *(f"STOP passed over: {s}" for s in identity.accepted[:MOST_STOPS])):
                text(c, MARGIN, y, cut(said, 2.6, room, bold=True), 2.6, bold=True)
                y -= 4
        tool = f"{identity.tool}, job {identity.sha256[:12]}" if identity else "transom"
        text(c, MARGIN, MARGIN - 4, short(tool, 60), 2.4)
        text(c, wide - MARGIN, MARGIN - 4, f"page {document.page}", 2.4, anchor="end")
        text(
            c, MARGIN, MARGIN, "Builder, engine manual, surveyor or engineer and local rules go before this paper.", 2.4
        )

    return frame


def _one_line(identity: Identity) -> tuple[str, ...]:
    return tuple(reasons(identity))[:1]


def _para(said: str, size: float, *, bold: bool = False, before: float = 0.0, keep: bool = False) -> Flow:
    from reportlab.lib.styles import ParagraphStyle  # type: ignore[import-untyped]
    from reportlab.platypus import Paragraph

    style = ParagraphStyle("words", fontName=BOLD if bold else FACE, fontSize=size, leading=size * 1.25,
                           spaceBefore=before, keepWithNext=int(keep), splitLongWords=1)  # fmt: skip
    return Paragraph(escape(written(said)), style)
