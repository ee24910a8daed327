"""Bolts of frame and pod in a mount under review: judged as found, unless the mount says what is added."""

import json
import math
from dataclasses import replace

import pytest

from tests.checks.shop import JOB, MOUNT
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.job.records import Crossmembers, Frame, FrameBolts, Job
from transom.job.write import with_mount
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.cures_by_mount import joints_alone
from transom.report.judgement import to_json
from transom.report.shopping import frame as frame_lines
from transom.report.shopping import more
from transom.setup.facts import collect

OLD = FrameBolts("3/8 in", 8, True, 9.525)
FRAME = Frame("pod", 38.1, 6.35, "5052-H32", OLD)
KEPT = replace(JOB, frame=FRAME, crossmembers=Crossmembers(4, 4.7625, bolts=OLD))


def parts(j: Judgement) -> set[str]:
    return {c.part for c in j.failing}


@pytest.fixture(scope="module")
def found() -> Judgement:
    return judge(KEPT, SHIPPED, MOUNT, careful=False)


def test_old_bolts_that_are_too_few_fail_and_the_cure_holds(found: Judgement) -> None:
    """Nothing is added in silence: small washers crush the wood, and what would cure it is named, not judged."""
    assert {"frame", "crossmembers"} <= parts(found)
    assert {a.joint for a in found.could_add} == {"frame", "crossmembers"}
    for a in found.could_add:
        assert a.holds
        assert a.washer is not None
    text = " ".join(" ".join(x) for x in frame_lines(found))
    assert "NOT ENOUGH; ADD" in text
    assert ": enough" not in text


def test_size_adds_and_writes_what_review_then_passes(found: Judgement) -> None:
    added = judge(KEPT, SHIPPED, MOUNT, careful=False, add=True)
    assert not parts(added) & {"frame", "crossmembers"}
    assert added.mount is not None
    assert added.mount.frame_bolts is not None
    again = judge(KEPT, SHIPPED, added.mount, careful=False)
    assert [(c.id, c.utilisation) for c in again.checks] == [(c.id, c.utilisation) for c in added.checks]
    assert "as the mount has them" in " ".join(" ".join(x) for x in frame_lines(again))


def test_what_is_added_reads_back_from_the_file() -> None:
    mount = judge(KEPT, SHIPPED, MOUNT, careful=False, add=True).mount
    assert mount is not None
    head = '[boat]\nkind = "pontoon"\nplate_power = "50 hp"\n[engine]\npower = "40 hp"\n[board]\nwidth = "24 in"\n'
    text = with_mount(head + 'height = "18 in"\n[frame]\nkind = "pod"\n', mount)
    assert loads(text).mount == mount


def test_only_bolts_failing_is_cured_by_bolts(found: Judgement) -> None:
    only = replace(found, checks=tuple(c for c in found.checks if c.part in ("frame", "crossmembers")))
    assert joints_alone(only)
    assert not joints_alone(replace(only, could_add=()))
    assert not joints_alone(replace(only, could_add=tuple(replace(a, holds=False) for a in only.could_add)))


def test_new_bolts_are_still_chosen() -> None:
    """What neither the job keeps nor the mount states is the tool's to choose."""
    j = judge(replace(JOB, frame=replace(FRAME, bolts=None)), SHIPPED, MOUNT, careful=False)
    assert all(not a.bolts.keep and a.bolts.chosen for a in j.fasteners)
    assert not parts(j) & {"frame", "crossmembers"}


def test_the_weld_that_is_assumed_is_told_where_it_costs_something() -> None:
    """Of a flange that is bent less is asked than of one that may be welded; a stated weld, near or far, is no guess."""
    thin = replace(KEPT, frame=replace(FRAME, flange_thickness=7.9375))
    j = judge(thin, SHIPPED, MOUNT, careful=False, add=True)
    (frame,) = (a for a in j.fasteners if a.joint == "frame")
    (bare,) = j.unwelded
    assert (bare.doubler, bare.more) < (frame.doubler, frame.more)
    assert dict(more(j))["FLANGE"].startswith("taken as welded near its bolts; no weld within 1-3/16 in? Then ADD")
    for weld in (5.0, math.inf):
        stated = replace(thin, frame=replace(thin.frame, flange_weld=weld))
        assert judge(stated, SHIPPED, MOUNT, careful=False, add=True).unwelded == ()


@pytest.mark.parametrize(("weld", "f_y", "f_u"), [(None, 65.0, 170.0), (20.0, 65.0, 170.0), (25.4, 65.0, 170.0),
                                                  (60.0, 160.0, 215.0), (math.inf, 160.0, 215.0)])  # fmt: skip
def test_metal_beside_a_weld_counts_with_its_lowest_listed_strength(weld: float | None, f_y: float, f_u: float) -> None:
    """5052-H32: 65 and 170 MPa within reach of a weld or where nobody looked, 160 and 215 beyond."""
    facts = collect(replace(KEPT, frame=replace(FRAME, flange_weld=weld)), SHIPPED)
    assert (facts["frame.flange.f_y"].value, facts["frame.flange.f_u"].value) == (f_y, f_u)
    assert (facts["frame.flange.f_y"].evidence == "estimate") is (weld is None)


def test_an_alloy_not_known_takes_the_lowest_beside_a_weld() -> None:
    facts = collect(replace(KEPT, frame=replace(FRAME, flange_alloy=None)), SHIPPED)
    assert facts["frame.flange.f_y"].value == 65.0
    assert facts["frame.flange.f_u"].value == 165.0
    assert facts["frame.flange.f_u"].measure


def test_a_thicker_flange_is_weakened_farther_from_a_weld() -> None:
    """EN 1999-1-1 6.1.6.3: 20, 30, 35 mm; an inch where that is more."""
    for t, weld, f_y in ((6.0, 26.0, 160.0), (6.35, 26.0, 65.0), (6.35, 31.0, 160.0), (15.0, 34.0, 65.0)):
        frame = replace(FRAME, flange_weld=weld, flange_thickness=t)
        assert collect(replace(KEPT, frame=frame), SHIPPED)["frame.flange.f_y"].value == f_y


def test_pitted_metal_counts_what_is_left() -> None:
    job: Job = replace(KEPT, frame=replace(FRAME, flange_left=2.5), crossmembers=Crossmembers(4, 3.2, left=1.8))
    facts = collect(job, SHIPPED)
    assert (facts["frame.flange.thickness"].value, facts["crossmembers.wall"].value) == (2.5, 1.8)
    more = collect(replace(KEPT, frame=replace(FRAME, flange_left=9.0)), SHIPPED)
    assert more["frame.flange.thickness"].value == 6.35


def test_a_grade_is_as_strong_as_its_table_says() -> None:
    bolts = replace(OLD, grade="F593C")
    facts = collect(replace(KEPT, frame=replace(FRAME, bolts=bolts)), SHIPPED)
    assert facts["frame.bolts.f_ub"].value == 689.0


def test_no_weld_at_all_is_none_in_json_too() -> None:
    job = replace(KEPT, frame=replace(FRAME, flange_weld=math.inf))
    value = json.loads(to_json(judge(job, SHIPPED, MOUNT, careful=False)))
    assert value["inputs"]["frame.flange.weld"]["value"] == "none"


def test_json_says_what_fails_and_what_would_hold(found: Judgement) -> None:
    joints = json.loads(to_json(found))["mount"]["frame_fasteners"]
    for joint in ("frame", "crossmembers"):
        assert joints[joint]["holds"] is False
        assert joints[joint]["enough"] is False
        assert joints[joint]["add"] == []
        assert "plate_washers" in joints[joint]["cure"]["add"]
