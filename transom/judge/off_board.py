"""Whether the engine's bracket sits on the board at all: one line of words where it does not."""

from collections.abc import Iterator

from transom.errors import JobError
from transom.job.faults import shown
from transom.maths import scalar
from transom.setup.records import Setup


def refuse_off_board(setup: Setup) -> None:
    """Nothing, where pads and bolts lie on the board.

    Raises:
        JobError: a pad that bears on no wood, or a bolt beyond its edge, one line each.
    """
    faults = (*_faults(setup), *_in_notch(setup), *_in_corners(setup))
    if faults:
        raise JobError(*faults)


def _faults(setup: Setup) -> Iterator[str]:
    h, p = setup.holding, setup.holding.pattern
    half, height = scalar(setup.place.width) / 2, scalar(setup.place.height)
    wide, high = _tape(2 * half), _tape(height)
    inner = scalar(p.y_pad) - scalar(h.pad_width) / 2
    if inner >= half:
        yield (
            f"[engine.bracket] pads: their inner edges are {_tape(2 * inner)} apart, so they lie off a board"
            f" {wide} wide; measure the bracket's pads and the board again"
        )
    if scalar(h.pad_top) >= height:
        yield (
            f"[engine.bracket] pads: they begin {_tape(scalar(h.pad_top))} below the top edge, so they lie off"
            f" a board {high} high; measure the bracket's pads and the board again"
        )
    for row, y, z in (("upper", p.y_u, p.z_u), ("lower", p.y_l, p.z_l)):
        if scalar(y) >= half:
            yield (
                f"[engine.bracket] {row} holes: {_tape(2 * scalar(y))} apart, off a board {wide} wide;"
                " measure them and the board again"
            )
        if scalar(z) >= height:
            yield (
                f"[engine.bracket] {row} holes: {_tape(scalar(z))} below the top edge, off a board {high}"
                " high; measure them and the board again"
            )


def _in_notch(setup: Setup) -> Iterator[str]:
    """Bolts and pads of which nothing lies beside or below the notch."""
    p, place = setup.holding.pattern, setup.place
    wide, deep = scalar(place.notch_width), scalar(place.notch_depth)
    says = f"inside a notch {_tape(wide)} wide and {_tape(deep)} deep; measure both again"
    for row, y, z in (("upper", p.y_u, p.z_u), ("lower", p.y_l, p.z_l)):
        if scalar(y) < wide / 2 and scalar(z) < deep:
            yield f"[engine.bracket] {row} holes: {_tape(2 * scalar(y))} apart and {_tape(scalar(z))} down, {says}"
    if scalar(p.y_pad) + scalar(setup.holding.pad_width) / 2 <= wide / 2 and scalar(p.h) <= deep:
        yield f"[engine.bracket] pads: they end {_tape(scalar(p.h))} down, {says}"


def _in_corners(setup: Setup) -> Iterator[str]:
    """Bolts in cut corners, and pads of which nothing lies between or clear of them; a corner is the rectangle about it."""
    h, p, place = setup.holding, setup.holding.pattern, setup.place
    half, height = scalar(place.width) / 2, scalar(place.height)
    for which, (wide, high) in (("top", place.top_cut), ("bottom", place.bottom_cut)):
        if not (wide and high):
            continue
        side, level = half - scalar(wide), scalar(high) if which == "top" else height - scalar(high)
        says = f"inside a {which} corner cut {_tape(scalar(wide))} wide and {_tape(scalar(high))} high, taken as the whole rectangle; measure both again"
        for row, y, z in (("upper", p.y_u, p.z_u), ("lower", p.y_l, p.z_l)):
            if scalar(y) > side and (scalar(z) < level if which == "top" else scalar(z) > level):
                yield f"[engine.bracket] {row} holes: {_tape(2 * scalar(y))} apart and {_tape(scalar(z))} down, {says}"
        covered = scalar(p.h) <= level if which == "top" else scalar(h.pad_top) >= level
        if scalar(p.y_pad) - scalar(h.pad_width) / 2 >= side and covered:
            yield f"[engine.bracket] pads: {_tape(scalar(h.pad_top))} to {_tape(scalar(p.h))} down, {says}"


def _tape(x: float) -> str:
    return shown(x, "length")
