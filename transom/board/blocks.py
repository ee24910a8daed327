"""Symmetric block-tridiagonal equations, eliminated from both ends towards the middle line.

A load near one end then never enters the other half, and a board that is its own mirror image is
eliminated once for both its halves. Dense routines of numpy on the blocks are quicker at these sizes
than importing a sparse solver.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from transom.errors import JobError
from transom.units import Array

NOT_HELD = "plate: the board is not held; give it supports or springs that stop every motion"
BALANCED = 1e-11  # of the largest load
SOFTEST = 1e-12  # of its own stiffness: what a freedom keeps on a board that is held, however slender
MIRRORED = 1e-13  # of the largest stiffness: below rounding in the elimination itself


@dataclass(frozen=True)
class Chain:
    """One end eliminated up to the middle, h lines.

    `inverse` of each pivot and `carried`, inverse times the coupling to the next line, both (h, B, B);
    `taken` (B, B) is what the end takes off the middle block.
    """

    inverse: Array
    carried: Array
    taken: Array

    def forward(self, f: Array) -> tuple[Array, Array]:
        """Loads (h, B, m) reduced to the pivots, in place, and what arrives at the middle (B, m)."""
        arrives = np.zeros(f.shape[1:])
        for i, carried in enumerate(self.carried):
            f[i] -= arrives
            arrives = carried.T @ f[i]
        return f, arrives

    def backward(self, reduced: Array, middle: Array) -> Array:
        """Solution (h, B, m) of reduced loads once the middle line's is known."""
        x = self.inverse @ reduced
        after = middle
        for i in range(len(x) - 1, -1, -1):
            x[i] -= self.carried[i] @ after
            after = x[i]
        return x


def eliminated(diagonal: Array, onward: Array) -> Chain:
    """A chain of h lines; the last of `onward` (h, B, B) couples to the middle.

    Raises:
        JobError: a line that nothing holds.
    """
    inverse, carried = np.empty(diagonal.shape), np.empty(diagonal.shape)
    taken = np.zeros(diagonal.shape[1:])
    for i, own in enumerate(diagonal):
        inverse[i] = _inverted(own - taken, own)
        np.matmul(inverse[i], onward[i], out=carried[i])
        taken = onward[i].T @ carried[i]
    return Chain(inverse, carried, taken)


def _inverted(pivot: Array, own: Array) -> Array:
    """Inverse of a pivot, refused where a freedom has next to nothing left of its own stiffness."""
    try:
        inverse = np.asarray(np.linalg.inv(pivot), dtype=float)
    except np.linalg.LinAlgError as error:
        raise JobError(NOT_HELD) from error
    left = np.diagonal(inverse) * np.diagonal(own)
    if not (left.min() > 0 and left.max() < 1 / SOFTEST):
        raise JobError(NOT_HELD)
    return inverse


@dataclass(frozen=True)
class Blocks:
    """n lines of B freedoms: `diagonal` (n, B, B), `onward` (n-1, B, B) to the next line.

    `mirror` (B,) is the sign each freedom takes when the board is seen from its other side.
    """

    diagonal: Array
    onward: Array
    mirror: Array

    @property
    def _middle(self) -> int:
        return len(self.diagonal) // 2

    @cached_property
    def mirrored(self) -> bool:
        """True where the second half is the image of the first, to rounding."""
        h = self._middle
        if len(self.diagonal) != 2 * h + 1:
            return False
        small = MIRRORED * float(np.abs(self.diagonal).max())
        signs = np.outer(self.mirror, self.mirror)
        back = np.swapaxes(self.onward[h:][::-1], 1, 2)
        pairs = ((self.diagonal[:h], self.diagonal[:h:-1]), (self.onward[:h], back))
        return all(float(np.abs(one - other * signs).max(initial=0.0)) <= small for one, other in pairs)

    @cached_property
    def _chains(self) -> tuple[Chain, Chain]:
        h = self._middle
        first = eliminated(self.diagonal[:h], self.onward[:h])
        if self.mirrored:
            return first, first
        return first, eliminated(self.diagonal[:h:-1], np.swapaxes(self.onward[h:][::-1], 1, 2))

    @cached_property
    def _centre(self) -> Array:
        """Inverse of the middle block once both ends are eliminated."""
        own, (one, other) = self.diagonal[self._middle], self._chains
        return _inverted(own - one.taken - self._turned(self._turned(other.taken).T), own)

    def _turned(self, x: Array) -> Array:
        """What belongs to the second end as its chain sees it, or back; (..., B, m)."""
        return x * self.mirror[:, None] if self.mirrored else x

    def _forward(self, one: Array, other: Array) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
        """Both ends' loads (h, B, m) reduced, and what arrives at the middle from each."""
        first, second = self._chains
        if not self.mirrored:
            return first.forward(one.copy()), second.forward(other.copy())
        reduced, arrives = first.forward(np.concatenate([one, self._turned(other)], axis=-1))
        m = one.shape[-1]
        return (reduced[..., :m], arrives[:, :m]), (reduced[..., m:], self._turned(arrives[:, m:]))

    def _backward(self, one: Array, other: Array, middle: Array) -> tuple[Array, Array]:
        first, second = self._chains
        if not self.mirrored:
            return first.backward(one, middle), second.backward(other, middle)
        both = np.concatenate([one, other], axis=-1)
        x = first.backward(both, np.concatenate([middle, self._turned(middle)], axis=-1))
        m = one.shape[-1]
        return x[..., :m], self._turned(x[..., m:])

    def _swept(self, f: Array) -> Array:
        h = self._middle
        (one, here), (other, there) = self._forward(f[:h], f[:h:-1])
        x = np.empty(f.shape)
        x[h] = self._centre @ (f[h] - here - there)
        x[:h], x[:h:-1] = self._backward(one, other, x[h])
        return x

    def times(self, x: Array) -> Array:
        """The equations' left side, (n, B, m)."""
        out = self.diagonal @ x
        out[:-1] += self.onward @ x[1:]
        out[1:] += np.swapaxes(self.onward, 1, 2) @ x[:-1]
        return np.asarray(out)

    def solve(self, f: Array) -> Array:
        """Solution for loads f (n, B, m); refined once where inverses have lost digits (very thin plates).

        One sum of all loads, each brought to the same size, tells whether they have.

        Raises:
            JobError: equations of a board that is not held.
        """
        x = self._swept(f)
        size = np.abs(f).max(axis=(0, 1), initial=0.0)
        probe = (np.where(np.arange(len(size)) % 2, -1.0, 1.0) / np.where(size > 0, size, 1.0))[:, None]
        rest = f @ probe - self.times(x @ probe)
        if np.abs(rest).max(initial=0.0) > BALANCED * np.abs(f @ probe).max(initial=0.0):
            x += self._swept(f - self.times(x))
        return x

    def flexibility(self, f: Array) -> Array:
        """fᵀ K⁻¹ f of loads f (n, B, m): what each load moves where the others act, (m, m)."""
        h, m = self._middle, f.shape[-1]
        on = [np.flatnonzero(side.any(axis=(0, 1))) for side in (f[:h], f[h + 1 :])]
        ends = self._forward(f[:h][..., on[0]], f[:h:-1][..., on[1]])
        middle, out = f[h].copy(), np.zeros((m, m))
        for chain, columns, (reduced, arrives) in zip(self._chains, on, ends, strict=True):
            middle[:, columns] -= arrives
            out[np.ix_(columns, columns)] += np.tensordot(reduced, chain.inverse @ reduced, axes=((0, 1), (0, 1)))
        return np.asarray(out + middle.T @ self._centre @ middle)
