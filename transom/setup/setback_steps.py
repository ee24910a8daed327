"""From what a tape says of a setback bracket to places in board axes; each step is a line of a derivation."""

from transom.formula import formula
from transom.maths import cos, maximum, minimum, sin
from transom.units import MM, MPA, ONE, RAD

DRAWN = "geometry"
LEVEL = "geometry, level axes turned by the board's lean"


@formula(symbol="x_e", source=LEVEL, known_by="derived")
def aft_of_board(s: MM, h: MM, theta: RAD) -> MM:
    """Aft of the board, square to it, of a point s aft and h up by level and tape."""
    return s * cos(theta) - h * sin(theta)


@formula(symbol="z_e", source=LEVEL, known_by="derived")
def up_the_board(s: MM, h: MM, theta: RAD) -> MM:
    """The same point's height up the board."""
    return s * sin(theta) + h * cos(theta)


@formula(symbol="x_1", source=DRAWN, known_by="derived")
def forward_face(x: MM, t: MM) -> MM:
    """Forward face of a plate t thick whose aft face is at x."""
    return x - t


@formula(symbol="z", source=DRAWN, known_by="derived")
def height_of_depth(down: MM) -> MM:
    """Height of a depth below the top edge."""
    return -down


@formula(symbol="z_0", source=DRAWN, known_by="derived")
def middle_of(z_top: MM, down: MM, depth: MM) -> MM:
    """Height of the middle of a plate that begins `down` below a top edge."""
    return z_top - down - depth / 2


@formula(
    symbol="y_s", source="side plates evenly apart about the center line", known_by="derived", typical={"share": 0.5}
)
def across(apart: MM, share: ONE) -> MM:
    """A side plate's place: a share of the distance between the outer two."""
    return apart * share


@formula(symbol="l", source=DRAWN, known_by="derived")
def stretch(a: MM, b: MM) -> MM:
    """From one place along to the next."""
    return b - a


@formula(symbol="e", source=DRAWN, known_by="derived")
def edge_drawn(width: MM, y_u: MM, y_l: MM, down: MM, below: MM) -> MM:
    """Nearest edge to a hole, by the plate's outline: beside, above or below."""
    return minimum(minimum(width / 2 - maximum(y_u, y_l), down), below)


@formula(symbol="B", source="the usual metal beside the outer holes", evidence="estimate", known_by="derived")
def width_about(y_u: MM, y_l: MM, d: MM) -> MM:
    """Width of a plate that was not measured: two bolt diameters beyond the outer holes."""
    return 2 * maximum(y_u, y_l) + 4 * d


@formula(symbol="b_p", source="as far as the base plate is stiff, and no farther than its edge or the center line",
         evidence="convention", known_by="derived")  # fmt: skip
def bearing_width(t_s: MM, m: MM, width: MM, y: MM, least: MM = 1.0) -> MM:
    """What bears under a side plate t_s thick at y, of a base plate that reaches m beyond it; never nil."""
    return maximum(2 * minimum(minimum(t_s / 2 + m, width / 2 - y), y), least)


@formula(symbol="f_h", source="EN 1995-1-1:2004, 8.5.2(2)", typical={"multiple": 3.0})
def hardest_pressure(f_c_90_k: MPA, multiple: ONE, k: ONE) -> MPA:
    """The most that a face bears under a plate."""
    return multiple * f_c_90_k * k
