"""Whether the engine's bracket sits on the board at all: one line of words where it does not."""

from collections.abc import Iterator

import numpy as np

from transom.errors import JobError
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
    half, height = _one(setup.place.width) / 2, _one(setup.place.height)
    wide, high = _mm(2 * half), _mm(height)
    inner = _one(p.y_pad) - _one(h.pad_width) / 2
    if inner >= half:
        yield (
            f"[engine.bracket] pads: their inner edges are {_mm(2 * inner)} apart, so they lie off a board"
            f" {wide} wide; measure the bracket's pads and the board again"
        )
    if _one(h.pad_top) >= height:
        yield (
            f"[engine.bracket] pads: they begin {_mm(_one(h.pad_top))} below the top edge, so they lie off"
            f" a board {high} high; measure the bracket's pads and the board again"
        )
    for row, y, z in (("upper", p.y_u, p.z_u), ("lower", p.y_l, p.z_l)):
        if _one(y) >= half:
            yield (
                f"[engine.bracket] {row} holes: {_mm(2 * _one(y))} apart, off a board {wide} wide;"
                " measure them and the board again"
            )
        if _one(z) >= height:
            yield (
                f"[engine.bracket] {row} holes: {_mm(_one(z))} below the top edge, off a board {high}"
                " high; measure them and the board again"
            )


def _in_notch(setup: Setup) -> Iterator[str]:
    """Bolts and pads of which nothing lies beside or below the notch."""
    p, place = setup.holding.pattern, setup.place
    wide, deep = _one(place.notch_width), _one(place.notch_depth)
    says = f"inside a notch {_mm(wide)} wide and {_mm(deep)} deep; measure both again"
    for row, y, z in (("upper", p.y_u, p.z_u), ("lower", p.y_l, p.z_l)):
        if _one(y) < wide / 2 and _one(z) < deep:
            yield f"[engine.bracket] {row} holes: {_mm(2 * _one(y))} apart and {_mm(_one(z))} down, {says}"
    if _one(p.y_pad) + _one(setup.holding.pad_width) / 2 <= wide / 2 and _one(p.h) <= deep:
        yield f"[engine.bracket] pads: they end {_mm(_one(p.h))} down, {says}"


def _in_corners(setup: Setup) -> Iterator[str]:
    """Bolts in cut corners, and pads of which nothing lies between or clear of them; a corner is the rectangle about it."""
    h, p, place = setup.holding, setup.holding.pattern, setup.place
    half, height = _one(place.width) / 2, _one(place.height)
    for which, (wide, high) in (("top", place.top_cut), ("bottom", place.bottom_cut)):
        if not (wide and high):
            continue
        side, level = half - _one(wide), _one(high) if which == "top" else height - _one(high)
        says = f"inside a {which} corner cut {_mm(_one(wide))} wide and {_mm(_one(high))} high, taken as the whole rectangle; measure both again"
        for row, y, z in (("upper", p.y_u, p.z_u), ("lower", p.y_l, p.z_l)):
            if _one(y) > side and (_one(z) < level if which == "top" else _one(z) > level):
                yield f"[engine.bracket] {row} holes: {_mm(2 * _one(y))} apart and {_mm(_one(z))} down, {says}"
        covered = _one(p.h) <= level if which == "top" else _one(h.pad_top) >= level
        if _one(p.y_pad) - _one(h.pad_width) / 2 >= side and covered:
            yield f"[engine.bracket] pads: {_mm(_one(h.pad_top))} to {_mm(_one(p.h))} down, {says}"


def _mm(x: float) -> str:
    return f"{x:.0f} mm"


def _one(x: object) -> float:
    return float(np.ravel(np.asarray(x))[0])
