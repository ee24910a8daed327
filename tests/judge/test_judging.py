"""A judgement as a whole: what passes, which paper, what is always said, and the same job the same answer."""

import datetime as dt
import math
from dataclasses import replace
from functools import cache

import pytest

from tests.judge.mounts import JOB, mount
from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.job.records import Accept, EngineBracket, Job, Layer, Mount, ShopCase
from transom.judge.always import ALWAYS
from transom.judge.judging import decide, judge, paper, without_mount
from transom.judge.records import Judgement, weakest
from transom.result import ONCE, Assumption, Check


@cache
def judged(sheets: int = 3, careful: bool = True) -> Judgement:
    return judge(JOB, SHIPPED, mount(sheets, length=107.95 if sheets == 3 else 88.9), careful)


def check(u: float, case: str = "ahead", what: str = "bending", information: bool = False) -> Check:
    return Check("board", what, "ec5", case, "hand", u, 1.0, "MPa", "s", "published", "read", "", information)


@pytest.mark.parametrize("careful", [True, False])
def test_a_mount_passes_only_with_every_deciding_check_at_its_limit_or_under(careful: bool) -> None:
    for sheets in (2, 3):
        j = judged(sheets, careful)
        assert j.passes == all(c.utilisation <= 1.0 for c in j.checks if not c.information)
    assert judged(3, careful).passes
    assert not judged(2, careful).passes


@pytest.mark.parametrize("careful", [True, False])
def test_what_decides_is_what_the_judgement_says(careful: bool) -> None:
    """Asked alone it holds just where nothing fails, and the judgement of what it said is the judgement."""
    for sheets in (2, 3):
        known = decide(JOB, SHIPPED, judged(sheets).mount, careful)
        j = judged(sheets, careful)
        assert known.holds == (not j.failing)
        again = judge(JOB, SHIPPED, judged(sheets).mount, careful, known=known)
        assert again.worst == j.worst
        assert again.assumptions == j.assumptions


def test_no_number_never_passes() -> None:
    j = judged()
    for bad in (math.nan, math.inf, -math.inf):
        for broken in (replace(check(1.0), demand=bad), replace(check(1.0), resistance=bad), check(0.1)):
            row = broken if broken.demand != 0.1 else replace(broken, resistance=0.0)
            assert not row.passes
            assert not replace(j, checks=(*j.checks, row)).passes
    assert replace(j, checks=(*j.checks, replace(check(math.nan), information=True))).passes


def test_nothing_checked_is_nothing_passed() -> None:
    j = judged()
    assert not replace(j, checks=()).passes
    assert not replace(j, checks=tuple(replace(c, information=True) for c in j.checks)).passes
    assert not replace(j, mount=None).passes
    with pytest.raises(ValueError, match="nothing was checked"):
        weakest(())


def test_fit_is_no_link_while_it_fits() -> None:
    fit, link = check(0.99, ONCE, "length"), check(0.4)
    assert weakest((fit, link)) == link
    assert weakest((replace(fit, demand=1.01), link)).what == "length"
    assert weakest((fit,)) == fit


def test_every_check_is_there_in_every_case_once() -> None:
    j = judged()
    ids = [c.id for c in j.checks]
    assert len(set(ids)) == len(ids)
    loaded = {c.name for c in map(_without_case, j.checks)}
    assert len(loaded) >= 20
    cases = set(j.cases.names)
    for what in ("bending", "pad-bearing"):
        assert {c.case for c in j.deciding if c.what == what} == cases


def _without_case(c: Check) -> "Nameless":
    return Nameless(".".join(p for p in (c.part, c.what, c.rule, c.method) if p))


class Nameless(str):
    """A check's id without its case."""

    @property
    def name(self) -> str:
        return str(self)


def test_what_the_plate_decides_the_pencil_stands_beside() -> None:
    """Every check by the plate has its pencil row, for information; nothing is decided twice."""
    j = judged()
    plate = {(c.part, c.what, c.rule, c.case) for c in j.checks if c.method == "plate"}
    beside = {(c.part, c.what, c.rule, c.case) for c in j.checks if c.method == "hand" and c.information}
    assert plate
    assert plate <= beside
    deciding = [(c.part, c.what, c.rule, c.case) for c in j.deciding]
    assert len(set(deciding)) == len(deciding)


def assumption(decides: bool = True) -> Assumption:
    return Assumption("engine.gravity.aft", 220.0, "mm", "estimate", "memory", "s", None, 230.0 if decides else 900.0)


MEASURED = replace(JOB, engine=replace(JOB.engine, takes=(30.0, 70.0)))


@pytest.mark.parametrize(
    "job, decides, passes, says",
    [
        (MEASURED, False, True, "CUT"),
        (MEASURED, True, True, "QUOTE"),
        (MEASURED, False, False, "QUOTE"),
        (JOB, False, True, "QUOTE"),  # what the bracket takes was not measured
        *[(replace(MEASURED, unmeasured=(k,)), False, True, "QUOTE")
          for k in ("board.width", "board.height", "frame.kind", "engine.power")],
        (replace(MEASURED, unmeasured=("engine.torque",)), False, True, "CUT"),
        # Left open, the milder answer is taken: not to be cut on.
        *[(replace(MEASURED, **{field: (k,)}), False, True, "QUOTE")
          for k in ("boat.service", "engine.steering", "board.treatment") for field in ("unmeasured", "left_out")],
    ],
)  # fmt: skip
def test_paper_says_cut_only_of_what_was_measured_and_passes(job: Job, decides: bool, passes: bool, says: str) -> None:
    assert paper(job, (assumption(),) if decides else (), passes) == says


def test_a_standing_stop_keeps_the_paper_from_cutting() -> None:
    stopped = replace(MEASURED, boat=replace(JOB.boat, plate="none", plate_power=None))
    whole = judge(stopped, SHIPPED, mount(3))
    assert [s.name for s in whole.stops] == ["plate-missing"]
    assert not whole.passes
    assert not whole.failing
    assert whole.paper == "QUOTE"
    accept = Accept("plate-missing", "somebody", dt.date(2026, 5, 4), "builder's letter")
    taken = judge(replace(stopped, accepts=(accept,)), SHIPPED, mount(3))
    assert taken.passes
    assert any("builder's letter" in c and "somebody" in c and "2026-05-04" in c for c in taken.cautions)
    assert [c.utilisation for c in taken.checks] == [c.utilisation for c in whole.checks]


@pytest.mark.parametrize(
    "j",
    [judged(3), judged(2), judged(3, False), without_mount(JOB, SHIPPED)],
    ids=["passes", "fails", "pencil", "nothing works"],
)
def test_what_is_always_said_is_always_said(j: Judgement) -> None:
    assert j.cautions[-len(ALWAYS) :] == ALWAYS
    assert len(set(j.cautions)) == len(j.cautions)
    assert any("bracket accepts was not measured" in c for c in j.cautions)


def test_own_cases_and_their_reason_are_said() -> None:
    own = replace(JOB, cases=(ShopCase("beach launch", "ahead", 1.2, "launched on a slope"),))
    j = judge(own, SHIPPED, mount(3), careful=False)
    assert any("beach launch" in c and "launched on a slope" in c for c in j.cautions)
    assert {"beach-launch", "ahead"} <= set(j.cases.names)


@pytest.mark.parametrize("careful", [True, False])
def test_the_same_job_gives_the_same_judgement(careful: bool) -> None:
    again = judge(JOB, SHIPPED, mount(3), careful)
    first = judged(3, careful)
    assert again.checks == first.checks
    assert again.assumptions == first.assumptions
    assert again.cautions == first.cautions
    assert (again.mass, again.total, again.coated, again.torque) == (
        first.mass,
        first.total,
        first.coated,
        first.torque,
    )


@pytest.mark.parametrize(
    "wrong",
    [Mount((Layer("no such sheet", "across"),), mount(3).engine_bolts), Mount((), mount(3).engine_bolts),
     replace(mount(3), engine_bolts=None)],
)  # fmt: skip
def test_a_mount_of_unknown_things_is_refused(wrong: Mount) -> None:
    with pytest.raises(JobError):
        judge(JOB, SHIPPED, wrong)


def test_a_small_engine_with_bolts_and_no_holes_is_refused() -> None:
    small = replace(JOB, engine=replace(JOB.engine, power=9.9 * 745.7, power_low=9.9 * 745.7, bracket=EngineBracket()))
    with pytest.raises(JobError, match="measure the four"):
        judge(small, SHIPPED, mount(3))
