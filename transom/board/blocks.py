"""Symmetric block-tridiagonal equations, eliminated from both ends towards the middle line.

A load near one end then never enters the other half, and a board that is its own mirror image is
eliminated once for both its halves. Dense routines of numpy on the blocks are quicker at these sizes
than importing a sparse solver.
"""

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

    def forward(self, f: Array) -> tuple[int, Array]:
        """Reduce loads f (h, B, m) to the pivots, in place; the first line that is loaded, and what arrives at the middle,
        (B, m)."""
        arrives, carried = np.zeros(f.shape[1:]), self._pivots[1]
        # Lines before the first that is loaded bring nothing: half of them on a board under a bracket.
        first = int(np.argmax(np.append(f.any(axis=(1, 2)), True)))
        for i in range(first, len(f)):
            f[i] -= arrives
            np.matmul(carried[i].T, f[i], out=arrives)
        return first, arrives

    def backward(self, f: Array, first: int, middle: Array, out: Array) -> None:
        """The solution (h, B, m) from reduced loads f, of the same shape, and the middle line's (B, m)."""
        inverse, carried, _ = self._pivots
        after, own = middle, np.empty(middle.shape)
        for i in range(len(out) - 1, -1, -1):
            np.matmul(carried[i], after, out=out[i])
            if i < first:
                np.negative(out[i], out=out[i])
            else:
                np.matmul(inverse[i], f[i], out=own)
                np.subtract(own, out[i], out=out[i])
            after = out[i]

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

    def _filled(self, f: Array, rows: slice) -> Array:
        """Loads (h, B, m) from those f (h, B', m) on the freedoms `rows`."""
        out = np.zeros((len(f), len(self.mirror), f.shape[-1]))
        out[:, rows] = f
        return out

    def _swept(self, f: Array, rows: slice = EVERY) -> Array:
        h, second = len(self.ends[0].diagonal), f[len(self.ends[0].diagonal) + 1 :]
        # As often as not, of a board that is its own image, the second half is not loaded at all.
        turned = second[::-1] * self.mirror[rows, None] if second.any() else second[:0]
        near, far = self._filled(f[:h], rows), self._filled(turned, rows)
        (begins, arrives), (ends, arrives_too) = self.ends[0].forward(near), self.ends[1].forward(far)
        middle = self._filled(f[h : h + 1], rows)[0] - arrives - self._turned(arrives_too)
        x = np.empty((self.lines, *middle.shape))
        np.matmul(self._centre, middle, out=x[h])
        self.ends[0].backward(near, begins, x[h], x[:h])
        other = np.empty((len(second), *middle.shape))
        self.ends[1].backward(far, ends if len(turned) else len(other), self._turned(x[h]), other)
        np.multiply(other[::-1], self.mirror[:, None], out=x[h + 1 :])
        return x

    def times(self, x: Array) -> Array:
        """The equations' left side, (n, B, m)."""
        h, m = len(self.ends[0].diagonal), x.shape[-1]
        sides = [(x[:h], x[h]), (x[:h:-1] * self.mirror[:, None], self._turned(x[h]))]
        if self.ends[0] is self.ends[1]:  # read once
            both, brought = self.ends[0].times(*(np.concatenate(parts, axis=-1) for parts in zip(*sides, strict=True)))
            found = [(both[..., :m], brought[:, :m]), (both[..., m:], brought[:, m:])]
        else:
            found = [end.times(*side) for end, side in zip(self.ends, sides, strict=True)]
        (near, here), (far, there) = found
        middle = self.centre @ x[h] + here + self._turned(there)
        return np.concatenate([near, middle[None], far[::-1] * self.mirror[:, None]])

    def solve(self, f: Array, rows: slice = EVERY) -> Array:
        """Solution (n, B, m) for loads f (n, B', m) on the freedoms `rows`.

        Refined once where inverses have lost digits (very thin plates). One sum of all loads, each brought
        to the same size, tells whether they have.

        Raises:
            JobError: equations of a board that is not held.
        """
        x = self._swept(f[..., :AT_ONCE], rows)
        if f.shape[-1] > AT_ONCE:
            parts = range(AT_ONCE, f.shape[-1], AT_ONCE)
            x = np.concatenate([x, *(self._swept(f[..., m : m + AT_ONCE], rows) for m in parts)], axis=-1)
        size = np.abs(f).max(axis=(0, 1), initial=0.0)
        probe = (np.where(np.arange(len(size)) % 2, -1.0, 1.0) / np.where(size > 0, size, 1.0))[:, None]
        rest = -self.times(x @ probe)
        rest[:, rows] += f @ probe
        if np.abs(rest).max(initial=0.0) > BALANCED * np.abs(f @ probe).max(initial=0.0):
            all_rest = -self.times(x)
            all_rest[:, rows] += f
            x += self._swept(all_rest)
        return x
