"""A judgement as the cells of one row."""

import math
from collections.abc import Iterable, Sequence

from transom.batch.work import ALL, BOTH, SCREEN, Cells, How, number
from transom.job.records import Backing, EngineBolts, Layer
from transom.judge.always import ALWAYS, CAREFUL_METHOD
from transom.judge.records import Judgement, Sizing
from transom.report.page import sentence
from transom.report.shopping import fastener_words
from transom.report.text import clean
from transom.result import Check
from transom.sizing.required import THIN


def answer(j: Judgement, how: How) -> Cells:
    """What `transom size` would answer, in cells."""
    stands = tuple(s for s in j.stops if s.stands)
    verdict = "STOP" if stands else "WORKS" if j.passes else "DOES NOT WORK"
    return {
        "name": clean(j.job.head.name),
        "exit": 0 if j.passes else 1,
        "verdict": verdict,
        "passes": j.passes,
        # What only the pencil has seen is never paper to cut from.
        "paper": j.paper if how.careful else "QUOTE",
        "stops": BOTH.join(s.name for s in stands),
        "to_measure": BOTH.join(a.key for a in j.to_measure),
        "cautions": BOTH.join((*_cautions(j, how), ALL)),
        **(_sized(j.sizing) if j.sizing else {}),
        **(_picked(j) if j.mount is not None else _missed(j)),
    }


def _cautions(j: Judgement, how: How) -> Iterable[str]:
    """The job's own; those that hold for all stand beside the table."""
    before, never = ((), ALWAYS) if how.careful else ((SCREEN,), (*ALWAYS, CAREFUL_METHOD))
    return (*before, *(c for c in j.cautions if c not in never))


def _sized(s: Sizing) -> Cells:
    some = [(r.check, r.thickness) for r in s.required if r.thickness > THIN]
    finite = [r.thickness for r in s.required if math.isfinite(r.thickness)]
    return {
        "candidates": s.candidates,
        "needs_mm": max(finite, default=None),
        "needs": BOTH.join(f"{check} {t:g}" for check, t in some),
    }


def _picked(j: Judgement) -> Cells:
    mount, units = j.mount, j.job.head.units
    if mount is None:
        return {}
    bolts = mount.engine_bolts
    added = {a.joint: fastener_words(a, units, any(c.part == a.joint for c in j.failing)) for a in j.fasteners}
    return {
        "sheets": layers(mount.layers),
        "wood_mm": number(j.wood),
        "board_mm": number(j.coated),
        "total_mm": number(j.total),
        "mass_kg": number(j.mass),
        "frame_bolts": added.get("frame"),
        "pod_bolts": added.get("crossmembers"),
        "torque_Nm": number(j.torque / 1000) if j.torque else None,
        **(_bolts(bolts) if bolts is not None else {"bolts": "clamp screws"}),
        **_weakest(j.governing, j),
    }


def _missed(j: Judgement) -> Cells:
    miss = j.sizing.nearest_miss if j.sizing else None
    if miss is None:
        return {}
    return {"nearest_miss": layers(miss.mount.layers), **_weakest(miss.weakest, j)}


def _weakest(check: Check, j: Judgement) -> Cells:
    return {
        "weakest_link": clean(sentence(check, j.job)),
        "check": check.id,
        "percent_of_limit": number(100 * check.utilisation),
    }


def layers(several: Sequence[Layer]) -> str:
    """Aft face first: `douglas-fir-marine 3/4 in across; ...`."""
    return "; ".join(f"{layer.sheet} {layer.grain}" for layer in several)


def _bolts(b: EngineBolts) -> Cells:
    return {
        "bolts": f"{b.thread} x {b.length:g} mm {b.grade}",
        "aft": backing(b.aft),
        "forward": backing(b.forward),
    }


def backing(b: Backing) -> str:
    """A washer by name, a plate by size: `6061-T6 6.35 x 381 x 76.2 mm, one a pair`."""
    if not b.plate:
        return f"washer {b.washer}" if b.washer else "none"
    how = {"bolt": "one a bolt", "pair": "one a pair", "all": "one for all"}[b.per]
    return f"plate {b.plate} {b.thickness:g} x {b.width:g} x {b.height:g} mm, {how}"
