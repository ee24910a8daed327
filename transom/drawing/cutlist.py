"""The cut list: a blank for each layer, where each is cut, what is left over, what to buy.

Data for whoever prints or prices it:

    cuts = cut_list(drawing_or_layers...)          # CutList
    cuts.sheets[i].halves                          # half sheets of this name to buy; the same count that `size` ranks by
    cuts.sheets[i].nests                           # one for each sheet, half and offcut: blanks, cuts in order, left over
"""

from collections.abc import Iterator, Sequence

from transom.catalogue import Catalogue
from transom.drawing.records import LayerPart, Outline
from transom.frozen import dataclass
from transom.job.records import Offcut
from transom.nesting.pack import NoneBigEnoughError, nest
from transom.nesting.records import OFFCUT, Blank, Box, Nest, halves_of
from transom.nesting.saw import KEEP
from transom.sizing.sheets import blank_size, stuff_of

# Where the marked end of a blank points on the boat, for the first of like-grained layers, the second, the third ...
ARROWS = {"across": ("starboard", "port"), "along": ("up", "down")}


@dataclass(frozen=True)
class LayerBlank:
    """One layer as it leaves the saw; `number` counts from the aft face.

    `length` lies along the face grain. `arrow` is where the blank's marked end points when it is laid up: each
    second layer of like grain is turned end for end, so that gaps in the inner veneers, which run right across
    a sheet, do not meet at an edge.
    """

    number: int
    sheet: str
    nominal: str
    grain: str  # across | along
    length: float
    width: float
    arrow: str

    @property
    def name(self) -> str:
        """The name it has in the nests."""
        return f"layer {self.number}"


@dataclass(frozen=True)
class SheetCuts:
    """All that is cut from sheets of one name. No nests where a blank is `too_large` for a whole sheet."""

    sheet: str
    nominal: str
    panel: str
    nests: tuple[Nest, ...]
    too_large: str = ""

    @property
    def halves(self) -> int:
        """Half sheets to buy."""
        return halves_of(self.nests)

    @property
    def whole(self) -> int:
        """Whole sheets to buy."""
        return self.halves // 2

    @property
    def half(self) -> int:
        """Half sheets to buy beside them."""
        return self.halves % 2

    @property
    def offcuts(self) -> int:
        """Offcuts that are cut up."""
        return sum(n.stuff.kind == OFFCUT for n in self.nests)

    @property
    def left(self) -> tuple[Box, ...]:
        """What is left over and worth keeping, largest first."""
        kept = [b for n in self.nests for b in n.left if min(b.length, b.width) >= KEEP]
        return tuple(sorted(kept, key=lambda b: -b.area))


@dataclass(frozen=True)
class CutList:
    """Blanks in the order of the stack, and the sheets they come from. mm."""

    outline: Outline
    allowance: float  # on every side
    kerf: float
    blanks: tuple[LayerBlank, ...]
    sheets: tuple[SheetCuts, ...]

    @property
    def whole(self) -> bool:
        """True where every blank has a sheet large enough."""
        return not any(s.too_large for s in self.sheets)


def cut_list(layers: Sequence[LayerPart], tables: Catalogue, offcuts: Sequence[Offcut] = ()) -> CutList:
    """The cut list of a board's layers, aft face first.

    Raises:
        ValueError: no layers.
    """
    if not layers:
        raise ValueError("a board without layers has no cut list")
    blanks = tuple(_blanks(layers, tables))
    kerf, allowance = (tables.factor(f"cut.{key}_mm").value for key in ("kerf", "allowance"))
    names = dict.fromkeys(part.sheet for part in layers)
    sheets = tuple(_sheet(name, layers, blanks, tables, kerf, offcuts) for name in names)
    return CutList(layers[0].outline, allowance, kerf, blanks, sheets)


def _blanks(layers: Sequence[LayerPart], tables: Catalogue) -> Iterator[LayerBlank]:
    seen = dict.fromkeys(ARROWS, 0)
    for part in layers:
        length, width = blank_size(part.grain, part.outline.width, part.outline.height, tables)
        arrow = ARROWS[part.grain][seen[part.grain] % 2]
        seen[part.grain] += 1
        yield LayerBlank(part.number, part.sheet, part.nominal, part.grain, length, width, arrow)


def _sheet(
    name: str,
    layers: Sequence[LayerPart],
    blanks: Sequence[LayerBlank],
    tables: Catalogue,
    kerf: float,
    offcuts: Sequence[Offcut],
) -> SheetCuts:
    row = tables.sheet(name)
    panel = next(part.panel for part in layers if part.sheet == name)
    own = [Blank(b.name, b.length, b.width) for b in blanks if b.sheet == name]
    try:
        nests = nest(own, (row.length_mm, row.width_mm), kerf, stuff_of(name, offcuts))
    except NoneBigEnoughError as error:
        return SheetCuts(name, row.nominal, panel, (), str(error))
    return SheetCuts(name, row.nominal, panel, nests)
