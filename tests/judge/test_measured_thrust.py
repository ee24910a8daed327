"""A thrust that somebody measured: refused where no propeller could give it, and kept where another propeller is asked."""

import pytest

from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.job.read import loads
from transom.sizing.sizing import size

JOB = """
[boat]
kind = "pontoon"
plate_power = "40 hp"
[engine]
power = "40 hp"
thrust = "950 lbf"
weight = "260 lb"
[board]
width = "24 in"
height = "18 in"
[frame]
kind = "pod"
[stock]
panels = ["douglas-fir-marine"]
sheets = ["3/4 in"]
grades = ["F593C"]
threads = ["1/2-13"]
"""


def test_a_propeller_nobody_measured_is_varied_beside_a_measured_thrust() -> None:
    """950 lbf are less than the 11 in propeller assumed could give, and more than one of half its diameter."""
    j = size(loads(JOB), SHIPPED, careful=False)
    assert {a.key for a in j.assumptions} >= {"engine.propeller.diameter"}
    assert j.facts["engine.thrust"].value == pytest.approx(950 * 4.4482216)


def test_more_than_any_propeller_gives_is_refused_in_the_units_of_both() -> None:
    with pytest.raises(
        JobError, match=r"thrust = 5000 lbf \(22241 N\): more than an ideal propeller .* 1083 lbf \(4818 N\)"
    ):
        size(loads(JOB.replace("950 lbf", "5000 lbf")), SHIPPED, careful=False)
