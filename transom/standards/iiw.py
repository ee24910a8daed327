"""IIW recommendations for fatigue of welded components (Hobbacher): fillets of aluminium by their root. From memory.

Detail 414, cruciform or T-joint with fillet welds, crack from the root, stress on the throat: FAT 12 for aluminium, slope 3.
No knee and no cut-off are used: every cycle counts.
"""

from transom.formula import formula
from transom.maths import total
from transom.units import MM, MPA, N_PER_MM, ONE, ONES

DETAIL = "IIW fatigue recommendations, detail 414, aluminum, weld root, FAT 12, m = 3"
_LIFE = {"FAT": 12.0, "delta": 10.0, "gamma_Mf": 1.35, "n": 2.0e6, "a": 4.0, "f": 40.0}


@formula(symbol="d_sigma_w", source=DETAIL, known_by="memory", typical=_LIFE)
def throat_range(f: N_PER_MM, a: MM) -> MPA:
    """Stress range on the throat from a range of force per length."""
    return f / a


@formula(symbol="N", source=DETAIL, known_by="memory", typical=_LIFE)
def cycles(FAT: MPA, delta: MPA, gamma_Mf: ONE = 1.35, n: ONE = 2.0e6) -> ONE:
    """Cycles of a stress range that 19 of 20 such welds stand."""
    return n * (FAT / (gamma_Mf * delta)) ** 3


@formula(symbol="D", source="Palmgren and Miner", known_by="memory")
def damage(n: ONES, N: ONES) -> ONE:
    """Share of the life used by n of each kind of cycle."""
    return total(n / N)


@formula(symbol="h", source="Palmgren and Miner", known_by="memory", typical={"D": 0.002})
def hours(D: ONE) -> ONE:
    """Hours to the end of the life that goes by a share D an hour."""
    return 1 / D
