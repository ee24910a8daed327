"""Section through the stack at an engine bolt, full size: aft on the left, the bolt's head there."""

from collections.abc import Iterator, Sequence

from transom.drawing import shapes as s
from transom.drawing.dimensions import REACH, Style, up
from transom.drawing.records import ENGINE, Bolt, Drawing, Slice, Stack
from transom.drawing.words import TURNED, size, stock
from transom.quantity import show
from transom.report.words import spelled

READ = 3.4  # mm, the font
STYLE = Style(READ, 8.0)
HALF = 44.0  # mm above and below the bolt that are shown
SPREAD = 7.0  # mm between two numbers over the section
FILL = {"wood": s.WOOD, "glue": s.GLUE, "coat": s.COAT, "ear": s.METAL, "plate": s.METAL, "washer": s.METAL}


def section(d: Drawing) -> s.Scene:
    """The stack cut through an upper bolt, or through the bare board where clamp screws hold the engine."""
    stack, units = d.stack, d.identity.units
    half = max([HALF, *(x.reach + 6.0 for x in stack.slices)])
    hole = next(iter(d.of(ENGINE)), None)
    bores = (0.0, 0.0) if hole is None else (hole.over_bore, hole.final)
    shapes: list[s.Shape] = [shape for x in stack.slices for shape in _slice(x, half, bores)]
    if stack.bolt is not None:
        shapes += _bolt(stack.bolt)
    shapes += _numbers(stack, half)
    shapes += _dimensions(d, half)
    right = s.around(tuple(shapes)).x_hi + 6.0
    shapes += _list(_lines(d), right, half)
    everything = (*shapes, *_ends(stack, half))
    title = "SECTION through the stack at an upper bolt, full size"
    return s.Scene(spelled(title, units), everything, s.around(everything).grown(3.0))


def _slice(x: Slice, half: float, bores: tuple[float, float]) -> Iterator[s.Shape]:
    """A thickness cut through; what runs past the view ends at its edge. In the wood the epoxy plug about the bolt."""
    reach = min(x.reach or half, half)
    yield s.rectangle(FILL[x.kind], s.Box(x.x_aft, -reach, x.x_fore, reach))
    bore, drill = bores
    if x.kind in ("wood", "glue", "coat") and bore:
        yield s.rectangle(s.EPOXY, s.Box(x.x_aft, -bore / 2, x.x_fore, bore / 2))
    if drill and x.kind != "washer":
        yield s.rectangle(s.BOLT, s.Box(x.x_aft, -drill / 2, x.x_fore, drill / 2))


def _bolt(b: Bolt) -> Iterator[s.Shape]:
    """Head, plain shank, thread to its root, and the nut."""
    yield s.rectangle(s.BOLT, s.Box(-b.head, -b.head_flats / 2, 0.0, b.head_flats / 2))
    yield s.rectangle(s.BOLT, s.Box(0.0, -b.d / 2, b.length, b.d / 2))
    yield s.rectangle(s.BOLT, s.Box(b.grip, -b.nut_flats / 2, b.grip + b.nut, b.nut_flats / 2))
    root = b.d / 2 - 0.6 * b.pitch
    yield from (s.Path(s.THREAD, ((b.shank, y), (b.length, y))) for y in (-root, root))
    yield s.Path(s.MARK, ((b.shank, -b.d / 2), (b.shank, b.d / 2)))
    yield s.Path(s.CENTER, ((-b.head - 5.0, 0.0), (b.length + 5.0, 0.0)))


def counted(stack: Stack) -> list[Slice]:
    """The slices that get a number: all but glue and coats."""
    return [x for x in stack.slices if x.kind not in ("glue", "coat")]


def _numbers(stack: Stack, half: float) -> Iterator[s.Shape]:
    """A number over each slice, spread so that they can be read, and a line down into the slice."""
    slices = counted(stack)
    middles = [(x.x_aft + x.x_fore) / 2 for x in slices]
    for i, (x, at, words_at) in enumerate(zip(slices, middles, spread(middles, SPREAD), strict=True), 1):
        top = min(x.reach or half, half)
        yield s.Path(s.EXTENSION, ((words_at, half + 6.0), (at, top - min(3.0, top / 2))))
        yield s.Label(words_at, half + 8.5, str(i), READ, bold=True)


def spread(middles: Sequence[float], least: float) -> list[float]:
    """The places moved as little as puts them `least` apart, in order: clusters grow about their own middle."""
    clusters: list[list[float]] = []
    for m in middles:
        clusters.append([m])
        while len(clusters) > 1 and _start(clusters[-1], least) < _end(clusters[-2], least) + least:
            clusters[-2:] = [clusters[-2] + clusters[-1]]
    return [_start(c, least) + i * least for c in clusters for i in range(len(c))]


def _start(cluster: Sequence[float], least: float) -> float:
    return sum(cluster) / len(cluster) - least * (len(cluster) - 1) / 2


def _end(cluster: Sequence[float], least: float) -> float:
    return _start(cluster, least) + least * (len(cluster) - 1)


def _dimensions(d: Drawing, half: float) -> Iterator[s.Shape]:
    """Below, one line each with its words on the left: board, what the bracket takes, grip, bolt, thread."""
    b = d.stack.bolt
    left = -(0.0 if b is None else b.head) - 8.0
    for i, (x_1, x_2, words) in enumerate(_measures(d), 1):
        y = -half - i * STYLE.step
        yield from (s.Path(s.EXTENSION, ((x, -half), (x, y - REACH))) for x in (x_1, x_2))
        yield s.Arrow(s.DIMENSION, (x_1, y), (x_2, y), both=True, head=STYLE.head)
        yield s.Label(left, y, words, READ, "end")
    if b is not None:
        beyond, wrench = b.grip + b.nut, f"{show.length(b.nut_flats, d.identity.units, step='1/16')} wrench"
        yield from up(-b.nut_flats / 2, b.nut_flats / 2, beyond, beyond, b.length + 10.0, wrench, STYLE)


def _measures(d: Drawing) -> Iterator[tuple[float, float, str]]:
    """From where to where, and what it is."""
    stack, units = d.stack, d.identity.units
    board = [x for x in stack.slices if x.kind in ("wood", "coat", "glue")]
    yield board[0].x_aft, board[-1].x_fore, f"board, coated {show.length(stack.coated, units, towards='up')}"
    b = stack.bolt
    if b is None:
        return
    under = [x for x in stack.slices if x.kind not in ("ear", "washer")]
    yield under[0].x_aft, under[-1].x_fore, f"under the bracket {show.length(stack.total, units, towards='up')}"
    yield 0.0, b.grip, f"grip {show.length(b.grip, units)}"
    yield 0.0, b.length, f"bolt length {show.length(b.length, units, step='1/16')}"
    yield b.shank, b.length, f"thread {show.length(b.thread, units)}"


def _lines(d: Drawing) -> Iterator[tuple[str, bool]]:
    """What each number is, the bolt, and the holes."""
    units, stack = d.identity.units, d.stack
    for i, x in enumerate(counted(stack), 1):
        yield f"{i}  {spelled(slice_words(d, x), units)}", False
    coat, glue = (next((x.thickness for x in stack.slices if x.kind == k), 0.0) for k in ("coat", "glue"))
    yield f"coat {show.measured(coat, units)} on each face" + (
        f", glue {show.measured(glue, units)} in each joint" if glue else ""), False  # fmt: skip
    b = stack.bolt
    if b is None:
        return
    yield f"BOLT {b.name} x {show.length(b.length, units, step='1/16', step_mm='1')}, {b.grade}", True
    yield (
        f"plain shank {show.length(b.shank, units)}, ends {show.length(b.grip - b.shank, units, towards='down')} inside the grip",
        False,
    )
    yield (
        f"lock nut {show.length(b.nut, units)} high at most; {show.length(b.beyond, units, towards='down')} of thread past it",
        False,
    )
    hole = d.of(ENGINE)[0]
    yield f"bore {size(hole.over_bore, units)} through the wood, fill with thickened epoxy,", False
    yield f"drill {size(hole.final, units)} when it is hard", False


def slice_words(d: Drawing, x: Slice) -> str:
    """A numbered slice with its thickness; a sheet with its name and the way of its grain."""
    units = d.identity.units
    if x.kind == "wood":
        part = next(p for p in d.layers if x.words.startswith(f"{p.number} "))
        return f"layer {part.number}: {part.nominal} sheet, measures {show.measured(x.thickness, units)}, grain {TURNED[part.grain].lower()}"
    if x.kind == "ear":
        return f"{x.words}, {show.length(x.thickness, units)} under the bolt head"
    return f"{x.words}, {stock(x.thickness, units) if x.kind == 'plate' else show.measured(x.thickness, units)}"


def _list(lines: Iterator[tuple[str, bool]], x: float, half: float) -> Iterator[s.Label]:
    for i, (words, bold) in enumerate(lines):
        yield s.Label(x, half - READ - i * 1.6 * READ, words, READ, "start", bold=bold)


def _ends(stack: Stack, half: float) -> Iterator[s.Shape]:
    """Which side is which."""
    board = [x for x in stack.slices if x.kind == "wood"]
    yield s.Label(board[0].x_aft - 3.0, half + 17.0, "AFT", READ, "end", bold=True)
    yield s.Label(board[-1].x_fore + 3.0, half + 17.0, "INSIDE", READ, "start", bold=True)
