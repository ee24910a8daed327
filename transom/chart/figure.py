"""The chart as shapes in black and gray: lines told apart by dashes, marks and their names, never by color."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from transom.chart import words
from transom.chart.axes import HIGH, WIDE, Axes, axes
from transom.chart.records import Chart, Line, Point
from transom.drawing import shapes as s
from transom.drawing.labels import Taken, beside, obstacles
from transom.judge.notes import HP, PRACTICE
from transom.quantity import show
from transom.report.amounts import power
from transom.report.words import spelled

SIZE, SMALL = 3.0, 2.6  # mm, fonts
PIECE = 4.0  # mm of a slanting line that words keep off as one box
MARK = 1.4  # mm, half of a mark
COLUMN = 14.0  # mm, the least width of a column of boards
ROW = 4.6  # mm from one row of letters to the next
BELOW = -7.0  # mm, the middle of the powers' words


def scale(c: Chart) -> Axes:
    """Axes that hold every point, the job's own board and what the trade builds."""
    shown = [p.power for line in c.lines for p in line.points] + [c.own.facts["engine.power"].value]
    low, high = min(shown), max(shown)
    thick = [v for line in c.lines for p in line.points for v in _heights(p)]
    thick += [c.own.wood] if c.own.mount is not None else []
    thick += [t for a, b, _, ends in PRACTICE if a * HP < high and b * HP > low for t in ends]
    return axes((low, high), thick, c.own.job.head.units)


def _heights(p: Point) -> tuple[float, ...]:
    needs = () if p.needs is None else (p.needs.thickness,)
    return needs if p.failing else (*needs, p.wood)


def figure(c: Chart) -> s.Scene:
    """The field with its axes, the boards picked at its right, the letters under it."""
    a = scale(c)
    drawn = [
        *_field(a),
        *_trade(c, a),
        *_steps(c, a),
        *_limit(c, a),
        *(x for n in range(len(c.lines)) for x in _line(c, n, a)),
    ]
    drawn += _own_mark(c, a)
    around = [*_axis_words(c, a), *_columns(c, a), *_letters(c, a)]
    shapes = (*drawn, *_names(c, a, drawn), *around)
    return s.Scene("thickness of wood against engine power", shapes, s.around(shapes).grown(2.0))


def _field(a: Axes) -> Iterator[s.Shape]:
    yield s.rectangle(s.AXIS, a.field)


def _trade(c: Chart, a: Axes) -> Iterator[s.Shape]:
    """Gray: what the trade builds."""
    for box in trade_boxes(a):
        yield s.rectangle(s.TRADE, box)


def trade_boxes(a: Axes) -> tuple[s.Box, ...]:
    """Where the trade's boards lie in the field, at least a stroke thick."""
    out = []
    for low, high, _, (thin, thick) in PRACTICE:
        left, right = (_inside(a, watts * HP) for watts in (low, high))
        if right > left:
            out.append(s.Box(left, a.y(thin) - 0.5, right, a.y(thick) + 0.5))
    return tuple(out)


def _inside(a: Axes, watts: float) -> float:
    return 0.0 if watts <= 0 else min(WIDE, max(0.0, a.x(watts)))


def _steps(c: Chart, a: Axes) -> Iterator[s.Shape]:
    """A light line at each board picked from stock."""
    for wood in sorted({round(p.wood, 3) for line in c.lines for p in line.sized}):
        yield s.Path(s.STEP, ((0.0, a.y(wood)), (WIDE, a.y(wood))))


def _limit(c: Chart, a: Axes) -> Iterator[s.Shape]:
    plate = c.own.job.boat.plate_power
    if plate is not None and a.holds(plate):
        yield s.Path(s.LIMIT, ((a.x(plate), 0.0), (a.x(plate), HIGH)))


def _line(c: Chart, n: int, a: Axes) -> Iterator[s.Shape]:
    """A panel's line, its full marks on it and open ones at the boards; an open one crossed where nothing works."""
    line = c.lines[n]
    wanted = [p for p in line.points if p.needs is not None]
    for p, q in pairwise(wanted):
        purpose = s.NO_BOARD if q is line.ends else s.SERIES[n]
        yield s.Path(purpose, (_at(p, a), _at(q, a)))
    for p in line.sized:
        yield mark(s.OPEN_MARK, n, *a.at(p.power, p.wood))
    for p in wanted:
        x, y = _at(p, a)
        if p is line.ends:
            yield mark(s.OPEN_MARK, n, x, y)
            yield s.Path(s.AXIS, ((x - MARK, y - MARK), (x + MARK, y + MARK)))
            yield s.Path(s.AXIS, ((x - MARK, y + MARK), (x + MARK, y - MARK)))
        else:
            yield mark(s.FULL_MARK, n, x, y)


def _at(p: Point, a: Axes) -> s.Point:
    if p.needs is None:
        raise ValueError("no thickness, no place on the chart")
    return a.at(p.power, p.needs.thickness)


def mark(purpose: str, n: int, x: float, y: float, r: float = MARK) -> s.Ring | s.Path:
    """The n-th panel's mark: circle, square, triangle, diamond."""
    if n == 0:
        return s.Ring(purpose, x, y, 2 * r)
    corners = {
        1: ((-1, -1), (-1, 1), (1, 1), (1, -1)), 2: ((-1.1, -1), (0, 1.2), (1.1, -1)), 3: ((-1.3, 0), (0, 1.3), (1.3, 0), (0, -1.3)),
    }[n]  # fmt: skip
    return s.Path(purpose, tuple((x + r * i, y + r * k) for i, k in corners), closed=True)


def _own_mark(c: Chart, a: Axes) -> list[s.Shape]:
    """A heavy ring about the job's own board."""
    if c.own.mount is None:
        return []
    return [s.Ring(s.OWN_MARK, *a.at(c.own.facts["engine.power"].value, c.own.wood), 5 * MARK), _dot(c, a)]


def _dot(c: Chart, a: Axes) -> s.Ring:
    return s.Ring(s.FULL_MARK, *a.at(c.own.facts["engine.power"].value, c.own.wood), MARK)


def _names(c: Chart, a: Axes, drawn: Sequence[s.Shape]) -> Iterator[s.Shape]:
    """Words in the field, each at the first clear place beside what it names; a panel's with its mark.

    What finds no clear place is left out: the names stand over the field too, the job's own board under it.
    """
    taken = tuple(obstacles(piece for shape in drawn for piece in _pieces(shape)))
    for words_, box, n in _wanted(c, a):
        said = [spelled(ROOM * (n is not None) + w, c.own.job.head.units) for w in words_]
        placed = beside(said, box, SMALL, Taken(taken), a.field, bold=True)
        boxes = [label.box.grown(0.6) for label in placed]
        if any(b.meets(t) for b in boxes for t in taken) or not all(a.field.holds(b) for b in boxes):
            continue
        taken += tuple(boxes)
        yield from placed if n is None else _marked(placed[0], n)


def _marked(label: s.Label, n: int) -> Iterator[s.Shape]:
    """A panel's mark, then its name."""
    yield mark(s.FULL_MARK, n, label.box.x_lo + MARK, label.y)
    at = label.box.x_lo + s.text_width(ROOM, SMALL)
    yield replace(label, words=label.words.removeprefix(ROOM), x=at, anchor="start")


ROOM = "WW"  # stands where a panel's mark is put before its name


def _wanted(c: Chart, a: Axes) -> Iterator[tuple[tuple[str, ...], s.Box, int | None]]:
    """What is named in the field, beside what, and which panel's mark goes before it."""
    if c.own.mount is not None:
        x, y, r = *a.at(c.own.facts["engine.power"].value, c.own.wood), 2.5 * MARK
        yield words.own_words(c), s.Box(x - r, y - r, x + r, y + r), None
    for n, line in enumerate(c.lines):
        if line.points:
            yield (words.panel(line, c.own.setup.tables),), _middle(line, a), n
    if boxes := trade_boxes(a):
        yield ("what the trade builds",), max(boxes, key=lambda b: b.width), None


def _middle(line: Line, a: Axes) -> s.Box:
    """A small box at the middle of a line, where its name goes."""
    points = [p for p in line.points if p.needs is not None] or list(line.points)
    p = points[len(points) // 2]
    if p.needs is None:
        x, y = a.at(p.power, p.wood)
        return s.Box(x, y, x, y)
    return _spot(p, a)


def _spot(p: Point, a: Axes) -> s.Box:
    x, y = _at(p, a)
    return s.Box(x - MARK, y - MARK, x + MARK, y + MARK)


def _pieces(shape: s.Shape) -> Iterator[s.Shape]:
    """A slanting line in short pieces, so that words may come near it."""
    if not isinstance(shape, s.Path) or len(shape.points) != 2:
        yield shape
        return
    (x_0, y_0), (x_1, y_1) = shape.points
    n = max(1, round(max(abs(x_1 - x_0), abs(y_1 - y_0)) / PIECE))
    ends = [(x_0 + (x_1 - x_0) * i / n, y_0 + (y_1 - y_0) * i / n) for i in range(n + 1)]
    yield from (s.Path(shape.purpose, pair) for pair in pairwise(ends))


def _axis_words(c: Chart, a: Axes) -> Iterator[s.Shape]:
    """Thickness up the left, powers under the field; hp and kW both, whatever the units."""
    units = c.own.job.head.units
    yield from _legend(c)
    yield s.Label(0.0, HIGH + 8.0, "thickness of wood, all layers together", SMALL, "start", bold=True)
    plate = c.own.job.boat.plate_power
    if plate is not None and a.holds(plate):
        says = f"builder's plate, {power(plate, units)}: no more, however strong the board"
        half = s.text_width(says, SMALL) / 2
        yield s.Label(min(max(a.x(plate), half), WIDE - half), HIGH + 3.0, says, SMALL)
    yield s.Label(-2.5, BELOW + 2.0, "engine power", SMALL, "end", bold=True)
    for mm, says in a.marks(units):
        yield s.Path(s.AXIS, ((-1.5, a.y(mm)), (0.0, a.y(mm))))
        yield s.Label(-2.5, a.y(mm), says, SMALL, "end")
    for watts in _powers(c, a, 14.0):
        own, other = (show.power(watts, u) for u in (units, "si" if units == "us" else "us"))
        yield s.Label(a.x(watts), BELOW + 2.0, own, SMALL)
        yield s.Label(a.x(watts), BELOW - 1.6, other, SMALL)
    yield from (s.Path(s.AXIS, ((a.x(w), -1.5), (a.x(w), 0.0))) for w in _powers(c, a, 0.0))


def _powers(c: Chart, a: Axes, room: float) -> tuple[float, ...]:
    """Powers of the points, those left out whose words would lie on the next one's."""
    kept: list[float] = []
    for watts in sorted({p.power for line in c.lines for p in line.points}, reverse=True):
        if not kept or a.x(kept[-1]) - a.x(watts) >= room:
            kept.append(watts)
    return tuple(kept)


def _legend(c: Chart) -> Iterator[s.Shape]:
    """Over the field, each panel's line, mark and name."""
    x, y = 0.0, HIGH + 13.0
    for n, line in enumerate(c.lines):
        name = spelled(words.panel(line, c.own.setup.tables), c.own.job.head.units)
        yield s.Path(s.SERIES[n], ((x, y), (x + 14.0, y)))
        yield mark(s.FULL_MARK, n, x + 7.0, y)
        yield s.Label(x + 16.0, y, name, SMALL, "start", bold=True)
        x += 22.0 + s.text_width(name, SMALL)


def _letters(c: Chart, a: Axes) -> Iterator[s.Shape]:
    """Under each power, for each panel: which check sets the thickness, which is the weakest link of the board picked."""
    letter, shown = words.key(c), _powers(c, a, 6.5)
    y = BELOW - 7.5
    for n, line in enumerate(c.lines):
        for says, of in (("thickness set by", words.set_by), ("weakest link", words.linked)):
            yield mark(s.FULL_MARK, n, -27.0, y)
            yield s.Label(-2.5, y, says, SMALL, "end")
            yield from (
                s.Label(a.x(p.power), y, letter[of(p, c)], SIZE, bold=True) for p in line.sized if p.power in shown
            )
            if line.ends is not None and line.ends.power in shown:
                yield s.Label(a.x(line.ends.power), y, "none", SMALL)
            y -= ROW
        y -= 1.0


def _columns(c: Chart, a: Axes) -> Iterator[s.Shape]:
    """Right of the field, a column for each panel: the boards picked, at their thickness."""
    x = WIDE + 3.0
    for n, line in enumerate(c.lines):
        boards = {round(p.wood, 3): words.board(p.layers, c.own.setup.tables) for p in line.sized}
        yield mark(s.OPEN_MARK, n, x + 1.5, HIGH + 3.0)
        yield s.Label(x + 4.5, HIGH + 3.0, "picked", SMALL, "start", bold=True)
        for at, (wood, says) in zip(apart([a.y(w) for w in sorted(boards)]), sorted(boards.items()), strict=True):
            yield s.Path(s.STEP, ((x - 3.0, a.y(wood)), (x, a.y(wood)), (x + 3.0, at)))
            yield s.Label(x + 4.0, at, says, SMALL, "start")
        x += max([COLUMN, *(s.text_width(w, SMALL) + 6.0 for w in boards.values())]) + 2.0


def apart(heights: Sequence[float], gap: float = SMALL * 1.3) -> list[float]:
    """Heights, rising, moved up where words would lie on each other, then down where they would leave the field."""
    out: list[float] = []
    for y in heights:
        out.append(max(y, out[-1] + gap) if out else y)
    top = HIGH
    for i in reversed(range(len(out))):
        out[i] = min(out[i], top)
        top = out[i] - gap
    return out
