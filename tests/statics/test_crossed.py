"""Crossed strips: worked by hand, beside an assembled frame, and at their limits."""

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.statics.contact import Pattern, bolt_tension, prying_factor
from transom.statics.crossed import KINDS, StripResult, crossed_strips

COMMON = Pattern(z_u=47.6, z_l=250.8, y_u=163.5, y_l=125.4, h=330.0, y_pad=140.0)
WOOD = {"E1": 7000.0, "E2": 4000.0, "G": 120.0, "G12": 500.0}
AHEAD = {"N": 3234.0, "M": 2437.7e3}
STRIKE = {"N": -4851.0, "M": -2922.6e3}


def strips(kind: str = "pod", t: float = 36.7, W: float = 610.0, H: float = 450.0, **other: object) -> StripResult:
    return crossed_strips(**{"kind": kind, "t": t, "W": W, "H": H, "bracket": COMMON, **WOOD, **other})


def test_worked_by_hand_40_hp_ahead() -> None:
    """Pod 610 x 450, t 36.7 mm, T 3234 N, no lean; own hand calculation, before any code."""
    r = strips(**AHEAD)
    worked = {"T_u": 3660, "C": 10553, "q1": 1990, "q2": 4306, "Mx": 1780, "My": 1960, "bottom_force": 4631}
    for name, value in worked.items():
        assert round(float(getattr(r, name))) == value, name
    assert round(float(bolt_tension(r.T_u, prying_factor(36.7), 0.0))) == 4487
    assert r.T_l == 0
    assert bool(r.valid)


def test_worked_by_hand_40_hp_strike() -> None:
    """The same board, gearcase pushed aft at 4851 N: figures as worked, to the moment's last digit."""
    r = strips(**STRIKE)
    assert float(r.T_l) == pytest.approx(7040, abs=1.5)
    assert float(bolt_tension(r.T_l, prying_factor(36.7), 0.0)) == pytest.approx(8633, abs=1.5)
    assert float(r.Mx) == pytest.approx(1933, abs=1)
    assert float(r.My) == pytest.approx(2607, abs=1)
    assert r.T_u == 0


def test_hand_moments_envelop_the_plates_by_the_stated_margin() -> None:
    """Orthotropic plate with shear deflection (own, computed): ahead T 3228, C 10 501, Mx 1551, My 1455,
    bottom 4466; strike Mx 1823, My 2376."""
    ahead, strike = strips(**AHEAD), strips(**STRIKE)
    assert 1.0 <= float(ahead.T_u) / 3228 <= 1.36
    assert float(ahead.C) / 10501 == pytest.approx(1.0, abs=0.02)
    assert float(ahead.bottom_force) / 4466 == pytest.approx(1.0, abs=0.05)
    for hand, plate in ((ahead.Mx, 1551), (ahead.My, 1455), (strike.Mx, 1823), (strike.My, 2376)):
        assert 1.0 <= float(hand) / plate <= 1.8


def frame(nodes: list[float], loads: list[float], springs: list[float], EI: float, GA: float) -> np.ndarray:
    """Forces in the springs that hold a Timoshenko beam (stiffness assembled from exact elements)."""
    n = len(nodes)
    K = np.zeros((2 * n, 2 * n))
    for i in range(n - 1):
        L = nodes[i + 1] - nodes[i]
        p = 12 * EI / (GA * L * L)
        c = EI / (L**3 * (1 + p))
        k = c * np.array([
            [12, 6 * L, -12, 6 * L], [6 * L, (4 + p) * L * L, -6 * L, (2 - p) * L * L],
            [-12, -6 * L, 12, -6 * L], [6 * L, (2 - p) * L * L, -6 * L, (4 + p) * L * L]])  # fmt: skip
        K[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += k
    K[range(0, 2 * n, 2), range(0, 2 * n, 2)] += springs
    F = np.zeros(2 * n)
    F[::2] = loads
    return np.asarray(np.linalg.solve(K, F)[::2] * np.array(springs))


RIGID = 1e9


def stiffness(r: StripResult, row: int, t: float, W: float) -> float:
    """A strip across on its own: two loads in the middle of its span, bending and shear."""
    a, b = (float(r.a1), float(r.b1)) if row == 1 else (float(r.a2), float(r.b2))
    return 1 / (a * a * (3 * W - 4 * a) / (6 * 7000 * b * t**3 / 12) + a / (5 / 6 * 120 * b * t))


@pytest.mark.parametrize("load", [AHEAD, STRIKE, {"N": -5000.0, "M": -5000.0 * 150}])
@pytest.mark.parametrize("kind", KINDS)
def test_shared_forces_are_those_of_an_assembled_frame(kind: str, load: dict[str, float]) -> None:
    t, W, H = 40.0, 560.0, 520.0
    r = strips(kind, t=t, W=W, H=H, **load)
    z1, z2, P1, P2 = (float(x) for x in (r.z1, r.z2, r.P1, r.P2))
    springs = [stiffness(r, 1, t, W), stiffness(r, 2, t, W)]
    nodes, loads = [z1, z2], [P1, -P2]
    if kind == "cap rail":
        nodes, loads, springs = [0.0, *nodes], [0.0, *loads], [RIGID, *springs]
    if kind == "uprights":
        end = z2 + (z2 - z1) / 2
        b3, a = H - end, float(r.a2)
        f3 = a * a * (3 * W - 4 * a) / (6 * 7000 * b3 * t**3 / 12) + a / (5 / 6 * 120 * b3 * t)
        nodes, loads, springs = [*nodes, (end + H) / 2], [*loads, 0.0], [*springs, 1 / f3]
    else:
        nodes, loads, springs = [*nodes, H], [*loads, 0.0], [*springs, RIGID]
    b_v = float(r.b_v)
    held = frame(nodes, loads, springs, 4000 * b_v * t**3 / 12, 5 / 6 * 120 * b_v * t)
    first = 1 if kind == "cap rail" else 0
    assert P1 - float(r.q1) == pytest.approx(held[first], rel=1e-3, abs=1)
    assert P2 - float(r.q2) == pytest.approx(-held[first + 1], rel=1e-3, abs=1)
    if kind == "pod":
        sense = 1 if r.T_u == P1 else -1
        assert float(r.bottom_force) == pytest.approx(-2 * sense * held[2], rel=1e-3, abs=1)


def assert_all_finite(r: StripResult) -> None:
    for f in fields(r):
        assert np.isfinite(np.asarray(getattr(r, f.name), dtype=float)).all(), f.name


@given(
    kind=st.sampled_from(KINDS), N=st.floats(-15e3, 15e3), M=st.floats(-10e6, 10e6), t=st.floats(10, 120),
    W=st.floats(150, 1200), H=st.floats(120, 900), h=st.floats(50, 500), z_u=st.floats(20, 150),
    rows=st.floats(-20, 300), y=st.floats(40, 300),
)  # fmt: skip
def test_any_geometry_gives_finite_numbers(
    kind: str, N: float, M: float, t: float, W: float, H: float, h: float, z_u: float, rows: float, y: float
) -> None:
    bracket = Pattern(z_u=z_u, z_l=z_u + rows, y_u=y, y_l=0.8 * y, h=h, y_pad=0.9 * y)
    r = strips(kind, t=t, W=W, H=H, N=N, M=M, bracket=bracket)
    assert_all_finite(r)
    assert min(float(x) for x in (r.Mx, r.My, r.Mxy, r.side_pull, r.T_u, r.T_l, r.C)) >= 0


@given(N=st.floats(-8e3, 8e3), M=st.floats(-5e6, 5e6), H=st.floats(350, 700))
def test_no_strip_across_is_dropped_where_the_strip_up_takes_nothing(N: float, M: float, H: float) -> None:
    r = strips("uprights", H=H, W=450.0, N=N, M=M)
    if float(r.q1) == 0.0 == float(r.q2):
        across = max(abs(float(r.P1)) * r.a1 / r.b1, abs(float(r.P2)) * r.a2 / r.b2)
        assert float(r.Mx) >= across - 1e-9


@pytest.mark.parametrize("kind", KINDS)
def test_more_moment_never_bends_the_board_less(kind: str) -> None:
    M = np.linspace(3234.0 * 264, 8e6, 400)
    r = strips(kind, N=3234.0, M=M)
    for name in ("T_u", "C", "Mx", "My", "Mxy", "side_pull"):
        assert (np.diff(getattr(r, name)) >= -1e-9).all(), name


@pytest.mark.parametrize("kind", KINDS)
def test_moments_grow_in_proportion_to_the_load(kind: str) -> None:
    one, three = strips(kind, **AHEAD), strips(kind, N=3 * 3234.0, M=3 * 2437.7e3)
    for name in ("T_u", "C", "q1", "q2", "Mx", "My", "Mxy", "side_pull", "bottom_force", "top_force"):
        assert float(getattr(three, name)) == pytest.approx(3 * float(getattr(one, name)))


def test_a_stiffer_strip_up_takes_more_and_relieves_the_strips_across() -> None:
    soft, common, stiff = (strips(**{**WOOD, "E2": E2}, **AHEAD) for E2 in (40.0, 4000.0, 400_000.0))
    assert float(soft.q1) < float(common.q1) < float(stiff.q1)
    assert float(soft.Mx) > float(common.Mx)
    assert float(soft.My) < float(common.My) < float(stiff.My)


def test_twist_follows_the_span_and_the_panel() -> None:
    narrow, middle, wide, wider = (strips(W=W, **AHEAD) for W in (500.0, 610.0, 750.0, 1030.0))
    P = float(middle.C) / 2
    assert [float(r.Mxy) / P for r in (narrow, middle, wide, wider)] == pytest.approx([0.075, 0.075, 0.1, 0.15])
    assert float(strips(**{**WOOD, "G12": 300.0}, **AHEAD).Mxy) == pytest.approx(0.6 * float(middle.Mxy))
    uprights = strips("uprights", W=450.0, **AHEAD)
    assert float(uprights.Mxy) / P == pytest.approx(0.4 * (225 - 163.5) / 450)
    assert float(strips("cap rail", **AHEAD).Mxy) / P == pytest.approx(0.035)


def test_both_rows_pulling_are_loads_of_one_sense() -> None:
    r = strips(N=-5000.0, M=-5000.0 * 150)
    assert bool(r.lifted)
    assert float(r.P1) > 0 > float(r.P2)
    assert float(r.C) == pytest.approx(0, abs=1e-9)
    assert float(r.side_pull) >= 2500.0


def test_reverse_pull_on_the_side_line_is_at_least_the_lower_strips() -> None:
    r = strips("uprights", W=450.0, H=380.0, **STRIKE)
    assert float(r.side_pull) >= float(r.T_l) - float(r.q2)
    assert float(r.T_l) > 4851  # a lever: more than the push itself


def test_pads_below_the_board_bear_on_nothing() -> None:
    low, cut = (
        strips(H=300.0, **AHEAD),
        strips(H=300.0, **AHEAD, bracket=Pattern(47.6, 250.8, 163.5, 125.4, 300.0, 140.0)),
    )
    assert float(low.T_u) == float(cut.T_u) > float(strips(**AHEAD).T_u)


@pytest.mark.parametrize(
    "change", [{"t": 24.9}, {"t": 90.1}, {"W": 300.0}, {"H": 260.0, **STRIKE}], ids=["thin", "thick", "narrow", "low"]
)
def test_outside_what_the_method_was_set_on_is_flagged(change: dict[str, float]) -> None:
    assert bool(strips(**AHEAD).valid)
    assert not bool(strips(**{**AHEAD, **change}).valid)


@pytest.mark.parametrize("kind", KINDS)
def test_arrays_give_what_scalars_give(kind: str) -> None:
    rng = np.random.default_rng(5)
    t, E1 = np.linspace(25, 90, 6)[:, None], np.linspace(4000, 8000, 6)[:, None]
    N, M = rng.uniform(-8e3, 8e3, 40), rng.uniform(-4e6, 4e6, (6, 40))
    r = strips(kind, t=t, N=N, M=M, **{**WOOD, "E1": E1})
    assert (r.C + r.T_u + r.T_l > 0).all()  # pads or bolts carry something in each
    for i, j in ((0, 0), (3, 17), (5, 39), (2, 8)):
        one = strips(kind, t=float(t[i, 0]), N=N[j], M=M[i, j], **{**WOOD, "E1": float(E1[i, 0])})
        for f in fields(r):
            many = np.broadcast_to(getattr(r, f.name), (6, 40))
            assert many[i, j] == pytest.approx(np.asarray(getattr(one, f.name)).item(), rel=1e-12), f.name


def test_a_kind_of_support_nobody_knows_is_refused() -> None:
    with pytest.raises(ValueError, match="pod, uprights, cap rail"):
        strips("springs", **AHEAD)


def test_the_bracket_bears_where_it_says_when_pulled_backwards() -> None:
    """Clamps hook over the top edge: the push lies higher than that of a pad."""
    hooked = Pattern(47.6, 250.8, 163.5, 125.4, 330.0, 140.0, top_share=0.05)
    r = strips(bracket=hooked, **STRIKE)
    assert float(r.z1) == pytest.approx(16.5)
    assert float(r.T_l) == pytest.approx((2922.6e3 - 16.5 * 4851) / (2 * (250.8 - 16.5)))


@pytest.mark.parametrize(
    "other, valid",
    [
        ({"t": 25.0}, True), ({"t": 24.9}, False), ({"t": 90.0}, True), ({"t": 90.1}, False),
        ({"W": 328.0}, True), ({"W": 330.0}, True), ({"W": 326.0}, False),  # bolts 163.5 off the middle, inside the side lines
    ],
)  # fmt: skip
def test_the_method_says_what_it_was_set_on(other: dict[str, float], valid: bool) -> None:
    assert bool(strips(**AHEAD, **other).valid) is valid  # type: ignore[arg-type]


@pytest.mark.parametrize("H, valid", [(270.9, True), (270.7, False)])
def test_20_mm_of_board_are_left_below_the_lower_row(H: float, valid: bool) -> None:
    """Struck, the lower bolts at 250.8 pull."""
    assert bool(strips(H=H, **STRIKE).valid) is valid


@pytest.mark.parametrize("H, third", [(402.0, False), (402.5, True), (404.0, True)])
def test_over_30_mm_of_board_below_the_lower_strip_are_a_third(H: float, third: bool) -> None:
    """Uprights ahead: rows at 47.6 and 264, so the lower strip ends at 264 + 108.2 = 372.2."""
    assert bool(strips("uprights", H=H, **AHEAD).q1 > 0) is third
