"""The plate method on one board, whole: two grids, every load case, forces and fields."""

import dataclasses
from collections.abc import Sequence
from functools import cached_property

import numpy as np

from transom.board.bracket import Borne, Rest, Seat, Seated
from transom.board.elements import Section
from transom.board.grid import Grid, Rectangle
from transom.board.lamination import Stacks
from transom.board.layers import metal_rigidity, rigidity, shear_stiffness
from transom.board.memory import keep
from transom.board.plate import Plate, Solution, Spring, Support
from transom.board.recover import Fields, correct, correction, size_of
from transom.frozen import dataclass
from transom.units import Array


@dataclass(frozen=True)
class Board:
    """A board before any load: the coarser grid, its section, what holds it, the bracket's seat."""

    grid: Grid
    section: Section
    supports: tuple[Support, ...]
    seat: Seat
    springs: tuple[Spring, ...] = ()
    rests: tuple[Rest, ...] = ()
    bounds: tuple[Array, ...] = ()  # other stiffnesses of bolts and pads, N/mm, that the seat might have

    def alike(self, other: "Board") -> bool:
        """True where both are one plate to the last bit, bolts and pads apart, and nothing rests on it."""
        pairs = ((self.grid, other.grid), (self.section, other.section))
        held = (self.supports, self.springs) == (other.supports, other.springs) and not (self.rests or other.rests)
        return held and all(
            np.array_equal(getattr(a, f.name), getattr(b, f.name)) for a, b in pairs for f in dataclasses.fields(a)
        )

    def seated(self) -> tuple[Seated, ...]:
        """The bracket on the coarser and on the finer grid."""
        fine = Plate(self.grid.finer(), self.section.finer(), self.supports, self.springs)
        coarse = Plate(self.grid, self.section, self.supports, self.springs)
        return Seated(coarse, self.seat, self.rests), Seated(fine, self.seat, self.rests)

    def seated_as(self, other: "Board", seated: tuple[Seated, ...]) -> tuple[Seated, ...] | None:
        """The bracket on the plates of another board, whose unit loads serve again; None where these are not alike."""
        if not self.alike(other):
            return None
        if self.seat == other.seat:
            return seated
        return tuple(Seated(s.plate, self.seat, kin=s.units) for s in seated)


@dataclass(frozen=True)
class Recovered:
    """Fields of v cases on the last of one or two grids, extrapolated from two; each is worked out when first read.

    Names and units are those of `Fields`.
    """

    seated: tuple[Seated, ...]
    each: tuple[Borne, ...]

    @cached_property
    def M_1(self) -> Array:
        """Moment that bends along y."""
        return self.better("M_1")

    @cached_property
    def M_2(self) -> Array:
        """Moment that bends along z."""
        return self.better("M_2")

    @cached_property
    def M_12(self) -> Array:
        """Twist."""
        return self.better("M_12")

    @cached_property
    def Q_1(self) -> Array:
        """Shear along y."""
        return self.better("Q_1")

    @cached_property
    def Q_2(self) -> Array:
        """Shear along z."""
        return self.better("Q_2")

    def on_each(self, name: str) -> list[Array]:
        """A field as each grid has it."""
        pairs = zip(self.seated, self.each, strict=True)
        return [s.units.sums(name, b.forces) for s, b in pairs]

    def better(self, name: str) -> Array:
        """A field, extrapolated where there are two grids."""
        *coarse, fine = self.on_each(name)
        for field in coarse:
            correct(fine, correction(field, fine))
        return fine

    def error(self, name: str) -> Array:
        """How far two grids have yet to go in a field, at every node; NaN, not known, from one alone."""
        *coarse, fine = self.on_each(name)
        nodes = self.seated[-1].plate.grid.nodes
        return size_of(nodes, correction(coarse[0], fine)) if coarse else np.full_like(fine, np.nan)


@dataclass(frozen=True)
class Answer:
    """What v cases come to by one or two grids, `seated` with the finest last, and what `each` says.

    `bounds`: the same on the finest grid with each other stiffness the seat might have.
    """

    seated: tuple[Seated, ...]
    each: tuple[Borne, ...]
    bounds: tuple[Borne, ...] = ()

    @property
    def grid(self) -> Grid:
        """The finest grid."""
        return self.seated[-1].plate.grid

    @property
    def seat(self) -> Seat:
        """Bolts and pads."""
        return self.seated[-1].seat

    @property
    def borne(self) -> Borne:
        """Bolt tensions, pad and rest forces N, bracket motion."""
        return self.each[-1]

    def finest(self, cases: Sequence[int]) -> "Answer":
        """Some cases, and the finest grid's part of them alone."""
        return Answer(self.seated[-1:], (self.borne.take(cases),), tuple(b.take(cases) for b in self.bounds))

    @property
    def outcome(self) -> "Answer":
        """Forces alone, for other boards to begin from: without the plates, which are megabytes each."""
        return Answer((), self.each[-1:], self.bounds)

    @cached_property
    def bolt_error(self) -> Array:
        """How far two grids have yet to go in bolt tension, N (b, v); NaN, not known, from one alone."""
        if len(self.each) == 1:
            return np.full_like(self.borne.bolts, np.nan)
        return np.asarray(np.abs(self.each[1].bolts - self.each[0].bolts) / 3)

    @cached_property
    def fields(self) -> Recovered:
        """Moments and shears."""
        return Recovered(self.seated, self.each)

    @cached_property
    def error(self) -> Fields:
        """How far two grids have yet to go in every field, at every node; NaN, not known, from one alone."""
        return Fields(*(self.fields.error(f.name) for f in dataclasses.fields(Fields)))

    @cached_property
    def solution(self) -> Solution:
        """Deflections w mm, and the reactions of rigid supports, N positive aft."""
        return self.seated[-1].solution(self.borne)

    @cached_property
    def springs(self) -> Array:
        """Forces of the board's own springs, (s, v) N."""
        return self.seated[-1].plate.spring_forces(self.solution)

    @property
    def pressure(self) -> Array:
        """Mean pressure on each pad cell, MPa (p, v); a peak depends on the bed's stiffness: report only."""
        return self.borne.pads / self.seat.areas[:, None]

    def mean(self, field: Array, where: Rectangle) -> Array:
        """Mean of a field over a line or rectangle of the board, (v,)."""
        weights = self.grid.spread(where)
        some = weights > 0
        return np.asarray(weights[some] @ field[some])

    def means(self, name: str, places: Sequence[Rectangle], part: Array | None = None) -> Array:
        """Mean of a moment or shear over lines or rectangles, ((1 + bounds) places, v): as it is, then otherwise stiff.

        `part` (p+1, q+1) is the share of it that counts at each node, else all. Others are of the finest grid; what
        extrapolation adds to the first is added to them too.
        """
        over = self.grid.means(places)
        over = over if part is None else over.part(part)
        better = over.of(getattr(self.fields, name))
        if not self.bounds:
            return better
        more = self.seated[-1].units.means(name, over, self._apart)
        v = better.shape[1]
        others = [better + more[:, n * v : (n + 1) * v] for n in range(len(self.bounds))]
        return np.concatenate([better, *others])

    @cached_property
    def _apart(self) -> Array:
        """How far forces with each other stiffness are from those as it is, side by side, (m, bounds v)."""
        return np.hstack([b.forces - self.borne.forces for b in self.bounds])

    def pull(self, where: Rectangle) -> Array:
        """Force that rigid supports on a line put on the board, N positive aft, (v,)."""
        return np.asarray(self.solution.reaction[self.grid.on_line(where)].sum(axis=0))


def answer(
    board: Board,
    wrenches: Array,
    names: Sequence[str],
    seated: tuple[Seated, ...] | None = None,
    like: Answer | None = None,
) -> Answer:
    """Every case of one board.

    Args:
        board: on its coarser grid; each cell is cut in four for the finer.
        wrenches: (v, 3) Fx N, My, Mz N·mm on the bracket about the datum, at mid-thickness of the board.
        names: (v,) of the cases.
        seated: on both grids, where plates and unit loads of another answer serve again.
        like: other cases, or the same, on a board like it, whose contacts are tried first.

    Raises:
        JobError: a board that is not held, or a case that pads, bolts and rests cannot carry, by name.
    """
    keep()
    coarse, fine = seated or board.seated()
    first = coarse.bear(wrenches, names, None if like is None else like.borne)
    each = first, fine.bear(wrenches, names, first)
    return Answer((coarse, fine), each, bounded(board, fine, each[1], names, like))


def bounded(
    board: Board, seated: Seated, borne: Borne, names: Sequence[str], like: Answer | None = None
) -> tuple[Borne, ...]:
    """The same cases with every other stiffness of the seat."""
    first = like.bounds if like is not None and len(like.bounds) == len(board.bounds) else (borne,) * len(board.bounds)
    return tuple(seated.bear(borne.wrenches, names, b, k) for b, k in zip(first, board.bounds, strict=True))


def on_one_grid(
    board: Board,
    wrenches: Array,
    names: Sequence[str],
    seated: tuple[Seated, ...] | None = None,
    like: Answer | None = None,
) -> Answer:
    """The same on the coarser grid alone: a third of the work, for looking over many boards; errors not known (NaN)."""
    keep()
    plate = Plate(board.grid, board.section, board.supports, board.springs)
    (coarse,) = seated or (Seated(plate, board.seat, board.rests),)
    borne = coarse.bear(wrenches, names, None if like is None else like.borne)
    return Answer((coarse,), (borne,), bounded(board, coarse, borne, names, like))


def board_section(stack: Stacks) -> Section:
    """Section of one glued-up stack; Poisson's coupling of plywood is left out, as in its fit."""
    t = float(stack.t[0])
    E_1, E_2, G, G_t = (float(v[0]) for v in (stack.E_1, stack.E_2, stack.G_12, stack.G_trans))
    D_1, D_2, D_66 = (float(np.asarray(rigidity(E, t))) for E in (E_1, E_2, G))
    S = float(np.asarray(shear_stiffness(G_t, t)))
    return Section(D_1, 0.0, D_2, D_66, S, S)


def backed(section: Section, grid: Grid, plate: Rectangle, E: float, t: float, nu: float = 0.33) -> Section:
    """Section with a loose metal plate behind part of it: its own bending stiffness is added, no shear.

    `plate` is the part that works (between bolts, less what anchors its ends); cells take the share of
    it they lie under. A bonded plate is a layer of the laminate instead.
    """
    shape = grid.present.shape
    y = np.diff(np.clip(grid.y, plate.y_lo, plate.y_hi)) / np.diff(grid.y)
    z = np.diff(np.clip(grid.z, plate.z_lo, plate.z_hi)) / np.diff(grid.z)
    D = float(np.asarray(metal_rigidity(E, t, nu))) * np.outer(y, z)
    k = section.on(shape)
    return Section(k["D_11"] + D, k["D_12"] + nu * D, k["D_22"] + D, k["D_66"] + (1 - nu) / 2 * D, k["S_1"], k["S_2"])
