"""Derivations and the evidence ledger for the document: rows of words."""

from collections.abc import Iterator, Sequence

from transom.derivation.ledger import CHECK, FORMULA, NUMBER, Ledger
from transom.derivation.lines import Derivation, Line
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.report.amounts import percent
from transom.report.words import EVIDENCE, case_words, check_words, spelled

MOST = 900_000  # characters of derivations that a document takes, so that a phone opens it
EACH = 60  # characters of markup about a line
KINDS = ((NUMBER, "numbers"), (FORMULA, "formulas"), (CHECK, "checks"))


@dataclass(frozen=True)
class Steps:
    """The lines of one check: number, the line itself, the plain sentence with its source."""

    title: str
    opened: bool
    lines: tuple[tuple[int, str, str], ...]


def steps(j: Judgement, derivations: Sequence[Derivation]) -> tuple[tuple[Steps, ...], tuple[str, ...]]:
    """As many derivations as there is room for, weakest first, the weakest link's open; and the titles of the rest."""
    shown: list[Steps] = []
    left: list[str] = []
    room = MOST
    for d in derivations:
        found = Steps(_title(j, d), d.check.id == j.governing.id, tuple((x.number, x.text, _says(x)) for x in d.lines))
        room -= sum(len(text) + len(says) + EACH for _, text, says in found.lines)
        if room < 0:
            left.append(found.title)
        else:
            shown.append(found)
    return tuple(shown), tuple(left)


def _title(j: Judgement, d: Derivation) -> str:
    when = case_words(d.check.case, j.job.cases)
    words = spelled(check_words(d.check, j.job), j.job.head.units)
    return f"{words}: {percent(d.check.utilisation)} of limit" + (f", {when}" if when else "")


def _says(line: Line) -> str:
    memory = ", from memory: provisional" if line.provisional else ""
    return f"{line.says} ({line.source}; {EVIDENCE[line.evidence]}{memory})"


def counts(found: Ledger) -> Iterator[tuple[str, ...]]:
    """How much rests on what, the weakest link's share behind each: kind, then a cell for each kind of evidence."""
    for kind, words in KINDS:
        whole, weakest = found.counts(kind), found.counts(kind, weakest=True)
        yield words, *(f"{whole.get(e, 0)} ({weakest.get(e, 0)})" for e in EVIDENCE)


def provisional(j: Judgement, found: Ledger) -> tuple[tuple[str, str], ...]:
    """What is known from memory, and the source it has yet to be held against."""
    units = j.job.head.units
    return tuple(dict.fromkeys((spelled(e.says, units), spelled(e.source, units)) for e in found.memory))
