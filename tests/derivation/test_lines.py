"""Every printed line of every derivation of the examples, worked out again by a calculator that is not SymPy."""

import math
import re

import numpy as np
import pytest

from tests.derivation.evaluator import fault, worked_out
from tests.derivation.jobs import NAMES, WHOLE, derived, judged, sampled
from transom.derivation.derive import derive
from transom.result import Check


def test_the_calculator_knows_what_we_print() -> None:
    assert worked_out("2 + 3*4^2/(-8)") == -4.0
    assert worked_out("-2^2") == -4.0
    assert worked_out("sum([1, 2, 3]*([2, 2, 2]^2 - 1))/3") == pytest.approx(6.0)
    assert worked_out("if(3 < 2, 1, max(2, abs(-7), pi))") == 7.0
    assert worked_out("(8)^(1/3)") == pytest.approx(2.0)


@pytest.mark.parametrize(("numbers", "result"), [("2*3.1", "6.21"), ("1/3", "0.33332"), ("5 - 5.001", "0")])
def test_a_line_that_does_not_come_out_is_found(numbers: str, result: str) -> None:
    assert fault(numbers, result)


@pytest.mark.parametrize("name", NAMES)
def test_every_line_comes_out_as_printed(name: str) -> None:
    found = [f"{d.check.id}, line {line.number}: {why}" for d in derived(name) for line in d.steps
             if (why := fault(line.numbers, line.result))]  # fmt: skip
    assert not found, "\n".join(found[:10])
    assert sum(len(d.steps) for d in derived(name)) > (1500 if name == WHOLE else 100)


@pytest.mark.parametrize("name", NAMES)
def test_every_part_ends_at_the_share_the_judgement_has(name: str) -> None:
    checks = sampled(name)
    assert {c.part for c in checks} == {c.part for c in judged(name).worst}
    assert judged(name).governing in checks
    for d, c in zip(derived(name), checks, strict=True):
        assert d.lines[-1].value == pytest.approx(c.utilisation, rel=1e-9)
        assert d.lines[-1].name == c.id


@pytest.mark.parametrize("name", NAMES)
def test_a_line_uses_only_lines_before_it_and_its_names_are_theirs(name: str) -> None:
    for d in derived(name):
        symbols = [line.symbol for line in d.lines]
        assert len(set(symbols)) == len(symbols)
        for line in d.lines:
            assert all(0 < n < line.number for n in line.uses)
            for n in line.uses if line.kind == "formula" and "sum(" not in line.expression else ():
                assert re.search(rf"(?<![\w,']){re.escape(symbols[n - 1])}(?![\w'\[]|,\w)", line.expression), line.text


@pytest.mark.parametrize("name", NAMES)
def test_every_line_has_a_source_and_a_sentence(name: str) -> None:
    for line in (line for d in derived(name) for line in d.lines):
        assert line.source
        assert line.says
        assert line.evidence
        assert math.isfinite(line.value)


@pytest.mark.parametrize("name", NAMES)
def test_no_number_is_computed_between_two_formulas(name: str) -> None:
    """Whatever a check is made of is a formula's, a fact's, a row's, the plate's or the program's own number."""
    found = [f"{d.check.id}: {line.text}" for d in derived(name) for line in d.untraced]
    assert not found, "\n".join(found[:10])


def test_a_number_of_the_plate_stands_with_its_grid_its_residual_and_the_pencils() -> None:
    (d,) = (d for d in derived(WHOLE) if d.check.id == judged(WHOLE).governing.id)
    line = next(line for line in d.lines if line.kind == "plate" and line.symbol == "T_p")
    j, column = judged(WHOLE), judged(WHOLE).cases.names.index(d.check.case)
    assert j.careful is not None
    bolts = np.array([b.bolts[:, column] for b in (j.careful.answer.borne, *j.careful.answer.bounds)])
    assert np.abs(bolts / line.value - 1).min() < 1e-6
    assert re.search(r"grid \d+ x \d+ cells.*out of balance by \S+ N; pencil method \S+ N", line.says)
    assert line.uses, "the loads it was given stand before it"
    before = [d.lines[n - 1] for n in line.uses]
    assert {"N", "N*mm", "mm", "N/mm^2"} <= {x.unit for x in before}


def test_a_check_of_another_judgement_is_refused() -> None:
    j = judged(NAMES[-1])
    c = j.governing
    with pytest.raises(ValueError, match="not a check of this judgement"):
        derive(j, [Check(c.part, "no such thing", c.rule, c.case, c.method, 1.0, 1.0, "N", "", "published", "read")])
