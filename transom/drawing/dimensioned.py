"""The aft view with its dimensions, to a scale that goes on one page."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from transom.drawing import shapes as s
from transom.drawing.dimensions import Style, across, off_words, up
from transom.drawing.labels import Taken, named
from transom.drawing.records import AFT, ENGINE, FORWARD, FRAME, OPENING, Drawing, Hole
from transom.drawing.views import Face, face_shapes, names, sign
from transom.drawing.words import spot
from transom.report.amounts import tape

PAGE = 250.0  # mm, the width that a face is drawn to
SCALES = (1, Fraction(1, 2), Fraction(2, 5), Fraction(1, 3), Fraction(1, 4), Fraction(1, 5), Fraction(1, 8))
READ = 3.4  # mm, the font on the page


def scale_for(d: Drawing) -> Fraction:
    """The largest usual scale at which the board and its dimensions go on a page."""
    wide = max(d.outline.width, d.outline.height)
    return next((Fraction(f) for f in SCALES if wide * float(f) <= PAGE * 0.85), Fraction(1, 10))


def dimensioned(d: Drawing, name: str = AFT) -> s.Scene:
    """A face with every distance the bench needs. Aft: the engine's holes; forward: plates and kept clear places."""
    text = READ / float(scale_for(d))
    style = Style(text, 2.2 * text)
    face = Face(name)
    shapes = face_shapes(d, name)
    holes = [face.ring(s.DRILL, h.y, h.down, h.largest).box for h in d.holes]
    lines = off_words((*_level(d, face, style, holes), *_upright(d, face, style, holes)))
    board = face.box(d.outline.rect)
    mark = sign(d, name, text, (*shapes, *lines), board)
    words = named(names(d, face, text, brief=True), text, Taken.by((*shapes, *lines, *mark)), board.grown(1.5 * text))
    everything = (*shapes, *lines, *mark, *words)
    ratio = scale_for(d)
    title = f"{name.upper()} FACE, scale {ratio.numerator}:{ratio.denominator}; dimensions decide, do not scale off"
    return s.Scene(title, everything, s.around(everything).grown(0.6 * text))


def rows(holes: Sequence[Hole]) -> list[list[Hole]]:
    """Holes by depth, top row first, each from port to starboard."""
    depths = sorted({round(h.down, 1) for h in holes})
    return [sorted((h for h in holes if round(h.down, 1) == at), key=lambda h: h.y) for at in depths]


def measured_rows(d: Drawing, face: Face) -> list[list[Hole]]:
    """What is dimensioned across: the engine's rows, and frame holes that are drilled as drawn."""
    new = [h for h in d.of(FRAME) if not h.kept] if face.name == FORWARD else []
    return rows(d.of(ENGINE)) if face.name == AFT else rows(new)


def _level(d: Drawing, face: Face, style: Style, holes: Sequence[s.Box]) -> Iterator[s.Shape]:
    """Across: the top row's spacing above the board, the others' below, then the board's width.

    Rows that stand alike are dimensioned once. Of each row from the center line first, then hole to hole.
    """
    units, bottom = d.identity.units, -d.outline.height
    above, below = 1, 1
    for i, row in enumerate(unlike(measured_rows(d, face))):
        at = sorted(face.at(h.y, h.down) for h in row)
        edge = 0.0 if i == 0 else bottom
        spans = [((0.0, edge), at[-1])] + [(at[0], at[-1])] * (len(at) > 1)
        for (x_1, from_1), (x_2, from_2) in spans:
            y = above * style.step if i == 0 else bottom - below * style.step
            above, below = (above + 1, below) if i == 0 else (above, below + 1)
            yield from across(x_1, x_2, from_1, from_2, y, spot(abs(x_2 - x_1), units), style, holes)
    half, y = d.outline.width / 2, bottom - below * style.step
    yield from across(-half, half, bottom, bottom, y, tape(d.outline.width, units), style)
    if d.outline.notched:
        n, y = d.outline.notch_width / 2, above * style.step
        yield from across(-n, n, 0.0, 0.0, y, tape(d.outline.notch_width, units), style)
        above += 1
    if d.outline.top:
        yield from across(
            -half, -d.outline.top_half, 0.0, 0.0, above * style.step, tape(d.outline.top.width, units), style
        )
    if d.outline.bottom:
        yield from across(-half, -d.outline.bottom_half, bottom, bottom, (-below - 1) * style.step + bottom,
                          tape(d.outline.bottom.width, units), style)  # fmt: skip


def unlike(found: Sequence[list[Hole]]) -> list[list[Hole]]:
    """The first of the rows that stand alike across."""
    kept: dict[tuple[float, ...], list[Hole]] = {}
    for row in found:
        kept.setdefault(tuple(round(h.y, 1) for h in row), row)
    return list(kept.values())


def alike(d: Drawing, name: str) -> bool:
    """True where some row stands like another and is left out."""
    found = measured_rows(d, Face(name))
    return len(unlike(found)) < len(found)


def _upright(d: Drawing, face: Face, style: Style, holes: Sequence[s.Box]) -> Iterator[s.Shape]:
    """Down from the top edge, on the right: every row, every opening, the board's height; the notch on the left."""
    units, right = d.identity.units, d.outline.width / 2
    things = [
        *(max(row, key=lambda h: face.at(h.y, h.down)) for row in measured_rows(d, face)),
        *(d.of(OPENING) if face.name == AFT else ()),
    ]
    level = 1
    for h in sorted(things, key=lambda h: (h.down, h.name)):
        x, y = face.at(h.y, h.down)
        yield from up(0.0, y, right, x, right + level * style.step, spot(h.down, units), style, holes)
        level += 1
    x = right + level * style.step
    yield from up(0.0, -d.outline.height, right, right, x, tape(d.outline.height, units), style)
    if d.outline.notched:
        words = tape(d.outline.notch_depth, units)
        yield from up(0.0, -d.outline.notch_depth, -right, -right, -right - style.step, words, style)
    o, level = d.outline, 2 if d.outline.notched else 1
    for cut, low, high in ((o.top, -o.top.height, 0.0), (o.bottom, -o.height, o.bottom.height - o.height)):
        if cut:
            yield from up(low, high, -right, -right, -right - level * style.step, tape(cut.height, units), style)
