"""What the paper says of a setback bracket's welds: hours that look no surer than they are."""

from dataclasses import replace

import pytest

from tests.checks.setbacks import job
from tests.checks.shop import MOUNT
from transom.catalogue import SHIPPED
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.judge.setback_cautions import setback_cautions, two_digits


@pytest.fixture(scope="module")
def j() -> Judgement:
    return judge(job(), SHIPPED, MOUNT, careful=False)


@pytest.mark.parametrize("hours, words", [(1.0, "1"), (9.9, "9"), (99.9, "99"), (123.0, "120"), (27_859.0, "27,000")])
def test_two_digits_rounded_down(hours: float, words: str) -> None:
    assert two_digits(hours) == words


@pytest.mark.parametrize("hours, words", [(27_859.0, "at 1,000 h,"), (437.0, "at 430 h,"), (0.2, "before every trip,"),
                                          (float("nan"), "before every trip,")])  # fmt: skip
def test_first_look(j: Judgement, hours: float, words: str) -> None:
    checks = [replace(c, resistance=hours) for c in j.checks if c.what == "weld-fatigue"]
    (line,) = [c for c in setback_cautions(j.setup, checks) if c.startswith("First weld look")]
    assert words in line
    assert "Provisional" in line
    assert "it is no pass" in line


def test_fatigue_decides_nothing(j: Judgement) -> None:
    assert not any(c.what == "weld-fatigue" for c in j.deciding)
    assert any(c.startswith("First weld look at") for c in j.cautions)


def test_no_bracket_no_words(j: Judgement) -> None:
    assert tuple(setback_cautions(replace(j.setup, bracket=None), j.checks)) == ()
