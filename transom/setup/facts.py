"""Every number a judgement rests on: stated by the job, else the printed default, never silently.

Facts are listed in the order a tape meets them. Defaults come from the tables (`materials/`), each with its
evidence; nothing here is a number of its own.
"""

import math
from collections.abc import Iterator
from typing import Any

from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.job.records import Hole, Job
from transom.setup.given import Facts as Facts  # noqa: PLC0414 part of this room's face
from transom.setup.given import given_or, of_factor, of_row, stated
from transom.setup.records import Fact
from transom.setup.setback_facts import setback
from transom.setup.steps import half, light_mass, span_between
from transom.setup.support_facts import crossmembers, frame


def collect(job: Job, tables: Catalogue, power: float | None = None) -> Facts:
    """All facts of a job; `power` (W) stands in for the engine's, to ask what another would do.

    Raises:
        JobError: nothing to go by, as bolts on a small engine whose holes were not measured.
    """
    facts: Facts = {}
    for group in (_boat, _engine, _propeller, _bracket, _board, frame, crossmembers):
        facts.update(group(job, tables, power))
    row = tables.bracket(facts["engine.power"].value)
    facts.update(setback(job, tables, facts["engine.weight"].value, row))
    return facts


def power_of(job: Job, tables: Catalogue, power: float | None) -> Fact:
    """The power sized for: the top of the range, else the builder's plate."""
    says = "engine power"
    if power is not None:
        return stated(power, "W", says)
    if job.engine.power is not None:
        return stated(job.engine.power, "W", says)
    if job.boat.plate_power is not None:
        return Fact(job.boat.plate_power, "W", "estimate", "derived", "the builder's plate, engine not named", says,
                    "read it off the engine")  # fmt: skip
    raise JobError('[engine] power = "?": no builder\'s plate power to fall back on; state engine.power')


def _boat(job: Job, tables: Catalogue, power: float | None) -> Iterator[tuple[str, Fact]]:
    yield "boat.speed", given_or(
        job.boat.speed, "m/s", "speed under way, full throttle", "GPS, two ways along, average",
        of_factor(tables, "thrust.speed_m_s"),
    )  # fmt: skip


def _engine(job: Job, tables: Catalogue, power: float | None) -> Iterator[tuple[str, Fact]]:
    e = job.engine
    P = power_of(job, tables, power)
    yield "engine.power", P
    band = tables.engine_weight(P.value)
    light = tables.factor("weight.light_share").value
    yield "engine.weight", given_or(
        e.mass, "kg", "engine weight, ready to run", "maker's sheet, or a crane scale, full of oil",
        of_row(band, band.running_kg),
    )  # fmt: skip
    # Where weight helps it is taken light, so that a heavy guess is never what holds the mount together.
    yield "engine.weight_light", (
        of_row(band, band.dry_kg, "kg") if e.mass is None else stated(float(light_mass(e.mass, light)), "kg", "weight where it helps")
    )  # fmt: skip
    cg = tables.gravity(P.value)
    yield "engine.gravity.aft", given_or(
        e.gravity_aft, "mm", "center of gravity aft of the bracket face", "hang it from one point, plumb line on the leg",
        of_row(cg, cg.x_cg_mm),
    )  # fmt: skip
    yield "engine.gravity.up", given_or(
        e.gravity_up, "mm", "center of gravity above the top edge", "hang it from one point, plumb line on the leg",
        of_factor(tables, "gravity.up_mm"),
    )  # fmt: skip
    large = P.value >= tables.factor("shaft.large_from_W").value
    yield "engine.shaft", given_or(
        e.shaft, "mm", "shaft class", "bracket top to anti-ventilation plate, leg vertical",
        of_factor(tables, "shaft.large_mm" if large else "shaft.small_mm"),
    )  # fmt: skip
    # Boats are built to a shaft class: unless measured, the bottom lies as deep as the class says.
    deep = e.shaft or tables.factor("shaft.large_mm" if large else "shaft.small_mm").value
    yield "boat.bottom", given_or(
        job.boat.bottom, "mm", "tube or hull bottom below the top edge", "tape, straight down at the stern",
        Fact(deep, "mm", "common practice", "memory", "a boat is as deep here as her shaft class", ""),
    )  # fmt: skip
    for key, name, says in (
        ("engine.steering_axis.aft", "steering_axis.aft_mm", "steering axis aft of the bracket face"),
        ("engine.tilt_axis.aft", "tilt_axis.aft_mm", "tilt axis aft of the bracket face"),
        ("engine.tilt_axis.up", "tilt_axis.up_mm", "tilt axis above the top edge"),
    ):
        yield key, given_or(None, "mm", says, "", of_factor(tables, name))
    if e.thrust is not None:
        yield "engine.thrust", stated(e.thrust, "N", "measured thrust, boat held still")


def _propeller(job: Job, tables: Catalogue, power: float | None) -> Iterator[tuple[str, Fact]]:
    p = job.engine.propeller
    row = tables.propeller(power_of(job, tables, power).value)
    for key, value, default, unit, says, measure in (
        ("diameter", p.diameter, row.diameter_mm, "mm", "propeller diameter", "stamped on the hub, diameter first"),
        ("pitch", p.pitch, row.pitch_mm, "mm", "propeller pitch", "stamped on the hub, pitch second"),
        ("blades", p.blades, row.blades, "", "blades", "count them"),
        ("area_ratio", p.area_ratio, row.area_ratio, "", "blade area ratio", ""),
        ("gear", p.gear, row.gear, "", "gear ratio", "engine manual: 27:13 is 2.08"),
        ("speed", p.speed, row.speed_1_s, "1/s", "rated engine speed", "engine manual, middle of full-throttle range"),
        ("below_plate", p.below_plate, row.below_plate_mm, "mm", "propeller shaft below the anti-ventilation plate",
         "tape, plate to shaft center"),
    ):  # fmt: skip
        yield f"engine.propeller.{key}", given_or(value, unit, says, measure, of_row(row, default))


def _bracket(job: Job, tables: Catalogue, power: float | None) -> Iterator[tuple[str, Fact]]:
    b, row = job.engine.bracket, tables.bracket(power_of(job, tables, power).value)
    apart, width, foot = _pads(job)
    for key, value, default, says in (
        ("pads_apart", apart, 2 * row.pad_y_mm, "bracket pads, middle to middle"),
        ("pad_width", width, row.pad_width_mm, "bracket pad width"),
        ("pad_height", foot, row.pad_height_mm, "board's top edge to the foot of the bracket's pads"),
    ):
        yield f"engine.bracket.{key}", given_or(value, "mm", says, "tape on the bracket", of_row(row, default))
    ear = of_factor(tables, "bracket.ear_mm")
    yield "engine.bracket.ear", given_or(b.ear, "mm", "bracket ear thickness at the bolt", "caliper", ear)
    if job.engine.held_by == "clamps":
        for key in ("screw_down", "screw_y", "pad"):
            name, found = f"clamps.{key}_mm", getattr(job.engine.clamps, key)
            yield (
                f"engine.clamps.{key}",
                given_or(found, "mm", tables.factor(name).says, "tape on the bracket", of_factor(tables, name)),
            )
        return
    yield from _holes(job, row)


def _pads(job: Job) -> tuple[float | None, float | None, float | None]:
    """Pads as the hand method takes them: the nearest to the center line, the narrowest, the lowest foot."""
    b = job.engine.bracket
    if not b.pads:
        return b.pads_apart, b.pad_width, b.pad_height
    foot = max(p.down + p.height for p in b.pads)
    return 2 * min(abs(p.y) for p in b.pads), min(p.width for p in b.pads), foot


def _holes(job: Job, row: Any) -> Iterator[tuple[str, Fact]]:
    b = job.engine.bracket
    if b.bolts:
        yield from _odd_pattern(b.bolts)
        return
    found = (b.upper_holes, b.lower_holes, b.rows_apart, b.top_to_upper)
    if not row.bolted and any(v is None for v in found):
        raise JobError(
            "[engine.bracket] upper_holes, lower_holes, rows_apart, top_to_upper: not all measured, and below"
            ' 30 hp no pattern is usual; measure the four, or say held_by = "clamps"'
        )
    usual = (row.upper_apart_mm, row.lower_apart_mm, _apart(row), row.upper_down_mm) if row.bolted else found
    says = ("upper holes, center to center", "lower holes, center to center", "between the rows",
            "top edge to the upper holes")  # fmt: skip
    for key, value, default, text in zip(
        ("upper_holes", "lower_holes", "rows_apart", "top_to_upper"), found, usual, says, strict=True
    ):
        yield (
            f"engine.bracket.{key}",
            given_or(value, "mm", text, "tape on the bracket", of_row(row, default)),
        )


def _apart(row: Any) -> float:
    return float(row.lower_down_mm - row.upper_down_mm)


def _odd_pattern(bolts: tuple[Hole, ...]) -> Iterator[tuple[str, Fact]]:
    """An odd pattern as its top and bottom rows, the narrower half width of each; rows between are left out."""
    downs = sorted({round(h.down, 1) for h in bolts})
    if len(downs) < 2 or len(bolts) < 4:
        raise JobError(
            f"[engine.bracket] bolts: {len(bolts)} holes at {len(downs)} depths; at least two rows of two are needed;"
            " list every hole"
        )
    rows = [[abs(h.y) for h in bolts if round(h.down, 1) == d] for d in (downs[0], downs[-1])]
    if min(len(r) for r in rows) < 2 or min(min(r) for r in rows) <= 0:
        raise JobError("[engine.bracket] bolts: the top and the bottom row need a hole each side; list every hole")
    for key, value, says in (
        ("upper_holes", 2 * min(rows[0]), "top row, twice the smaller distance from the center line"),
        ("lower_holes", 2 * min(rows[1]), "bottom row, twice the smaller distance from the center line"),
        ("rows_apart", downs[-1] - downs[0], "top row to bottom row"),
        ("top_to_upper", downs[0], "top edge to the top row"),
    ):
        yield f"engine.bracket.{key}", stated(value, "mm", says)


def _board(job: Job, tables: Catalogue, power: float | None) -> Iterator[tuple[str, Fact]]:
    b, f = job.board, job.frame
    preset = tables.preset(job.boat.kind)
    kind = f.kind or preset.frame
    width_of_board = given_or(b.width, "mm", "board width", "tape, widest", of_row(preset, preset.width_mm))
    yield "board.width", width_of_board
    yield "board.height", given_or(b.height, "mm", "board height", "tape", of_row(preset, preset.height_mm))
    lean = of_factor(tables, "board.lean_deg")
    yield "board.lean", given_or(
        b.lean, "rad", "lean of the board, top aft", "bevel or level and tape: inches out on inches up",
        Fact(math.radians(lean.value), "rad", lean.evidence, lean.known_by, lean.source, ""),
    )  # fmt: skip
    inset = of_factor(tables, "support.inset_mm")
    width = None if f.flange_width is None else float(half(f.flange_width))
    edge = given_or(width, "mm", "from the board's edge to what holds it", "half the flange", inset)
    yield "frame.inset", edge
    if kind == "uprights" and not f.lines:
        apart = None if len(f.at) < 2 else max(f.at) - min(f.at)
        # Uprights nobody measured stand where the board still reaches over them.
        usual = min(preset.apart_mm, float(span_between(width_of_board.value, edge.value)))
        yield (
            "frame.apart",
            given_or(apart, "mm", "uprights, center to center", "tape", of_row(preset, usual)),
        )
