"""Stops, cautions and the galvanic table: what ends a job, what a name, a date and a paper can pass."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import HP, JOB, MOUNT, on_board, with_bolts, with_engine
from transom.catalogue import SHIPPED
from transom.job.records import Accept, Backing, EngineBracket, Hole, Job, Kicker
from transom.judge.galvanic import joints
from transom.judge.judging import judge, without_mount
from transom.judge.stops import stops
from transom.setup.facts import collect


def named(job: Job) -> dict[str, bool]:
    """Names of the stops of a job, and whether each is final."""
    return {s.name: s.final for s in stops(job, collect(job, SHIPPED), SHIPPED)}


def boat(**changes: object) -> Job:
    return replace(JOB, boat=replace(JOB.boat, **changes))  # type: ignore[arg-type]


def test_a_plain_job_has_none() -> None:
    assert named(JOB) == {}


@pytest.mark.parametrize(
    "job, name, final",
    [
        (with_engine(power=302 * HP, power_low=302 * HP), "out-of-scope", True),
        (with_engine(count=2), "twins", True),
        (with_engine(lift_plate=True), "lift-plate", True),
        (on_board(material="HDPE"), "not-plywood", True),
        (replace(on_board(core="hidden"), boat=replace(JOB.boat, kind="glass hull")), "hidden-core", True),
        (boat(plate_power=39 * HP), "over-builders-plate", False),
        (boat(plate_engine_mass=130.0), "over-builders-plate-weight", False),
        (boat(plate="none", plate_power=None), "plate-missing", False),
        (boat(plate="cannot read", plate_power=None), "plate-power-unreadable", False),
        (boat(plate="not measured", plate_power=None), "plate-not-read", False),
        (with_engine(held_by="clamps", power=20 * HP, power_low=20 * HP), "clamps-alone", False),
        (on_board(sealed=False), "unsealed-wood", False),
        (on_board(treatment="copper"), "copper-on-aluminium", False),
    ],
)
def test_each_stop(job: Job, name: str, final: bool) -> None:
    assert named(job)[name] is final


@pytest.mark.parametrize(
    "job, name",
    [
        (with_engine(power=300 * HP, power_low=300 * HP), "out-of-scope"),
        (boat(plate_power=40 * HP), "over-builders-plate"),
        (boat(plate_engine_mass=136.0), "over-builders-plate-weight"),
        (with_engine(held_by="clamps", power=15 * HP, power_low=15 * HP), "clamps-alone"),
        (boat(plate="none", plate_power=None, kind="aluminium hull"), "plate-missing"),
    ],
)
def test_at_its_limit_there_is_no_stop(job: Job, name: str) -> None:
    assert name not in named(job)


FOUR = ((160.0, 48.0), (-160.0, 48.0), (125.0, 250.0), (-125.0, 250.0))


def holes(*more: tuple[float, float], shift: float = 0.0) -> Job:
    """Four bolts, one of the upper ones moved, and more."""
    listed = ((FOUR[0][0] + shift, 48.0), *FOUR[1:], *more)
    return with_engine(bracket=EngineBracket(bolts=tuple(Hole(y, z) for y, z in listed)))


@pytest.mark.parametrize(
    "job, stopped",
    [
        (holes(), False),
        (holes(shift=4.0), False),
        (holes(shift=30.0), True),  # the nearer bolt takes 190/350 of the pair's pull, not half
        (holes((90.0, 48.0)), True),
        (holes((90.0, 150.0)), False),  # rows between are not counted
    ],
)
def test_lopsided_bolts_are_out_of_scope(job: Job, stopped: bool) -> None:
    assert ("out-of-scope" in named(job)) is stopped


@pytest.mark.parametrize(
    "at, stopped", [((-225.0, 225.0), False), ((-200.0, 250.0), True), ((0.0,), True), ((), False)]
)
def test_uneven_uprights_are_stopped(at: tuple[float, ...], stopped: bool) -> None:
    """At -200 and 250 one bolt is 36 mm from its upright, the other 86; half the span less y says 61 for both."""
    job = replace(JOB, frame=replace(JOB.frame, kind="uprights", at=at))
    assert ("support-lines" in named(job)) is stopped


def test_power_of_a_range_is_its_top() -> None:
    assert "over-builders-plate" in named(with_engine(power=60 * HP, power_low=40 * HP))


def test_a_kicker_weighs_on_the_plates_limit() -> None:
    """136 kg under a limit of 160, with a kicker of 38 over it."""
    job = boat(plate_engine_mass=160.0)
    assert named(job) == {}
    kicked = replace(job, engine=replace(job.engine, kicker=Kicker(8 * HP, 38.0)))
    assert named(kicked) == {"over-builders-plate-weight": False}
    unweighed = replace(job, engine=replace(job.engine, kicker=Kicker(8 * HP)))
    assert "over-builders-plate-weight" in named(unweighed)


@pytest.mark.parametrize(
    "plate, stopped",
    [(48.0, False), (47.0, True), (40.0, True), (39.0, True)],
)
def test_a_kicker_counts_on_the_plates_power(plate: float, stopped: bool) -> None:
    """40 hp with a kicker of 8: a plate of 48 allows both."""
    job = boat(plate_power=plate * HP)
    kicked = replace(job, engine=replace(job.engine, power=40 * HP, kicker=Kicker(8 * HP, 38.0)))
    assert ("over-builders-plate" in named(kicked)) is stopped


def test_an_engine_far_above_the_method_is_a_stop_and_no_fault() -> None:
    far = named(with_engine(power=900 * HP, power_low=250 * HP, mass=None))
    assert far["out-of-scope"] is True


def test_a_kicker_on_clamps_above_15_hp_is_stopped_too() -> None:
    assert "clamps-alone" in named(with_engine(kicker=Kicker(20 * HP, held_by="clamps")))
    assert "clamps-alone" not in named(with_engine(kicker=Kicker(20 * HP, held_by="bolts")))


def accepted(job: Job, stop: str) -> Job:
    return replace(job, accepts=(Accept(stop, "somebody", dt.date(2026, 5, 4), "builder's letter"),))


def test_name_date_and_paper_pass_what_can_be_passed() -> None:
    job = accepted(on_board(sealed=False), "unsealed-wood")
    (one,) = stops(job, collect(job, SHIPPED), SHIPPED)
    assert not one.stands
    assert "2026-05-04" in one.accepted
    assert "builder's letter" in one.accepted


def test_no_paper_passes_a_final_stop() -> None:
    job = accepted(with_engine(count=2), "twins")
    (one,) = stops(job, collect(job, SHIPPED), SHIPPED)
    assert one.stands
    assert not judge(job, SHIPPED, MOUNT).passes


def test_accepting_one_stop_passes_no_other() -> None:
    job = accepted(on_board(sealed=False, treatment="copper"), "unsealed-wood")
    standing = [s.name for s in stops(job, collect(job, SHIPPED), SHIPPED) if s.stands]
    assert standing == ["copper-on-aluminium"]


def test_spacing_below_the_code_is_final_and_shows_its_numbers() -> None:
    job = with_engine(bracket=EngineBracket(top_to_upper=40.0))
    judged = judge(accepted(job, "spacing-below-code"), SHIPPED, MOUNT)
    (one,) = [s for s in judged.stops if s.name == "spacing-below-code"]
    assert one.final
    assert one.stands
    assert "40 mm" in one.says
    assert "44 mm" in one.says
    assert judged.checks


def test_the_makers_pattern_is_no_stop_but_a_caution() -> None:
    judged = judge(JOB, SHIPPED, MOUNT)
    assert not any(s.name == "spacing-below-code" for s in judged.stops)
    assert any("NDS 12.5.1" in c for c in judged.cautions)


def test_a_stop_never_hides_numbers() -> None:
    assert max(c.utilisation for c in judge(with_engine(count=2), SHIPPED, MOUNT).checks) > 0.1
    bare = without_mount(with_engine(count=2), SHIPPED).cases
    assert max(abs(v) for v in np.ravel(bare.wrench)) > 1000.0


def test_galvanic_stainless_in_aluminum() -> None:
    """Anodic index: aluminum 0.90, 18-8 stainless 0.50: 0.40 V over 0.25 fresh, 0.15 salt; plate on frame 0."""
    bracket, backing, frame = joints(JOB, MOUNT, SHIPPED)
    assert bracket.difference == pytest.approx(0.40)
    assert bracket.limit == pytest.approx(0.25)
    assert bracket.apart
    assert backing.difference == pytest.approx(0.40)
    assert frame.difference == 0.0
    assert not frame.apart
    assert joints(boat(water="salt"), MOUNT, SHIPPED)[0].limit == pytest.approx(0.15)


def test_galvanic_bronze_is_worse_and_galvanised_is_not() -> None:
    """Bronze 0.40: 0.50 V; galvanised 1.20: 0.30 V, over 0.25 in fresh water too."""
    bronze = joints(JOB, with_bolts(grade="C651"), SHIPPED)[0]
    assert bronze.difference == pytest.approx(0.50)
    steel = joints(JOB, with_bolts(grade="SAE 5"), SHIPPED)[0]
    assert steel.difference == pytest.approx(0.30)
    assert "isolate" in bronze.cure


def test_galvanic_washers_are_stainless_and_glass_plates_are_no_metal() -> None:
    washers = joints(JOB, with_bolts(forward=Backing(washer="1/2 wide")), SHIPPED)
    assert washers[1].difference == 0.0
    assert washers[2].difference == pytest.approx(0.40)
    glass = joints(JOB, with_bolts(forward=Backing("", "G-10", 12.0, 381.0, 76.2, "pair")), SHIPPED)
    assert [j.where for j in glass] == ["engine bolts in the bracket"]
    assert joints(JOB, None, SHIPPED) == ()


def test_cautions_of_this_job() -> None:
    said = "\n".join(judge(JOB, SHIPPED, MOUNT).cautions)
    assert "seizes (galls)" in said
    assert "pocket" in said
    assert "was not measured and is not checked" in said
    assert "Not a survey" in said


def test_torque_beyond_a_limit_is_a_caution_with_its_cure_and_fails() -> None:
    judged = judge(with_engine(torque=81349.0), SHIPPED, MOUNT)
    assert any(c.what.endswith("at-bolt-up") for c in judged.failing)
    assert any("larger or thicker plate" in c for c in judged.cautions)


def test_second_opinion_that_says_no_is_a_caution_and_decides_nothing() -> None:
    job = with_engine(power=90 * HP, power_low=90 * HP)
    judged = judge(replace(job, boat=replace(job.boat, plate_power=90 * HP)), SHIPPED, MOUNT)
    assert any("NDS, decides nothing here" in c for c in judged.cautions)
    assert not any(c.rule == "nds" for c in judged.deciding)
    sideways = [c.utilisation for c in judged.deciding if (c.part, c.what) == ("engine-bolts", "sideways-in-wood")]
    assert 0.1 < max(sideways) < 1.0  # by the job's own code it holds
