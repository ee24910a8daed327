"""EN 1995-1-1, 8.5.1: how far bolts stay from edges, ends and one another, and bolts in a row.

alpha is the acute angle between load and face grain, 0 to 90 degrees, in radians.
"""

from transom.formula import formula
from transom.maths import PI, absolute, cos, maximum, minimum, sin
from transom.units import MM, ONE, RAD

_BOLT = {"d": 12.0, "alpha": 0.9, "least": 80.0}


@formula(symbol="a_1", source="EN 1995-1-1:2004, Table 8.4", typical=_BOLT)
def spacing_along(d: MM, alpha: RAD) -> MM:
    """Smallest distance between bolts along the grain."""
    return (4 + absolute(cos(alpha))) * d


@formula(symbol="a_2", source="EN 1995-1-1:2004, Table 8.4", typical=_BOLT)
def spacing_across(d: MM) -> MM:
    """Smallest distance between bolts across the grain."""
    return 4 * d


@formula(symbol="a_3,t", source="EN 1995-1-1:2004, Table 8.4", typical=_BOLT)
def loaded_end(d: MM, least: MM = 80.0) -> MM:
    """Smallest distance to an end the load pushes toward."""
    return maximum(7 * d, least)


@formula(symbol="a_3,c", source="EN 1995-1-1:2004, Table 8.4", typical=_BOLT)
def unloaded_end(d: MM, alpha: RAD) -> MM:
    """Smallest distance to an end the load pushes away from; 4 d only up to 30 degrees."""
    return maximum((1 + 6 * absolute(sin(alpha))) * d, 4 * d)


@formula(symbol="a_4,t", source="EN 1995-1-1:2004, Table 8.4", typical=_BOLT)
def loaded_edge(d: MM, alpha: RAD) -> MM:
    """Smallest distance to an edge the load pushes toward."""
    return maximum((2 + 2 * absolute(sin(alpha))) * d, 3 * d)


@formula(symbol="a_4,c", source="EN 1995-1-1:2004, Table 8.4", typical=_BOLT)
def unloaded_edge(d: MM) -> MM:
    """Smallest distance to an edge the load pushes away from."""
    return 3 * d


@formula(symbol="e_min", source="upper row of cross-banded plywood boards", evidence="convention",
         known_by="derived", typical={"d": 12.0})  # fmt: skip
def cross_banded_loaded_edge_floor(d: MM) -> MM:
    """Smallest loaded edge distance accepted in cross-banded plywood, with the resistance reduced."""
    return 3.5 * d


@formula(symbol="k_e", source="upper row of cross-banded plywood boards", evidence="convention",
         known_by="derived", typical={"e": 45.0, "d": 12.0})  # fmt: skip
def cross_banded_edge_factor(e: MM, d: MM) -> ONE:
    """Share of the sideways resistance left at a loaded edge distance e below 4 d."""
    return minimum(e / (4 * d), 1)


@formula(symbol="n_ef", source="EN 1995-1-1:2004, 8.5.1.1(4) (8.34)", known_by="memory",
         typical={"n": 3.0, "a_1": 60.0, "d": 12.0})  # fmt: skip
def effective_number(n: ONE, a_1: MM, d: MM) -> ONE:
    """Bolts that count out of n in one row along the grain, a_1 apart, loaded along the row."""
    return minimum(n, n**0.9 * (a_1 / (13 * d)) ** 0.25)


@formula(symbol="n_ef,alpha", source="EN 1995-1-1:2004, 8.5.1.1(5)", known_by="memory",
         typical={"n": 3.0, "n_ef": 2.4, "alpha": 0.9})  # fmt: skip
def effective_number_at_angle(n: ONE, n_ef: ONE, alpha: RAD) -> ONE:
    """Bolts that count at the angle alpha: n_ef along the grain, all across it, straight between them."""
    return n_ef + (n - n_ef) * alpha / (PI / 2)
