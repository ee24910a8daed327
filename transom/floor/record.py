"""The mount record: what is in there as built, judged again with what was measured."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from transom.catalogue import Catalogue
from transom.checks.torque import BOLT_UP
from transom.drawing.identity import identity
from transom.drawing.records import Identity
from transom.floor.findings import Tried, tried
from transom.floor.photos import PHOTOS
from transom.formula import formula
from transom.frozen import dataclass
from transom.job.records import Built, Job, Mount
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.amounts import percent
from transom.report.words import case_words, check_words, spelled
from transom.units import MM, ONE

RECORD = "RECORD"


@formula(symbol="t_w", source="what a caliper finds, less the coats on both faces and the glue lines", evidence="convention",
         known_by="derived", typical={"t": 40.0, "coats": 0.6, "glue": 0.2})  # fmt: skip
def wood_in(t: MM, coats: MM, glue: MM) -> MM:
    """Wood in a finished board of this thickness."""
    return t - coats - glue


@formula(symbol="k", source="definition", known_by="derived")
def share_of_nominal(t_w: MM, t_n: MM) -> ONE:
    """Wood found over wood that the sheets promised."""
    return t_w / t_n


@dataclass(frozen=True)
class Record:
    """A mount as built: judged with its least measured thickness, and what the paper still lacks."""

    drawn: Judgement
    built: Judgement
    wood: float  # mm, least
    trial: Tried | None
    missing: tuple[str, ...]

    @property
    def identity(self) -> Identity:
        """What every page says: RECORD where nothing is missing, else the paper the job has come to."""
        found = identity(self.built)
        return replace(found, paper=RECORD, draft=()) if not self.missing else found

    @property
    def passes(self) -> bool:
        """True where the mount passes as built and nothing the trial found speaks against it."""
        return self.built.passes and (self.trial is None or self.trial.passes)


def record_of(j: Judgement, tables: Catalogue) -> Record:
    """The record of a judged mount.

    Raises:
        ValueError: no mount, or nothing said of how it was built.
    """
    if j.mount is None or j.job.built is None:
        raise ValueError("no mount, or nothing said of how it was built")
    again = judged_as_built(replace(j, job=replace(j.job, not_judged=())), tables)
    trial = tried(again, tables) if j.job.sea_trial is not None else None
    return Record(j, again, least_wood(j) or j.wood, trial, tuple(missing(j, j.job.built)))


def judged_as_built(j: Judgement, tables: Catalogue) -> Judgement:
    """The mount with the least thickness and the highest torque that were written down; as drawn where neither was.

    Raises:
        ValueError: no mount.
    """
    if j.mount is None:
        raise ValueError("no mount")
    if j.job.built is None:
        return j
    wood, job = least_wood(j), torqued(j.job, j.job.built, j.torque)
    return judge(as_built(job, tables, j.mount, wood) if wood else job, tables, j.mount)


def torqued(job: Job, b: Built, told: float) -> Job:
    """The job with the highest torque a bolt was given, N*mm, where it is above the one told: what it stretched or
    crushed stays so."""
    highest = max(b.torque, default=0.0)
    return replace(job, engine=replace(job.engine, torque=highest)) if highest > told else job


def least_wood(j: Judgement) -> float:
    """Wood at the thinnest place measured, mm; 0 where none was."""
    assert j.job.built is not None
    assert j.mount is not None
    if not j.job.built.thickness:
        return 0.0
    f, lines = j.setup.factors, len(j.mount.layers) - 1
    return float(np.asarray(wood_in(min(j.job.built.thickness), 2 * f.coat, lines * f.glue_line)))


def as_built(job: Job, tables: Catalogue, mount: Mount, wood: float) -> Job:
    """The job with every sheet of the stack as thick as its share of the wood found."""
    measured = dict(job.stock.measured)
    nominal = {x.sheet: measured.get(x.sheet, tables.sheet(x.sheet).thickness_mm) for x in mount.layers}
    # What is over the sheets' own thickness may be paint, filler or glass: it is credited with nothing.
    k = min(1.0, float(share_of_nominal(wood, sum(nominal[x.sheet] for x in mount.layers))))
    found = {**measured, **{sheet: t * k for sheet, t in nominal.items()}}
    return replace(job, stock=replace(job.stock, measured=tuple(sorted(found.items()))))


def missing(j: Judgement, b: Built) -> Iterator[str]:
    """What a record needs and nobody wrote down."""
    bolts = int(np.ravel(j.setup.holding.bolt_y).size) if j.setup.holding.by == "bolts" else 0
    wanted = (
        (b.date, "date it was finished"),
        (b.by, "who built it"),
        (b.hull, "hull identification number"),
        (b.engine_serial, "engine's serial number"),
        (b.thickness, "measured thickness of the board"),
        (b.batches, "batches of wood and epoxy"),
        (len(b.torque) >= bolts, f"torque of each of {bolts} bolts"),
        (j.job.sea_trial, "trial on the water"),
    )
    yield from (what for there, what in wanted if not there)
    taken = {p.strip() for p in b.photos}
    gone = [number for number, _ in PHOTOS if number not in taken]
    if gone:
        yield f"photographs {', '.join(gone)}"


def sentence(r: Record) -> str:
    """The result in one sentence."""
    j = r.built
    worst = j.governing
    units = j.job.head.units
    where = f"{check_words(worst, j.job)}, {percent(worst.utilisation)} of limit, {case_words(worst.case, j.job.cases)}"
    verdict = "As built it passes" if r.passes else "As built it DOES NOT PASS"
    return spelled(f"{verdict}; weakest link: {where}.", units)


def under(r: Record) -> tuple[str, ...]:
    """What to do where the board came out too thin or its bolts were turned too hard; nothing where it passes."""
    if r.built.passes:
        return ()
    failing = [f"{check_words(c, r.built.job)}, {percent(c.utilisation)} of limit" for c in r.built.failing]
    torque_only = all(c.case in BOLT_UP for c in r.built.failing)
    return (
        *(spelled(f"As built: {f}", r.built.job.head.units) for f in failing),
        *((TOO_TIGHT,) if torque_only and failing else (TOO_THIN,)),
    )


TOO_THIN = (
    "Do not run her on it. In this order: larger or thicker backing plates, then a further layer glued on if pocket and"
    " bracket take it, else a new board; then measure, and make this record again."
)
TOO_TIGHT = (
    "Do not run her on it: torqued too hard. Engine off, new bolts and nuts, look for crushed wood under every plate and"
    " washer and put larger plates over it; torque no higher than the list says, and make this record again."
)
