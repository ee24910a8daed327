"""Classical laminate theory for any stack of thin orthotropic layers: A, B, D, shear, layer stresses.

Layers are listed in the order of z, from the lowest; z = 0 is at mid-thickness, angles are from x
towards y. Any consistent units (N and mm: A in N/mm, B in N, D in N·mm).
Source: Jones, *Mechanics of Composite Materials*, 2nd ed., ch. 4; Kaw, *Mechanics of Composite
Materials*, ch. 4 (both from memory; checked against printed examples).
"""

import numpy as np
from numpy.typing import ArrayLike

from transom.errors import JobError
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import cos, sin
from transom.units import MPA, ONE, RAD, Array

CLT = "Jones, Mechanics of Composite Materials, 2nd ed., ch. 2"


@formula(symbol="Q_11", source=CLT, known_by="memory", typical={"nu_12": 0.3, "E_1": 50.0, "E_2": 20.0})
def reduced_stiffness(E_1: MPA, E_2: MPA, nu_12: ONE) -> MPA:
    """Plane-stress stiffness of a layer along its first axis."""
    return E_1 / (1 - nu_12**2 * E_2 / E_1)


@formula(symbol="Qbar_11", source=CLT, known_by="memory")
def turned_11(Q_11: MPA, Q_12: MPA, Q_22: MPA, Q_66: MPA, theta: RAD) -> MPA:
    """Stiffness along x of a layer turned by theta; along y with theta a right angle less."""
    c, s = cos(theta), sin(theta)
    Q: MPA = Q_11 * c**4 + 2 * (Q_12 + 2 * Q_66) * s**2 * c**2 + Q_22 * s**4
    return Q


@formula(symbol="Qbar_12", source=CLT, known_by="memory")
def turned_12(Q_11: MPA, Q_12: MPA, Q_22: MPA, Q_66: MPA, theta: RAD) -> MPA:
    """Coupling stiffness between x and y of a layer turned by theta."""
    c, s = cos(theta), sin(theta)
    Q: MPA = (Q_11 + Q_22 - 4 * Q_66) * s**2 * c**2 + Q_12 * (s**4 + c**4)
    return Q


@formula(symbol="Qbar_16", source=CLT, known_by="memory")
def turned_16(Q_11: MPA, Q_12: MPA, Q_22: MPA, Q_66: MPA, theta: RAD) -> MPA:
    """Coupling stiffness between x and shear of a layer turned by theta."""
    c, s = cos(theta), sin(theta)
    Q: MPA = (Q_11 - Q_12 - 2 * Q_66) * s * c**3 + (Q_12 - Q_22 + 2 * Q_66) * s**3 * c
    return Q


@formula(symbol="Qbar_26", source=CLT, known_by="memory")
def turned_26(Q_11: MPA, Q_12: MPA, Q_22: MPA, Q_66: MPA, theta: RAD) -> MPA:
    """Coupling stiffness between y and shear of a layer turned by theta."""
    c, s = cos(theta), sin(theta)
    Q: MPA = (Q_11 - Q_12 - 2 * Q_66) * s**3 * c + (Q_12 - Q_22 + 2 * Q_66) * s * c**3
    return Q


@formula(symbol="Qbar_66", source=CLT, known_by="memory")
def turned_66(Q_11: MPA, Q_12: MPA, Q_22: MPA, Q_66: MPA, theta: RAD) -> MPA:
    """Shear stiffness in the plane of a layer turned by theta."""
    c, s = cos(theta), sin(theta)
    Q: MPA = (Q_11 + Q_22 - 2 * Q_12 - 2 * Q_66) * s**2 * c**2 + Q_66 * (s**4 + c**4)
    return Q


@dataclass(frozen=True)
class Strain:
    """Strains of mid-thickness and curvatures, (3,) each: x, y, xy (engineering shear, twice the twist)."""

    eps: Array
    kappa: Array


@dataclass(frozen=True)
class Laminate:
    """Stiffness of a stack: A, B, D (3, 3); `z` (L+1,) the layers' faces; `Qbar` (L, 3, 3); `theta` (L,)."""

    A: Array
    B: Array
    D: Array
    z: Array
    Qbar: Array
    theta: Array

    @property
    def t(self) -> float:
        """Thickness."""
        return float(self.z[-1] - self.z[0])


def abd(
    E_1: ArrayLike, E_2: ArrayLike, G_12: ArrayLike, nu_12: ArrayLike, theta: ArrayLike, thickness: ArrayLike
) -> Laminate:
    """A, B and D of a stack; each argument a scalar or (L,), `theta` in radians.

    Raises:
        JobError: a modulus or thickness not above zero, or a Poisson's ratio no material can have.
    """
    rows = [np.asarray(v, dtype=float) for v in (E_1, E_2, G_12, nu_12, theta, thickness)]
    e_1, e_2, g, nu, angle, t = (np.atleast_1d(r) for r in np.broadcast_arrays(*rows))
    _refuse(e_1, e_2, g, nu, t)
    z = np.concatenate([[0.0], np.cumsum(t)]) - t.sum() / 2
    Q = _turned(e_1, e_2, g, nu, angle)
    powers = [np.diff(z**k) / k for k in (1, 2, 3)]
    A, B, D = (np.einsum("lij,l->ij", Q, p) for p in powers)
    return Laminate(A, B, D, z, Q, angle)


def _turned(e_1: Array, e_2: Array, g: Array, nu: Array, angle: Array) -> Array:
    Q_11 = np.asarray(reduced_stiffness(e_1, e_2, nu))
    Q_22 = Q_11 * (e_2 / e_1)
    Q = (Q_11, nu * Q_22, Q_22, g, angle)
    across = (*Q[:4], angle - np.pi / 2)
    out = np.empty((len(angle), 3, 3))
    out[:, 0, 0], out[:, 1, 1], out[:, 2, 2] = turned_11(*Q), turned_11(*across), turned_66(*Q)
    out[:, 0, 1] = out[:, 1, 0] = turned_12(*Q)
    out[:, 0, 2] = out[:, 2, 0] = turned_16(*Q)
    out[:, 1, 2] = out[:, 2, 1] = turned_26(*Q)
    return out


def strained(laminate: Laminate, N: ArrayLike, M: ArrayLike) -> Strain:
    """Strain of a free laminate under forces N (3,) and moments M (3,) per width."""
    whole = np.block([[laminate.A, laminate.B], [laminate.B, laminate.D]])
    size = np.repeat([1.0, laminate.t], 3)
    balanced = whole / size[:, None] / size
    e = np.linalg.solve(balanced, np.concatenate([np.asarray(N), np.asarray(M)]) / size) / size
    return Strain(e[:3], e[3:])


def layer_stresses(laminate: Laminate, strain: Strain) -> Array:
    """Stresses along and across each layer's own axes at its faces, (L, 2, 3): sigma_1, sigma_2, tau_12."""
    faces = np.stack([laminate.z[:-1], laminate.z[1:]], axis=1)
    eps = strain.eps + faces[..., None] * strain.kappa
    sx, sy, t = np.moveaxis(np.einsum("lij,lfj->lfi", laminate.Qbar, eps), -1, 0)
    c, s = np.cos(laminate.theta)[:, None], np.sin(laminate.theta)[:, None]
    s_1 = c * c * sx + s * s * sy + 2 * s * c * t
    s_2 = s * s * sx + c * c * sy - 2 * s * c * t
    return np.stack([s_1, s_2, (c * c - s * s) * t - s * c * (sx - sy)], axis=-1)


def transverse_shear(laminate: Laminate, G_xz: ArrayLike, G_yz: ArrayLike) -> tuple[float, float]:
    """Shear stiffness per width along x and y, from equilibrium in cylindrical bending.

    The stress that bending implies is integrated through the thickness and its strain energy set equal
    to V²/(2 S): a uniform plate gets 5/6 G t exactly, a sandwich of stiff skins its core's G d²/c. A
    fixed 5/6 would be wrong by a factor for skins on plywood. Coupling of directions is left out.
    """
    layers = len(laminate.theta)
    G = [np.broadcast_to(np.asarray(g, dtype=float), layers) for g in (G_xz, G_yz)]
    x, y = (_shear_stiffness(laminate.z, laminate.Qbar[:, i, i], g) for i, g in enumerate(G))
    return x, y


def _shear_stiffness(z: Array, Q: Array, G: Array) -> float:
    """V²/(2 × energy); three Gauss points integrate the square of a parabola exactly."""
    z_0 = (Q * np.diff(z**2) / 2).sum() / (Q * np.diff(z)).sum()
    lo, hi = z[:-1] - z_0, z[1:] - z_0
    D = (Q * (hi**3 - lo**3) / 3).sum()
    before = np.concatenate([[0.0], np.cumsum(Q * (hi**2 - lo**2) / 2)])[:-1]
    points, weights = np.polynomial.legendre.leggauss(3)
    at = (lo + hi)[:, None] / 2 + (hi - lo)[:, None] / 2 * points
    flow = (before[:, None] + Q[:, None] * (at**2 - lo[:, None] ** 2) / 2) / D
    return float(1 / ((flow**2 @ weights) * (hi - lo) / 2 / G).sum())


def _refuse(e_1: Array, e_2: Array, g: Array, nu: Array, t: Array) -> None:
    faults = [
        f"laminate: {name} {value} is not above zero; state the layer's measured or declared value"
        for name, row in (("E_1", e_1), ("E_2", e_2), ("G_12", g), ("thickness", t))
        for value in row[~((row > 0) & np.isfinite(row))]
    ]
    if not faults and not (nu**2 < e_1 / e_2).all():
        faults.append("laminate: nu_12 squared must stay below E_1/E_2; check which direction is 1")
    if faults:
        raise JobError(*faults)
