"""A candidate of the search as an option a person can read."""

from collections.abc import Sequence

import numpy as np

from transom.checks import all_checks
from transom.checks.assembly import total
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.judge.evaluate import careful_of, decided
from transom.judge.records import Option, weakest
from transom.result import Check, CheckArray
from transom.sizing.probe import rows_of
from transom.sizing.search import Field


def option(field: Field, place: int) -> Option:
    """What a candidate comes to: its weakest link, and each check that fails."""
    trial = field.trial(np.array([place]))
    worst = worst_of_each(trial, field.careful)
    failing = tuple(sorted((c for c in worst if not c.passes), key=lambda c: (-c.utilisation, c.id)))
    return Option(
        mount=field.mount(place),
        wood=float(trial.stacks.t[0]),
        total=float(total(trial)[0, 0]),
        mass=float(field.mass[place]),
        halves=int(field.halves[place // len(field.sets)]),
        weakest=weakest(worst),
        failing=failing,
    )


def worst_of_each(trial: Trial, by_plate: bool) -> list[Check]:
    """The worst case of each check: of those the plate decides among the cases that can govern, of the others all."""
    pencil = decided(all_checks(trial))
    careful = _by_plate(trial, pencil) if by_plate else pencil
    chosen = (c if c.method == "plate" else p for c, p in zip(careful, pencil, strict=True))
    return [c.worst_row() for c in chosen]


def _by_plate(trial: Trial, pencil: Sequence[CheckArray]) -> Sequence[CheckArray]:
    """The checks as the plate has them; the pencil's where bolts or pads lie off the board and it says no already."""
    try:
        return decided(all_checks(careful_of(trial, rows_of(pencil))))
    except JobError:
        if all(c.worst[0] <= 1.0 for c in pencil):
            raise
        return pencil
