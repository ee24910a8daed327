"""Where loads change over: sweeps of several tilts, sides of steering, a second engine's place; each by hand."""

import numpy as np
import pytest

from tests.loads.engines import forty, kicker
from tests.loads.test_cases import Fx, Fy, Fz, Mx, My, Mz, row
from transom.loads.cases import build_cases
from transom.loads.road import tilt_steps


@pytest.mark.parametrize(
    "least, full, steps",
    [
        ([30.0, 20.0], [75.0, 65.0], (20, 30, 40, 50, 60, 70, 75)),
        ([20.0, 30.0], [65.0, 75.0], (20, 30, 40, 50, 60, 70, 75)),
        (20.0, 20.0, (20,)),
        (20.0, 30.0, (20, 30)),
        (20.0, 30.4, (20, 30, 31)),
    ],
)
def test_several_tilts_share_the_widest_sweep(least: object, full: object, steps: tuple[int, ...]) -> None:
    x = forty(tilt_from_rad=np.radians(least), tilt_to_rad=np.radians(full))
    assert tilt_steps(x) == steps


def test_either_side_of_steering_is_as_far() -> None:
    """3234 N turned by 35 degrees: 2649.1 ahead and 1854.9 aside, either way."""
    cases = build_cases(forty())
    for side, sense in (("starboard", -1.0), ("port", 1.0)):
        wrench = row(cases, f"hard-over-{side}")
        assert wrench[Fx] == pytest.approx(-3234 * np.cos(np.radians(35)))
        assert wrench[Fy] == pytest.approx(sense * 3234 * np.sin(np.radians(35)))


def test_a_strike_is_straight() -> None:
    """Half as much again as the thrust, 663 below the datum, and the weight 220 aft; nothing sideways."""
    for name in ("strike", "strike-light"):
        wrench = row(build_cases(forty()), name)
        assert wrench[Fx] == pytest.approx(1.5 * 3234)
        assert not np.any(wrench[[Fy, Mx, Mz]])
    assert row(build_cases(forty()), "strike")[My] == pytest.approx(1335 * 220 - 1.5 * 3234 * 663)


def test_an_idle_kicker_weighs_where_it_hangs() -> None:
    """40 kg, 300 to port and 160 aft, leg down; light 36 kg, swung up about (40, 20) by 75 degrees."""
    bare, both = build_cases(forty()), build_cases(forty(kicker=kicker()))
    W = 40 * 9.80665
    added = row(both, "ahead") - row(bare, "ahead")
    assert added == pytest.approx([0.0, 0.0, -W, 300 * W, 160 * W, 0.0], abs=0.5)
    light = row(both, "ahead-light") - row(bare, "ahead-light")
    assert light[Fz] == pytest.approx(-36 * 9.80665, abs=0.01)
    assert light[Mx] == pytest.approx(300 * 36 * 9.80665, abs=1.0)
    up = 40 + 120 * np.cos(np.radians(75)) - 100 * np.sin(np.radians(75))  # its centre, forward of the board now
    assert light[My] == pytest.approx(up * 36 * 9.80665, abs=1.0)
