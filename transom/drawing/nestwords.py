"""The cut list in words: blanks, sheets to buy, cuts in order, what is left over. For a terminal; the page says the same."""

from collections.abc import Iterator

from transom.drawing.cutlist import CutList, SheetCuts
from transom.frozen import dataclass
from transom.nesting.records import HALF, OFFCUT, Box, Cut, Nest
from transom.nesting.saw import KEEP
from transom.quantity import show
from transom.report.text import block, columns
from transom.report.words import plural

TURNED = {"across": "SIDEWAYS", "along": "UP"}
LEFT_OVER = "left over"


@dataclass(frozen=True)
class Named:
    """A cut in words: the piece on the saw, how it is cut and where the fence stands, what lies there then."""

    piece: str
    how: str
    fence: str
    gives: tuple[str, ...]


def size(box: Box, units: str, *, unit: bool = True) -> str:
    """A piece: along the face grain, then across."""
    first = cut_size(box.length, units, unit=False)
    return f"{first} x {cut_size(box.width, units, unit=unit)}"


def cut_size(mm: float, units: str, *, unit: bool = True) -> str:
    """A length for the saw: to 1/16 in or half a millimeter; the allowance takes the rounding."""
    return show.length(mm, units, step="1/16", step_mm="0.5", unit=unit)


def names_of(nest: Nest) -> dict[Box, str]:
    """What each piece is called while a sheet comes apart: its layer, "left over", or a letter for what is cut on."""
    names = {nest.cuts[0].of if nest.cuts else _whole(nest): "whole"}
    boxes = {b: p.blank.name for p in nest.placed for b in (p.box,)}
    for cut in nest.cuts:
        for part in cut.parts:
            names[part] = next((n for b, n in boxes.items() if _same(b, part)), "")
            if not names[part] and any(_same(part, b) for b in nest.left):
                names[part] = LEFT_OVER
    letters = iter("abcdefghijklmnopqrstuvwxyz")
    return {box: name or f"piece {next(letters, '?')}" for box, name in names.items()}


def _whole(nest: Nest) -> Box:
    return Box(0.0, 0.0, nest.stuff.length, nest.stuff.width)


def _same(a: Box, b: Box) -> bool:
    return max(abs(a.x0 - b.x0), abs(a.y0 - b.y0), abs(a.x1 - b.x1), abs(a.y1 - b.y1)) < 1e-6


def cuts_of(nest: Nest, units: str) -> Iterator[Named]:
    """The cuts of a nest in order. The fence is set to the piece that is kept exact: the one with a blank at the cut."""
    names = names_of(nest)
    for cut in nest.cuts:
        kept = min(cut.parts, key=lambda p: (names[p] == LEFT_OVER, p.x0 + p.y0))
        fence = cut_size(kept.length if cut.across else kept.width, units)
        gives = tuple(f"{names[p]} ({size(p, units)})" for p in cut.parts)
        yield Named(f"{names[cut.of]} ({size(cut.of, units)})", _how(cut), fence, gives)


def _how(cut: Cut) -> str:
    return "across the grain" if cut.across else "along the grain"


def buy_words(s: SheetCuts) -> str:
    """What to buy of one sheet."""
    counts = [plural(n, words) for n, words in ((s.whole, "whole sheet"), (s.half, "half sheet")) if n]
    if s.too_large:
        return (
            f"NO SHEET of {s.nominal} {s.panel} IS LARGE ENOUGH: {s.too_large}. Ask for a longer one, or another panel"
        )
    used = f"; {plural(s.offcuts, 'offcut')} used up" if s.offcuts else ""
    return f"{' and '.join(counts) or 'nothing'} of {s.nominal} {s.panel}{used}"


def kind_words(nest: Nest, units: str) -> str:
    """What a nest is cut from."""
    kind = {HALF: "half sheet, cut across the middle", OFFCUT: nest.stuff.name}.get(nest.stuff.kind, "whole sheet")
    return f"{kind}, {size(_whole(nest), units)}, first figure along the face grain"


def lines(c: CutList, units: str) -> Iterator[str]:
    """The whole cut list for a terminal."""
    yield from block("CUT LIST", head_words(c, units))
    yield from columns([HEAD, *rows(c, units)], WIDTHS)
    yield from block("", MARK)
    for s in c.sheets:
        yield from block("BUY" if s.nests else "SHEET", buy_words(s))
        for nest in s.nests:
            yield from _nest(nest, units)
        if s.nests:
            yield from block("LEFT", left_words(s, units))


MARK = (
    "Layer 1 is the aft face. Before a sheet comes apart, mark on every blank the end nearest the sheet's marked end, and"
    " its layer. Each second layer of like grain is turned end for end, so that gaps inside do not meet at an edge. A"
    " void at an edge is filled with thickened epoxy before gluing up."
)


HEAD = ("LAYER", "SHEET", "ALONG GRAIN x ACROSS", "FACE GRAIN", "MARKED END")
WIDTHS = (7, 27, 22, 11, 11)


def head_words(c: CutList, units: str) -> str:
    """What is cut over size and what the saw takes."""
    over, kerf = show.length(c.allowance, units), show.length(c.kerf, units, step="1/16")
    return f"{over} over on every side of a blank, trimmed after gluing; the saw takes {kerf}"


def rows(c: CutList, units: str) -> Iterator[tuple[str, ...]]:
    """The blanks, a row each: columns as `HEAD`."""
    for b in c.blanks:
        yield str(b.number), b.sheet, size(Box(0, 0, b.length, b.width), units), TURNED[b.grain], b.arrow


def _nest(nest: Nest, units: str) -> Iterator[str]:
    yield from block("SHEET", kind_words(nest, units))
    for i, cut in enumerate(cuts_of(nest, units), 1):
        yield from block("", f"{i}. {cut.piece}: {cut.how}, {cut.fence} kept: {', '.join(cut.gives)}", at=9)


def left_words(s: SheetCuts, units: str) -> str:
    """What goes back on the rack."""
    least = show.length(KEEP, units, step="1/2", step_mm="10", towards="up")
    found = ", ".join(size(b, units) for b in s.left)
    return f"{found} (along the grain first; under {least} not listed)" if found else f"nothing over {least} wide"
