"""Bolts of frame and pod: the old ones as found and the least that has to be added, or new ones, smallest first."""

from collections.abc import Callable, Container, Iterator, Sequence
from dataclasses import replace
from itertools import product

import numpy as np

from transom.catalogue import Catalogue
from transom.checks import crossmembers, frame
from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.job.records import FrameBolts, Job, Mount
from transom.judge.evaluate import trial_of, weakest
from transom.loads.cases import build_cases
from transom.result import CheckArray
from transom.setup import support_facts
from transom.setup.build import Values, build, place_of, values_of
from transom.setup.facts import Facts, collect
from transom.setup.records import FrameHold, Place, Setup
from transom.setup.support import frame_hold, pod_hold
from transom.standards.ec3 import practice_pitch

PLATES = {True: ((50.0, 5.0), (80.0, 6.0), (100.0, 10.0)), False: ((50.8, 4.7625), (76.2, 6.35), (101.6, 9.525))}
DOUBLERS = {True: (0.0, 6.0, 10.0, 12.0), False: (0.0, 6.35, 9.525, 12.7)}
SIZES = {True: ("M10", "M12"), False: ("3/8 in", "1/2 in")}
COUNTS = (8, 12, 16, 24)
MORE = (1.0, 1.5, 2.0)  # times the old bolts
AT_ONCE = 16  # options that the pencil looks at together
EACH = (2, 4)  # bolts to a crossmember


def as_found(job: Job, mount: Mount, tables: Catalogue) -> Job:
    """The job with the bolts that its mount states, and with old bolts where it states none, as they were found."""
    facts = collect(job, tables)
    frame_bolts = _found(job.frame.bolts, mount.frame_bolts, facts, "frame.bolts.count")
    pod = _found(job.crossmembers.bolts, mount.pod_bolts, facts, "crossmembers.bolts.count")
    return _with(job, frame_bolts, pod)


def _found(old: FrameBolts | None, stated: FrameBolts | None, facts: Facts, count: str) -> FrameBolts | None:
    old = old or FrameBolts()
    if stated is not None:
        new = replace(old, size=stated.size, diameter=stated.diameter, count=stated.count, doubler=stated.doubler)
        # A washer that the mount does not name is the one found.
        washer, t = stated.washer or old.washer, stated.washer_t or old.washer_t
        return replace(new, washer=washer, washer_t=t, chosen=True)
    if old.keep and count in facts:
        return replace(old, count=round(facts[count].value), chosen=True)
    return old


def with_most(job: Job, tables: Catalogue) -> Job:
    """The job with the most that may be added to bolts not settled: what a board is screened with."""
    return _with(job, frame_options(job, tables)[-1], pod_options(job, tables)[-1])


def frames(job: Job, tables: Catalogue, setup: Setup) -> tuple[FrameHold, ...]:
    """The frame with the most of each size and number of bolts; none where there is nothing to choose.

    More bolts stand closer and leave each other's washers less wood, so that none of these is the best in everything.
    """
    options = frame_options(job, tables)
    last = options[-1]
    most = [b for b in options if (b.doubler, b.washer) == (last.doubler, last.washer)]
    if len(most) == 1:
        return ()
    pod = job.crossmembers.bolts
    values = values_of(collect(_with(job, last, pod), tables))
    return tuple(_frame(job, tables, values, setup.place, [b]) for b in most)


def _with(job: Job, bolts: FrameBolts | None, pod: FrameBolts | None) -> Job:
    return replace(job, frame=replace(job.frame, bolts=bolts), crossmembers=replace(job.crossmembers, bolts=pod))


@dataclass(frozen=True)
class Settled:
    """A job with its bolts settled, and the joints that nothing on the list of what may be added makes hold."""

    job: Job
    beyond: tuple[str, ...] = ()


def fastened(job: Job, tables: Catalogue, trial: Trial) -> Settled:
    """The job with the least on its bolts that carries a mount; with the most where nothing does.

    `trial` is of one mount on the job, by either method: what it says of the board does not hang on these bolts.
    """

    values, place = values_of(collect(job, tables)), trial.setup.place
    at_once = 1 if isinstance(trial, Careful) else AT_ONCE

    def framed(several: Sequence[FrameBolts]) -> Trial:
        return _held_by(trial, replace(trial.setup, frame=_frame(job, tables, values, place, several)))

    def hung(several: Sequence[FrameBolts]) -> Trial:
        return _hung([_with(job, job.frame.bolts, b) for b in several], tables, values, trial)

    bolts, held = _least(frame_options(job, tables), framed, frame.checks, at_once)
    if trial.setup.pod is None:
        return Settled(_with(job, bolts, FrameBolts(chosen=True)), () if held else ("frame",))
    pod, hangs = _least(pod_options(job, tables), hung, crossmembers.checks, at_once)
    return Settled(_with(job, bolts, pod), ("frame",) * (not held) + ("crossmembers",) * (not hangs))


def _frame(job: Job, tables: Catalogue, values: Values, place: Place, several: Sequence[FrameBolts]) -> FrameHold:
    """The frame on other bolts, which differ in size, number, washer and doubler; `values` are of the job on any."""
    jobs = [_with(job, bolts, job.crossmembers.bolts) for bolts in several]
    own = _columns([dict(support_facts.frame(of, tables, None)) for of in jobs])
    return frame_hold(place, tables, {**values, **own}, several[0])


def _hung(jobs: Sequence[Job], tables: Catalogue, values: Values, trial: Trial) -> Trial:
    """The trial on the bolts up into the crossmembers of jobs that differ in size, number and washer of these alone."""
    own = _columns([dict(support_facts.crossmembers(of, tables, None)) for of in jobs])
    pod = pod_hold(trial.setup.place, tables, {**values, **own}, jobs[0].crossmembers)
    return _held_by(trial, replace(trial.setup, pod=pod))


def _columns(several: Sequence[Facts]) -> Values:
    """Numbers of facts, floats of one, arrays (n,) of several."""
    if len(several) == 1:
        return values_of(several[0])
    return {key: np.array([facts[key].value for facts in several]) for key in several[0]}


def _held_by(trial: Trial, setup: Setup) -> Trial:
    """The trial with other bolts of frame or pod; what it knows already of board and lines does not hang on them."""
    other = replace(trial, setup=setup)
    vars(other).update({name: vars(trial)[name] for name in ("actions", "edge_lines") if name in vars(trial)})
    return other


def _least(
    options: Sequence[FrameBolts],
    trial: Callable[[Sequence[FrameBolts]], Trial],
    checks: Callable[[Trial], tuple[CheckArray, ...]],
    at_once: int,
) -> tuple[FrameBolts, bool]:
    """The first option that carries, and True; the last, which is the most, and False where none does."""
    if len(options) == 1:
        return options[0], options[0].chosen
    for start in range(0, len(options), at_once):
        some = options[start : start + at_once]
        carries = np.broadcast_to(weakest(checks(trial(some))) <= 1.0, len(some))
        if carries.any():
            return some[int(np.argmax(carries))], True
    return options[-1], False


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
    if b.chosen:
        return (b,)
    if b.keep:
        count = b.count or round(_usual(job, tables, "frame.bolts.count"))
        return tuple(
            replace(b, count=count if times == 1.0 and b.count is None else _even(count * times), washer=washer[0],
                    washer_t=washer[1], doubler=doubler, chosen=True)
            for doubler, times, washer in product(DOUBLERS[metric], MORE, _washers(b, metric))
        )  # fmt: skip
    sets = product(_sizes(b, metric, tables, job), (b.count,) if b.count else COUNTS)
    bare = [replace(b, size=size, count=count, keep=False, diameter=d, chosen=True) for (size, d), count in sets]
    rooms = _far_enough(job, tables, bare) or bare[:1]
    return tuple(
        replace(bolts, washer=washer, washer_t=t, doubler=doubler)
        for doubler, bolts, (washer, t) in product(DOUBLERS[metric], rooms, _washers(b, metric)[1:])
    )


def _washers(b: FrameBolts, metric: bool) -> tuple[tuple[float | None, float | None], ...]:
    """The washers there are, then plate washers larger than these."""
    return ((b.washer, b.washer_t), *(p for p in PLATES[metric] if p[0] > (b.washer or 0.0)))


def _far_enough(job: Job, tables: Catalogue, several: Sequence[FrameBolts]) -> list[FrameBolts]:
    """Those of the bolts that are as far apart on the frame's lines as metal asks."""
    values = values_of(collect(_with(job, several[0], FrameBolts()), tables))
    place = place_of(job, tables, values)

    def apart(f: FrameHold) -> bool:
        return bool(np.min(np.minimum(f.side_pitch, f.end_pitch)) >= np.max(practice_pitch(f.bolts.d)))

    return [bolts for bolts in several if apart(_frame(job, tables, values, place, [bolts]))]


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
    if b.chosen:
        return (b,)
    rows, washers = _rows(job, tables), _washers(b, metric)
    if b.keep or c.holes:
        count = len(c.holes) or b.count or round(tables.factor("crossmembers.per").value * rows)
        # Bolts in holes of their own are not added to: where new ones would go is the shop's to say.
        return tuple(
            replace(b, count=count + extra * rows, washer=washer[0], washer_t=washer[1], chosen=True)
            for extra, washer in product((0,) if c.holes else (0, 2, 4), washers)
        )
    sizes = ((b.size, b.diameter),) if b.diameter is not None else tuple(
        (s, tables.thread(_thread(s, tables)).d_mm) for s in SIZES[metric]
    )  # fmt: skip
    counts = (b.count,) if b.count else tuple(each * rows for each in EACH)
    return tuple(
        replace(b, size=size, count=count, keep=False, diameter=d, washer=washer[0], washer_t=washer[1], chosen=True)
        for count, (size, d), washer in product(counts, sizes, washers[1:])
    )


def _rows(job: Job, tables: Catalogue) -> int:
    """Crossmembers that are caught."""
    c = job.crossmembers
    own = c.count or len(c.at) or len({round(forward, 1) for _, forward in c.holes})
    return own or round(tables.factor("crossmembers.count").value)


@dataclass(frozen=True)
class Added:
    """A joint's bolts as they are to be, and what that adds to those found; nothing where they are enough."""

    joint: str
    bolts: FrameBolts
    more: int
    washer: tuple[float, float] | None
    doubler: float
    rows: int = 0  # crossmembers that must be caught with as many bolts in each; 0 where none or no number will do
    holds: bool = True  # False: not even this is enough

    @property
    def enough(self) -> bool:
        """True where old bolts stay as they are."""
        return self.bolts.keep and self.holds and not (self.more or self.washer or self.doubler)


JOINTS = ("frame", "crossmembers")


def additions(
    before: Job, after: Settled, tables: Catalogue, mount: Mount, joints: Container[str] = JOINTS
) -> tuple[Added, ...]:
    """What was found or chosen for frame and pod, or for one of them."""
    return tuple(_additions(before, after, tables, mount, joints))


def _additions(
    before: Job, settled: Settled, tables: Catalogue, mount: Mount, joints: Container[str]
) -> Iterator[Added]:
    facts, after = collect(before, tables), settled.job
    pairs = [("frame", before.frame.bolts, after.frame.bolts)]
    if "crossmembers.count" in facts:
        pairs.append(("crossmembers", before.crossmembers.bolts, after.crossmembers.bolts))
    for joint, old, new in pairs:
        if new is None or joint not in joints:
            continue
        kept = old if old is not None and old.keep else FrameBolts()
        found = round(facts[f"{joint}.bolts.count"].value)
        added = (new.washer, new.washer_t) != (kept.washer, kept.washer_t)
        plate = (new.washer, new.washer_t) if added and new.washer is not None and new.washer_t is not None else None
        more = (new.count or found) - found if new.keep else 0
        rows = least_crossmembers(after, tables, mount) if joint == "crossmembers" else 0
        yield Added(joint, new, more, plate, new.doubler, rows, joint not in settled.beyond)


def least_crossmembers(job: Job, tables: Catalogue, mount: Mount) -> int:
    """How many crossmembers must be caught by the bolts settled on, as many in each; 0 where no number is enough.

    Measured places are caught from aft on. A pattern of single holes is judged as it is: 0.
    """
    c, b = job.crossmembers, job.crossmembers.bolts
    if b is None or b.count is None or c.holes:
        return 0
    rows = _rows(job, tables)
    each = max(b.count // rows, 1)
    values = values_of(collect(job, tables))
    setup = build(job, tables, values)
    trial = trial_of(setup, build_cases(setup.loads), [mount])
    for count in range(2, (len(c.at) or max(rows, MOST_ROWS)) + 1):
        fewer = replace(c, count=count, at=tuple(sorted(c.at)[:count]), bolts=replace(b, count=each * count))
        hung = _hung([replace(job, crossmembers=fewer)], tables, values, trial)
        if weakest(crossmembers.checks(hung))[0] <= 1.0:
            return count
    return 0


MOST_ROWS = 8


def written(mount: Mount, added: Sequence[Added]) -> Mount:
    """The mount with its bolts of frame and pod stated, where they are not simply those found."""
    new = {a.joint: _plain(a.bolts) for a in added if not a.enough}
    return replace(mount, frame_bolts=new.get("frame"), pod_bolts=new.get("crossmembers"))


def _plain(b: FrameBolts) -> FrameBolts | None:
    """What a mount states of bolts; None where their size or number is not known."""
    if b.diameter is None or b.count is None or not b.size:
        return None
    return FrameBolts(b.size, b.count, False, b.diameter, b.washer, b.washer_t, b.doubler, True)
