"""A judged mount sampled: what is taken off, what scatters, that arrays and single samples agree."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.judge.mounts import JOB, mount, put
from transom.catalogue import SHIPPED
from transom.chance.inputs import scatters
from transom.chance.measure_first import measure_first, range_of
from transom.chance.ratios import at_middle
from transom.chance.reliability import ONE_SIDED, log_spread
from transom.chance.sampling import Plan, Uncertainty, draws, plan, uncertainty, utilisations
from transom.chance.scene import Scene, loaded, without_factors
from transom.job.read import load
from transom.judge.evaluate import careful_of, key_of
from transom.judge.judging import judge
from transom.judge.records import Judgement

RUNABOUT = Path(__file__).parents[2] / "examples" / "runabout-60hp.toml"


@pytest.fixture(scope="module")
def judged() -> Judgement:
    job = load(RUNABOUT)
    assert job.mount is not None
    return judge(job, SHIPPED, job.mount)


@pytest.fixture(scope="module")
def pencil(judged: Judgement) -> Judgement:
    return replace(judged, careful=None)


@pytest.fixture(scope="module")
def planned(judged: Judgement) -> Plan:
    return plan(judged)


@pytest.fixture(scope="module")
def found(pencil: Judgement) -> Uncertainty:
    return uncertainty(pencil, 1200)


def test_no_safety_factor_is_left_in_the_tables() -> None:
    tables = without_factors(SHIPPED)
    named = [r for r in tables.rows("factors") if "safety factor" in r.says or "gamma_" in r.name or ".phi_" in r.name]
    assert len(named) > 10
    left = {r.name for r in named if r.value != 1.0}
    assert left <= {"fatigue.gamma_Mf", "setback.fatigue"}  # enters no check that decides


def test_factors_off_and_low_values_raised_leave_every_link_less_loaded(pencil: Judgement) -> None:
    scene = Scene(pencil, scatters(pencil))
    before = {key_of(c): float(c.worst[0]) for c in loaded(scene.base)}
    after = {key_of(c): float(c.worst[0]) for c in loaded(scene.at(np.zeros((1, len(scene.scatters)))))}
    assert before.keys() == after.keys()
    assert all(0.2 * before[k] < after[k] < before[k] for k in before if before[k] > 0)


def test_wood_stands_where_the_table_says_and_scatters_by_its_cov(pencil: Judgement) -> None:
    scene = Scene(pencil, scatters(pencil))
    k = [s.key for s in scene.scatters].index("wood.sliding")
    z = np.zeros((2, len(scene.scatters)))
    z[1, k] = -ONE_SIDED
    f_r, low = scene.at(z).stacks.f_r, scene.base.stacks.f_r[0]
    assert f_r[1] == pytest.approx(low)  # 19 of 20 lie above the table's value
    assert f_r[0] == pytest.approx(low * np.exp(ONE_SIDED * float(log_spread(0.14))))


def test_a_thinner_sheet_is_a_thinner_board(pencil: Judgement) -> None:
    scene = Scene(pencil, scatters(pencil))
    z = np.zeros((2, len(scene.scatters)))
    z[1, [s.key for s in scene.scatters].index("wood.thickness")] = -2.0
    used, thin = scene.at(z).stacks.t
    assert used == pytest.approx(scene.base.stacks.t[0])
    assert thin / used == pytest.approx(np.exp(-2.0 * float(log_spread(0.011))))
    bending = next(c for c in loaded(scene.at(z)) if c.what == "bending")
    assert bending.worst[1] > 1.02 * bending.worst[0]


def test_samples_on_arrays_are_those_one_at_a_time(planned: Plan) -> None:
    z = next(draws(6, len(planned.scene.scatters), 2))
    alone = np.hstack([utilisations(planned, row[None]) for row in z])
    np.testing.assert_allclose(utilisations(planned, z), alone, rtol=1e-12)


def test_the_same_seed_gives_the_same_answer_and_another_does_not(pencil: Judgement, found: Uncertainty) -> None:
    assert uncertainty(pencil, 1200) == found
    assert uncertainty(pencil, 1200, seed=2) != found


def test_progress_counts_every_sample(pencil: Judgement) -> None:
    done: list[int] = []
    uncertainty(pencil, 700, progress=done.append)
    assert sum(done) == 700


def test_any_link_goes_over_at_least_as_often_as_the_weakest(found: Uncertainty) -> None:
    assert found.any.over >= found.chances[0].over > 0
    assert found.any.over <= sum(c.over for c in found.chances)
    for c in found.chances:
        assert c.low <= c.over / c.n <= c.high
        assert sum(x for _, x in c.shares) < 1.1


def test_a_heavier_load_goes_over_more_often(pencil: Judgement, found: Uncertainty) -> None:
    heavier = replace(pencil, setup=replace(pencil.setup, job=replace(pencil.setup.job, boat=replace(pencil.setup.job.boat, service="open"))))  # fmt: skip
    more = uncertainty(heavier, 1200)
    assert more.any.over > found.any.over


def test_with_nothing_scattered_the_ratios_give_back_the_careful_method(planned: Plan) -> None:
    scene = planned.scene
    zero = np.zeros((1, len(scene.scatters)))
    trial = scene.at(zero)
    exact = {key_of(c): c for c in loaded(careful_of(trial)) if c.method == "plate"}
    ratios = at_middle(scene)
    for check in loaded(trial):
        if key_of(check) in exact:
            careful = float(exact[key_of(check)].worst[0])
            assert float(np.max(ratios.applied(check, zero))) == pytest.approx(careful, rel=1e-9)
            assert float(np.max(planned.ratios.applied(check, zero))) == pytest.approx(careful, rel=1e-9)


def test_first_order_follows_a_full_solve_nearer_than_the_ratio_alone(planned: Plan) -> None:
    """Propeller and engine lower and heavier than used: sliding and bending by a solve, by first order, by ratio."""
    scene, keys = planned.scene, [s.key for s in planned.scene.scatters]
    z = np.zeros((1, len(keys)))
    for key in ("load.thrust", "wood.stiffness", "engine.propeller.below_plate"):
        z[0, keys.index(key)] = 1.5
    trial = scene.at(z)
    exact = {key_of(c): float(c.worst[0]) for c in loaded(careful_of(trial)) if c.method == "plate"}
    off = {True: 0.0, False: 0.0}
    for check in loaded(trial):
        key = key_of(check)
        if key in exact and key[0] == "board":
            for first in off:
                ratios = planned.ratios if first else at_middle(scene)
                off[first] += abs(float(np.max(ratios.applied(check, z))) / exact[key] - 1.0)
    assert off[True] < off[False]
    assert off[True] < 0.2


# What to measure first


def test_each_end_is_what_the_job_gives_with_that_number_stated() -> None:
    job = load(RUNABOUT)
    assert job.mount is not None
    j = judge(job, SHIPPED, job.mount, careful=False)
    effects = measure_first(j)
    assert [e.key for e in effects] == [e.key for e in sorted(effects, key=lambda e: -e.moves)]
    e = next(e for e in effects if e.key == "engine.gravity.aft")
    assert (e.low, e.high) == range_of(e.fact, j)
    for value, expected in ((e.low, e.at_low), (e.high, e.at_high), (e.fact.value, e.used)):
        stated = put(job, e.key, value)
        assert stated is not None
        again = judge(stated, SHIPPED, job.mount, careful=False)
        assert again.governing.utilisation == pytest.approx(expected, rel=1e-6)


def test_a_range_seen_goes_before_what_the_evidence_scatters_by() -> None:
    j = judge(JOB, SHIPPED, mount(3), careful=False)
    row = SHIPPED.factor("gravity.up_mm")
    assert range_of(j.facts["engine.gravity.up"], j) == (row.low, row.high)
    aft = j.facts["engine.gravity.aft"]
    low, high = range_of(aft, j) or (0.0, 0.0)
    assert low < aft.value < high
    assert low * high == pytest.approx(aft.value**2)
