"""The judgement as a JSON object: schema transom-judgement-1. Engineering terms, working units, no clock."""

import json
import math
from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np

from transom import __version__
from transom.checks.plate_reactions import held
from transom.checks.pod_reactions import PodReactions, pod_reactions
from transom.job.records import Backing, EngineBolts, Mount
from transom.judge.fasteners import Added
from transom.judge.records import Judgement, Option, Sizing
from transom.loads.cases import components
from transom.loads.height import Height
from transom.report.forces import BoltForce, bolt_forces, plate_forces, trial_of_mount
from transom.report.inputs import inputs
from transom.report.ruler import next_mark
from transom.result import Assumption, Check, rounded
from transom.units import Array

SCHEMA = "transom-judgement-1"
UNITS = {"length": "mm", "force": "N", "moment": "N*mm", "stress": "MPa", "angle": "rad", "mass": "kg"}


def to_json(j: Judgement, more: Mapping[str, Any] | None = None) -> str:
    """The object as text, and `more` keys after it: ASCII, the contract's order, the same bytes for the same job."""
    return json.dumps(as_object(j) | dict(more or {}), indent=1, allow_nan=False)


def as_object(j: Judgement) -> dict[str, Any]:
    """The judgement as plain values; floats to nine significant digits, what is not finite as null."""
    return {
        "schema": SCHEMA,
        "tool": {"name": "transom", "version": __version__},
        "units": UNITS,
        "job": {"name": j.job.head.name, "revision": j.job.head.revision, "sha256": j.job.sha256},
        "paper": j.paper,
        "passes": j.passes,
        "governing": j.governing.id if j.deciding else None,
        "mount": None if j.mount is None else _mount(j, j.mount),
        "sizing": None if j.sizing is None else _sizing(j.sizing),
        "good_for": None
        if j.good_for is None
        else {"power": number(j.good_for.power), "mass": number(j.good_for.mass)},
        "ruler": _ruler(j),
        "height": _height(j.height),
        "to_measure": [a.key for a in j.to_measure],
        "assumptions": [_assumption(a) for a in sorted(j.assumptions, key=lambda a: a.key)],
        "inputs": inputs(j),
        "engine": _engine(j),
        "cases": _cases(j),
        "checks": [_check(c) for c in sorted(j.checks, key=lambda c: c.id)],
        "stops": [{"name": s.name, "says": s.says, "final": s.final, "accepted": s.accepted or None} for s in j.stops],
        "cautions": list(j.cautions),
    }


def _engine(j: Judgement) -> dict[str, Any]:
    """Thrust ahead without factors, N, and its moment about the middle of the board's top edge, N*mm, top aft."""
    found = [c for c in components(j.setup.loads) if c.case == "ahead" and c.action == "thrust"]
    wrench = sum((np.reshape(c.wrench, (-1, 6))[0] for c in found), np.zeros(6))
    return {"thrust": number(float(np.linalg.norm(wrench[:3]))), "thrust_moment": number(float(wrench[4]))}


def number(value: float) -> float | None:
    """Nine significant digits; null for what is not finite. No negative zero."""
    return rounded(float(value)) + 0.0 if math.isfinite(value) else None


def _mount(j: Judgement, mount: Mount) -> dict[str, Any]:
    return {
        **_stack(mount),
        "thickness": number(j.coated),
        "total": number(j.total),
        "mass": number(j.mass),
        "engine_bolts": None if mount.engine_bolts is None else _bolts(mount.engine_bolts),
        "frame_fasteners": {a.joint: _fasteners(a, j) for a in j.fasteners},
    }


def _fasteners(a: Added, j: Judgement) -> dict[str, Any]:
    """Bolts of frame or pod as they are to be; `add` is empty where those found are enough.

    `holds` is False where a check of the joint fails; `cure` then has what added to those found would hold.
    """
    fails = any(c.part == a.joint for c in j.failing)
    cure = next((_joint(c) for c in j.could_add if c.joint == a.joint and c.holds), None)
    return {**_joint(a), "enough": a.enough and not fails, "holds": not fails, "cure": cure}


def _joint(a: Added) -> dict[str, Any]:
    b = a.bolts
    more = {"bolts": a.more, "plate_washers": a.washer is not None, "doubler": a.doubler > 0}
    return {
        "size": b.size or None,
        "diameter": None if b.diameter is None else number(b.diameter),
        "count": b.count,
        "kept": b.keep,
        "kind": b.kind,
        "grade": b.grade,
        "plate_washer": None if a.washer is None else {"side": number(a.washer[0]), "thickness": number(a.washer[1])},
        "doubler": number(a.doubler),
        "add": [name for name, there in more.items() if there] if b.keep else [],
        "enough": a.enough,
        "crossmembers_needed": a.rows or None,
    }


def _stack(mount: Mount) -> dict[str, Any]:
    return {"layers": [{"sheet": layer.sheet, "grain": layer.grain} for layer in mount.layers]}


def _bolts(b: EngineBolts) -> dict[str, Any]:
    return {
        "thread": b.thread,
        "grade": b.grade,
        "length": number(b.length),
        "aft": _backing(b.aft),
        "forward": _backing(b.forward),
    }


def _backing(b: Backing) -> dict[str, Any]:
    if b.washer:
        return {"washer": b.washer}
    if not b.plate:
        return {}
    sizes = {k: number(getattr(b, k)) for k in ("thickness", "width", "height")}
    return {"plate": b.plate, **sizes, "per": b.per, **({"bonded": True} if b.bonded else {})}


def _sizing(s: Sizing) -> dict[str, Any]:
    return {
        "rank": s.rank,
        "candidates": s.candidates,
        "required": [{"check": r.check, "thickness": number(r.thickness)} for r in s.required],
        "next_lighter": _option(s.next_thinner),
        "alternatives": [_option(o) for o in s.alternatives],
        "nearest_miss": _option(s.nearest_miss),
    }


def _option(o: Option | None) -> dict[str, Any] | None:
    if o is None:
        return None
    return {
        **_stack(o.mount),
        "wood": number(o.wood),
        "total": number(o.total),
        "mass": number(o.mass),
        "half_sheets": o.halves,
        "engine_bolts": None if o.mount.engine_bolts is None else _bolts(o.mount.engine_bolts),
        "passes": o.passes,
        "governing": o.weakest.id,
        "utilisation": number(o.weakest.utilisation),
        "failing": [{"id": c.id, "utilisation": number(c.utilisation)} for c in o.failing],
    }


def _assumption(a: Assumption) -> dict[str, Any]:
    ends = [None if x is None else number(x) for x in (a.holds_from, a.holds_to)]
    return {
        "key": a.key,
        "value": number(a.value),
        "unit": a.unit,
        "evidence": a.evidence,
        "known_by": a.known_by,
        "source": a.source,
        "holds_to": ends,
    }


def _check(c: Check) -> dict[str, Any]:
    out: dict[str, Any] = {
        "id": c.id,
        "part": c.part,
        "what": c.what,
        "rule": c.rule,
        "case": c.case,
        "method": c.method,
        "demand": number(c.demand),
        "resistance": number(c.resistance),
        "unit": c.unit,
        "utilisation": number(c.utilisation),
        "passes": c.passes,
        "source": c.source,
        "evidence": c.evidence,
        "known_by": c.known_by,
    }
    # A second opinion that does not decide says so; a key of its own keeps `passes` plain.
    return {**out, "information": True} if c.information else out


def _cases(j: Judgement) -> list[dict[str, Any]]:
    trial = trial_of_mount(j)
    none: tuple[tuple[BoltForce, ...], ...] = ((),) * len(j.cases)
    hand = none if trial is None else bolt_forces(trial)
    plate = none if j.careful is None else bolt_forces(j.careful)
    found = None if trial is None else held(j.careful or trial)
    pod = None if trial is None else pod_reactions(trial)
    lines = () if found is None else found.of_lines()
    hung = {} if trial is None or trial.setup.bracket is None else {"engine_plate_bolts": plate_forces(trial)}
    own = {} if found is None else {"own_weight": _force(found.weight_at, [*found.own_weight, 0.0, 0.0, 0.0])}
    return [
        {
            **_case(j, i, hand[i], plate[i]),
            "reactions": [_reaction(*line, i) for line in lines],
            **own,
            **{key: [_bolt_force(b) for b in rows[i]] for key, rows in hung.items()},
            **_pod(pod, i),
        }
        for i in range(len(j.cases))
    ]


def _pod(pod: PodReactions | None, i: int) -> dict[str, Any]:
    """What each crossmember holds, level axes, and the weights of board and pod; nothing where no pod hangs."""
    if pod is None:
        return {}
    weights = [_force(at, [*w, 0.0, 0.0, 0.0]) for at, w in zip(pod.weights_at, pod.weights, strict=True)]
    lines = [_reaction(*line, i) for line in pod.forces.of_lines()]
    return {"crossmembers": {"axes": "level", "reactions": lines, "own_weight": weights}}


def _reaction(line: str, at: Array, wrench: Array, i: int) -> dict[str, Any]:
    """What one line of bolts and bearing puts on the boat, about its middle."""
    return {"line": line, **_force(at, wrench[i])}


def _force(at: Array, wrench: Iterable[float]) -> dict[str, Any]:
    parts = zip(("Fx", "Fy", "Fz", "Mx", "My", "Mz"), wrench, strict=True)
    return {"at": [number(float(x)) for x in at], **{name: number(float(f)) for name, f in parts}}


def _height(h: Height) -> dict[str, Any]:
    """Each hole of the bracket: plate above, propeller shaft and top tip below the boat's bottom, mm."""
    rows = [{"hole": r.hole, "raised": number(r.raised), "plate_above": number(r.plate_above),
             "shaft_below": number(r.shaft_below), "tip_below": number(r.tip_below)} for r in h.rows]  # fmt: skip
    return {"bottom": number(h.bottom), "band": [number(h.low), number(h.high)], "start": h.start.hole, "holes": rows}


def _ruler(j: Judgement) -> dict[str, Any] | None:
    """Push N straight down `at` mm aft of the datum; `moves` and `stop_at` mm on the center line, `down` mm from the top."""
    r = j.ruler
    if r is None:
        return None
    stop_at = next_mark(r.limit, j.job.head.units)
    found = {"push": r.push, "at": r.at, "down": r.down, "moves": r.moves, "stop_at": stop_at}
    return {key: number(value) for key, value in found.items()}


def _case(j: Judgement, i: int, hand: tuple[BoltForce, ...], plate: tuple[BoltForce, ...]) -> dict[str, Any]:
    c = j.cases
    return {
        "name": c.names[i],
        "of": c.of[i],
        "factor": number(float(np.ravel(c.factor)[i])),
        "duration": c.duration[i],
        "wrench": [number(float(f)) for f in c.wrench.reshape(-1, 6)[i]],
        "bolts": {"hand": [_bolt_force(b) for b in hand], "plate": [_bolt_force(b) for b in plate]},
        "reactions": [],
    }


def _bolt_force(b: BoltForce) -> Mapping[str, float | None]:
    return {"y": number(b.y), "z": number(b.z), "tension": number(b.tension), "shear": number(b.shear)}
