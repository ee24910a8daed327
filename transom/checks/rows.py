"""What the two bolts, or the pads, of a row carry by the plate."""

from transom.formula import formula
from transom.units import N


@formula(symbol="T + dT", source="tension and what two grids have yet to go", evidence="convention", known_by="derived")
def tension_with_error(T: N, dT: N) -> N:
    """Bolt tension on the safe side of the grid's error."""
    return T + dT


@formula(symbol="V_m", source="bolts, or pads, of both sides", evidence="published", known_by="derived")
def mean_of_two(port: N, starboard: N) -> N:
    """Mean force of the two of a row."""
    return (port + starboard) / 2.0
