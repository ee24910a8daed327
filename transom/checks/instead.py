"""What a board may be in place of what it is drawn as: its cut corners whole, its plates bonded.

The worse of all counts. A cut takes less than the rectangle that is missing in the plate, and the frame may hold the board
there after all. A bonded plate stiffens the board and draws load to itself; but no part of the mount rests on its glue,
which nobody can check: heat moves the metal, damp the wood, and such a bond may let go unseen.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from transom.board.answer import board_section
from transom.board.bonded import axis_shift, bonded, bonded_rigidity, inside, moduli, wood_part
from transom.board.elements import Section
from transom.board.grid import Grid, Rectangle
from transom.checks.wood_about import cut
from transom.formula import formula
from transom.maths import absolute, scalar
from transom.setup.records import FrameHold
from transom.units import MM, MPA, Array, N

if TYPE_CHECKING:
    from transom.checks.careful import Careful

NU = 0.33  # of aluminum, and near enough of steel


@formula(symbol="m_b", source="far face of a plate that bends with the board as one, over the plastic section", evidence="convention",
         known_by="derived", typical={"M": 2000.0, "E_p": 70e3, "t_p": 6.0, "E": 6000.0, "t": 37.0, "e": 14.0})  # fmt: skip
def bonded_moment(M: N, E_p: MPA, t_p: MM, E: MPA, t: MM, e: MM) -> N:
    """Moment per width of a plate as stressed as the far face of a bonded one, where the wood feels M."""
    return absolute(M) * 6.0 * E_p * (t / 2.0 + t_p - e) * t_p**2 / (4.0 * E * t**2 * (t / 2.0 + e))


def instead(plate: "Careful") -> tuple["Careful", ...]:
    """Every other board this one may be, each looked at alone."""
    return tuple(_instead(plate))


def _instead(plate: "Careful") -> Iterator["Careful"]:
    place = plate.setup.place
    setup = replace(plate.setup, place=replace(place, top_cut=(0.0, 0.0), bottom_cut=(0.0, 0.0)))
    whole = plate.whole and replace(plate.whole, setup=setup)
    glued = is_bonded(plate)
    if cut(place.top_cut) or cut(place.bottom_cut):
        # Another board's unit loads serve this one too where they served the cut one.
        kin = next((k for k in plate.kin.instead if not k.glued), None) if plate.kin is not None else None
        one = replace(plate, setup=setup, whole=whole, solved=None, kin=kin, first=plate.answer.outcome, lone=True)
        yield one
        if glued:
            yield replace(one, glued=True, kin=None)
    if glued:
        yield replace(plate, solved=None, kin=None, first=plate.answer.outcome, lone=True, glued=True)


def on_frame(plate: "Careful", frame: FrameHold) -> "Careful":
    """The board on other bolts of the frame, itself where they are its own."""
    return plate if plate.setup.frame is frame else plate.on(frame)


def is_bonded(plate: "Careful") -> bool:
    """True where the mount says that the plates inside are glued to the wood."""
    return bool(np.any(plate.hardware.bonded))


def plates_of(plate: "Careful") -> tuple[Rectangle, ...]:
    """The plates about each bolt as they lie; of one over several bolts each bolt's part, which meet."""
    p, out = plate.setup.holding.pattern, []
    for upper, across, depth in ((True, p.y_u, p.z_u), (False, p.y_l, p.z_l)):
        inner, outer, up, down = (scalar(v) for v in plate.extents(upper=upper))
        y, z = scalar(across), -scalar(depth)
        out.append(Rectangle(y - inner, y + outer, z - down, z + up))
        out.append(Rectangle(-y - outer, -y + inner, z - down, z + up))
    return tuple(out)


def bonded_section(plate: "Careful", grid: Grid) -> Section:
    """Section of the board with its plates bonded to it."""
    w = plate.hardware
    return bonded(board_section(plate.stacks), grid, plates_of(plate), scalar(plate.t), (scalar(w.E), scalar(w.t), NU))


def wood_parts(plate: "Careful", grid: Grid) -> dict[str, Array]:
    """Share of each moment that the wood feels at every node, (p+1, q+1): all of it but under bonded plates."""
    s, w, t = plate.stacks, plate.hardware, scalar(plate.t)
    under, out, t_p = inside(grid, plates_of(plate)), {}, scalar(w.t)
    for (name, E_p), wood in zip(moduli(scalar(w.E), NU).items(), (s.E_1, s.E_2, s.G_12), strict=True):
        E = scalar(wood)
        e = axis_shift(E, t, E_p, t_p)
        out[name] = np.where(under, scalar(wood_part(E, t, e, bonded_rigidity(E, t, E_p, t_p, e))), 1.0)
    return out
