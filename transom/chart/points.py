"""The points of a chart: `size` at each power, so that a chart says what `size` says there."""

import math
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress

from transom.catalogue import Catalogue
from transom.chart.records import NOTHING, SIZED, Chart, Line, Point
from transom.chart.usual import on_shelf, usual
from transom.errors import JobError
from transom.job.records import Job, Mount
from transom.judge.evaluate import trial_of
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.page import beyond_brackets
from transom.result import Cases
from transom.setup.records import Setup
from transom.sizing.required import most_wanted, required_thickness
from transom.sizing.sizing import size

Progress = Callable[[], None]


def chart(
    job: Job,
    tables: Catalogue,
    powers: Sequence[float],
    panels: Sequence[str],
    left_out: Sequence[str] = (),
    done: Progress = lambda: None,
) -> Chart:
    """Every panel at every power (W, rising), and the job's own board; `done` is called after each.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    own = _own(job, tables)
    done()
    lines = tuple(_line(job, tables, panel, powers, done) for panel in panels)
    return Chart(tuple(powers), lines, own, job.mount is not None, tuple(left_out))


def _own(job: Job, tables: Catalogue) -> Judgement:
    """The job as it stands: the mount in it, else the pick, else the nearest miss."""
    if job.mount is not None:
        return judge(job, tables, job.mount)
    sized = size(job, tables, beside=False)
    miss = sized.sizing.nearest_miss if sized.sizing else None
    return judge(job, tables, miss.mount, add=True) if sized.mount is None and miss is not None else sized


def _line(job: Job, tables: Catalogue, panel: str, powers: Sequence[float], done: Progress) -> Line:
    """Up to the first power at which nothing works: a heavier engine on the same shelf is not looked at."""
    points: list[Point] = []
    before: Mount | None = None
    for power in powers:
        of = usual(job, tables, power, panel)
        sized = size(of, tables, beside=False)
        done()
        if sized.mount is None:
            points += _ended(of, tables, sized, before, power)
            break
        points.append(_said(sized, power, SIZED))
        before = sized.mount
    return Line(panel, tuple(points), not on_shelf(job, tables, panel))


def _ended(job: Job, tables: Catalogue, sized: Judgement, before: Mount | None, power: float) -> Iterator[Point]:
    """What the last board that worked, else the nearest miss, comes to where nothing works."""
    miss = sized.sizing.nearest_miss if sized.sizing else None
    mount = before or (miss.mount if miss else None)
    # Where the pads cannot carry it on that board there is nothing to tell.
    with suppress(JobError):
        if mount is not None:
            yield _said(judge(job, tables, mount, add=True), power, NOTHING)


def _said(j: Judgement, power: float, state: str) -> Point:
    if j.mount is None:
        raise ValueError("no mount, nothing to say of it")
    setup, cases, mount = j.setup, j.cases, j.mount
    required = j.sizing.required if j.sizing else required_thickness(trial_of(setup, cases, [mount]), j.calibration)
    if state != SIZED:
        # What holds the board fails by itself there: only what the board wants is a thickness.
        required = tuple(r for r in required if r.check.startswith("board."))
    return Point(
        power=power,
        state=state,
        needs=None if state != SIZED and any(math.isinf(r.thickness) for r in required) else most_wanted(required),
        pencil=_by_pencil(setup, cases, mount),
        layers=mount.layers,
        wood=j.wood,
        total=j.total,
        weakest=j.governing,
        failing=j.failing,
        beyond_brackets=beyond_brackets(j),
    )


def _by_pencil(setup: Setup, cases: Cases, mount: Mount) -> float:
    """Thickness that the board wants by the pencil method alone, mm; infinite where thickness cures nothing."""
    found = required_thickness(trial_of(setup, cases, [mount]))
    most = most_wanted([r for r in found if r.check.startswith("board.")])
    return math.inf if most is None else most.thickness
