"""The records of a setup: one flat list of facts, and the geometry and factors built from it."""

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from transom.catalogue import Catalogue
from transom.frozen import dataclass
from transom.job.records import Job
from transom.loads.inputs import LoadInputs
from transom.setup.steps import strength_factor
from transom.statics.contact import Pattern
from transom.units import Array, Value

if TYPE_CHECKING:
    from transom.setup.setback_records import BracketHold


@dataclass(frozen=True)
class Fact:
    """A number and how it is known. `measure` says how to replace it, empty where nobody would.

    `low` and `high` are the range seen, where a table has one and nobody stated the number.
    """

    value: float
    unit: str
    evidence: str
    known_by: str
    source: str
    says: str
    measure: str = ""
    low: float | None = None
    high: float | None = None

    @property
    def assumed(self) -> bool:
        """True where the job did not state it and a tape, a scale or a plate could."""
        return self.evidence != "stated" and bool(self.measure)


@dataclass(frozen=True)
class Place:
    """Where the board sits, mm; depths below the top edge positive down. Floats or arrays (n, 1)."""

    kind: str  # pod | uprights | cap rail
    width: Value
    height: Value
    span: Value  # between the side lines
    z_bottom: Value  # depth of the bottom line
    lean: Value
    notch_width: Value = 0.0
    notch_depth: Value = 0.0
    top_cut: tuple[Value, Value] = (0.0, 0.0)  # width and height of both top corners cut off, as rectangles
    bottom_cut: tuple[Value, Value] = (0.0, 0.0)
    inset: Value = 0.0  # half of what the board lies on, about each side line


@dataclass(frozen=True)
class Holding:
    """What the engine is held by: its pattern for the hand method and every bolt on its own.

    `bolt_y`, `bolt_z` are arrays (b,), board axes (z up, so negative). No bolts where clamps hold it.
    """

    pattern: Pattern
    pad_width: Value
    bolt_y: Array
    bolt_z: Array
    ear: Value  # metal under the bolt head, counted in the grip
    thread: str  # "" while none is stated
    by: str  # bolts | clamps
    pad_top: Value = 0.0  # depth at which what bears on the board begins
    odd: bool = False  # bolts are listed one by one
    screw_pad: Value = 0.0  # across the swivel pad of a clamp screw


@dataclass(frozen=True)
class Bolting:
    """Like bolts of one joint. `washer` is what spreads them, outside mm; floats or arrays (n, 1)."""

    d: Value
    A_s: Value
    flats: Value
    f_ub: Value
    alpha_v: float
    washer: Value
    washer_t: Value
    hole: Value
    count: Value
    kind: str = "bolts"  # bolts | lag screws | blind rivets
    length: Value = 0.0  # of lag screws; nought while not known
    rivet_shear: Value = 0.0  # N, characteristic, of blind rivets
    rivet_tension: Value = 0.0


@dataclass(frozen=True)
class FrameHold:
    """What the board is bolted to: flange and the group of its bolts, mm, MPa; floats or arrays (n, 1).

    Bolts stand evenly along each line: `n_side` on either side from depth `first` on, `side_pitch` apart,
    `n_bottom` and `n_top`, `top` deep, on the lines that have them, `end_pitch` apart. `J`, `z_c` and `far` (depth farthest
    from the centroid) are of the whole group. `arm` is from bolt to root of the flange, `edge` from bolt to
    board's edge. `least` bolts give each line its two.
    """

    bolts: Bolting
    flange: Value
    doubler: Value
    f_u: Value
    f_y: Value
    f_y_doubler: float
    arm: Value
    edge: Value
    span: Value
    n_side: Value
    n_bottom: Value
    n_top: Value
    first: Value
    top: Value
    side_pitch: Value
    end_pitch: Value
    n: Value
    z_c: Value
    J: Value
    far: Value
    least: float


@dataclass(frozen=True)
class LevelGroup:
    """Bolts in a level plane, mm: how many, their middle, and sums of squares and products about it.

    `forward` and `y` are the middle's place forward of the datum and to starboard. `I_x`, `I_y` are sums of squared
    distances fore and aft and across, `I_xy` of their products (x aft, y starboard). `off_x`, `off_y` (..., b) are
    the bolts that may be worst, from the middle: every one, or the corner of even rows. `at` (b, 2) are places aft
    (negative: forward) and to starboard of the datum as if the crossmembers lay at its level, none while varied.
    """

    n: Value
    forward: Value
    y: float
    I_x: Value
    I_y: Value
    I_xy: float
    off_x: Array
    off_y: Array
    at: Array
    skew: float = 1.0  # times the pull of even rows, for what contact may add in a pattern of no order


@dataclass(frozen=True)
class PodHold:
    """What the pod hangs from: a level group of bolts up into the crossmembers; mm, MPa, kg.

    `x` is the group's middle aft of the datum (negative: forward), `z` its height above it, both level.
    """

    bolts: Bolting
    wall: Value
    f_u: Value
    x: Value
    z: Value
    group: LevelGroup
    mass: Value


def _each(duration: tuple[str, ...], factor: Callable[[str], Value]) -> Array:
    """The factor of every case, (v,), worked out once for each class: there are three of them and hundreds of cases."""
    known = {d: factor(d) for d in dict.fromkeys(duration)}
    return np.array([known[d] for d in duration])


@dataclass(frozen=True)
class Factors:
    """Partial factors and the like; published or conventions, none of them the user's to measure."""

    k_mod_short: float
    k_mod_instantaneous: float
    gamma_M_plywood: float
    gamma_M_connection: float
    gamma_M_accidental: float
    gamma_M2: float
    gamma_M1: float
    prying_thickness: float
    glue_line: float
    coat: float
    over_bore: float
    pocket_clearance: float
    threads_beyond_nut: float
    side_plate: float  # metal that holds the bolt close at the wood's face, mm

    def wood(self, duration: tuple[str, ...]) -> Array:
        """k_mod/gamma_M of plywood by duration class, (v,); an accident is instantaneous with its own gamma."""
        return _each(duration, lambda d: strength_factor(self.k_mod(d), self.gamma(d)))

    def connection(self, duration: tuple[str, ...]) -> Array:
        """k_mod/gamma_M of a fastener in wood by duration class, (v,)."""
        gammas = {"accidental": self.gamma_M_accidental}
        return _each(duration, lambda d: strength_factor(self.k_mod(d), gammas.get(d, self.gamma_M_connection)))

    def k_mod(self, duration: str) -> float:
        """The time-and-damp factor of a duration class."""
        return self.k_mod_short if duration == "short" else self.k_mod_instantaneous

    def gamma(self, duration: str) -> float:
        """The wood safety factor of a duration class."""
        return self.gamma_M_accidental if duration == "accidental" else self.gamma_M_plywood


@dataclass(frozen=True)
class Setup:
    """Everything the checks read. Values are floats, or columns (n, 1) where assumptions are varied."""

    job: Job
    tables: Catalogue
    loads: LoadInputs
    place: Place
    holding: Holding
    factors: Factors
    power: Value  # W
    wood_share: Value  # share of the table's wood strengths that the sheet really has; 1 unless varied
    crush_share: Value
    frame: FrameHold
    pod: PodHold | None  # None where the board is not held by a pod
    bracket: "BracketHold | None" = None  # None where the engine hangs on the board itself
    frames: tuple[
        FrameHold, ...
    ] = ()  # while the frame's bolts are still to be chosen: the most of each size and number
