"""Flexibilities the strips use, against a numerical integration of their beams (unit load method)."""

import numpy as np
import pytest

from transom.statics.beams import span_influence, two_load_flexibility, two_overhang_flexibility

EI, GA = 3e9, 2e5


def simple_moment(s: np.ndarray, at: float, span: float) -> np.ndarray:
    """Moment of a simple span under one newton at a place between its ends."""
    return np.where((s >= 0) & (s <= span), np.minimum(s * (1 - at / span), at / span * (span - s)), 0)


def below(y: np.ndarray, x: np.ndarray) -> float:
    """The area below y over x; numpy's own goes by another name from version 2 on."""
    return float(np.sum((y[1:] + y[:-1]) * np.diff(x)) / 2)


@pytest.mark.parametrize("a", [30.0, 90.0, 250.0])
def test_two_loads_on_a_simple_span(a: float) -> None:
    W = 500.0
    s = np.linspace(0, W, 200_001)
    one, two = simple_moment(s, a, W), simple_moment(s, W - a, W)
    assert two_load_flexibility(a, W, EI) == pytest.approx(below(one * (one + two), s) / EI, rel=1e-6)


def test_two_loads_outside_their_supports() -> None:
    """Both arms bend as cantilevers and the span between by the same moment."""
    e, W = 40.0, 300.0
    s = np.linspace(0, e, 20_001)
    arm = below(s * s, s) / EI
    assert two_overhang_flexibility(e, W, EI) == pytest.approx(arm + e * e * W / 2 / EI, rel=1e-6)


@pytest.mark.parametrize("x, z", [(50.0, 50.0), (50.0, 300.0), (200.0, 400.0)])
def test_influence_with_shear(x: float, z: float) -> None:
    H = 450.0
    s = (np.arange(400_000) + 0.5) * H / 400_000
    m_x, m_z = simple_moment(s, x, H), simple_moment(s, z, H)
    v_x, v_z = np.where(s < x, 1 - x / H, -x / H), np.where(s < z, 1 - z / H, -z / H)
    expected = (np.sum(m_x * m_z) / EI + np.sum(v_x * v_z) / GA) * H / s.size
    assert span_influence(x, z, H, EI, GA) == pytest.approx(expected, rel=1e-5)
