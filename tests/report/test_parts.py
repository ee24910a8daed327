"""The load's path part by part: every check stands under one part, every other part says why nobody looked."""

from dataclasses import replace

import pytest

from tests.report.jobs import drawn, job
from transom.catalogue import SHIPPED
from transom.job.records import Setback
from transom.judge.judging import without_mount
from transom.judge.records import Judgement
from transom.report.parts import not_looked_at, walk

NONE = ("too large", "silly")  # for which no mount works


def found(name: str) -> Judgement:
    return without_mount(job(name), SHIPPED) if name in NONE else drawn(name)


ALWAYS = (
    "deck, tubes, hull and hidden rot",
    "the engine's own bracket",
    "welds of",
    "years of shaking",
    "the sheets and the glue",
)


@pytest.mark.parametrize("name", ("example", "metric", "clamps", "unread plate"))
def test_every_deciding_check_stands_under_exactly_one_part(name: str) -> None:
    j = found(name)
    under = [c.id for p in walk(j) for c in p.checks]
    assert sorted(under) == sorted(c.id for c in j.worst)


@pytest.mark.parametrize("name", ("example", "clamps", "too large", "silly"))
def test_a_part_without_a_check_says_why_and_is_listed(name: str) -> None:
    j = found(name)
    unseen = [p for p in walk(j) if not p.looked_at]
    assert all(p.why for p in unseen)
    assert not_looked_at(j) == tuple(p.unseen for p in unseen)
    for words in ALWAYS:
        assert any(line.startswith(words) for line in not_looked_at(j)), words


def test_what_the_job_leaves_out_is_listed_and_what_it_measures_is_not() -> None:
    j = found("example")
    bare = replace(j, checks=tuple(c for c in j.checks if c.what != "stretch-at-bolt-up"))
    assert any("torque" in line for line in not_looked_at(bare))
    takes = replace(j, checks=tuple(c for c in j.checks if not c.what.startswith("bracket-")))
    assert any("thickness range: not measured" in line for line in not_looked_at(takes))
    assert not any("thickness range" in line for line in not_looked_at(j))


def test_where_nothing_was_judged_no_part_was_looked_at() -> None:
    assert not any(p.looked_at for p in walk(found("too large")))


def test_a_bracket_between_board_and_engine_is_named() -> None:
    j = found("example")
    built = replace(j, job=replace(job("example"), setback=Setback(300.0, 20.0)))
    assert any("BRACKET NOT CHECKED" in line for line in not_looked_at(built))
