"""What a setback bracket's bolts carry at either end, for whoever answers for it."""

from collections.abc import Iterator

import numpy as np

from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.forces import BoltForce, bolt_forces, plate_forces, trial_of_mount
from transom.report.holds import situation_words
from transom.report.text import columns, rule


def bracket_bolts(j: Judgement) -> Iterator[str]:
    """What a setback bracket's bolts carry at either end, the worst bolt of each situation: for whoever answers for it."""
    trial = trial_of_mount(j)
    if trial is None or trial.setup.bracket is None:
        return
    yield rule("=")
    yield " WHAT THE BRACKET'S BOLTS CARRY, worst bolt, safety factors in, pencil method"
    ends = (plate_forces(trial), bolt_forces(trial))
    units, of = j.job.head.units, np.array(j.cases.of)
    rows: list[tuple[str, ...]] = [("situation", "engine: pull", "sideways", "board: pull", "sideways")]
    for name in dict.fromkeys(j.cases.of):
        here = np.flatnonzero(of == name)
        cells = (v for end in ends for v in _worst([b for i in here for b in end[i]]))
        rows.append((situation_words(name), *("-" if v is None else show.force(v, units, towards="up") for v in cells)))
    yield from columns(rows, (32, 13, 11, 13, 10))


def _worst(bolts: list[BoltForce]) -> tuple[float | None, float | None]:
    """The largest pull and the largest force sideways of some bolts; nothing where clamp screws hold the engine."""
    if not bolts:
        return None, None
    return max(b.tension for b in bolts), max(b.shear for b in bolts)
