"""How much wood a nut reaches through its washer or plate, and what is left to carry round about it."""

from dataclasses import dataclass

from transom.formula import formula
from transom.maths import PI, maximum, minimum, positive, where
from transom.units import MM, MM2, MPA, ONE, N, Value


@formula(
    symbol="c",
    source="the plate reaches from the nut's flat as far as it is stiff, never past its own edge",
    evidence="convention",
    known_by="derived",
)
def reach_on_side(extent: MM, nut_across_flats: MM, m_t: MM) -> MM:
    """Half of the wood that works on one side of the bolt: to the plate's edge or to where it bends."""
    return minimum(extent, nut_across_flats / 2.0 + m_t)


@formula(
    symbol="D_e",
    source="the same reach round about a washer",
    evidence="convention",
    known_by="derived",
)
def working_diameter(outside: MM, nut_across_flats: MM, m_t: MM) -> MM:
    """Diameter of the washer that works: its own, or as far as it is stiff."""
    return minimum(outside, nut_across_flats + 2.0 * m_t)


@formula(
    symbol="a_e",
    source="square of the same perimeter as the washer",
    evidence="convention",
    known_by="derived",
)
def square_of_equal_perimeter(D_e: MM) -> MM:
    """Side of the square with the perimeter of a round washer."""
    return PI / 4.0 * D_e


@formula(symbol="A_net", source="area less the hole", evidence="published", known_by="derived")
def net_bearing_area(left: MM, right: MM, up: MM, down: MM, hole: MM) -> MM2:
    """Wood that bears: the rectangle reached on four sides less the hole."""
    return positive((left + right) * (up + down) - PI / 4.0 * hole * hole)


@formula(
    symbol="p_side",
    source="perimeter at t/2 outside the loaded area, corners rounded: 2(a + b) + pi t in all",
    evidence="convention",
    known_by="derived",
)
def side_length(reach_a: MM, reach_b: MM, edge_a: MM, edge_b: MM, t: MM) -> MM:
    """Length of one side with its share of the corners, ended at the board's edges or a neighbour's half."""
    corner = PI / 8.0 * t
    return positive(minimum(reach_a + corner, edge_a) + minimum(reach_b + corner, edge_b))


@formula(
    symbol="p_side",
    source="perimeter at t/2 outside the loaded area; a side past the edge carries nothing",
    evidence="convention",
    known_by="derived",
    typical={"reach": 20.0, "edge": 80.0, "length": 60.0, "t": 36.0},
)
def side_that_carries(reach: MM, edge: MM, length: MM, t: MM) -> MM:
    """The side's length where it lies inside the board, nothing where it would lie past the edge."""
    return where(reach + t / 2.0 < edge, length, 0.0 * length)


@formula(
    symbol="p",
    source="sum of the sides that carry",
    evidence="convention",
    known_by="derived",
)
def perimeter(left: MM, right: MM, up: MM, down: MM) -> MM:
    """Length of the perimeter through which the force slides into the board."""
    return left + right + up + down


@formula(
    symbol="tau",
    source="transverse shear V/(p t) raised by the lay-up's factor c; beam theory",
    evidence="published",
    known_by="derived",
)
def sliding_stress(V: N, p: MM, t: MM, c: ONE) -> MPA:
    """Stress that slides one ply over the next on the perimeter."""
    return c * V / (maximum(p, 0.001 * t) * t)


@formula(symbol="z", source="what is left of a length", evidence="published", known_by="derived")
def remaining(whole: MM, part: MM) -> MM:
    """What is left of a length, not below zero."""
    return positive(whole - part)


@formula(symbol="l/2", source="half of a length", evidence="published", known_by="derived")
def half_of(length: MM) -> MM:
    """Half of a length."""
    return length / 2.0


@dataclass(frozen=True)
class Patch:
    """The wood one bolt or pad works on: reach from its middle, net area, perimeter, each (n, v).

    `overhang` is how far the backing carries its pressure beyond the nut before it bends.
    """

    inner: Value
    outer: Value
    up: Value
    down: Value
    area: Value
    perimeter: Value
    overhang: Value


@dataclass(frozen=True)
class Edges:
    """Distance from the middle of a patch to where the wood ends, or a neighbour's half begins, mm."""

    inner: Value
    outer: Value
    up: Value
    down: Value


def perimeter_of(inner: Value, outer: Value, up: Value, down: Value, edges: Edges, t: Value) -> Value:
    """Perimeter at t/2 outside a rectangle, mm; sides past an edge carry nothing. Shapes broadcast."""
    level = side_length(inner, outer, edges.inner, edges.outer, t)
    upright = side_length(up, down, edges.up, edges.down, t)
    return perimeter(
        side_that_carries(inner, edges.inner, upright, t),
        side_that_carries(outer, edges.outer, upright, t),
        side_that_carries(up, edges.up, level, t),
        side_that_carries(down, edges.down, level, t),
    )
