"""What is cut, from what, and how. Frozen records; all lengths mm, x along the sheet's face grain."""

from transom.frozen import dataclass

WHOLE, HALF, OFFCUT = "sheet", "half sheet", "offcut"


@dataclass(frozen=True)
class Blank:
    """A rectangle to cut. `length` lies along the face grain of what it is cut from: it is never turned."""

    name: str
    length: float
    width: float

    @property
    def area(self) -> float:
        """Its area, mm2."""
        return self.length * self.width


@dataclass(frozen=True)
class Stuff:
    """A piece to cut from: a whole sheet, a half or an offcut; `length` along its face grain."""

    name: str
    length: float
    width: float
    kind: str = OFFCUT  # WHOLE | HALF | OFFCUT

    @property
    def halves(self) -> int:
        """Half sheets it has to be bought as; an offcut is there already."""
        return {WHOLE: 2, HALF: 1, OFFCUT: 0}[self.kind]

    @property
    def area(self) -> float:
        """Its area, mm2."""
        return self.length * self.width


@dataclass(frozen=True)
class Box:
    """A rectangle on a sheet: lower corner and far corner."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def length(self) -> float:
        """Along the face grain."""
        return self.x1 - self.x0

    @property
    def width(self) -> float:
        """Across the face grain."""
        return self.y1 - self.y0

    @property
    def area(self) -> float:
        """Its area, mm2."""
        return self.length * self.width


@dataclass(frozen=True)
class Placed:
    """A blank where it is cut."""

    blank: Blank
    box: Box


@dataclass(frozen=True)
class Cut:
    """One cut straight through the piece that is on the saw, `of`: what the blade takes, and what lies apart then.

    `across` the face grain, or along it. `parts` are one or two: the piece nearer the sheet's corner first.
    """

    box: Box
    across: bool
    of: Box
    parts: tuple[Box, ...]


@dataclass(frozen=True)
class Nest:
    """One sheet, half or offcut: blanks, cuts in the order they are made, and the pieces left over, largest first."""

    stuff: Stuff
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    left: tuple[Box, ...]


def halves_of(nests: tuple[Nest, ...]) -> int:
    """Half sheets to buy for some nests."""
    return sum(nest.stuff.halves for nest in nests)
