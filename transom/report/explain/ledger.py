"""`transom explain --ledger`: how much rests on book, you, shop practice, tool's choice and assumption, row by row."""

from collections.abc import Iterator

from transom.derivation.ledger import CHECK, FORMULA, NUMBER, Entry, Ledger
from transom.judge.records import Judgement
from transom.report.amounts import percent
from transom.report.explain.words import TABLE_UNITS
from transom.report.page import careful, head
from transom.report.text import block, clean, columns, rule
from transom.report.words import EVIDENCE, check_words, spelled

KINDS = ((NUMBER, "numbers"), (FORMULA, "formulas"), (CHECK, "checks"))
WIDTHS = (20, *(11,) * 5)


def ledger_screen(j: Judgement, found: Ledger) -> list[str]:
    """The screen, line by line."""
    out = [*head(j), " WHAT IT RESTS ON; behind a stroke, how much of it the weakest link rests on"]
    out += [*columns([("", *EVIDENCE.values()), *counted(found)], WIDTHS), *share(found)]
    for kind, words in KINDS:
        out += [rule(), f" {words.upper()}", *rows(j, found, kind)]
    return [*out, rule(), *careful(j)]


def counted(found: Ledger) -> Iterator[tuple[str, ...]]:
    """How many of each kind by evidence, and of those how many the weakest link rests on."""
    for kind, words in KINDS:
        whole, weakest = found.counts(kind), found.counts(kind, weakest=True)
        cells = (f"{whole.get(e, 0)} / {weakest.get(e, 0)}" for e in EVIDENCE)
        yield (f"{sum(whole.values())} {words}", *cells)


def share(found: Ledger) -> Iterator[str]:
    """How much is known from memory only."""
    n, all_ = len(found.memory), len(found.entries)
    weak = sum(e.weakest for e in found.memory)
    yield from block(
        "", f"{n} of all {all_} are known from memory only and so provisional, {weak} of them under the weakest link;"
        " marked m below. A star marks what the weakest link rests on.", at=0,
    )  # fmt: skip


def rows(j: Judgement, found: Ledger, kind: str) -> Iterator[str]:
    """Every row of a kind by evidence: marks, what it is, its value, its source."""
    for evidence, words in EVIDENCE.items():
        mine = [e for e in found.of(kind) if e.evidence == evidence]
        if mine:
            yield f"   {words}"
        for e in mine:
            mark = ("*" if e.weakest else " ") + ("m" if e.known_by == "memory" else " ")
            yield from (
                f"   {mark if not i else '  '} {row.strip()}" for i, row in enumerate(block("", said(j, e), at=6))
            )


def said(j: Judgement, e: Entry) -> str:
    """An entry in words."""
    units = j.job.head.units
    if e.kind == CHECK:
        check = next(c for c in j.worst if c.id == e.name)
        return f"{spelled(check_words(check, j.job), units)}, {percent(check.utilisation)} of limit: {clean(e.source)}"
    value = "" if e.value is None else f" = {e.value:.6g} {TABLE_UNITS.get(e.unit, e.unit)}".rstrip()
    only = ", careful method only" if e.plate else ""
    says = spelled(clean(e.says).rstrip("."), units)
    source = "" if e.evidence == "stated" else f": {spelled(clean(e.source), units)}"
    return f"{says}{value}{only}{source}"
