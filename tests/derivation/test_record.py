"""Recording: functions stand in for formulas only while somebody records, and marks tell results apart."""

import numpy as np
import pytest

from tests.derivation.jobs import derived, judged
from transom.catalogue import Catalogue
from transom.checks import trial as trial_module
from transom.derivation.derive import derive
from transom.derivation.record import watching
from transom.derivation.trace import trace, watched
from transom.statics import contact


def fails_while_recorded(before: object) -> None:
    with watching(watched()) as found:
        assert contact.bolt_tension is not before
        assert trial_module.bolt_tension is contact.bolt_tension
        assert contact.bolt_tension(100.0, 1.5, 20.0) == 170.0
        assert [c.formula.name for c in found.calls] == ["statics.contact.bolt_tension"]
        raise RuntimeError("on the way")


def test_every_function_stands_in_its_place_again_after_a_fault() -> None:
    before, factor = contact.bolt_tension, Catalogue.factor
    with pytest.raises(RuntimeError, match="on the way"):
        fails_while_recorded(before)
    assert contact.bolt_tension is trial_module.bolt_tension is before
    assert Catalogue.factor is factor


def test_marks_tell_results_apart_and_move_none_that_counts() -> None:
    with watching(watched(), np.random.default_rng(0)) as found:
        once, again = (contact.bolt_tension(np.full(3, 100.0), 1.5, 20.0) for _ in range(2))
    values = np.concatenate([once, again])
    assert len(set(values.tolist())) == 6
    np.testing.assert_allclose(values, 170.0, rtol=1e-9)
    assert len(found.calls) == 2


def test_both_runs_go_the_same_way() -> None:
    found = trace(judged("uprights-90hp"))
    plain, marked = found.run.recording.calls, found.marked.recording.calls
    assert len(found.calls) == len(plain) == len(marked)
    for a, b in zip(found.run.checks, found.marked.checks, strict=True):
        np.testing.assert_allclose(a.utilisation, b.utilisation, rtol=1e-6, atol=1e-9)


def test_of_two_numbers_alike_the_one_meant_is_named() -> None:
    """The runabout's plate is 1/4 in thick, and so thick is the nearest bolt of its job."""
    j = judged("runabout-60hp")
    check = next(c for c in j.worst if c.what == "bracket-thickest")
    (d,) = derive(j, [check])
    names = {line.name for line in d.given}
    assert "mount.engine_bolts.forward.thickness" in names
    assert not any(n.startswith("frame.") for n in names)


def test_what_a_formula_worked_out_for_a_fact_is_a_line_of_its_own() -> None:
    """The weight where it helps is nine tenths of the stated one: the calculator needs the step."""
    lines = [line for d in derived("pontoon-40hp") for line in d.lines if line.name == "setup.steps.light_mass"]
    assert lines
    assert all(line.numbers == "117.934*0.9" and line.result == "106.14" for line in lines)
