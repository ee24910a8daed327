"""A setback or built bracket as a job states it; what was not measured is None. Working units: mm, kg."""

from dataclasses import field

from transom.frozen import dataclass


@dataclass(frozen=True)
class BasePlate:
    """Plate against the board. `top` and `top_to_upper` are below the board's top edge."""

    thickness: float | None = None
    width: float | None = None
    height: float | None = None
    top: float | None = None
    upper_holes: float | None = None
    lower_holes: float | None = None
    rows_apart: float | None = None
    top_to_upper: float | None = None
    edge: float | None = None  # nearest edge to the middle of a hole
    pads_apart: float | None = None  # of a bracket that is not of plates
    pad_width: float | None = None


@dataclass(frozen=True)
class Step:
    """A place where a side plate is cut away: `depth` is the metal left there."""

    aft: float
    depth: float


@dataclass(frozen=True)
class SidePlates:
    """Upright plates, alike and evenly apart; tapered where the two depths differ."""

    count: int | None = None
    thickness: float | None = None
    apart: float | None = None
    top: float | None = None
    depth: float | None = None
    engine_top: float | None = None
    engine_depth: float | None = None
    ties: tuple[float, ...] = ()
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True)
class Gusset:
    """Level plate between the side plates, `down` below the board's top edge, welded all round with `leg`."""

    thickness: float | None = None
    down: float | None = None
    leg: float | None = None


@dataclass(frozen=True)
class EnginePlate:
    """Plate the engine is bolted to."""

    thickness: float | None = None
    width: float | None = None
    height: float | None = None
    edge: float | None = None


@dataclass(frozen=True)
class Fillet:
    """Fillet along the side plates at one end."""

    leg: float | None = None
    sides: str | None = None  # both | one; None is taken as one


@dataclass(frozen=True)
class PlateBolts:
    """Bolts of the engine through the engine plate."""

    size: str = ""
    diameter: float | None = None
    washer: float | None = None
    washer_t: float | None = None


@dataclass(frozen=True)
class Setback:
    """A setback or built bracket between board and engine: how far aft it carries the engine, its mass, its parts.

    `kind` is plates, tube, casting, box, bought, or "" where the job does not say and has no side plates.
    """

    distance: float | None = None  # level, board's aft face to the engine bracket's face at the top edges
    mass: float | None = None  # kg
    kind: str = ""
    height: float | None = None  # engine plate's top edge above the board's, level
    alloy: str | None = None
    filler: str | None = None
    gravity_aft: float | None = None
    gravity_up: float | None = None
    base: BasePlate = field(default_factory=BasePlate)
    side_plates: SidePlates = field(default_factory=SidePlates)
    gusset: Gusset | None = None
    engine_plate: EnginePlate = field(default_factory=EnginePlate)
    base_weld: Fillet = field(default_factory=Fillet)
    engine_weld: Fillet = field(default_factory=Fillet)
    bolts: PlateBolts = field(default_factory=PlateBolts)

    @property
    def judged(self) -> bool:
        """True for a bracket of plates; of the others only the loads at their bolts are known."""
        return self.kind == "plates"
