"""What the size and the review screens share: heads, stops, weakest link, what to measure, cautions."""

import math
from collections.abc import Iterator, Sequence

from transom.job.records import Job
from transom.judge.judging import REQUIRED, left_open
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import compared, of_key, percent, power, tape
from transom.report.height import height_block
from transom.report.ruler import ruler_check
from transom.report.text import GAP, Bars, block, clean, columns, ends, rule
from transom.report.words import case_words, check_words, plural, spelled
from transom.result import ONCE, Assumption, Check

BAR = 24
SHOWN_STOPS = 3
PAPERS = {
    "QUOTE": "QUOTE: something that decides is still assumed. Good for a price, not for a saw.",
    "CUT": "CUT: what decides is measured.",
    "RECORD": "RECORD: as built.",
}
NO_ROOM = 0.005
ROOM = 1.0 + NO_ROOM
COUNTED = ("engine.propeller.blades",)
SHARES = ("panel.strength", "panel.face_bearing")


def head(j: Judgement) -> list[str]:
    """Job, boat, power, shaft, steering, water, revision and the kind of paper."""
    h = j.job.head
    number = f"JOB {clean(h.number)}" if h.number else "JOB"
    title = GAP.join([f"{number} {clean(h.name) or 'unnamed'}", f"rev {clean(h.revision)}",
                      *([h.date.isoformat()] if h.date else [])])  # fmt: skip
    return [*ends(title, j.paper), *block("", boat_words(j), at=0), rule("=")]


def _hung(j: Judgement) -> str:
    """How the engine hangs, and on what where that is not the board."""
    how = "bolted" if j.job.engine.held_by == "bolts" else "clamped"
    if j.setup.bracket is None:
        return f"{how} on"
    reach = show.length(j.facts["bracket.setback"].value, j.job.head.units, step="1/16", step_mm="1")
    return f"{how} to a setback bracket of {reach}"


def boat_words(j: Judgement) -> str:
    """Boat, power, shaft, steering, how it hangs, water, road."""
    boat, e, units = j.job.boat, j.job.engine, j.job.head.units
    parts = [
        boat.kind,
        power_words(j),
        f"{show.length(j.facts['engine.shaft'].value, units, step='1/16', step_mm='1')} shaft",
        e.steering if e.steering != "wheel" else "wheel",
        _hung(j),
        f"{boat.water} water, {boat.service}",
        "by road" if boat.trailer else "never by road",
    ]
    return spelled(", ".join(parts), units)


def power_words(j: Judgement) -> str:
    """The power judged, and the range that it is the top of."""
    fact, e, units = j.facts["engine.power"], j.job.engine, j.job.head.units
    text = power(fact.value, units)
    if e.power is None:
        return f"{text} (the builder's plate; engine not named)"
    if e.power_low is not None and e.power_low != e.power:
        return f"{text} (top of a range from {power(e.power_low, units)})"
    return text


def stop_lines(j: Judgement) -> Iterator[str]:
    """Why not to build, right under the headline; stops passed over, with who and on what paper."""
    standing = [s for s in j.stops if s.stands]
    for stop in standing[:SHOWN_STOPS]:
        yield from block("", f"- {spelled(stop.says, j.job.head.units)}", at=2)
    if len(standing) > SHOWN_STOPS:
        yield from block("", f"- and {len(standing) - SHOWN_STOPS} more, see STOPS below", at=2)
    for stop in j.stops:
        if not stop.stands:
            yield from block("", f"- STOP PASSED OVER, {stop.name}: accepted by {stop.accepted}", at=2)


def stops(j: Judgement) -> Iterator[str]:
    """Each standing stop by the name that accepts it, and whether it can be accepted."""
    standing = [s for s in j.stops if s.stands]
    if not standing:
        return
    yield " STOPS"
    for s in standing:
        how = "final: nobody can pass it over" if s.final else "can be passed over in [[accept]]: name, date, paper"
        yield from block("", f"{s.name}: {spelled(s.says, j.job.head.units)}. {how[0].upper()}{how[1:]}.", at=3)


def links(j: Judgement) -> tuple[Check, ...]:
    """The checks that are links of the load's path, weakest first: fit and length count where they fail."""
    return tuple(c for c in j.worst if c.case != ONCE or not c.passes)


def sentence(check: Check, job: Job) -> str:
    """A check, its share of the limit and when, in one sentence."""
    when = case_words(check.case, job.cases)
    return f"{check_words(check, job)}, {percent(check.utilisation)} of limit" + (f", {when}" if when else "")


def weakest(j: Judgement, bars: Bars, more: int = 3) -> Iterator[str]:
    """The weakest link in a sentence and the next ones as bars."""
    governing = j.governing
    yield from block("WEAKEST LINK", sentence(governing, j.job), at=14)
    following = [c for c in links(j) if c.id != governing.id][:more]
    yield from bar_lines(following, bars, j.job)


def bar_lines(checks: Sequence[Check], bars: Bars, job: Job) -> Iterator[str]:
    """Checks as bars, 100 % wide, with the case that is worst."""
    for c in checks:
        words = check_words(c, job)[:41].rstrip()
        drawn = bars.draw(c.utilisation, BAR)
        yield f"   {words:<41} {drawn} {percent(c.utilisation):>5}".rstrip()


def unread(j: Judgement) -> tuple[str, ...]:
    """What the board's place hangs on that the job left at "?"."""
    listed = {a.key for a in j.to_measure}
    return tuple(k for k in REQUIRED if k in j.job.unmeasured and k not in listed)


def measure_rows(j: Judgement) -> tuple[tuple[str, str, str], ...]:
    """What to measure before cutting: what it is and how, what was used, where the answer flips."""
    units = j.job.head.units
    rows = [
        (f"{spelled(a.says, units)}" + (f" ({a.measure})" if a.measure else ""), used(a, units), holds(a, units))
        for a in (*_required(j), *j.to_measure)
    ]
    return (*bracket_range(j), *_chosen(j), *rows)


def _chosen(j: Judgement) -> tuple[tuple[str, str, str], ...]:
    """Choices left open, where there is a mount that another answer might not pass."""
    return tuple((says, taken, "if it is so") for says, taken in left_open(j.job)) if j.mount is not None else ()


def still(j: Judgement) -> str:
    """What stays as it is within an assumption's range."""
    return "still good" if j.passes or (j.mount is not None and not j.failing) else "still fails"


def to_measure(j: Judgement) -> Iterator[str]:
    """The same as a list for the screen."""
    rows = measure_rows(j)
    if not rows:
        return
    good = still(j)
    header = ("", "MEASURE BEFORE YOU CUT", "I used", good)
    numbered = [(str(i), *row) for i, row in enumerate(rows, 1)]
    yield from columns([header, *numbered], (3, 41, 12, 22))


def bracket_range(j: Judgement) -> tuple[tuple[str, str, str], ...]:
    """What the bracket takes, where nobody measured it: it may be what decides."""
    if j.job.engine.takes is not None or j.job.setback is not None or j.mount is None:
        return ()
    needed = show.length(j.total, j.job.head.units, towards="up")
    return (("thickness your bracket takes (bracket or engine manual)", "not checked", f"if it takes {needed}"),)


def most_seen(j: Judgement) -> float:
    """The thickest board that manuals seen let an engine of this size clamp on or bolt to, mm."""
    row = j.setup.tables.factor("takes.small_mm" if j.job.engine.held_by == "clamps" else "takes.mid_mm")
    return row.high or row.value


def beyond_brackets(j: Judgement) -> bool:
    """True where nobody measured the bracket and the mount is thicker than any seen takes."""
    return bracket_range(j) != () and j.total > most_seen(j)


def measures(j: Judgement) -> int:
    """How many lines `to_measure` has."""
    return len(bracket_range(j)) + len(_chosen(j)) + len(unread(j)) + len(j.to_measure)


def _required(j: Judgement) -> Iterator[Assumption]:
    """The board's place, where it was not measured; a fact becomes an assumption that says where it holds."""
    found = {a.key: a for a in j.assumptions}
    for key in unread(j):
        fact = j.facts.get(key)
        if key in found:
            yield found[key]
        elif fact is not None:
            yield Assumption(key, fact.value, fact.unit, fact.evidence, fact.known_by, fact.source, None, None,
                             fact.says, fact.measure)  # fmt: skip
        else:
            yield Assumption(key, float("nan"), j.setup.place.kind, "estimate", "memory", "preset by kind of boat",
                             None, None, "what holds the board: pod, uprights or cap rail", "look")  # fmt: skip


def used(a: Assumption, units: str) -> str:
    """What was used in place of a measurement."""
    if a.key == "frame.kind":
        return a.unit
    return "the table" if a.key in SHARES else of_key(a.key, a.value, a.unit, units)


def holds(a: Assumption, units: str) -> str:
    """Between which values the answer stays as it is; a least value rounds up, a greatest one down."""
    if a.key == "frame.kind":
        return "not if it is another"
    ends = (("no less", "down to", a.holds_from, "up"), ("no more", "up to", a.holds_to, "down"))
    said = (_end(a, none, before, end, towards, units) for none, before, end, towards in ends if end is not None)
    return ", ".join(said) or "from half to double"


def _end(a: Assumption, none: str, before: str, end: float, towards: str, units: str) -> str:
    """One end of the range; an end within half a percent of what was used leaves no room worth a number."""
    if a.value and abs(end / a.value - 1.0) < NO_ROOM:
        return none
    if a.key in COUNTED:
        return f"{before} {math.floor(end) if towards == 'down' else math.ceil(end)}"
    return f"{before} {of_key(a.key, end, '%' if a.key in SHARES else a.unit, units, towards)}"


def good_for(j: Judgement) -> Iterator[str]:
    """How far the mount goes, and where the builder's plate ends it."""
    units, plate = j.job.head.units, j.job.boat.plate_power
    if j.good_for is None or j.mount is None or j.failing:
        return
    own = j.facts["engine.power"].value
    more = (
        f"up to {power(j.good_for.power, units, 'down')} with an engine as is usual at that power"
        if j.good_for.power > own * ROOM
        else f"today's {power(own, units)} and no more with an engine as is usual"
    )
    text = f"{more}, or up to {show.mass(j.good_for.mass, units, towards='down')} at today's power, all else as it is."
    if plate is not None:
        text += f" Builder's plate: {power(plate, units)}, stop there."
    else:
        text += f" Builder's plate: {j.job.boat.plate}."
    yield from block("GOOD FOR", text)


def notes(j: Judgement) -> Iterator[str]:
    """What stands beside the answer and decides nothing: the trade's practice, the federal formula."""
    for text in j.notes:
        yield from block("NOTE", spelled(text, j.job.head.units))


def paper(j: Judgement) -> Iterator[str]:
    """What this paper is good for."""
    yield from block("PAPER", paper_words(j))


def paper_words(j: Judgement) -> str:
    """The kind of paper and what it is good for."""
    return PAPERS[j.paper] if j.passes else f"{j.paper}: it does not pass, so nothing is to be cut from it."


def foot(j: Judgement) -> Iterator[str]:
    """What every screen ends with, good news or bad."""
    yield from ruler_check(j)
    yield from height_block(j)
    yield from paper(j)
    yield from notes(j)
    yield from stops(j)
    yield from careful(j)


def fails_line(c: Check, job: Job) -> Iterator[str]:
    """A failing check: carries, may carry, share of the limit, when."""
    when = case_words(c.case, job.cases)
    text = f"{check_words(c, job)}: {compared(c, job.head.units)}, {percent(c.utilisation)} of limit"
    yield from block("FAILS", text + (f"; {when}" if when else ""))


def careful(j: Judgement) -> Iterator[str]:
    """Every caution, those of this job first."""
    yield " CAREFUL"
    for text in j.cautions:
        yield from block("", f"- {spelled(text, j.job.head.units)}", at=2)


def size_words(j: Judgement) -> str:
    """Board's width and height, and whether either was assumed."""
    units = j.job.head.units
    w, h = j.facts["board.width"], j.facts["board.height"]
    text = f"{tape(w.value, units, unit=False)} x {tape(h.value, units, unit=False)} {'in' if units == 'us' else 'mm'}"
    return text + (" (assumed)" if w.assumed or h.assumed else "")


def counted_stops(j: Judgement) -> str:
    """ "1 stop", "no stops"."""
    count = sum(s.stands for s in j.stops)
    return plural(count, "stop") if count else "no stops"
