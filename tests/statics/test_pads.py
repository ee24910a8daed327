"""The block of pressure at the foot, at the top, or under the push alone."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.statics.pads import pad_block

PADS = {"f": 3.0, "b": 140.0, "h": 330.0, "z_u": 47.6, "z_l": 250.8}


@given(st.floats(-10e3, 10e3), st.floats(-8e6, 8e6))
def test_the_block_is_in_equilibrium_with_the_bolts(N: float, M: float) -> None:
    y = float(pad_block(N=N, M=M, **PADS).y)
    F = PADS["f"] * PADS["b"]
    assert y >= 0
    assert not np.isnan(y)
    if not np.isfinite(y) or y == 0:
        return
    S = F * y - N
    foot = S * (330 - y / 2 - 47.6) - (M - N * (330 - y / 2))
    top = S * (250.8 - y / 2) - (N * y / 2 - M)
    alone = F * y - N
    assert min(abs(foot), abs(top), abs(alone) * 330) == pytest.approx(0, abs=1e-3)
    assert S >= -1e-6


def test_no_block_holds_a_moment_beyond_the_pads() -> None:
    assert pad_block(N=0.0, M=30e6, **PADS).y == np.inf
    assert pad_block(N=0.0, M=-30e6, **PADS).y == np.inf
    assert pad_block(N=np.nan, M=1e6, **PADS).y == np.inf
    assert pad_block(N=0.0, M=1e3, **{**PADS, "z_u": 400.0}).y == np.inf


def test_equal_and_opposite_moments_need_equal_blocks_on_a_symmetrical_bracket() -> None:
    even = {"f": 3.0, "b": 140.0, "h": 300.0, "z_u": 50.0, "z_l": 250.0}
    up = pad_block(N=0.0, M=3e6, **even)
    down = pad_block(N=0.0, M=-3e6, **even)
    assert up.y == pytest.approx(float(down.y))
    assert up.limit == 150.0


def test_a_larger_moment_or_weaker_wood_needs_a_taller_block() -> None:
    M = np.linspace(2000.0 * 100, 8e6, 200)  # from a push within the pads on
    y = pad_block(N=2000.0, M=M, **PADS).y
    assert (np.diff(y) >= 0).all()
    weaker = pad_block(N=2000.0, M=M, **{**PADS, "f": 2.5}).y
    assert (weaker >= y).all()
    assert y[-1] > 2 * y[0] > 0


def test_arrays_give_what_scalars_give() -> None:
    N, M = np.array([-2e3, 1e3, 5e3]), np.array([[1e6], [-2e6]])
    y = pad_block(N=N, M=M, **PADS).y
    assert y.shape == (2, 3)
    assert y[1, 2] == pad_block(N=5e3, M=-2e6, **PADS).y
