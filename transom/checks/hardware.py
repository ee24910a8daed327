"""Bolts and what spreads them, for n candidates at once: columns (n, 1) in mm, MPa, mm²."""

from collections.abc import Sequence
from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from transom.catalogue import SHIPPED, Catalogue
from transom.errors import JobError
from transom.formula import formula
from transom.frozen import dataclass
from transom.job.records import Backing, EngineBolts
from transom.loads.crossing import length_in_m
from transom.maths import PI
from transom.units import KG, KG_PER_M3, MM, ONE, Array, M, Value

PER = ("bolt", "pair", "all")


@dataclass(frozen=True)
class Hardware:
    """n sets of engine bolts and backing. `round_` marks washers; `per` is an index of `PER`.

    Backing is what lies on the wood forward, `outside` its smaller side or its diameter. `out_t` is the
    thickness of washers and plates on the bracket's side, `plate_out_t` of a plate there alone: it lies
    between board and bracket, a washer under the bolt's head. `bonded` is one where the plate is glued to the wood.
    """

    d: Array
    A_s: Array
    A: Array
    f_ub: Array
    alpha_v: Array
    proof: Array
    pitch: Array
    flats: Array
    nut: Array
    thread_length: Array
    length: Array
    out_t: Array
    plate_out_t: Array
    round_: NDArray[np.bool_]
    per: Array
    outside: Array
    hole: Array
    width: Array
    height: Array
    t: Array
    f_y: Array
    E: Array
    mass: Array
    stainless: Array
    bonded: Array

    def take(self, which: Array) -> "Hardware":
        """The sets at these places."""
        return Hardware(**{f.name: getattr(self, f.name)[which] for f in fields(self)})


@formula(symbol="m", source="volume times density", evidence="published", known_by="derived",
         typical={"width": 0.38, "height": 0.08, "t": 0.006, "rho": 2700.0, "n": 2.0})  # fmt: skip
def plates_mass(width: M, height: M, t: M, rho: KG_PER_M3, n: ONE) -> KG:
    """Mass of n plates."""
    return n * width * height * t * rho


@formula(symbol="m", source="volume times density", evidence="published", known_by="derived",
         typical={"D": 0.04, "d": 0.013, "t": 0.003, "rho": 8000.0, "n": 4.0})  # fmt: skip
def washers_mass(D: M, d: M, t: M, rho: KG_PER_M3, n: ONE) -> KG:
    """Mass of n round washers."""
    return n * PI / 4.0 * (D * D - d * d) * t * rho


@formula(symbol="d_h", source="hole in a plate: bolt and clearance", evidence="common practice", known_by="memory")
def hole_diameter(d: MM, clearance: MM) -> MM:
    """Diameter of the hole in a plate."""
    return d + clearance


def plates_needed(per: str) -> int:
    """How many plates back four bolts."""
    return {"bolt": 4, "pair": 2, "all": 1}[per]


def hardware(sets: Sequence[EngineBolts], tables: Catalogue = SHIPPED) -> Hardware:
    """Look up what the sets name, as columns.

    Raises:
        JobError: a thread, grade, washer or plate that the tables do not hold.
    """
    rows = [_bolt(s, tables) | _forward(s, tables) for s in sets]

    def column(key: str) -> Array:
        return np.array([r[key] for r in rows], dtype=float)[:, None]

    named = {f.name: column(f.name) for f in fields(Hardware) if f.name != "round_"}
    return Hardware(**named, round_=column("round_") > 0)


def _bolt(s: EngineBolts, tables: Catalogue) -> dict[str, float]:
    thread, head, nut = tables.thread(s.thread), tables.head(s.thread), tables.nut(s.thread, "lock")
    grade = tables.grade(s.grade, s.thread)
    plate = s.aft.thickness if s.aft.plate else 0.0
    aft = tables.washer(s.aft.washer).t_mm if s.aft.washer else plate
    return {
        "d": thread.d_mm,
        "A_s": thread.A_s_mm2,
        "A": thread.A_mm2,
        "f_ub": grade.f_ub_MPa,
        "alpha_v": grade.alpha_v,
        "proof": grade.proof_MPa or grade.f_yb_MPa,
        "pitch": thread.pitch_mm,
        "flats": nut.AF_mm,
        "nut": nut.height_mm,
        "thread_length": head.b_long_mm if s.length > head.long_over_mm else head.b_mm,
        "length": s.length,
        "out_t": aft,
        "plate_out_t": plate,
        "stainless": float(grade.kind == "stainless"),
        "bonded": float(bool(s.forward.plate) and s.forward.bonded),
    }


def _forward(s: EngineBolts, tables: Catalogue) -> dict[str, float]:
    b = s.forward
    if b.plate:
        return _plate(b, tables.thread(s.thread).d_mm, tables)
    if not b.washer:
        raise JobError(
            "[mount.engine_bolts] forward: neither a washer nor a plate; a bare nut pulls into the wood; name one"
        )
    w = tables.washer(b.washer)
    n = 4.0
    rho = tables.plate("316").rho_kg_m3
    return {
        "round_": 1.0,
        "per": 0.0,
        "outside": w.OD_mm,
        "hole": w.ID_mm,
        "width": w.OD_mm,
        "height": w.OD_mm,
        "t": w.t_mm,
        "f_y": tables.factor("washer.yield_MPa").value,
        "E": 0.0,  # no washer spans two bolts
        "mass": float(washers_mass(length_in_m(w.OD_mm), length_in_m(w.ID_mm), length_in_m(w.t_mm), rho, n)),
    }


def _plate(b: Backing, d: float, tables: Catalogue) -> dict[str, float]:
    metal = tables.plate(b.plate, b.thickness)
    sides = [length_in_m(x) for x in (b.width, b.height, b.thickness)]
    return {
        "round_": 0.0,
        "per": float(PER.index(b.per)),
        "outside": min(b.width, b.height),
        "hole": float(hole_diameter(d, tables.factor("board.bolt_clearance_mm").value)),
        "width": b.width,
        "height": b.height,
        "t": b.thickness,
        "f_y": metal.Fy_MPa,
        "E": metal.E_MPa,
        "mass": float(plates_mass(sides[0], sides[1], sides[2], metal.rho_kg_m3, plates_needed(b.per))),
    }


def clamp_pads(n: int, across: Value, tables: Catalogue = SHIPPED) -> Hardware:
    """n times the swivel pads of clamp screws, so much across, as stiff round washers; no bolt, so no metal to check."""
    size = np.broadcast_to(np.reshape(np.asarray(across, dtype=float), (-1, 1)), (max(n, np.size(across)), 1))
    f_y = np.full(size.shape, tables.factor("washer.yield_MPa").value)
    stiff = {"t": size, "f_y": f_y, "outside": size, "width": size, "height": size}
    none = np.zeros(size.shape)
    values = {f.name: stiff.get(f.name, none) for f in fields(Hardware) if f.name != "round_"}
    return Hardware(**values, round_=np.ones(size.shape, dtype=bool))
