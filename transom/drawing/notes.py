"""Words that stand on every page, and those that stand once on each drawing. None of them can be left out."""

from collections.abc import Iterable, Iterator

from transom.drawing.records import Drawing, Identity
from transom.drawing.shapes import text_width
from transom.drawing.words import board_words, counted, lean_words, short
from transom.report.text import clean

PRINT = "Print at 100 %, never fit."
HAZARDS = (
    "Engine on a hoist before the last bolt is out; key out, kill cord off.",
    "Eyes, ears and lungs covered for saw, router, drill and sander.",
    "Clamp what you bore; back it up so that the bit does not tear out.",
    "Epoxy burns skin and heats up in the pot: gloves, small batches, air.",
    "Metal plates: deburr every edge and hole before a hand goes near them.",
)


def paper_words(i: Identity) -> str:
    """QUOTE, CUT or RECORD; DRAFT and DOES NOT PASS where they are so."""
    return " - ".join((i.paper, *(["DRAFT"] if i.draft else []), *(["DOES NOT PASS"] if i.fails else [])))


def job_words(i: Identity) -> str:
    """Which job: number, name, revision, date; each cut short with three dots where it is endless."""
    number, name, revision = (short(w, most) for w, most in ((i.number, 24), (i.name, 80), (i.revision, 12)))
    return " - ".join(w for w in (f"JOB {number}".strip(), name, f"rev {revision}", i.date) if w)


def accepted_words(i: Identity) -> tuple[str, ...]:
    """Stops passed over, with name, date and the paper relied on."""
    return tuple(f"STOP passed over: {s}" for s in i.accepted)


def page_words(i: Identity) -> tuple[str, ...]:
    """What every page and every tile says, the paper's word first."""
    return (paper_words(i), job_words(i), *accepted_words(i))


def reasons(i: Identity) -> Iterator[str]:
    """Why it is a DRAFT and why it DOES NOT PASS."""
    if i.fails:
        yield f"DOES NOT PASS: {'; '.join(i.fails)}. Not to be built."
    if i.draft:
        yield f"DRAFT until this is measured: {'; '.join(i.draft)}."


def about(d: Drawing) -> Iterator[str]:
    """The board in words, and what the drawing cannot vouch for."""
    yield f"Board {board_words(d)}; {counted(d)}."
    yield lean_words(d)
    yield from d.doubts


def cautions(d: Drawing) -> tuple[str, ...]:
    """Every caution of the judgement, then the shop's hazards."""
    return (*d.identity.cautions, *HAZARDS)


def folded(words: str, size: float, room: float) -> list[str]:
    """Lines no longer than the room, mm; a word that is longer by itself is cut through, and none of it lost."""
    lines = [""]
    for word in _pieces(clean(words).split(" "), size, room):
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _pieces(words: Iterable[str], size: float, room: float) -> Iterator[str]:
    for word in words:
        rest = word
        while rest and text_width(rest, size) > room:
            fits = next(n for n in range(len(rest), 0, -1) if n == 1 or text_width(rest[:n], size) <= room)
            yield rest[:fits]
            rest = rest[fits:]
        if rest:
            yield rest
