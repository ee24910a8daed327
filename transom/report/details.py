"""`--details`: every check, required thickness, case and fact, with rule, source and evidence."""

import math
from collections.abc import Iterator

import numpy as np

from transom.catalogue import Catalogue
from transom.catalogue.schema import Row
from transom.job.records import Mount
from transom.judge.records import Judgement
from transom.judge.told import facts_told
from transom.quantity import show
from transom.report.amounts import compared, of_key, percent
from transom.report.bracket_bolts import bracket_bolts
from transom.report.height import height_table
from transom.report.holds import boat_holds
from transom.report.maps.plain import plain_map
from transom.report.text import block, columns, rule
from transom.report.words import EVIDENCE, METHODS, case_words, check_words, name_words, spelled
from transom.result import ONCE, Check


def details(j: Judgement) -> list[str]:
    """Everything behind the answer."""
    parts = (
        checks(j),
        plain_map(j),
        required(j),
        boat_holds(j),
        bracket_bolts(j),
        height_table(j),
        cases(j),
        facts(j),
        provisional(j),
    )
    return [line for part in parts for line in part]


def checks(j: Judgement) -> Iterator[str]:
    """The worst case of each check: two numbers, share of the limit, rule, evidence; second opinions last."""
    if not j.checks:
        return
    yield rule("=")
    beside = {_key(c): c for c in _opinions(j)}
    yield " CHECKS, each in its worst case; loads with their safety factors in"
    for c in j.worst:
        yield from _check(j, c, beside.get(_key(c)))
    opinions = [c for c in _opinions(j) if not _decides(j, c)]
    if opinions:
        yield " FOR INFORMATION, decides nothing here"
        for c in opinions:
            yield from _check(j, c)


def _opinions(j: Judgement) -> tuple[Check, ...]:
    worst: dict[tuple[str, str, str], Check] = {}
    for c in (c for c in j.checks if c.information):
        key = _key(c)
        if key not in worst or c.utilisation > worst[key].utilisation:
            worst[key] = c
    return tuple(worst.values())


def _key(c: Check) -> tuple[str, str, str]:
    """A check whichever method it is by."""
    return (c.part, c.what, c.rule)


def _decides(j: Judgement, c: Check) -> bool:
    """True where the other method's word on the same check decides."""
    return any(_key(c) == _key(d) for d in j.worst)


def _against(c: Check, pencil: Check | None) -> str:
    """The pencil method's share of the limit beside the careful one's, and how many times as much."""
    if pencil is None or pencil.method == c.method:
        return ""
    times = pencil.utilisation / c.utilisation if c.utilisation > 0 else math.inf
    much = f", {times:.2f} times as much" if math.isfinite(times) else ""
    return f"; {METHODS[pencil.method]} {percent(pencil.utilisation)}{much}"


def _check(j: Judgement, c: Check, pencil: Check | None = None) -> Iterator[str]:
    units = j.job.head.units
    when = case_words(c.case, j.job.cases)
    provisional = ", known from memory: provisional" if c.known_by == "memory" else ""
    yield from columns(
        [
            (
                percent(c.utilisation) + ("" if c.passes else " FAILS"),
                spelled(check_words(c, j.job), units),
                compared(c, units),
            )
        ],
        (13, 34, 31),
    )
    how = "" if c.case == ONCE else f", {METHODS.get(c.method, c.method)}{_against(c, pencil)}"
    by = f"{c.source} ({EVIDENCE[c.evidence]}{provisional}){how}"
    note = f"; {c.note}" if c.note else ""
    yield from block("", f"{when}; {by}{note}" if when else f"{by}{note}", at=13)


def required(j: Judgement) -> Iterator[str]:
    """Thickness of wood each check asks for, all else as picked."""
    if j.sizing is None or not j.sizing.required:
        return
    yield rule("=")
    units = j.job.head.units
    yield from block("", f"WOOD ASKED FOR BY EACH CHECK, laid up as picked; this board has"
                     f" {show.length(j.wood, units, towards='down')}", at=0)  # fmt: skip
    for r in j.sizing.required:
        text = (
            show.length(r.thickness, units, towards="up")
            if math.isfinite(r.thickness)
            else "fails again when very thick"
        )
        yield from columns([(name_words(r.check, j.job), text)], (46, 32))
    yield f"   {j.sizing.candidates} mounts were on the shelf, ranked by {j.sizing.rank}."


def cases(j: Judgement) -> Iterator[str]:
    """The heaviest variant of each situation as a wrench about the middle of the top edge, without factors."""
    yield rule("=")
    yield from block(
        "",
        f"LOADS, no safety factor in, on the mount about the middle of the top edge, aft face; {len(j.cases)} cases in all,"
        " the one with the largest moment of each situation here (--json has every one)",
        at=0,
    )
    units = j.job.head.units
    head = ("situation", "aft", "starboard", "up", "moment, top aft", "factor")
    rows: list[tuple[str, ...]] = [head]
    wrench = j.cases.wrench.reshape(-1, 6)
    for of in dict.fromkeys(j.cases.of):
        mine = [i for i, name in enumerate(j.cases.of) if name == of]
        i = max(mine, key=lambda k: abs(float(wrench[k, 4])))
        along = [show.force(float(v), units) for v in wrench[i, :3]]
        rows.append((case_words(j.cases.names[i], j.job.cases), *along, show.moment(float(wrench[i, 4]), units),
                     f"{float(np.ravel(j.cases.factor)[i]):g}"))  # fmt: skip
    yield from columns(rows, (23, 11, 11, 11, 15, 7))


def facts(j: Judgement) -> Iterator[str]:
    """Every number the answer rests on, what was used, and where it comes from."""
    yield rule("=")
    yield " WHAT THE ANSWER RESTS ON"
    units = j.job.head.units
    sources: dict[str, int] = {}
    rows = [("", "used", "evidence")]
    for key, fact in facts_told(j).items():
        mark = "" if fact.evidence == "stated" else f" [{sources.setdefault(fact.source, len(sources) + 1)}]"
        memory = ", memory" if fact.known_by == "memory" else ""
        shown = of_key(key, fact.value, fact.unit, units)
        rows.append((spelled(fact.says, units), shown, f"{EVIDENCE[fact.evidence]}{memory}{mark}"))
    yield from columns(rows, (42, 12, 24))
    for source, n in sources.items():
        yield from block(f"[{n}]", spelled(source, units), at=5)
    yield from block("", "Factors of the method (thrust, waves, road, safety factors): transom materials factors", at=0)


def provisional(j: Judgement) -> Iterator[str]:
    """What of this is known from memory only."""
    units = j.job.head.units
    found = [f"{f.says}: {f.source}" for f in facts_told(j).values() if f.known_by == "memory"]
    found += [f"{check_words(c, j.job)}: {c.source}" for c in j.worst if c.known_by == "memory"]
    if j.mount is not None:
        found += _rows(j.mount, j.setup.tables)
    yield rule("=")
    yield " PROVISIONAL: known from memory, not yet held against its source"
    for text in dict.fromkeys(found):
        yield from block("", f"- {spelled(text, units)}", at=2)
    if not found:
        yield "   nothing"


def _rows(mount: Mount, tables: Catalogue) -> list[str]:
    """Rows of the tables that the mount names, where they rest on memory."""
    sheets = [tables.sheet(layer.sheet) for layer in mount.layers]
    rows: list[Row] = [*sheets, *(tables.panel(s.panel) for s in sheets)]
    b = mount.engine_bolts
    if b is not None:
        rows += [tables.thread(b.thread), tables.grade(b.grade, b.thread), tables.head(b.thread)]
        rows.append(tables.nut(b.thread, "lock"))
        rows += [tables.washer(x.washer) for x in (b.aft, b.forward) if x.washer]
        rows += [tables.plate(x.plate, x.thickness) for x in (b.aft, b.forward) if x.plate]
    return [f"{row.id}: {row.source}" for row in rows if row.known_by == "memory"]
