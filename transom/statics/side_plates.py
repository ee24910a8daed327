"""Upright plates between two end plates: how k of them share a wrench, and what the fillets at their ends carry.

Convention, named in every result: a pull or push along x and the moment M_y are shared evenly; M_z becomes pulls and
pushes along x in proportion to the distance y; M_x (twist) becomes forces up and down in the same proportion, each plate
a cantilever free at its other end; F_y bends every plate sideways, both ends held and straight half way. All
signs are taken as the worst, so that every corner of every plate is covered by one.
"""

from transom.formula import formula
from transom.maths import absolute, maximum, minimum, positive, sqrt, total
from transom.units import MM, MM2, MMS, MPA, N_MM, N_PER_MM, ONE, N

SHARE = "upright plates sharing a wrench: statics, twist by bending of cantilevers, sideways as a frame"
RECTANGLE = "elastic section of a rectangle"
FILLETS = "pair of fillets a plate thickness apart; one fillet alone bends on its own throat"
_WELD = {"f_x": 60.0, "f_y": 10.0, "f_z": 30.0, "m": 20.0, "t": 9.5, "a": 4.0, "sides": 2.0}


@formula(symbol="sum y^2", source=SHARE, evidence="convention", known_by="derived")
def spread(y: MMS) -> MM2:
    """Sum of the squared distances of the plates from the center line."""
    return total(y * y)


@formula(symbol="N", source=SHARE, evidence="convention", known_by="derived")
def axial_share(F_x: N, k: ONE, M_z: N_MM, y: MM, Y: MM2) -> N:
    """Pull or push along the outer plate, M_z taken half way along."""
    return absolute(F_x) / k + absolute(M_z) * y / Y


@formula(symbol="V", source=SHARE, evidence="convention", known_by="derived")
def upright_share(F_z: N, k: ONE, M_x: N_MM, y: MM, Y: MM2) -> N:
    """Force up or down on the outer plate."""
    return absolute(F_z) / k + absolute(M_x) * y / Y


@formula(symbol="M_t", source=SHARE, evidence="convention", known_by="derived")
def twist_moment(M_x: N_MM, y: MM, Y: MM2, arm: MM) -> N_MM:
    """Moment of the outer plate that opposite forces up and down of a twist make, `arm` from where they act."""
    return absolute(M_x) * y / Y * arm


@formula(symbol="M", source=SHARE, evidence="convention", known_by="derived")
def upright_moment(M_y: N_MM, k: ONE, M_t: N_MM) -> N_MM:
    """Moment in the plane of the outer plate."""
    return absolute(M_y) / k + M_t


@formula(symbol="m", source=SHARE, evidence="convention", known_by="derived")
def sideways_moment(F_y: N, k: ONE, x: MM, x_m: MM) -> N_MM:
    """Moment that bends one plate sideways at x; nil half way, at x_m."""
    return absolute(F_y) / k * absolute(x - x_m)


@formula(symbol="M_z'", source=SHARE, evidence="convention", known_by="derived", typical={"t": 10.0, "y": 120.0})
def turn_at_face(M_z: N_MM, t: MM, y: MM) -> N_MM:
    """Turn raised by as much as the outer plate's outer face lies farther out than its middle: it bends as it turns."""
    return M_z * (1 + t / (2 * y))


@formula(symbol="x_m", source="geometry", known_by="derived")
def half_way(x_0: MM, x_1: MM) -> MM:
    """Middle of the plates' length."""
    return (x_0 + x_1) / 2


@formula(symbol="x", source="geometry", known_by="derived")
def part_way(a: MM, b: MM, share: ONE) -> MM:
    """A value a share of the way from a to b."""
    return a + share * (b - a)


@formula(symbol="s", source="geometry", known_by="derived", typical={"x": 100.0, "x_0": 10.0, "x_1": 250.0})
def share_along(x: MM, x_0: MM, x_1: MM) -> ONE:
    """How far along the plates a place lies."""
    return (x - x_0) / (x_1 - x_0)


@formula(symbol="l", source=SHARE, evidence="convention", known_by="derived")
def twist_arm(x: MM, x_0: MM, x_1: MM) -> MM:
    """Arm of the twist's forces at x: from the engine plate where it is free, half the length where it is held."""
    return maximum(x_1 - x, (x_1 - x_0) / 2)


@formula(symbol="sigma_e", source=RECTANGLE, known_by="derived")
def edge_stress(N_p: N, M_p: N_MM, t: MM, d: MM) -> MPA:
    """Stress on the edge of a plate d deep from pull or push and moment in its plane."""
    return N_p / (t * d) + 6.0 * M_p / (t * d * d)


@formula(symbol="sigma_s", source=RECTANGLE, known_by="derived")
def sideways_stress(m_p: N_MM, t: MM, d: MM) -> MPA:
    """Stress on the face of a plate bent sideways."""
    return 6.0 * m_p / (d * t * t)


@formula(symbol="sigma", source=RECTANGLE, known_by="derived")
def corner_stress(sigma_e: MPA, sigma_s: MPA) -> MPA:
    """Both at the corner of the section."""
    return sigma_e + sigma_s


@formula(symbol="tau", source="shear of a rectangle, greatest in the middle", known_by="derived")
def middle_shear(V: N, t: MM, d: MM) -> MPA:
    """Shear stress in the middle of a plate's depth."""
    return 1.5 * V / (t * d)


@formula(symbol="u", source="demand over resistance", known_by="derived")
def used(sigma: MPA, f_d: MPA) -> ONE:
    """Share of its limit that a stress comes to."""
    return sigma / f_d


@formula(symbol="f_s", source="EN 1999-1-1:2007, 6.2.6, f_o over the root of three", known_by="memory")
def shear_strength(f_y: MPA) -> MPA:
    """Shear strength of plate that is not beside a weld."""
    return f_y / sqrt(3)


@formula(symbol="f_M", source=RECTANGLE, known_by="derived")
def line_of_moment(M: N_MM, d: MM) -> N_PER_MM:
    """Force per length at the end of a line d long that carries a moment in its plane."""
    return 6.0 * M / (d * d)


@formula(symbol="m_w", source="moment spread over the length of a weld", known_by="derived")
def moment_per_length(m: N_MM, d: MM) -> N:
    """Sideways moment per length of weld."""
    return m / d


@formula(symbol="f_x", source="statics, signs taken as the worst", known_by="derived")
def plate_line(f_x: N_PER_MM, f_t: N_PER_MM) -> N_PER_MM:
    """Force per length along x of a plate: of the group of lines, and of the twist's moments."""
    return absolute(f_x) + f_t


@formula(symbol="f_x,1", source=FILLETS, evidence="convention", known_by="derived", typical=_WELD)
def pair_line(f_x: N_PER_MM, m: N, t: MM) -> N_PER_MM:
    """Force per length along x on the worse of two fillets, one on each face of a plate t thick."""
    return f_x / 2.0 + m / t


@formula(symbol="f_x,1", source=FILLETS, evidence="convention", known_by="derived", typical=_WELD)
def single_line(f_x: N_PER_MM, m: N, t: MM, a: MM) -> N_PER_MM:
    """The same of a fillet on one face: all of the force, half a plate off it, and the moment on its throat a."""
    return f_x + 6.0 * (m + f_x * t / 2.0) / a


@formula(symbol="f_1", source=FILLETS, evidence="convention", known_by="derived", typical=_WELD)
def per_face(f: N_PER_MM, sides: ONE) -> N_PER_MM:
    """Force per length along or across a plate, shared by the faces that are welded."""
    return absolute(f) / sides


@formula(symbol="sigma_v", source="von Mises", known_by="derived", typical=_WELD)
def beside_weld_stress(f_x: N_PER_MM, f_y: N_PER_MM, f_z: N_PER_MM, m: N, t: MM) -> MPA:
    """Comparison stress in the plate beside its fillets."""
    return sqrt((absolute(f_x) / t + 6.0 * m / (t * t)) ** 2 + 3.0 * (f_y * f_y + f_z * f_z) / (t * t))


@formula(symbol="m", source="clear distance from a bolt to the plate that holds it", known_by="derived")
def clear_arm(gap: MM, t: MM, least: MM = 1.0) -> MM:
    """From the middle of a bolt to the face of the nearest side plate, t thick; never nil."""
    return maximum(gap - t / 2, least)


@formula(symbol="l_p", source="the block under a pad, spread at 45 degrees on one side", evidence="convention",
         known_by="derived")  # fmt: skip
def pressed_length(h: MM, m: MM, share: ONE = 0.4) -> MM:
    """Length of plate that bends under a pad that pushes over a share of its height."""
    return share * h + m


@formula(symbol="P", source="statics; the couple about the upward axis on the worse side", known_by="derived")
def pad_push(C: N, M_z: N_MM, y: MM) -> N:
    """Push of the worse of two pads y from the center line."""
    return C / 2 + absolute(M_z) / (2 * y)


@formula(symbol="m_p", source="geometry", known_by="derived")
def pad_arm(gap: MM, t: MM) -> MM:
    """From the middle of a pad to the face of the nearest side plate; nil over it."""
    return positive(gap - t / 2)


@formula(symbol="gap", source="geometry", known_by="derived")
def distance(y: MM, y_s: MM) -> MM:
    """Distance across from a bolt or pad to a side plate."""
    return absolute(y - y_s)


@formula(symbol="-F", source="statics", known_by="derived", typical={"F": 100.0})
def opposed(F: N) -> N:
    """The same in the opposite sense."""
    return -F


@formula(symbol="-y", source="geometry", known_by="derived", typical={"y": 100.0})
def mirrored(y: MM) -> MM:
    """The same place on the other side of the center line."""
    return -y


@formula(symbol="2 y", source="geometry", known_by="derived")
def pair(y: MM) -> MM:
    """From a bolt to its like on the other side of the center line."""
    return 2 * y


@formula(symbol="z", source="geometry", known_by="derived", typical={"sense": 1.0})
def edge_of(z: MM, d: MM, sense: ONE) -> MM:
    """Upper (sense 1) or lower (-1) end of a line d long about its middle."""
    return z + sense * d / 2


@formula(symbol="z", source="geometry", known_by="derived")
def offset(z: MM, z_0: MM) -> MM:
    """Height of a place above another."""
    return z - z_0


@formula(symbol="q", source="panel in shear between the side plates", known_by="derived")
def panel_shear(F_y: N, b: MM) -> N_PER_MM:
    """Shear per length on every edge of a level plate b wide that carries a force sideways."""
    return absolute(F_y) / b


@formula(symbol="b", source="geometry", known_by="derived", typical={"apart": 240.0, "t": 10.0})
def clear_between(apart: MM, t: MM) -> MM:
    """Clear distance between two plates."""
    return apart - t


@formula(symbol="tau", source="panel in shear between the side plates", known_by="derived")
def shear_of(q: N_PER_MM, t: MM) -> MPA:
    """Shear stress of a plate from shear per length."""
    return q / t


@formula(symbol="z_c", source="geometry", known_by="derived", typical={"way": 1.0, "d": 200.0, "d_c": 150.0})
def cut_middle(z: MM, d: MM, d_c: MM, way: ONE) -> MM:
    """Middle of a plate d deep of which d_c is left: moved up (way 1) or down (-1) by half of what is cut away."""
    return z + way * (d - d_c) / 2


@formula(symbol="c", source="geometry", known_by="derived")
def clear_of_weld(gap: MM, t: MM, leg: MM, d: MM) -> MM:
    """From the side of a bolt to the toe of the nearest side plate's weld."""
    return gap - t / 2 - leg - d / 2


@formula(symbol="h", source="a fillet's leg counts up to the thinner plate it joins", evidence="common practice",
         known_by="memory")  # fmt: skip
def counted_leg(leg: MM, t_1: MM, t_2: MM) -> MM:
    """Leg of a fillet that counts."""
    return minimum(leg, minimum(t_1, t_2))
