"""What the document says, in words and rows, before any markup. Lengths of lists are the judgement's."""

from collections.abc import Iterator, Sequence

from transom import __version__
from transom.frozen import dataclass
from transom.judge.assumptions import nearness
from transom.judge.records import Judgement
from transom.judge.told import facts_told
from transom.report.advice import Cure, advice
from transom.report.amounts import compared, of_key, percent
from transom.report.holds import situation_words
from transom.report.html.signing import Signing, signing
from transom.report.page import boat_words, counted_stops, holds, links, paper_words, sentence, used
from transom.report.parts import Part, not_looked_at, walk
from transom.report.review_screen import pencil_words, rests_words
from transom.report.shopping import holes, items, more
from transom.report.words import EVIDENCE, METHODS, case_words, check_words, plural, spelled
from transom.result import ONCE, Assumption, Check


@dataclass(frozen=True)
class Front:
    """Page one, which stands alone."""

    paper: str
    paper_says: str
    passes: bool
    boat: str
    verdict: str
    weakest: str
    share: float
    fails: tuple[str, ...]
    pencil: str
    unseen: tuple[str, ...]
    standing: tuple[tuple[str, str, bool], ...]  # stop, what it says, final
    signing: Signing
    sha256: str
    shop_sha256: str
    version: str
    rests: str


@dataclass(frozen=True)
class Row:
    """A check in its worst case. `share` is of the limit, not clipped."""

    words: str
    share: float
    percent: str
    passes: bool
    near: bool
    compared: str
    when: str
    by: str
    note: str


def front(j: Judgement) -> Front:
    """Everything on page one but names, dates and papers, which the job has."""
    units = j.job.head.units
    return Front(
        paper=j.paper,
        paper_says=paper_words(j),
        passes=j.passes,
        boat=boat_words(j),
        verdict=verdict(j),
        weakest=sentence(j.governing, j.job),
        share=j.governing.utilisation,
        fails=tuple(f"{check_words(c, j.job)} {percent(c.utilisation)}" for c in j.failing),
        pencil=pencil_words(j),
        unseen=not_looked_at(j),
        standing=tuple((s.name, spelled(s.says, units), s.final) for s in j.stops if s.stands),
        signing=signing(j.job),
        sha256=j.job.sha256,
        shop_sha256=j.job.shop.sha256 if j.job.shop else "",
        version=__version__,
        rests=rests_words(j),
    )


def verdict(j: Judgement) -> str:
    """How many checks fail, how many stops stand, how many parts nobody looked at."""
    count, failed = len(j.worst), len(j.failing)
    checked = f"{failed} of {plural(count, 'check')} fail" if failed else f"All {plural(count, 'check')} pass"
    return f"{checked}. {counted_stops(j).capitalize()}. {plural(len(not_looked_at(j)), 'part')} not looked at."


def parts(j: Judgement) -> tuple[tuple[Part, str], ...]:
    """Every part of the load's path, and by how many checks it was looked at."""
    return tuple((p, plural(len(p.checks), "check") if p.looked_at else "") for p in walk(j))


def failures(j: Judgement, cures: Sequence[Cure]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Each failing check with its numbers, and what can be done about them."""
    units = j.job.head.units
    failing = tuple(
        f"{check_words(c, j.job)}: {compared(c, units)}, {percent(c.utilisation)} of limit{_when(c, j)}"
        for c in j.failing
    )
    return failing, (*(c.words(units) for c in cures), *(spelled(a, units) for a in advice(j.failing)))


def _when(c: Check, j: Judgement) -> str:
    when = case_words(c.case, j.job.cases)
    return f"; {when}" if when else ""


def mount(j: Judgement) -> tuple[tuple[tuple[str, str], ...], tuple[tuple[str, ...], ...]]:
    """The shopping list's labels and words, and the rows of the hole table."""
    if j.mount is None:
        return (), ()
    units = j.job.head.units
    return tuple((label, spelled(words, units)) for label, words in (*items(j, j.mount), *more(j))), holes(j)


def bars(j: Judgement) -> tuple[Row, ...]:
    """The links of the load's path, weakest first."""
    return tuple(row(c, j) for c in links(j))


def checks(j: Judgement) -> tuple[Row, ...]:
    """Every deciding check in its worst case, by part of the path and weakest first in each."""
    return tuple(row(c, j) for p in walk(j) for c in p.checks)


def opinions(j: Judgement) -> tuple[Row, ...]:
    """Every check that decides nothing, in its worst case: the pencil's, the other code's."""
    worst: dict[tuple[str, str, str, str], Check] = {}
    for c in (c for c in j.checks if c.information):
        key = (c.part, c.what, c.rule, c.method)
        if key not in worst or c.utilisation > worst[key].utilisation:
            worst[key] = c
    return tuple(row(c, j) for c in worst.values())


def row(c: Check, j: Judgement) -> Row:
    """A check as a row."""
    memory = ", known from memory: provisional" if c.known_by == "memory" else ""
    how = "" if c.case == ONCE else f", {METHODS.get(c.method, c.method)}"
    units = j.job.head.units
    return Row(
        words=spelled(check_words(c, j.job), units),
        share=c.utilisation,
        percent=percent(c.utilisation),
        passes=c.passes,
        near=c.passes and c.utilisation >= j.job.second_look,
        compared=compared(c, units),
        when=case_words(c.case, j.job.cases) or "no load enters",
        by=spelled(f"{c.source} ({EVIDENCE[c.evidence]}{memory}){how}", units),
        note=c.note,
    )


def matrix(j: Judgement) -> tuple[tuple[str, ...], tuple[tuple[str, tuple[str, ...]], ...]]:
    """Situations across, deciding checks down: each check's worst share of the limit in each situation."""
    of = dict(zip(j.cases.names, j.cases.of, strict=True))
    situations = tuple(dict.fromkeys(j.cases.of))
    worst: dict[tuple[tuple[str, str, str, str], str], float] = {}
    for c in j.deciding:
        if c.case in of:
            key = ((c.part, c.what, c.rule, c.method), of[c.case])
            worst[key] = max(worst.get(key, 0.0), c.utilisation)
    rows = []
    for c in j.worst:
        name = (c.part, c.what, c.rule, c.method)
        shares = tuple(percent(worst[name, s]) if (name, s) in worst else "" for s in situations)
        if any(shares):
            rows.append((check_words(c, j.job), shares))
    return tuple(situation_words(s) for s in situations), tuple(rows)


def facts(j: Judgement) -> Iterator[tuple[str, str, str, str]]:
    """Every number the answer rests on: what it is, what was used, its evidence, where it comes from."""
    units = j.job.head.units
    for key, f in facts_told(j).items():
        memory = ", from memory: provisional" if f.known_by == "memory" else ""
        yield (
            spelled(f.says, units),
            of_key(key, f.value, f.unit, units),
            f"{EVIDENCE[f.evidence]}{memory}",
            spelled(f.source, units),
        )


def assumptions(j: Judgement) -> Iterator[tuple[str, str, str, str, bool]]:
    """What was assumed: what, used, where the answer flips, how to measure it, whether it is to be measured first."""
    units = j.job.head.units

    def order(a: Assumption) -> tuple[bool, float]:
        return a not in j.to_measure, nearness(a)

    for a in sorted(j.assumptions, key=order):
        yield spelled(a.says, units), used(a, units), holds(a, units), spelled(a.measure, units), a in j.to_measure
