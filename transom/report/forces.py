"""Forces of a judged mount: each engine bolt by either method, and what the boat has to hold by the pencil's."""

import numpy as np

from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.judge.evaluate import trial_of
from transom.judge.records import Judgement
from transom.maths import positive, scalar
from transom.statics.bolt_group import bolt_group
from transom.statics.contact import bolt_tension, bracket_contact, couple_tension, prying_factor
from transom.statics.wrench import about
from transom.units import Array, Value


@dataclass(frozen=True)
class BoltForce:
    """One engine bolt in one case: place in board axes (mm, z up), factored tension and shear (N)."""

    y: float
    z: float
    tension: float
    shear: float


def trial_of_mount(j: Judgement) -> Trial | None:
    """The trial behind a judgement; None where no mount was judged."""
    return None if j.mount is None else trial_of(j.setup, j.cases, [j.mount])


def bolt_forces(trial: Trial) -> tuple[tuple[BoltForce, ...], ...]:
    """Forces on every bolt, case by case, by the trial's own method; no bolts where clamp screws hold the engine.

    By the pencil the couple about the upward axis pulls on the side it turns aft and relieves the other; a row between
    the top and the bottom one is counted for shear alone, as the checks do. The plate's
    are of its finer grid, in balance with the case; the checks add to them what two grids have yet to go.
    """
    h = trial.setup.holding
    cases = range(len(trial.cases))
    if h.by == "clamps":
        return tuple(() for _ in cases)
    y, z, a = np.ravel(h.bolt_y), np.ravel(h.bolt_z), trial.actions
    shear = bolt_group(F_y=a.F_y, F_z=a.F_z, M_x=a.M_x, y=y, z=z).resultant.reshape(len(trial.cases), -1)
    pulled = _plate_tension if isinstance(trial, Careful) else _tension
    pull = np.stack([pulled(trial, float(yi), float(zi)) for yi, zi in zip(y, z, strict=True)], axis=-1)
    return tuple(
        tuple(BoltForce(float(y[b]), float(z[b]), float(pull[c, b]), float(shear[c, b])) for b in range(len(y)))
        for c in cases
    )


def _tension(trial: Trial, y: float, z: float) -> Array:
    """Factored tension of the bolt at (y, z), (v,)."""
    p, s = trial.setup.holding.pattern, trial.strips
    row = _row(z, float(np.ravel(p.z_u)[0]), float(np.ravel(p.z_l)[0]))
    if row == "between":
        return np.zeros(len(trial.cases))
    pulls, half_apart = (s.T_u, p.y_u) if row == "upper" else (s.T_l, p.y_l)
    pry: Value = prying_factor(trial.t, trial.setup.factors.prying_thickness)
    couple = couple_tension(trial.actions.M_z, half_apart)
    # A couple that turns x towards y pushes starboard forward and pulls port aft.
    pulled = np.where(np.sign(trial.actions.M_z) == -np.sign(y), couple, -np.asarray(couple))
    return np.asarray(positive(bolt_tension(pulls, pry, pulled))).reshape(len(trial.cases))


def _plate_tension(trial: Trial, y: float, z: float) -> Array:
    """Factored tension by the plate of the bolt at (y, z), (v,)."""
    if not isinstance(trial, Careful):
        raise TypeError("the pencil method has no plate")
    for bolt, pulls in zip(trial.answer.seat.bolts, trial.answer.borne.bolts, strict=True):
        if abs(bolt.z - z) < 0.1 and bolt.y * y > 0:
            return np.asarray(pulls)
    return np.zeros(len(trial.cases))


def _row(z: float, z_u: float, z_l: float) -> str:
    """Which row a bolt belongs to; odd patterns list their depths to 0.1 mm."""
    if abs(-z - z_u) < 0.1:
        return "upper"
    return "lower" if abs(-z - z_l) < 0.1 else "between"


@dataclass(frozen=True)
class Hold:
    """What the boat has to hold in one situation, factored, N: pull aft of the worse side, push below."""

    of: str
    side: float
    bottom: float


def holds(trial: Trial) -> tuple[Hold, ...]:
    """The largest pull aft on a side line, and the largest push on the bottom line, in each situation."""
    side = np.broadcast_to(trial.strips.side_pull, (1, len(trial.cases)))[0]
    bottom = np.abs(np.broadcast_to(trial.strips.bottom_force, (1, len(trial.cases)))[0])
    of = np.array(trial.cases.of)
    return tuple(
        Hold(name, float(side[of == name].max()), float(bottom[of == name].max()))
        for name in dict.fromkeys(trial.cases.of)
    )


def plate_forces(trial: Trial) -> tuple[tuple[BoltForce, ...], ...]:
    """Factored forces on the engine's own bolts in a setback bracket's engine plate, case by case, pencil method.

    Places are the board's axes across and up. No bolts where clamp screws hold the engine, or where there is no bracket.
    """
    hold, v = trial.setup.bracket, len(trial.cases)
    if hold is None or hold.by == "clamps":
        return ((),) * v
    w = about(trial.engine_only.design, hold.x, 0.0, hold.z).reshape(v, 6)
    found = bracket_contact(-w[:, 0], w[:, 4], hold.pattern)
    y, z = np.ravel(hold.bolt_y), np.ravel(hold.bolt_z)
    shear = bolt_group(F_y=w[:, 1], F_z=w[:, 2], M_x=w[:, 3], y=y, z=z).resultant
    upper, lower = (float(np.ravel(x)[0]) for x in (hold.pattern.z_u, hold.pattern.z_l))
    rows = {"upper": found.T_u, "lower": found.T_l, "between": np.zeros(v)}
    up = scalar(hold.z)
    return tuple(
        tuple(
            BoltForce(yi, zi + up, _on_plate(rows[_row(zi, upper, lower)], w[:, 5], yi, i), float(shear[i, b]))
            for b, (yi, zi) in enumerate(zip(map(float, y), map(float, z), strict=True))
        )
        for i in range(v)
    )


def _on_plate(row: Array, turn: Array, y: float, i: int) -> float:
    """Tension of one bolt: its row's, with the couple about the upward axis on the side it turns aft."""
    couple = np.asarray(couple_tension(turn, abs(y) or 1.0))
    pulled = np.where(np.sign(turn) == -np.sign(y), couple, -couple)
    return float(np.asarray(positive(bolt_tension(row, 1.0, pulled))).reshape(-1)[i])
