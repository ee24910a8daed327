"""Derivations and the ledger in the document: every line, folded, within what a phone opens."""

from dataclasses import replace
from functools import cache

import pytest

from tests.report.jobs import drawn
from tests.report.test_html import CELL, tree, words
from transom.judge.records import Judgement
from transom.report.html import derived
from transom.report.html.page import Grounds, grounds, to_html


@cache
def judged() -> Judgement:
    """The example by its weakest link and a check that no load enters alone: derivations take seconds."""
    j = drawn("example")
    return replace(j, checks=(j.governing, next(c for c in j.worst if c.case == "once")))


@cache
def below() -> Grounds:
    """Without the published cases, which fold too and have tests of their own."""
    return replace(grounds(judged()), verified=())


def test_every_line_is_there_and_only_the_weakest_link_stands_open() -> None:
    root = tree(CELL.sub("", to_html(judged(), below=below())))
    folded = list(root.iter("details"))
    assert [e.get("open") is not None for e in folded] == [
        d.check.id == judged().governing.id for d in below().derivations
    ]
    assert len(folded) == 2
    for element, d in zip(folded, below().derivations, strict=True):
        lines = [words(e) for e in element.iter("code")]
        assert lines == [" ".join(line.text.split()) for line in d.lines]
        says = [words(e) for e in element.iter("small")]
        assert all(line.source.split()[0] in said for line, said in zip(d.lines, says, strict=True))


def test_evidence_is_counted_and_what_rests_on_memory_is_listed() -> None:
    text = to_html(judged(), below=below())
    counts = {row[0]: row[1:] for row in derived.counts(below().ledger)}
    for kind in ("number", "formula", "check"):
        total = sum(int(cell.split()[0]) for cell in counts[f"{kind}s"])
        assert total == len(below().ledger.of(kind))
    assert "Provisional: from memory" in text
    listed = derived.provisional(judged(), below().ledger)
    assert {says for says, _ in listed} == {says for says, _ in listed if says}
    assert len(listed) <= len(below().ledger.memory)


def test_what_there_is_no_room_for_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(derived, "MOST", 100)
    shown, left = derived.steps(judged(), below().derivations)
    assert shown == ()
    assert len(left) == 2
    assert all("% of limit" in title for title in left)
