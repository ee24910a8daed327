"""The comparison as a JSON object: schema transom-comparison-1. Working units, as in the judgement."""

import json
import math
from dataclasses import asdict
from typing import Any

from transom.report.compare.records import CheckChange, Comparison, Ratios

SCHEMA = "transom-comparison-1"


def to_json(c: Comparison, files: tuple[str, str]) -> str:
    """The object as text, ASCII."""
    return json.dumps(as_object(c, files), indent=1, allow_nan=False)


def as_object(c: Comparison, files: tuple[str, str]) -> dict[str, Any]:
    """The comparison as plain values."""
    changes = {name: [_change(asdict(x)) for x in getattr(c, name)]
               for name in ("identity", "verdict", "inputs", "mount", "stops")}  # fmt: skip
    return {
        "schema": SCHEMA,
        "files": list(files),
        "same": c.same,
        **changes,
        "checks": [_check(x) for x in c.checks],
        "checks_unchanged": c.unchanged,
        "engine": None if c.engine is None else _engine(c.engine),
        "engine_refused": c.refused or None,
        "should_have_changed": list(c.stale),
        "notes": list(c.notes),
    }


def _change(x: dict[str, Any]) -> dict[str, Any]:
    return {**x, "evidence": list(x["evidence"])}


def _check(x: CheckChange) -> dict[str, Any]:
    step = x.step
    return {
        "name": x.name,
        "there": list(x.there),
        "utilisation": [x.before, x.after],
        "change": round(step, 9) if math.isfinite(step) else None,
        "case": list(x.case),
        "passes": list(x.passes),
        "cases_changed": x.cases,
    }


def _engine(r: Ratios) -> dict[str, Any]:
    pairs = {"weight": r.weight, "thrust_moment": r.moment, "upper_bolt_pull": r.pull}
    return {
        name: None
        if pair is None
        else {"before": pair[0], "after": pair[1], "ratio": float(f"{pair[1] / pair[0]:.9g}")}
        for name, pair in pairs.items()
    } | {"upper_bolt_cases": list(r.cases)}
