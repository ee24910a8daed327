"""Which cases a search must look at: a case is left out only where another is as bad in everything."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from transom.units import Array

if TYPE_CHECKING:
    from transom.sizing.field import Field


def rows_that_matter(field: "Field", stacks: NDArray[np.int_], whole: bool = False) -> list[int]:
    """Places of the cases that no other case covers for any of the stacks.

    Every demand rises with one of these quantities and every resistance with k_mod/gamma_M: a case whose
    quantities are all at most another's, at no smaller k, cannot govern. `whole`: the bolts of frame and pod
    are still to be looked at too.
    """
    return _uncovered(*_quantities(field, stacks, whole))


def leading_cases(field: "Field", stacks: NDArray[np.int_], sample: int = 16) -> list[int]:
    """Places of the cases that are worst in some quantity for some of a sample of the stacks: a quick first sieve."""
    some = np.asarray(stacks)[:: max(1, len(stacks) // sample)]
    return _leaders(*_quantities(field, some, whole=False))


def _quantities(field: "Field", stacks: NDArray[np.int_], whole: bool) -> tuple[Array, Array]:
    """What the demands rise with (quantities, stacks, cases), and k_mod/gamma_M (cases)."""
    trial = field.trial(np.asarray(stacks) * len(field.sets))
    s = trial.strips
    shape = (len(stacks), len(field.cases))
    quantities = [
        np.broadcast_to(np.abs(q), shape)
        for q in (trial.upper_tension, trial.lower_tension, trial.shear, trial.service_shear, s.Mx, s.My, s.Mxy, s.C)
    ]
    quantities += [np.broadcast_to(M, shape) for M in _moments(trial)]
    if whole:
        quantities += [np.broadcast_to(F, shape) for F in _on_supports(trial)]
    pads = [np.broadcast_to(np.where(side, s.C, 0.0), shape) for side in (s.ahead, ~np.asarray(s.ahead))]
    block = np.broadcast_to(_block_height(trial), shape)
    return np.stack([*quantities, *pads, block]), trial.k


def _moments(trial: "object") -> tuple[Array, Array]:
    """Moments beside openings and notch: the strips they are taken out of change with the side that pulls."""
    from transom.checks.board import moments_beside_openings

    return moments_beside_openings(trial)  # type: ignore[arg-type]


def _on_supports(trial: "object") -> list[Array]:
    """Forces of the worst bolts of frame and pod."""
    from transom.checks import crossmembers, frame_pull

    held = frame_pull.forces(trial)  # type: ignore[arg-type]
    out = [held.side, held.bottom, held.top, held.shear]
    if trial.setup.pod is not None:  # type: ignore[attr-defined]
        hung = crossmembers.forces(trial, trial.setup.pod)  # type: ignore[arg-type, attr-defined]
        out += [hung.pull, hung.shear]
    return out


def _block_height(trial: "object") -> Array:
    from transom.checks.board import pads

    return pads(trial).demand  # type: ignore[arg-type]


def _uncovered(q: Array, k: Array) -> list[int]:
    """Places of columns of q (quantities, stacks, cases) that no other column covers."""
    v = q.shape[-1]
    # Whatever is largest somewhere must stay, and covers most of the rest.
    leaders = _leaders(q, k)
    kept = list(leaders)
    for a in range(v):
        if a in leaders:
            continue
        covered = any(k[b] <= k[a] and bool(np.all(q[..., b] >= q[..., a])) for b in leaders)
        if not covered:
            kept.append(a)
    return sorted(kept)


def _leaders(q: Array, k: Array) -> list[int]:
    """Places of columns that are the largest of some row, as they are or by the strength they meet."""
    return sorted({int(i) for by in (q / k, q) for i in np.argmax(by, axis=-1).ravel()})
