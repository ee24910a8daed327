"""Text with units to working units and back; the only room that imports Pint.

Reading (`read`, `read_range`) is by a grammar of our own and by factors read from `units.txt`, which Pint is given
too (`registry`) to prove formulas and, in tests, these factors. Showing lives in `transom.quantity.show`,
which needs neither Pint nor numpy.
"""

from transom.quantity.read import is_unmeasured, read, read_range
from transom.quantity.refusal import QuantityError
from transom.quantity.registry import registry

__all__ = ["QuantityError", "is_unmeasured", "read", "read_range", "registry"]
