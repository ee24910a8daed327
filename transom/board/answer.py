"""The plate method on one board, whole: two grids, every load case, forces and fields."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from transom.board.bracket import Borne, Rest, Seat, Seated
from transom.board.elements import Section
from transom.board.grid import Grid, Rectangle
from transom.board.lamination import Stacks
from transom.board.layers import metal_rigidity, rigidity, shear_stiffness
from transom.board.plate import Plate, Solution, Spring, Support
from transom.board.recover import Fields, correct, correction, fields, size_of
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

    def seated(self) -> tuple[Seated, Seated]:
        """The bracket on the coarser and on the finer grid."""
        fine = Plate(self.grid.finer(), self.section.finer(), self.supports, self.springs)
        coarse = Plate(self.grid, self.section, self.supports, self.springs)
        return Seated(coarse, self.seat, self.rests), Seated(fine, self.seat, self.rests)


@dataclass(frozen=True)
class Answer:
    """What v cases come to, on the finer `grid`.

    `borne`: bolt tensions, pad and rest forces N, bracket motion; `bolt_error` (b, v) N is how far two
    grids have yet to go. `fields` are extrapolated; `change` is the correction in them at the coarser
    grid's nodes, None from one grid alone. `solution` has deflections w mm and the reactions of rigid
    supports, N positive aft; `springs` (s, v) N.
    """

    grid: Grid
    seat: Seat
    borne: Borne
    bolt_error: Array
    fields: Fields
    change: Fields | None
    solution: Solution
    springs: Array

    @cached_property
    def error(self) -> Fields:
        """How far two grids have yet to go in every field, at every node; NaN, not known, from one alone."""
        if self.change is None:
            return Fields(*(np.full_like(f, np.nan) for f in vars(self.fields).values()))
        return size_of(self.grid.nodes, self.change)

    @property
    def pressure(self) -> Array:
        """Mean pressure on each pad cell, MPa (p, v); a peak depends on the bed's stiffness: report only."""
        return self.borne.pads / self.seat.areas[:, None]

    def mean(self, field: Array, where: Rectangle) -> Array:
        """Mean of a field over a line or rectangle of the board, (v,)."""
        weights = self.grid.spread(where)
        return np.asarray(np.einsum("ij,ijv->v", weights, np.where(weights[..., None] > 0, field, 0.0)))

    def pull(self, where: Rectangle) -> Array:
        """Force that rigid supports on a line put on the board, N positive aft, (v,)."""
        return np.asarray(self.solution.reaction[self.grid.on_line(where)].sum(axis=0))


def answer(board: Board, wrenches: Array, names: Sequence[str]) -> Answer:
    """Every case of one board.

    Args:
        board: on its coarser grid; each cell is cut in four for the finer.
        wrenches: (v, 3) Fx N, My, Mz N·mm on the bracket about the datum, at mid-thickness of the board.
        names: (v,) of the cases.

    Raises:
        JobError: a board that is not held, or a case that pads, bolts and rests cannot carry, by name.
    """
    seated = board.seated()
    first = seated[0].bear(wrenches, names)
    borne = (first, seated[1].bear(wrenches, names, first))
    solutions = [s.solution(b) for s, b in zip(seated, borne, strict=True)]
    coarse, fine = (fields(s.sprung, u) for s, u in zip(seated, solutions, strict=True))
    change = correction(coarse, fine)
    correct(fine, change)
    base = seated[1].plate
    return Answer(
        base.grid, board.seat, borne[1], np.abs(borne[1].bolts - borne[0].bolts) / 3, fine, change,
        solutions[1], base.spring_forces(solutions[1]),
    )  # fmt: skip


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


def on_one_grid(board: Board, wrenches: Array, names: Sequence[str]) -> Answer:
    """The same on the coarser grid alone: a third of the work, for looking over many boards; errors not known (NaN)."""
    plate = Plate(board.grid, board.section, board.supports, board.springs)
    seated = Seated(plate, board.seat, board.rests)
    borne = seated.bear(wrenches, names)
    solution = seated.solution(borne)
    found = fields(seated.sprung, solution)
    return Answer(
        plate.grid, board.seat, borne, np.full_like(borne.bolts, np.nan), found, None, solution,
        plate.spring_forces(solution),
    )  # fmt: skip
