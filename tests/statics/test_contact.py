"""Bracket on bolts and pads: equilibrium in every state, continuity between them, never unsafe."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.statics.contact import (
    Pattern,
    bolt_tension,
    bracket_contact,
    couple_tension,
    prying_factor,
)

COMMON = Pattern(z_u=47.6, z_l=250.8, y_u=163.5, y_l=125.4, h=330.0, y_pad=140.0)
forces = st.floats(-20e3, 20e3)
moments = st.floats(-15e6, 15e6)


@given(forces, moments)
def test_bolts_and_pads_balance_force_and_moment(N: float, M: float) -> None:
    c = bracket_contact(N, M, COMMON)
    T_u, T_l, C = float(c.T_u), float(c.T_l), float(c.C)
    assert min(T_u, T_l, C) >= 0
    assert 2 * T_u + 2 * T_l - C == pytest.approx(-N, abs=1e-6)
    held = 2 * T_u * COMMON.z_u + 2 * T_l * COMMON.z_l + M
    if C > 1e-6:
        assert 0.2 * COMMON.h - 1e-6 <= held / C <= 0.8 * COMMON.h + 1e-6
    else:
        assert held == pytest.approx(0, abs=1e-3)


@given(forces, moments)
def test_tension_is_never_below_the_pull_off_the_board(N: float, M: float) -> None:
    c = bracket_contact(N, M, COMMON)
    assert 2 * (c.T_u + c.T_l) >= -N - 1e-6


@given(st.floats(-20e3, 20e3))
def test_tension_is_continuous_in_the_moment(N: float) -> None:
    M = np.linspace(-3e6, 6e6, 9001)
    c = bracket_contact(N, M, COMMON)
    steepest = np.diff(M)[0] / (2 * min(0.8 * 330 - 47.6, 250.8 - 0.2 * 330, 250.8 - 47.6))
    for T in (c.T_u, c.T_l):
        assert np.abs(np.diff(T)).max() <= steepest * (1 + 1e-9)
    assert (np.diff(c.T_u) >= -1e-9).all()
    assert (np.diff(c.T_l) <= 1e-9).all()


def test_four_bolts_share_a_pull_between_the_rows_as_a_lever_does() -> None:
    middle = (COMMON.z_u + COMMON.z_l) / 2
    c = bracket_contact(-4000.0, -4000.0 * middle, COMMON)
    assert bool(c.lifted)
    assert (float(c.T_u), float(c.T_l), float(c.C)) == pytest.approx((1000.0, 1000.0, 0.0))


def test_a_push_within_the_pads_needs_no_bolt() -> None:
    c = bracket_contact(1000.0, 1000.0 * 165, COMMON)
    assert bool(c.pressed)
    assert (float(c.T_u), float(c.T_l), float(c.C)) == (0.0, 0.0, 1000.0)


@pytest.mark.parametrize("N, M", [(np.nan, 1e6), (1e3, np.nan)])
def test_not_a_number_stays_one(N: float, M: float) -> None:
    c = bracket_contact(N, M, COMMON)
    assert np.isnan(max(c.T_u, c.T_l, key=np.isnan))


def test_pads_shorter_than_the_bolts_give_a_huge_tension_not_a_division_by_zero() -> None:
    short = Pattern(z_u=90.0, z_l=90.0, y_u=100.0, y_l=100.0, h=100.0, y_pad=100.0)
    c = bracket_contact(0.0, 1e6, short)
    assert np.isfinite(c.T_u)
    assert c.T_u >= 1e6 / 2


def test_rigid_bracket_on_springs_never_pulls_its_worse_row_harder_than_the_lever() -> None:
    """Independent model: rigid bracket, tension-only bolts, compression-only pads, pulled between rows."""
    pads = np.linspace(0, 330, 67)
    z = np.concatenate([pads, [47.6, 250.8]])
    k = np.concatenate([np.full(67, 400.0), [2e4, 2e4]])
    pulls = np.concatenate([np.full(67, -1.0), [1.0, 1.0]])
    for p in np.linspace(50, 248, 12):
        on = np.ones(z.size, dtype=bool)
        for _ in range(60):
            K = np.array([[np.sum(k[on] * z[on] ** i * z[on] ** j) for j in (0, 1)] for i in (0, 1)])
            u = np.linalg.solve(K, [1000.0, 1000.0 * p])
            now = pulls * (u[0] + u[1] * z) > 0
            if (now == on).all():
                break
            on = now
        rows = np.where(on[-2:], k[-2:] * (u[0] + u[1] * z[-2:]), 0)
        c = bracket_contact(-1000.0, -1000.0 * p, COMMON)
        assert rows.max() / 2 <= max(c.T_u, c.T_l) * (1 + 1e-9)


def test_thin_boards_pry_and_the_couple_adds_on_the_worse_side() -> None:
    """Worked by hand for 36.7 mm: 3660 N becomes 4487 N, 7040 becomes 8633 (own, computed)."""
    assert bolt_tension(3659.7135, prying_factor(36.7), 0.0) == pytest.approx(4487, abs=0.5)
    assert bolt_tension(7041.2175, prying_factor(36.7), 0.0) == pytest.approx(8633, abs=1)
    assert prying_factor(60.0) == 1.0
    assert couple_tension(-6e5, 150.0) == pytest.approx(1000.0)


@pytest.mark.parametrize(
    "N, M, flags",
    [
        (3000.0, 2.5e6, (True, False, False)),  # the upper row pulls against the foot
        (-3000.0, -1.4e6, (False, False, False)),  # the lower row against the top, half a meter down
        (-3000.0, -0.42e6, (True, True, False)),  # pulled off 140 down: both rows, the upper one as much and more
        (3000.0, 0.45e6, (None, False, True)),  # pushed on 150 down, within the pads: none
    ],
)
def test_which_rows_pull(N: float, M: float, flags: tuple[bool | None, bool, bool]) -> None:
    """Both rows at once, or none, are told from one alone."""
    c = bracket_contact(N, M, COMMON)
    ahead, lifted, pressed = flags
    assert (bool(c.lifted), bool(c.pressed)) == (lifted, pressed)
    assert ahead is None or bool(c.ahead) is ahead
    assert (float(c.T_u) > 0, float(c.T_l) > 0) == (lifted or ahead is True, lifted or ahead is False)
