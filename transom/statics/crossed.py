"""The board by crossed strips, on arrays: from a bracket's wrench to moments, pulls and line forces."""

from dataclasses import replace

import numpy as np

from transom.frozen import dataclass
from transom.maths import maximum, where
from transom.statics import strips as s
from transom.statics.beams import span_influence
from transom.statics.contact import (
    Contact,
    Flags,
    Pattern,
    bearing_height,
    bracket_contact,
    foot_pivot,
    lever,
    top_pivot,
)
from transom.units import Array, Value

KINDS = ("pod", "uprights", "cap rail")
THINNEST, THICKEST = 25.0, 90.0  # mm; what the method was set on
EDGE_LEFT = 20.0  # mm of board below the lower row
STRIP_LEFT = 30.0  # mm of board below the lower strip that make a third strip
HELD, FREE = 0.08, 0.15  # share k of `moment_up`: lower end of the strip up the board held, or not


@dataclass(frozen=True)
class StripResult:
    """What the board does under a bracket; arrays (n, v).

    Loads of one side in N: `T_u`, `T_l` tension of one bolt without prying, `C` push of all pads, `P1`,
    `P2` rows at depths `z1`, `z2` mm, opposite in sense (P2 is negative where both pull), `q1`, `q2` what
    the strip up the board takes of them. `Mx` (bends the board across), `My` (up) and `Mxy` (twists it)
    are largest magnitudes per width, N. `side_pull` is the pull aft on the worse side line, N.
    `bottom_force` and `top_force` are the forward push of the board on the bottom line and on the cap rail,
    N for both sides; negative pulls aft. `a1`, `a2` are the rows' distances from the side lines, `b1`, `b2`
    the widths of the strips across and `b_v` of the strip up, mm. `ahead`: the upper row pulls (else the
    lower). `lifted`: both rows pull. `pressed`: no bolt pulls. `valid`: within what the method was set on.
    """

    T_u: Array
    T_l: Array
    C: Array
    P1: Array
    P2: Array
    z1: Array
    z2: Array
    q1: Array
    q2: Array
    Mx: Array
    My: Array
    Mxy: Array
    side_pull: Array
    bottom_force: Array
    top_force: Array
    a1: Array
    a2: Array
    b1: Array
    b2: Array
    b_v: Array
    ahead: Flags
    lifted: Flags
    pressed: Flags
    valid: Flags


@dataclass(frozen=True)
class _Board:
    """What the strips are made of and span, mm and MPa."""

    t: Value
    E1: Value
    E2: Value
    G: Value
    W: Value
    H: Value


@dataclass(frozen=True)
class _Rows:
    """The two loaded rows of one side."""

    P1: Array
    P2: Array
    z1: Array
    z2: Array
    y1: Array
    y2: Array


@dataclass(frozen=True)
class _Upright:
    """What the strip up the board takes, and what follows from it; one side."""

    q1: Array
    q2: Array
    M_v: Array
    R_t: Array
    R_b: Array
    M_3: Array
    hinged: Flags


def _rows(contact: Contact, pattern: Pattern) -> _Rows:
    """Bolts above and pads below ahead, pads above and bolts below in reverse, bolts at both if lifted.

    A push within the pads goes whole to the pivot that the moment is nearer to pulling against.
    """
    upper_bolts = contact.ahead | contact.lifted
    lower_bolts = ~contact.ahead | contact.lifted
    push = s.half(contact.C)
    lower_pull = where(contact.lifted, s.reversed_force(contact.T_l), contact.T_l)
    return _Rows(
        P1=np.asarray(where(upper_bolts, contact.T_u, push)),
        P2=np.asarray(where(lower_bolts, lower_pull, push)),
        z1=np.asarray(where(upper_bolts, pattern.z_u, top_pivot(pattern.h, pattern.top_share))),
        z2=np.asarray(where(lower_bolts, pattern.z_l, foot_pivot(pattern.h))),
        y1=np.asarray(where(upper_bolts, pattern.y_u, pattern.y_pad)),
        y2=np.asarray(where(lower_bolts, pattern.y_l, pattern.y_pad)),
    )


def _across(board: _Board, y: Value, b: Value) -> Array:
    """Flexibility of a strip across, b wide, loaded at +-y."""
    EI = s.bending_stiffness(board.E1, b, board.t)
    GA = s.shear_stiffness(board.G, b, board.t)
    return np.asarray(s.strip_flexibility(s.inside(board.W, y), s.outside(board.W, y), board.W, EI, GA))


def _hinged(
    board: _Board, rows: _Rows, b: tuple[Value, Value], b_v: Value, end: Value, f_3: Value
) -> tuple[Array, Array, Array]:
    """q1, q2 and M_v of a strip up the board that turns about `end`, a line (f_3 = 0) or a third strip."""
    d = lever(rows.z2, rows.z1)
    L_1, L_2 = s.strip_length(end, rows.z1), s.strip_length(end, rows.z2)
    r = s.lever_ratio(L_1, L_2)
    EI, GA = s.bending_stiffness(board.E2, b_v, board.t), s.shear_stiffness(board.G, b_v, board.t)
    f_v = s.upright_flexibility(d, L_2, EI, GA)
    f_1, f_2 = _across(board, rows.y1, b[0]), _across(board, rows.y2, b[1])
    q1 = np.asarray(s.shared_upper_force(rows.P1, rows.P2, r, f_1, f_2, f_v, f_3))
    return q1, np.asarray(s.shared_lower_force(q1, r)), np.asarray(s.upright_moment(q1, d))


def _pod(board: _Board, rows: _Rows, b: tuple[Value, Value], b_v: Value) -> _Upright:
    q1, q2, M_v = _hinged(board, rows, b, b_v, board.H, 0.0)
    none = np.zeros(())
    return _Upright(q1, q2, M_v, none, np.asarray(s.lower_end_force(q1, q2)), none, np.asarray(True))


def _between_uprights(board: _Board, rows: _Rows, b: tuple[Value, Value], b_v: Value, end: Value) -> _Upright:
    """With a third strip below the lower one, else without any strip up the board."""
    b_3 = s.width_left(board.H, end)
    third = np.asarray(b_3 > STRIP_LEFT)
    f_3 = _across(board, rows.y2, b_3)
    q1, q2, M_v = _hinged(board, rows, b, b_v, s.between(end, board.H), f_3)
    M_3 = s.row_moment(q2, q1, s.arm(board.W, rows.y2), b_3)
    kept = [np.asarray(where(third, x, 0.0)) for x in (q1, q2, M_v, M_3)]
    none = np.zeros(())
    return _Upright(kept[0], kept[1], kept[2], none, none, kept[3], third)


def _under_cap_rail(board: _Board, rows: _Rows, b: tuple[Value, Value], b_v: Value) -> _Upright:
    EI, GA = s.bending_stiffness(board.E2, b_v, board.t), s.shear_stiffness(board.G, b_v, board.t)
    f_1, f_2 = _across(board, rows.y1, b[0]), _across(board, rows.y2, b[1])
    n_11, n_12, n_22 = (
        span_influence(x, z, board.H, EI, GA) for x, z in ((rows.z1, rows.z1), (rows.z1, rows.z2), (rows.z2, rows.z2))
    )
    q1 = np.asarray(s.spanned_upper_force(rows.P1, rows.P2, f_1, f_2, n_11, n_22, n_12))
    q2 = np.asarray(s.spanned_lower_force(rows.P2, q1, f_2, n_22, n_12))
    L_1, L_2 = s.width_left(board.H, rows.z1), s.width_left(board.H, rows.z2)
    R_t = np.asarray(s.top_end_force(q1, q2, L_1, L_2, board.H))
    R_b = np.asarray(s.bottom_end_force(q1, q2, rows.z1, rows.z2, board.H))
    M_v = np.asarray(s.spanned_moment(R_t, R_b, rows.z1, L_2))
    return _Upright(q1, q2, M_v, R_t, R_b, np.zeros(()), np.asarray(False))


def _twist_share(kind: str, board: _Board, G12: Value, a_1: Value) -> Array:
    if kind == "pod":
        return np.asarray(s.pod_twist_share(board.W, G12))
    if kind == "uprights":
        return np.asarray(s.uprights_twist_share(a_1, board.H, G12))
    return np.asarray(s.skin_twist_share(G12))


def _side_pull(N: Value, contact: Contact, rows: _Rows, up: _Upright) -> Array:
    """The upper strip is taken as a pull in either sense, the lower one where it does pull."""
    row_1, row_2 = s.row_force(rows.P1, up.q1), s.row_force(rows.P2, up.q2)
    pushes = contact.ahead | contact.lifted
    row = maximum(row_1, where(pushes, s.reversed_force(row_2), row_2))
    return np.asarray(s.line_pull(row, N, maximum(contact.T_u, contact.T_l)))


def _valid(board: _Board, rows: _Rows) -> Flags:
    """Within the thickness, edge and places of loads the method was set on."""
    thick = (np.asarray(board.t) >= THINNEST) & (np.asarray(board.t) <= THICKEST)
    below = s.width_left(board.H, rows.z2) >= EDGE_LEFT
    apart = lever(rows.z2, rows.z1) >= EDGE_LEFT
    between_lines = (s.inside(board.W, rows.y1) > 0) & (s.inside(board.W, rows.y2) > 0)
    return np.asarray(thick & below & apart & between_lines)


def crossed_strips(
    *,
    kind: str,
    N: Value,
    M: Value,
    t: Value,
    E1: Value,
    E2: Value,
    G: Value,
    G12: Value,
    W: Value,
    H: Value,
    bracket: Pattern,
) -> StripResult:
    """Bending and twisting moments of a board under a bracket, and what it hands to its lines.

    Args:
        kind: "pod" (side lines and bottom line), "uprights" (side lines alone) or "cap rail" (a skin with
            side lines, bottom line and cap rail).
        N: forward push of the bracket, N, (v,).
        M: moment that pulls the top aft about the datum at mid-thickness, N*mm, (n, v).
        t: board thickness, mm, (n, 1).
        E1, E2: bending modulus of the stack across and up the board, MPa, (n, 1).
        G: transverse shear modulus, MPa; G12: in-plane shear modulus, MPa.
        W: span between side lines, mm; H: height of the board from its top edge to the bottom line, mm.
        bracket: bolt rows and pads, mm.

    Returns:
        Arrays that broadcast to (n, v). Every value is finite for finite input and positive lengths; where
        a length the strips need is missing the moments come out far too large, never too small.

    Raises:
        ValueError: `kind` is none of these.
    """
    if kind not in KINDS:
        raise ValueError(f"kind {kind!r} of support: one of {', '.join(KINDS)}")
    board = _Board(t, E1, E2, G, W, H)
    pattern = replace(bracket, h=bearing_height(bracket.h, H))
    contact = bracket_contact(N, M, pattern)
    rows = _rows(contact, pattern)
    b_v = s.upright_strip_width(pattern.y_pad, W)
    b1 = s.between(rows.z1, rows.z2)
    b2 = s.width_left(H, b1)
    if kind == "pod":
        up = _pod(board, rows, (b1, b2), b_v)
    elif kind == "uprights":
        end = s.end_of_lower_strip(rows.z2, lever(rows.z2, rows.z1))
        b2 = where(s.width_left(H, end) > STRIP_LEFT, s.width_left(end, b1), b2)
        up = _between_uprights(board, rows, (b1, b2), b_v, end)
    else:
        up = _under_cap_rail(board, rows, (b1, b2), b_v)
    a1, a2 = s.arm(W, rows.y1), s.arm(W, rows.y2)
    P = s.larger_load(rows.P1, rows.P2)
    M_1, M_2 = s.row_moment(rows.P1, up.q1, a1, b1), s.row_moment(rows.P2, up.q2, a2, b2)
    upper_pulls = contact.ahead | contact.lifted
    R_t, R_b = s.both_sides(up.R_t), s.both_sides(up.R_b)
    return StripResult(
        T_u=contact.T_u,
        T_l=contact.T_l,
        C=contact.C,
        P1=rows.P1,
        P2=rows.P2,
        z1=rows.z1,
        z2=rows.z2,
        q1=up.q1,
        q2=up.q2,
        Mx=np.asarray(s.moment_across(M_1, M_2, up.M_3, P)),
        My=np.asarray(s.moment_up(up.M_v, b_v, P, where(up.hinged, HELD, FREE))),
        Mxy=np.asarray(s.twisting_moment(_twist_share(kind, board, G12, a1), P)),
        side_pull=_side_pull(N, contact, rows, up),
        bottom_force=np.asarray(where(upper_pulls, R_b, s.reversed_force(R_b))),
        top_force=np.asarray(where(upper_pulls, s.reversed_force(R_t), R_t)),
        a1=np.asarray(a1),
        a2=np.asarray(a2),
        b1=np.asarray(b1),
        b2=np.asarray(b2),
        b_v=np.asarray(b_v),
        ahead=contact.ahead,
        lifted=contact.lifted,
        pressed=contact.pressed,
        valid=_valid(board, rows),
    )
