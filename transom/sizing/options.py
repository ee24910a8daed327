"""A candidate of the search as an option a person can read."""

from collections.abc import Sequence

import numpy as np

from transom.checks import all_checks
from transom.checks.assembly import total
from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.judge.evaluate import decided, key_of
from transom.judge.records import Option, weakest
from transom.result import CheckArray
from transom.sizing.field import Field
from transom.sizing.led import begun_from
from transom.sizing.probe import by_plate, rows_of


def option(field: Field, place: int, like: Careful | None = None) -> Option:
    """What a candidate comes to: its weakest link, and each check that fails; contacts of `like` are tried first."""
    trial = field.trial(np.array([place]))
    pencil = all_checks(trial)
    return option_of(field, place, pencil, _by_plate(trial, pencil, like) if field.careful else pencil)


def option_of(field: Field, place: int, pencil: Sequence[CheckArray], careful: Sequence[CheckArray]) -> Option:
    """The same from a candidate's checks: what the plate decides in the cases of `careful`, all else by the pencil.

    `careful` hold at least each check that a plate decides.
    """
    trial, plate = field.trial(np.array([place])), {key_of(c): c for c in decided(careful)}
    asked = ((plate[key_of(p)] if by_plate(p) else p, p) for p in decided(pencil))
    worst = [(c if c.method == "plate" else p).worst_row() for c, p in asked]
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


def _by_plate(trial: Trial, pencil: Sequence[CheckArray], like: Careful | None) -> Sequence[CheckArray]:
    """The checks as the plate has them; the pencil's where bolts or pads lie off the board and it says no already."""
    try:
        return all_checks(begun_from(trial, rows_of(pencil), [] if like is None else [like]))
    except JobError:
        if all(c.worst[0] <= 1.0 for c in decided(pencil)):
            raise
        return pencil
