"""A bracket that does not sit on the board is told in one plain line each, before any plate is solved."""

from dataclasses import replace

import pytest

from tests.checks.shop import JOB, MOUNT
from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.job.records import EngineBracket, Job
from transom.judge.judging import judge


def job(**bracket: float) -> Job:
    return replace(JOB, engine=replace(JOB.engine, bracket=EngineBracket(**bracket)))


@pytest.mark.parametrize(
    ("bracket", "says"),
    [
        (
            {"pads_apart": 750.0},
            r"^\[engine.bracket\] pads: their inner edges are 26.8 in \(680 mm\) apart, so they lie off a board 24 in \(610 mm\)",
        ),
        (
            {"upper_holes": 640.0},
            r"upper holes: 25.2 in \(640 mm\) apart, off a board 24 in \(610 mm\) wide; measure them",
        ),
        (
            {"rows_apart": 420.0},
            r"lower holes: 18.4 in \(468 mm\) below the top edge, off a board 17.7 in \(450 mm\) high",
        ),
    ],
)
def test_what_lies_off_the_board_is_named(bracket: dict[str, float], says: str) -> None:
    with pytest.raises(JobError, match=says) as caught:
        judge(job(**bracket), SHIPPED, MOUNT)
    assert "Rectangle" not in str(caught.value)
    assert "np." not in str(caught.value)


def test_every_fault_is_told_in_one_run() -> None:
    with pytest.raises(JobError) as caught:
        judge(job(pads_apart=750.0, upper_holes=640.0), SHIPPED, MOUNT)
    assert str(caught.value).count("[engine.bracket]") == 2
