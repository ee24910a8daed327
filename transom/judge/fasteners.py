"""Bolts of frame and pod: the old ones as found and the least that has to be added, or new ones, smallest first."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from transom.catalogue import Catalogue
from transom.checks import crossmembers, frame
from transom.checks.trial import Trial
from transom.job.records import FrameBolts, Job, Mount
from transom.judge.evaluate import decided, trial_of
from transom.loads.cases import build_cases
from transom.result import CheckArray
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.setup.support import frame_hold, pod_hold
from transom.standards.ec3 import practice_pitch

PLATES = {True: ((50.0, 5.0), (80.0, 6.0), (100.0, 10.0)), False: ((50.8, 4.7625), (76.2, 6.35), (101.6, 9.525))}
DOUBLERS = {True: (0.0, 6.0, 10.0, 12.0), False: (0.0, 6.35, 9.525, 12.7)}
SIZES = {True: ("M10", "M12"), False: ("3/8 in", "1/2 in")}
COUNTS = (8, 12, 16, 24)
MORE = (1.0, 1.5, 2.0)  # times the old bolts
EACH = (2, 4)  # bolts to a crossmember


def chosen(job: Job) -> bool:
    """True where the bolts of frame and pod are settled."""
    return job.frame.bolts is not None and job.frame.bolts.chosen


def with_most(job: Job, tables: Catalogue) -> Job:
    """The job with the most that may be added to its bolts: what a board is screened with."""
    if chosen(job):
        return job
    return _with(job, frame_options(job, tables)[-1], pod_options(job, tables)[-1])


def _with(job: Job, bolts: FrameBolts, pod: FrameBolts) -> Job:
    return replace(job, frame=replace(job.frame, bolts=bolts), crossmembers=replace(job.crossmembers, bolts=pod))


def fastened(job: Job, tables: Catalogue, mount: Mount) -> Job:
    """The job with the least on its bolts that carries a mount; with the most where nothing does."""
    if chosen(job):
        return job
    most = with_most(job, tables)
    setup = build(most, tables, values_of(collect(most, tables)))
    trial = trial_of(setup, build_cases(setup.loads), [mount])

    def framed(bolts: FrameBolts) -> Trial:
        values = values_of(collect(_with(job, bolts, FrameBolts()), tables))
        return replace(trial, setup=replace(setup, frame=frame_hold(setup.place, tables, values)))

    def hung(bolts: FrameBolts) -> Trial:
        values = values_of(collect(_with(job, FrameBolts(), bolts), tables))
        return replace(trial, setup=replace(setup, pod=pod_hold(setup.place, tables, values)))

    return _with(
        job,
        _least(frame_options(job, tables), framed, frame.checks),
        _least(pod_options(job, tables), hung, crossmembers.checks)
        if setup.pod is not None
        else FrameBolts(chosen=True),
    )


def _least(
    options: Sequence[FrameBolts],
    trial: Callable[[FrameBolts], Trial],
    checks: Callable[[Trial], tuple[CheckArray, ...]],
) -> FrameBolts:
    for bolts in options:
        if all(float(np.max(c.worst)) <= 1.0 for c in decided(checks(trial(bolts)))):
            return bolts
    return options[-1]


def _metric(job: Job) -> bool:
    """Metric where the bolts there are, or the engine's, are: how results read decides nothing."""
    size = job.frame.bolts.size if job.frame.bolts else ""
    mounted = job.mount.engine_bolts.thread if job.mount and job.mount.engine_bolts else ""
    return (size or mounted or "".join(job.stock.threads[:1])).startswith("M")


def _usual(job: Job, tables: Catalogue, key: str) -> float:
    return float(collect(job, tables)[key].value)


def frame_options(job: Job, tables: Catalogue) -> tuple[FrameBolts, ...]:
    """What may be done about the bolts from board to frame, least first: washers, then bolts, then a doubler."""
    b, metric = job.frame.bolts or FrameBolts(), _metric(job)
    if b.keep:
        count = b.count or round(_usual(job, tables, "frame.bolts.count"))
        return tuple(
            replace(b, count=count if times == 1.0 and b.count is None else _even(count * times), washer=washer[0],
                    washer_t=washer[1], doubler=doubler, chosen=True)
            for doubler, times, washer in product(DOUBLERS[metric], MORE, ((None, None), *PLATES[metric]))
        )  # fmt: skip
    sets = product(_sizes(b, metric, tables, job), (b.count,) if b.count else COUNTS)
    bare = [FrameBolts(size, count, False, d, chosen=True) for (size, d), count in sets]
    rooms = [bolts for bolts in bare if _apart(job, tables, bolts)] or bare[:1]
    return tuple(
        replace(bolts, washer=washer, washer_t=t, doubler=doubler)
        for doubler, bolts, (washer, t) in product(DOUBLERS[metric], rooms, PLATES[metric])
    )


def _apart(job: Job, tables: Catalogue, bolts: FrameBolts) -> bool:
    """True where bolts are as far apart on the frame's lines as metal asks."""
    job = _with(job, bolts, FrameBolts())
    f = build(job, tables, values_of(collect(job, tables))).frame
    return bool(np.min(np.minimum(f.side_pitch, f.end_pitch)) >= np.max(practice_pitch(f.bolts.d)))


def _sizes(b: FrameBolts, metric: bool, tables: Catalogue, job: Job) -> tuple[tuple[str, float], ...]:
    """Bolt sizes to try: the one stated, else those stocked that the board's edge has room for; at least one."""
    if b.diameter is not None:
        return ((b.size, b.diameter),)
    found = [(s, tables.thread(_thread(s, tables)).d_mm) for s in SIZES[metric]]
    room = _usual(job, tables, "frame.inset") / tables.factor("frame.least_edge_d").value
    return tuple(f for f in found if f[1] <= room + 1e-9) or (found[0],)


def _thread(size: str, tables: Catalogue) -> str:
    return str(next(t.name for t in tables.rows("threads") if t.size == size.removesuffix(" in")))


def _even(count: float) -> int:
    """Rounded up to pairs; a count as found stays."""
    return int(count) if count == int(count) else 2 * -(-int(count + 1) // 2)


def pod_options(job: Job, tables: Catalogue) -> tuple[FrameBolts, ...]:
    """The same for the bolts up into the crossmembers: washers, then bolts."""
    c, metric = job.crossmembers, _metric(job)
    b = c.bolts or FrameBolts()
    rows = c.count or len(c.at) or round(tables.factor("crossmembers.count").value)
    washers = PLATES[metric]
    if b.keep:
        count = b.count or round(tables.factor("crossmembers.per").value * rows)
        return tuple(
            replace(b, count=count + extra * rows, washer=washer[0], washer_t=washer[1], chosen=True)
            for extra, washer in product((0, 2, 4), ((None, None), *washers))
        )
    sizes = ((b.size, b.diameter),) if b.diameter is not None else tuple(
        (s, tables.thread(_thread(s, tables)).d_mm) for s in SIZES[metric]
    )  # fmt: skip
    counts = (b.count,) if b.count else tuple(each * rows for each in EACH)
    return tuple(
        FrameBolts(size, count, False, d, *washer, 0.0, True)
        for count, (size, d), washer in product(counts, sizes, washers)
    )


@dataclass(frozen=True)
class Added:
    """A joint's bolts as they are to be, and what that adds to those found; nothing where they are enough."""

    joint: str
    bolts: FrameBolts
    more: int
    washer: tuple[float, float] | None
    doubler: float
    rows: int = 0  # crossmembers that must be caught with as many bolts in each; 0 where none or no number will do

    @property
    def enough(self) -> bool:
        """True where old bolts stay as they are."""
        return self.bolts.keep and not (self.more or self.washer or self.doubler)


def additions(before: Job, after: Job, tables: Catalogue, mount: Mount) -> tuple[Added, ...]:
    """What was found or chosen for frame and pod."""
    return tuple(_additions(before, after, tables, mount))


def _additions(before: Job, after: Job, tables: Catalogue, mount: Mount) -> Iterator[Added]:
    facts = collect(before, tables)
    pairs = [("frame", before.frame.bolts, after.frame.bolts)]
    if "crossmembers.count" in facts:
        pairs.append(("crossmembers", before.crossmembers.bolts, after.crossmembers.bolts))
    for joint, old, new in pairs:
        if new is None:
            continue
        found = round(facts[f"{joint}.bolts.count"].value)
        plate = None if new.washer is None or new.washer_t is None else (new.washer, new.washer_t)
        more = (new.count or found) - found if old is not None and old.keep else 0
        rows = least_crossmembers(after, tables, mount) if joint == "crossmembers" else 0
        yield Added(joint, new, more, plate, new.doubler, rows)


def least_crossmembers(job: Job, tables: Catalogue, mount: Mount) -> int:
    """How many crossmembers must be caught by the bolts settled on, as many in each; 0 where no number is enough."""
    b = job.crossmembers.bolts
    if b is None or b.count is None:
        return 0
    rows = job.crossmembers.count or len(job.crossmembers.at) or round(tables.factor("crossmembers.count").value)
    each = max(b.count // rows, 1)
    for count in range(2, max(rows, MOST_ROWS) + 1):
        c = replace(job.crossmembers, count=count, at=(), bolts=replace(b, count=each * count))
        other = replace(job, crossmembers=c)
        setup = build(other, tables, values_of(collect(other, tables)))
        trial = trial_of(setup, build_cases(setup.loads), [mount])
        if all(float(np.max(x.worst)) <= 1.0 for x in decided(crossmembers.checks(trial))):
            return count
    return 0


MOST_ROWS = 8
