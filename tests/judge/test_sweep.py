"""What is asked of many values together, and of a joint's checks alone, is what each value alone gives by all checks."""

from pathlib import Path

import numpy as np
import pytest

from transom.catalogue import SHIPPED
from transom.checks.trial import Trial
from transom.job.read import load
from transom.judge import assumptions as a
from transom.judge.evaluate import trial_of, worst
from transom.judge.judging import judge, prepared
from transom.judge.records import Judgement
from transom.loads.cases import build_cases
from transom.setup.build import build, values_of
from transom.sizing.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
RATIOS = np.array([0.6, 0.93, 1.0, 1.4])


@pytest.fixture(scope="module", params=["pontoon-40hp", "runabout-60hp", "setback-90hp"])
def sized(request: pytest.FixtureRequest) -> Judgement:
    """By the pencil, which is quick; some of it with all that may be assumed left out."""
    return size(load(EXAMPLES / f"{request.param}.toml"), SHIPPED, careful=False, beside=False)


def settled(j: Judgement) -> tuple[a._WhatIf, Trial]:
    """The judgement's mount on the job as it was settled."""
    facts, setup, cases = prepared(j.setup.job, SHIPPED)
    assert j.mount is not None
    trial = trial_of(setup, cases, [j.mount])
    return a._WhatIf(setup.job, SHIPPED, facts, trial, a.PENCIL, a.all_checks(trial)), trial


def test_values_together_are_values_apart(sized: Judgement) -> None:
    what_if, trial = settled(sized)
    keys = list(a.varied(what_if.facts))
    assert {a.joint_of(k) for k in keys} >= {None, a.JOINTS[0]}
    found = what_if.sweep([(key, RATIOS) for key in (*keys, *keys)])  # a key may be asked twice
    apart = np.array([[alone(what_if, trial, key, ratio) for ratio in RATIOS] for key in keys])
    np.testing.assert_allclose(found, np.concatenate([apart, apart]), rtol=1e-12)
    assert np.ptp(apart) > 0.01


def alone(what_if: a._WhatIf, trial: Trial, key: str, ratio: float) -> float:
    """The weakest link with one number changed, by all checks."""
    values = values_of(what_if.facts) | dict.fromkeys(a.WOOD, 1.0)
    values |= {k: values[k] * ratio for k in a.TIED.get(key, (key,))}
    setup = build(what_if.job, SHIPPED, values)
    return float(worst(Trial(setup, build_cases(setup.loads), trial.stacks, trial.hardware))[0])


def test_what_to_measure_first_needs_no_far_look(sized: Judgement) -> None:
    assert sized.mount is not None
    whole = judge(sized.job, SHIPPED, sized.mount, careful=False, add=True)
    assert whole.to_measure
    assert [(x.key, x.value) for x in whole.to_measure] == [(x.key, x.value) for x in sized.to_measure]
    assert len(sized.assumptions) < len(whole.assumptions)
