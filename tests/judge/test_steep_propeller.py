"""A propeller steeper than the B-series covers: its thrust is taken at the edge of the series, never below nothing."""

import pytest

from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.judge.judging import prepared

JOB = """
[boat]
kind = "pontoon"
plate_power = "50 hp"
[engine]
power = "40 hp"
propeller = {{ diameter = "6 in", pitch = "{pitch} in" }}
[board]
width = "24 in"
height = "18 in"
[frame]
kind = "pod"
"""


def thrust(pitch: str) -> float:
    return float(prepared(loads(JOB.format(pitch=pitch)), SHIPPED)[1].loads.thrust_N)


def test_steeper_than_the_series_counts_as_its_steepest() -> None:
    assert thrust("8.4") > 0
    assert thrust("30") == pytest.approx(thrust("8.4"))
