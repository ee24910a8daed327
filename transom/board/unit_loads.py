"""Unit loads on a board, worked out once each; every case is a sum of them.

A bracket has fewer contacts than cases, and on a board that is its own mirror image half of its loads
are the others' images: those are solved and recovered, the rest is turned round.
"""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.plate import Plate, Solution
from transom.board.recover import Moments, Shears, moments, shears
from transom.frozen import dataclass
from transom.units import Array

SAME = 1e-12  # of a unit load: how far from its image another may be and still be called that
SIGNS = {"w": 1.0, "b_1": -1.0, "b_2": 1.0, "reaction": 1.0}  # of a mirror image
OF_SOLUTION = frozenset(SIGNS)
OF_MOMENTS = {"M_1": 1.0, "M_2": 1.0, "M_12": -1.0}
SIGNS |= {**OF_MOMENTS, "Q_1": -1.0, "Q_2": 1.0}


@dataclass(frozen=True)
class Mirrored:
    """Unit causes on a plate and what each does, the images of others turned round instead of worked out."""

    plate: Plate

    @cached_property
    def images(self) -> NDArray[np.int_]:
        """For each cause the one that is its mirror image, (m,); itself where it has none."""
        raise NotImplementedError

    @property
    def _solved(self) -> Solution:
        """Of each cause worked out, (..., own)."""
        raise NotImplementedError

    @cached_property
    def _moments(self) -> Moments:
        """The same."""
        return moments(self.plate, self._solved)

    @cached_property
    def _shears(self) -> Shears:
        """The same."""
        return shears(self.plate, self._solved)

    @cached_property
    def own(self) -> NDArray[np.int_]:
        """The causes worked out: the first of each pair."""
        return np.flatnonzero(self.images >= np.arange(len(self.images)))

    @cached_property
    def _turned(self) -> tuple[NDArray[np.int_], NDArray[np.int_]]:
        """The causes turned round, and the place among those worked out of the image of each."""
        turned = np.flatnonzero(self.images < np.arange(len(self.images)))
        return turned, np.searchsorted(self.own, self.images[turned])

    def _half(self, name: str) -> Array:
        """Values of the causes worked out, (p+1, q+1, own)."""
        if name in OF_SOLUTION:
            return np.asarray(getattr(self._solved, name))
        return np.asarray(getattr(self._moments if name in OF_MOMENTS else self._shears, name))

    def _whole(self, name: str) -> Array:
        half, (turned, of) = self._half(name), self._turned
        if not len(turned):
            return half
        out = np.empty((*half.shape[:2], len(self.images)))
        out[..., self.own] = half
        out[..., turned] = SIGNS[name] * half[::-1][..., of]
        return out

    @cached_property
    def _known(self) -> dict[str, Array]:
        return {}

    def solution(self, name: str) -> Array:
        """A deflection or reaction of each cause, (p+1, q+1, m), named as in `Solution`; worked out once."""
        if name not in self._known:
            self._known[name] = self._whole(name)
        return self._known[name]

    def field(self, name: str) -> Array:
        """A moment or shear of each cause, (p+1, q+1, m), named as in `Fields`."""
        return self._whole(name)

    def sums(self, name: str, factors: Array) -> Array:
        """Sums of any of these of causes times factors (m, v), (p+1, q+1, v)."""
        half, (turned, of) = self._half(name), self._turned
        if not len(turned):
            return summed(half, factors)
        v = factors.shape[1]
        both = np.zeros((len(self.own), 2 * v))
        both[:, :v] = factors[self.own]
        both[of, v:] = SIGNS[name] * factors[turned]
        out = summed(half, both)
        return np.asarray(out[..., :v] + out[::-1, :, v:])

    def weighed(self, name: str, weights: Array, factors: Array) -> Array:
        """Sums of causes times factors (m, v) at places that are means of nodes by weights (k, p+1, q+1), (k, v)."""
        some = np.asarray(weights.any(axis=0))
        if len(self._turned[0]):
            some |= some[::-1]
        half = self._half(name)[some]
        out = np.empty((len(weights), len(self.images)))
        out[:, self.own] = weights[:, some] @ half
        turned, of = self._turned
        if len(turned):
            out[:, turned] = SIGNS[name] * (weights[:, ::-1][:, some] @ half)[:, of]
        return np.asarray(out @ factors)


@dataclass(frozen=True)
class Units(Mirrored):
    """Unit loads on a plate: nodal forces `loads` (p+1, q+1, m), N positive aft.

    `kin` are loads on the very same plate worked out before: what is among these is not worked out again.
    """

    loads: Array
    kin: "Units | None" = None

    @cached_property
    def images(self) -> NDArray[np.int_]:
        """For each load the one that is its mirror image, (m,); itself where board or load has none."""
        loads, alone = self.loads, np.arange(self.loads.shape[-1])
        if not self.plate.mirrored or not len(alone):
            return alone
        if self.kin is not None and len(self.kin.images) == len(alone) and self._alike(self.kin.images):
            return self.kin.images
        here, there = _middles(self.plate, loads), _middles(self.plate, loads[::-1])
        found = np.argmin(np.abs(there[:, :, None] - here[:, None]).max(axis=0), axis=1)
        return found if (found[found] == alone).all() and self._alike(found) else alone

    def _alike(self, images: NDArray[np.int_]) -> bool:
        """True where these are the images of all loads."""
        return bool(np.abs(self.loads[::-1] - self.loads[..., images]).max() <= SAME)

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
    def _moments(self) -> Moments:
        new = moments(self.plate, self._new)
        return new if self.kin is None else Moments(**self._joined(self.kin._moments, new))

    @cached_property
    def flexibility(self) -> Array:
        """What the board gives under each load where the others act, mm (m, m)."""
        m = self.loads.shape[-1]
        moved = self.loads.reshape(-1, m).T @ self.solution("w").reshape(-1, m)
        return np.asarray((moved + moved.T) / 2)

    @cached_property
    def moves(self) -> "Moves":
        """What moving the nodes does that the plate's supports hold; kin have the same."""
        return Moves(self.plate) if self.kin is None else self.kin.moves


@dataclass(frozen=True)
class Moves(Mirrored):
    """Every node whose deflection a support holds moved aft by 1 mm, the others held and nothing loaded."""

    @cached_property
    def places(self) -> tuple[NDArray[np.int_], NDArray[np.int_]]:
        """The nodes' places on the grid, (l,) both."""
        i, j = np.nonzero(self.plate.held)
        return i, j

    @cached_property
    def images(self) -> NDArray[np.int_]:
        """For each node the one that is its mirror image, (l,)."""
        i, j = self.places
        at = np.full(self.plate.held.shape, -1)
        at[i, j] = np.arange(len(i))
        return np.asarray(at[::-1][i, j]) if self.plate.mirrored else np.arange(len(i))

    @cached_property
    def _solved(self) -> Solution:
        i, j = self.places
        return self.plate.moved(i[self.own], j[self.own])

    @cached_property
    def stiffness(self) -> Array:
        """Forces on the board at each node (rows) that move each of them (columns), N/mm, (l, l)."""
        out = self._whole("reaction")[self.places]
        return np.asarray((out + out.T) / 2)


def _middles(plate: Plate, loads: Array) -> Array:
    """Sum and middle of each load, (3, m): what tells them apart."""
    y, z = plate.grid.y / np.abs(plate.grid.y).max(), plate.grid.z / np.abs(plate.grid.z).max()
    level = loads.sum(axis=1)
    return np.stack([level.sum(axis=0), y @ level, z @ loads.sum(axis=0)])


def summed(units: Array, factors: Array) -> Array:
    """Sums of units (p+1, q+1, m) times factors (m, v), (p+1, q+1, v)."""
    return np.asarray((units.reshape(-1, len(factors)) @ factors).reshape(*units.shape[:2], -1))
