"""Crossed strips: moments per unit width of a board between side lines, by hand.

Each side of the bracket loads the board at two opposite rows. Two strips across carry them to the side
lines; one strip up the board, a side, takes part of both to what holds the board above or below. The
numbers 0.05, 0.08, 0.15 and k_t were set by an orthotropic plate with shear deflection (own, computed).
Depths z are positive down from the top edge; moments per width are N*mm/mm = N.
"""

from transom.formula import formula
from transom.maths import absolute, maximum, minimum, positive
from transom.statics.beams import overhang_flexibility, two_load_flexibility, two_overhang_flexibility
from transom.units import MM, MM_PER_N, MPA, N_MM, N_MM2, ONE, N

OWN = "crossed strips; own method, set by an orthotropic plate model"
BEAMS = "statics of beams"


@formula(symbol="z_m", source=OWN, evidence="convention", known_by="computed")
def between(z_1: MM, z_2: MM) -> MM:
    """Half way between two depths."""
    return (z_1 + z_2) / 2


@formula(symbol="b", source=OWN, evidence="convention", known_by="computed")
def width_left(z_low: MM, z_high: MM, least: MM = 1.0) -> MM:
    """Width of a strip from one depth to a lower one; never under `least`, so that none means overload."""
    return maximum(z_low - z_high, least)


@formula(symbol="z_e", source=OWN, evidence="convention", known_by="computed")
def end_of_lower_strip(z_2: MM, d: MM) -> MM:
    """Where the lower strip ends when the side lines alone hold the board."""
    return z_2 + d / 2


@formula(symbol="L", source=OWN, evidence="convention", known_by="computed")
def strip_length(z_end: MM, z: MM, least: MM = 20.0) -> MM:
    """Length of the strip up the board from a row to the line below it; the method needs `least`."""
    return maximum(z_end - z, least)


@formula(symbol="b_v", source=OWN, evidence="convention", known_by="computed")
def upright_strip_width(y_pad: MM, W: MM) -> MM:
    """Width of the strip up the board, one a side."""
    return minimum(2 * y_pad, W / 2)


@formula(symbol="a", source=BEAMS, known_by="derived")
def inside(W: MM, y: MM) -> MM:
    """Distance of a load at +-y inside its side line, span W; zero outside."""
    return positive(W / 2 - y)


@formula(symbol="e", source=BEAMS, known_by="derived")
def outside(W: MM, y: MM) -> MM:
    """Distance of a load at +-y outside its side line, span W; zero inside."""
    return positive(y - W / 2)


@formula(symbol="a", source=BEAMS, known_by="derived")
def arm(W: MM, y: MM) -> MM:
    """Distance of a load at +-y from its side line, on either side."""
    return absolute(W / 2 - y)


@formula(symbol="E I", source="rectangle, b t^3/12", known_by="derived")
def bending_stiffness(E: MPA, b: MM, t: MM) -> N_MM2:
    """Bending stiffness of a strip b wide and t thick."""
    return E * t**3 / 12 * b


@formula(symbol="5/6 G b t", source="rectangle, shear area 5/6 b t", known_by="derived")
def shear_stiffness(G: MPA, b: MM, t: MM) -> N:
    """Shear stiffness of a strip b wide and t thick; G is the transverse modulus."""
    return G * t * 5 / 6 * b


@formula(symbol="f", source=f"{BEAMS}, bending and shear", known_by="derived",
         typical={"a": 60.0, "e": 0.0, "W": 400.0})  # fmt: skip
def strip_flexibility(a: MM, e: MM, W: MM, EI: N_MM2, GA: N) -> MM_PER_N:
    """Deflection of a strip across at its two loads, a inside or e outside the side lines, per newton."""
    return two_load_flexibility(a, W, EI) + two_overhang_flexibility(e, W, EI) + (a + e) / GA


@formula(symbol="f_v", source=f"{BEAMS}, overhang, bending and shear", known_by="derived")
def upright_flexibility(d: MM, L_2: MM, EI: N_MM2, GA: N) -> MM_PER_N:
    """Deflection of the strip up the board at its upper load, per newton, held L_2 below the lower row."""
    return overhang_flexibility(d, L_2, EI) + (d + d * d / L_2) / GA


@formula(symbol="r", source=BEAMS, known_by="derived")
def lever_ratio(L_1: MM, L_2: MM) -> ONE:
    """Lower over upper force of a strip up the board that turns about its lower end."""
    return L_1 / L_2


@formula(symbol="q_1", source=f"{BEAMS}, equal deflection where strips cross", known_by="derived")
def shared_upper_force(P_1: N, P_2: N, r: ONE, f_1: MM_PER_N, f_2: MM_PER_N, f_v: MM_PER_N,
                       f_3: MM_PER_N) -> N:  # fmt: skip
    """What the strip up the board takes at the upper row; f_3 is that of its lower support, 0 if a line."""
    return (P_1 * f_1 + r * P_2 * f_2) / (f_1 + r * r * f_2 + f_v + (r - 1) * (r - 1) * f_3)


@formula(symbol="q_2", source=BEAMS, known_by="derived")
def shared_lower_force(q_1: N, r: ONE) -> N:
    """What the strip up the board takes at the lower row, turning about its lower end."""
    return r * q_1


@formula(symbol="R_b", source=BEAMS, known_by="derived")
def lower_end_force(q_1: N, q_2: N) -> N:
    """Force of one strip up the board on what holds its lower end, in the sense of the lower row."""
    return q_2 - q_1


@formula(symbol="M_v", source=BEAMS, known_by="derived")
def upright_moment(q_1: N, d: MM) -> N_MM:
    """Moment of the strip up the board at the lower row, rows d apart."""
    return absolute(q_1) * d


@formula(symbol="q_1", source=f"{BEAMS}, equal deflection where strips cross", known_by="derived",
         typical={"n_12": 1e-3, "n_11": 1e-2, "n_22": 1e-2, "f_1": 1e-2, "f_2": 1e-2})  # fmt: skip
def spanned_upper_force(P_1: N, P_2: N, f_1: MM_PER_N, f_2: MM_PER_N, n_11: MM_PER_N, n_22: MM_PER_N,
                        n_12: MM_PER_N) -> N:  # fmt: skip
    """What a strip up the board, held at top and bottom, takes at the upper row."""
    return ((f_2 + n_22) * f_1 * P_1 + n_12 * f_2 * P_2) / ((f_1 + n_11) * (f_2 + n_22) - n_12 * n_12)


@formula(symbol="q_2", source=f"{BEAMS}, equal deflection where strips cross", known_by="derived")
def spanned_lower_force(P_2: N, q_1: N, f_2: MM_PER_N, n_22: MM_PER_N, n_12: MM_PER_N) -> N:
    """What a strip up the board, held at top and bottom, takes at the lower row."""
    return (P_2 * f_2 + n_12 * q_1) / (f_2 + n_22)


@formula(symbol="R_t", source=BEAMS, known_by="derived")
def top_end_force(q_1: N, q_2: N, L_1: MM, L_2: MM, H: MM) -> N:
    """Force of one strip on the top line, in the sense of the upper row; rows L_1, L_2 above the bottom."""
    return (q_1 * L_1 - q_2 * L_2) / H


@formula(symbol="R_b", source=BEAMS, known_by="derived")
def bottom_end_force(q_1: N, q_2: N, z_1: MM, z_2: MM, H: MM) -> N:
    """Force of one strip on the bottom line, in the sense of the lower row; rows z_1, z_2 below the top."""
    return (q_2 * z_2 - q_1 * z_1) / H


@formula(symbol="M_v", source=BEAMS, known_by="derived")
def spanned_moment(R_t: N, R_b: N, z_1: MM, L_2: MM) -> N_MM:
    """Greatest moment of a strip up the board held at top and bottom."""
    return maximum(absolute(R_t) * z_1, absolute(R_b) * L_2)


@formula(symbol="M_i", source=OWN, evidence="convention", known_by="computed")
def row_moment(P: N, q: N, a: MM, b: MM) -> N:
    """Moment per width across the board at a row of which the strip up the board takes q."""
    return absolute(P - q) * a / b


@formula(symbol="M_x", source=OWN, evidence="convention", known_by="computed")
def moment_across(M_1: N, M_2: N, M_3: N, P: N, k: ONE = 0.05) -> N:
    """Moment per width that bends the board between the side lines, with the local moment of a load P."""
    return maximum(maximum(M_1, M_2), M_3) + k * P


@formula(symbol="M_y", source=OWN, evidence="convention", known_by="computed")
def moment_up(M_v: N_MM, b_v: MM, P: N, k: ONE = 0.15) -> N:
    """Moment per width that bends the board up its height, with the local moment of a load P."""
    return M_v / b_v + k * P


@formula(symbol="k_t", source=OWN, evidence="convention", known_by="computed",
         typical={"W": 700.0, "G_12": 400.0, "W_0": 610.0, "W_1": 750.0, "G_0": 500.0})  # fmt: skip
def pod_twist_share(W: MM, G_12: MPA, k_0: ONE = 0.075, k_1: ONE = 0.10, W_0: MM = 610.0, W_1: MM = 750.0,
                    G_0: MPA = 500.0) -> ONE:  # fmt: skip
    """Twisting moment over load in a pod: k_0 to a span W_0, k_1 at W_1, on along that line beyond."""
    return (k_0 + (k_1 - k_0) * positive(W - W_0) / (W_1 - W_0)) * G_12 / G_0


@formula(symbol="k_t", source=OWN, evidence="convention", known_by="computed")
def uprights_twist_share(a_1: MM, H: MM, G_12: MPA, k: ONE = 0.40, G_0: MPA = 500.0) -> ONE:
    """Twisting moment over load between uprights."""
    return k * a_1 / H * G_12 / G_0


@formula(symbol="k_t", source=OWN, evidence="convention", known_by="computed")
def skin_twist_share(G_12: MPA, k: ONE = 0.035, G_0: MPA = 500.0) -> ONE:
    """Twisting moment over load on a skin with a cap rail."""
    return k * G_12 / G_0


@formula(symbol="M_xy", source=OWN, evidence="convention", known_by="computed")
def twisting_moment(k_t: ONE, P: N) -> N:
    """Twisting moment per width."""
    return k_t * P


@formula(symbol="P", source=OWN, evidence="convention", known_by="computed")
def larger_load(P_1: N, P_2: N) -> N:
    """The larger of the loads of two rows, whatever their sense."""
    return maximum(absolute(P_1), absolute(P_2))


@formula(symbol="V", source=OWN, evidence="convention", known_by="computed")
def line_pull(row: N, N: N, T: N, k: ONE = 0.9) -> N:
    """Pull on the worse side line: of a row's strip, half the net pull aft, or near the bolt tension T."""
    return maximum(maximum(row, positive(-N) / 2), k * T)


@formula(symbol="V_i", source=OWN, evidence="convention", known_by="computed")
def row_force(P: N, q: N) -> N:
    """What a strip across carries of a row to its side line, in the sense of the row."""
    return P - q


@formula(symbol="R", source=BEAMS, known_by="derived")
def both_sides(R: N) -> N:
    """Force of the strips of both sides."""
    return 2 * R


@formula(symbol="P_i", source=BEAMS, known_by="derived")
def half(C: N) -> N:
    """One side's half of a force."""
    return C / 2


@formula(symbol="-x", source=BEAMS, known_by="derived")
def reversed_force(F: N) -> N:
    """The same force in the opposite sense."""
    return -F
