"""One module per part of the load path; `all_checks` runs them in the order the load walks."""

from collections.abc import Callable, Iterable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from transom.checks import (
    assembly,
    backing,
    board,
    crossmembers,
    engine_bolts,
    frame,
    setback,
    setback_base,
    setback_fatigue,
    sideways,
    spacing,
    torque,
)
from transom.checks.trial import Trial
from transom.result import CheckArray

Allowed = Callable[[CheckArray], float]


def limit_of(check: CheckArray) -> float:
    """What a check may come to: its limit."""
    return 1.0


def framed(trial: Trial, allowed: Allowed = limit_of, enough: float = 0.0) -> tuple[CheckArray, ...]:
    """The frame's checks; while its bolts are to be chosen, of each candidate by the choice that leaves it the most.

    `allowed` is how many times its limit each check may come to before a choice is out. A choice by which no candidate
    comes to more than `enough` of that is taken without looking at those after it.
    """
    choices = trial.setup.frames
    if not choices:
        return frame.checks(trial)
    found: list[tuple[CheckArray, ...]] = []
    worst: list[NDArray[np.float64]] = []
    n = len(trial.stacks)
    for hold in choices:
        trial = trial.on(hold)
        found.append(frame.checks(trial))
        worst.append(np.full(n, -np.inf))
        for c in found[-1]:
            if not c.information:
                np.maximum(worst[-1], np.divide(c.worst, allowed(c)), out=worst[-1])
        if worst[-1].max() <= enough:
            return found[-1]
    best = np.argmin(worst, axis=0)
    if n == 1:
        return found[int(best[0])]
    return tuple(_chosen(each, best) for each in zip(*found, strict=True))


def _chosen(checks: tuple[CheckArray, ...], best: NDArray[np.int_]) -> CheckArray:
    """One check of each candidate by its own choice (n,) among those it was found by."""
    shape = (len(best), len(checks[0].cases))
    parts = [[np.broadcast_to(x, shape)[best == i] for x in (c.demand, c.resistance)] for i, c in enumerate(checks)]
    demand, resistance = np.empty(shape), np.empty(shape)
    for i, (d, r) in enumerate(parts):
        demand[best == i], resistance[best == i] = d, r
    return replace(checks[0], demand=demand, resistance=resistance)


def stack_checks(trial: Trial, allowed: Allowed = limit_of) -> tuple[CheckArray, ...]:
    """The checks that no bolt or backing enters: a stack that fails one is out whatever holds it."""
    return (
        board.sliding_at_pads(trial),
        board.pads(trial),
        *assembly.scope(trial),
        *setback.checks(trial),
        *framed(trial, allowed),
        *crossmembers.checks(trial),
    )


def all_checks(trial: Trial, allowed: Allowed = limit_of) -> tuple[CheckArray, ...]:
    """Every check of every candidate."""
    return (*backed_checks(trial), *stack_checks(trial, allowed))


def backed_checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Those that bolts or backing enter. Clamp screws are not bolts: their metal and length are the maker's."""
    wood = (
        board.bending(trial),
        *board.sliding_at_bolts(trial),
        *backing.crush(trial),
        *assembly.fit(trial),
    )
    if trial.setup.holding.by == "clamps":
        return wood
    return (
        *wood,
        *engine_bolts.metal(trial),
        *sideways.checks(trial),
        *spacing.checks(trial),
        *torque.checks(trial),
        *backing.own_bending(trial),
        *assembly.bolt_length(trial),
        *setback_base.checks(trial),
    )


def plate_checks(trial: Trial, enough: float = 0.0) -> tuple[CheckArray, ...]:
    """Those of `BY_PLATE`, in the order of all, and some that come with them: all that a closer look is for."""
    wood = (board.bending(trial), *board.sliding_at_bolts(trial), *backing.crush(trial))
    stack = (board.sliding_at_pads(trial), *framed(trial, enough=enough))
    if trial.setup.holding.by == "clamps":
        return (*wood, *stack)
    bolted = (*engine_bolts.metal(trial), *sideways.checks(trial), *backing.own_bending(trial))
    return (*wood, *bolted, *setback_base.checks(trial), *stack)


def one_check(trial: Trial, name: str) -> CheckArray | None:
    """The check of a name (part.what.rule.method), without running those that give others where that can be helped."""
    groups: tuple[Callable[[Trial], Iterable[CheckArray]], ...] = (
        engine_bolts.metal,
        sideways.checks,
        board.sliding_at_bolts,
        lambda trial: (board.sliding_at_pads(trial),),
        backing.crush,
        framed,
        all_checks,
    )
    if trial.setup.holding.by == "clamps":
        groups = groups[-1:]
    elif name.startswith("board.bending."):
        groups = (lambda trial: (board.bending(trial),),)
    return next((c for group in groups for c in group(trial) if c.name == name), None)


def second_opinions(trial: Trial) -> tuple[CheckArray, ...]:
    """Printed for information: they decide nothing."""
    return (board.d510(trial), *setback_fatigue.checks(trial))


_AT_BOLTS_AND_PADS = (
    *(("board", f"plies-sliding-{where}") for where in ("upper-bolts", "lower-bolts", "pads")),
    *(("backing", f"wood-crushing-{row}-bolts") for row in ("upper", "lower")),
    *(("engine-bolts", what) for what in ("tension", "tension-and-shear", "pull-and-sideways-in-wood")),
    *(("bracket", f"base-plate-bending-{row}-bolts") for row in ("upper", "lower")),
)
_FRAMES_PULL = ("bolt-tension", "washer-on-wood", "withdrawal", "flange-pull-through")
# Checks whose demand the plate method gives, and how many times its worst the pencil's own may come out: the most that
# random boards of all kinds gave (720 whole jobs, with bolts and pads by soft and stiff wood: plain boards 2.93, bolts
# 2.13, plates bent with the board 2.92), and a little. What is cut out of a board counts in full by the pencil: 4 of 125
# boards with openings or a notch that the plate passes are dropped here.
BY_PLATE = {
    ("board", "bending"): 3.0,
    **dict.fromkeys(_AT_BOLTS_AND_PADS, 2.3),
    **dict.fromkeys((("backing", f"plate-bending-{row}-bolts") for row in ("upper", "lower")), 3.0),
    # Prying grows faster than the pull.
    **dict.fromkeys((("bracket", "base-bolt-tension"), ("bracket", "base-plate-pull-through")), 4.0),
    # Rows as points pull far harder on the nearest bolt than the plate's lines do; the sides under a cap rail hardly
    # pull at all by the plate (720 jobs: washers to 5.2, ends to 4.8, with the push beside it 4.6; sides under a cap rail
    # to 18 before).
    **dict.fromkeys((("frame", what) for what in _FRAMES_PULL), 5.3),
    ("frame", "bolt-tension-and-shear"): 4.0,
    ("frame", "pull-and-sideways-in-wood"): 4.7,
    ("frame", "flange-bending-side"): 20.0,
    ("frame", "flange-bending-end"): 4.9,
}


def band(check: CheckArray) -> float:
    """How far above its limit the pencil may find a check that the plate still passes."""
    return BY_PLATE.get((check.part, check.what), 1.0)
