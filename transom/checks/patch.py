"""How much wood a nut reaches through its washer or plate, and what is left to carry round about it."""

import functools
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from transom.formula import formula
from transom.frozen import dataclass
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


FAR = 1e6  # mm: farther than any board is wide
RUN_OUT = "EN 1992-1-1:2004, 6.4.2(4): near an edge the shorter of a closed perimeter and one that runs out there"


@formula(
    symbol="a_i",
    source="perimeter at t/2 outside the loaded area, corners rounded: 2(a + b) + pi t in all",
    evidence="convention",
    known_by="derived",
    typical={"reach": 20.0, "edge": 80.0, "t": 36.0},
)
def side_end(reach: MM, edge: MM, t: MM) -> MM:
    """From the bolt to the end of a side with its share of the corner, or to the edge where it would lie past that."""
    return where(reach + t / 2.0 < edge, reach + PI / 8.0 * t, edge)


@formula(
    symbol="n_i",
    source="perimeter at t/2 outside the loaded area; a side past the edge carries nothing",
    evidence="convention",
    known_by="derived",
    typical={"reach": 20.0, "edge": 80.0, "t": 36.0},
)
def side_inside(reach: MM, edge: MM, t: MM, one: ONE = 1.0) -> ONE:
    """One where a side lies inside the wood, nothing where it would lie past the edge."""
    return where(reach + t / 2.0 < edge, one + 0.0 * t / t, 0.0 * t / t)


@formula(symbol="p_i", source="from end to end", evidence="published", known_by="derived")
def side_length(end_a: MM, end_b: MM) -> MM:
    """Length of a side of the perimeter."""
    return end_a + end_b


@formula(symbol="p_i", source=RUN_OUT, evidence="published", known_by="memory")
def run_out_length(side: MM, end_a: MM, end_b: MM, edge_a: MM, edge_b: MM) -> MM:
    """Length of a side that runs out to the nearer of two edges, where the perimeter is left open."""
    return side + minimum(edge_a - end_a, edge_b - end_b)


@formula(symbol="n", source="sides that lie inside the wood", evidence="convention", known_by="derived")
def sides_inside(n_a: ONE, n_b: ONE) -> ONE:
    """How many of two opposite sides carry: none, one or two."""
    return n_a + n_b


@formula(symbol="n", source=RUN_OUT, evidence="published", known_by="memory")
def sides_left_open(n: ONE, one: ONE = 1.0) -> ONE:
    """How many of two opposite sides carry where the perimeter is open towards one of them."""
    return minimum(n, one)


@formula(
    symbol="p_c",
    source="each side carries what its direction does: sum of the sides over their planar shear factors",
    evidence="convention",
    known_by="derived",
)
def weighted_perimeter(n_upright: ONE, upright: MM, c_1: ONE, n_level: ONE, level: MM, c_2: ONE) -> MM:
    """Perimeter over planar shear factor: shear through upright sides acts along the board, through level ones up it."""
    return n_upright * upright / c_1 + n_level * level / c_2


@formula(
    symbol="tau",
    source="transverse shear V/(p_c t); the lay-up's planar shear factors are in p_c; beam theory",
    evidence="published",
    known_by="derived",
)
def sliding_stress(V: N, p_c: MM, t: MM) -> MPA:
    """Stress that slides one ply over the next on the perimeter."""
    return V / (maximum(p_c, 0.001 * t) * t)


@formula(symbol="z", source="what is left of a length", evidence="published", known_by="derived")
def remaining(whole: MM, part: MM) -> MM:
    """What is left of a length, not below zero."""
    return positive(whole - part)


@formula(symbol="l/2", source="half of a length", evidence="published", known_by="derived")
def half_of(length: MM) -> MM:
    """Half of a length."""
    return length / 2.0


@formula(symbol="y_p", source="what hangs over the board's side bears on nothing", evidence="published",
         known_by="derived")  # fmt: skip
def middle_on_wood(y: MM, b: MM, W: MM) -> MM:
    """Middle of what of a pad b wide at y lies on a board W wide."""
    return y - positive(y + b / 2.0 - W / 2.0) / 2.0


@formula(symbol="D_o", source="bore for the epoxy plug: bolt and a stated excess", evidence="common practice",
         known_by="read")  # fmt: skip
def over_bore_diameter(d: MM, excess: MM) -> MM:
    """Diameter bored, filled and drilled again, so that no bolt touches bare wood."""
    return d + excess


@dataclass(frozen=True)
class Patch:
    """The wood one bolt or pad works on: reach from its middle, net area, perimeters, each (n, v).

    `overhang` is how far the backing carries its pressure beyond the nut before it bends.
    """

    inner: Value
    outer: Value
    up: Value
    down: Value
    area: Value
    around: "Around"
    overhang: Value

    def in_cases(self, case: NDArray[np.int_]) -> "Patch":
        """The same with its columns as the cases (v,) name them; what is one for all stays so."""

        def of(x: Value) -> Value:
            return x if np.ndim(x) < 2 or np.shape(x)[-1] == 1 else np.asarray(x)[..., case]

        around = Around(of(self.around.own), of(self.around.shared))
        sides = of(self.inner), of(self.outer), of(self.up), of(self.down)
        return Patch(*sides, of(self.area), around, of(self.overhang))


@dataclass(frozen=True)
class Around:
    """Perimeters over planar shear factors, mm: round one bolt or pad, and its half of the one round both of a row."""

    own: Value
    shared: Value


@dataclass(frozen=True)
class Edges:
    """Distance from the middle of a patch to where the wood ends, or a neighbor's half begins, mm.

    The `free` ones are where a perimeter may run out: `FAR` towards a neighbor, and where a side line holds the
    wood outside the bolt. Plates lie between the side lines, so that side always has wood to slide through.
    """

    inner: Value
    outer: Value
    up: Value
    down: Value
    free_inner: Value
    free_outer: Value
    free_up: Value
    free_down: Value


Sides = tuple[Value, Value, Value, Value]


@formula(symbol="t_i", source="the thickness at which the perimeter at t/2 touches an edge", evidence="convention",
         known_by="derived", typical={"t": 36.0, "just_inside": 0.999999})  # fmt: skip
def thickness_at_edge(reach: MM, edge: MM, t: MM, just_inside: ONE = 0.999999, least: MM = 0.001) -> MM:
    """Thickness of a thinner board, up to t, whose perimeter still lies inside this edge; next to none where none does."""
    return minimum(t, maximum(just_inside * 2.0 * (edge - reach), least))


@formula(symbol="p", source="a board carries no less than a thinner one", evidence="convention", known_by="derived")
def perimeter_of_thinner(p_i: MM, t_i: MM, t: MM) -> MM:
    """Perimeter that, t thick, carries what p_i does t_i thick."""
    return p_i * t_i / t


@dataclass(frozen=True)
class _Pair:
    """Two opposite sides: the length between them, closed or run out past one; and how many of the two carry."""

    length: Value
    carry: Value


def perimeters_of(reach: Sides, edges: Edges, t: Value, c: tuple[Value, Value], lost: Value = 0.0) -> Around:
    """Least perimeters at t/2 outside a rectangle over its planar shear factors, mm, less what openings take.

    `reach` is inner, outer, up, down from the bolt; `c` the planar shear factor along the board and up it. Closed, or
    open towards an edge or corner with its sides run out there, whichever slides first; so a thicker board, a larger
    plate or a farther edge never carries less. The shared one is open to the middle. Shapes broadcast.
    """
    found = _at(reach, edges, t, c, lost)
    touching = _touching(reach, edges, t)
    if not np.any(np.asarray(touching) < t):
        return found
    # Towards the other row and a bottom line a side is lost as soon as it gets there, with no shorter way round before.
    thin = _at(reach, edges, touching, c, lost)
    return Around(
        maximum(found.own, perimeter_of_thinner(thin.own, touching, t)),
        maximum(found.shared, perimeter_of_thinner(thin.shared, touching, t)),
    )


def _at(reach: Sides, edges: Edges, t: Value, c: tuple[Value, Value], lost: Value) -> Around:
    """Perimeters in a board t thick."""
    wood = (edges.inner, edges.outer, edges.up, edges.down)
    met = (edges.free_inner, edges.free_outer, edges.up, edges.down)
    ends = tuple(side_end(r, e, t) for r, e in zip(reach, wood, strict=True))
    inside = tuple(side_inside(r, e, t) for r, e in zip(reach, met, strict=True))
    across = _closed_or_open(ends[:2], met[:2], inside[:2])
    upward = _closed_or_open(ends[2:], (edges.free_up, edges.free_down), inside[2:])
    both = _Pair(side_length(edges.inner, ends[1]), inside[1])
    taken = lost_of_weighted(lost, minimum(*c))
    return Around(remaining(_least(across, upward, c), taken), remaining(_least((both,), upward, c), taken))


def _touching(reach: Sides, edges: Edges, t: Value) -> Value:
    """Thickness, up to t, at which the perimeter has reached none of the edges that it cannot run out at."""
    held = ((reach[2], edges.up, edges.free_up), (reach[3], edges.down, edges.free_down))
    thin = [thickness_at_edge(r, e, t) for r, e, free in held if np.min(free) >= FAR]
    return functools.reduce(minimum, thin, t)


def _closed_or_open(
    ends: tuple[Value, ...], edges: tuple[Value, ...], inside: tuple[Value, ...]
) -> tuple[_Pair, _Pair]:
    """Perimeter closed at two opposite sides, and open at the one whose edge is nearer."""
    length, n = side_length(*ends), sides_inside(*inside)
    return _Pair(length, n), _Pair(run_out_length(length, *ends, *edges), sides_left_open(n))


def _least(across: tuple[_Pair, ...], upward: tuple[_Pair, ...], c: tuple[Value, Value]) -> Value:
    """The shortest of the perimeters these ends make, over the factors along the board and up it."""
    ways = [weighted_perimeter(a.carry, u.length, c[0], u.carry, a.length, c[1]) for a in across for u in upward]
    return functools.reduce(minimum, ways)


@formula(
    symbol="tau",
    source="one bolt by its own perimeter, or both of a row by the shared one, whichever is more",
    evidence="convention",
    known_by="derived",
)
def worse_sliding(own: MPA, shared: MPA) -> MPA:
    """The larger of the two stresses."""
    return maximum(own, shared)


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


@formula(symbol="p_c", source="an opening's diameter out of the side that carries most", evidence="convention",
         known_by="derived")  # fmt: skip
def lost_of_weighted(lost: MM, c: ONE) -> MM:
    """What openings take of a perimeter over its planar shear factors."""
    return lost / c


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
