"""A Letter page that words flow down, the paper's word over and under it: the largest type with which all fits on one."""

import io
from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from transom.drawing import notes
from transom.drawing.flowables import SMALL, words
from transom.drawing.ink import written
from transom.drawing.records import Identity

MARGIN = 30.0  # points, over 6 mm of paper that no printer reaches
Story = Callable[[float, float], Iterable[Any]]


def letter_pages(i: Identity, title: str, story: Story, sizes: Sequence[float]) -> bytes:
    """A PDF of what `story(size, room)` yields, points; the same words give the same bytes.

    The first of `sizes` that needs one page is taken, else the last, on as many pages as it needs.
    """
    made: dict[float, tuple[bytes, int]] = {}

    def fits(size: float) -> bool:
        made[size] = _built(i, title, story, size)
        return made[size][1] == 1

    # Smaller type never takes more pages, so that halving finds the first that fits.
    size = sizes[min(bisect_left(sizes, True, key=fits), len(sizes) - 1)]
    return made[size][0] if size in made else _built(i, title, story, size)[0]


def _built(i: Identity, title: str, story: Story, size: float) -> tuple[bytes, int]:
    from reportlab.lib.pagesizes import letter  # type: ignore[import-untyped]
    from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate  # type: ignore[import-untyped]

    out = io.BytesIO()
    wide, high = letter
    room = wide - 2 * MARGIN
    paper, job, *rest = notes.page_words(i)
    page = BaseDocTemplate(
        out, pagesize=letter, title=written(f"{i.number} {i.name}: {title.lower()}"), creator=i.tool, invariant=1
    )
    lines = [job, *rest]
    head = size * (2.2 + 1.25 * len(lines))
    inside = Frame(MARGIN, MARGIN + 1.5 * size, room, high - 2 * MARGIN - 1.5 * size - head, 0, 0, 0, 0)

    def around(c: Any, doc: Any) -> None:
        """What every page says, over and under."""
        y = high - MARGIN - size * 1.2
        c.setFont("Helvetica-Bold", size * 1.5)
        c.drawString(MARGIN, y, written(f"{title} - {paper}"))
        for n, line in enumerate(lines, 1):
            c.setFont("Helvetica-Bold", size * (1.1 if n == 1 else 1.0))
            c.drawString(MARGIN, y - 1.25 * size * n - 0.2 * size, _fitting(c, line, size, room))
        c.setFont("Helvetica", size * SMALL)
        c.drawString(MARGIN, MARGIN, written(f"{paper} - {i.tool}"))
        c.drawRightString(wide - MARGIN, MARGIN, f"page {doc.page}")

    page.addPageTemplates(PageTemplate(frames=[inside], onPage=around))
    page.build([*(words(text, size, bold=True) for text in notes.reasons(i)), *story(size, room)])
    return out.getvalue(), int(page.page)


def _fitting(c: Any, line: str, size: float, room: float) -> str:
    """The line, in smaller type where it is longer than the room: what every page says is never cut short."""
    text = written(line)
    wide = c.stringWidth(text, "Helvetica-Bold", size * 1.1)
    if wide > room:
        c.setFont("Helvetica-Bold", size * 1.1 * room / wide)
    return text
