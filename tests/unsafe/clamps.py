"""Cards of a 9.9 hp engine on clamp screws: 60 down, 100 out, pads 44 across, bracket to 220; a wedge 11 down backwards."""

from math import pi

from tests.checks.shop import alone, trial
from tests.checks.test_clamps import BOARD, CLAMPED
from tests.unsafe.cards import Card
from tests.unsafe.hand import PRY, K, T, times
from transom.checks.trial import Trial

AHEAD = (-1000.0, 0.0, -600.0, 0.0, 5e5, 0.0)
BACK = (700.0, 300.0, -400.0, 0.0, -4e5, 1e5)


def under(*load: float, k: float = 1.0) -> Trial:
    """The clamped board under so many times one design wrench."""
    return trial(CLAMPED, BOARD, alone(load, times=k))


def crushed(k: float, load: tuple[float, ...], top: bool, wedge: float = 11.0, foot: float = 176.0, lever: float = T / 2, couple: float = 1.0,
            pry: float = PRY, f: float = 3 * 2.24 * K, screws: float = 2.0) -> float:  # fmt: skip
    """A screw's push over 3 f_c,90,d on its swivel pad: levers of 116 to the foot, 49 to the wedge under the top edge."""
    F_x, F_y, F_z, _, M_y, M_z = times(load, k)
    M = M_y - F_z * lever
    push = (M + foot * F_x) / (foot - 60) if top else (-M - wedge * F_x) / (60 - wedge)
    return (max(push, 0.0) / screws * pry + couple * abs(M_z + F_y * lever) / 400) / (f * pi / 4 * 44**2)


CARDS = (
    Card("backing.wood-crushing-upper-bolts.ec5", lambda k: under(*AHEAD, k=k), lambda k, **s: crushed(k, AHEAD, True, **s), {
        "foot at the pads' end": {"foot": 220.0}, "prying forgotten": {"pry": 1.0}, "characteristic": {"f": 6.72}, "four screws": {"screws": 4.0},
    }),
    Card("backing.wood-crushing-lower-bolts.ec5", lambda k: under(*BACK, k=k), lambda k, **s: crushed(k, BACK, False, **s), {
        "a bolt's lever": {"wedge": -140.0}, "right at the edge": {"wedge": 0.0}, "couple forgotten": {"couple": 0.0}, "prying forgotten": {"pry": 1.0}, "characteristic": {"f": 6.72},
    }),
)  # fmt: skip
