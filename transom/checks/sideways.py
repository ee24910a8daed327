"""An engine bolt pushed sideways in the wood: EN 1995-1-1 decides, NDS stands beside it (or the other way)."""

from functools import partial

import numpy as np

from transom.checks.check import check, load_duration_factor
from transom.checks.places import bolts, bottom_edge, edge_or_rim, least_spacing, offset
from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import maximum, minimum
from transom.result import CheckArray
from transom.standards.ec5 import axial_lateral_utilisation, embedment_plywood, yield_moment
from transom.standards.ec5_lateral import one_plate
from transom.standards.ec5_spacing import cross_banded_edge_factor, effective_number
from transom.standards.nds import adjusted_value, bearing_steel
from transom.standards.tr12 import single_shear
from transom.units import MM, ONE, Array, N, Value

EN = "EN 1995-1-1:2004, 8.2.3; plywood embedment 8.5.1.2; aluminum or steel bracket as steel plate is a convention"
NDS = "NDS 2018, 12.3 with TR12 Table A1 plywood bearing"
NOTHING = 1e-6  # N; stands for no resistance at all where something is divided by it
A36_STRENGTH = 399.9  # MPa, 58 ksi: the lower bound of ASTM A36, for the bracket's own bearing


@formula(
    symbol="F_v,Rd", source="EN 1995-1-1:2004, 2.4.3 (2.17) with the edge and the row's share", typical={"k": 0.54}
)
def sideways_resistance(F_v_Rk: N, k: ONE, k_e: ONE, k_n: ONE) -> N:
    """Design resistance of one bolt: k_mod/gamma_M, loaded edge, bolts in a row."""
    return F_v_Rk * k * k_e * k_n


@formula(symbol="n_ef/n", source="EN 1995-1-1:2004, 8.5.1.1(4), plywood treated as solid wood (conservative)",
         evidence="published", known_by="memory", typical={"n_ef": 1.9, "n": 2.0})  # fmt: skip
def row_share(n_ef: ONE, n: ONE) -> ONE:
    """Share of a bolt's resistance left in a row of n."""
    return n_ef / n


@formula(symbol="a_1/4", source="NDS 2018, 11.3.6.1: staggered by less than a quarter of the pitch counts as one row",
         evidence="published", known_by="memory")  # fmt: skip
def stagger_of_one_row(a_1: MM) -> MM:
    """How far bolts may be out of line and still count as one row."""
    return a_1 / 4.0


@formula(symbol="2 y", source="two bolts about the center line", evidence="published", known_by="derived")
def pair_pitch(y: MM) -> MM:
    """Distance between the bolts of a row."""
    return 2.0 * y


@formula(symbol="t_p", source="the bracket's ear where it is thinner than what is taken for a boss",
         evidence="convention", known_by="derived")  # fmt: skip
def side_plate(usual: MM, ear: MM) -> MM:
    """Thickness of metal that holds the bolt at the wood's face."""
    return minimum(usual, ear)


@formula(symbol="Z'", source="loaded edge as in EN 1995; its row's share, which is lower, for C_g of NDS 2018, 11.3.6",
         evidence="convention", known_by="derived")  # fmt: skip
def at_edge_in_row(Z: N, k_e: ONE, k_n: ONE) -> N:
    """Allowable value at a loaded edge under 4 d, of one bolt of a row."""
    return Z * k_e * k_n


def plate_of(trial: Trial) -> Value:
    """Thickness of the metal side member, mm."""
    return side_plate(trial.setup.factors.side_plate, trial.setup.holding.ear)


def _share_of_rows(trial: Trial) -> Value:
    """Two bolts a row, and two rows where they line up within a quarter of their distance; the worse."""
    p, d = trial.setup.holding.pattern, trial.hardware.d
    if trial.setup.holding.odd:
        return _share_of_odd_rows(trial)
    across = minimum(effective_number(2.0, pair_pitch(p.y_u), d), effective_number(2.0, pair_pitch(p.y_l), d))
    apart = bottom_edge(p.z_l, p.z_u)
    up = np.where(offset(p.y_u, p.y_l) < stagger_of_one_row(apart), effective_number(2.0, apart, d), across)
    return row_share(minimum(across, up), 2.0)


def _share_of_odd_rows(trial: Trial) -> Value:
    """An odd pattern: as many bolts in line as there are, across or down, at the smallest spacing (conservative)."""
    d, a_1 = trial.hardware.d, least_spacing(trial)
    y, down = (np.round(x, 1) for x in bolts(trial))
    most = float(max(np.unique(x, return_counts=True)[1].max() for x in (y, down)))
    in_line = max(most, float(len(np.unique(down))))
    return row_share(effective_number(in_line, a_1, d), in_line)


def resistance(trial: Trial) -> Array:
    """Design resistance of one bolt sideways in the wood by EN 1995, (n, v); no rope effect at all.

    The rope effect is nil in the cases where the bolt carries tension; in the others it is left out too
    (conservative: the pull may come with the next wave).
    """
    w, f = trial.hardware, trial.setup.factors
    f_h = embedment_plywood(w.d, trial.stacks.rho[:, None])
    F_v_Rk = one_plate(f_h, trial.t, w.d, yield_moment(w.f_ub, w.d), plate_of(trial))
    k_e = cross_banded_edge_factor(edge_or_rim(trial), w.d)
    k = f.connection(trial.cases.duration)
    return np.asarray(sideways_resistance(F_v_Rk, k, k_e, _share_of_rows(trial)))


_check = partial(check, part="engine-bolts")


def by_en(trial: Trial) -> CheckArray:
    """Sideways by EN 1995-1-1."""
    return _check(
        trial, "sideways-in-wood", "ec5", trial.shear, resistance(trial), EN,
        note="no rope effect; reduced for a loaded edge under 4 d and for bolts in a row",
        information=trial.setup.job.head.code == "US",
    )  # fmt: skip


def with_pull(trial: Trial) -> CheckArray:
    """Tension and sideways together in the wood: squares of the shares of bearing and of sideways resistance."""
    R_v = resistance(trial)
    both = partial(axial_lateral_utilisation, F_v_Ed=trial.shear, F_v_Rd=R_v)
    upper, lower = (
        both(F_ax_Ed=T, F_ax_Rd=maximum(trial.bearing(patch), NOTHING))
        for T, patch in ((trial.upper_tension, trial.upper_patch), (trial.lower_tension, trial.lower_patch))
    )
    return _check(
        trial, "pull-and-sideways-in-wood", "ec5", maximum(upper, lower), 1.0,
        "EN 1995-1-1:2004, 8.3.3 in form, washer bearing 8.5.2 for the pull", unit="", method=trial.method,
    )  # fmt: skip


def by_nds(trial: Trial) -> CheckArray:
    """Sideways by NDS with plywood bearing, service loads against allowable."""
    factor = trial.factor
    Z = single_shear(
        factor("nds.F_e_plywood_MPa"), bearing_steel(A36_STRENGTH), factor("nds.F_yb_MPa"), trial.t,
        plate_of(trial), trial.hardware.d,
    )  # fmt: skip
    k_e = cross_banded_edge_factor(edge_or_rim(trial), trial.hardware.d)
    limit = at_edge_in_row(
        adjusted_value(Z, load_duration_factor(trial, "nds"), factor("nds.C_M")), k_e, _share_of_rows(trial)
    )
    return _check(
        trial, "sideways-in-wood", "nds", trial.service_shear, limit, NDS,
        note="service loads; second opinion, 1.3 to 1.9 times harsher than EN 1995 on normal work",
        information=trial.setup.job.head.code != "US",
    )  # fmt: skip


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Sideways by the code that decides, with the pull; the other code beside it."""
    return (by_en(trial), by_nds(trial), with_pull(trial))
