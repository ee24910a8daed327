"""How far the wood goes from a point of the board: to its edges, its notch, its cut corners.

A cut corner is taken as the rectangle about it, whatever its shape (conservative). From a point that lies neither level
with it nor below or above it, the wood ends at its side or at its level, whichever leaves more; so does a rectangle about
the point that lies clear of it.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from transom.checks.patch import FAR, half_of, remaining
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import minimum
from transom.setup.records import Place
from transom.units import MM, Value

Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Clear:
    """From a point to a cut corner, mm: sideways to it, and up or down to it; nothing where it is level, or below or above."""

    aside: Value
    away: Value

    @property
    def beside(self) -> Bools:
        """True where the wood ends at the corner's side."""
        return np.asarray(np.greater_equal(self.aside, self.away), dtype=bool)


@formula(symbol="W_p", source="the board between its cut corners", evidence="published", known_by="derived",
         typical={"W": 600.0, "b": 50.0})  # fmt: skip
def between_cuts(W: MM, b: MM) -> MM:
    """Width left between two corners that take b each."""
    return W - 2.0 * b


def notched(place: Place) -> bool:
    """True where the top edge has a notch."""
    return bool(place.notch_width and place.notch_depth)


def cut(corner: tuple[Value, Value]) -> bool:
    """True where corners are cut off."""
    return _some(corner[0]) and _some(corner[1])


def _some(x: Value) -> bool:
    """True where a number, or any of several, is not zero; numpy takes a hundred times as long to say it of one."""
    return bool(x) if isinstance(x, float) else bool(np.any(x))


def side_of(place: Place, corner: tuple[Value, Value]) -> Value:
    """From the center line to the side of a cut corner."""
    return remaining(half_of(place.width), corner[0])


def bottom_cut_at(place: Place) -> Value:
    """Depth at which the bottom corners' cut begins."""
    return remaining(place.height, place.bottom_cut[1])


def top_corner(place: Place, y: Value, z: Value) -> Clear | None:
    """From a point to the top corner, None where none is cut."""
    if not cut(place.top_cut):
        return None
    return Clear(remaining(side_of(place, place.top_cut), y), remaining(z, place.top_cut[1]))


def bottom_corner(place: Place, y: Value, z: Value) -> Clear | None:
    """The same of the bottom corner."""
    if not cut(place.bottom_cut):
        return None
    return Clear(remaining(side_of(place, place.bottom_cut), y), remaining(bottom_cut_at(place), z))


def _corners(place: Place, y: Value, z: Value) -> Iterator[tuple[Clear, tuple[Value, Value]]]:
    for found, size in ((top_corner, place.top_cut), (bottom_corner, place.bottom_cut)):
        clear = found(place, y, z)
        if clear is not None:
            yield clear, size


def above(place: Place, y: Value, z: Value) -> Value:
    """From a point up to the top edge, or to the notch or cut corner that lies over it, mm."""
    up = np.where(half_of(place.notch_width) > y, remaining(z, place.notch_depth), z) if notched(place) else z
    corner = top_corner(place, y, z)
    return up if corner is None else minimum(up, np.where(corner.beside, FAR, corner.away))


def below(place: Place, y: Value, z: Value) -> Value:
    """From a point down to the bottom edge, or to the cut corner that lies under it, mm."""
    down, corner = remaining(place.height, z), bottom_corner(place, y, z)
    return down if corner is None else minimum(down, np.where(corner.beside, FAR, corner.away))


def outward(place: Place, y: Value, z: Value) -> Value:
    """From a point out to the board's side, or to a cut corner beside it, mm."""
    out = remaining(half_of(place.width), y)
    for corner, _ in _corners(place, y, z):
        out = minimum(out, np.where(corner.beside, corner.aside, FAR))
    return out


def towards_middle(place: Place, y: Value) -> Value:
    """From a point to the center line, or to the notch's side wherever the point lies below (conservative)."""
    half = half_of(place.notch_width)
    return np.where(half > y, y, remaining(y, half)) if notched(place) else y


def free_inward(place: Place, y: Value) -> Value:
    """From a point in to the notch's side, mm; FAR where wood goes on to the other bolt."""
    half = half_of(place.notch_width)
    return np.where(half > y, FAR, remaining(y, half)) if notched(place) else FAR


def free_outward(place: Place, y: Value, z: Value) -> Value:
    """From a point out to an edge that nothing holds, mm; FAR where a side line lies between."""
    out: Value = np.where(half_of(place.span) > y, FAR, remaining(half_of(place.width), y))
    for corner, size in _corners(place, y, z):
        bare = np.asarray(corner.beside) & np.asarray(half_of(place.span) >= side_of(place, size))
        out = minimum(out, np.where(bare, corner.aside, FAR))
    return out


def free_below(place: Place, y: Value, z: Value) -> Value:
    """From a point down to an edge that nothing holds, mm: FAR over a bottom line."""
    corner = bottom_corner(place, y, z)
    free = remaining(place.height, z) if place.kind == "uprights" else FAR
    return free if corner is None else minimum(free, np.where(corner.beside, FAR, corner.away))


def width_for_pads(place: Place, top: Value, foot: Value) -> Value:
    """Width of the board between cut corners that a thing from a depth to another lies level with, mm."""
    wide = place.width
    for corner, level in (
        (place.top_cut, np.asarray(top) < place.top_cut[1]),
        (place.bottom_cut, np.asarray(foot) > bottom_cut_at(place)),
    ):
        if cut(corner):
            wide = np.where(level, minimum(wide, between_cuts(place.width, corner[0])), wide)
    return wide
