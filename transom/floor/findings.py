"""After the trial: what the figures say of propeller, thrust, mount and board."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from transom.catalogue import Catalogue
from transom.checks.ruler import ruler
from transom.floor.watch import band_high, band_low, times_predicted
from transom.formula import formula
from transom.frozen import dataclass
from transom.job.records import Job, SeaTrial
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.loads.crossing import length_in_m
from transom.loads.thrust import pitch_speed, propeller_speed, slip
from transom.quantity import show
from transom.report.amounts import percent
from transom.report.ruler import about, next_mark
from transom.report.words import check_words
from transom.units import MM, PER_S

NEAR = 1e-6  # mm
SLIP_USUAL = (0.05, 0.30)
INCH = 25.4


@formula(
    symbol="dp",
    source="2 in of pitch for 300 to 400 rpm of engine speed: trade rule",
    evidence="common practice",
    known_by="memory",
    typical={"n_off": 8.0, "per_inch": 2.9},
)
def pitch_change(n_off: PER_S, per_inch: PER_S = 175.0 / 60.0, inch: MM = 25.4) -> MM:
    """Pitch that brings the engine so much nearer its band; above zero where it turns too fast: more pitch."""
    return n_off / per_inch * inch


@dataclass(frozen=True)
class Finding:
    """One thing found: `fine` False where it must be dealt with before the boat goes out."""

    what: str
    says: str
    fine: bool = True


@dataclass(frozen=True)
class Tried:
    """A trial read: the job judged again with what was measured, and what was found."""

    before: Judgement
    after: Judgement
    findings: tuple[Finding, ...]

    @property
    def passes(self) -> bool:
        """True where the mount passes with what was measured and nothing found speaks against it."""
        return self.after.passes and all(f.fine for f in self.findings)


def tried(j: Judgement, tables: Catalogue) -> Tried:
    """The trial that stands in the job, read against the judged mount.

    Raises:
        ValueError: there is no trial in the job, or no mount.
    """
    if j.job.sea_trial is None or j.mount is None:
        raise ValueError("no trial, or no mount, to read")
    after = judge(_measured(j.job, j.job.sea_trial), tables, j.mount)
    return Tried(j, after, tuple(_findings(j, after, j.job.sea_trial)))


def _measured(job: Job, found: SeaTrial) -> Job:
    """The job with the speed that was found."""
    return job if found.speed is None else replace(job, boat=replace(job.boat, speed=found.speed))


def _findings(j: Judgement, after: Judgement, found: SeaTrial) -> Iterator[Finding]:
    yield from _engine_speed(j, found)
    yield from _slip(j, found)
    yield from _thrust(j, after, found)
    yield from _height(j, found)
    yield from _ruler(j, found)
    for lack in found.lacks:
        yield Finding("instruments", f"{lack}: what it would have shown is not judged")


def _engine_speed(j: Judgement, found: SeaTrial) -> Iterator[Finding]:
    if found.engine_speed is None:
        return
    n, rated = found.engine_speed, j.facts["engine.propeller.speed"].value
    low, high = float(band_low(rated)), float(band_high(rated))
    reads = f"{show.rotation(n)} at full throttle, band {show.rotation(low)} to {show.rotation(high)}"
    if low <= n <= high:
        yield Finding("propeller", f"{reads}: it fits")
        return
    off = n - (low if n < low else high)
    inches = abs(float(pitch_change(off))) / INCH
    step = f"about {max(1, round(inches))} in"
    if n < low:
        yield Finding("propeller", f"{reads}: too large, the engine labors. Try {step} less pitch, or less diameter (2 in of"
                      " pitch is 300 to 400 rpm; more diameter loads it more)", fine=False)  # fmt: skip
    else:
        yield Finding("propeller", f"{reads}: too small, the engine overruns. Try {step} more pitch, or more diameter (2 in of"
                      " pitch is 300 to 400 rpm; more diameter loads it more)", fine=False)  # fmt: skip


def _slip(j: Judgement, found: SeaTrial) -> Iterator[Finding]:
    if found.speed is None or found.engine_speed is None:
        return
    pitch, gear = (j.facts[f"engine.propeller.{k}"] for k in ("pitch", "gear"))
    screw = float(pitch_speed(propeller_speed(found.engine_speed, gear.value), float(length_in_m(pitch.value))))
    share = float(slip(found.speed, screw))
    units = j.job.head.units
    assumed = " (pitch or gear assumed)" if pitch.evidence != "stated" or gear.evidence != "stated" else ""
    says = (
        f"{show.percent(share)}: {show.speed(found.speed, units)} of the {show.speed(screw, units)} it screws{assumed}"
    )
    if share <= 0:
        yield Finding(
            "slip", f"{says}. Faster than it screws cannot be: check pitch, gear and both instruments", fine=False
        )
    elif not SLIP_USUAL[0] <= share <= SLIP_USUAL[1]:
        yield Finding("slip", f"{says}. Usual is {show.percent(SLIP_USUAL[0])} to {show.percent(SLIP_USUAL[1])}: wrong propeller,"
                      " heavy boat, ventilation, or an instrument off")  # fmt: skip
    else:
        yield Finding("slip", says)


def _thrust(j: Judgement, after: Judgement, found: SeaTrial) -> Iterator[Finding]:
    if found.speed is None:
        return
    units = j.job.head.units
    was, now = (float(np.ravel(x.setup.loads.thrust_under_way_N)[0]) for x in (j, after))
    worst = after.governing
    yield Finding(
        "mount, with the speed found",
        f"thrust under way {show.force(now, units)} (was {show.force(was, units)}); weakest link {check_words(worst, j.job)},"
        f" {percent(worst.utilisation)} of limit (was {percent(j.governing.utilisation)})",
        fine=after.passes,
    )


def _height(j: Judgement, found: SeaTrial) -> Iterator[Finding]:
    if found.height is None:
        return
    units = j.job.head.units
    where = f"anti-ventilation plate {show.length(found.height, units, step='1/8', step_mm='1')} above the bottom"
    if found.height < -2 * INCH:
        yield Finding("height", f"{where}: low; drag, and a longer lever on the board than need be. Try a hole up")
    else:
        yield Finding("height", where)


def _ruler(j: Judgement, found: SeaTrial) -> Iterator[Finding]:
    if found.moved is None or found.push_mass is None or j.careful is None:
        return
    units = j.job.head.units
    predicted = ruler(j.careful, found.push_mass, j.facts["engine.propeller.diameter"].value)
    expected, stop = predicted.moves, next_mark(predicted.limit, units)
    times = float(times_predicted(found.moved, expected))
    reads = (
        f"{show.mass(found.push_mass, units)} moved the top edge {about(found.moved, units).removeprefix('about ')},"
        f" {about(expected, units)} was predicted"
    )
    if found.moved >= stop - NEAR:
        yield Finding("ruler check", f"{reads}: {times:.1f} times. STOP and look: frame, its bolts, welds, or wood that is"
                      " not what it was sold as", fine=False)  # fmt: skip
    else:
        yield Finding("ruler check", f"{reads}: as it should be")
