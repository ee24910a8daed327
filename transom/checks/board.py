"""The board: bending with twist, plies sliding round bolts and pads, the pads' own block."""

import numpy as np

from transom.checks.patch import Edges, half_of, perimeter_of, remaining, sliding_stress
from transom.checks.trial import Trial, design_value, found_strength
from transom.formula import formula
from transom.maths import maximum, minimum, positive, where
from transom.result import CheckArray
from transom.statics.contact import foot_pivot, top_pivot
from transom.statics.pads import pad_block
from transom.statics.strips import half
from transom.units import MM, ONE, Array, N, Value

VENEERS = "EN 1995-1-1:2004, 2.4.1; (sigma/f_m)^2 + (tau/f_v)^2 in each veneer is a convention"
SLIDING = "EN 1995-1-1:2004, 6.1.7; the perimeter at t/2 is a convention"
HOLES_FROM = 0.5  # below half of its strength the wood round a hole has room to share


@formula(symbol="b", source="mean moment over the wood a hole shares", evidence="convention",
         known_by="derived", typical={"share": 4.0})  # fmt: skip
def strip_about_hole(backing: MM, d_h: MM, share: ONE = 4.0) -> MM:
    """Width over which the moment at a hole is taken: the backing's or four holes'."""
    return maximum(backing, share * d_h)


@formula(symbol="b", source="mean moment over the wood a hole shares", evidence="convention",
         known_by="derived")  # fmt: skip
def strip_to_edge(b: MM, z_u: MM) -> MM:
    """The same, ended at the top edge for the upper row."""
    return minimum(b, 2.0 * z_u)


@formula(symbol="1 - d_h/b", source="net section", evidence="published", known_by="derived",
         typical={"d_h": 25.0, "b": 100.0})  # fmt: skip
def net_share(d_h: MM, b: MM) -> ONE:
    """Share of the section left beside a hole."""
    return positive(1.0 - d_h / b)


@formula(symbol="M_net", source="net section", evidence="published", known_by="derived",
         typical={"least": 1e-6})  # fmt: skip
def moment_on_net_section(M: N, share: ONE, least: ONE = 1e-6) -> N:
    """Moment per width that the whole section would need to feel what the net one does."""
    return M / maximum(share, least)


@formula(symbol="a_p", source="contact about the hand method's pivot", evidence="convention",
         known_by="computed", typical={"share": 0.4})  # fmt: skip
def pad_contact_height(h: MM, share: ONE = 0.4) -> MM:
    """Height of the pad that pushes when its middle is at 0.8 (or 0.2) of the pad's height."""
    return share * h


@formula(symbol="b_p", source="two pads", evidence="published", known_by="derived")
def both_pads(b: MM) -> MM:
    """Width of both pads together."""
    return 2.0 * b


@formula(symbol="l", source="two reaches", evidence="published", known_by="derived")
def across_bolt(one: MM, other: MM) -> MM:
    """Length of a patch from its reach on both sides of the bolt."""
    return one + other


def bending(trial: Trial) -> CheckArray:
    """Bending both ways with twist, per veneer; holes taken out where half the strength is used."""
    s = trial.strips
    whole = bending_without_holes(trial)
    across, up = _net_shares(trial)
    net = trial.stacks.veneer_utilisation(
        moment_on_net_section(s.Mx, across), moment_on_net_section(s.My, up), s.Mxy, trial.k
    )
    return CheckArray(
        part="board",
        what="bending",
        rule="ec5",
        method="hand",
        unit="",
        source=VENEERS,
        evidence="published",
        known_by="transcribed",
        cases=trial.cases.names,
        demand=np.where(whole < HOLES_FROM, whole, net),
        resistance=trial.strength_share,
        note="share of each veneer's strength, bending and twist together, holes taken out",
    )


def bending_without_holes(trial: Trial) -> Array:
    """Bending and twist of the whole section, (n, v): what the yardsticks are stated for."""
    s = trial.strips
    return trial.stacks.veneer_utilisation(s.Mx, s.My, s.Mxy, trial.k)


def _net_shares(trial: Trial) -> tuple[Value, Value]:
    """Share of the section left for bending across and up the board, the worse row, (n, v)."""
    d_h, u, low = trial.over_bore, trial.upper_patch, trial.lower_patch
    z_u = trial.setup.holding.pattern.z_u
    upper = strip_to_edge(strip_about_hole(across_bolt(u.up, u.down), d_h), z_u)
    lower = strip_about_hole(across_bolt(low.up, low.down), d_h)
    wide = strip_about_hole(minimum(across_bolt(u.inner, u.outer), across_bolt(low.inner, low.outer)), d_h)
    return minimum(net_share(d_h, upper), net_share(d_h, lower)), net_share(d_h, wide)


def _sliding(trial: Trial, what: str, V: Value, p: Value) -> CheckArray:
    s = trial.stacks
    c = np.maximum(s.c_1, s.c_2)[:, None]
    f_r = found_strength(s.f_r[:, None], trial.strength_share)
    return CheckArray(
        part="board",
        what=what,
        rule="ec5",
        method="hand",
        unit="MPa",
        source=SLIDING,
        evidence="published",
        known_by="transcribed",
        cases=trial.cases.names,
        demand=np.asarray(sliding_stress(V, p, trial.t, c)),
        resistance=np.asarray(design_value(f_r, trial.k)),
        note="rolling shear on the perimeter; also the plug and the glue line, epoxy is never credited beyond the wood",
    )


def sliding_at_bolts(trial: Trial) -> tuple[CheckArray, CheckArray]:
    """Plies sliding round an upper and a lower bolt."""
    return (
        _sliding(trial, "plies-sliding-upper-bolts", trial.upper_tension, trial.upper_patch.perimeter),
        _sliding(trial, "plies-sliding-lower-bolts", trial.lower_tension, trial.lower_patch.perimeter),
    )


def sliding_at_pads(trial: Trial) -> CheckArray:
    """Plies sliding round one pad: at the foot when the upper bolts pull, else at the top."""
    h, place, s = trial.setup.holding, trial.setup.place, trial.strips
    pattern = h.pattern
    z = where(s.ahead, foot_pivot(pattern.h), top_pivot(pattern.h, pattern.top_share))
    edges = Edges(
        inner=pattern.y_pad,
        outer=remaining(half_of(place.width), pattern.y_pad),
        up=z,
        down=remaining(place.height, z),
    )
    reach_x, reach_z = half_of(h.pad_width), half_of(pad_contact_height(pattern.h))
    p = perimeter_of(reach_x, reach_x, reach_z, reach_z, edges, trial.t)
    return _sliding(trial, "plies-sliding-pads", half(s.C), p)


def pads(trial: Trial) -> CheckArray:
    """The bracket's pads crushing the face: the block they need against half their height."""
    h, pattern = trial.setup.holding, trial.setup.holding.pattern
    block = pad_block(
        N=trial.actions.N,
        M=trial.actions.M,
        f=trial.crush,
        b=both_pads(h.pad_width),
        h=pattern.h,
        z_u=pattern.z_u,
        z_l=pattern.z_l,
    )
    return CheckArray(
        part="board",
        what="pad-bearing",
        rule="ec5",
        method="hand",
        unit="mm",
        source="EN 1995-1-1:2004, 8.5.2(2) for 3.0 f_c,90; half the pad's height is a convention",
        evidence="published",
        known_by="transcribed",
        cases=trial.cases.names,
        demand=block.y,
        resistance=block.limit,
        note="height of pad that must press at full strength; peak pressure is reported, never checked",
    )
