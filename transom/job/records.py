"""What the user states, in working units (mm, N, N*mm, kg, W, m/s, rad), validated once.

None means not measured: left out, or "?". What to use instead is decided in `transom.setup`, never here.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import field
from typing import Any

from transom.frozen import dataclass
from transom.job.engine_records import EngineClamps as EngineClamps  # noqa: PLC0414 part of the job
from transom.job.engine_records import Propeller as Propeller  # noqa: PLC0414 part of the job
from transom.job.setback_records import Setback as Setback  # noqa: PLC0414 part of the job


@dataclass(frozen=True)
class Head:
    """Identity of the job and how its results read."""

    name: str = ""
    number: str = ""
    revision: str = "A"
    date: dt.date | None = None
    units: str = "us"  # us | si
    code: str = "EN"  # EN | US
    history: str = ""


@dataclass(frozen=True)
class Boat:
    """The boat as far as the mount asks."""

    kind: str  # pontoon | aluminium hull | glass hull
    plate: str = "not measured"  # stated | none | cannot read | not measured
    plate_power: float | None = None  # W, where plate is "stated"
    plate_engine_mass: float | None = None  # kg
    water: str = "fresh"  # fresh | salt
    service: str = "calm"  # calm | open
    speed: float | None = None  # m/s at full throttle
    trailer: bool = True
    road_support: str = "none"  # none | strut
    length: float | None = None  # mm; monohull powering information only
    transom_width: float | None = None  # mm
    bottom: float | None = None  # mm, tube or hull bottom below the board's top edge, at the stern


@dataclass(frozen=True)
class Hole:
    """A point or round thing on the board: across from the centreline (starboard +), down from the top."""

    y: float
    down: float
    diameter: float = 0.0
    what: str = ""


@dataclass(frozen=True)
class Pad:
    """Where the bracket bears: a rectangle, its middle across and its top edge down, mm."""

    y: float
    down: float
    width: float
    height: float


@dataclass(frozen=True)
class EngineBracket:
    """The engine's own bracket; an odd pattern gives `bolts` (and `pads`) in place of the four distances."""

    upper_holes: float | None = None  # mm, centre to centre
    lower_holes: float | None = None
    rows_apart: float | None = None
    top_to_upper: float | None = None  # below the board's top edge
    ear: float | None = None  # thickness of metal under the bolt head
    pads_apart: float | None = None  # mm, middle to middle of what bears on the board
    pad_width: float | None = None
    pad_height: float | None = None  # from the board's top edge to the bracket's foot
    bolts: tuple[Hole, ...] = ()
    pads: tuple[Pad, ...] = ()


@dataclass(frozen=True)
class Kicker:
    """A small second engine on the same board."""

    power: float  # W
    mass: float | None = None  # kg
    y: float | None = None  # mm from the centreline
    held_by: str = "clamps"


@dataclass(frozen=True)
class Engine:
    """One outboard."""

    power: float | None  # W; the top of the range
    power_low: float | None = None  # W; equals power unless a range was given
    count: int = 1
    shaft: float | None = None  # mm, class
    mass: float | None = None  # kg, ready to run
    steering: str = "wheel"  # wheel | tiller | full turn
    held_by: str = "bolts"  # bolts | clamps
    takes: tuple[float, float] | None = None  # mm
    torque: float | None = None  # N*mm
    threads: str = "oiled"  # dry | oiled | anti-seize; oiled brings the most clamp load for a torque
    thrust: float | None = None  # N, only if measured
    gravity_aft: float | None = None  # mm
    gravity_up: float | None = None  # mm
    lift_plate: bool = False
    propeller: Propeller = field(default_factory=Propeller)
    bracket: EngineBracket = field(default_factory=EngineBracket)
    clamps: EngineClamps = field(default_factory=EngineClamps)
    kicker: Kicker | None = None


@dataclass(frozen=True)
class Corners:
    """The two top or the two bottom corners of the board, cut off alike; of no size where they are square."""

    width: float = 0.0  # mm, of the edge
    height: float = 0.0  # mm, of the side
    cut: str = "straight"  # straight | round | square

    def __bool__(self) -> bool:
        """True where something is cut off."""
        return self.width > 0 and self.height > 0


@dataclass(frozen=True)
class Board:
    """The board's place. An unmeasured width or height is None (preset by kind of boat)."""

    width: float | None
    height: float | None
    lean: float | None = None  # rad
    pocket: float | None = None  # mm, narrowest width of the channel
    pocket_stated: bool = False  # False while "?"; True with pocket None means "none": there is no channel
    material: str = "plywood"
    sealed: bool = True
    treatment: str = "none"  # none | copper
    core: str = "none"  # none | hidden: a glass hull's core that cannot be seen
    openings: tuple[Hole, ...] = ()
    obstructions: tuple[Hole, ...] = ()
    notch_width: float = 0.0
    notch_depth: float = 0.0
    top_corners: Corners = field(default_factory=Corners)
    bottom_corners: Corners = field(default_factory=Corners)


@dataclass(frozen=True)
class Line:
    """A line of support, board axes (y, down) at both ends, mm."""

    start: tuple[float, float]
    end: tuple[float, float]
    fixed: bool = False


@dataclass(frozen=True)
class FrameBolts:
    """Bolts of one joint, board to frame or pod to crossmembers; `keep` means they are there already.

    `chosen`: settled, by the tool, or as found, or as the mount says; nothing is to be added or picked.
    """

    size: str = ""
    count: int | None = None
    keep: bool = False
    diameter: float | None = None  # mm, nominal, of `size`
    washer: float | None = None  # mm, outside of washer or side of plate washer
    washer_t: float | None = None  # mm
    doubler: float = 0.0  # mm, angle laid into the flange's corner
    chosen: bool = False
    grade: str | None = None
    kind: str = "bolts"  # bolts | lag screws | blind rivets
    length: float | None = None  # mm, of lag screws, under the head


@dataclass(frozen=True)
class Frame:
    """What the board is held by."""

    kind: str | None  # pod | uprights | cap rail; None while "?"
    flange_width: float | None = None
    flange_thickness: float | None = None
    flange_alloy: str | None = None
    bolts: FrameBolts | None = None
    lines: tuple[Line, ...] = ()
    at: tuple[float, ...] = ()  # y of uprights
    flange_left: float | None = None  # mm, metal left where it is pitted
    flange_weld: float | None = None  # mm, nearest weld to bolt row or root; infinite where there is none


@dataclass(frozen=True)
class Crossmembers:
    """What a pod hangs from."""

    count: int | None = None
    wall: float | None = None  # mm
    at: tuple[float, ...] = ()  # forward of the board's aft face, mm
    bolts: FrameBolts | None = None
    down: float | None = None  # mm below the board's top edge
    alloy: str | None = None
    left: float | None = None  # mm, metal left where it is pitted
    holes: tuple[tuple[float, float], ...] = ()  # (y, forward) mm of every bolt, where they were measured


@dataclass(frozen=True)
class ShopWords:
    """What a shop's quotes say in its own words; empty where it says nothing."""

    address: tuple[str, ...] = ()
    valid_days: int | None = None
    warranty: tuple[str, ...] = ()
    storage: tuple[str, ...] = ()
    payment: tuple[str, ...] = ()


@dataclass(frozen=True)
class Shop:
    """What the shop's own file says beside its stock. Prices stand as they were written; `sha256` is of its bytes."""

    file: str
    name: str = ""
    rate: float | None = None  # for an hour of work, in the shop's money
    prices: Mapping[str, Any] = field(default_factory=dict)
    sha256: str = ""
    words: ShopWords = field(default_factory=ShopWords)


@dataclass(frozen=True)
class Offcut:
    """A piece left of a sheet: along its face grain and across, mm."""

    sheet: str
    length: float
    width: float


@dataclass(frozen=True)
class Stock:
    """What the shop can use; empty means the shipped tables."""

    panels: tuple[str, ...] = ()
    sheets: tuple[str, ...] = ()
    grades: tuple[str, ...] = ()
    threads: tuple[str, ...] = ()
    plates: tuple[str, ...] = ()
    plate_thicknesses: tuple[float, ...] = ()
    washers: tuple[str, ...] = ()
    most_sheets: int = 4
    measured: tuple[tuple[str, float], ...] = ()  # sheet name -> measured thickness, mm
    offcuts: tuple[Offcut, ...] = ()


@dataclass(frozen=True)
class Layer:
    """One sheet of the stack, aft face first, and which way its face grain lies."""

    sheet: str
    grain: str  # across | along   (across = sideways on the boat; along = up the board)


@dataclass(frozen=True)
class Backing:
    """What spreads a bolt over the wood: a washer, or a plate `per` bolt, pair or all."""

    washer: str = ""
    plate: str = ""
    thickness: float = 0.0
    width: float = 0.0
    height: float = 0.0
    per: str = "bolt"
    bonded: bool = False  # glued to the wood over its whole face


@dataclass(frozen=True)
class EngineBolts:
    """The bolts through bracket and board."""

    thread: str
    grade: str
    length: float  # mm, nominal
    aft: Backing = field(default_factory=Backing)
    forward: Backing = field(default_factory=Backing)


@dataclass(frozen=True)
class Mount:
    """A mount as drawn or as built.

    `frame_bolts` and `pod_bolts` are as they are to be, old and new ones together; None: as found.
    """

    layers: tuple[Layer, ...]
    engine_bolts: EngineBolts | None = None
    frame_bolts: FrameBolts | None = None
    pod_bolts: FrameBolts | None = None


@dataclass(frozen=True)
class ShopCase:
    """The shop's own case, or a changed factor, with its reason."""

    name: str
    like: str
    times: float
    reason: str


@dataclass(frozen=True)
class Accept:
    """A stop, knowingly passed over."""

    stop: str
    by: str
    date: dt.date
    paper: str


@dataclass(frozen=True)
class Sign:
    """Who answers for the report; empty where nobody is named yet."""

    made_by: str = ""
    checked_by: str = ""
    accepted_by: str = ""


@dataclass(frozen=True)
class Quote:
    """What a quote of this job says of its own."""

    customer: str = ""
    kind: str = "estimate"  # estimate | firm
    call_before: float | None = None  # in the shop's money
    valid_days: int | None = None
    includes: tuple[str, ...] = ()
    excludes: tuple[str, ...] = ()


@dataclass(frozen=True)
class SeaTrial:
    """What the trial found, None where it was not measured: m/s, 1/s, mm, kg, mm. `lacks` names instruments missing."""

    speed: float | None = None
    engine_speed: float | None = None
    height: float | None = None
    push_mass: float | None = None
    moved: float | None = None
    lacks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Built:
    """What is in there: mm, N*mm; empty or None where nobody wrote it down."""

    date: dt.date | None = None
    by: str = ""
    hull: str = ""
    engine_serial: str = ""
    thickness: tuple[float, ...] = ()
    batches: tuple[str, ...] = ()
    torque: tuple[float, ...] = ()
    photos: tuple[str, ...] = ()
    found: str = ""


@dataclass(frozen=True)
class Job:
    """Everything stated. `sha256` is of the file's bytes.

    Keys by dotted path: `unmeasured` read "?", `left_out` could have been measured or chosen and are not in
    the file, `not_judged` stand in it and nothing is decided by them.
    """

    head: Head
    boat: Boat
    engine: Engine
    board: Board
    frame: Frame
    stock: Stock = field(default_factory=Stock)
    mount: Mount | None = None
    cases: tuple[ShopCase, ...] = ()
    accepts: tuple[Accept, ...] = ()
    sign: Sign = field(default_factory=Sign)
    quote: Quote = field(default_factory=Quote)
    sea_trial: SeaTrial | None = None
    built: Built | None = None
    sha256: str = ""
    unmeasured: tuple[str, ...] = ()
    second_look: float = 0.85  # the shop's second-look line, share of the limit
    shop_temperature: float | None = None  # degC; the job's own where it states one
    shop: Shop | None = None
    setback: Setback | None = None
    crossmembers: Crossmembers = field(default_factory=Crossmembers)
    left_out: tuple[str, ...] = ()
    not_judged: tuple[str, ...] = ()
