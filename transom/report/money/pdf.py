# mypy: disable-error-code="import-untyped, misc"
"""A document as PDF on Letter or A4: the same bytes for the same words, its marks on every page."""

import io
from typing import Any
from xml.sax.saxutils import escape

from transom.report.money.document import Block, Box, Bullets, Document, Heading, Table, Text
from transom.report.text import printable

MARGIN = 42.0  # pt
INSET = 6.0  # of reportlab's frame about its text
RED = "#8a1200"
NOTE, NOTE_SIZE = 9.0, 7.5  # from line to line, and the size of its letters


def to_pdf(document: Document, units: str = "us") -> bytes:
    """The pages: Letter for readers of inches, else A4."""
    from reportlab.lib.pagesizes import A4, LETTER
    from reportlab.platypus import SimpleDocTemplate

    out = io.BytesIO()
    page = LETTER if units == "us" else A4
    width = page[0] - 2 * MARGIN - 2 * INSET
    notes = _notes(document, width)
    template = SimpleDocTemplate(out, pagesize=page, leftMargin=MARGIN, rightMargin=MARGIN, topMargin=MARGIN + 12,
                                 bottomMargin=MARGIN + NOTE * len(notes), invariant=1, title=plain(document.title), author=plain("".join(document.shop[:1])),
                                 subject=plain(document.running))  # fmt: skip
    template.build(_story(document, width), canvasmaker=_numbered(document, page, notes))
    return out.getvalue()


def _notes(d: Document, width: float) -> list[str]:
    """What stands at the foot of every page beside its marks, in lines that fit."""
    from reportlab.lib.utils import simpleSplit

    return [line for note in d.notes for line in simpleSplit(plain(note), "Helvetica", NOTE_SIZE, width)]


def plain(text: str) -> str:
    """Text that the built-in fonts hold: the nearest letter for what they lack, else a question mark."""
    return printable(text.replace("\n", " "), "cp1252")


def _style(size: float = 10.0, **more: Any) -> Any:
    from reportlab.lib.styles import ParagraphStyle

    return ParagraphStyle(f"s{size}{sorted(more.items())}", fontName=more.pop("fontName", "Helvetica"), fontSize=size,
                          leading=size * 1.28, **more)  # fmt: skip


def _paragraph(text: str, style: Any) -> Any:
    from reportlab.platypus import Paragraph

    return Paragraph(escape(plain(text)), style)


def _story(d: Document, width: float) -> list[Any]:
    from reportlab.platypus import Spacer

    bold = "Helvetica-Bold"
    story = [_paragraph(line, _style(12 if i == 0 else 9.5, fontName=bold if i == 0 else "Helvetica"))
             for i, line in enumerate(d.shop)]  # fmt: skip
    story += [Spacer(1, 5), _paragraph(d.title, _style(17, fontName=bold, spaceAfter=2))]
    story += [_paragraph(d.subtitle, _style(10))] if d.subtitle else []
    for block in d.blocks:
        story += _drawn(block, width, 0.82 if d.dense else 1.0)
    return story


def _drawn(b: Block, width: float, scale: float) -> list[Any]:
    bold = "Helvetica-Bold"
    if isinstance(b, Heading):
        return [_paragraph(b.text, _style(11.5, fontName=bold, spaceBefore=9, spaceAfter=3, keepWithNext=1))]
    if isinstance(b, Text):
        if b.warning:
            frame = {"borderColor": RED, "borderWidth": 1.5, "borderPadding": 4, "textColor": RED}
            return [_paragraph(b.text, _style(10.5, fontName=bold, spaceBefore=7, spaceAfter=7, **frame))]
        return [
            _paragraph(b.text, _style(13 if b.strong else 10, fontName=bold if b.strong else "Helvetica", spaceAfter=3))
        ]
    if isinstance(b, Bullets):
        size = scale * (8.5 if b.small else 9.5)
        return [_paragraph(f"- {x}", _style(size, leftIndent=9, firstLineIndent=-9, spaceAfter=1.5)) for x in b.items]
    return [_table(b, width, scale)] if isinstance(b, Table) else [_box(b, width)]


def _table(b: Table, width: float, scale: float) -> Any:
    from reportlab.platypus import Table as Grid

    rows = [b.header, *b.rows] if any(b.header) else list(b.rows)
    first = len(rows) - len(b.rows)
    bold = set(range(first)) | {first + i for i in b.strong}
    cells = [[_cell(x, i in bold, j in b.right, 9 * scale) for j, x in enumerate(row)] for i, row in enumerate(rows)]
    grid = Grid(cells, colWidths=[w * width for w in b.widths], repeatRows=first, hAlign="LEFT")
    grid.setStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), ("LINEBELOW", (0, 0), (-1, -1), 0.4, "#bbbbbb"),
                   ("LEFTPADDING", (0, 0), (-1, -1), 1), ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                   ("TOPPADDING", (0, 0), (-1, -1), 1.5 * scale**3), ("BOTTOMPADDING", (0, 0), (-1, -1), 2.5 * scale**3)])  # fmt: skip
    return grid


def _cell(text: str, bold: bool, right: bool, size: float) -> Any:
    return _paragraph(
        text, _style(size, fontName="Helvetica-Bold" if bold else "Helvetica", alignment=2 if right else 0)
    )


def _box(b: Box, width: float) -> Any:
    """A frame with squares to tick and lines to write on, kept on one page."""
    from reportlab.platypus import KeepTogether, Spacer
    from reportlab.platypus import Table as Grid

    parts = [(0.3 * width, 0.7 * width)]
    rows: list[list[Any]] = [[_paragraph(b.title, _style(11.5, fontName="Helvetica-Bold")), ""]]
    rows += [[_tick(x, width), ""] for x in b.ticks]
    rows += [[_paragraph(x, _style(9.5)), _line(parts[0][1])] for x in b.blanks]
    first = 1 + len(b.ticks)
    style: list[Any] = [("BOX", (0, 0), (-1, -1), 1.2, "#333333"), ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
                        ("BOTTOMPADDING", (0, -1), (-1, -1), 10)]  # fmt: skip
    style += [("SPAN", (0, i), (1, i)) for i in range(first)]
    style += [("TOPPADDING", (0, i), (-1, i), 13) for i in range(first, len(rows))]
    grid = Grid(rows, colWidths=parts[0], hAlign="LEFT")
    grid.setStyle(style)
    return KeepTogether([Spacer(1, 8), grid])


def _line(width: float) -> Any:
    """A line to write on, clear of the frame."""
    from reportlab.platypus import HRFlowable

    return HRFlowable(width=width - 20, thickness=0.6, color="#333333", spaceAfter=1, hAlign="LEFT")


def _tick(text: str, width: float) -> Any:
    from reportlab.platypus import Table as Grid

    grid = Grid([["", _paragraph(text, _style(9.5))]], colWidths=[12, width - 30])
    grid.setStyle([("BOX", (0, 0), (0, 0), 0.9, "#333333"), ("VALIGN", (0, 0), (-1, -1), "MIDDLE"), ("TOPPADDING", (0, 0), (-1, -1), 0),
                   ("BOTTOMPADDING", (0, 0), (-1, -1), 1), ("LEFTPADDING", (0, 0), (0, 0), 0)])  # fmt: skip
    return grid


def _numbered(d: Document, page: tuple[float, float], notes: list[str]) -> Any:
    """A canvas that writes the document's marks and "page 1 of 2" on every page once it knows how many there are."""
    from reportlab.pdfgen.canvas import Canvas

    class Numbered(Canvas):
        def __init__(self, *args: Any, **kwargs: Any) -> None:
            super().__init__(*args, **kwargs)
            self.kept: list[dict[str, Any]] = []

        def showPage(self) -> None:  # noqa: N802 - reportlab's name
            self.kept.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for i, state in enumerate(self.kept, 1):
                self.__dict__.update(state)
                _marks(self, d, page, notes, f"page {i} of {len(self.kept)}")
                super().showPage()
            super().save()

    return Numbered


def _marks(canvas: Any, d: Document, page: tuple[float, float], notes: list[str], number: str) -> None:
    canvas.setFont("Helvetica-Bold", 9)
    canvas.drawRightString(page[0] - MARGIN, page[1] - MARGIN + 4, plain(" - ".join(d.marks)))
    canvas.setFont("Helvetica", 8.5)
    canvas.drawString(MARGIN, page[1] - MARGIN + 4, plain(d.title))
    canvas.drawString(MARGIN, MARGIN - 14, plain(d.running))
    canvas.drawRightString(page[0] - MARGIN, MARGIN - 14, number)
    canvas.setFont("Helvetica", NOTE_SIZE)
    for i, line in enumerate(reversed(notes)):
        canvas.drawString(MARGIN, MARGIN - 3 + NOTE * i, line)
