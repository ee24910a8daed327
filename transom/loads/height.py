"""How high the engine hangs: anti-ventilation plate and propeller against the boat's bottom, hole by hole.

Brackets hang by one of several holes 3/4 in apart; the first is the lowest, bracket down on the top edge. Level axes,
leg upright: a lean of the board moves these by less than a tape reads.
"""

from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import absolute
from transom.units import MM, ONE

STATICS = "geometry, leg upright"
HOLES = (1, 2, 3, 4, 5)


@formula(symbol="h", source="holes 3/4 in apart", evidence="common practice", known_by="memory", typical={"n": 3.0})
def raised(n: ONE, step: MM = 19.05) -> MM:
    """How much higher the engine hangs by hole n than by the first."""
    return (n - 1.0) * step


@formula(symbol="a", source=STATICS, known_by="derived")
def plate_above(bottom: MM, shaft: MM, h: MM, up: MM) -> MM:
    """Anti-ventilation plate above the boat's bottom; negative: below. `up`: a setback bracket's top over the board's."""
    return bottom - shaft + h + up


@formula(symbol="b", source=STATICS, known_by="derived")
def shaft_below(below_plate: MM, a: MM) -> MM:
    """Propeller shaft below the boat's bottom."""
    return below_plate - a


@formula(symbol="c", source=STATICS, known_by="derived")
def tip_below(b: MM, D: MM) -> MM:
    """Top blade tip below the boat's bottom; negative: above it, in the hull's shadow."""
    return b - D / 2.0


@formula(symbol="a_s", source="1 in higher for each 8 to 12 in of setback, trade rule", evidence="common practice",
         known_by="memory")  # fmt: skip
def with_setback(a: MM, setback: MM, share: ONE = 0.1) -> MM:
    """End of the starting band with a setback: water rises behind the boat."""
    return a + share * setback


@formula(symbol="d", source="distance to a band", known_by="derived")
def beyond(a: MM, low: MM, high: MM) -> MM:
    """How far outside a band, either way; nought within."""
    return (absolute(a - low) + absolute(a - high) - (high - low)) / 2.0


@dataclass(frozen=True)
class Hung:
    """The engine by one hole, mm: raised, plate above the bottom, propeller shaft and top blade tip below it."""

    hole: int
    raised: float
    plate_above: float
    shaft_below: float
    tip_below: float


@dataclass(frozen=True)
class Height:
    """Every hole, the band of the plate to start in, and the hole to start with."""

    bottom: float
    low: float
    high: float
    rows: tuple[Hung, ...]

    @property
    def start(self) -> Hung:
        """The lowest hole within the band, else the one nearest to it."""
        return min(self.rows, key=lambda r: (round(float(beyond(r.plate_above, self.low, self.high)), 6), r.hole))

    @property
    def within(self) -> bool:
        """True where some hole brings the plate into the band."""
        return self.low <= self.start.plate_above <= self.high


def height(*, bottom: float, shaft: float, below_plate: float, diameter: float, band: tuple[float, float],
           setback: float = 0.0, up: float = 0.0) -> Height:  # fmt: skip
    """The holes of an engine on a boat whose bottom lies `bottom` mm below the board's top edge."""
    rows = tuple(_hung(n, bottom, shaft, below_plate, diameter, up) for n in HOLES)
    low, high = (float(with_setback(a, setback)) for a in band)
    return Height(bottom, low, high, rows)


def _hung(n: int, bottom: float, shaft: float, below_plate: float, diameter: float, up: float) -> Hung:
    h = float(raised(float(n)))
    a = float(plate_above(bottom, shaft, h, up))
    b = float(shaft_below(below_plate, a))
    return Hung(n, h, a, b, float(tip_below(b, diameter)))
