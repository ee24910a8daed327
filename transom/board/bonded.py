"""A metal plate bonded behind part of a board: the section of both, and what of its bending the wood feels.

Both are taken as one section in which plane faces stay plane, the wood as uniform with its bending modulus, the glue as
stiff: the most such a plate can stiffen a board and so draw load to itself. How much less it does where the glue gives,
or lets go, lies between this and a loose plate.
"""

import numpy as np

from transom.board.elements import Section
from transom.board.grid import Grid, Rectangle
from transom.board.layers import rigidity
from transom.formula import formula
from transom.units import MM, MPA, N_MM, ONE, Array

ONE_SECTION = "transformed section, parallel axes; plane faces stay plane, glue taken as stiff"


@formula(symbol="e", source=ONE_SECTION, evidence="published", known_by="derived",
         typical={"E": 6000.0, "t": 37.0, "E_p": 70e3, "t_p": 6.0})  # fmt: skip
def axis_shift(E: MPA, t: MM, E_p: MPA, t_p: MM) -> MM:
    """How far a bonded plate draws the elastic axis from the wood's middle."""
    return E_p * t_p * (t + t_p) / (2.0 * (E * t + E_p * t_p))


@formula(symbol="D_b", source=ONE_SECTION, evidence="published", known_by="derived",
         typical={"E": 6000.0, "t": 37.0, "E_p": 70e3, "t_p": 6.0, "e": 14.0})  # fmt: skip
def bonded_rigidity(E: MPA, t: MM, E_p: MPA, t_p: MM, e: MM) -> N_MM:
    """Bending stiffness per width of wood and bonded plate together; twisting with shear moduli in their places."""
    plate = E_p * t_p * (t_p * t_p / 12.0 + ((t + t_p) / 2.0 - e) ** 2)
    return E * t * (t * t / 12.0 + e * e) + plate


@formula(symbol="k_b", source=ONE_SECTION, evidence="published", known_by="derived",
         typical={"E": 6000.0, "t": 37.0, "e": 14.0, "D_b": 9e7})  # fmt: skip
def wood_part(E: MPA, t: MM, e: MM, D_b: N_MM) -> ONE:
    """Moment on the wood alone, over that on both, that stresses its far face alike."""
    return E * t * t * (t / 2.0 + e) / (6.0 * D_b)


@formula(
    symbol="E'", source="a wide plate bent one way", evidence="published", known_by="derived", typical={"nu": 0.33}
)
def plate_modulus(E: MPA, nu: ONE) -> MPA:
    """Modulus of metal that cannot narrow."""
    return E / (1.0 - nu * nu)


@formula(symbol="G", source="isotropic metal", evidence="published", known_by="derived", typical={"nu": 0.33})
def metal_shear_modulus(E: MPA, nu: ONE) -> MPA:
    """Shear modulus of metal."""
    return E / (2.0 * (1.0 + nu))


def moduli(E_p: float, nu: float) -> dict[str, float]:
    """Of metal against moments of each kind."""
    bent = float(np.asarray(plate_modulus(E_p, nu)))
    return {"M_1": bent, "M_2": bent, "M_12": float(np.asarray(metal_shear_modulus(E_p, nu)))}


def bonded(
    section: Section, grid: Grid, plates: tuple[Rectangle, ...], t: float, metal: tuple[float, float, float]
) -> Section:
    """Section with plates bonded behind part of it; a cell takes the share of them that it lies under.

    Args:
        section: of the wood, uniform; t its thickness, mm.
        plates: that do not lie over one another.
        metal: modulus MPa, thickness mm, Poisson's ratio. Poisson's coupling of wood and metal is left out.
    """
    under = covered(grid, plates)
    kept = section.on(grid.present.shape)
    E_p, t_p, nu = metal
    out = {}
    for name, modulus in zip(("D_11", "D_22", "D_66"), moduli(E_p, nu).values(), strict=True):
        D = float(np.asarray(getattr(section, name)))
        E = D / float(np.asarray(rigidity(1.0, t)))
        e = axis_shift(E, t, modulus, t_p)
        out[name] = D + under * (float(np.asarray(bonded_rigidity(E, t, modulus, t_p, e))) - D)
    return Section(out["D_11"], kept["D_12"], out["D_22"], out["D_66"], kept["S_1"], kept["S_2"])


def covered(grid: Grid, plates: tuple[Rectangle, ...]) -> Array:
    """Share of each cell that lies under plates, (p, q)."""
    out = np.zeros(grid.present.shape)
    for plate in plates:
        y = np.diff(np.clip(grid.y, plate.y_lo, plate.y_hi)) / np.diff(grid.y)
        z = np.diff(np.clip(grid.z, plate.z_lo, plate.z_hi)) / np.diff(grid.z)
        out += np.outer(y, z)
    return np.minimum(out, 1.0)


WHOLE = 0.999  # of a cell: what lies under a plate altogether


def inside(grid: Grid, plates: tuple[Rectangle, ...]) -> Array:
    """True at nodes (p+1, q+1) that have cells under plates alone about them: elsewhere wood carries alone on one side."""
    bare = grid.present & (covered(grid, plates) < WHOLE)
    touched = np.zeros_like(grid.nodes)
    p, q = grid.present.shape
    for i in (0, 1):
        for j in (0, 1):
            touched[i : p + i, j : q + j] |= bare
    return np.asarray(grid.nodes & ~touched)
