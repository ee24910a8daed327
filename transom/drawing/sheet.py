"""A view made a page of its own: what every page says above it, notes and cautions below."""

from collections.abc import Iterator, Sequence

from transom.drawing import notes
from transom.drawing import shapes as s
from transom.drawing.records import Drawing

LEADING = 1.4


def sheet(view: s.Scene, d: Drawing, text: float, below: Sequence[str] = ()) -> s.Scene:
    """The view with its heading, its own notes and every caution; `text` is the font's size in the view's mm."""
    wide = max(view.box.width, 60 * text)
    left, top = view.box.x_lo + 0.5 * text, view.box.y_hi
    room = wide - text
    above = list(_above(view, d, text, room))
    heading = [
        s.Label(left, top + LEADING * text * (len(above) - i), words, size, "start", bold=bold)
        for i, (words, size, bold) in enumerate(above)
    ]
    lines = list(_below(d, below, text * 0.8, room))
    start = view.box.y_lo - 1.5 * text
    notes_ = [
        s.Label(left, start - LEADING * 0.8 * text * i, words, text * 0.8, "start", bold=bold)
        for i, (words, bold) in enumerate(lines)
    ]
    all_of_it = (*view.shapes, *heading, *notes_)
    height = LEADING * 0.8 * text * len(lines)
    box = s.Box(view.box.x_lo, start - height, view.box.x_lo + wide, top + LEADING * text * (len(above) + 1.2))
    return s.Scene(view.title, all_of_it, box)


def _above(view: s.Scene, d: Drawing, text: float, room: float) -> Iterator[tuple[str, float, bool]]:
    first, *rest = notes.page_words(d.identity)
    yield s.clipped(f"{first} - {view.title}", text * 1.1, room), text * 1.1, True
    for words in rest:
        yield from ((line, text, False) for line in notes.folded(words, text, room))
    for words in notes.reasons(d.identity):
        yield from ((line, text, False) for line in notes.folded(words, text, room))


def _below(d: Drawing, own: Sequence[str], text: float, room: float) -> Iterator[tuple[str, bool]]:
    for words in (*own, *notes.about(d)):
        yield from ((line, False) for line in notes.folded(words, text, room))
    yield "CAREFUL", True
    for words in notes.cautions(d):
        yield from ((line, False) for line in notes.folded(f"- {words}", text, room))
    yield d.identity.tool, False
