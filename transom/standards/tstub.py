"""Plates pulled by bolts: equivalent T-stub of EN 1993-1-8, prying of the AISC Manual, cantilever of Design Guide 1."""

from transom.formula import formula
from transom.maths import PI, minimum, positive
from transom.units import MM, MPA, N_MM, ONE, N

TABLE = "EN 1993-1-8:2005, Table 6.4 and 6.5, a single bolt"
MANUAL = "AISC Steel Construction Manual, 13th ed., part 9, prying"
_T = {"m": 40.0, "e": 35.0, "l_eff": 160.0, "t": 12.0, "f_y": 100.0, "gamma": 1.1, "T": 6000.0, "M_p": 3.0e5, "b": 34.0,
      "a": 41.0, "delta": 0.9, "d": 12.7, "d_0": 13.7}  # fmt: skip


@formula(symbol="l_eff", source=TABLE, known_by="memory", typical=_T)
def bolt_length(m: MM, e: MM, rows: MM) -> MM:
    """Length of plate one bolt bends: round it, beside it, at the plate's end, and never past the next row.

    m is clear from bolt to the plate that holds it, e to the nearest edge, rows to the next bolt along it.
    """
    circles = minimum(2 * PI * m, PI * m + 2 * e)
    lines = minimum(4 * m + 1.25 * e, 2 * m + 0.625 * e + e)
    return minimum(minimum(circles, lines), rows)


@formula(symbol="M_p", source="EN 1993-1-8:2005, 6.2.4.1, plastic section", known_by="memory", typical=_T)
def plate_moment(l_eff: MM, t: MM, f_y: MPA, gamma: ONE) -> N_MM:
    """Moment at which a length of plate is fully plastic."""
    return l_eff * t * t * f_y / (4 * gamma)


@formula(symbol="M_Ed", source="EN 1993-1-8:2005, Table 6.2, no prying (mode 1-2); AISC Design Guide 1, 3.4",
         known_by="memory", typical=_T)  # fmt: skip
def bolt_moment(T: N, m: MM) -> N_MM:
    """Moment a bolt's pull makes at the face of the plate that holds it; nothing at its far edge relieves it."""
    return T * m


@formula(symbol="F_1", source="EN 1993-1-8:2005, Table 6.2, mode 1, for one bolt", known_by="memory", typical=_T)
def mode_1(M_p: N_MM, m: MM) -> N:
    """Pull at which a plate yields at the bolt and beside the plate that holds it."""
    return 2 * M_p / m


@formula(symbol="F_2", source="EN 1993-1-8:2005, Table 6.2, mode 2, for one bolt", known_by="memory",
         typical={**_T, "F_t": 30000.0, "n": 40.0})  # fmt: skip
def mode_2(M_p: N_MM, F_t: N, m: MM, n: MM) -> N:
    """Pull at which the bolt breaks with prying and the plate yields once."""
    return (M_p + n * F_t) / (m + n)


@formula(symbol="b'", source=MANUAL, known_by="memory", typical=_T)
def prying_arm(m: MM, d: MM, least: MM = 1.0) -> MM:
    """From the face of the plate that holds to the near side of the bolt."""
    return positive(m - d / 2 - least) + least


@formula(symbol="a'", source=MANUAL, known_by="memory", typical=_T)
def edge_arm(e: MM, b: MM, d: MM) -> MM:
    """From the bolt's near side to the edge that pries; no more than 1.25 b counts."""
    return minimum(e, 1.25 * b) + d / 2


@formula(symbol="delta", source=MANUAL, known_by="memory", typical=_T)
def net_share(d_0: MM, l_eff: MM) -> ONE:
    """Net over gross length at the bolt line."""
    return positive(1 - d_0 / l_eff)


@formula(symbol="q", source=f"{MANUAL}, solved for q", known_by="memory", typical=_T)
def prying(T: N, b: MM, a: MM, M_p: N_MM, delta: ONE) -> N:
    """Force that prying adds to a bolt: nil while the plate carries the pull as a cantilever."""
    return minimum(positive(T * b - M_p), delta * M_p) / a


@formula(symbol="T + q", source=MANUAL, known_by="memory")
def pried(T: N, q: N) -> N:
    """Pull on a bolt with its prying."""
    return T + q
