"""A rigid bracket on the board: pads that only push, bolts that only pull.

Contacts are condensed once for a board: one unit load each. After that a load case costs a small dense
problem. Wrench components here are Fx N, My and Mz N·mm at mid-thickness of the board, board axes,
acting on the bracket; a bolt's tension and a pad's push are positive.
"""

import dataclasses
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from transom.board.contact import Contacts
from transom.board.grid import Rectangle
from transom.board.plate import Plate, Solution, Spring
from transom.board.unit_loads import Units
from transom.formula import formula
from transom.frozen import dataclass
from transom.units import MM, MM2, MPA, N_PER_MM, ONE, Array


@formula(symbol="k", source="elastic layer: k = E_90 A/t", evidence="convention", known_by="derived")
def wood_stiffness(E_90: MPA, A: MM2, t: MM) -> N_PER_MM:
    """Stiffness through the thickness of the wood under a pad cell or a bolt's plate."""
    return E_90 * A / t


@formula(
    symbol="E_90/k",
    source="envelope of a stiffness known to a factor",
    evidence="convention",
    known_by="derived",
    typical={"times": 2.0},
)
def softer(E_90: MPA, times: ONE) -> MPA:
    """Stiffness through the thickness of wood at its softest."""
    return E_90 / times


@formula(symbol="E_90 k", source="envelope of a stiffness known to a factor", evidence="convention", known_by="derived",
         typical={"times": 2.0})  # fmt: skip
def stiffer(E_90: MPA, times: ONE) -> MPA:
    """Stiffness through the thickness of wood at its stiffest."""
    return E_90 * times


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
    y, z = np.linspace(pad.y_lo, pad.y_hi, ny + 1).tolist(), np.linspace(pad.z_lo, pad.z_hi, nz + 1).tolist()
    # All are of one size.
    k = float(np.asarray(wood_stiffness(E_90, pad.area / (ny * nz), t)))
    return tuple(Pad(Rectangle(*across, *up), k) for across in pairwise(y) for up in pairwise(z))


@dataclass(frozen=True)
class Seat:
    """Everything the bracket bears on: bolts, then pad cells, in that order wherever forces are listed."""

    bolts: tuple[Bolt, ...]
    pads: tuple[Pad, ...]

    def fits(self, borne: "Borne") -> bool:
        """True where that has as many bolts and pad cells."""
        return (len(self.bolts), len(self.pads)) == (len(borne.bolts), len(borne.pads))

    @cached_property
    def signs(self) -> Array:
        """-1 for bolts, which pull the bracket forward; +1 for pads, which push it aft."""
        return np.repeat([-1.0, 1.0], [len(self.bolts), len(self.pads)])

    @cached_property
    def arms(self) -> Array:
        """Rows (3, m): motion of the bracket at each contact from x, turn about y, turn about z."""
        points = [(b.y, b.z) for b in self.bolts] + [p.where.centre for p in self.pads]
        y, z = np.array(points, dtype=float).reshape(-1, 2).T
        return np.stack([np.ones_like(y), z, -y])

    @property
    def middles(self) -> tuple[Array, Array]:
        """Places y and z of every pad cell's middle, mm, (p,) both."""
        _, z, port = self.arms[:, len(self.bolts) :]
        return -port, z

    @cached_property
    def areas(self) -> Array:
        """Area of every pad cell, mm²."""
        return np.array([p.where.area for p in self.pads])

    @cached_property
    def stiffness(self) -> Array:
        """Stiffness of every bolt and pad cell, N/mm."""
        return np.array([b.k for b in self.bolts] + [p.k for p in self.pads])


@dataclass(frozen=True)
class Rest:
    """What the board rests on or is held back by along a line or at a point, one way only.

    `k` N/mm in all. `pushes`: True for a flange ahead of the board, which pushes it aft; False for
    fasteners, which hold it back. On a grid each node of the line is a spring of its own, so that a
    point has to be a node.
    """

    where: Rectangle
    k: float
    pushes: bool


@dataclass(frozen=True)
class Borne:
    """What a bracket's cases come to: `bolts` N (b, v), `pads` N (p, v), `motion` (3, v) mm and rad.

    `rests` N (s, v), none negative, one row for each node of `Seated.nodes`. `forces` (m, v) are the
    factors for `Seated.unit_loads`, `wrenches` (v, 3) what was to be borne.
    """

    wrenches: Array
    forces: Array
    motion: Array
    bolts: Array
    pads: Array
    rests: Array

    def take(self, cases: Sequence[int]) -> "Borne":
        """Some of the cases."""
        rest = (getattr(self, name)[:, cases] for name in ("forces", "motion", "bolts", "pads", "rests"))
        return Borne(self.wrenches[cases], *rest)

    def touching(self, wrenches: Array, contacts: int) -> NDArray[np.bool_]:
        """Which of the first contacts touch in the case of these that pulls most like each of others, (contacts, v)."""
        return np.asarray(self.forces[:contacts, self.nearest(wrenches)] > 0)

    def nearest(self, wrenches: Array) -> NDArray[np.int_]:
        """Place of the case of these that pulls most like each of others, (v,)."""
        if np.array_equal(wrenches, self.wrenches):
            return np.arange(len(wrenches))
        size = np.maximum(np.abs(self.wrenches).max(axis=0), 1e-300)
        here, there = self.wrenches / size, wrenches / size
        here = here / np.maximum(np.linalg.norm(here, axis=1, keepdims=True), 1e-300)
        return np.asarray(np.argmax(there @ here.T, axis=1))


@dataclass(frozen=True)
class Seated:
    """A plate with a bracket on it, condensed to the contacts.

    Rests act in the plate as springs both ways; a contact each takes their pull off again. The bracket's
    contacts and these make one problem.
    """

    plate: Plate
    seat: Seat
    rests: tuple[Rest, ...] = ()
    kin: Units | None = None  # unit loads worked out before on the same plate, where nothing rests

    @cached_property
    def nodes(self) -> tuple[tuple[int, int, float, float], ...]:
        """Every node that rests: its place on the grid, its stiffness and its sense (+1 pushes aft)."""
        weights = self.plate.grid.spreads([rest.where for rest in self.rests])
        return tuple(
            (int(i), int(j), rest.k * float(weights[i, j, n]), 1.0 if rest.pushes else -1.0)
            for n, rest in enumerate(self.rests) for i, j in zip(*np.nonzero(weights[..., n]), strict=True)
        )  # fmt: skip

    @cached_property
    def sprung(self) -> Plate:
        """The plate with its rests as springs both ways."""
        if not self.rests:
            return self.plate
        y, z = self.plate.grid.y, self.plate.grid.z
        springs = (Spring(Rectangle(y[i], y[i], z[j], z[j]), k) for i, j, k, _ in self.nodes)
        return replace(self.plate, springs=(*self.plate.springs, *springs))

    @cached_property
    def unit_loads(self) -> Array:
        """Nodal forces on the board of a unit of each contact force, (p+1, q+1, m)."""
        places = [b.plate for b in self.seat.bolts] + [p.where for p in self.seat.pads]
        loads = np.zeros((*self.plate.grid.nodes.shape, len(self._back)))
        loads[..., : len(places)] = -self.seat.signs * self.plate.grid.spreads(places)
        for n, (i, j, _, sense) in enumerate(self.nodes, len(places)):
            loads[i, j, n] = sense
        return loads

    @cached_property
    def units(self) -> Units:
        """Those loads on the plate, one by one."""
        return Units(self.sprung, self.unit_loads, self.kin)

    @property
    def flexibility(self) -> Array:
        """What the board gives under each contact where the others act, mm (m, m)."""
        return self.units.flexibility

    @property
    def _back(self) -> Array:
        """One for bracket contacts, which load the board along their gap, minus one for rests."""
        return np.repeat([1.0, -1.0], [len(self.seat.signs), len(self.nodes)])

    @cached_property
    def contacts(self) -> Contacts:
        """Flexibility of board, wood, bolts and rests between the contacts, and the bracket's equilibrium."""
        return self._contacts(self.seat.stiffness)

    def _contacts(self, stiffness: Array) -> Contacts:
        k = np.concatenate([stiffness, [n[2] for n in self.nodes]])
        board = self.flexibility * self._back[:, None]
        arms = np.hstack([self.seat.signs * self.seat.arms, np.zeros((3, len(self.nodes)))])
        return Contacts(board + np.diag(1 / k), arms)

    def solution(self, borne: Borne) -> Solution:
        """The board under the contact forces of every case."""
        return Solution(*(self.units.sums(f.name, borne.forces) for f in dataclasses.fields(Solution)))

    def bear(
        self, wrenches: Array, names: Sequence[str], like: Borne | None = None, stiffness: Array | None = None
    ) -> Borne:
        """Contact forces under wrenches (v, 3) of Fx, My, Mz on the bracket.

        `like`: the same or other cases on another grid or board, whose bolts and pads are tried first. `stiffness` of
        bolts and pads in place of the seat's: the board's own flexibility stays, so that this costs next to nothing.

        Raises:
            JobError: a case that pads, bolts and rests cannot carry, by name.
        """
        W = -np.asarray(wrenches, dtype=float).T
        c = len(self.seat.signs)
        guess = None if like is None else self._guess(np.asarray(wrenches, dtype=float), like)
        contacts = self.contacts if stiffness is None else self._contacts(stiffness)
        forces, motion = contacts.bear(W, names, start=self._back > 0, guess=guess)
        return self._borne(-W.T, forces, motion, contacts.M[c:] @ forces)

    def fits(self, borne: Borne) -> bool:
        """True where that has as many bolts, pad cells and rests."""
        return self.seat.fits(borne) and len(borne.rests) == len(self.nodes)

    def _guess(self, wrenches: Array, like: Borne) -> NDArray[np.bool_]:
        """Contacts to try first: those of the bracket; of rests those that gave, where there were as many."""
        c, near = len(self.seat.signs), like.nearest(wrenches)
        out = np.zeros((len(self._back), len(wrenches)), dtype=bool)
        out[:c] = like.forces[:c, near] > 0
        if len(like.rests) == len(self.nodes):
            out[c:] = like.rests[:, near] <= 0
        return out

    def _borne(self, wrenches: Array, forces: Array, motion: Array, open_by: Array) -> Borne:
        """The cases from forces of bracket and rests, and how far rests were pushed, (s, v)."""
        b, c = len(self.seat.bolts), len(self.seat.signs)
        k = np.array([n[2] for n in self.nodes])
        return Borne(wrenches, forces, motion, forces[:b], forces[b:c], np.maximum(k[:, None] * open_by, 0.0))
