"""Bolts of frame and pod: how many on each line, how far apart, and what their group is worth."""

from transom.formula import formula
from transom.maths import cos, floor, maximum, minimum, positive, sin
from transom.units import MM, MM2, ONE, RAD

GROUP = "elastic group: squares of distances from the middle"
EVEN = "bolts evenly along each line, as its length asks"


@formula(symbol="A_s", source="linear between two rows; below the smallest with the square of the diameter",
         evidence="convention", known_by="derived", typical={"s": 0.3, "s_d": 1.0})  # fmt: skip
def area_between(A_0: MM2, A_1: MM2, s: ONE, s_d: ONE) -> MM2:
    """Stress area of a size between two threads of the table."""
    return (A_0 + (A_1 - A_0) * s) * s_d**2


@formula(symbol="f", source="linear between two rows; below the smallest in proportion", evidence="convention",
         known_by="derived", typical={"s": 0.3, "s_d": 1.0})  # fmt: skip
def flats_between(f_0: MM, f_1: MM, s: ONE, s_d: ONE) -> MM:
    """Across flats of a nut between two of the table."""
    return (f_0 + (f_1 - f_0) * s) * s_d


@formula(symbol="n_s", source=EVEN, evidence="convention", known_by="derived",
         typical={"count": 8.4, "height": 450.0, "span": 560.0, "ends": 1.0, "hair": 1e-6})  # fmt: skip
def bolts_on_side(count: ONE, height: MM, span: MM, ends: ONE, hair: ONE = 1e-6) -> ONE:
    """Whole bolts down one side: its share of the length of all lines, two at least, and two left for each end."""
    share = floor(count * height / (2 * height + ends * span) + hair)
    return minimum(maximum(share, 2.0), floor((count - 2 * ends) / 2 + hair))


@formula(symbol="n_r", source="count", known_by="derived", typical={"count": 9.0, "n_side": 3.0})
def bolts_left(count: ONE, n_side: ONE) -> ONE:
    """Bolts that two sides leave for the ends."""
    return positive(count - 2 * n_side)


@formula(symbol="n_h", source="count", known_by="derived", typical={"n": 5.0, "hair": 1e-6})
def half_of_bolts(n: ONE, hair: ONE = 1e-6) -> ONE:
    """Whole bolts of each of two ends."""
    return floor(n / 2 + hair)


@formula(symbol="n_x", source="count", known_by="derived", typical={"count": 4.3, "hair": 1e-6})
def whole_rows(count: ONE, hair: ONE = 1e-6) -> ONE:
    """Crossmembers that bolts go through, one at least."""
    return maximum(floor(count + hair), 1.0)


@formula(symbol="n_e", source="spare bolts are left out", evidence="convention", known_by="derived",
         typical={"count": 9.0, "rows": 4.0, "hair": 1e-6})  # fmt: skip
def bolts_in_each(count: ONE, rows: ONE, hair: ONE = 1e-6) -> ONE:
    """Whole bolts to each crossmember, one at least."""
    return maximum(floor(count / rows + hair), 1.0)


@formula(symbol="e", source="from the line of bolts to the board's edge", known_by="derived",
         typical={"width": 600.0, "span": 560.0})  # fmt: skip
def edge_beyond(width: MM, span: MM) -> MM:
    """Wood beside a side line; half of the board at most."""
    return minimum((width - span) / 2, width / 2)


@formula(symbol="a", source=EVEN, evidence="convention", known_by="derived", typical={"inset": 20.0, "height": 450.0})
def first_down(inset: MM, height: MM) -> MM:
    """Depth of the first bolt below the top edge."""
    return minimum(inset, height / 4)


@formula(symbol="a", source="bolts of a side lie between the cut corners, alike at both ends", evidence="convention",
         known_by="derived", typical={"top": 20.0, "height": 450.0, "cut": 50.0, "most": 0.45})  # fmt: skip
def first_below_cut(top: MM, cut: MM, height: MM, most: ONE = 0.45) -> MM:
    """Depth of the first bolt of a side below the higher of its cut corners; some of the side is always left."""
    return minimum(top + cut, most * height)


@formula(symbol="p_s", source=EVEN, evidence="convention", known_by="derived",
         typical={"height": 450.0, "first": 20.0, "n": 4.0})  # fmt: skip
def pitch_on_side(height: MM, first: MM, n: ONE) -> MM:
    """Spacing of n bolts down a side."""
    return (height - 2 * first) / (n - 1)


@formula(symbol="p_e", source=EVEN, evidence="convention", known_by="derived", typical={"n": 2.0})
def pitch_along_end(span: MM, n: ONE) -> MM:
    """Spacing of n bolts along an end, as far apart as from the side lines."""
    return span / (n + 1)


@formula(symbol="l_e", source="bolts of an end lie between the cut corners", evidence="convention", known_by="derived",
         typical={"span": 560.0, "width": 600.0, "cut": 50.0})  # fmt: skip
def end_between_cuts(span: MM, width: MM, cut: MM) -> MM:
    """Length of an end between its cut corners, never longer than the lines that hold the board are apart."""
    return minimum(span, positive(width - 2 * cut))


@formula(symbol="n", source="count", known_by="derived", typical={"n_side": 3.0, "n_bottom": 2.0, "n_top": 2.0})
def bolts_in_all(n_side: ONE, n_bottom: ONE, n_top: ONE) -> ONE:
    """All bolts of two sides and the ends."""
    return 2 * n_side + n_bottom + n_top


@formula(symbol="z_c", source="middle of a group", known_by="derived",
         typical={"n_side": 3.0, "n_bottom": 2.0, "n_top": 2.0, "n": 10.0})  # fmt: skip
def middle_of_group(n_side: ONE, n_bottom: ONE, n_top: ONE, n: ONE, height: MM, z_bottom: MM, first: MM) -> MM:
    """Depth of the middle of the group."""
    return (2 * n_side * (height / 2) + n_bottom * z_bottom + n_top * first) / n


@formula(symbol="I", source=GROUP, known_by="derived", typical={"n": 4.0})
def even_row(n: ONE, pitch: MM) -> MM2:
    """Squares of distances of n bolts evenly apart from their middle, summed."""
    return n * (n**2 - 1) * pitch**2 / 12


@formula(symbol="J", source=GROUP, known_by="derived",
         typical={"n_side": 3.0, "n_bottom": 2.0, "n_top": 2.0, "height": 450.0, "z_bottom": 430.0, "first": 20.0,
                  "z_c": 220.0})  # fmt: skip
def polar_of_lines(
    n_side: ONE, n_bottom: ONE, n_top: ONE, span: MM, height: MM, z_bottom: MM, first: MM, z_c: MM,
    I_side: MM2, I_bottom: MM2, I_top: MM2,
) -> MM2:  # fmt: skip
    """Squares of distances from the middle of the group, summed: sides, bottom, top."""
    sides = n_side * span**2 / 2 + 2 * (I_side + n_side * (height / 2 - z_c) ** 2)
    return sides + I_bottom + n_bottom * (z_bottom - z_c) ** 2 + I_top + n_top * (first - z_c) ** 2


@formula(symbol="r_z", source="farthest bolt of a group", known_by="derived")
def farthest_down(z_c: MM, first: MM, height: MM, z_bottom: MM) -> MM:
    """Height or depth of the farthest bolt from the middle of the group."""
    return maximum(z_c - first, maximum(height - first, z_bottom) - z_c)


@formula(symbol="p_y", source=EVEN, evidence="convention", known_by="derived", typical={"n": 3.0})
def pitch_across(span: MM, n: ONE) -> MM:
    """Spacing of n bolts from side line to side line."""
    return span / maximum(n - 1, 1.0)


@formula(symbol="r", source="half of a row of bolts evenly apart", known_by="derived", typical={"n": 3.0})
def half_row(n: ONE, pitch: MM) -> MM:
    """From the middle of a row of n to its last."""
    return (n - 1) * pitch / 2


@formula(symbol="x_i", source="bolts evenly about the middle", known_by="derived", typical={"i": 1.0, "n": 4.0})
def place_in_row(i: ONE, n: ONE, pitch: MM) -> MM:
    """From the middle of a row of n to bolt i, counted from nought."""
    return (i - (n - 1) / 2) * pitch


@formula(symbol="x_g", source="geometry", known_by="derived")
def middle_of_rows(first: MM, half_row: MM) -> MM:
    """Middle of the crossmembers forward of the board."""
    return first + half_row


@formula(symbol="I", source=GROUP, known_by="derived", typical={"n": 2.0})
def as_many(n: ONE, I_row: MM2) -> MM2:
    """The same of n rows alike."""
    return n * I_row


@formula(symbol="n", source="count", known_by="derived", typical={"rows": 3.0, "each": 2.0})
def bolts_of_rows(rows: ONE, each: ONE) -> ONE:
    """Bolts of all rows."""
    return rows * each


@formula(symbol="d_h", source="bolt and clearance", evidence="common practice", known_by="memory")
def hole_of(d: MM, clearance: MM) -> MM:
    """Diameter of the hole for a bolt."""
    return d + clearance


@formula(symbol="x_g", source="geometry, level axes", known_by="derived")
def group_aft(forward: MM, down: MM, lean: RAD) -> MM:
    """How far aft of the datum the pod's bolts lie: ahead of it, so negative."""
    return -forward - down * sin(lean)


@formula(symbol="z_g", source="geometry, level axes", known_by="derived")
def group_up(down: MM, lean: RAD) -> MM:
    """How high above the datum the pod's bolts lie: below it, so negative."""
    return -down * cos(lean)
