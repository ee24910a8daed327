"""What holds the board and what the pod hangs from, as facts: stated, chosen by the tool, or assumed."""

from collections.abc import Iterator

from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.job.records import FrameBolts, Job
from transom.setup.given import given_or, of_factor, stated
from transom.setup.records import Fact

Found = Iterator[tuple[str, Fact]]


def frame(job: Job, tables: Catalogue, power: float | None) -> Found:
    """The flange, and the bolts from board to frame."""
    f = job.frame
    yield "frame.flange.thickness", given_or(
        f.flange_thickness, "mm", "metal of the flange", "caliper at an edge or a hole; pitted, what is left",
        of_factor(tables, "frame.flange_thickness_mm"),
    )  # fmt: skip
    yield from _metal(tables, "frame.flange", f.flange_alloy, f.flange_thickness, "flange")
    count = _usual_count(job, tables)
    yield from _bolts(tables, "frame.bolts", f.bolts or FrameBolts(), count, "from board to frame")


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
    diameter = of_factor(tables, "frame.bolt_mm")
    yield f"{key}.diameter", given_or(b.diameter, "mm", f"bolts {where}", look, diameter)
    stated_count = None if b.count is None else float(b.count)
    yield f"{key}.count", given_or(stated_count, "", f"bolts {where}", look and "count them", count)
    marks = "marks on the heads" if b.keep or not b.chosen else ""
    yield f"{key}.f_ub", given_or(None, "MPa", f"strength of the bolts {where}", marks,
                                  of_factor(tables, "frame.bolt_f_ub_MPa"))  # fmt: skip
    d = b.diameter or diameter.value
    for name, value, share, says in (
        ("washer", b.washer, "frame.washer_d", "washers under the bolts, across"),
        ("washer_t", b.washer_t, "frame.washer_t_d", "washers under the bolts, thickness"),
    ):
        row = of_factor(tables, share)
        usual = Fact(row.value * d, "mm", row.evidence, row.known_by, row.source, "")
        yield f"{key}.{name}", given_or(value, "mm", f"{says}, {where}", "caliper" if value is None else "", usual)
    yield f"{key}.doubler", given_or(b.doubler, "mm", f"angle laid into the flange, {where}", "", diameter)


def crossmembers(job: Job, tables: Catalogue, power: float | None) -> Found:
    """Crossmembers and the pod's bolts to them; a pod alone hangs from any."""
    if (job.frame.kind or tables.preset(job.boat.kind).frame) != "pod":
        return
    c = job.crossmembers
    count = float(c.count or len(c.at)) or None
    first = min(c.at) if c.at else None
    apart = (max(c.at) - first) / (len(c.at) - 1) if first is not None and len(c.at) > 1 else None
    for name, value, unit, says, measure, factor in (
        ("count", count, "", "crossmembers the pod is bolted to", "count those that bolts go through", "count"),
        ("first", first, "mm", "first crossmember forward of the board", "tape", "first_mm"),
        ("spacing", apart, "mm", "from crossmember to crossmember", "tape", "spacing_mm"),
        ("down", None, "mm", "crossmembers below the top edge", "", "down_mm"),
        ("wall", c.wall, "mm", "crossmember wall", "caliper at an open end or a drain hole", "wall_mm"),
    ):
        yield f"crossmembers.{name}", given_or(value, unit, says, measure, of_factor(tables, f"crossmembers.{factor}"))
    yield from _metal(tables, "crossmembers", None, None, "crossmembers")
    yield "pod.mass", given_or(None, "kg", "the pod itself", "bathroom scale", of_factor(tables, "pod.mass_kg"))
    per = of_factor(tables, "crossmembers.per")
    each = count if count is not None else tables.factor("crossmembers.count").value
    usual = Fact(per.value * each, "", per.evidence, per.known_by, per.source, "")
    yield from _bolts(tables, "crossmembers.bolts", c.bolts or FrameBolts(), usual, "from pod to crossmembers")
