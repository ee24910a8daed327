"""Moments of a board per width, whichever method gives them."""

from transom.frozen import dataclass
from transom.units import Array


@dataclass(frozen=True)
class Moments:
    """Moments per width, N: across, up and twist, each (places or n, v)."""

    Mx: Array
    My: Array
    Mxy: Array
