"""The shop lead's screen: verdict, weakest link, each failure, what is close, what was not looked at."""

from collections import Counter
from collections.abc import Iterator, Sequence

from transom.judge.records import Judgement
from transom.judge.told import facts_told
from transom.quantity import show
from transom.report.advice import Cure, advice
from transom.report.amounts import percent
from transom.report.chance import first_block
from transom.report.forces import trial_of_mount
from transom.report.page import (
    bar_lines,
    counted_stops,
    fails_line,
    foot,
    head,
    holds,
    links,
    stop_lines,
    to_measure,
    used,
    weakest,
)
from transom.report.parts import not_looked_at
from transom.report.pencil import Pencil, pencil
from transom.report.pencil import sentence as pencil_sentence
from transom.report.shopping import cure_words, shopping
from transom.report.text import Bars, block, columns, rule
from transom.report.words import EVIDENCE, plural, spelled


def review_screen(j: Judgement, bars: Bars, cures: Sequence[Cure] = ()) -> list[str]:
    """The screen of a judged mount, line by line."""
    return [*head(j), *verdict(j), *stop_lines(j), *answer(j, bars, cures), rule(), *_mounted(j), rule(), *grounds(j)]


def verdict(j: Judgement) -> Iterator[str]:
    """Pass or not, counted."""
    yield from block("", verdict_words(j), at=0)


def verdict_words(j: Judgement) -> str:
    """Stop or not, how many checks fail, how many stops stand, how many parts nobody looked at."""
    count, failed, missing = len(j.worst), len(j.failing), len(not_looked_at(j))
    text = f"PASSES {count} of {count}" if not failed else f"DOES NOT PASS {failed} of {count}"
    before = "STOP. " if any(s.stands for s in j.stops) else ""
    return f"{before}{text}. {counted_stops(j).capitalize()}. {plural(missing, 'part')} not looked at."


def answer(j: Judgement, bars: Bars, cures: Sequence[Cure]) -> Iterator[str]:
    """The weakest link, the failures with their cures, what is close, the pencil line."""
    yield from weakest(j, bars, more=0 if j.failing else 3)
    yield from failures(j, cures)
    yield from close(j, bars)
    yield from pencil_line(j)


def failures(j: Judgement, cures: Sequence[Cure]) -> Iterator[str]:
    """Each failing check: carries, may carry, share of the limit, when; then what can be done about it."""
    units = j.job.head.units
    for c in j.failing:
        yield from fails_line(c, j.job)
    if not j.failing:
        return
    lines = [
        *(f"{JOINTS[a.joint]}: {cure_words(a, units)}" for a in j.could_add),
        *(c.words(units) for c in cures),
    ]
    for i, line in enumerate(lines):
        yield from block("CURE" if i == 0 else "", line)
    for line in advice(j.failing):
        yield from block("", f"- {spelled(line, units)}")


JOINTS = {"frame": "board to frame", "crossmembers": "pod to crossmembers"}


def close(j: Judgement, bars: Bars) -> Iterator[str]:
    """What passes but lies above the shop's second-look line."""
    line = j.job.second_look
    near = [c for c in links(j) if c.passes and c.utilisation >= line]
    if not near:
        yield from block("CLOSE", f"nothing that passes is above your second-look line of {percent(line)}")
        return
    yield from block("CLOSE", f"above your second-look line of {percent(line)}:")
    yield from bar_lines(near, bars, j.job)


def pencil_line(j: Judgement) -> Iterator[str]:
    """One line of arithmetic to repeat on a pocket calculator."""
    yield from block("PENCIL", pencil_words(j))


def pencil_words(j: Judgement) -> str:
    """The line, and what the careful method makes of the same bolts."""
    trial = trial_of_mount(j)
    line = None if trial is None else pencil(trial, j.governing.case)
    if line is None:
        return "no bolt pulls in any case: nothing to repeat"
    return pencil_sentence(line, j.job) + _by_plate(j, line)


def _by_plate(j: Judgement, line: Pencil) -> str:
    """What the careful method makes of the same bolts in the same case."""
    if j.careful is None:
        return ""
    tension = j.careful.upper_tension if line.row == "upper" else j.careful.lower_tension
    pull = float(tension[0, j.cases.names.index(line.case)])
    return f" Careful method {show.force(pull, j.job.head.units)}, and that decides."


def _mounted(j: Judgement) -> Iterator[str]:
    """What was judged."""
    if j.mount is not None:
        yield from shopping(j, j.mount)


def grounds(j: Judgement) -> Iterator[str]:
    """What was not looked at, what the answer rests on, what measuring would change."""
    yield " NOT LOOKED AT"
    for words in not_looked_at(j):
        yield from block("", f"- {words}", at=2)
    yield from rests_on(j)
    yield from would_change(j)
    yield from to_measure(j)
    yield from first_block(j)
    yield from foot(j)


def rests_on(j: Judgement) -> Iterator[str]:
    """How many of the numbers and rules are of which evidence, in one line."""
    yield from block("RESTS ON", f"{rests_words(j)} (--details lists them).")


def rests_words(j: Judgement) -> str:
    """Numbers and checks by evidence, and how many are known from memory."""
    told = facts_told(j)
    facts = Counter(EVIDENCE[f.evidence] for f in told.values())
    rules = Counter(EVIDENCE[c.evidence] for c in j.worst)
    memory = sum(f.known_by == "memory" for f in told.values()) + sum(c.known_by == "memory" for c in j.worst)
    return (
        f"{len(told)} numbers ({_counted(facts)}) and {len(j.worst)} checks ({_counted(rules)});"
        f" {memory} of them known from memory, so provisional"
    )


def _counted(found: Counter[str]) -> str:
    return ", ".join(f"{n} {word}" for word, n in found.most_common())


def would_change(j: Judgement) -> Iterator[str]:
    """Every assumption that flips the answer somewhere between half and twice its value."""
    units = j.job.head.units
    rows = [
        (spelled(a.says, units), used(a, units), holds(a, units))
        for a in j.assumptions
        if (a.holds_from is not None or a.holds_to is not None) and a not in j.to_measure
    ]
    if not rows:
        return
    still = "still fails" if j.failing else "still good"
    yield from columns([("MEASURING WOULD CHANGE", "I used", still), *rows], (44, 12, 22))
