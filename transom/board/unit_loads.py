"""Unit loads on a board, worked out once each; every case is a sum of them.

A bracket has fewer contacts than cases, and on a board that is its own mirror image half of its loads
are the others' images: those are solved and recovered, the rest is turned round.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.plate import Plate, Solution
from transom.board.recover import Fields, fields
from transom.units import Array

SAME = 1e-12  # of a unit load: how far from its image another may be and still be called that
SIGNS = {"w": 1.0, "b_1": -1.0, "b_2": 1.0, "reaction": 1.0}  # of a mirror image
SIGNS |= {"M_1": 1.0, "M_2": 1.0, "M_12": -1.0, "Q_1": -1.0, "Q_2": 1.0}


@dataclass(frozen=True)
class Units:
    """Unit loads on a plate: nodal forces `loads` (p+1, q+1, m), N positive aft.

    `kin` are loads on the very same plate worked out before: what is among these is not worked out again.
    """

    plate: Plate
    loads: Array
    kin: "Units | None" = None

    @cached_property
    def images(self) -> NDArray[np.int_]:
        """For each load the one that is its mirror image, (m,); itself where board or load has none."""
        loads, alone = self.loads, np.arange(self.loads.shape[-1])
        if not self.plate.mirrored or not len(alone):
            return alone
        here, there = _middles(self.plate, loads), _middles(self.plate, loads[::-1])
        found = np.argmin(np.abs(there[:, :, None] - here[:, None]).max(axis=0), axis=1)
        unlike = np.abs(loads[::-1] - loads[..., found]).max() > SAME
        return alone if unlike or (found[found] != alone).any() else found

    @cached_property
    def own(self) -> NDArray[np.int_]:
        """The loads worked out: the first of each pair."""
        return np.flatnonzero(self.images >= np.arange(len(self.images)))

    def _whole(self, name: str, half: Array) -> Array:
        """Values of every load, (p+1, q+1, m), from those worked out."""
        if len(self.own) == len(self.images):
            return half
        turned = np.flatnonzero(self.images < np.arange(len(self.images)))
        out = np.empty((*half.shape[:2], len(self.images)))
        out[..., self.own] = half
        out[..., turned] = SIGNS[name] * half[::-1][..., np.searchsorted(self.own, self.images[turned])]
        return out

    @cached_property
    def _by_load(self) -> dict[bytes, int]:
        """Place of each load worked out, by its nodal forces."""
        return {self.loads[..., k].tobytes(): i for i, k in enumerate(self.own)}

    @cached_property
    def _old(self) -> NDArray[np.int_]:
        """Place among its kin's of each load worked out, (own,); -1 where it is new."""
        if self.kin is None:
            return np.full(len(self.own), -1)
        known = self.kin._by_load
        return np.array([known.get(load, -1) for load in self._by_load], dtype=int)

    def _joined(self, old: object, new: object) -> dict[str, Array]:
        """Arrays (..., own) of both, from those of its kin and those of the new loads."""
        fresh, out = self._old < 0, {}
        for name, values in vars(new).items():
            out[name] = np.empty((*values.shape[:2], len(fresh)))
            out[name][..., fresh] = values
            out[name][..., ~fresh] = getattr(old, name)[..., self._old[~fresh]]
        return out

    @cached_property
    def _new(self) -> Solution:
        """Of the loads that its kin do not know, (..., new)."""
        return self.plate.solve(self.loads[..., self.own[self._old < 0]])

    @cached_property
    def _solved(self) -> Solution:
        return self._new if self.kin is None else Solution(**self._joined(self.kin._solved, self._new))

    @cached_property
    def _known(self) -> dict[str, Array]:
        return {}

    @cached_property
    def _recovered(self) -> Fields:
        new = fields(self.plate, self._new)
        return new if self.kin is None else Fields(**self._joined(self.kin._recovered, new))

    def solution(self, name: str) -> Array:
        """A deflection or reaction of each load, (p+1, q+1, m), named as in `Solution`; worked out once."""
        if name not in self._known:
            self._known[name] = self._whole(name, getattr(self._solved, name))
        return self._known[name]

    def field(self, name: str) -> Array:
        """A moment or shear of each load, (p+1, q+1, m), named as in `Fields`."""
        return self._whole(name, getattr(self._recovered, name))

    @cached_property
    def flexibility(self) -> Array:
        """What the board gives under each load where the others act, mm (m, m)."""
        m = self.loads.shape[-1]
        moved = self.loads.reshape(-1, m).T @ self.solution("w").reshape(-1, m)
        return np.asarray((moved + moved.T) / 2)


def _middles(plate: Plate, loads: Array) -> Array:
    """Sum and middle of each load, (3, m): what tells them apart."""
    y, z = plate.grid.y / np.abs(plate.grid.y).max(), plate.grid.z / np.abs(plate.grid.z).max()
    level = loads.sum(axis=1)
    return np.stack([level.sum(axis=0), y @ level, z @ loads.sum(axis=0)])


def summed(units: Array, factors: Array) -> Array:
    """Sums of units (p+1, q+1, m) times factors (m, v), (p+1, q+1, v)."""
    return np.asarray((units.reshape(-1, len(factors)) @ factors).reshape(*units.shape[:2], -1))
