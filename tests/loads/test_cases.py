"""Load cases against the check values and the table of signs of the tool's own basis (own, hand statics)."""

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from tests.loads.engines import G_N, forty, kicker
from transom.errors import JobError
from transom.loads.cases import build_cases, components, reasons
from transom.loads.inputs import LoadInputs, OwnCase
from transom.result import Cases

Fx, Fy, Fz, Mx, My, Mz = range(6)


def row(cases: Cases, name: str) -> np.ndarray:
    return cases.wrench[..., cases.names.index(name), :]


def design(cases: Cases, name: str) -> np.ndarray:
    return cases.design[..., cases.names.index(name), :]


CHECK_VALUES = [
    (0.0, "ahead", -3234, -1335, 2438),
    (0.0, "astern", 2264, -1335, -1207),
    (0.0, "strike", 4851, -1335, -2922),
    (0.0, "wave", -1491, -4005, 1870),
    (14.0, "ahead", -2815, -2078, 2438),
    (14.0, "wave", -478, -4247, 1870),
    (14.0, "astern", 2520, None, -1207),
]


@pytest.mark.parametrize("lean, name, F_x, F_z, M_y", CHECK_VALUES)
def test_check_values_by_hand(lean: float, name: str, F_x: float, F_z: float | None, M_y: float) -> None:
    wrench = row(build_cases(forty(lean_rad=radians(lean))), name)
    # Printed to the newton and the newton metre; the hand's inputs were rounded, so the last digit may move.
    assert wrench[Fx] == pytest.approx(F_x, abs=0.6)
    assert wrench[My] / 1e3 == pytest.approx(M_y, abs=0.6)
    if F_z is not None:
        assert wrench[Fz] == pytest.approx(F_z, abs=0.6)


def test_signs_of_the_usual_situations() -> None:
    cases = build_cases(forty(lean_rad=radians(14.0)))
    for name, of, wrench in zip(cases.names, cases.of, cases.wrench, strict=True):
        if of in ("ahead", "hard-over", "turn"):
            assert wrench[Fx] < 0 < wrench[My], name
        if of == "wave":
            assert wrench[My] > 0, name
        if of in ("astern", "strike"):
            assert wrench[Fx] > 0 > wrench[My], name


def test_on_the_road_the_sense_turns_over_with_the_tilt() -> None:
    cases = build_cases(forty())
    down = {n: row(cases, n)[My] for n in cases.names if n.startswith("road-down-rearward")}
    up = {n: row(cases, n)[My] for n in cases.names if n.startswith("road-up-forward")}
    assert all(m > 0 for n, m in down.items() if int(n.split("-")[3]) <= 50)
    assert down["road-down-rearward-20-high"] > 0
    assert up["road-up-forward-20-high"] < 0
    forward = row(cases, "road-down-forward-75-high")
    assert forward[My] < 0  # the head has swung ahead of the board


def test_design_is_each_part_times_its_factor() -> None:
    cases = build_cases(forty())
    thrust, weight = 663 * 3234.0, 220 * 1335.0
    assert design(cases, "ahead")[My] == pytest.approx(1.5 * thrust + 1.35 * weight)
    assert design(cases, "ahead-light")[My] == pytest.approx(1.5 * thrust + 0.9 * 0.9 * weight)
    assert design(cases, "strike")[My] == pytest.approx(-1.5 * thrust + weight)
    assert design(cases, "strike-light")[My] == pytest.approx(-1.5 * thrust + 0.9 * 0.9 * weight)
    wave = 663 * 0.6 * 29828.0 / 12
    assert design(cases, "wave")[My] == pytest.approx(1.5 * (wave + 3 * weight))
    assert design(cases, "wave-light")[My] == pytest.approx(1.5 * wave + 0.9 * 0.9 * 3 * weight)
    road = cases.names.index("road-down-forward-20-mid")
    np.testing.assert_allclose(cases.design[road], 1.5 * cases.wrench[road])


def test_factors_and_durations_as_printed() -> None:
    cases = build_cases(forty())
    at = {n: i for i, n in enumerate(cases.names)}
    assert cases.factor[at["ahead"]] == 1.5
    assert cases.weight_factor[at["ahead"]] == 1.35
    assert cases.weight_factor[at["ahead-light"]] == 0.9
    assert cases.factor[at["strike"]] == cases.weight_factor[at["strike"]] == 1.0
    assert cases.weight_factor[at["strike-light"]] == 0.9
    classes = dict(zip(cases.of, cases.duration, strict=True))
    assert classes == {
        "ahead": "short", "hard-over": "short", "astern": "short", "wave": "instantaneous",
        "turn": "instantaneous", "road": "instantaneous", "strike": "accidental",
    }  # fmt: skip
    assert cases.accidental.sum() == 2


def test_every_name_is_a_stable_one_of_its_own() -> None:
    cases = build_cases(forty(kicker=kicker()))
    assert len(set(cases.names)) == len(cases)
    assert all(set(n) <= set("abcdefghijklmnopqrstuvwxyz0123456789-") for n in cases.names)
    assert all(n.startswith(o) for n, o in zip(cases.names, cases.of, strict=True))


def mirrored(name: str) -> str:
    swap = {"starboard": "port", "port": "starboard"}
    words = [swap.get(w, w) for w in name.split("-")]
    other = "-".join(words)
    if "road" in name:
        return other
    return other.replace("-left-hand", "") if "left-hand" in other else left_hand(other)


def left_hand(name: str) -> str:
    return f"{name.removesuffix('-light')}-left-hand{'-light' if name.endswith('-light') else ''}"


@pytest.mark.parametrize("full_turn", [False, True])
def test_port_is_the_mirror_of_starboard(full_turn: bool) -> None:
    cases = build_cases(forty(lean_rad=radians(14.0), full_turn=full_turn, steer_rad=radians(45.0)))
    flip = np.array([1, -1, 1, -1, 1, -1])
    sided = [n for n in cases.names if "starboard" in n]
    assert len(sided) > 60
    for name in sided:
        other = mirrored(name)
        for of in (row, design):
            np.testing.assert_allclose(of(cases, name), flip * of(cases, other), rtol=1e-12, atol=1e-6)


def test_starboard_turn_pushes_the_stern_to_port_and_throws_the_engine_the_same_way() -> None:
    cases = build_cases(forty())
    side = 3234 * np.sin(radians(35))
    assert row(cases, "hard-over-starboard")[Fy] == pytest.approx(-side)
    turn = row(cases, "turn-starboard")[Fy]
    assert turn == pytest.approx(-0.6 * 29828 / 12 * np.sin(radians(35)) - 1335)
    assert row(cases, "hard-over-starboard")[Mz] == pytest.approx(-150 * side)  # through the steering axis


def test_right_and_left_hand_propellers_differ_by_twice_the_torque_along_the_shaft() -> None:
    cases = build_cases(forty())
    apart = row(cases, "hard-over-port") - row(cases, "hard-over-port-left-hand")
    delta = radians(-35)
    np.testing.assert_allclose(apart, [0, 0, 0, 2 * 107.7e3 * np.cos(delta), 2 * 107.7e3 * np.sin(delta), 0], atol=1e-6)


def worst_upper_bolt(wrench: np.ndarray, h: float, z_u: float, y: float) -> np.ndarray:
    """Pull of the worse upper bolt by the hand method's contact at 0.8 of the pad height, and yaw."""
    N, M, M_z = -wrench[..., Fx], wrench[..., My], wrench[..., Mz]
    return (M - 0.8 * h * N) / (2 * (0.8 * h - z_u)) + np.abs(M_z) / (4 * y)


def hardest(cases: Cases, of: str) -> float:
    wrenches = cases.wrench[[o == of for o in cases.of]]
    return float(worst_upper_bolt(wrenches, 330.0, 47.6, 163.5).max())


def test_a_bolt_pulls_hardest_short_of_the_stop_so_the_steering_is_swept() -> None:
    cases = build_cases(forty())
    at_stop = [n for n in cases.names if n.startswith("hard-over") and "-18" not in n]
    stop = max(worst_upper_bolt(row(cases, n), 330.0, 47.6, 163.5) for n in at_stop)
    assert hardest(cases, "hard-over") > 1.04 * hardest(cases, "ahead")
    assert hardest(cases, "hard-over") > 1.04 * stop
    # No angle in a fine sweep pulls more than the coarse one found by over 1.5 %.
    fine = [hardest(build_cases(forty(steer_rad=radians(d))), "hard-over") for d in range(2, 36)]
    assert hardest(cases, "hard-over") > max(fine) / 1.015


def test_angles_between_are_close_enough() -> None:
    for stop in (20.0, 35.0, 45.0, 90.0):
        names = build_cases(forty(steer_rad=radians(stop), trailer=False)).names
        angles = sorted({int(n.split("-")[3]) for n in names if n.startswith("hard-over-port-") and n[15].isdigit()})
        steps = np.diff([0.0, *angles, stop])
        assert steps.max() <= 20.0 + 1.0, stop


def test_a_full_turn_engine_backs_with_its_weight_turned_forward() -> None:
    reverse, round_about = (build_cases(forty(full_turn=f)) for f in (False, True))
    np.testing.assert_allclose(row(reverse, "astern")[:3], row(round_about, "astern")[:3], atol=1e-6)
    # The centre of gravity lies 70 mm ahead of the steering axis instead of aft: 140 mm less lever.
    assert row(round_about, "astern")[My] - row(reverse, "astern")[My] == pytest.approx(-140 * 1335)


def test_no_trailer_no_road() -> None:
    assert "road" not in build_cases(forty(trailer=False)).of
    assert build_cases(forty()).of.count("road") == 2 * 4 * 7 * 3
    assert build_cases(forty(dz_cg=0.0)).of.count("road") == 2 * 4 * 7


def test_road_by_hand() -> None:
    cases = build_cases(forty())
    wrench = row(cases, "road-up-port-40-high")
    phi, r_x, r_z = radians(40), 220.0 - 40, 250.0 - 20
    x = 40 + r_x * np.cos(phi) - r_z * np.sin(phi)
    z = 20 + r_x * np.sin(phi) + r_z * np.cos(phi)
    force = 1335 * np.array([0.0, -0.5, 2.0])
    np.testing.assert_allclose(wrench[:3], force)
    np.testing.assert_allclose(wrench[3:], np.cross([x, 0.0, z], force))


def test_a_strut_lightens_only_the_downward_cases_and_never_turns_the_load_over() -> None:
    bare, held = build_cases(forty()), build_cases(forty(strut=True))
    for name in (n for n in bare.names if n.startswith("road")):
        without, with_strut = row(bare, name), row(held, name)
        if "up" in name:
            np.testing.assert_array_equal(without, with_strut)
        else:
            assert without[Fz] <= with_strut[Fz] <= 0
            assert with_strut[My] <= without[My]
    assert row(held, "road-down-port-20-mid")[Fz] > 0.7 * row(bare, "road-down-port-20-mid")[Fz]


def arrays(n: int) -> dict[str, np.ndarray]:
    rng = np.random.default_rng(7)
    base = forty()
    names = ("thrust_N", "mass_kg", "mass_light_kg", "x_cg", "z_cg", "z_prop", "x_steer", "lean_rad", "service_g",
             "torque_Nmm", "gamma_F", "road_down_g", "strike_ratio", "z_tilt")  # fmt: skip
    return {k: getattr(base, k) * rng.uniform(0.8, 1.2, n) + (0.1 if k == "lean_rad" else 0) for k in names}


@pytest.mark.parametrize("beside", [False, True])
def test_arrays_give_what_a_loop_gives(beside: bool) -> None:
    n, many = 5, arrays(5)
    own = (OwnCase("slope", "ahead", 1.2, "launched on a slope"),)
    rest = {"strut": True, "own": own, "kicker": kicker(thrust_N=np.linspace(700, 900, n)) if beside else None}
    together = build_cases(forty(**many, **rest))
    assert together.wrench.shape == (n, len(together), 6)
    for i in range(n):
        one = {"kicker": kicker(thrust_N=float(np.linspace(700, 900, n)[i]))} if beside else {}
        alone = build_cases(forty(**{k: float(v[i]) for k, v in many.items()}, **(rest | one)))
        assert alone.names == together.names
        np.testing.assert_allclose(together.wrench[i], alone.wrench, rtol=1e-12, atol=1e-9)
        np.testing.assert_allclose(together.design[i], alone.design, rtol=1e-12, atol=1e-9)
    weight = (many["mass_kg"] + (40.0 if beside else 0.0)) * G_N
    blow = many["strike_ratio"] * many["thrust_N"]
    by_hand = blow * np.cos(many["lean_rad"]) + weight * np.sin(many["lean_rad"])
    np.testing.assert_allclose(together.wrench[:, together.names.index("strike"), Fx], by_hand, rtol=1e-4)


def test_arrays_of_angles_cover_the_narrower_sweeps() -> None:
    stops, tilts = np.radians([30.0, 45.0]), np.radians([65.0, 75.0])
    together = build_cases(forty(steer_rad=stops, tilt_to_rad=tilts))
    for i in range(2):
        alone = build_cases(forty(steer_rad=float(stops[i]), tilt_to_rad=float(tilts[i])))
        for name in ("hard-over-port", "astern-starboard-left-hand", "turn-port-light"):
            np.testing.assert_allclose(row(together, name)[i], row(alone, name))
        # The last row stands for full tilt, whatever it is called.
        last = [k for k, n in enumerate(alone.names) if n.startswith("road-down-port")][-1]
        np.testing.assert_allclose(row(together, "road-down-port-75-high")[i], alone.wrench[last])


@pytest.mark.parametrize("inputs", [forty(strut=True), forty(kicker=kicker(), lean_rad=0.2)])
def test_components_add_up(inputs: LoadInputs) -> None:
    cases = build_cases(inputs)
    for sums, weigh in ((cases.wrench, False), (cases.design, True)):
        total = {n: np.zeros(6) for n in cases.names}
        for c in components(inputs):
            total[c.case] = total[c.case] + c.wrench * (c.gamma if weigh else 1.0)
        np.testing.assert_allclose([total[n] for n in cases.names], sums, rtol=1e-9, atol=1e-6)


def test_components_say_what_they_are() -> None:
    parts = {c.action: c for c in components(forty()) if c.case == "ahead"}
    assert set(parts) == {"thrust", "weight"}
    np.testing.assert_allclose(parts["weight"].wrench, [0, 0, -1335, 0, 220 * 1335, 0])
    assert parts["thrust"].gamma == 1.5
    assert parts["weight"].gamma == 1.35


def test_kicker_works_alone_and_both_weights_hang_there() -> None:
    cases = build_cases(forty(kicker=kicker()))
    both = 1335 + 40 * G_N
    assert row(cases, "ahead")[Fz] == pytest.approx(-both)
    wrench = row(cases, "kicker-ahead")
    assert wrench[Fx] == pytest.approx(-900)
    assert wrench[Fz] == pytest.approx(-both)
    assert wrench[Mz] == pytest.approx(-300 * 900)  # pushes ahead on the port side, turns the boat to starboard
    light = row(cases, "kicker-astern-light")
    tilted = 40 + 180 * np.cos(radians(75)) - 130 * np.sin(radians(75))  # the idle engine is up
    by_hand = -640 * 900 + 0.9 * 1335 * tilted + 36 * G_N * (110 - 50)
    assert light[My] == pytest.approx(by_hand)


def test_own_case_multiplies_thrust_and_not_dead_weight() -> None:
    inputs = forty(own=(OwnCase("Beach launch", "ahead", 1.2, "launched on a slope"),))
    cases = build_cases(inputs)
    assert cases.names[-2:] == ("beach-launch", "beach-launch-light")
    assert cases.of[-1] == "beach-launch"
    assert row(cases, "beach-launch")[My] == pytest.approx(1.2 * 663 * 3234 + 220 * 1335)
    assert row(cases, "beach-launch")[Fz] == pytest.approx(-1335)
    assert reasons(inputs) == dict.fromkeys(cases.names[-2:], "launched on a slope")


def test_own_case_may_be_like_one_case_or_a_whole_situation() -> None:
    own = (OwnCase("a", "hard-over-port", 2.0, "r"), OwnCase("b", "road", 1.5, "r"))
    cases = build_cases(forty(own=own))
    assert [n for n, o in zip(cases.names, cases.of, strict=True) if o == "a"] == ["a", "a-light"]
    assert cases.of.count("b") == cases.of.count("road")
    np.testing.assert_allclose(row(cases, "b-up-port-75-low"), 1.5 * row(cases, "road-up-port-75-low"))


def test_own_case_faults_come_all_at_once() -> None:
    own = (
        OwnCase("wave", "ahead", 1.2, "r"),
        OwnCase("surf", "waves", 1.2, "r"),
        OwnCase("x", "ahead", float("nan"), "r"),
        OwnCase("??", "ahead", 1.0, "r"),
    )
    with pytest.raises(JobError) as caught:
        build_cases(forty(own=own))
    assert len(caught.value.faults) == 4
    assert 'nearest is "wave"' in caught.value.faults[1]


@pytest.mark.parametrize(
    "change, field",
    [
        ({"mass_kg": float("nan")}, "mass_kg"),
        ({"thrust_N": 0.0}, "thrust_N"),
        ({"z_prop": 10.0}, "z_prop"),
        ({"z_prop": 0.5}, "z_prop"),
        ({"z_prop": 0.0}, "z_prop"),
        ({"x_cg": np.array([1.0, np.inf])}, "x_cg"),
        ({"kicker": kicker(mass_kg=float("inf"))}, "kicker.mass_kg"),
        ({"x_cg": np.ones(2), "z_cg": np.ones(3)}, "arrays of one length"),
    ],
)
def test_numbers_that_are_no_loads_are_refused(change: dict[str, object], field: str) -> None:
    with pytest.raises(ValueError, match=field):
        build_cases(forty(**change))


def test_nothing_is_lost_with_more_thrust() -> None:
    low, high = build_cases(forty()), build_cases(replace(forty(), thrust_N=4000.0))
    assert row(high, "ahead")[My] - row(low, "ahead")[My] == pytest.approx(663 * (4000 - 3234))


@pytest.mark.parametrize("name", ["wave", "wave-light", "ahead", "ahead-light", "astern"])
def test_steered_straight_nothing_acts_sideways(name: str) -> None:
    """No side force, no twist, no turn: the propeller's torque belongs to the steered cases."""
    w = row(build_cases(forty()), name)
    assert w[[1, 3, 5]] == pytest.approx(np.zeros(3), abs=1e-6)
    assert abs(w[0]) > 500.0
