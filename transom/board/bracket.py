"""A rigid bracket on the board: pads that only push, bolts that only pull.

Contacts are condensed once for a board: one unit load each. After that a load case costs a small dense
problem. Wrench components here are Fx N, My and Mz N·mm at mid-thickness of the board, board axes,
acting on the bracket; a bolt's tension and a pad's push are positive.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from transom.board.contact import Contacts
from transom.board.grid import Rectangle
from transom.board.plate import Plate, Solution
from transom.formula import formula
from transom.units import MM, MM2, MPA, N_PER_MM, Array


@formula(symbol="k", source="elastic layer: k = E_90 A/t", evidence="convention", known_by="derived")
def wood_stiffness(E_90: MPA, A: MM2, t: MM) -> N_PER_MM:
    """Stiffness through the thickness of the wood under a pad cell or a bolt's plate."""
    return E_90 * A / t


@formula(symbol="k_s", source="tie rod: k = E A/l", known_by="derived", typical={"E_s": 210e3})
def shank_stiffness(E_s: MPA, A_s: MM2, grip: MM) -> N_PER_MM:
    """Stiffness of a bolt's steel over its grip."""
    return E_s * A_s / grip


@formula(symbol="k_b", source="springs in series", known_by="derived")
def bolt_stiffness(k_steel: N_PER_MM, k_wood: N_PER_MM) -> N_PER_MM:
    """Stiffness of a bolt in series with the wood under its plate."""
    return 1 / (1 / k_steel + 1 / k_wood)


@dataclass(frozen=True)
class Bolt:
    """A bolt at (y, z) mm whose head pulls on the rigid bracket and whose plate presses on `plate`."""

    y: float
    z: float
    k: float
    plate: Rectangle


@dataclass(frozen=True)
class Pad:
    """A piece of a pad small enough to carry one pressure, and its stiffness, N/mm in all."""

    where: Rectangle
    k: float


def pad_cells(pad: Rectangle, E_90: float, t: float, target: float = 25.0) -> tuple[Pad, ...]:
    """A pad cut into cells of at most `target` mm; each carries an even pressure."""
    ny = max(1, int(np.ceil((pad.y_hi - pad.y_lo) / target - 1e-9)))
    nz = max(1, int(np.ceil((pad.z_hi - pad.z_lo) / target - 1e-9)))
    y, z = np.linspace(pad.y_lo, pad.y_hi, ny + 1), np.linspace(pad.z_lo, pad.z_hi, nz + 1)
    cells = [Rectangle(y[i], y[i + 1], z[j], z[j + 1]) for i in range(ny) for j in range(nz)]
    return tuple(Pad(c, float(np.asarray(wood_stiffness(E_90, c.area, t)))) for c in cells)


@dataclass(frozen=True)
class Seat:
    """Everything the bracket bears on: bolts, then pad cells, in that order wherever forces are listed."""

    bolts: tuple[Bolt, ...]
    pads: tuple[Pad, ...]

    @property
    def signs(self) -> Array:
        """-1 for bolts, which pull the bracket forward; +1 for pads, which push it aft."""
        return np.repeat([-1.0, 1.0], [len(self.bolts), len(self.pads)])

    @property
    def arms(self) -> Array:
        """Rows (3, m): motion of the bracket at each contact from x, turn about y, turn about z."""
        points = [(b.y, b.z) for b in self.bolts] + [p.where.centre for p in self.pads]
        y, z = np.array(points, dtype=float).reshape(-1, 2).T
        return np.stack([np.ones_like(y), z, -y])

    @property
    def areas(self) -> Array:
        """Area of every pad cell, mm²."""
        return np.array([p.where.area for p in self.pads])


@dataclass(frozen=True)
class Borne:
    """What a bracket's cases come to: `bolts` N (b, v), `pads` N (p, v), `motion` (3, v) mm and rad.

    `forces` (m, v) are both together, the factors for `Seated.unit`.
    """

    forces: Array
    motion: Array
    bolts: Array
    pads: Array


@dataclass(frozen=True)
class Seated:
    """A plate with a bracket on it, condensed to the contacts."""

    plate: Plate
    seat: Seat

    @cached_property
    def rows(self) -> Array:
        """How each contact gathers deflection and spreads force, (m, p+1, q+1)."""
        places = [b.plate for b in self.seat.bolts] + [p.where for p in self.seat.pads]
        return np.stack([self.plate.grid.spread(p) for p in places])

    @cached_property
    def unit(self) -> Solution:
        """The board under a unit of each contact force."""
        return self.plate.solve(np.moveaxis(-self.seat.signs[:, None, None] * self.rows, 0, -1))

    @cached_property
    def contacts(self) -> Contacts:
        """Flexibility of board, wood and bolts between the contacts, and the bracket's equilibrium."""
        own = np.array([1 / c.k for c in (*self.seat.bolts, *self.seat.pads)])
        m = len(own)
        board = -self.seat.signs[:, None] * (self.rows.reshape(m, -1) @ self.unit.w.reshape(-1, m))
        return Contacts((board + board.T) / 2 + np.diag(own), self.seat.signs * self.seat.arms)

    def bear(self, wrenches: Array, names: Sequence[str]) -> Borne:
        """Contact forces under wrenches (v, 3) of Fx, My, Mz on the bracket.

        Raises:
            JobError: a case that pads and bolts cannot carry, by name.
        """
        forces, motion = self.contacts.bear(-np.asarray(wrenches, dtype=float).T, names)
        b = len(self.seat.bolts)
        return Borne(forces, motion, forces[:b], forces[b:])
