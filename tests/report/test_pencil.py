"""The pencil line: its printed numbers, worked again, give its printed answer."""

import re

import numpy as np
import pytest

from tests.report.jobs import job, sized
from transom.report.forces import trial_of_mount
from transom.report.pencil import Pencil, pencil, sentence


def line(name: str, case: str) -> Pencil:
    trial = trial_of_mount(sized(name))
    assert trial is not None
    found = pencil(trial, case)
    assert found is not None
    return found


@pytest.mark.parametrize(
    "case", ("ahead", "wave", "astern", "strike", "hard-over-port", "turn-starboard", "road-down-forward-20-mid")
)
def test_it_is_the_tools_own_tension_without_prying(case: str) -> None:
    trial = trial_of_mount(sized("example"))
    assert trial is not None
    p = line("example", case)
    i = trial.cases.names.index(p.case)
    T = trial.strips.T_u if p.row == "upper" else trial.strips.T_l
    assert p.case == case
    assert p.tension == pytest.approx(float(np.ravel(T)[i]), rel=1e-9)
    assert p.moment == pytest.approx(sum(t.force * t.arm for t in p.terms), rel=1e-9)


@pytest.mark.parametrize("name", ("example", "metric"))
@pytest.mark.parametrize("case", ("ahead", "wave", "strike"))
def test_a_pocket_calculator_repeats_it(name: str, case: str) -> None:
    text = sentence(line(name, case), job(name)).replace(",", "")
    work = text.split("high on the bracket: ")[-1].split("low on the bracket: ")[-1]
    terms = re.findall(r"(- )?[a-z ]+ ([\d.]+) (?:lbf|kN|N) x ([\d.]+)", work.split(" = ")[0])
    moment = sum((-1 if sign else 1) * float(F) * float(arm) for sign, F, arm in terms)
    printed, lever, each = (float(x) for x in re.search(
        r"= ([\d.]+) [^;]*; / 2 \w+ bolts / ([\d.]+) \w+ = ([\d.]+)", work).groups())  # type: ignore[union-attr]  # fmt: skip
    small = 1000.0 if name == "metric" and "kN m" not in work else 1.0  # kN x mm printed as N m
    moment_printed = printed * 1000.0 if name == "metric" and small == 1.0 else printed
    assert moment == pytest.approx(moment_printed, rel=0.02)
    scale = 1000.0 if re.search(r"bolts / [\d.]+ mm = [\d.]+ N ", work) else 1.0
    assert moment / 2 / lever * scale == pytest.approx(each, rel=0.02)


def test_a_case_that_pulls_no_row_gives_the_hardest_pull_instead() -> None:
    trial = trial_of_mount(sized("example"))
    assert trial is not None
    found = pencil(trial, "once")
    assert found is not None
    assert found.tool == pytest.approx(float(np.max(trial.tension)))
