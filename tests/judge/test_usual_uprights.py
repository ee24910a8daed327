"""Uprights that nobody measured stand under the board, whatever the boat's preset says."""

import pytest

from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.judge.judging import prepared

TEXT = """[boat]
kind = "pontoon"
plate_power = "50 hp"
[engine]
power = "40 hp"
[board]
width = "{width}"
height = "18 in"
[frame]
kind = "uprights"
"""


@pytest.mark.parametrize(("width", "apart"), [("24 in", 609.6 - 2 * 25.0), ("40 in", 610.0)])
def test_they_are_no_farther_apart_than_the_board_reaches(width: str, apart: float) -> None:
    facts, _, _ = prepared(loads(TEXT.format(width=width)), SHIPPED)
    inset = facts["frame.inset"].value
    expected = min(apart, 609.6 - 2 * inset) if width == "24 in" else apart
    assert facts["frame.apart"].value == pytest.approx(expected)
    assert facts["frame.apart"].evidence == "estimate"
