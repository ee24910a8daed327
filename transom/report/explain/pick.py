"""Which check is meant: an id, the beginning of one, or the name of a part."""

import difflib
from collections.abc import Sequence

from transom.errors import JobError
from transom.judge.records import Judgement, weakest
from transom.result import Check


def picked(j: Judgement, wanted: str | None) -> tuple[Check, tuple[Check, ...]]:
    """The check meant, the weakest of those that the words fit, and the worst case of each other one they fit.

    The weakest link where nothing is named. Of a check by both methods the one that decides goes first.

    Raises:
        JobError: nothing was judged, or no check is called that; the nearest names stand in it.
    """
    if not j.checks:
        raise JobError("nothing to explain: no mount works, so nothing was checked; `transom size JOB` says why")
    if wanted is None:
        return j.governing, ()
    text = "-".join(wanted.lower().split())
    fits = [c for c in j.checks if c.id == text] or [c for c in j.checks if c.id.startswith(text + ".")]
    fits = fits or [c for c in j.checks if text and c.id.startswith(text)]
    if not fits:
        raise JobError(unknown(j, wanted))
    best = weakest([c for c in fits if not c.information] or fits)
    return best, others(fits, best)


def others(fits: Sequence[Check], best: Check) -> tuple[Check, ...]:
    """The worst case of each other check that fits, weakest first."""
    worst: dict[str, Check] = {}
    for c in fits:
        name = name_of(c)
        if name != name_of(best) and (name not in worst or c.utilisation > worst[name].utilisation):
            worst[name] = c
    return tuple(sorted(worst.values(), key=lambda c: (c.information, -c.utilisation, c.id)))


def name_of(c: Check) -> str:
    """A check's id without its case."""
    return c.id.removesuffix(f".{c.case}")


def unknown(j: Judgement, wanted: str) -> str:
    """One line: what was asked for, the nearest names, where all of them stand."""
    names = sorted(
        {name_of(c) for c in j.checks} | {c.part for c in j.checks} | {f"{c.part}.{c.what}" for c in j.checks}
    )
    near = difflib.get_close_matches(wanted.strip().lower(), names, n=3, cutoff=0.3)
    ids = difflib.get_close_matches(wanted.strip().lower(), [c.id for c in j.checks], n=2, cutoff=0.8)
    parts = ", ".join(dict.fromkeys(c.part for c in j.checks))
    nearest = ", ".join(dict.fromkeys((*ids, *near))) or parts
    return f"check {wanted!r}: no check is called that; nearest: {nearest}. Name a part ({parts}), or an id of --json"
