"""Cures of a setback bracket: each one told was tried, none larger than the plate it joins."""

from dataclasses import replace

import pytest

from tests.checks.setbacks import job, steps
from tests.checks.shop import MOUNT
from transom.catalogue import SHIPPED
from transom.job.records import Job
from transom.judge.judging import judge
from transom.report.amounts import percent
from transom.report.bracket_cures import tried_on_bracket


def told(of: Job) -> list[str]:
    return list(tried_on_bracket(judge(of, SHIPPED, MOUNT, careful=False)))


@pytest.mark.parametrize("of, words", [
    (job(base_weld__sides="one"), "bracket's welds at the base: both faces of each side plate welded: then "),
    (job(engine_weld__leg=2.0), "bracket's welds at the engine plate: legs of 3/16 in: then "),
    (job(engine_plate__thickness=4.0), "bracket's engine plate bent, upper bolts: an engine plate of "),
    (job(side_plates=replace(steps((130.0, 40.0)), thickness=6.0)), ": side plates of "),
])  # fmt: skip
def test_the_smallest_change_that_works_is_told(of: Job, words: str) -> None:
    (line,) = [x for x in told(of) if words in x][:1]
    assert int(line.rpartition("then ")[2].split()[0]) <= 100


def test_the_share_told_is_that_of_the_mended_bracket() -> None:
    (line,) = told(job(base_weld__sides="one"))
    mended = judge(job(), SHIPPED, MOUNT, careful=False)
    u = max(c.utilisation for c in mended.deciding if c.what == "weld-base")
    assert line.endswith(f"then {percent(u)} of limit")


def test_nothing_is_told_where_no_stocked_size_helps() -> None:
    """Side plates of 2 mm: no leg over 2 mm may be told, and one on either face is not enough."""
    thin = job(side_plates__thickness=2.0, base_weld__sides="one")
    assert not any("welds at the base" in x for x in told(thin))


def test_no_bracket_no_cure() -> None:
    assert told(replace(job(), setback=None)) == []
