"""What the frame's bolts carry by another model: a board on flanges as wide as they are, which only push, held by bolts.

No line holds it. Each flange bears over its width, in three strips: under the board's edge at its stiff root, under its
bolts, and at its inner edge, where the metal gives as a cantilever does. A bolt gives with its steel, the wood under its
washer and the flange at it. What its edge pries is in a bolt's force so; nothing of `frame_pull` is, but places and gives.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from transom.board.answer import Board, board_section, on_one_grid
from transom.board.bracket import Rest
from transom.board.grid import Grid, Rectangle, grid
from transom.checks.careful import Careful, wrenches_of
from transom.checks.frame_pull import LINES, bolt_places
from transom.maths import scalar
from transom.standards.ec5 import round_net_area
from transom.units import Array

ALUMINIUM, STEEL = 70e3, 210e3  # MPa
NEAR = 2.5  # mm; stations of the grid no farther apart are one


@dataclass(frozen=True)
class Flange:
    """A flange: where its bolts are, and as far out and in from there as it bears, mm."""

    bolts: Rectangle
    out: Rectangle
    inner: Rectangle
    reach: float  # from bolts to the board's edge, or to the flange's


def flanges(c: Careful) -> Iterator[Flange]:
    """Of both sides, of the bottom and of the top, as far as there are any."""
    arm, W, H = scalar(c.setup.frame.arm), scalar(c.setup.place.width) / 2, scalar(c.setup.place.height)
    for line in c.lines:
        if line.y_lo == line.y_hi:
            out, beyond = np.sign(line.y_lo), W - abs(line.y_lo)
            reach = min(beyond, arm)
            aside = (replace(line, y_lo=y, y_hi=y) for y in (line.y_lo + out * reach, line.y_lo - out * arm))
            yield Flange(line, *aside, reach)
            continue
        top = line.z_lo == 0.0
        z = -scalar(c.setup.frame.top) if top else line.z_lo
        reach, out = (min(-z, arm), 1.0) if top else (min(H + z, arm), -1.0)
        beside = (replace(line, z_lo=v, z_hi=v) for v in (z, z + out * reach, z - out * arm))
        yield Flange(*beside, reach)


def on(c: Careful, found: list[Flange], target: float) -> Grid:
    """A grid through bolts, edges of flanges and what is cut out."""
    seat, (_, y, z) = c.board.seat, bolt_places(c)
    W, H = scalar(c.setup.place.width) / 2, scalar(c.setup.place.height)
    lines = [r for f in found for r in (f.bolts, f.out, f.inner)]
    across = [-W, W, *(e for k in c.cuts for e in (k.y_lo, k.y_hi)), *(e for r in lines for e in (r.y_lo, r.y_hi))]
    up = [-H, 0.0, *(e for k in c.cuts for e in (k.z_lo, k.z_hi)), *(e for r in lines for e in (r.z_lo, r.z_hi))]
    across += [*y, *(b.y for b in seat.bolts)]
    up += [*z, *(b.z for b in seat.bolts)]
    return grid(_apart(across, -W, W), _apart(up, -H, 0.0), target, missing=c.cuts)


def _apart(stations: list[float], low: float, high: float) -> list[float]:
    kept: list[float] = []
    for s in stations:
        if low <= s <= high and all(abs(s - k) > NEAR for k in kept):
            kept.append(s)
    return sorted(kept)


def strips(c: Careful, f: Flange, at: Grid, E_90: float) -> Iterator[Rest]:
    """The three strips a flange bears by."""
    frame, t = c.setup.frame, scalar(c.t)
    arm, length = scalar(frame.arm), max(f.bolts.y_hi - f.bolts.y_lo, f.bolts.z_hi - f.bolts.z_lo)
    metal = ALUMINIUM * length * (scalar(frame.flange) ** 3 + scalar(frame.doubler) ** 3)
    for where, wide, lever in (
        (f.out, f.reach / 2, 0.0),
        (f.bolts, (f.reach + arm) / 2, arm),
        (f.inner, arm / 2, 2 * arm),
    ):
        if wide > 0.5:
            gives = t / (E_90 * wide * length) + 4 * lever**3 / metal
            yield Rest(_on_lines(where, at), 1 / gives, True)


def _on_lines(r: Rectangle, at: Grid) -> Rectangle:
    """A line moved onto the grid's nearest."""
    if r.y_lo == r.y_hi:
        y = _nearest(at.y, r.y_lo)
        return replace(r, y_lo=y, y_hi=y)
    z = _nearest(at.z, r.z_lo)
    return replace(r, z_lo=z, z_hi=z)


def _nearest(stations: Array, x: float) -> float:
    return float(stations[int(np.argmin(np.abs(stations - x)))])


def bolts(c: Careful, at: Grid, E_90: float) -> Iterator[tuple[str, Rest]]:
    """Every bolt's line and how it holds; one in a notch holds nothing."""
    frame, t = c.setup.frame, scalar(c.t)
    b, arm, sides = frame.bolts, scalar(frame.arm), LINES[:2]
    area = max(scalar(round_net_area(b.washer, b.hole)), 1.0)
    metal = ALUMINIUM * (scalar(frame.flange) ** 3 + scalar(frame.doubler) ** 3)
    for line, y, z in zip(*bolt_places(c), strict=True):
        length = min(scalar(frame.side_pitch if line in sides else frame.end_pitch), 5.25 * arm)
        gives = (t + scalar(frame.flange)) / (STEEL * scalar(b.A_s)) + t / (E_90 * area) + 4 * arm**3 / (metal * length)
        i, j = int(np.argmin(np.abs(at.y - y))), int(np.argmin(np.abs(at.z - z)))
        if at.nodes[i, j]:
            node = Rectangle(float(at.y[i]), float(at.y[i]), float(at.z[j]), float(at.z[j]))
            yield "side" if line in sides else line, Rest(node, 1 / gives, False)


def all_hold(c: Careful) -> bool:
    """True where no bolt lies in a notch or a cut corner."""
    at = on(c, list(flanges(c)), 20.0)
    return len(list(bolts(c, at, 1.0))) == len(bolt_places(c)[0])


def pulls(c: Careful, times: float = 1.0, target: float = 20.0) -> dict[str, Array]:
    """Force of the worst bolt of the sides, of the bottom and of the top, N (v,): all wood so many times as stiff."""
    found, E_90 = list(flanges(c)), c.factor("board.pad_stiffness_MPa") * times
    at = on(c, found, target)
    held = list(bolts(c, at, E_90))
    rests = (*(s for f in found for s in strips(c, f, at, E_90)), *(r for _, r in held))
    board = Board(at, board_section(c.stacks), (), c._seat(E_90), rests=rests)
    answer = on_one_grid(board, wrenches_of(c.actions, len(c.cases)), c.cases.names)
    forces = answer.borne.rests[[n[3] < 0 for n in answer.seated[-1].nodes]]
    names = np.array([name for name, _ in held])
    return {str(name): np.asarray(forces[names == name].max(axis=0)) for name in dict.fromkeys(names)}
