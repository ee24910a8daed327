"""Our own short list of units as a Pint registry, which proves the units of formulas."""

from functools import cache
from typing import TYPE_CHECKING, Any

from transom.quantity.definitions import DEFINITIONS

if TYPE_CHECKING:
    import pint


@cache
def registry() -> "pint.UnitRegistry[Any]":
    """The registry of the units in `units.txt`; made once, keeps no cache and writes no file."""
    import pint

    return pint.UnitRegistry(str(DEFINITIONS), cache_folder=None)
