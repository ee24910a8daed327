"""A setback or built bracket as facts: stated, worked out from its plates, or assumed."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from transom.catalogue import Catalogue
from transom.catalogue.metal import Plate, Welded
from transom.errors import JobError
from transom.job.records import Job
from transom.job.setback_records import Setback
from transom.setup.given import given_or, of_factor, of_row, stated
from transom.setup.records import Fact

Found = Iterator[tuple[str, Fact]]
TAPE, GAUGE = "tape", "weld gauge, the smallest found"
OUT_OF = "worked out from what was measured or assumed of it"


def setback(job: Job, tables: Catalogue, engine_mass: float, row: Any) -> Found:
    """The bracket's facts; none without one. `row` is the usual pattern of the power, `engine_mass` in kg.

    Raises:
        JobError: nothing to go by for the bolts through the board.
    """
    b = job.setback
    if b is None:
        return
    yield from _reach(b, tables, engine_mass)
    yield from _base(b, tables, row)
    if b.judged:
        yield from _plates(b, tables)
        yield from _bolts(b, tables)


def _worked(value: float, unit: str = "mm") -> Fact:
    return Fact(value, unit, "estimate", "derived", OUT_OF, "")


def _reach(b: Setback, tables: Catalogue, engine_mass: float) -> Found:
    """How far aft and up it carries the engine, and its own weight."""
    s = given_or(b.distance, "mm", "setback, board to the engine's bracket face, level", TAPE,
                 of_factor(tables, "setback.reach_mm"))  # fmt: skip
    yield "bracket.setback", s
    yield "bracket.height", given_or(b.height, "mm", "engine plate's top edge above the board's", "level and tape",
                                     of_factor(tables, "setback.height_mm"))  # fmt: skip
    share = of_factor(tables, "setback.mass_share")
    usual = replace(share, value=share.value * engine_mass)
    yield "bracket.weight", given_or(b.mass, "kg", "weight of the setback bracket", "bathroom scale", usual)
    # Where its weight helps, one that nobody weighed does not count.
    light = 0.0 if b.mass is None else b.mass * tables.factor("weight.light_share").value
    yield "bracket.weight_light", (
        Fact(0.0, "kg", "convention", "derived", "not weighed: none where it helps", "bracket's weight where it helps")
        if b.mass is None else stated(light, "kg", "bracket's weight where it helps")
    )  # fmt: skip
    yield "bracket.gravity.aft", given_or(
        b.gravity_aft, "mm", "bracket's center of gravity aft of the board", "balance it on a bar",
        _worked(s.value * tables.factor("setback.gravity_share").value),
    )  # fmt: skip
    yield "bracket.gravity.up", given_or(
        b.gravity_up, "mm", "bracket's center of gravity above the top edge", "",
        _worked(-(b.base.height or tables.factor("setback.base_height_mm").value) / 2),
    )  # fmt: skip


def _base(b: Setback, tables: Catalogue, row: Any) -> Found:
    """The plate on the board and the holes through it."""
    base, key = b.base, "bracket.base"
    found = (base.upper_holes, base.lower_holes, base.rows_apart, base.top_to_upper)
    if not row.bolted and any(v is None for v in found):
        raise JobError(
            "[bracket.base] upper_holes, lower_holes, rows_apart, top_to_upper: not all measured, and below 30 hp no"
            " pattern is usual; measure the four"
        )
    usual = tuple(v or 0.0 for v in found)
    if row.bolted:
        usual = (row.upper_apart_mm, row.lower_apart_mm, row.lower_down_mm - row.upper_down_mm, row.upper_down_mm)
    for name, value, default, says in zip(
        ("upper_holes", "lower_holes", "rows_apart", "top_to_upper"), found, usual,
        ("setback bracket's upper holes in the board", "its lower holes", "between those rows",
         "board's top edge to the upper of them"), strict=True,
    ):  # fmt: skip
        yield f"{key}.{name}", given_or(value, "mm", says, TAPE, of_row(row, default))
    for name, value, says, measure in (
        ("thickness", base.thickness, "thickness of its base plate", "caliper"),
        ("height", base.height, "base plate, up and down", TAPE),
        ("top", base.top, "board's top edge down to the base plate", TAPE),
    ):
        yield f"{key}.{name}", given_or(value, "mm", says, measure, of_factor(tables, f"setback.base_{name}_mm"))
    widest = max(base.upper_holes or usual[0], base.lower_holes or usual[1])
    beside = 2 * tables.factor("setback.beside_hole_mm").value
    yield f"{key}.width", given_or(base.width, "mm", "base plate, across", TAPE, _worked(widest + beside))
    yield from _bearing(b, tables, row)


def _bearing(b: Setback, tables: Catalogue, row: Any) -> Found:
    """What bears on the board: of plates, what lies under the side plates, else as an engine's own bracket does."""
    if b.judged:
        return
    for name, value, default, says in (
        ("pads_apart", b.base.pads_apart, 2 * row.pad_y_mm, "what bears on the board, middle to middle"),
        ("pad_width", b.base.pad_width, row.pad_width_mm, "how wide each bears"),
    ):
        yield f"bracket.base.{name}", given_or(value, "mm", says, TAPE, of_row(row, default))


def _plates(b: Setback, tables: Catalogue) -> Found:
    """Side plates, engine plate, welds and metal."""
    p, e = b.side_plates, b.engine_plate
    count = None if p.count is None else float(p.count)
    yield "bracket.sides.count", given_or(count, "", "side plates", "", of_factor(tables, "setback.sides"))
    for name, value, says, measure in (
        ("thickness", p.thickness, "side plates, thickness", "caliper"),
        ("apart", p.apart, "outer side plates, middle to middle", TAPE),
        ("depth", p.depth, "side plates, top to bottom at the base", TAPE),
        ("engine_depth", p.engine_depth, "side plates, top to bottom at the engine plate", TAPE),
    ):
        usual = of_factor(tables, f"setback.sides_{name.removeprefix('engine_')}_mm")
        yield f"bracket.sides.{name}", given_or(value, "mm", says, measure, usual)
    middle = "in the middle of its plate's height"
    for name, value, plate in (("top", p.top, b.base.height), ("engine_top", p.engine_top, e.height)):
        height = plate or tables.factor("setback.base_height_mm").value
        depth = (p.depth if name == "top" else p.engine_depth) or tables.factor("setback.sides_depth_mm").value
        above = (b.base.top or 0.0) if name == "top" else 0.0
        usual = Fact(above + (height - depth) / 2, "mm", "estimate", "derived", middle, "")
        yield f"bracket.sides.{name}", given_or(value, "mm", f"side plates, {name.replace('_', ' ')}", TAPE, usual)
    yield from _gusset(b, tables)
    yield from _engine_plate(b, tables)
    yield from _welds(b, tables)
    yield from _metal(b, tables)


def _gusset(b: Setback, tables: Catalogue) -> Found:
    """The level plate between the side plates, where there is one."""
    g = b.gusset
    if g is None:
        return
    for name, value, usual, says, measure in (
        ("thickness", g.thickness, "setback.sides_thickness_mm", "gusset, thickness", "caliper"),
        ("down", g.down, "setback.base_top_mm", "board's top edge down to the gusset", TAPE),
        ("leg", g.leg, "setback.leg_mm", "gusset's fillets, leg", GAUGE),
    ):
        yield f"bracket.gusset.{name}", given_or(value, "mm", says, measure, of_factor(tables, usual))


def _engine_plate(b: Setback, tables: Catalogue) -> Found:
    e = b.engine_plate
    for name, value, usual in (
        ("thickness", e.thickness, "setback.sides_thickness_mm"), ("height", e.height, "setback.base_height_mm"),
    ):  # fmt: skip
        yield (
            f"bracket.engine_plate.{name}",
            given_or(value, "mm", f"engine plate, {name}", TAPE, of_factor(tables, usual)),
        )

    if e.width is not None:
        yield "bracket.engine_plate.width", stated(e.width, "mm", "engine plate, across")


def _welds(b: Setback, tables: Catalogue) -> Found:
    for name, weld, says in (("base", b.base_weld, "base"), ("engine", b.engine_weld, "engine plate")):
        yield f"bracket.weld.{name}.leg", given_or(
            weld.leg, "mm", f"fillets, side plates to {says}, leg", GAUGE, of_factor(tables, "setback.leg_mm")
        )  # fmt: skip
        sides = {"both": 2.0, "one": 1.0, None: None}[weld.sides]
        yield f"bracket.weld.{name}.sides", given_or(
            sides, "", f"faces welded, side plates to {says}", "look", of_factor(tables, "setback.weld_sides")
        )  # fmt: skip


def _metal(b: Setback, tables: Catalogue) -> Found:
    """Plate strengths, and the lowest listed ones beside a weld, of its alloy and filler or of any."""
    usual = tables.factor("setback.sides_thickness_mm").value
    base = b.base.thickness or tables.factor("setback.base_thickness_mm").value
    made = [base, b.side_plates.thickness or usual, b.engine_plate.thickness or usual]
    plates = [p for p in tables.rows("plates") if p.kind == "aluminium"]
    welded = [w for w in tables.rows("plates_welded") if w.basis != "typical"]
    named = [p for p in plates if p.name == b.alloy] and [w for w in welded if w.alloy == b.alloy]
    known = bool(named)
    if known:
        plates, welded = [p for p in plates if p.name == b.alloy], [w for w in welded if w.alloy == b.alloy]
    fillers = {w.filler for w in welded}
    wired = [w for w in welded if w.filler in (b.filler, "any")] if b.filler in fillers else welded
    inside = [w for w in wired if w.thickness_min_mm <= max(made) and w.thickness_max_mm >= min(made)] or wired
    sold = [p for p in plates if p.thickness_min_mm <= max(made) and p.thickness_max_mm >= min(made)] or plates
    yield from _base_metal(sold, known, "" if known else "stamp, drawing or builder")
    yield from _beside_weld(inside, known and (b.filler in fillers or fillers == {"any"}), b)


def _base_metal(plates: list[Plate], known: bool, measure: str) -> Found:
    low = min(plates, key=lambda p: (p.Fy_MPa, p.Fu_MPa))
    for key, value, says in (
        ("f_u", low.Fu_MPa, "strength"),
        ("f_y", low.Fy_MPa, "yield"),
        ("E", low.E_MPa, "stiffness"),
    ):
        source = low.source if known else f"lowest listed aluminum, {low.name}: {low.source}"
        evidence, how = ("stated", "read") if known else ("estimate", low.known_by)
        yield f"bracket.metal.{key}", Fact(value, "MPa", evidence, how, source, f"{says} of the bracket's plates",
                                           measure if key == "f_u" else "")  # fmt: skip


def _beside_weld(rows: list[Welded], known: bool, b: Setback) -> Found:
    measure = "" if known else "alloy and wire, from whoever welded it"
    for key, column, says in (
        ("f_u_w", "Fu_w_MPa", "strength"), ("f_y_w", "Fy_w_MPa", "yield"), ("f_s_w", "Fs_w_MPa", "shear strength"),
    ):  # fmt: skip
        low = min(rows, key=lambda w: float(getattr(w, column)))
        wire = b.filler or "any wire"
        source = f"lowest listed, {low.alloy}, {wire}: {low.source}"
        yield f"bracket.metal.{key}", Fact(float(getattr(low, column)), "MPa", low.evidence if known else "estimate",
                                           low.known_by, source, f"{says} beside the bracket's welds",
                                           measure if key == "f_s_w" else "")  # fmt: skip


def _bolts(b: Setback, tables: Catalogue) -> Found:
    """The engine's bolts through the engine plate; their grade is the lowest listed."""
    bolts, key = b.bolts, "bracket.bolts"
    diameter = of_factor(tables, "setback.bolt_mm")
    yield (
        f"{key}.diameter",
        given_or(bolts.diameter, "mm", "bolts of the engine in the engine plate", "caliper", diameter),
    )
    yield f"{key}.f_ub", given_or(None, "MPa", "strength of those bolts", "marks on the heads",
                                  of_factor(tables, "frame.bolt_f_ub_MPa"))  # fmt: skip
    d = bolts.diameter or diameter.value
    for name, value, share in (
        ("washer", bolts.washer, "frame.washer_d"),
        ("washer_t", bolts.washer_t, "frame.washer_t_d"),
    ):
        usual = of_factor(tables, share)
        yield f"{key}.{name}", given_or(value, "mm", "washers under their nuts", "caliper",
                                        replace(usual, value=usual.value * d, unit="mm"))  # fmt: skip
    for name, edge in (("base", b.base.edge), ("engine_plate", b.engine_plate.edge)):
        if edge is not None:
            yield f"bracket.{name}.edge", stated(edge, "mm", f"nearest edge to a hole, {name.replace('_', ' ')}")
