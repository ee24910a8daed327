"""Does it go together: the stack in bracket and pocket, the bolt's length and where its thread begins."""

from functools import partial

import numpy as np

from transom.checks.check import check
from transom.checks.trial import Trial
from transom.formula import formula
from transom.result import ONCE, CheckArray
from transom.units import MM, ONE, Array

TAPE = "the tape: what was measured against what the stack comes out at"


@formula(symbol="t_tot", source="coated board and what lies on it inside", evidence="convention", known_by="derived")
def thickness_under_bracket(coated: MM, plate: MM, aft: MM) -> MM:
    """Thickness the bracket has to take: the coated board, the plate inside and one under the bracket."""
    return coated + plate + aft


@formula(symbol="l_g", source="ASME B18.2.1 and ISO 4014 usage: what lies between head and nut", evidence="published",
         known_by="memory")  # fmt: skip
def grip(ear: MM, coated: MM, inside: MM, outside: MM) -> MM:
    """Length between bolt head and nut: ear, board, plate or washer inside, washer outside."""
    return ear + coated + inside + outside


@formula(symbol="l_min", source="common practice: two threads beyond the nut", evidence="common practice",
         known_by="memory", typical={"threads": 2.0})  # fmt: skip
def least_bolt_length(l_g: MM, nut: MM, pitch: MM, threads: ONE) -> MM:
    """Shortest bolt that shows its threads beyond the nut."""
    return l_g + nut + threads * pitch


@formula(symbol="l_s", source="ASME B18.2.1, ISO 4014: nominal length less thread length", evidence="published",
         known_by="read", typical={"length": 90.0, "b": 32.0})  # fmt: skip
def shank_length(length: MM, b: MM) -> MM:
    """Plain shank under the head; the nut cannot run onto it."""
    return length - b


@formula(symbol="w", source="coated board and the clearance it needs to go in", evidence="common practice",
         known_by="memory")  # fmt: skip
def room_needed(coated: MM, clearance: MM) -> MM:
    """Width of pocket the coated board asks for."""
    return coated + clearance


_measured = partial(
    check, part="assembly", rule="", source=TAPE, unit="mm", evidence="stated", known_by="derived", cases=(ONCE,)
)


def total(trial: Trial) -> Array:
    """Thickness under the bracket, (n, 1): board, coats, glue, plates inside and out (a washer is not counted)."""
    inside = np.where(trial.hardware.round_, 0.0, trial.hardware.t)
    return np.asarray(thickness_under_bracket(trial.coated, inside, trial.hardware.plate_out_t))


def grip_of(trial: Trial) -> Array:
    """Length between head and nut, (n, 1)."""
    w = trial.hardware
    return np.asarray(grip(trial.setup.holding.ear, trial.coated, w.t, w.out_t))


def scope(trial: Trial) -> tuple[CheckArray, ...]:
    """The thickness this method was set on."""
    low, high = (trial.setup.tables.factor(f"board.thickness_{end}_mm").value for end in ("min", "max"))
    return (
        _measured(trial, "thinnest-judged", demand=low, limit=trial.t, note="the method is not set on thinner boards"),
        _measured(trial, "thickest-judged", demand=trial.t, limit=high, note="the method is not set on thicker boards"),
    )


def fit(trial: Trial) -> tuple[CheckArray, ...]:
    """Stack against the bracket's range and the pocket, each only where it was measured."""
    job = trial.setup.job
    out = []
    if job.engine.takes is not None and trial.setup.bracket is None:
        low, high = job.engine.takes
        under, note = total(trial), "skin, plates and packing count"
        out.append(_measured(trial, "bracket-thickest", demand=under, limit=high, note=note))
        out.append(_measured(trial, "bracket-thinnest", demand=low, limit=under, note=note))
    if job.board.pocket is not None:
        needed = room_needed(trial.coated, trial.setup.factors.pocket_clearance)
        out.append(_measured(trial, "pocket", demand=needed, limit=job.board.pocket))
    return tuple(out)


def bolt_length(trial: Trial) -> tuple[CheckArray, CheckArray]:
    """Long enough for nut and two threads; the plain shank ends inside the grip."""
    w, l_g = trial.hardware, grip_of(trial)
    needed = least_bolt_length(l_g, w.nut, w.pitch, trial.setup.factors.threads_beyond_nut)
    shank = np.maximum(shank_length(w.length, w.thread_length), 0.0)
    return (
        _measured(trial, "length", demand=needed, limit=w.length, part="engine-bolts"),
        _measured(trial, "shank-in-grip", demand=shank, limit=l_g, part="engine-bolts"),
    )
