"""What every page says: which paper, DRAFT and why, DOES NOT PASS and why, stops taken on, cautions."""

from collections.abc import Iterator

from transom import __version__
from transom.drawing.records import Identity
from transom.judge.judging import REQUIRED, left_open
from transom.judge.notes import doubts
from transom.judge.records import Judgement
from transom.report.amounts import percent
from transom.report.text import clean
from transom.report.words import check_words, spelled

HOLE_KEYS = ("upper_holes", "lower_holes", "rows_apart", "top_to_upper")


def identity(j: Judgement) -> Identity:
    """The identity of what is made from a judgement."""
    head, units = j.job.head, j.job.head.units
    return Identity(
        name=clean(head.name),
        number=clean(head.number),
        revision=clean(head.revision),
        date=head.date.isoformat() if head.date else "no date",
        paper=j.paper,
        draft=tuple(spelled(s, units) for s in draft_reasons(j)),
        fails=tuple(spelled(s, units) for s in failures(j)),
        accepted=tuple(clean(f"{s.name}: accepted by {s.accepted}") for s in j.stops if not s.stands),
        cautions=tuple(spelled(clean(s), units) for s in j.cautions),
        units=units,
        tool=f"transom {__version__}",
        sha256=j.job.sha256,
    )


def draft_reasons(j: Judgement) -> Iterator[str]:
    """What decides and was not measured, for strength or for where things go."""
    listed = [a.key for a in j.to_measure]
    for key in (k for k in REQUIRED if k in j.job.unmeasured and k not in listed):
        yield j.facts[key].says if key in j.facts else "what holds the board"
    yield from (says for says, _ in left_open(j.job))
    yield from doubts(j.job, j.facts, j.setup.tables)
    yield from (a.says for a in j.to_measure)
    if j.job.engine.takes is None and j.setup.bracket is None:
        yield "thickness the bracket takes"
    if holes_assumed(j):
        yield "the bracket's bolt holes"


def assumed_places(j: Judgement) -> frozenset[str]:
    """Facts that say where something goes and were not stated."""
    return frozenset(
        key
        for key, fact in j.facts.items()
        if key.startswith(("engine.bracket.", "engine.clamps.", "bracket.base.")) and fact.evidence != "stated"
    )


def on_board(j: Judgement) -> str:
    """Where the facts of what is bolted to the board stand: the engine's bracket, or a setback bracket's base plate."""
    return "engine.bracket" if j.setup.bracket is None else "bracket.base"


def holes_assumed(j: Judgement) -> bool:
    """True where bolts hold it and their pattern was not measured whole."""
    found = assumed_places(j)
    return j.setup.holding.by == "bolts" and any(f"{on_board(j)}.{k}" in found for k in HOLE_KEYS)


def failures(j: Judgement) -> Iterator[str]:
    """Stops that stand, then the checks that fail, weakest first."""
    yield from (f"STOP {s.name}: {clean(s.says)}" for s in j.stops if s.stands)
    yield from (f"{check_words(c, j.job)}, {percent(c.utilisation)} of limit" for c in j.failing)
    if not j.deciding:
        yield "nothing was checked"
