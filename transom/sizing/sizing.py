"""`size`: the best ranked mount that passes, judged, with what would be next and what else would do."""

from dataclasses import replace

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Job
from transom.judge.evaluate import trial_of
from transom.judge.judging import judge, nothing, prepared
from transom.judge.records import Judgement, Option, Sizing
from transom.sizing.extents import good_for, required_thickness
from transom.sizing.options import option
from transom.sizing.search import Costs, Field, best_of_kinds, field_of, nearest_miss

ALTERNATIVES = 3


def size(
    job: Job, tables: Catalogue, rank: str = "material", careful: bool = True, costs: Costs | None = None
) -> Judgement:
    """Size a job: pick, required thicknesses, next thinner, alternatives; or the nearest miss.

    The plate decides; with `careful` False the pencil alone, which comes out thicker.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    _, setup, cases = prepared(job, tables)
    field = field_of(job, tables, setup, cases, rank, careful, costs)
    judged, found = _pick(job, tables, field)
    if judged is None:
        miss = option(field, nearest_miss(field)) if len(field) else None
        return replace(nothing(job, tables), sizing=Sizing(rank, len(field), (), None, (), miss))
    trial = trial_of(judged.setup, cases, [field.mount(found[0])])
    return replace(
        judged,
        good_for=good_for(judged.setup.job, tables, judged.facts, trial, judged.calibration),
        sizing=Sizing(
            rank=rank,
            candidates=len(field),
            required=required_thickness(trial, judged.calibration),
            next_thinner=next_thinner(field, found[0]),
            alternatives=tuple(option(field, p) for p in found[1:]),
            nearest_miss=None,
        ),
    )


def _pick(job: Job, tables: Catalogue, field: Field) -> tuple[Judgement | None, list[int]]:
    """The best ranked mount whose own judgement, in every case, finds nothing failing; and the other kinds."""
    refused: set[int] = set()
    while found := best_of_kinds(field, 1 + ALTERNATIVES, refused):
        judged = judge(job, tables, field.mount(found[0]), field.careful, add=True)
        if not judged.failing:
            return judged, found
        refused.add(found[0])
    return None, []


def next_thinner(field: Field, pick: int) -> Option | None:
    """The thickest stack that is thinner than the pick's, with the pick's bolts and backing; best ranked of them."""
    s, b = divmod(pick, len(field.sets))
    t = np.round(field.stacks.t, 6)
    thinner = t < t[s]
    if not thinner.any():
        return None
    level = t == t[thinner].max()
    places = np.flatnonzero(level) * len(field.sets) + b
    rank = {int(p): i for i, p in enumerate(field.order)}
    return option(field, min((int(p) for p in places), key=rank.__getitem__))
