"""A board that lies on lines, let go along them onto rests that push or hold one way: no other plate is solved for it.

What moving each held node by 1 mm does is worked out once for a plate; with it the lines' reactions become the rests'
forces by equations no larger than there are nodes on the lines. Result and contact problem are those of the plate
with the rests in it as springs (`tests/board/test_let_go.py`).
"""

from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.bracket import Borne, Seated
from transom.board.grid import Means
from transom.board.plate import Deflections
from transom.board.recover import Moments, moments, shears
from transom.board.unit_loads import OF_MOMENTS, OF_SOLUTION, Moves, Units
from transom.frozen import dataclass
from transom.units import Array


@dataclass(frozen=True)
class Both:
    """Unit loads on a plate and movements of its held nodes, one after the other wherever factors are listed."""

    loads: Units
    moves: Moves

    @property
    def _count(self) -> int:
        return len(self.loads.images)

    def sums(self, name: str, factors: Array) -> Array:
        """Sums of a deflection, reaction, moment or shear times factors (m, v), (p+1, q+1, v)."""
        if name in OF_MOMENTS:
            return np.asarray(getattr(self._moments(factors), name).copy())
        if name not in OF_SOLUTION:
            return np.asarray(getattr(shears(self.loads.plate, self._summed(factors)), name))
        own, moved = factors[: self._count], factors[self._count :]
        return np.asarray(self.loads.sums(name, own) + self.moves.sums(name, moved))

    def means(self, name: str, over: Means, factors: Array) -> Array:
        """Such sums' means over k places, (k, v)."""
        return over.of(getattr(self._moments(factors), name))

    @cached_property
    def _known(self) -> dict[bytes, Moments]:
        return {}

    def _moments(self, factors: Array) -> Moments:
        """Moments of sums, of all of them together when first asked for: there are fewer sums than causes."""
        asked = factors.tobytes()
        if asked not in self._known:
            self._known[asked] = moments(self.loads.plate, self._summed(factors))
        return self._known[asked]

    def _summed(self, factors: Array) -> Deflections:
        return Deflections(*(self.sums(name, factors) for name in ("w", "b_1", "b_2")))


@dataclass(frozen=True)
class LetGo(Seated):
    """A bracket on a plate whose supports hold no deflection any more: what `rests` is all there is.

    `kin` are the same bracket's unit loads on the plate as its supports hold it. `Borne.forces` are factors of `units`:
    loads of the bracket, net forces of rests where no support was, movements of held nodes.
    """

    @cached_property
    def _rests(self) -> tuple[NDArray[np.int_], NDArray[np.int_], Array, Array]:
        """Places on the grid, stiffness and sense of all nodes that rest, (n,) each."""
        i, j, k, sense = np.array(self.nodes, dtype=float).reshape(-1, 4).T
        return i.astype(int), j.astype(int), k, sense

    @cached_property
    def _at(self) -> tuple[NDArray[np.int_], Array]:
        """For each rest its row among `_equations` and its sense, (n,)."""
        i, j, _, sense = self._rests
        row = np.full(self.plate.grid.nodes.shape, -1)
        row[self._loads.moves.places] = len(self._free) + np.arange(len(self._loads.moves.places[0]))
        for n, place in enumerate(self._free):
            row[place] = n
        return row[i, j], sense

    @cached_property
    def _sprung(self) -> NDArray[np.bool_]:
        """Rests that act as springs both ways until a contact each takes their pull off: what holds the board, bolts if
        they do. The others are contacts that push or do not: of them far fewer touch than stand off."""
        i, j, _, sense = self._rests
        at = np.stack([np.ones(len(i)), self.plate.grid.y[i], self.plate.grid.z[j]], axis=1)
        holds = sense < 0
        return holds if np.linalg.matrix_rank(at[holds]) == 3 else np.ones_like(holds)

    @cached_property
    def _back(self) -> Array:
        """One for contacts that load the board along their gap, minus one for those that take a pull off."""
        return np.concatenate([np.ones(len(self.seat.signs)), np.where(self._sprung, -1.0, 1.0)])

    @cached_property
    def _free(self) -> list[tuple[int, int]]:
        """Nodes that rest where no support was."""
        held = self.plate.held
        return list(dict.fromkeys((n[0], n[1]) for n in self.nodes if not held[n[0], n[1]]))

    @cached_property
    def _loads(self) -> Units:
        """Loads of the bracket, then a unit at each node that rests where no support was."""
        lying = self._lying
        if not self._free:
            return lying
        more = np.zeros((*self.plate.grid.nodes.shape, len(self._free)))
        for n, place in enumerate(self._free):
            more[(*place, n)] = 1.0
        return Units(self.plate, np.concatenate([lying.loads, more], axis=-1), lying)

    @cached_property
    def _lying(self) -> Units:
        """Loads of the bracket alone."""
        return Seated(self.plate, self.seat).units if self.kin is None else self.kin

    @cached_property
    def units(self) -> Both:  # type: ignore[override]
        """Loads and movements."""
        return Both(self._loads, self._loads.moves)

    @cached_property
    def _factors(self) -> Array:
        """Factors of `units` for a unit of each contact: bracket's, then rests', (c + e + l, c + n).

        Unknown are the net forces at nodes that rest freely and the movements of held ones.
        """
        c, e = len(self.seat.signs), len(self._free)
        (row, sense), F = self._at, self._loads.flexibility
        R, S = self._loads.at("reaction", *self._loads.moves.places), self._loads.moves.stiffness
        k = np.zeros(e + len(S))
        np.add.at(k, row, np.where(self._sprung, self._rests[2], 0.0))
        at_free, hold = k[:e, None], k[e:] + self.plate.spring_rows.sum(axis=0)[self._loads.moves.places]
        A = np.block([[np.eye(e) + at_free * F[c:, c:], -at_free * R[:, c:].T], [R[:, c:], S + np.diag(hold)]])
        right = np.zeros((len(A), c + len(row)))
        right[:, :c] = -np.concatenate([at_free * F[c:, :c], R[:, :c]])
        right[row, c + np.arange(len(row))] = sense
        return np.concatenate([np.eye(c, right.shape[1]), np.linalg.solve(A, right)])

    @cached_property
    def flexibility(self) -> Array:
        """What the board gives under each contact where the others act, on springs both ways, mm (m, m)."""
        c, e = len(self.seat.signs), len(self._free)
        (row, sense), T = self._at, self._factors
        R = self._loads.at("reaction", *self._loads.moves.places)
        given = self._loads.flexibility @ T[: c + e] - R.T @ T[c + e :]
        moved = np.concatenate([given[c:], T[c + e :]])
        out = np.concatenate([given[:c], sense[:, None] * moved[row]])
        return np.asarray((out + out.T) / 2)

    def _guess(self, wrenches: Array, like: Borne) -> NDArray[np.bool_]:
        """Of cases on the supports themselves: a rest stands off where they pull against its sense."""
        c, out = len(self.seat.signs), super()._guess(wrenches, like)
        if not len(like.rests):
            row, sense = self._at
            held = self._lying.at("reaction", *self._loads.moves.places) @ like.forces[:, like.nearest(wrenches)]
            out[c:] = sense[:, None] * np.concatenate([np.zeros((len(self._free), len(wrenches))), held])[row] <= 0
        out[c:] = out[c:] == self._sprung[:, None]
        return out

    def _borne(self, wrenches: Array, forces: Array, motion: Array, open_by: Array) -> Borne:
        found, c = super()._borne(wrenches, forces, motion, open_by), len(self.seat.signs)
        rests = np.where(self._sprung[:, None], found.rests, forces[c:])
        return replace(found, forces=self._factors @ forces, rests=rests)
