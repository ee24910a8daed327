"""The small steps from what a tape says to what the checks read; each is a line of a derivation."""

from transom.formula import formula
from transom.maths import PI, maximum, minimum
from transom.units import KG, MM, ONE, RAD

DRAWN = "geometry"
PRODUCT = "EN 1995-1-1:2004, 2.4.1 (2.14)"


@formula(symbol="k", source=PRODUCT, typical={"k_mod": 0.7, "gamma_M": 1.2})
def strength_factor(k_mod: ONE, gamma_M: ONE) -> ONE:
    """Share of a low strength that counts: for time and damp, over the material's safety factor."""
    return k_mod / gamma_M


@formula(symbol="phi", source="a degree is pi/180", known_by="derived", typical={"degree": PI / 180})
def angle_of(degrees: ONE, degree: RAD = PI / 180) -> RAD:
    """An angle counted in degrees."""
    return degrees * degree


@formula(symbol="y", source=DRAWN, known_by="derived")
def half(whole: MM) -> MM:
    """Half of a distance from side to side."""
    return whole / 2


@formula(symbol="W", source=DRAWN, evidence="convention", known_by="derived", typical={"width": 600.0, "inset": 20.0})
def span_between(width: MM, inset: MM) -> MM:
    """Between the side lines that hold the board, each so far in from its edge."""
    return width - 2 * inset


@formula(symbol="H", source=DRAWN, evidence="convention", known_by="derived", typical={"height": 450.0, "inset": 20.0})
def depth_of_bottom(height: MM, inset: MM) -> MM:
    """Depth of the bottom line below the top edge."""
    return height - inset


@formula(symbol="z_l", source=DRAWN, known_by="derived")
def lower_row(z_u: MM, apart: MM) -> MM:
    """Depth of the lower row of bolts below the top edge."""
    return z_u + apart


@formula(symbol="z_p", source=DRAWN, known_by="derived")
def propeller_height(up: MM, shaft: MM, below_plate: MM, least: MM = 1.0) -> MM:
    """Height of the propeller shaft above the top edge: below it, so negative, however far a guess is varied."""
    return minimum(up - (shaft + below_plate), -least)


@formula(symbol="x", source=DRAWN, known_by="derived")
def moved(x: MM, offset: MM) -> MM:
    """A point of the engine moved by what a setback bracket moves it."""
    return x + offset


@formula(symbol="P_B", source="range of the B-series, P/D up to 1.4", evidence="convention", known_by="derived",
         typical={"most": 1.4})  # fmt: skip
def pitch_in_series(pitch: MM, D: MM, most: ONE = 1.4) -> MM:
    """Pitch the B-series still covers: a steeper propeller thrusts less at the same torque."""
    return minimum(pitch, most * D)


@formula(symbol="s_t", source="pads bear in their upper fifth when pulled backwards", evidence="convention",
         known_by="computed", typical={"top": 20.0, "h": 300.0, "usual": 0.2})  # fmt: skip
def share_from_top(top: MM, h: MM, usual: ONE = 0.2) -> ONE:
    """Where pads that begin at depth `top` and end at h bear when pulled backwards, as a share of h."""
    return usual + (1 - usual) * minimum(top / h, 1.0)


@formula(symbol="s_t", source=DRAWN, known_by="derived")
def share_of_depth(down: MM, h: MM) -> ONE:
    """A depth as a share of another."""
    return down / h


@formula(symbol="s", source="linear between two rows of the table", evidence="convention", known_by="derived",
         typical={"d": 10.0, "d_0": 9.5, "d_1": 12.7})  # fmt: skip
def share_between(d: MM, d_0: MM, d_1: MM) -> ONE:
    """How far a size lies from one row towards the next, from 0 to 1."""
    return minimum(maximum((d - d_0) / (d_1 - d_0), 0.0), 1.0)


@formula(symbol="s_d", source="below the smallest thread in proportion to it", evidence="convention",
         known_by="derived", typical={"d": 5.0, "d_0": 6.0})  # fmt: skip
def below_smallest(d: MM, d_0: MM) -> ONE:
    """Size over the smallest of the table; 1 from there on."""
    return minimum(d / d_0, 1.0)


@formula(symbol="m_l", source="share of the stated weight that counts where it helps", evidence="convention",
         known_by="derived", typical={"share": 0.9})  # fmt: skip
def light_mass(m: KG, share: ONE) -> KG:
    """Mass of an engine where its weight relieves."""
    return m * share
