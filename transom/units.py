"""Unit annotations for formulas: what a number means, written in the signature.

Lengths, forces, moments and stresses are in mm, N, N*mm, MPa. Formulas with mass, density, power
or speed are in kg, m, s, W and N; one named function crosses over (`loads.crossing`).
"""

from typing import Annotated, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from transom.frozen import dataclass

Array: TypeAlias = NDArray[np.float64]
Value: TypeAlias = float | Array


@dataclass(frozen=True)
class Unit:
    """A unit as text (`transom.quantity` knows how to read it); `vector` marks a last axis of items."""

    text: str
    vector: bool = False


ONE = Annotated[Value, Unit("")]
RAD = Annotated[Value, Unit("rad")]

MM = Annotated[Value, Unit("mm")]
PER_N = Annotated[Value, Unit("1/N")]
MM_PER_M = Annotated[Value, Unit("mm/m")]
PER_MM = Annotated[Value, Unit("1/mm")]
MM2 = Annotated[Value, Unit("mm^2")]
MM3 = Annotated[Value, Unit("mm^3")]
MM4 = Annotated[Value, Unit("mm^4")]
N = Annotated[Value, Unit("N")]
MPA = Annotated[Value, Unit("N/mm^2")]
N_MM = Annotated[Value, Unit("N*mm")]
N_MM2 = Annotated[Value, Unit("N*mm^2")]
N_PER_MM = Annotated[Value, Unit("N/mm")]
MM_PER_N = Annotated[Value, Unit("mm/N")]

KG = Annotated[Value, Unit("kg")]
KG_PER_M3 = Annotated[Value, Unit("kg/m^3")]
KG_PER_M2 = Annotated[Value, Unit("kg/m^2")]
M = Annotated[Value, Unit("m")]
M2 = Annotated[Value, Unit("m^2")]
M3 = Annotated[Value, Unit("m^3")]
S = Annotated[Value, Unit("s")]
PER_S = Annotated[Value, Unit("1/s")]
M_PER_S = Annotated[Value, Unit("m/s")]
M_PER_S2 = Annotated[Value, Unit("m/s^2")]
WATT = Annotated[Value, Unit("W")]
N_M = Annotated[Value, Unit("N*m")]

ONES = Annotated[Array, Unit("", vector=True)]
MMS = Annotated[Array, Unit("mm", vector=True)]
KG_PER_M3S = Annotated[Array, Unit("kg/m^3", vector=True)]
MM2S = Annotated[Array, Unit("mm^2", vector=True)]
NS = Annotated[Array, Unit("N", vector=True)]
N_MMS = Annotated[Array, Unit("N*mm", vector=True)]
MPAS = Annotated[Array, Unit("N/mm^2", vector=True)]


def unit_of(annotation: Any) -> Unit:
    """The `Unit` an annotation carries.

    Raises:
        TypeError: the annotation carries none.
    """
    for item in getattr(annotation, "__metadata__", ()):
        if isinstance(item, Unit):
            return item
    raise TypeError(f"{annotation!r} carries no Unit; use one of the aliases in transom.units")
