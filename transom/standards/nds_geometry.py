"""NDS 2018, 12.5.1: end, edge and spacing of bolts, each full distance with its floor.

Below a floor the document does not permit the bolt: the geometry factor is zero there.
"""

from transom.formula import formula
from transom.maths import maximum, minimum, where
from transom.units import MM, ONE

_BOLT = {"D": 12.7, "l": 50.0, "s_row": 40.0, "c": 7.0}
_DISTANCE = {"actual": 40.0, "full": 50.0, "floor": 25.0, "slack": 1e-9}


@formula(symbol="C_Delta", source="NDS 2018, 12.5.1", typical=_DISTANCE)
def geometry_factor(actual: MM, full: MM, floor: MM, slack: ONE = 1e-9) -> ONE:
    """Share of the load a distance allows: actual/full, at most one, nothing below the floor.

    `slack` keeps a distance converted from inches from falling below its own floor.
    """
    share = minimum(actual / full, 1)
    return where(actual * (1 + slack) < floor, 0 * share, share)


@formula(symbol="e_end", source="NDS 2018, Table 12.5.1A", typical={**_BOLT, "c": 7.0})
def end_distance(D: MM, c: ONE = 7.0) -> MM:
    """End distance: c is 7 full and 3.5 floor for tension along softwood (hardwood 5 and 2.5), and 4
    full and 2 floor for compression along the grain and for load across it."""
    return c * D


@formula(symbol="e_edge", source="NDS 2018, Table 12.5.1C", typical=_BOLT)
def edge_along(D: MM, l: MM, s_row: MM) -> MM:  # noqa: E741 the source's symbol
    """Edge distance under load along the grain: 1.5 D, or half the row spacing if larger where l/D > 6."""
    return where(l > 6 * D, maximum(1.5 * D, s_row / 2), 1.5 * D)


@formula(symbol="e_edge", source="NDS 2018, Table 12.5.1C", typical=_BOLT)
def loaded_edge(D: MM) -> MM:
    """Distance to the edge that load across the grain pushes toward; it is also the floor."""
    return 4 * D


@formula(symbol="e_edge", source="NDS 2018, Table 12.5.1C", typical=_BOLT)
def unloaded_edge(D: MM) -> MM:
    """Distance to the edge that load across the grain pushes away from; it is also the floor."""
    return 1.5 * D


@formula(symbol="s_row", source="NDS 2018, Table 12.5.1D", typical=_BOLT)
def row_spacing_across(D: MM, l: MM) -> MM:  # noqa: E741 the source's symbol
    """Spacing between rows under load across the grain: 2.5 D at l/D of 2 to 5 D at 6, straight between."""
    return (5 * minimum(maximum(l, 2 * D), 6 * D) + 10 * D) / 8
