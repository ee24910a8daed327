"""A candidate of the search as an option a person can read."""

import numpy as np

from transom.checks import all_checks
from transom.checks.assembly import total
from transom.judge.evaluate import decided
from transom.judge.records import Option, weakest
from transom.sizing.search import Field


def option(field: Field, place: int) -> Option:
    """What a candidate comes to: its weakest link under every case, and each check that fails."""
    trial = field.trial(np.array([place]))
    worst = [max(c.rows(), key=lambda r: (r.utilisation, r.id)) for c in decided(all_checks(trial))]
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
