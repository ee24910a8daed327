"""The field sheet: two pages to take to the boat, blank or with what the job already says."""

from collections.abc import Iterator, Mapping
from typing import Any

from transom.drawing.ink import FACE, MM, written
from transom.floor import paper
from transom.floor.photos import PHOTOS
from transom.interview.questions import FULL, YES_OR_NO, Question

US, SI = "us", "si"
# How close to measure, US and SI; what is not here is read or counted.
CLOSE: Mapping[str, tuple[str, str]] = {
    "board.width": ("1/16", "2"),
    "board.height": ("1/16", "2"),
    "board.pocket": ("1/32", "0.5"),
    "board.lean": ("1 deg", "1 deg"),
    "engine.bracket.upper_holes": ("1/32", "0.5"),
    "engine.bracket.lower_holes": ("1/32", "0.5"),
    "engine.bracket.rows_apart": ("1/32", "0.5"),
    "engine.bracket.top_to_upper": ("1/32", "0.5"),
    "engine.bracket.ear": ("1/16", "1"),
    "engine.kicker.y": ("1/4", "5"),
    "frame.flange.width": ("1/16", "1"),
    "frame.flange.thickness": ("0.01", "0.2"),
    "crossmembers.wall": ("0.005", "0.1"),
    "bracket.setback": ("1/8", "3"),
    "engine.weight": ("5 %", "5 %"),
}
LETTERS: Mapping[str, str] = {
    "engine.bracket.upper_holes": "a",
    "engine.bracket.lower_holes": "b",
    "engine.bracket.rows_apart": "c",
    "engine.bracket.top_to_upper": "d",
    "engine.bracket.ear": "e",
    "engine.takes": "f",
    "board.pocket": "g",
    "board.lean": "h",
}
CENTER = (
    "Center line by two references: measure from both outer edges of the hull or both tubes, top and bottom; mark the middle"
    " each time. The two marks of a row agree within {0}; if not, the boat is not square: say which edge you used.",
    "Then every hole from the center line, and once across the pair: left + right = across, within {0}, or measure again.",
    "Lean: plumb line from the top edge, so much out on so much down; or a level on the board.",
)


def field_sheet(units: str, known: Mapping[str, Any] | None = None) -> bytes:
    """Two pages as PDF; `known` are answers by dotted path, as the job holds them."""
    from reportlab.platypus import PageBreak  # type: ignore[import-untyped]

    found = dict(known or {})
    first = [q for stop in FULL for q in stop.asks if q.path not in LETTERS]
    second = [q for stop in FULL for q in stop.asks if q.path in LETTERS]
    close = "1/16 in" if units == US else "2 mm"
    flows = [
        _table(first, units, found),
        PageBreak(),
        _sketch(),
        _table(sorted(second, key=lambda q: LETTERS[q.path]), units, found, lettered=True),
        *(paper.words(line.format(close)) for line in CENTER),
        paper.words("Obstructions within 1 in of a bolt or plate, drains: what, across, down, how wide:"),
        paper.lines("", 2),
        paper.heading("PHOTOGRAPHS, by number"),
        paper.ticks([paper.Tick(f"{n}  {what}", "") for n, what in PHOTOS], columns=2),
        paper.words("? is an answer: not measured. Engine off, key out, kill cord off; nobody under a hanging engine."),
    ]
    return paper.pdf("FIELD SHEET", flows, units)


def _table(questions: list[Question], units: str, known: Mapping[str, Any], *, lettered: bool = False) -> paper.Flow:
    head = ["", "what, and how", "within", "found"] if lettered else ["what, and how", "within", "found"]
    rows = [_row(q, units, known, lettered=lettered) for q in questions]
    widths: list[float | None] = [None, 16.0, 44.0]
    return paper.dense([head, *rows], [6.0, *widths] if lettered else widths)


def _row(q: Question, units: str, known: Mapping[str, Any], *, lettered: bool) -> list[str]:
    close = CLOSE.get(q.path, ("", ""))[units == SI]
    unit = q.bare[units == SI] if q.bare[0] else ""
    within = f"{close} {unit}".strip() if close and not close.endswith(("%", "deg")) else close
    said = [_what(q), within, _shown(known.get(q.path))]
    return [LETTERS[q.path], *said] if lettered else said


def _what(q: Question) -> str:
    """The question on one line; choices with a box each."""
    if q.path in YES_OR_NO:
        name = "kicker on the same board" if q.path == "engine.kicker" else "setback or built bracket"
        return f"{name}:  [  ] yes  [  ] no"
    key, sections = q.key, q.path.split(".")[:-1]
    section = " ".join(sections) if sections[-1] == "bolts" else sections[-1]
    name = f"{section} {key.name}".replace("_", " ")
    if key.choices:
        return f"{name}:  " + "  ".join(f"[  ] {c}" for c in key.choices)
    if key.kind == "flag":
        return f"{name}: {key.how}  [  ] yes  [  ] no"
    return f"{name}: {key.how}"


def _shown(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return " to ".join(str(v) for v in value) if isinstance(value, list) else str(value)


def _lines() -> Iterator[tuple[float, float, float, float]]:
    """The sketch in mm: the bracket from aft, and the stack from the side."""
    yield from ((10, 4, 10, 52), (70, 4, 70, 52), (10, 52, 70, 52), (10, 4, 70, 4))  # board, seen from aft
    yield from ((95, 4, 95, 52), (101, 4, 101, 52), (95, 52, 101, 52), (95, 4, 101, 4))  # board, from the side
    yield from ((86, 10, 86, 46), (86, 46, 95, 46), (86, 10, 95, 10), (89, 46, 89, 10))  # bracket's ear
    yield from ((130, 4, 136, 52), (136, 52, 136, 4), (126, 4, 150, 4))  # lean against a plumb line


_HOLES = ((26, 44), (54, 44), (30, 20), (50, 20))
_DIMENSIONS = (
    (26, 38, 54, 38, "a"), (30, 14, 50, 14, "b"), (62, 20, 62, 44, "c"), (62, 44, 62, 52, "d"),
    (86, 30, 89, 30, "e"), (89, 24, 95, 24, "f"), (95, 16, 101, 16, "g"), (130, 30, 136, 30, "h"),
)  # fmt: skip
_WORDS = (
    (22, 55, "bracket from aft"),
    (82, 55, "from the side"),
    (122, 55, "lean: out on down"),
    (38, 27, "center line"),
)


def _sketch_class() -> type:
    from reportlab.platypus import Flowable

    class Sketch(Flowable):  # type: ignore[misc]
        """Lettered sketch of the bracket's holes, ear, what it takes, pocket and lean."""

        def __init__(self) -> None:
            super().__init__()
            self.width, self.height = 160 * MM, 60 * MM

        def draw(self) -> None:
            c = self.canv
            c.setLineWidth(0.8)
            for line in _lines():
                c.line(*(v * MM for v in line))
            for y, z in _HOLES:
                c.circle(y * MM, z * MM, 1.6 * MM)
            c.setLineWidth(0.4)
            c.setDash(4, 2)
            c.line(40 * MM, 2 * MM, 40 * MM, 54 * MM)
            c.setDash()
            for x1, y1, x2, y2, letter in _DIMENSIONS:
                c.line(x1 * MM, y1 * MM, x2 * MM, y2 * MM)
                c.setFont("Helvetica-Bold", 10)
                c.drawString(((x1 + x2) / 2 + 0.8) * MM, ((y1 + y2) / 2 + 0.8) * MM, letter)
            c.setFont(FACE, 7.5)
            for x, y, said in _WORDS:
                c.drawString(x * MM, y * MM, written(said))

    return Sketch


def _sketch() -> paper.Flow:
    return _sketch_class()()
