"""The fabricator's screen: the answer first, then why, what else would do, and what to measure."""

import math
from collections.abc import Iterator, Sequence

from transom.judge.evaluate import trial_of
from transom.judge.records import Judgement, Option
from transom.quantity import show
from transom.report.advice import advice
from transom.report.amounts import percent
from transom.report.cures_by_mount import MountCure
from transom.report.mounts import short_words
from transom.report.page import (
    beyond_brackets,
    fails_line,
    foot,
    good_for,
    head,
    measures,
    stop_lines,
    to_measure,
    weakest,
)
from transom.report.shopping import halves_of, shopping
from transom.report.text import Bars, block, rule
from transom.report.words import check_words, name_words, plural, spelled
from transom.sizing.required import most_wanted, required_thickness


def size_screen(j: Judgement, bars: Bars, cures: Sequence[MountCure] = ()) -> list[str]:
    """The screen of a sized job, line by line."""
    return [*head(j), *headline(j), *(worked(j, bars) if j.mount is not None else missed(j, cures)), *last(j)]


def headline(j: Judgement) -> Iterator[str]:
    """WORKS, DOES NOT WORK or STOP, and the reasons of a stop."""
    count = sum(s.stands for s in j.stops)
    if count:
        strong = (
            "what follows is strong enough"
            if j.mount is not None and not j.failing
            else "and nothing here is strong enough"
        )
        yield from block("", f"STOP - do not build from this: {plural(count, 'reason')}; {strong}", at=0)
    elif not j.passes:
        yield from block("", NO_BOARD if not _bracket_fails(j) else NO_BRACKET, at=0)
    else:
        needed = measures(j)
        if beyond_brackets(j):
            thick = show.length(j.total, j.job.head.units, towards="up")
            yield f" WORKS only if your bracket takes {thick} - measure {plural(needed, 'thing')} first"
        else:
            after = f" - after you measure {plural(needed, 'thing')} (see MEASURE BEFORE YOU CUT)" if needed else ""
            yield f" WORKS{after}"
    yield from stop_lines(j)


NO_BOARD = "DOES NOT WORK - nothing in stock carries this engine on this board"
NO_BRACKET = "DOES NOT WORK - the setback bracket does not carry this engine, whatever board is behind it"


def _bracket_fails(j: Judgement) -> bool:
    """True where the board nearest to working fails for nothing but the setback bracket."""
    miss = j.sizing.nearest_miss if j.sizing else None
    return miss is not None and bool(miss.failing) and all(c.part == "bracket" for c in miss.failing)


def worked(j: Judgement, bars: Bars) -> Iterator[str]:
    """The pick: shopping list, weakest link, thinner and other boards, how far it goes."""
    if j.mount is None:
        return
    yield from shopping(j, j.mount)
    yield rule()
    yield from weakest(j, bars)
    yield from needs(j)
    yield from thinner(j)
    yield from instead(j)
    yield from good_for(j)


def needs(j: Judgement) -> Iterator[str]:
    """The check that wants the thickest board, and how thick."""
    most, units = most_wanted(j.sizing.required if j.sizing else ()), j.job.head.units
    if most is None:
        return
    yield from block(
        "NEEDS",
        f"{show.length(most.thickness, units, towards='up')} of wood laid up like this ({name_words(most.check, j.job)});"
        f" this board has {show.length(j.wood, units, towards='down')}",
    )


def thinner(j: Judgement) -> Iterator[str]:
    """The next thinner board, and why it is not the pick."""
    if j.sizing is None or j.mount is None:
        return
    o = j.sizing.next_thinner
    if o is None:
        yield from block("NEXT THINNER", "nothing thinner in stock that this tool judges", at=14)
        return
    words = short_words(o.mount, j.setup.tables, j.job.head.units, j.mount)
    yield from block("NEXT THINNER", f"{words}: {_why(j, o)}", at=14)


def _why(j: Judgement, o: Option) -> str:
    if o.failing:
        worst = o.failing[0]
        more = f" and {len(o.failing) - 1} more" if len(o.failing) > 1 else ""
        return f"{check_words(worst, j.job)} at {percent(worst.utilisation)}{more}. No."
    mine = halves_of(j)
    if o.halves > mine:
        return (
            f"works too, at {percent(o.weakest.utilisation)}, but takes {plural(o.halves, 'half sheet')}, not {mine}."
        )
    units = j.job.head.units
    heavier = f"{show.mass(o.mass, units)} against {show.mass(j.mass, units)}"
    return f"works too, at {percent(o.weakest.utilisation)}, but is heavier with its plates ({heavier})."


def instead(j: Judgement) -> Iterator[str]:
    """Other boards that would do."""
    if j.sizing is None:
        return
    tables, units = j.setup.tables, j.job.head.units
    told = j.sizing.next_thinner
    others = [o for o in j.sizing.alternatives if told is None or o.mount != told.mount]
    for i, o in enumerate(others):
        text = (
            f"{short_words(o.mount, tables, units, j.mount)}: weakest link {percent(o.weakest.utilisation)},"
            f" {show.length(o.total, units, towards='up')} in all, {plural(o.halves, 'half sheet')}"
        )
        yield from block("INSTEAD" if i == 0 else "", text)


def missed(j: Judgement, cures: Sequence[MountCure]) -> Iterator[str]:
    """Nothing works: the nearest miss, what fails by how much, what would cure it."""
    miss = None if j.sizing is None else j.sizing.nearest_miss
    units = j.job.head.units
    if miss is None:
        yield from block("NEAREST", "none: no sheet, bolt or plate in stock makes a board that this tool judges", at=14)
    else:
        yield from block("NEAREST MISS", short_words(miss.mount, j.setup.tables, units), at=14)
        yield from block("", f"{show.length(miss.total, units, towards='up')} under the bracket;"
                         f" {show.length(miss.wood, units)} of wood", at=14)  # fmt: skip
        for c in miss.failing:
            yield from fails_line(c, j.job)
        yield from wanted(j, miss)
    yield rule()
    yield " WHAT WOULD CURE IT"
    if not cures and not _bracket_fails(j):
        yield from block("", "- tried, and no board comes of it: other stock, a bracket that takes more", at=2)
    for cure in cures:
        yield from block("", f"- {cure.words(units)}", at=2)
    for line in advice(miss.failing if miss else ()):
        yield from block("", f"- {spelled(line, units)}", at=2)


def wanted(j: Judgement, miss: Option) -> Iterator[str]:
    """How thick the nearest miss would have to be."""
    failing = {(c.part, c.what) for c in miss.failing}
    required = required_thickness(trial_of(j.setup, j.cases, [miss.mount]))
    # The pencil's thicknesses speak only of what the plate found failing too.
    for r in (r for r in required if r.check.startswith("board.") and tuple(r.check.split(".")[:2]) in failing):
        if r.thickness <= miss.wood:
            return
        name, units = name_words(r.check, j.job), j.job.head.units
        if math.isfinite(r.thickness):
            wood = show.length(r.thickness, units, towards="up")
            yield from block("NEEDS", f"{wood} of wood laid up like this ({name})")
            return
        yield from block("NEEDS", f"more than wood: no thickness laid up like this will do ({name})")


def last(j: Judgement) -> Iterator[str]:
    """What both the good and the bad news end with."""
    yield from to_measure(j)
    yield from foot(j)
