"""What holds the board and what the pod hangs from, as facts: stated, chosen by the tool, or assumed."""

from collections.abc import Iterator
from dataclasses import replace

from transom.catalogue import Catalogue
from transom.catalogue.metal import Welded
from transom.errors import JobError
from transom.job.records import FrameBolts, Job
from transom.setup.given import given_or, of_factor, stated
from transom.setup.records import Fact
from transom.standards.ec9 import heat_affected_reach

Found = Iterator[tuple[str, Fact]]


def frame(job: Job, tables: Catalogue, power: float | None) -> Found:
    """The flange, and the bolts from board to frame."""
    f = job.frame
    thickness = _left(f.flange_thickness, f.flange_left)
    yield "frame.flange.thickness", given_or(
        thickness, "mm", "metal of the flange", "caliper at an edge or a hole; pitted, what is left",
        of_factor(tables, "frame.flange_thickness_mm"),
    )  # fmt: skip
    yield from _flange_metal(job, tables, thickness)
    count = _usual_count(job, tables)
    yield from _bolts(tables, "frame.bolts", f.bolts or FrameBolts(), count, "from board to frame")


def _left(thickness: float | None, left: float | None) -> float | None:
    """What is left of pitted metal counts, never more than there was."""
    found = [t for t in (thickness, left) if t is not None]
    return min(found) if found else None


def weld_reach(thickness: float | None, tables: Catalogue) -> float:
    """How far from a weld the metal is weakened, mm: the larger of two rules."""
    return max(float(heat_affected_reach(thickness or THICKEST)), tables.factor("haz.inch_mm").value)


THICKEST = 25.0  # mm; the widest strip of the rule, where the metal was not measured


def _flange_metal(job: Job, tables: Catalogue, thickness: float | None) -> Found:
    """The metal itself where no weld lies near, else the lowest listed beside a weld."""
    f = job.frame
    if f.flange_weld is not None and f.flange_weld > weld_reach(thickness, tables):
        yield from _metal(tables, "frame.flange", f.flange_alloy, thickness, "flange")
        return
    row = _welded(tables, f.flange_alloy, thickness)
    if row is None:  # steel, laminate: no softer strip is listed, and none is assumed
        yield from _metal(tables, "frame.flange", f.flange_alloy, thickness, "flange")
        return
    sure = f.flange_weld is not None and f.flange_alloy is not None
    where = "weld stated near" if f.flange_weld is not None else "weld taken as near"
    source = f"beside a weld, lowest listed, {row.alloy} ({where}): {row.source}"
    evidence, look = (row.evidence, "") if sure else ("estimate", "tape: nearest weld to bolts and corner")
    says = "of the flange beside a weld"
    yield "frame.flange.f_u", Fact(row.Fu_w_MPa, "MPa", evidence, row.known_by, source, f"strength {says}", look)
    yield "frame.flange.f_y", Fact(row.Fy_w_MPa, "MPa", evidence, row.known_by, source, f"yield {says}")


def _welded(tables: Catalogue, alloy: str | None, thickness: float | None) -> Welded | None:
    """Lowest listed beside a weld: of the alloy, else of any; None for what is no aluminum."""
    known = {p.name: p.kind for p in tables.rows("plates")}
    if known.get(alloy or "", "aluminium") != "aluminium":
        return None
    rows: list[Welded] = [w for w in tables.rows("plates_welded") if w.alloy == alloy and _covers(w, thickness)]
    rows = rows or list(tables.rows("plates_welded"))
    low = min(rows, key=lambda w: (w.Fy_w_MPa, w.Fu_w_MPa))
    return replace(low, Fu_w_MPa=min(w.Fu_w_MPa for w in rows))


def _covers(row: Welded, thickness: float | None) -> bool:
    return thickness is None or row.thickness_min_mm <= thickness <= row.thickness_max_mm


def _usual_count(job: Job, tables: Catalogue) -> Fact:
    """So many bolts as the usual spacing gives along two sides of the board."""
    spacing = of_factor(tables, "frame.bolt_spacing_mm")
    height = job.board.height or tables.preset(job.boat.kind).height_mm
    count = 2.0 * (height // spacing.value + 1.0)
    return Fact(count, "", spacing.evidence, spacing.known_by, spacing.source, "")


def _metal(tables: Catalogue, key: str, alloy: str | None, thickness: float | None, what: str) -> Found:
    """Strengths of the metal: of its alloy, else the lowest listed of any aluminum."""
    measure = "stamp, drawing or builder"
    if alloy is not None:
        try:
            row = tables.plate(alloy, thickness)
        except JobError:
            row = None
        if row is not None:
            yield f"{key}.f_u", stated(row.Fu_MPa, "MPa", f"strength of the {what}, {alloy}")
            yield f"{key}.f_y", stated(row.Fy_MPa, "MPa", f"yield of the {what}, {alloy}")
            return
    low = min((p for p in tables.rows("plates") if p.kind == "aluminium"), key=lambda p: (p.Fy_MPa, p.Fu_MPa))
    source = f"lowest listed aluminum, {low.name}: {low.source}"
    yield f"{key}.f_u", Fact(low.Fu_MPa, "MPa", "estimate", low.known_by, source, f"strength of the {what}", measure)
    yield f"{key}.f_y", Fact(low.Fy_MPa, "MPa", "estimate", low.known_by, source, f"yield of the {what}")


def _bolts(tables: Catalogue, key: str, b: FrameBolts, count: Fact, where: str) -> Found:
    """Bolts stated, chosen by the tool, or assumed; what is chosen is nothing to measure."""
    look = "" if b.chosen and not b.keep else "caliper"
    diameter = of_factor(tables, "rivet.usual_mm" if b.kind == "blind rivets" else "frame.bolt_mm")
    yield f"{key}.diameter", given_or(b.diameter, "mm", f"bolts {where}", look, diameter)
    stated_count = None if b.count is None else float(b.count)
    yield f"{key}.count", given_or(stated_count, "", f"bolts {where}", look and "count them", count)
    marks = "marks on the heads" if b.keep or not b.chosen else ""
    d = b.diameter or diameter.value
    yield f"{key}.f_ub", given_or(_strength(tables, b.grade, d), "MPa", f"strength of the bolts {where}", marks,
                                  of_factor(tables, "frame.bolt_f_ub_MPa"))  # fmt: skip
    for name, value, share, says in (
        ("washer", b.washer, "frame.washer_d", "washers under the bolts, across"),
        ("washer_t", b.washer_t, "frame.washer_t_d", "washers under the bolts, thickness"),
    ):
        row = of_factor(tables, share)
        usual = Fact(row.value * d, "mm", row.evidence, row.known_by, row.source, "")
        yield f"{key}.{name}", given_or(value, "mm", f"{says}, {where}", "caliper" if value is None else "", usual)
    yield f"{key}.doubler", given_or(b.doubler, "mm", f"angle laid into the flange, {where}", "", diameter)


def _strength(tables: Catalogue, grade: str | None, d: float) -> float | None:
    """Tensile strength of a grade at a diameter, the lowest that the table has for it; None while unknown.

    Raises:
        JobError: the grade is not made in that diameter.
    """
    if grade is None:
        return None
    rows = [g.f_ub_MPa for g in tables.rows("grades") if g.name == grade and g.d_min_mm <= d <= g.d_max_mm]
    if not rows:
        raise JobError(f"bolts of grade {grade} are not listed at {d:g} mm; `transom materials grades` shows the sizes")
    return float(min(rows))


def crossmembers(job: Job, tables: Catalogue, power: float | None) -> Found:
    """Crossmembers and the pod's bolts to them; a pod alone hangs from any."""
    if (job.frame.kind or tables.preset(job.boat.kind).frame) != "pod":
        return
    c = job.crossmembers
    count = float(c.count or len(c.at) or len({round(f, 1) for _, f in c.holes})) or None
    first = min(c.at) if c.at else None
    apart = (max(c.at) - first) / (len(c.at) - 1) if first is not None and len(c.at) > 1 else None
    for name, value, unit, says, measure, factor in (
        ("count", count, "", "crossmembers the pod is bolted to", "count those that bolts go through", "count"),
        ("first", first, "mm", "first crossmember forward of the board", "tape", "first_mm"),
        ("spacing", apart, "mm", "from crossmember to crossmember", "tape", "spacing_mm"),
        ("down", c.down, "mm", "crossmembers below the top edge", "", "down_mm"),
        ("wall", _left(c.wall, c.left), "mm", "crossmember wall", "caliper at an open end or a drain hole", "wall_mm"),
    ):
        yield f"crossmembers.{name}", given_or(value, unit, says, measure, of_factor(tables, f"crossmembers.{factor}"))
    yield from _metal(tables, "crossmembers", c.alloy, _left(c.wall, c.left), "crossmembers")
    yield "pod.mass", given_or(None, "kg", "the pod itself", "bathroom scale", of_factor(tables, "pod.mass_kg"))
    per = of_factor(tables, "crossmembers.per")
    each = count if count is not None else tables.factor("crossmembers.count").value
    usual = Fact(per.value * each, "", per.evidence, per.known_by, per.source, "")
    bolts = c.bolts or FrameBolts()
    if c.holes:
        bolts = replace(bolts, count=len(c.holes))
    yield from _bolts(tables, "crossmembers.bolts", bolts, usual, "from pod to crossmembers")
