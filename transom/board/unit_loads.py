"""Unit loads on a board, worked out once each; every case is a sum of them.

A bracket has fewer contacts than cases, and on a board that is its own mirror image half of its loads
are the others' images: those are solved and recovered, the rest is turned round.
"""

from collections.abc import Iterator
from functools import cached_property, reduce

import numpy as np
from numpy.typing import NDArray

from transom.board.grid import Bools, Means
from transom.board.plate import Plate, Solution
from transom.board.recover import Moments, Shears, moments, shears
from transom.frozen import dataclass
from transom.units import Array

SAME = 1e-12  # of a unit load: how far from its image another may be and still be called that
NEXT = 1e-9  # of how far two loads may be apart, for each place that they are apart in the list
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
        """A value of each cause, (p+1, q+1, m)."""
        i, j = np.indices(self.plate.grid.nodes.shape)
        return self.at(name, i.ravel(), j.ravel()).reshape(*i.shape, -1)

    def at(self, name: str, i: NDArray[np.int_], j: NDArray[np.int_]) -> Array:
        """A deflection, reaction, moment or shear of each cause at nodes i and j (n,), (n, m)."""
        half, (turned, of) = self._half(name), self._turned
        if not len(turned):
            return np.asarray(half[i, j])
        out = np.empty((len(i), len(self.images)))
        out[:, self.own] = half[i, j]
        out[:, turned] = SIGNS[name] * half[len(half) - 1 - i, j][:, of]
        return out

    def solution(self, name: str) -> Array:
        """A deflection or reaction of each cause, (p+1, q+1, m), named as in `Solution`."""
        return self._whole(name)

    def field(self, name: str) -> Array:
        """A moment or shear of each cause, (p+1, q+1, m), named as in `Fields`."""
        return self._whole(name)

    @cached_property
    def _split(self) -> dict[str, tuple[Array, Array]]:
        return {}

    def _parts_of(self, name: str) -> tuple[Array, Array]:
        """Values of the causes worked out on one half of the board, (p/2+1, q+1, own): the part that is its own image, and
        the part that is its image with the other sign; kept, since half a board each is half the work of every sum."""
        if name not in self._split:
            half = self._half(name)
            here, there = half[: len(half) // 2 + 1], SIGNS[name] * half[: len(half) // 2 - 1 : -1]
            self._split[name] = (here + there) / 2, (here - there) / 2
        return self._split[name]

    def sums(self, name: str, factors: Array) -> Array:
        """Sums of any of these of causes times factors (m, v), (p+1, q+1, v)."""
        turned, of = self._turned
        if not len(turned):
            return summed(self._half(name), factors)
        image = np.zeros((len(self.own), factors.shape[1]))
        image[of] = factors[turned]
        even, odd = self._parts_of(name)
        same, other = summed(even, factors[self.own] + image), summed(odd, factors[self.own] - image)
        out = np.empty((len(self.plate.grid.y), *same.shape[1:]))
        np.subtract(same, other, out=out[: len(out) // 2 - 1 : -1])
        if SIGNS[name] < 0:
            np.negative(out[len(out) // 2 :], out=out[len(out) // 2 :])
        np.add(same, other, out=out[: len(same)])
        return out

    def means(self, name: str, over: Means, factors: Array) -> Array:
        """Means over k places of sums of causes times factors (m, v), (k, v)."""
        half, (turned, of) = self._half(name), self._turned
        out = over.weights @ half[over.i, over.j] @ factors[self.own]
        if len(turned):
            image = half[len(half) - 1 - over.i, over.j][:, of]
            out += SIGNS[name] * (over.weights @ image @ factors[turned])
        return np.asarray(out)


@dataclass(frozen=True)
class Units(Mirrored):
    """Unit loads on a plate: nodal forces `loads` (p+1, q+1, m), N positive aft.

    `kin` are loads on the very same plate worked out before: what is the same in the same place among these is not
    worked out again.
    """

    loads: Array
    kin: "Units | None" = None

    @cached_property
    def images(self) -> NDArray[np.int_]:
        """For each load the one that is its mirror image, (m,); itself where board or load has none."""
        loads, alone = self.loads, np.arange(self.loads.shape[-1])
        if not self.plate.mirrored or not len(alone):
            return alone
        if self.kin is not None and len(self.kin.images) == len(alone) and self._alike(self.kin.images, self._fresh):
            return self.kin.images
        here, there = _middles(self.plate, loads)
        # Of loads about one bolt, which only their size tells apart, an image stands next to what it is the image of.
        far = NEXT * np.abs(alone[:, None] - alone)
        found = np.argmin(np.abs(there[:, :, None] - here[:, None]).max(axis=0) + far, axis=1)
        first = np.flatnonzero(found >= alone)
        return found if (found[found] == alone).all() and self._alike(found, first) else alone

    def _alike(self, images: NDArray[np.int_], some: NDArray[np.int_]) -> bool:
        """True where these are the images of some of the loads."""
        here, there = self.loads[self._loaded], self.loads[::-1][self._loaded]
        return bool(np.abs(there[:, some] - here[:, images[some]]).max(initial=0.0) <= SAME)

    @cached_property
    def _loaded(self) -> Bools:
        """Nodes that a load or its mirror image is on, (p+1, q+1)."""
        some = np.asarray(self.loads.any(axis=-1))
        return some | some[::-1]

    @cached_property
    def _old(self) -> NDArray[np.int_]:
        """Places of the loads that its kin know, (o,)."""
        if self.kin is None:
            return np.zeros(0, dtype=int)
        both = min(self.loads.shape[-1], self.kin.loads.shape[-1])
        return np.flatnonzero((self.loads[..., :both] == self.kin.loads[..., :both]).all(axis=(0, 1)))

    @cached_property
    def _fresh(self) -> NDArray[np.int_]:
        """Places of the others."""
        fresh = np.ones(self.loads.shape[-1], dtype=bool)
        fresh[self._old] = False
        return np.flatnonzero(fresh)

    @cached_property
    def _new(self) -> "Units":
        """The others alone."""
        return Units(self.plate, self.loads[..., self._fresh])

    @cached_property
    def _solved(self) -> Solution:
        return self.plate.solve(self.loads[..., self.own])

    def at(self, name: str, i: NDArray[np.int_], j: NDArray[np.int_]) -> Array:
        """A deflection, reaction, moment or shear of each cause at nodes i and j (n,), (n, m)."""
        if self.kin is None:
            return super().at(name, i, j)
        out = np.empty((len(i), self.loads.shape[-1]))
        out[:, self._old] = self.kin.at(name, i, j)[:, self._old]
        if len(self._fresh):
            out[:, self._fresh] = self._new.at(name, i, j)
        return out

    def _parts(self, kin: "Units", factors: Array) -> Iterator[tuple["Units", Array]]:
        """Its kin and the loads that these do not know, with the factors (m, v) of each."""
        known = np.zeros((kin.loads.shape[-1], factors.shape[1]))
        known[self._old] = factors[self._old]
        yield kin, known
        if len(self._fresh):
            yield self._new, factors[self._fresh]

    def sums(self, name: str, factors: Array) -> Array:
        """Sums of any of these of causes times factors (m, v), (p+1, q+1, v)."""
        if self.kin is None:
            return super().sums(name, factors)
        return reduce(np.add, (units.sums(name, own) for units, own in self._parts(self.kin, factors)))

    def means(self, name: str, over: Means, factors: Array) -> Array:
        """Means over k places of sums of causes times factors (m, v), (k, v)."""
        if self.kin is None:
            return super().means(name, over, factors)
        return reduce(np.add, (units.means(name, over, own) for units, own in self._parts(self.kin, factors)))

    @cached_property
    def flexibility(self) -> Array:
        """What the board gives under each load where the others act, mm (m, m)."""
        if self.kin is None:
            given = self._given(self)
            return np.asarray((given + given.T) / 2)
        old, fresh = self._old, self._fresh
        out = np.empty((len(old) + len(fresh),) * 2)
        out[old[:, None], old] = self.kin.flexibility[old[:, None], old]
        if len(fresh):
            # Both ways round, whose mean rounding of a thin plate touches least.
            i, j = np.nonzero(self._new.loads.any(axis=-1))
            given, back = self._given(self._new), self._new.loads[i, j].T @ self.kin.at("w", i, j)
            given[fresh] += given[fresh].T.copy()
            given[old] += back[:, old].T
            given /= 2
            out[:, fresh], out[fresh] = given, given.T
        return out

    def _given(self, by: "Units") -> Array:
        """What the board gives at each load under each of others, mm (m, their m)."""
        (turned, of), m = by._turned, self.loads.shape[-1]
        some = self._loaded
        here, half = self.loads[some], by._half("w")[some]
        out = np.empty((m, len(by.images)))
        out[:, by.own] = here.T @ half
        if len(turned):
            out[:, turned] = (self.loads[::-1][some].T @ half)[:, of]
        return out

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
        out = self.at("reaction", *self.places)
        return np.asarray((out + out.T) / 2)


def _middles(plate: Plate, loads: Array) -> tuple[Array, Array]:
    """Sum and middle of each load, (3, m), what tells them apart; and of its mirror image."""
    y, z = plate.grid.y / np.abs(plate.grid.y).max(), plate.grid.z / np.abs(plate.grid.z).max()
    level, up = loads.sum(axis=1), z @ loads.sum(axis=0)
    return np.stack([level.sum(axis=0), y @ level, up]), np.stack([level.sum(axis=0), y @ level[::-1], up])


def summed(units: Array, factors: Array) -> Array:
    """Sums of units (p+1, q+1, m) times factors (m, v), (p+1, q+1, v)."""
    return np.asarray((units.reshape(-1, len(factors)) @ factors).reshape(*units.shape[:2], -1))
