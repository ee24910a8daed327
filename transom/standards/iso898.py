"""ISO 898-1 (bolts of carbon steel): areas of the ISO metric thread, proof and minimum loads."""

from transom.formula import formula
from transom.maths import PI
from transom.units import MM, MM2, MPA, ONE, N

_THREAD = {"d": 12.0, "P": 1.75}


@formula(symbol="A_s", source="ISO 898-1:2013, 9.1.6.1", typical=_THREAD)
def tensile_stress_area(d: MM, P: MM) -> MM2:
    """Tensile stress area of an ISO metric thread of pitch P."""
    return PI / 4 * (d - 0.938194 * P) ** 2


@formula(symbol="A_3", source="ISO 68-1 basic profile, minor diameter d_3", typical=_THREAD)
def minor_area(d: MM, P: MM) -> MM2:
    """Area at the root of an ISO metric thread."""
    return PI / 4 * (d - 1.226869 * P) ** 2


@formula(symbol="F_p", source="ISO 898-1:2013, 9.1.3", typical={"S_p": 580.0, "A_s": 84.3})
def proof_load(S_p: MPA, A_s: MM2) -> N:
    """Pull a bolt takes without a lasting stretch."""
    return S_p * A_s


@formula(symbol="F_i", source="Shigley 9e, eq 8-31", known_by="transcribed", typical={"share": 0.75})
def clamp_load(F_p: N, share: ONE = 0.75) -> N:
    """Most a bolt is tightened to, as a share of its proof load; 0.75 for one that comes off again."""
    return share * F_p
