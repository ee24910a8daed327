"""An engine bolt pushed sideways in the wood: EN 1995-1-1 decides, NDS stands beside it (or the other way)."""

from functools import partial

import numpy as np

from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import absolute, maximum, minimum
from transom.result import CheckArray
from transom.standards.ec5 import axial_lateral_utilisation, embedment_plywood, yield_moment
from transom.standards.ec5_lateral import one_plate
from transom.standards.ec5_spacing import cross_banded_edge_factor, effective_number
from transom.standards.nds import adjusted_value, bearing_steel
from transom.standards.tr12 import single_shear
from transom.units import MM, ONE, Array, N, Value

EN = "EN 1995-1-1:2004, 8.2.3; plywood embedment 8.5.1.2; aluminum or steel bracket as steel plate is a convention"
NDS = "NDS 2018, 12.3 with TR12 Table A1 plywood bearing"
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


@formula(symbol="e", source="nearest edge of the board", evidence="published", known_by="derived")
def nearest_edge(top: MM, side: MM, bottom: MM) -> MM:
    """Smallest distance from a bolt's middle to an edge of the board."""
    return minimum(minimum(top, side), bottom)


@formula(symbol="e", source="distance to the board's edge", evidence="published", known_by="derived")
def side_edge(W: MM, y: MM) -> MM:
    """Distance from a bolt at y to the side edge."""
    return W / 2.0 - y


@formula(symbol="e", source="distance to the board's edge", evidence="published", known_by="derived")
def bottom_edge(H: MM, z: MM) -> MM:
    """Distance from a bolt at depth z to the bottom edge."""
    return H - z


@formula(symbol="a_1/4", source="NDS 2018, 11.3.6.1: staggered by less than a quarter of the pitch counts as one row",
         evidence="published", known_by="memory")  # fmt: skip
def stagger_of_one_row(a_1: MM) -> MM:
    """How far bolts may be out of line and still count as one row."""
    return a_1 / 4.0


@formula(symbol="s", source="offset of two bolts", evidence="published", known_by="derived")
def offset(y_1: MM, y_2: MM) -> MM:
    """How far two bolts are out of line."""
    return absolute(y_1 - y_2)


@formula(symbol="2 y", source="two bolts about the center line", evidence="published", known_by="derived")
def pair_pitch(y: MM) -> MM:
    """Distance between the bolts of a row."""
    return 2.0 * y


def edge_of(trial: Trial) -> Value:
    """Smallest edge distance of any engine bolt, mm; the notch counts as an edge for the upper row."""
    p, place = trial.setup.holding.pattern, trial.setup.place
    upper = nearest_edge(trial.upper_edge, side_edge(place.width, p.y_u), bottom_edge(place.height, p.z_u))
    lower = nearest_edge(p.z_l, side_edge(place.width, p.y_l), bottom_edge(place.height, p.z_l))
    return minimum(upper, lower)


def _share_of_rows(trial: Trial) -> Value:
    """Two bolts a row, and two rows where they line up within a quarter of their distance; the worse."""
    p, d = trial.setup.holding.pattern, trial.hardware.d
    across = minimum(effective_number(2.0, pair_pitch(p.y_u), d), effective_number(2.0, pair_pitch(p.y_l), d))
    apart = bottom_edge(p.z_l, p.z_u)
    up = np.where(offset(p.y_u, p.y_l) < stagger_of_one_row(apart), effective_number(2.0, apart, d), 2.0)
    return row_share(minimum(across, up), 2.0)


def resistance(trial: Trial) -> Array:
    """Design resistance of one bolt sideways in the wood by EN 1995, (n, v); no rope effect at all.

    The rope effect is nil in the cases where the bolt carries tension; in the others it is left out too
    (conservative: the pull may come with the next wave).
    """
    w, f = trial.hardware, trial.setup.factors
    f_h = embedment_plywood(w.d, trial.stacks.rho[:, None])
    F_v_Rk = one_plate(f_h, trial.t, w.d, yield_moment(w.f_ub, w.d), f.side_plate)
    k_e = cross_banded_edge_factor(edge_of(trial), w.d)
    k = f.connection(trial.cases.duration)
    return np.asarray(sideways_resistance(F_v_Rk, k, k_e, _share_of_rows(trial)))


def _check(
    trial: Trial, what: str, rule: str, demand: Value, limit: Value, source: str, unit: str = "N", **more: object
) -> CheckArray:
    return CheckArray(
        part="engine-bolts",
        what=what,
        rule=rule,
        method="hand",
        unit=unit,
        source=source,
        evidence="published",
        known_by="transcribed",
        cases=trial.cases.names,
        demand=np.atleast_2d(np.asarray(demand)),
        resistance=np.atleast_2d(np.asarray(limit)),
        **more,  # type: ignore[arg-type]
    )


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
    upper = both(F_ax_Ed=trial.upper_tension, F_ax_Rd=trial.bearing(trial.upper_patch))
    lower = both(F_ax_Ed=trial.lower_tension, F_ax_Rd=trial.bearing(trial.lower_patch))
    return _check(
        trial, "pull-and-sideways-in-wood", "ec5", maximum(upper, lower), np.ones((1, 1)),
        "EN 1995-1-1:2004, 8.3.3 in form, washer bearing 8.5.2 for the pull", unit="",
    )  # fmt: skip


def by_nds(trial: Trial) -> CheckArray:
    """Sideways by NDS with plywood bearing, service loads against allowable."""
    factor = trial.factor
    Z = single_shear(
        factor("nds.F_e_plywood_MPa"), bearing_steel(A36_STRENGTH), factor("nds.F_yb_MPa"), trial.t,
        trial.setup.factors.side_plate, trial.hardware.d,
    )  # fmt: skip
    short, brief = factor("nds.C_D_short"), factor("nds.C_D_instantaneous")
    C_D = np.array([short if d == "short" else brief for d in trial.cases.duration])
    limit = adjusted_value(Z, C_D, factor("nds.C_M"))
    return _check(
        trial, "sideways-in-wood", "nds", trial.service_shear, limit, NDS,
        note="service loads; second opinion, 1.3 to 1.9 times harsher than EN 1995 on normal work",
        information=trial.setup.job.head.code != "US",
    )  # fmt: skip


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Sideways by the code that decides, with the pull; the other code beside it."""
    return (by_en(trial), by_nds(trial), with_pull(trial))
