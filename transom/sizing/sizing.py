"""`size`: the best ranked mount that passes, judged, with what would be next and what else would do."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from transom.catalogue import Catalogue
from transom.checks import all_checks
from transom.checks.careful import Careful
from transom.frozen import dataclass
from transom.job.records import Job
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.judging import decide, judge, prepared, without_mount
from transom.judge.records import Judgement, Option, Sizing
from transom.result import CheckArray
from transom.sizing.estimates import SURE
from transom.sizing.field import Costs, Field, field_of
from transom.sizing.misses import miss_of, what_would_do
from transom.sizing.options import option, option_of
from transom.sizing.probe import Tried
from transom.sizing.required import good_for, required_thickness
from transom.sizing.search import best_by_plate, best_of_kinds

ALTERNATIVES = 3
NEAR_LIMIT = 0.97


def size(
    job: Job,
    tables: Catalogue,
    rank: str = "material",
    careful: bool = True,
    costs: Costs | None = None,
    beside: bool = True,
) -> Judgement:
    """Size a job: pick, required thicknesses, next thinner, alternatives; or the nearest miss.

    The plate decides; with `careful` False the pencil alone, which comes out thicker. `beside` False leaves out what
    stands beside the pick: next thinner, alternatives, how much engine it is good for, bolts were no weld near.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    _, setup, cases = prepared(job, tables)
    field = field_of(job, tables, setup, cases, rank, careful, costs)
    found = _found(job, tables, field, 1 + ALTERNATIVES * beside, beside)
    if found is None:
        miss = miss_of(job, tables, field) if len(field) else None
        would = what_would_do(job, tables, miss.mount, field.careful) if miss is not None and beside else ()
        none = replace(without_mount(job, tables), assumptions=would, to_measure=would)
        return replace(none, sizing=Sizing(rank, len(field), (), None, (), miss))
    judged = found.judged
    trial = trial_of(judged.setup, cases, [field.mount(found.place)])
    return replace(
        judged,
        good_for=good_for(judged.setup.job, tables, judged.facts, trial, judged.calibration, judged.careful)
        if beside
        else None,
        sizing=Sizing(
            rank=rank,
            candidates=len(field),
            required=required_thickness(trial, judged.calibration, judged.careful),
            next_thinner=next_thinner(field, found.place, judged.careful) if beside else None,
            alternatives=found.others,
            nearest_miss=None,
        ),
    )


@dataclass(frozen=True)
class Found:
    """A pick: its place in the field, its judgement, in which nothing fails, and the best of other kinds."""

    place: int
    judged: Judgement
    others: tuple[Option, ...]


def _found(job: Job, tables: Catalogue, field: Field, most: int, beside: bool = True) -> Found | None:
    """The best ranked mount whose own judgement, in every case, finds nothing failing; and other kinds that pass."""
    judged: list[Judgement] = []
    others: list[Option] = []
    last: list[Careful] = []  # the last one decided, in all cases

    def is_pick(place: int, tried: Tried | None = None) -> bool:
        mount = field.mount(place)
        kin, like = tried.plate if tried else None, next(iter(last), None)
        most = replace(field.setup, frames=()), field.cases
        known = decide(job, tables, mount, field.careful, add=True, kin=kin, like=like, most=most)
        last[:] = [known.plate] if known.plate else []
        if tried is not None and not known.holds:
            tried.judged(known.checks)
        if known.holds:
            judged.append(judge(job, tables, mount, field.careful, add=True, beside=beside, known=known))
        return known.holds

    def is_other(
        place: int, checks: Sequence[CheckArray], careful: Sequence[CheckArray], kin: Careful | None = None
    ) -> bool:
        other = option_of(field, place, checks, careful)
        if kin is not None and other.passes and other.weakest.utilisation > NEAR_LIMIT:
            # The few cases asked are the worst by the pencil: near the limit all are.
            every = replace(careful_of(field.trial(np.array([place])), kin=kin), first=last[0].answer if last else None)
            other = option_of(field, place, checks, all_checks(every))
        if other.passes:
            others.append(other)
        return other.passes

    def by_pencil(place: int) -> bool:
        if not judged:
            return is_pick(place)
        checks = all_checks(field.trial(np.array([place])))
        return is_other(place, checks, checks)

    def by_plate(tried: Tried) -> bool:
        if judged:
            return is_other(tried.place, tried.pencil, tried.careful, tried.plate)
        found = is_pick(tried.place) if tried.likely <= SURE else tried.passes and is_pick(tried.place, tried)
        if found:
            tried.prober.picked()
        return found

    places = best_by_plate(field, most, by_plate) if field.careful else best_of_kinds(field, most, by_pencil)
    return Found(places[0], judged[0], tuple(others)) if places else None


def picked(job: Job, tables: Catalogue, rank: str = "material") -> Judgement | None:
    """The pick alone, judged; None where nothing works.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    _, setup, cases = prepared(job, tables)
    found = _found(job, tables, field_of(job, tables, setup, cases, rank), 1)
    return found.judged if found else None


def kinds(job: Job, tables: Catalogue) -> Found | None:
    """The pick and the best of other kinds, as `size` finds them, without what stands beside a pick; None where nothing works.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    _, setup, cases = prepared(job, tables)
    return _found(job, tables, field_of(job, tables, setup, cases, "material"), 1 + ALTERNATIVES, beside=False)


def next_thinner(field: Field, pick: int, like: Careful | None = None) -> Option | None:
    """The thickest stack that is thinner than the pick's, with the pick's bolts and backing; best ranked of them.

    Contacts of the plate `like` are those that its own tries first.
    """
    s, b = divmod(pick, len(field.sets))
    t = np.round(field.stacks.t, 6)
    thinner = t < t[s]
    if not thinner.any():
        return None
    level = t == t[thinner].max()
    places = np.flatnonzero(level) * len(field.sets) + b
    rank = {int(p): i for i, p in enumerate(field.order)}
    return option(field, min((int(p) for p in places), key=rank.__getitem__), like)
