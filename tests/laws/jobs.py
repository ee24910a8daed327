"""Seeded random jobs as text: any kind of boat, some of it measured, typed in US units, SI, or as it comes."""

import random
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

HP = 745.6998715822702
UNITS = {
    "length": {"mm": 1.0, "in": 25.4, "cm": 10.0},
    "mass": {"kg": 1.0, "lb": 0.45359237},
    "power": {"kW": 1000.0, "hp": HP, "W": 1.0},
    "speed": {"m/s": 1.0, "mph": 0.44704, "kn": 1852 / 3600},
    "torque": {"Nm": 1000.0, "lb-ft": 1355.8179483314004},
    "force": {"N": 1.0, "lbf": 4.4482216152605},
}
US = {"length": "in", "mass": "lb", "power": "hp", "speed": "mph", "torque": "lb-ft", "force": "lbf"}
SI = {"length": "mm", "mass": "kg", "power": "kW", "speed": "m/s", "torque": "Nm", "force": "N"}
Typing = Callable[[str], str]


@dataclass(frozen=True)
class Q:
    """A quantity in mm, kg, W, m/s, N*mm or N."""

    value: float
    kind: str = "length"


Sections = dict[str, dict[str, Any]]


def us(kind: str) -> str:
    """Everything as a US shop types it."""
    return US[kind]


def si(kind: str) -> str:
    """Everything in SI."""
    return SI[kind]


def mixed(seed: int) -> Typing:
    """Each quantity in whatever unit comes to hand."""
    chance = random.Random(seed)
    return lambda kind: chance.choice(sorted(UNITS[kind]))


def typed(value: Any, unit: Typing) -> str:
    """One value as TOML."""
    if isinstance(value, Q):
        u = unit(value.kind)
        number = value.value / UNITS[value.kind][u]
        return f'"{number:.9g} {u}"' if abs(number) >= 1 or not number else f'"{number:.8f} {u}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[" + ", ".join(typed(v, unit) for v in value) + "]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {typed(v, unit)}" for k, v in value.items()) + " }"
    return f'"{value}"' if isinstance(value, str) else repr(value)


def text(job: Sections, unit: Typing = si, shuffle: random.Random | None = None) -> str:
    """The job as a file; `shuffle` puts tables and keys in another order."""
    names = list(job)
    if shuffle:
        shuffle.shuffle(names)
    out = []
    for name in names:
        keys = list(job[name].items())
        if shuffle:
            shuffle.shuffle(keys)
        out.append(f"[{name}]\n" + "".join(f"{k} = {typed(v, unit)}\n" for k, v in keys))
    return "\n".join(out)


def changed(job: Sections, where: str, **keys: Any) -> Sections:
    """The job with keys put into one section."""
    return {**job, where: {**job.get(where, {}), **keys}}


def mirrored(job: Sections) -> Sections:
    """Port for starboard."""

    def flip(key: str, value: Any) -> Any:
        if isinstance(value, dict):
            return {k: flip(k, v) for k, v in value.items()}
        if isinstance(value, list):
            flipped = [flip(key, v) for v in value]
            return flipped[::-1] if key == "at" else flipped
        return replace(value, value=-value.value) if key in ("y", "at") and isinstance(value, Q) else value

    return {name: {k: flip(k, v) for k, v in keys.items()} for name, keys in job.items()}


KINDS = {"pontoon": "pod", "aluminium hull": "uprights", "glass hull": "cap rail"}
SIXTEENTH = 25.4 / 16  # mm; exact in both systems


STOCK = (
    {"panels": ["douglas-fir-marine"], "sheets": ["1/2 in", "5/8 in", "3/4 in"], "most_sheets": 4},
    {"panels": ["okoume"], "sheets": ["12 mm", "15 mm", "18 mm"], "most_sheets": 4},
    {"panels": ["douglas-fir-marine", "okoume"], "sheets": ["3/4 in", "18 mm", "12 mm"], "most_sheets": 4},
)
HARDWARE = {"grades": ["F593C"], "threads": ["1/2-13"], "plates": ["6061-T6"]}


def job(seed: int) -> Sections:
    """A job somebody might have: always the same one for a seed."""
    r = random.Random(seed)
    boat = r.choice(sorted(KINDS))
    power = r.choice((6, 9.9, 15)) if r.random() < 0.15 else r.choice((30, 40, 50, 60, 75, 90, 115))
    clamped = power < 30
    sometimes = _some(r)
    out: Sections = {
        "job": {"name": f"law {seed}", "units": r.choice(["us", "si"]), "code": r.choice(["EN", "EN", "US"])},
        "boat": {
            "kind": boat, "plate_power": Q(power * HP, "power"), "service": r.choice(["calm", "calm", "open"]), "trailer": r.random() < 0.6,
            "water": r.choice(["fresh", "salt"]), **sometimes(speed=Q(r.uniform(7, 20), "speed")),
        },
        "engine": {
            "power": Q(power * HP, "power"), "shaft": Q(r.choice([381.0, 508.0]) if power < 90 else 508.0),
            "steering": r.choice(["wheel", "tiller"]), "held_by": "clamps" if clamped else "bolts",
            **sometimes(weight=Q(power * r.uniform(1.7, 2.6) + 25, "mass")),
            **({} if clamped else sometimes(torque=Q(r.uniform(2e4, 6e4), "torque"), threads="oiled")),
        },
        "board": {
            **({"core": "none"} if boat == "glass hull" else {}),
            "width": _tape(r, 580, 720), "height": _tape(r, 420, 540), "lean": f"{r.uniform(4, 15):.3f} deg",
            "pocket": "none", "sealed": True,
            **sometimes(openings=[{"y": _tape(r, -60, 60), "down": _tape(r, 360, 400), "diameter": Q(25.0)}]),
        },
        "frame": {"kind": KINDS[boat]},
        "frame.flange": {"width": _tape(r, 38, 60), "thickness": Q(r.choice([5.0, 6.0, 8.0])), "weld": "none"},
        "frame.bolts": {"size": r.choice(["3/8 in", "1/2 in"])},
        "stock": {**r.choice(STOCK), **HARDWARE, "plate_thicknesses": [Q(6.35), Q(9.525)]},
    }  # fmt: skip
    if boat == "aluminium hull":
        half = _tape(r, 200, 240).value
        out["frame"]["at"] = [Q(-half), Q(half)]
        out["frame.flange"]["width"] = Q(50.0)
    if r.random() < 0.5 and not clamped:
        out["engine.gravity"] = {"aft": _tape(r, 180, 300), "up": _tape(r, 80, 200)}
    if r.random() < 0.15 and not clamped:
        out["engine.kicker"] = {
            "power": Q(6 * HP, "power"),
            "weight": Q(27.0, "mass"),
            "y": Q(r.choice([-1, 1]) * _tape(r, 180, 240).value),
        }
    return out


def _tape(r: random.Random, low: float, high: float) -> Q:
    return Q(round(r.uniform(low, high) / SIXTEENTH) * SIXTEENTH)


def _some(r: random.Random) -> Callable[..., dict[str, Any]]:
    return lambda **keys: keys if r.random() < 0.5 else {}
