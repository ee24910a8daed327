"""A setback bracket as the checks read it; lengths in mm, board axes; floats or columns (n, 1)."""

from transom.frozen import dataclass
from transom.setup.records import Bolting
from transom.statics.contact import Pattern
from transom.units import Array, Value


@dataclass(frozen=True)
class Metal:
    """Strengths of a bracket's plates, MPa: of the plate, and beside a weld (`_w`)."""

    f_u: Value
    f_y: Value
    E: Value
    f_u_w: Value
    f_y_w: Value
    f_s_w: Value


@dataclass(frozen=True)
class Weld:
    """Fillets along every side plate at one end: leg, and on how many of its two faces."""

    leg: Value
    sides: Value


@dataclass(frozen=True)
class Plate:
    """Base or engine plate: `z_top` its top edge above the datum, `edge` from a hole to its nearest edge."""

    t: Value
    width: Value
    height: Value
    z_top: Value
    edge: Value


@dataclass(frozen=True)
class Gusset:
    """Level plate between the side plates at height z, welded all round with fillets of `leg`."""

    t: Value
    z: Value
    leg: Value


@dataclass(frozen=True)
class Sides:
    """`count` upright plates, evenly apart about the center line, from `x_0` to `x_1` aft of the datum.

    `y` (..., k) their places across; at the base they are `d_0` deep about height `z_0`, at the engine plate `d_1` about
    `z_1`, straight between. `steps` are places aft with the depth left there; `span` is the longest stretch
    between base, ties and engine plate.
    """

    count: Value
    t: Value
    y: Array
    x_0: Value
    x_1: Value
    d_0: Value
    d_1: Value
    z_0: Value
    z_1: Value
    steps: tuple[tuple[float, float], ...]
    ties: tuple[float, ...]
    gusset: Gusset | None
    span: Value


@dataclass(frozen=True)
class PlateBracket:
    """A bracket of plates, all of it measured or assumed, and so judged."""

    base: Plate
    sides: Sides
    engine_plate: Plate
    base_weld: Weld
    engine_weld: Weld
    metal: Metal
    bolts: Bolting


@dataclass(frozen=True)
class BracketHold:
    """What hangs between board and engine. `x`, `z` is the engine plate's aft face at its top edge.

    `pattern`, `pad_width` and the bolts (b,) are the engine's on that plate, in its own axes (depths from its top
    edge); `plates` is None for a bracket that rests on its maker's paper.
    """

    x: Value
    z: Value
    pattern: Pattern
    pad_width: Value
    bolt_y: Array
    bolt_z: Array
    by: str  # bolts | clamps
    plates: PlateBracket | None
