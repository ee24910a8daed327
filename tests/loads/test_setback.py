"""A setback bracket: what its reach, height and own weight do to the loads."""

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import pytest

from tests.loads.engines import G_N, forty
from transom.loads.cases import build_cases, components
from transom.loads.inputs import BracketLoads
from transom.result import Cases

BRACKET = BracketLoads(mass_kg=15.0, mass_light_kg=13.5, x_cg=130.0, z_cg=-160.0)
BY = 254.0


def moved(aft: float, up: float = 0.0, bracket: BracketLoads | None = BRACKET, **changes: float) -> Cases:
    """The 40 hp engine hung `aft` further aft and `up` higher, by its level points."""
    return build_cases(
        forty(x_cg=220.0 + aft, z_cg=150.0 + up, z_prop=up - 663.0, x_steer=150.0 + aft, x_tilt=40.0 + aft,
              z_tilt=20.0 + up, bracket=bracket, **changes)
    )  # fmt: skip


def row(cases: Cases, name: str, design: bool = False) -> np.ndarray:
    return (cases.design if design else cases.wrench)[cases.names.index(name)]


def test_ahead_by_hand() -> None:
    """Thrust 3234 N 663 below the datum; engine 1335 N at 474, bracket 147.1 N at 130 aft: My 2144 + 632.8 + 19.1 N m."""
    w = row(moved(BY), "ahead")
    assert w[0] == pytest.approx(-3234.0)
    assert w[2] == pytest.approx(-1335.0 - 15.0 * G_N)
    assert w[4] == pytest.approx(3234.0 * 663.0 + 1335.0 * 474.0 + 15.0 * G_N * 130.0)


def test_factored_weights_by_hand() -> None:
    """Both weights times 1.35 where they add; light, engine and bracket at nine tenths times 0.9."""
    heavy, light = (row(moved(BY), name, design=True) for name in ("astern", "astern-light"))
    assert heavy[2] == pytest.approx(-1.35 * (1335.0 + 15.0 * G_N))
    assert light[2] == pytest.approx(-0.9 * (0.9 * 1335.0 + 13.5 * G_N))


def test_the_bracket_is_thrown_with_the_engine_and_does_not_tilt() -> None:
    wave = row(moved(BY), "wave")
    assert wave[2] == pytest.approx(-3.0 * (1335.0 + 15.0 * G_N))
    turn = row(moved(BY), "turn-starboard") - row(moved(BY, bracket=None), "turn-starboard")
    # 1 g to port at 160 below the datum: Fy, and Mx = -z Fy; weight at 130 aft.
    F = -15.0 * G_N
    assert turn == pytest.approx([0.0, F, F, 160.0 * F, -130.0 * F, 130.0 * F])
    for tilt in (20, 70):
        name = f"road-down-forward-{tilt}-mid"
        road = row(moved(BY), name) - row(moved(BY, bracket=None), name)
        assert road == pytest.approx([0.8 * F, 0.0, 4.0 * F, 0.0, 160.0 * 0.8 * -F - 130.0 * 4.0 * F, 0.0])


def test_lean_turns_level_points() -> None:
    """By hand at 14 degrees: the same level wrench, its forces turned; My stays."""
    lean = radians(14.0)
    level, leaning = row(moved(BY, 30.0), "ahead"), row(moved(BY, 30.0, lean_rad=lean), "ahead")
    assert leaning[0] == pytest.approx(level[0] * cos(lean) - level[2] * sin(lean))
    assert leaning[2] == pytest.approx(level[0] * sin(lean) + level[2] * cos(lean))
    assert leaning[4] == pytest.approx(level[4])


def test_what_a_setback_adds_is_the_engine_weight_times_it() -> None:
    """At fixed loads the moment rises in proportion to the setback: weight ahead, thrown weight in a wave; hard over
    also side thrust about the upward axis."""
    none, once, twice = (moved(s, bracket=None) for s in (0.0, BY, 2 * BY))
    np.testing.assert_allclose(twice.wrench - none.wrench, 2 * (once.wrench - none.wrench), rtol=1e-9, atol=1e-3)
    for name, F in (("ahead", 1335.0), ("wave", 3 * 1335.0), ("strike", 1335.0)):
        assert row(once, name)[4] - row(none, name)[4] == pytest.approx(F * BY)
    side = row(none, "hard-over-starboard")[1]
    assert row(once, "hard-over-starboard")[5] - row(none, "hard-over-starboard")[5] == pytest.approx(side * BY)


def test_height_brings_thrust_nearer() -> None:
    low, high = row(moved(BY), "ahead"), row(moved(BY, 50.0), "ahead")
    assert low[4] - high[4] == pytest.approx(3234.0 * 50.0)


def test_no_reach_and_no_weight_is_no_bracket() -> None:
    one, other = build_cases(forty()), moved(0.0, bracket=replace(BRACKET, mass_kg=1e-12, mass_light_kg=1e-12))
    assert one.names == other.names
    np.testing.assert_allclose(one.design, other.design, rtol=1e-9, atol=1e-5)
    assert other.wrench[other.names.index("strike"), 0] == pytest.approx(1.5 * 3234)


def test_parts_add_up_with_the_bracket_among_them() -> None:
    inputs = forty(bracket=BRACKET, x_cg=474.0)
    cases, parts = build_cases(inputs), components(inputs)
    for i, name in enumerate(cases.names):
        own = [c for c in parts if c.case == name]
        assert {"bracket-weight", "bracket-inertia"} & {c.action for c in own}, name
        assert sum(c.wrench for c in own) == pytest.approx(cases.wrench[i])
        assert sum(c.wrench * c.gamma for c in own) == pytest.approx(cases.design[i])


@pytest.mark.parametrize("name", ["mass_kg", "mass_light_kg", "x_cg", "z_cg"])
def test_nan_of_a_bracket_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match=f"bracket.{name}"):
        build_cases(forty(bracket=replace(BRACKET, **{name: float("nan")})))


def test_arrays_of_brackets_are_cases_of_each() -> None:
    masses = np.array([0.0, 10.0, 20.0])
    many = build_cases(forty(bracket=replace(BRACKET, mass_kg=masses)))
    for i, m in enumerate(masses):
        one = build_cases(forty(bracket=replace(BRACKET, mass_kg=float(m))))
        np.testing.assert_allclose(many.design[i], one.design)
    strike = many.names.index("strike")
    np.testing.assert_allclose(many.wrench[:, strike, 2], -1335 - masses * 9.80665)
