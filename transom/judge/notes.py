"""Beside the answer, deciding nothing: what the trade builds, what the federal powering formula gives."""

from collections.abc import Iterator

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Job
from transom.loads.powering import federal_horsepower
from transom.setup.build import usual_thrust
from transom.setup.facts import Facts

HP = 745.6998715822702
SHORT_BOAT = 20 * 304.8  # mm; 33 CFR 183.51 stops there


def notes(job: Job, facts: Facts, tables: Catalogue) -> tuple[str, ...]:
    """Lines of information, the trade's practice first."""
    return (*doubts(job, facts, tables), *_practice(facts), *_federal(job))


# Shares of what is usual at the power, beyond which a stated number is more likely misread, and the loads too small.
SHARES = {"diameter": 0.65, "gear": 0.6, "speed": 1.6}
LIGHT = 0.6
WEAK = 0.6  # of the usual thrust


def doubts(job: Job, facts: Facts, tables: Catalogue) -> tuple[str, ...]:
    """Stated numbers far on the side that makes the loads small: to be read again before anything is cut."""
    return tuple(f"{what}: far from what is usual at this power; read it again" for what in _far(job, facts, tables))


def _far(job: Job, facts: Facts, tables: Catalogue) -> Iterator[str]:
    power, e = facts["engine.power"].value, job.engine
    row = tables.propeller(power)
    if e.mass is not None and e.mass < LIGHT * tables.engine_weight(power).dry_kg:
        yield "engine weight"
    if e.thrust is not None and e.thrust < WEAK * float(np.max(usual_thrust(power, tables).characteristic)):
        yield "measured thrust"
    usual = {"diameter": row.diameter_mm, "gear": row.gear, "speed": row.speed_1_s}
    says = {"diameter": "propeller diameter", "gear": "gear ratio", "speed": "rated engine speed"}
    for key, share in SHARES.items():
        found = getattr(e.propeller, key)
        if found is not None and (found < share * usual[key] if share < 1.0 else found > share * usual[key]):
            yield says[key]


# What the trade builds: from and to which power (hp), in words, and how thick from thin to thick (mm). Common practice.
PRACTICE = (
    (0.0, 37.0, "one or two layers, 1-1/4 to 1-1/2 in in all", (31.75, 38.1)),
    (37.0, 62.0, "two 3/4 in (18 to 19 mm) sheets", (36.0, 38.1)),
    (62.0, 120.0, "factory pontoon boards about 1-3/4 in (45 mm)", (44.45, 45.0)),
    (120.0, 301.0, "three layers, about 2-1/4 in (57 mm)", (57.0, 57.15)),
)


def _practice(facts: Facts) -> Iterator[str]:
    hp = facts["engine.power"].value / HP
    for low, high, says, _ in PRACTICE:
        if low < hp <= high:
            yield f"Common practice at this power: {says}. Printed beside the answer, not forced on it."


def _federal(job: Job) -> Iterator[str]:
    """33 CFR 183.53, monohulls under 20 ft only; never for pontoons, which it does not cover."""
    b = job.boat
    if b.kind == "pontoon" or b.length is None or b.transom_width is None or b.length >= SHORT_BOAT:
        return
    remote = job.engine.steering == "wheel"
    hp = federal_horsepower(b.length, b.transom_width, remote, False)
    yield f"Federal powering formula (33 CFR 183.53) for a hull this long and wide: {hp:g} hp. Information; the plate decides."
