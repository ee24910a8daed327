"""NaN, infinity, zero areas and absent numbers never pass; nothing warns, nothing raises."""

from dataclasses import fields, replace

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, cases, found, on_board, plate, setup_of, trial, with_bolts
from transom.board.lamination import Stacks
from transom.catalogue import SHIPPED
from transom.checks import all_checks, one_check
from transom.checks.hardware import Hardware
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.judge.evaluate import trial_of, worst
from transom.judge.judging import judge
from transom.judge.records import weakest
from transom.result import Cases, Check, CheckArray

# No check reads them: plain shank area (shear is taken in the thread), mass; `stainless` only chooses a nut factor.
UNREAD_METAL = {"A", "mass", "stainless", "bonded"}
# Read by the plate method, by mass, or kept to scale the stack; modulus enters through the strips.
UNREAD_WOOD = {"mass", "thickness", "across", "plies", "used", "along_y"}


def two(job=None) -> Trial:  # type: ignore[no-untyped-def]
    """Two good candidates side by side; a passing job, so that a lost number would show."""
    setup = setup_of(
        job or replace(JOB, engine=replace(JOB.engine, torque=25000.0, threads="oiled", takes=(30.0, 90.0)))
    )
    three = replace(MOUNT, layers=(*MOUNT.layers, MOUNT.layers[0]))
    length = with_bolts(three, length=107.95)
    return trial_of(setup, cases(times=0.6), [length, length])


def test_both_pass_to_begin_with() -> None:
    assert (worst(two()) <= 1.0).all()


@pytest.mark.parametrize("name", sorted({f.name for f in fields(Hardware)} - UNREAD_METAL - {"round_"}))
@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf])
def test_a_bad_number_of_a_bolt_or_plate_fails_that_candidate_alone(name: str, bad: float) -> None:
    of = two()
    values = getattr(of.hardware, name).astype(float).copy()
    values[1, 0] = bad
    with np.errstate(all="ignore"):
        u = worst(replace(of, hardware=replace(of.hardware, **{name: values})))
    assert u[0] <= 1.0
    # Infinite strength or thickness is no missing number: it may pass where more is never worse.
    if np.isnan(bad):
        assert not u[1] <= 1.0, name
    else:
        assert not np.isnan(u[1])


@pytest.mark.parametrize("name", sorted({f.name for f in fields(Stacks)} - UNREAD_WOOD))
def test_a_missing_number_of_the_wood_fails_that_candidate_alone(name: str) -> None:
    of = two()
    values = getattr(of.stacks, name).astype(float).copy()
    values[1] = np.nan
    with np.errstate(all="ignore"):
        u = worst(replace(of, stacks=replace(of.stacks, **{name: values})))
    assert u[0] <= 1.0
    assert not u[1] <= 1.0, name


@pytest.mark.parametrize("part", range(6))
@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf])
def test_a_bad_component_of_a_wrench_never_passes(part: int, bad: float) -> None:
    of = two()
    design = of.cases.design.copy()
    design[0, part] = bad
    spoilt: Cases = replace(of.cases, design=design)
    with np.errstate(all="ignore"):
        assert not (worst(replace(of, cases=spoilt)) <= 1.0).any()


def test_a_bad_service_wrench_never_passes_where_nds_decides() -> None:
    of = two(replace(JOB, head=replace(JOB.head, code="US")))
    wrench = of.cases.wrench.copy()
    wrench[0, 2] = np.nan
    assert not (worst(replace(of, cases=replace(of.cases, wrench=wrench))) <= 1.0).any()


def test_zero_strength_length_or_area_never_passes() -> None:
    of = two()
    for name in ("f_ub", "A_s", "alpha_v", "length", "t", "f_y", "width", "height", "proof"):
        values = getattr(of.hardware, name).copy()
        values[1, 0] = 0.0
        with np.errstate(all="ignore"):
            u = worst(replace(of, hardware=replace(of.hardware, **{name: values})))
        assert u[0] <= 1.0
        assert not u[1] <= 1.0, name


@pytest.mark.parametrize(
    "spoil",
    [
        lambda: trial(mount=plate(width=13.0, height=13.0, per="bolt")),  # nothing left beside the hole
        lambda: trial(mount=plate(width=300.0)),  # a pair's plate that reaches no bolt
        lambda: trial(on_board(notch_width=400.0, notch_depth=60.0)),  # bolts in the notch
        lambda: trial(on_board(width=320.0)),  # bolts off the board
        lambda: trial(on_board(height=200.0)),  # the lower row off the board
        lambda: trial(on_board(openings=())),
    ],
)
def test_degenerate_places_fail_without_a_warning(spoil) -> None:  # type: ignore[no-untyped-def]
    """Warnings are errors here: a division by nothing would raise."""
    of = spoil()
    u = worst(of)
    assert not np.isnan(u).any()
    assert u[0] > 1.0


def test_facts_that_are_not_finite_are_refused() -> None:
    for key in ("board__width", "engine__bracket__upper_holes", "engine__weight"):
        with pytest.raises(JobError, match="not a finite number"):
            setup_of(**{key: float("nan")})


def test_check_records_never_pass_what_is_no_number() -> None:
    for demand, resistance in (
        (np.nan, 1.0),
        (1.0, np.nan),
        (1.0, 0.0),
        (0.0, 0.0),
        (np.inf, 1.0),
        (1.0, np.inf),
        (1.0, -1.0),
    ):
        one = Check("a", "b", "", "c", "hand", demand, resistance, "N", "s", "published", "read")
        assert not one.passes
        many = CheckArray(
            "a", "b", "", "hand", "N", "s", "published", "read", ("c",), np.array([[demand]]), np.array([[resistance]])
        )
        assert not many.worst[0] <= 1.0


def test_nothing_checked_is_no_pass() -> None:
    with pytest.raises(ValueError, match="nothing was checked"):
        weakest(())
    judged = judge(JOB, SHIPPED, MOUNT)
    assert judged.checks
    assert not replace(judged, checks=()).passes
    assert not replace(judged, mount=None).passes


def test_every_check_names_its_source_and_evidence() -> None:
    for c in (*all_checks(trial()), *found(trial()).values()):
        assert c.source
        assert c.evidence in ("published", "stated", "common practice", "convention", "estimate")
        assert c.known_by in ("read", "transcribed", "memory", "derived", "computed")


@pytest.mark.parametrize("job", [JOB, replace(JOB, engine=replace(JOB.engine, held_by="clamps"))])
def test_one_check_asked_for_is_the_one_of_all(job) -> None:  # type: ignore[no-untyped-def]
    of = trial_of(setup_of(job), cases(times=0.6), [MOUNT])
    for each in all_checks(of):
        one = one_check(of, each.name)
        assert one is not None
        assert one.name == each.name
        assert np.array_equal(one.utilisation, each.utilisation)
    assert one_check(of, "board.none.hand") is None
