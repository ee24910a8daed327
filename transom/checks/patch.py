"""How much wood a nut reaches through its washer or plate, and what is left to carry round about it."""

from collections.abc import Iterable
from dataclasses import dataclass

from transom.formula import formula
from transom.maths import PI, maximum, minimum, positive, sqrt, where
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


@formula(symbol="t_i", source="the thickness at which the perimeter at t/2 touches an edge", evidence="convention",
         known_by="derived", typical={"t": 36.0, "just_inside": 0.999999})  # fmt: skip
def thickness_at_edge(reach: MM, edge: MM, t: MM, just_inside: ONE = 0.999999) -> MM:
    """Thickness of a thinner board, up to t, whose perimeter still lies inside this edge."""
    return minimum(t, just_inside * positive(2.0 * (edge - reach)))


@formula(symbol="p", source="a board carries no less than a thinner one", evidence="convention", known_by="derived")
def perimeter_of_thinner(p_i: MM, t_i: MM, t: MM) -> MM:
    """Perimeter that, t thick, carries what p_i does t_i thick."""
    return p_i * t_i / t


def perimeter_of(
    inner: Value, outer: Value, up: Value, down: Value, edges: Edges, t: Value, lost: Value = 0.0
) -> Value:
    """Perimeter at t/2 outside a rectangle, mm, less what openings take; sides past an edge carry nothing.

    Where a thinner board's perimeter, not yet past the edge, carries more, that counts: thicker is never weaker.
    Shapes broadcast.
    """
    reaches, rooms = (inner, outer, up, down), (edges.inner, edges.outer, edges.up, edges.down)
    best = remaining(_ring(reaches, rooms, t), lost)
    for reach, room in zip(reaches, rooms, strict=True):
        t_i = thickness_at_edge(reach, room, t)
        best = maximum(best, perimeter_of_thinner(remaining(_ring(reaches, rooms, t_i), lost), t_i, t))
    return best


def _ring(reaches: tuple[Value, ...], rooms: tuple[Value, ...], t: Value) -> Value:
    """Perimeter at t/2 outside a rectangle in a board t thick, mm."""
    (inner, outer, up, down), (e_inner, e_outer, e_up, e_down) = reaches, rooms
    level = side_length(inner, outer, e_inner, e_outer, t)
    upright = side_length(up, down, e_up, e_down, t)
    return perimeter(
        side_that_carries(inner, e_inner, upright, t),
        side_that_carries(outer, e_outer, upright, t),
        side_that_carries(up, e_up, level, t),
        side_that_carries(down, e_down, level, t),
    )


@formula(symbol="c", source="Pythagoras: from a rectangle to the rim of a round hole", evidence="published",
         known_by="derived", typical={"y": 30.0, "D": 25.0})  # fmt: skip
def gap_to_hole(y: MM, z: MM, inner: MM, outer: MM, up: MM, down: MM, D: MM) -> MM:
    """Wood between a rectangle and a hole whose middle lies y outward and z below its bolt; negative inside."""
    past_y = positive(y - outer) + positive(-y - inner)
    past_z = positive(z - down) + positive(-z - up)
    return sqrt(past_y * past_y + past_z * past_z) - D / 2.0


@formula(symbol="D", source="an opening within half of the thickest board takes its diameter out of the perimeter",
         evidence="convention", known_by="derived", typical={"gap": 20.0, "D": 25.0, "near": 45.0})  # fmt: skip
def perimeter_lost(gap: MM, D: MM, near: MM = 45.0) -> MM:
    """Length of perimeter an opening takes."""
    return where(gap < near, D, 0.0 * D)


@formula(symbol="A", source="an opening under the backing bears nothing", evidence="convention", known_by="derived",
         typical={"gap": -5.0, "D": 25.0})  # fmt: skip
def area_lost(gap: MM, D: MM) -> MM2:
    """Bearing area an opening takes; all of it as soon as it reaches under (conservative)."""
    return where(gap < 0.0 * D, PI / 4.0 * D * D, 0.0 * D * D)


@formula(symbol="y", source="a hole seen from a bolt of either side", evidence="published", known_by="derived")
def outward_of(y_hole: MM, y: MM, side: ONE) -> MM:
    """How far a hole lies outward of the bolt at y on a side, +1 starboard, -1 port."""
    return side * y_hole - y


@formula(symbol="z", source="a hole seen from a bolt", evidence="published", known_by="derived")
def below_of(z_hole: MM, z: MM) -> MM:
    """How far a hole lies below a bolt."""
    return z_hole - z


@formula(symbol="sum", source="openings one after the other", evidence="published", known_by="derived")
def with_another(length: MM, more: MM) -> MM:
    """What several openings take of a length."""
    return length + more


@formula(symbol="sum", source="openings one after the other", evidence="published", known_by="derived")
def with_another_area(area: MM2, more: MM2) -> MM2:
    """What several openings take of an area."""
    return area + more


@dataclass(frozen=True)
class Lost:
    """What openings take of a patch: bearing area, mm², and perimeter, mm."""

    area: Value
    length: Value


def lost_to_openings(
    holes: Iterable[tuple[float, float, float]], y: Value, z: Value, reach: tuple[Value, Value, Value, Value]
) -> Lost:
    """What openings (y, down, diameter) take of a patch about a bolt at +-y, z; the worse of the two sides."""
    listed = list(holes)
    worst_area: Value = 0.0
    worst_length: Value = 0.0
    for side in (1.0, -1.0):
        area: Value = 0.0
        length: Value = 0.0
        for y_hole, z_hole, D in listed:
            gap = gap_to_hole(outward_of(y_hole, y, side), below_of(z_hole, z), *reach, D)
            area = with_another_area(area, area_lost(gap, D))
            length = with_another(length, perimeter_lost(gap, D))
        worst_area, worst_length = maximum(worst_area, area), maximum(worst_length, length)
    return Lost(worst_area, worst_length)
