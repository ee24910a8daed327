"""A number is the user's only where a job or a mount under review states it."""

from dataclasses import replace

from tests.report.jobs import job, reviewed, sized
from transom.derivation.ledger import ledger
from transom.judge.judging import judge
from transom.judge.told import CHOSEN, facts_told

SIZES = ("frame.bolts.diameter", "frame.bolts.count", "frame.bolts.washer", "frame.bolts.doubler")


def test_bolts_that_the_tool_chose_are_its_choice_and_nobodys_statement() -> None:
    j = sized("clamps")
    assert j.job.frame.bolts is None
    told = facts_told(j)
    for key in SIZES:
        assert j.facts[key].evidence == "stated"  # the checks take them as settled
        assert (told[key].evidence, told[key].source, told[key].measure) == ("convention", CHOSEN, "")
        assert told[key].value == j.facts[key].value
    others = {k: f for k, f in told.items() if not k.startswith("frame.bolts.")}
    assert others == {k: f for k, f in j.facts.items() if not k.startswith("frame.bolts.")}


def test_bolts_of_a_mount_under_review_and_bolts_that_are_kept_are_the_users() -> None:
    told = facts_told(reviewed("clamps"))
    assert reviewed("clamps").mount.frame_bolts is not None  # type: ignore[union-attr]
    assert {told[key].evidence for key in SIZES} == {"stated"}
    told = facts_told(sized("example"))
    assert job("example").frame.bolts.keep  # type: ignore[union-attr]
    assert [told[key].evidence for key in SIZES] == ["stated", "stated", "convention", "convention"]


def test_old_bolts_that_nobody_counted_are_assumed() -> None:
    """As found they are judged at the usual number, which nobody gave."""
    j = sized("example")
    kept = replace(j.job.frame.bolts, count=None)  # type: ignore[type-var]
    assert j.mount is not None
    uncounted = replace(j.job, frame=replace(j.job.frame, bolts=kept))
    found = judge(uncounted, j.setup.tables, replace(j.mount, frame_bolts=None), careful=False)
    assert found.facts["frame.bolts.count"].evidence == "stated"
    assert facts_told(found)["frame.bolts.count"].evidence == "estimate"


def test_the_ledger_tells_them_so_too() -> None:
    told = {e.name: e.evidence for e in ledger(sized("clamps")).of("number", False)}
    assert told["frame.bolts.count"] == "convention"
    assert told["board.width"] == "stated"
