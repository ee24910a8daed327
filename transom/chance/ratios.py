"""The careful method under scatter: the pencil's utilisation times the ratio of the two at the middle of everything,
and how that ratio changes, to first order, with each number that reshapes how the board shares its forces out."""

from collections.abc import Callable, Mapping

import numpy as np

from transom.chance.scene import Scene, loaded
from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.judge.evaluate import STEADY, Calibration, Key, calibrate, careful_of, key_of, quick_look
from transom.result import CheckArray
from transom.units import Array

Method = Callable[[Trial], Careful]


@dataclass(frozen=True)
class Ratios:
    """Ratio and addition at the middle, (v,), and their slopes by check, (a, v), for the columns `of` (a,) of z."""

    middle: Calibration
    of: tuple[int, ...] = ()
    times: Mapping[Key, Array] | None = None
    plus: Mapping[Key, Array] | None = None
    solves: int = 1

    def applied(self, check: CheckArray, z: Array) -> Array:
        """The pencil's utilisations (n, v) at samples z (n, k) as the careful method would have them."""
        key = key_of(check)
        if key not in self.middle.times:
            return check.utilisation
        times, plus = self.middle.times[key], self.middle.plus[key]
        if self.times is None or self.plus is None or not self.of:
            return np.asarray(check.utilisation * times + plus)
        some = z[:, list(self.of)]
        many = np.clip(times + some @ self.times[key], *STEADY)
        return np.asarray(check.utilisation * many + np.maximum(plus + some @ self.plus[key], 0.0))


def at_middle(scene: Scene) -> Ratios:
    """Careful over pencil with everything at its middle, in all cases of the scene: one solve."""
    return Ratios(_calibrated(scene, np.zeros(len(scene.scatters))))


def with_slopes(scene: Scene, of: tuple[int, ...]) -> Ratios:
    """The same with its slopes in the columns `of`: a solve one standard deviation either side of each, on the one
    coarse grid that is within a few percent, whose error both sides share."""
    k = len(scene.scatters)
    middle = _calibrated(scene, np.zeros(k))
    either = [(_calibrated(scene, _unit(k, i), quick_look), _calibrated(scene, -_unit(k, i), quick_look)) for i in of]
    times = {key: np.array([_half(up.times[key], down.times[key]) for up, down in either]) for key in middle.times}
    plus = {key: np.array([_half(up.plus[key], down.plus[key]) for up, down in either]) for key in middle.times}
    return Ratios(middle, of, times, plus, 1 + 2 * len(of))


def _calibrated(scene: Scene, z: Array, method: Method = careful_of) -> Calibration:
    trial = scene.at(z[None])
    return calibrate(loaded(trial), loaded(method(trial)))


def _unit(k: int, i: int) -> Array:
    return np.asarray(np.eye(k)[i])


def _half(up: Array, down: Array) -> Array:
    return np.asarray((up - down) / 2.0)
