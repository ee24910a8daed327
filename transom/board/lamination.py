"""Plywood stacks as veneers: what a pile of sheets, each turned along or across, is worth as a board.

The veneers are the layers. Their moduli and strengths are fitted so that one sheet alone returns both
rows of its panel's table; a stack of sheets then has its own. Stacks are arrays over n candidates and
L sheet positions, position 0 on the aft (bracket) face. Direction 1 is y, across the boat; direction 2
is z, up the board. The thickness is the wood's: glue lines are not counted as wood (conservative).

Across its grain a veneer keeps a share `e_90` of its modulus. Taking none would flatter the strength of
stacks across the face grain by 9 % (two 5-ply sheets: 1.27 times the panel's instead of 1.16).
"""

from dataclasses import fields, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from transom.board.layers import (
    about_elastic_axis,
    across_grain,
    axial_stiffness,
    bending_coefficient,
    bending_stiffness,
    effective_modulus,
    elastic_axis,
    farther_face,
    first_stiffness,
    first_stiffness_beyond,
    from_axis,
    mid_depth,
    planar_shear_factor,
    plies_inertia,
    ply_depth,
    series_modulus,
    sheets_mass,
    thickness_of,
    twist_coefficient,
    veneer_interaction,
    veneer_modulus,
    veneer_strength,
)
from transom.errors import JobError
from transom.frozen import dataclass
from transom.units import Array

Bools = NDArray[np.bool_]
ROUNDING = 1e-9  # relative; what comes of the same numbers in another order


@dataclass(frozen=True)
class Panel:
    """Characteristic numbers of a panel, each a scalar or an array that broadcasts to (n, L).

    Moduli and strengths in MPa, parallel and perpendicular to the face grain as the panel's table
    gives them (bending about the whole section); `rho` in kg/m³. `e_90` is the modulus of a veneer across
    the grain over that along it: 0.05 for Douglas-fir in the tangential direction (FPL Wood Handbook,
    Table 5-1; memory).
    """

    E_par: ArrayLike
    E_perp: ArrayLike
    f_par: ArrayLike
    f_perp: ArrayLike
    f_v: ArrayLike
    f_r: ArrayLike
    f_c_90: ArrayLike
    G_12: ArrayLike
    G_trans: ArrayLike
    rho: ArrayLike
    e_90: ArrayLike = 0.05


@dataclass(frozen=True)
class _Veneers:
    """Every veneer of n stacks, last axis K = L P in order of depth; absent ones have no thickness."""

    z_lo: Array
    z_hi: Array
    there: Bools
    along_y: Bools
    E: Array
    E_90: Array
    f: Array

    def modulus(self, along_y: bool) -> Array:
        """Modulus in one direction, (n, K)."""
        return np.where(self.there, np.where(self.along_y == along_y, self.E, self.E_90), 0.0)


def _sheet_fit(plies: NDArray[np.int_], P: int, numbers: dict[str, Array]) -> tuple[Array, Array, Array]:
    """Each veneer's modulus along and across its grain and its strength, (n, L, P), on unit thickness.

    Across its grain a veneer takes its share of the modulus fitted to the other row of the table, whose
    bending it joins.
    """
    j, p = np.arange(P), plies[..., None]
    cross = np.broadcast_to(j % 2 == 1, (*plies.shape, P))
    z_lo, z_hi = j / p - 0.5, (j + 1) / p - 0.5
    # A ply of no thickness stands for one that is not there, or not of this direction.
    I_par, I_cross = (np.asarray(plies_inertia(z_lo, np.where((j < p) & mine, z_hi, z_lo))) for mine in (~cross, cross))
    e_90 = numbers["e_90"]
    E_par = np.asarray(veneer_modulus(numbers["E_par"], 1.0, I_par, I_cross, e_90))[..., None]
    E_cross = np.asarray(veneer_modulus(numbers["E_perp"], 1.0, I_cross, I_par, e_90))[..., None]
    f_par = veneer_strength(numbers["f_par"][..., None], E_par, numbers["E_par"][..., None], 0.5, 1.0)
    f_cross = veneer_strength(numbers["f_perp"][..., None], E_cross, numbers["E_perp"][..., None], 0.5 - 1 / p, 1.0)
    # A ply's modulus across the grain is a share of the other kind's along it.
    E_90 = np.asarray(across_grain(np.where(cross, E_par, E_cross), e_90[..., None]))
    return np.where(cross, E_cross, E_par), E_90, np.where(cross, f_cross, f_par)


def _veneers(t: Array, across: Bools, plies: NDArray[np.int_], used: Bools, numbers: dict[str, Array]) -> _Veneers:
    n, L = t.shape
    P = int(plies.max())
    E, E_90, f = _sheet_fit(plies, P, numbers)
    j, p = np.arange(P), plies[..., None]
    before = [np.asarray(thickness_of(t[:, :k])) for k in range(1, L)]
    face = np.stack([np.zeros(n), *before], axis=1)[..., None]
    z_lo, z_hi = (np.asarray(ply_depth(face, t[..., None], np.minimum(k / p, 1.0))) for k in (j, j + 1))
    along_y = across[..., None] == (j % 2 == 0)
    there = used[..., None] & (j < p)
    flat = (n, L * P)
    return _Veneers(
        z_lo.reshape(flat), z_hi.reshape(flat), there.reshape(flat), along_y.reshape(flat),
        E.reshape(flat), E_90.reshape(flat), f.reshape(flat),
    )  # fmt: skip


@dataclass(frozen=True)
class _Direction:
    """Bending in one direction: elastic axis, stiffness per width (n,), planar shear factor (n,)."""

    z_0: Array
    D: Array
    c: Array


def _direction(v: _Veneers, t: Array, along_y: bool) -> _Direction:
    E = v.modulus(along_y)
    EA = axial_stiffness(E, v.z_lo, v.z_hi)
    z_0 = np.asarray(elastic_axis(first_stiffness(E, v.z_lo, v.z_hi), EA))
    D = np.asarray(about_elastic_axis(bending_stiffness(E, v.z_lo, v.z_hi), EA, z_0))
    lo, hi = (np.asarray(from_axis(z, z_0[:, None])) for z in (v.z_lo, v.z_hi))
    largest = first_stiffness_beyond(E, lo, hi, _rolling_cut(v, E, lo, hi, v.there & (v.along_y != along_y)))
    return _Direction(z_0, D, np.asarray(planar_shear_factor(t, largest, D)))


def _rolling_cut(v: _Veneers, E: Array, lo: Array, hi: Array, rolls: Bools) -> Array:
    """Depth from the axis, (n, 1), of the cut through a rolling veneer before which most lies; the face where none rolls."""
    nearest = np.clip(0.0, lo, hi)
    each = E * (hi**2 - lo**2)
    beyond = np.abs(np.cumsum(each, axis=-1) - each + E * (nearest**2 - lo**2))
    held = np.where(rolls, beyond, -1.0)
    # Of plies that are each other's image the first, whatever rounding says.
    worst = np.argmax(held >= held.max(axis=-1, keepdims=True) * (1 - ROUNDING), axis=-1)[:, None]
    cut = np.take_along_axis(nearest, worst, axis=-1)
    return np.where(rolls.any(axis=-1, keepdims=True), cut, lo[:, :1])


@dataclass(frozen=True)
class Stacks:
    """n boards glued up from at most L sheets, their stiffness and the coefficients of their strength.

    Inputs (n, L), position 0 on the aft face: `thickness` mm, `across` (face grain along y), `plies`,
    `used`. Each board (n,): `t` wood only; `E_1` along y and `E_2` up the board, MPa, effective
    (12 D/t³); `c_1`, `c_2` the planar shear factors of a shear force along y and along z, the largest
    over veneers that roll; `G_12`, `G_trans` MPa; `mass` kg/m²; the lowest `f_r`, `f_c_90`, `rho` of
    the sheets in it. Each veneer class (n, 2L), parallel then cross for every sheet: `s` and `r`, in 1/N,
    utilisation by a unit bending and a unit twisting moment per width before k_mod/gamma_M, zero for
    classes not there; `along_y`, the direction of its grain. `s` and `r` are each the largest of the
    class, in an unequal stack perhaps at opposite faces (conservative).
    """

    thickness: Array
    across: Bools
    plies: NDArray[np.int_]
    used: Bools
    t: Array
    E_1: Array
    E_2: Array
    c_1: Array
    c_2: Array
    G_12: Array
    G_trans: Array
    f_r: Array
    f_c_90: Array
    rho: Array
    mass: Array
    s: Array
    r: Array
    along_y: Bools

    def __len__(self) -> int:
        return len(self.t)

    def veneer_utilisation(self, Mx: ArrayLike, My: ArrayLike, Mxy: ArrayLike, k: ArrayLike) -> Array:
        """Largest utilisation over veneers and directions, bending with twist, (n, v). NaN moments give NaN.

        Args:
            Mx, My, Mxy: design moments per width, N (N·mm per mm), Mx spanning y and My spanning z;
                each broadcasts to (n, v).
            k: k_mod/gamma_M, broadcasts to (n, v).
        """
        mx, my, mxy = (np.abs(np.asarray(m, dtype=float)) for m in (Mx, My, Mxy))
        worst = np.zeros(np.broadcast_shapes((len(self), 1), mx.shape, my.shape, mxy.shape, np.shape(k)))
        for i in self._outermost:
            s, r, along_y = self.s[:, i], self.r[:, i], self.along_y[:, i]
            M = mx if along_y.all() else my if not along_y.any() else np.where(along_y[:, None], mx, my)
            worst = np.maximum(worst, veneer_interaction(M, s[:, None], mxy, r[:, None], np.asarray(k)))
        return worst

    def worst_utilisation(self, Mx: Array, My: Array, Mxy: Array, k: ArrayLike) -> Array:
        """Of one stack the largest over places too, (1, v), from its moments at places, (p, v), and k (v,).

        Each veneer is worked out where it is stressed most, which squares tell.
        """
        mx, my, mxy = np.broadcast_arrays(Mx, My, Mxy)
        worst, case = np.zeros((1, mx.shape[1])), np.arange(mx.shape[1])
        for i in self._outermost:
            s, r, M = self.s[0, i], self.r[0, i], mx if self.along_y[0, i] else my
            at = np.argmax((M * s) ** 2 + (mxy * r) ** 2, axis=0)
            u = veneer_interaction(np.abs(M[at, case]), s, np.abs(mxy[at, case]), r, np.asarray(k))
            worst = np.maximum(worst, u)
        return worst

    @cached_property
    def _outermost(self) -> list[int]:
        """Veneer classes that are there and that no other covers in every board: along the same grain, s and r no less."""
        s, r, way = self.s.T, self.r.T, self.along_y.T
        # Of veneers that are each other's image rounding does not pick one.
        least_s, least_r = s * (1 - ROUNDING), r * (1 - ROUNDING)
        covers = ((way[:, None] == way) & (s[:, None] >= least_s) & (r[:, None] >= least_r)).all(axis=-1)
        # Of two that cover each other the first stays.
        first = np.arange(len(s))[:, None] < np.arange(len(s))
        covered = (covers & (first | ~covers.T)).any(axis=0)
        return [int(i) for i in np.flatnonzero(~covered & s.any(axis=-1))]

    def scaled(self, factors: ArrayLike) -> "Stacks":
        """The same lay-ups with every sheet's thickness times a factor, one for each stack.

        One stack and m factors give m stacks.
        """
        a = np.asarray(factors, dtype=float).reshape(-1)
        n = np.broadcast_shapes((len(self),), a.shape)[0]
        whole = self.take(np.broadcast_to(np.arange(len(self)), n))
        a = np.broadcast_to(a, n)
        return replace(
            whole,
            thickness=whole.thickness * a[:, None],
            t=whole.t * a,
            mass=whole.mass * a,
            s=whole.s / a[:, None] ** 2,
            r=whole.r / a[:, None] ** 2,
        )

    def take(self, which: ArrayLike) -> "Stacks":
        """The stacks at these places (or where True), in that order."""
        i = np.atleast_1d(np.asarray(which))
        return Stacks(**{f.name: getattr(self, f.name)[i] for f in fields(self)})


def stacks(
    thickness: ArrayLike, across: ArrayLike, plies: ArrayLike, panel: Panel, used: ArrayLike | None = None
) -> Stacks:
    """Glue up n boards at once.

    Args:
        thickness: (n, L) mm, actual.
        across: (n, L) True where the face grain runs along y (horizontal).
        plies: (n, L) odd, at least 3; plies of equal thickness.
        panel: numbers that broadcast to (n, L).
        used: (n, L), False where the position is empty; all used if not given.

    Raises:
        JobError: shapes that differ, an even count of plies, a thickness or panel number not above zero.
    """
    t_sheet = np.atleast_2d(np.asarray(thickness, dtype=float))
    n, L = t_sheet.shape
    there = np.ones((n, L), dtype=bool) if used is None else np.atleast_2d(np.asarray(used, dtype=bool))
    turned, count = np.atleast_2d(np.asarray(across, dtype=bool)), np.atleast_2d(np.asarray(plies, dtype=int))
    _refuse(t_sheet, turned, count, there, panel)
    t_sheet, count = np.where(there, t_sheet, 0.0), np.where(there, count, 3)
    numbers = {k: np.where(there, np.asarray(v, dtype=float), 1.0) for k, v in vars(panel).items()}
    v = _veneers(t_sheet, turned, count, there, numbers)
    t = np.asarray(thickness_of(t_sheet))
    one, two = _direction(v, t, True), _direction(v, t, False)
    s, r, D_66 = _classes(v, numbers, t, one, two, (n, L))
    low = {k: np.min(np.where(there, numbers[k], np.inf), axis=1) for k in ("f_r", "f_c_90", "rho")}
    return Stacks(
        thickness=t_sheet, across=turned, plies=count, used=there, t=t,
        E_1=np.asarray(effective_modulus(one.D, t)), E_2=np.asarray(effective_modulus(two.D, t)),
        c_1=one.c, c_2=two.c, G_12=np.asarray(effective_modulus(D_66, t)),
        G_trans=np.asarray(series_modulus(t_sheet, numbers["G_trans"])),
        f_r=low["f_r"], f_c_90=low["f_c_90"], rho=low["rho"],
        mass=np.asarray(sheets_mass(numbers["rho"], t_sheet)),
        s=s, r=r, along_y=np.stack([turned, ~turned], axis=-1).reshape(n, 2 * L),
    )  # fmt: skip


def _classes(
    v: _Veneers, numbers: dict[str, Array], t: Array, one: _Direction, two: _Direction, shape: tuple[int, int]
) -> tuple[Array, Array, Array]:
    """Coefficients s and r of every veneer class (n, 2L), and the twisting stiffness D_66 (n,)."""
    P = v.E.shape[1] // shape[1]
    G, f_v = (np.repeat(numbers[k], P, axis=1) for k in ("G_12", "f_v"))
    mid = np.asarray(mid_depth(t))[:, None]
    lo, hi = (np.asarray(from_axis(z, mid)) for z in (v.z_lo, v.z_hi))
    D_66 = np.asarray(bending_stiffness(np.where(v.there, G, 0.0), lo, hi))
    z_0 = np.where(v.along_y, one.z_0[:, None], two.z_0[:, None])
    D = np.where(v.along_y, one.D[:, None], two.D[:, None])
    s = bending_coefficient(v.E, farther_face(v.z_lo, v.z_hi, z_0), D, v.f)
    r = twist_coefficient(G, farther_face(v.z_lo, v.z_hi, mid), D_66[:, None], f_v)
    return _by_class(np.asarray(s), v, shape), _by_class(np.asarray(r), v, shape), D_66


def _by_class(values: Array, v: _Veneers, shape: tuple[int, int]) -> Array:
    whole = np.where(v.there, values, 0.0).reshape(*shape, -1)
    both = np.stack([whole[..., 0::2].max(axis=-1), whole[..., 1::2].max(axis=-1)], axis=-1)
    return np.asarray(both.reshape(shape[0], 2 * shape[1]))


def _refuse(t: Array, across: Bools, plies: NDArray[np.int_], used: Bools, panel: Panel) -> None:
    faults = []
    for name, a in (("across", across), ("plies", plies), ("used", used)):
        if a.shape != t.shape:
            faults.append(f"stack: {name} has shape {a.shape}, thickness {t.shape}; give one for each sheet")
    if faults:
        raise JobError(*faults)
    if not used.any(axis=1).all():
        faults.append("stack: a board of no sheets; give each at least one")
    for value in sorted(set(t[used & ~((t > 0) & np.isfinite(t))].tolist())):
        faults.append(f"stack: sheet thickness {value} mm is not above zero; give the measured thickness")
    for value in sorted(set(plies[used & ((plies < 3) | (plies % 2 == 0))].tolist())):
        faults.append(f"stack: {value} plies; plywood has an odd number, 3 or more; count them at an edge")
    for name, number in vars(panel).items():
        row = np.broadcast_to(np.asarray(number, dtype=float), t.shape)[used]
        if not (np.isfinite(row) & ((row > 0) | (name == "e_90") & (row == 0))).all():
            faults.append(f"stack: panel number {name} is not above zero everywhere; state it or pick a listed panel")
    if faults:
        raise JobError(*faults)
