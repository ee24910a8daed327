"""Lag screws pulled out of wood: EN 1995-1-1 8.7.2 and NDS 12.2.1, square to the grain. Clauses from memory.

Both are for solid wood: that they hold for the face of a plywood laminate is a convention.
"""

from transom.formula import formula
from transom.maths import exp, log, minimum, positive, sqrt
from transom.units import KG_PER_M3, MM, MM2, MPA, N_PER_MM, ONE, N

EC5 = "EN 1995-1-1:2004+A1:2008, 8.7.2"
NDS = "NDS 2018, 12.2.1"
_SCREW = {"d": 8.0, "l_ef": 40.0, "rho_k": 460.0, "G": 0.5, "D": 9.525}


@formula(symbol="f_ax,k", source=f"{EC5} (8.39)", known_by="memory", typical=_SCREW)
def withdrawal_strength(d: MM, l_ef: MM, rho_k: KG_PER_M3, C: MPA = 0.52, mm: MM = 1.0,
                        unit: KG_PER_M3 = 1.0) -> MPA:  # fmt: skip
    """Pull out of the wood on each mm of thread and of diameter; d 6 to 12 mm."""
    return C * sqrt(mm / d) * exp(-0.1 * log(l_ef / mm)) * exp(0.8 * log(rho_k / unit))


@formula(symbol="F_ax,Rk", source=f"{EC5} (8.38), 90 degrees to the grain", known_by="memory",
         typical=_SCREW | {"f_ax_k": 15.0})  # fmt: skip
def withdrawal_resistance(f_ax_k: MPA, d: MM, l_ef: MM, d_full: MM = 8.0) -> N:
    """Characteristic pull that draws one screw out; thin ones earn a share."""
    return f_ax_k * d * l_ef * minimum(d / d_full, 1.0)


@formula(symbol="W", source=f"{NDS}, W = 1800 G^(3/2) D^(3/4) lb/in", known_by="memory", typical=_SCREW)
def withdrawal_value(G: ONE, D: MM, C: N_PER_MM = 315.23, inch: MM = 25.4) -> N_PER_MM:
    """Reference pull on each mm of thread in the main member; D is the shank's."""
    return C * G * sqrt(G) * sqrt(D / inch) * sqrt(sqrt(D / inch))


@formula(symbol="G", source="density over that of water; the low density of the panel stands in for the mean that NDS asks",
         evidence="convention", known_by="derived", typical=_SCREW)  # fmt: skip
def specific_gravity(rho_k: KG_PER_M3, water: KG_PER_M3 = 1000.0) -> ONE:
    """Specific gravity of the wood."""
    return rho_k / water


@formula(symbol="W p_t", source=NDS, known_by="memory")
def withdrawal_of_screw(W: N_PER_MM, p_t: MM) -> N:
    """Reference pull of one screw with p_t of thread in the wood."""
    return W * p_t


@formula(symbol="l_ef", source="thread in the wood less the tapered tip, 0.6 of the diameter (NDS Table L2)",
         known_by="memory", typical={"length": 60.0, "t_metal": 5.0, "d": 8.0, "t": 38.0})  # fmt: skip
def thread_in_wood(length: MM, t_metal: MM, d: MM, t: MM, tip: ONE = 0.6) -> MM:
    """Length of thread that holds, of a screw l long through metal into wood t thick."""
    return positive(minimum(length - t_metal, t) - tip * d)


@formula(symbol="A_r", source="root of a lag screw, NDS Table L2, the smallest share listed", known_by="memory")
def root_area(d: MM, share: ONE = 0.69) -> MM2:
    """Area under the thread."""
    return 0.7853981633974483 * share * share * d * d


@formula(symbol="d_ef", source="EN 1995-1-1:2004, 8.7.1(3), 1.1 times the root", known_by="memory")
def working_diameter(d: MM, share: ONE = 0.69) -> MM:
    """Diameter with which a screw works sideways."""
    return 1.1 * share * d


@formula(symbol="l_min", source=f"{EC5}(3), 6 d; NDS 12.1.4.6, 4 D", known_by="memory", typical={"times": 6.0})
def least_thread(d: MM, times: ONE) -> MM:
    """Least length of thread in the wood."""
    return times * d
