"""Symmetric block-tridiagonal equations, eliminated from both ends towards the middle line.

A load near one end then never enters the other half, and a board that is its own mirror image is
eliminated once for both its halves. Dense routines of numpy on the blocks are quicker at these sizes
than importing a sparse solver.
"""

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from transom.errors import JobError
from transom.frozen import dataclass
from transom.units import Array

NOT_HELD = "plate: the board is not held; give it supports or springs that stop every motion"
BALANCED = 1e-11  # of the largest load
EVERY = slice(None)
AT_ONCE = 75  # loads; more of them leave the processor's cache between one line and the next sweep
SOFTEST = 1e-12  # of its own stiffness: what a freedom keeps on a board that is held, however slender


@dataclass(frozen=True)
class End:
    """h lines from one end towards the middle, B freedoms each.

    `diagonal` (h, B, B) and `onward` (h, B, B) to the next line, the last of them to the middle line.
    """

    diagonal: Array
    onward: Array

    @cached_property
    def _pivots(self) -> tuple[Array, Array, Array]:
        """Inverse pivots, these times `onward`, and what the end takes off the middle block."""
        inverse, carried = np.empty(self.diagonal.shape), np.empty(self.diagonal.shape)
        taken = np.zeros(self.diagonal.shape[1:])
        for i, own in enumerate(self.diagonal):
            inverse[i] = inverted(own - taken, own)
            np.matmul(inverse[i], self.onward[i], out=carried[i])
            taken = self.onward[i].T @ carried[i]
        return inverse, carried, taken

    @property
    def taken(self) -> Array:
        """What eliminating the end takes off the middle block, (B, B)."""
        return self._pivots[2]

    def forward(self, f: Array) -> Array:
        """Reduce loads f (h, B, m) to the pivots, in place; returns what arrives at the middle, (B, m)."""
        arrives, carried = np.zeros(f.shape[1:]), self._pivots[1]
        # Lines before the first that is loaded bring nothing: half of them on a board under a bracket.
        for i in range(int(np.argmax(np.append(f.any(axis=(1, 2)), True))), len(f)):
            f[i] -= arrives
            np.matmul(carried[i].T, f[i], out=arrives)
        return arrives

    def backward(self, f: Array, middle: Array) -> None:
        """Turn reduced loads (h, B, m) into the solution, in place, from the middle line's (B, m)."""
        inverse, carried, _ = self._pivots
        after, from_after, own = middle, np.empty(middle.shape), np.empty(middle.shape)
        for i in range(len(f) - 1, -1, -1):
            np.matmul(carried[i], after, out=from_after)
            if f[i].any():
                np.matmul(inverse[i], f[i], out=own)
                np.subtract(own, from_after, out=f[i])
            else:
                np.negative(from_after, out=f[i])
            after = f[i]

    def times(self, x: Array, middle: Array) -> tuple[Array, Array]:
        """The end's equations at x (h, B, m), and its part of the middle line's."""
        after = np.concatenate([x[1:], middle[None]])[: len(x)]
        out = self.diagonal @ x + self.onward @ after
        back = np.swapaxes(self.onward, 1, 2) @ x
        out[1:] += back[:-1]
        return out, back[-1:].sum(axis=0)


def inverted(pivot: Array, own: Array) -> Array:
    """Inverse of a pivot, refused where a freedom has next to nothing left of its own stiffness.

    Raises:
        JobError: the board is not held.
    """
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
    """The equations of all lines: two ends and the middle line between them, its own block `centre` (B, B).

    The second end is seen from its own side: its lines run inwards and its freedoms carry the signs
    `mirror` (B,). Where it is the same object as the first, both are swept together.
    """

    ends: tuple[End, End]
    centre: Array
    mirror: Array

    @property
    def _one(self) -> bool:
        return self.ends[0] is self.ends[1]

    @property
    def lines(self) -> int:
        """How many lines there are."""
        return len(self.ends[0].diagonal) + 1 + len(self.ends[1].diagonal)

    @cached_property
    def _centre(self) -> Array:
        """Inverse of the middle block once both ends are eliminated."""
        signs = np.outer(self.mirror, self.mirror)
        return inverted(self.centre - self.ends[0].taken - self.ends[1].taken * signs, self.centre)

    def _turned(self, x: Array) -> Array:
        return x * self.mirror[:, None]

    def _parted(self, f: Array, rows: slice = EVERY) -> list[Array]:
        """Copies of the lines of each end, (h, B, m), side by side in one where the ends are one.

        f (n, B', m) has the freedoms `rows` alone; the others are nothing.
        """
        h, m, signs = len(self.ends[0].diagonal), f.shape[-1], self.mirror[rows, None]
        wide = 2 * m if self._one else m
        out = [np.zeros((len(end.diagonal), len(self.mirror), wide)) for end in self.ends[: 1 if self._one else 2]]
        out[0][:, rows, :m] = f[:h]
        np.multiply(f[:h:-1], signs, out=out[-1][:, rows, wide - m :])
        return out

    def _united(self, sides: Sequence[Array], middle: Array) -> Array:
        h, m = len(self.ends[0].diagonal), middle.shape[-1]
        x = np.empty((self.lines, *middle.shape))
        x[:h], x[h] = sides[0][..., :m], middle
        np.multiply(sides[0][..., m:] if self._one else sides[1], self.mirror[:, None], out=x[:h:-1])
        return x

    def _seen(self, middle: Array) -> list[Array]:
        """The middle line (B, m) as each end sees it, side by side where the ends are one."""
        sides = [middle, self._turned(middle)]
        return [np.concatenate(sides, axis=-1)] if self._one else sides

    def _meeting(self, sides: Sequence[Array], m: int) -> Array:
        """The sum of what the ends bring to the middle line."""
        if self._one:
            return np.asarray(sides[0][:, :m] + self._turned(sides[0][:, m:]))
        return np.asarray(sides[0] + self._turned(sides[1]))

    def _swept(self, f: Array, rows: slice = EVERY) -> Array:
        sides, middle = self._parted(f, rows), np.zeros((len(self.mirror), f.shape[-1]))
        middle[rows] = f[len(self.ends[0].diagonal)]
        arrives = [end.forward(side) for end, side in zip(self.ends, sides, strict=False)]
        middle = self._centre @ (middle - self._meeting(arrives, f.shape[-1]))
        for end, side, seen in zip(self.ends, sides, self._seen(middle), strict=False):
            end.backward(side, seen)
        return self._united(sides, middle)

    def times(self, x: Array) -> Array:
        """The equations' left side, (n, B, m)."""
        middle = x[len(self.ends[0].diagonal)]
        parts = zip(self.ends, self._parted(x), self._seen(middle), strict=False)
        sides, brought = zip(*(end.times(side, seen) for end, side, seen in parts), strict=True)
        return self._united(sides, self.centre @ middle + self._meeting(brought, x.shape[-1]))

    def solve(self, f: Array, rows: slice = EVERY) -> Array:
        """Solution (n, B, m) for loads f (n, B', m) on the freedoms `rows`.

        Refined once where inverses have lost digits (very thin plates). One sum of all loads, each brought
        to the same size, tells whether they have.

        Raises:
            JobError: equations of a board that is not held.
        """
        x = np.empty((self.lines, len(self.mirror), f.shape[-1]))
        for part in (slice(m, m + AT_ONCE) for m in range(0, f.shape[-1], AT_ONCE)):
            x[..., part] = self._swept(f[..., part], rows)
        size = np.maximum(f.max(axis=(0, 1), initial=0.0), -f.min(axis=(0, 1), initial=0.0))
        probe = (np.where(np.arange(len(size)) % 2, -1.0, 1.0) / np.where(size > 0, size, 1.0))[:, None]
        rest = -self.times(x @ probe)
        rest[:, rows] += f @ probe
        if np.abs(rest).max(initial=0.0) > BALANCED * np.abs(f @ probe).max(initial=0.0):
            all_rest = -self.times(x)
            all_rest[:, rows] += f
            x += self._swept(all_rest)
        return x
