"""The trial on a terminal: before it what to watch, after it what was found."""

from collections.abc import Iterator
from typing import Any

from transom.drawing.notes import HAZARDS
from transom.floor.findings import Tried
from transom.floor.watch import watches
from transom.judge.records import Judgement
from transom.report.page import head
from transom.report.text import block, rule
from transom.report.words import spelled

LABEL = 16


def before(j: Judgement) -> list[str]:
    """What to watch, and how to give back what was found."""
    units = j.job.head.units
    lines = [*head(j), " TRIAL: what to watch, and the limit", rule()]
    for w in watches(j):
        lines += block(w.what, spelled(w.limit, units), at=LABEL)
    lines += [rule()]
    lines += block("THEN", 'transom trial JOB --speed "24 mph" --engine-speed "5400 rpm" --push "180 lb" --moved "3/32 in"'
                   ' --record; no instrument: --speed "no GPS", --engine-speed "no tachometer"', at=LABEL)  # fmt: skip
    return [*lines, *_careful(j)]


def after(t: Tried) -> list[str]:
    """What was found, worst first."""
    units = t.after.job.head.units
    verdict = "TRIAL: nothing found against it" if t.passes else "TRIAL: DEAL WITH THIS BEFORE SHE GOES OUT AGAIN"
    lines = [*head(t.after), f" {verdict}", rule()]
    for f in sorted(t.findings, key=lambda f: f.fine):
        lines += block("OK" if f.fine else "FOUND", f"{f.what}: {spelled(f.says, units)}", at=8)
    for c in t.after.failing:
        from transom.report.amounts import percent
        from transom.report.words import check_words

        lines += block("FAILS", f"{check_words(c, t.after.job)}, {percent(c.utilisation)} of limit", at=8)
    if not t.findings:
        lines += block("", "The trial holds no figures: nothing can be said.", at=2)
    return [*lines, rule(), *_careful(t.after)]


def _careful(j: Judgement) -> Iterator[str]:
    for caution in (*j.cautions, *HAZARDS):
        yield from block("", f"- {spelled(caution, j.job.head.units)}", at=2)


def data(t: Tried) -> dict[str, Any]:
    """The trial for other programs."""
    return {
        "schema": "transom-trial-1",
        "job": {"name": t.after.job.head.name, "revision": t.after.job.head.revision, "sha256": t.after.job.sha256},
        "passes": t.passes,
        "governing": t.after.governing.id,
        "utilisation": t.after.governing.utilisation,
        "findings": [{"what": f.what, "says": f.says, "fine": f.fine} for f in t.findings],
        "cautions": list(t.after.cautions),
    }
