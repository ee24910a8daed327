"""The cuts of a nest: straight through, one after another, until every blank lies alone."""

from collections.abc import Iterator, Sequence

from transom.frozen import dataclass
from transom.nesting.records import Box, Cut, Placed

NEAR = 1e-6  # mm, dust of floats
KEEP = 150.0  # mm, the smaller side of a piece that is worth a place on the rack


@dataclass(frozen=True)
class Sawn:
    """What sawing a piece makes: its cuts in order, and what is left over."""

    cuts: tuple[Cut, ...]
    left: tuple[Box, ...]


def sawn(whole: Box, placed: Sequence[Placed], kerf: float) -> Sawn:
    """The cuts that free the blanks on a piece.

    Each cut is the one that keeps the largest piece worth keeping whole, else the shortest and the nearest. Any
    cut that goes through between blanks leaves two pieces that can be cut on, so none is ever taken back.

    Raises:
        ValueError: some blanks cannot be freed by cuts straight through, a saw's width apart.
    """
    boxes = [p.box for p in placed]
    if not boxes:
        return Sawn((), (whole,))
    if len(boxes) == 1 and _same(boxes[0], whole):
        return Sawn((), ())
    options = list(_cuts(whole, boxes, kerf))
    if not options:
        raise ValueError("no straight cut frees these blanks")
    cut = max(options, key=lambda option: _worth(option, boxes))
    after = [sawn(part, [p for p in placed if _inside(p.box, part)], kerf) for part in cut.parts]
    return Sawn((cut, *(c for s in after for c in s.cuts)), tuple(b for s in after for b in s.left))


def _worth(cut: Cut, boxes: Sequence[Box]) -> tuple[float, float, float, float]:
    kept = (p for p in cut.parts if min(p.length, p.width) >= KEEP and not any(_inside(b, p) for b in boxes))
    bare = max((p.area for p in kept), default=0.0)
    long = cut.box.width if cut.across else cut.box.length
    return (round(bare, 3), -round(long, 3), -cut.box.x0, -cut.box.y0)


def _cuts(whole: Box, boxes: Sequence[Box], kerf: float) -> Iterator[Cut]:
    """Every cut beside a blank that runs straight through, and the one or two pieces it leaves."""
    for x0, x1 in _blades([(b.x0, b.x1) for b in boxes], whole.x0, whole.x1, kerf):
        parts = (Box(whole.x0, whole.y0, x0, whole.y1), Box(x1, whole.y0, whole.x1, whole.y1))
        yield Cut(Box(x0, whole.y0, x1, whole.y1), True, whole, tuple(p for p in parts if p.length > NEAR))
    for y0, y1 in _blades([(b.y0, b.y1) for b in boxes], whole.y0, whole.y1, kerf):
        parts = (Box(whole.x0, whole.y0, whole.x1, y0), Box(whole.x0, y1, whole.x1, whole.y1))
        yield Cut(Box(whole.x0, y0, whole.x1, y1), False, whole, tuple(p for p in parts if p.width > NEAR))


def _blades(
    spans: Sequence[tuple[float, float]], start: float, end: float, kerf: float
) -> Iterator[tuple[float, float]]:
    """What a blade may take: right behind a blank or right before one, no blank in its way.

    At either end of the piece it may run half in the air: less than a kerf is trimmed off.
    """
    for place in sorted({round(p, 6) for low, high in spans for p in (high, low - kerf)}):
        clear = all(high <= place + NEAR or low >= place + kerf - NEAR for low, high in spans)
        first, last = max(place, start), min(place + kerf, end)
        if clear and last - first > NEAR:
            yield first, last


def _inside(box: Box, part: Box) -> bool:
    return (
        part.x0 - NEAR <= box.x0 and box.x1 <= part.x1 + NEAR and part.y0 - NEAR <= box.y0 and box.y1 <= part.y1 + NEAR
    )


def _same(a: Box, b: Box) -> bool:
    return max(abs(a.x0 - b.x0), abs(a.y0 - b.y0), abs(a.x1 - b.x1), abs(a.y1 - b.y1)) <= NEAR
