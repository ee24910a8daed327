"""How many half sheets a board's layers take, nested as they will be cut."""

from collections import Counter
from collections.abc import Sequence
from functools import lru_cache

from transom.catalogue import Catalogue
from transom.job.records import Layer, Offcut
from transom.nesting.pack import NoneBigEnoughError, halves_needed
from transom.nesting.records import Blank, Stuff

NONE_BIG_ENOUGH = 10**6


def halves(
    pile: Sequence[Layer], width: float, height: float, tables: Catalogue, offcuts: Sequence[Offcut] = ()
) -> int:
    """Half sheets to buy for a board width x height (mm), offcuts used up first: blanks with allowance, grain kept."""
    turned = Counter((layer.sheet, layer.grain) for layer in pile)
    kerf = tables.factor("cut.kerf_mm").value
    total = 0
    for sheet in sorted({layer.sheet for layer in pile}):
        row = tables.sheet(sheet)
        shapes = tuple((turned[sheet, g], *blank_size(g, width, height, tables)) for g in ("across", "along"))
        total += _needed(shapes, (row.length_mm, row.width_mm), kerf, stuff_of(sheet, offcuts))
    return min(total, NONE_BIG_ENOUGH)


def blank_size(grain: str, width: float, height: float, tables: Catalogue) -> tuple[float, float]:
    """A layer's blank, allowance all round: length along the sheet's face grain, and width, mm."""
    more = 2 * tables.factor("cut.allowance_mm").value
    return (width + more, height + more) if grain == "across" else (height + more, width + more)


def stuff_of(sheet: str, offcuts: Sequence[Offcut]) -> tuple[Stuff, ...]:
    """The offcuts of a sheet, numbered as the job lists them."""
    return tuple(Stuff(f"offcut {i}", o.length, o.width) for i, o in enumerate(offcuts, 1) if o.sheet == sheet)


@lru_cache(maxsize=1024)  # of one search: a batch goes through boards of any size
def _needed(
    shapes: tuple[tuple[int, float, float], ...],
    sheet: tuple[float, float],
    kerf: float,
    offcuts: tuple[Stuff, ...],
) -> int:
    """Half sheets for so many blanks of each shape; asked for the same few shapes by every stack of a search."""
    blanks = [Blank("", length, width) for count, length, width in shapes for _ in range(count)]
    try:
        return halves_needed(blanks, sheet, kerf, offcuts)
    except NoneBigEnoughError:
        return NONE_BIG_ENOUGH
