"""Cures of one failing check: each is judged whole, changes one thing, and can be made."""

from dataclasses import replace
from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.job.read import load
from transom.job.setback_records import BasePlate, Fillet, Setback, SidePlates
from transom.judge.evaluate import key_of
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.cures_by_check import CheckCure, _of_mount, _welds, cures_by_check

EXAMPLES = Path(__file__).parents[2] / "examples"


def found(name: str) -> tuple[Judgement, tuple[CheckCure, ...]]:
    job = load(EXAMPLES / f"{name}.toml")
    assert job.mount is not None
    j = judge(job, SHIPPED, job.mount)
    return j, cures_by_check(j, SHIPPED)


@pytest.fixture(scope="module")
def uprights() -> tuple[Judgement, tuple[CheckCure, ...]]:
    return found("uprights-90hp")


@pytest.fixture(scope="module")
def bracket() -> tuple[Judgement, tuple[CheckCure, ...]]:
    return found("custom-bracket-failing")


def test_other_backing_under_the_same_board(uprights: tuple[Judgement, tuple[CheckCure, ...]]) -> None:
    j, (mend, wood) = uprights
    assert j.mount is not None
    assert mend.after.mount is not None
    assert mend.after.mount.engine_bolts is not None
    assert j.mount.engine_bolts is not None
    assert mend.after.mount.layers == j.mount.layers
    assert mend.after.mount.engine_bolts.forward != j.mount.engine_bolts.forward
    assert mend.cures.what == "plies-sliding-upper-bolts"
    assert [c.what for c in mend.left] == ["plies-sliding-pads"]
    assert mend.words("si").endswith("99 % of limit; 1 other failure left")
    assert wood.cures.what == "plies-sliding-pads"
    assert wood.after.passes
    assert "nothing fails then" in wood.words("si")


def test_more_wood_under_the_same_plate(uprights: tuple[Judgement, tuple[CheckCure, ...]]) -> None:
    """What is tried where no other backing serves."""
    j, _ = uprights
    assert j.mount is not None
    assert j.mount.engine_bolts is not None
    *_, wood = _of_mount(j, j.failing[0], SHIPPED)
    _, job, mount = next(wood)
    assert mount.engine_bolts is not None
    assert mount.engine_bolts.forward == j.mount.engine_bolts.forward
    after = judge(job, SHIPPED, mount)
    assert after.wood > j.wood
    assert after.passes


def test_each_planted_fault_has_a_cure_of_its_own(bracket: tuple[Judgement, tuple[CheckCure, ...]]) -> None:
    """Weld on one side only, and short edge; the pod's bolts are told by what to add."""
    j, told = bracket
    assert {m.cures.what for m in told} == {"weld-base", "engine-plate-edge"}
    for m in told:
        assert all(c.passes for c in m.after.worst if key_of(c) == key_of(m.cures))
        assert {key_of(c) for c in m.after.failing} == {key_of(c) for c in j.failing} - {key_of(m.cures)}
    weld = next(m for m in told if m.cures.what == "weld-base")
    assert weld.after.job.setback is not None
    assert weld.after.job.setback.base_weld.sides == "both"
    assert "both faces" in weld.words("us")


def test_no_leg_over_the_thinner_plate() -> None:
    """Plates of 6 and 8 mm, a leg of 3 on one side: 3 on both sides, then 4, 5, 6, and no more."""
    b = Setback(base=BasePlate(thickness=8.0), side_plates=SidePlates(thickness=6.0), base_weld=Fillet(3.0, "one"))
    legs = [other.base_weld.leg for _, other in _welds(b, True, "si")]
    assert legs == [3.0, 4.0, 5.0, 6.0]
    both = replace(b, base_weld=Fillet(3.0, "both"))
    assert [other.base_weld.leg for _, other in _welds(both, True, "si")] == [4.0, 5.0, 6.0]


def test_what_passes_needs_none(uprights: tuple[Judgement, tuple[CheckCure, ...]]) -> None:
    assert cures_by_check(uprights[1][1].after, SHIPPED) == ()
