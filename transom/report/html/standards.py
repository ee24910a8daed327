"""Documents by number and what each was used for: from the sources of checks, factors, facts and table rows."""

import re
from collections.abc import Iterator

from transom.catalogue import rows
from transom.judge.records import Judgement
from transom.judge.told import facts_told
from transom.report.words import check_words, spelled

_NAMED = re.compile(
    r"\b(?:EN(?: ISO)? \d{3,5}(?:-\d+)*|ISO \d{3,5}(?:-\d+)*|ASTM [A-Z]\d+|NDS|(?:AWC )?TR12|APA [A-Z]\d+"
    r"|\d+ CFR \d+(?:\.\d+)*|Aluminum Design Manual|AISC Design Guide \d+|MIL-STD-\d+)\b(?P<year>:\d{4}| \(\d{4}\)| (?:19|20)\d\d)?"
)


def used_for(j: Judgement) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Each document with what it was used for, in alphabetical order."""
    uses: dict[str, dict[str, None]] = {}
    editions: dict[str, str] = {}
    for source, use in _sources(j):
        for found in _NAMED.finditer(source):
            year = found["year"] or ""
            name = found[0].removesuffix(year) if year else found[0]
            uses.setdefault(name, {})[use] = None
            editions[name] = max(editions.get(name, ""), year)
    return tuple((f"{name}{editions[name]}", tuple(uses[name])) for name in sorted(uses))


def _sources(j: Judgement) -> Iterator[tuple[str, str]]:
    """Each source with the words for what rests on it."""
    units = j.job.head.units
    for c in j.worst:
        yield c.source, check_words(c, j.job)
    for c in j.checks:
        if c.information and c.method != "hand":
            yield c.source, f"second opinion on {check_words(c, j.job)}"
    for fact in facts_told(j).values():
        yield fact.source, spelled(fact.says, units)
    for row in rows("factors"):
        yield row["source"], spelled(row["says"], units)
    for text in j.notes:
        yield text, "information beside the answer"
