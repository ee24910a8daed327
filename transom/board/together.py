"""Brackets of several candidates on one plate side by side: each has bolts of its own, their pads are the same.

One contact problem holds the bolts of all and the pads once; each case finds its own candidate's bolts alone. So n
candidates cost little more than one.
"""

from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.bracket import Borne, Seat, Seated
from transom.board.contact import Contacts
from transom.frozen import dataclass
from transom.units import Array


@dataclass(frozen=True)
class Together(Seated):
    """A plate under n brackets, one at a time, condensed to the contacts of all.

    `seats` (n,) have their bolts and pads at the same places as `seat`, whose unit loads `kin` are. Cases go by
    candidates: those of the first, then those of the second. Loads by which what a board does is told, `Borne.forces`,
    are those of `seat`, then what others' bolts add to them.
    """

    seats: tuple[Seat, ...] = ()

    @cached_property
    def _spread(self) -> tuple[Array, NDArray[np.int_]]:
        """Unit loads that differ (p+1, q+1, u), and which of them each bolt of each candidate and each pad is, (n b + p,)."""
        others = [b.plate for s in self.seats for b in s.bolts]
        bolts = self.plate.grid.spreads([b.plate for b in self.seat.bolts] + others)
        pads = -self.plate.grid.spreads([p.where for p in self.seat.pads])
        b = len(self.seat.bolts)
        loads = np.concatenate([bolts[..., :b], pads, bolts[..., b:]], axis=-1)
        number: dict[bytes, int] = {}
        which = np.array([number.setdefault(load.tobytes(), i) for i, load in enumerate(np.moveaxis(loads, -1, 0))])
        first, which = np.unique(which, return_inverse=True)
        c = len(self.seat.signs)
        return loads[..., first], np.concatenate([which[c:], which[b:c]])

    @cached_property
    def unit_loads(self) -> Array:
        """Nodal forces on the board of a unit of each, (p+1, q+1, u)."""
        return self._spread[0]

    @cached_property
    def _own(self) -> NDArray[np.bool_]:
        """Which contacts each candidate has, (n b + p, n)."""
        n, b = len(self.seats), len(self.seat.bolts)
        bolts = np.repeat(np.eye(n, dtype=bool), b, axis=0)
        return np.concatenate([bolts, np.ones((len(self.seat.pads), n), dtype=bool)])

    def contacts_with(self, stiffness: Array) -> Contacts:
        """All contacts, of stiffness (n, b + p)."""
        b, which = len(self.seat.bolts), self._spread[1]
        k = np.concatenate([stiffness[:, :b].ravel(), stiffness[0, b:]])
        own = self.seat.signs * self.seat.arms
        arms = np.hstack([np.tile(own[:, :b], len(self.seats)), own[:, b:]])
        return Contacts(self.flexibility[np.ix_(which, which)] + np.diag(1 / k), arms)

    def bear_all(self, wrenches: Array, names: Sequence[str], like: Borne, stiffness: Array) -> Borne:
        """Every case (v, 3) of every candidate, n v cases; each is tried first as `like` has it on another of these boards.

        Raises:
            JobError: a case that pads and bolts cannot carry, by name.
        """
        n, b, v = len(self.seats), len(self.seat.bolts), len(wrenches)
        contacts, own = self.contacts_with(stiffness), np.repeat(self._own, v, axis=1)
        touch = like.touching(wrenches, len(self.seat.signs))
        guess = np.tile(np.concatenate([np.tile(touch[:b], (n, 1)), touch[b:]]), n)
        every = np.tile(wrenches, (n, 1))
        f, motion = contacts.bear(-every.T, list(names) * n, guess=guess, own=own)
        forces = np.zeros((self.unit_loads.shape[-1], n * v))
        np.add.at(forces, self._spread[1], f)
        # Of every bolt the row of the candidate whose case it is: others have no force in it.
        bolts = f[: n * b].reshape(n, b, n * v).sum(axis=0)
        return Borne(every, forces, motion, bolts, f[n * b :], np.zeros((0, n * v)))
