"""The base plate of a setback bracket and its bolts through the board: the metal side of that joint."""

import numpy as np

from transom.checks.joints import PUNCH
from transom.checks.setback import HOLE, NO_PRYING, STUB, bracket_check, edge, pried, stub
from transom.checks.setback_forces import hole_strength
from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import minimum
from transom.result import CheckArray
from transom.setup.setback_records import PlateBracket
from transom.standards import ec9, tstub
from transom.standards.ec3 import bolt_tension_resistance, punching_resistance
from transom.statics import side_plates as sp
from transom.units import MM, Array, Value

BOLT = "EN 1993-1-8:2005, Table 3.4; AISC Manual, part 9"


@formula(symbol="d_0", source="hole drilled for the bolt", evidence="common practice", known_by="memory")
def hole(d: MM, clearance: MM) -> MM:
    """Hole in the base plate, as wide as the one in the board."""
    return d + clearance


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Base plate and base bolts; nothing without a bracket of plates."""
    hold = trial.setup.bracket
    if hold is None or hold.plates is None:
        return ()
    b = hold.plates
    p = trial.setup.holding.pattern
    apart = sp.distance(p.z_l, p.z_u)
    rows = [
        ("upper", trial.upper_tension, *stub(trial, b, b.base, p.y_u, apart)),
        ("lower", trial.lower_tension, *stub(trial, b, b.base, p.y_l, apart)),
    ]
    bending = (
        bracket_check(trial, f"base-plate-bending-{name}-bolts", "t-stub", tstub.bolt_moment(T, m), M_p, STUB, "N*mm",
              note=NO_PRYING, method=trial.method)
        for name, T, m, _, M_p in rows
    )  # fmt: skip
    return (*bending, *_bolts(trial, b, rows, apart))


Row = tuple[str, Array, Array, Array, Array]


def _bolts(trial: Trial, b: PlateBracket, rows: list[Row], apart: Value) -> tuple[CheckArray, ...]:
    w, gamma = trial.hardware, trial.setup.factors.gamma_M2
    d_0 = hole(w.d, trial.factor("board.bolt_clearance_mm"))
    pull = np.maximum(*(pried(T, m, length, M_p, b.base, w.d, d_0) for _, T, m, length, M_p in rows))
    F_t = bolt_tension_resistance(w.f_ub, w.A_s, gamma)
    f_u = _metal(trial, b)
    punched = punching_resistance(w.flats, b.base.t, f_u, gamma)
    return (
        bracket_check(trial, "base-bolt-tension", "ec3", pull, F_t, BOLT, "N", method=trial.method,
              note="with the prying a stiff ground would bring"),
        bracket_check(trial, "base-plate-pull-through", "ec9", pull, punched, PUNCH, "N", method=trial.method,
              note="the bolt's head, no washer counted"),
        bracket_check(trial, "base-plate-bearing", "ec9", trial.shear, _bearing(trial, b, d_0, apart), HOLE, "N"),
        edge(trial, "base-plate-edge", w.d, b.base),
    )  # fmt: skip


def _metal(trial: Trial, b: PlateBracket) -> Array:
    p = trial.setup.holding.pattern
    return hole_strength(b, b.base_weld, (p.y_u, p.y_l), trial.hardware.d, trial.factor("setback.haz_mm"))


def _bearing(trial: Trial, b: PlateBracket, d_0: Value, apart: Value) -> Array:
    """Force along the base plate at which a bolt bears or tears out."""
    w, p, e = trial.hardware, trial.setup.holding.pattern, np.maximum(b.base.edge, 0.0)
    f_u = _metal(trial, b)
    pitch = np.minimum(np.minimum(sp.pair(p.y_u), sp.pair(p.y_l)), apart)
    alpha = ec9.bearing_alpha(
        np.maximum(minimum(ec9.end_bolt_alpha(e, d_0), ec9.inner_bolt_alpha(pitch, d_0)), 0.0), w.f_ub, f_u
    )
    k_1 = np.maximum(minimum(ec9.edge_bolt_k(e, d_0), ec9.inner_bolt_k(pitch, d_0)), 0.0)
    return np.asarray(ec9.bearing_resistance(k_1, alpha, f_u, w.d, b.base.t, trial.setup.factors.gamma_M2))
