"""What went into a judgement, key by key as the job file names it: stated or assumed, value and unit."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from typing import Any

from transom.job.keys import Key
from transom.job.schema import SECTIONS, keys
from transom.judge.records import Judgement
from transom.judge.told import facts_told
from transom.result import rounded

UNITS = {"length": "mm", "mass": "kg", "force": "N", "power": "W", "torque": "N*mm", "speed": "m/s", "rotation": "1/s",
         "angle": "rad", "temperature": "degC"}  # fmt: skip
# What names the job, says who answers, or is judged elsewhere; and what the mount itself is.
APART = {"head", "accepts", "sign", "mount", "sha256", "unmeasured", "left_out", "not_judged", "shop"}
HEAD = ("units", "code")
# Where the record's name is not the section's.
ROOTS = {"bracket": "setback", "case": "cases", "trial": "sea_trial"}
# Flags of the records' own, which say nothing that another key does not.
OWN = {"pocket_stated", "chosen"}


def inputs(j: Judgement) -> dict[str, dict[str, Any]]:
    """Each input's value, unit, evidence and words by its key; facts in tape order, then what else the job states."""
    out = {
        key: {"value": rounded(f.value) + 0.0, "unit": f.unit, "evidence": f.evidence, "says": f.says}
        for key, f in facts_told(j).items()
    }
    assumed = {*j.job.unmeasured, *j.job.left_out}
    for key, value, unit in stated(j):
        evidence = "convention" if key in assumed else "stated"
        out.setdefault(key, {"value": value, "unit": unit, "evidence": evidence, "says": key})
    return out


def stated(j: Judgement) -> Iterator[tuple[str, Any, str]]:
    """What the job's records hold, by the job file's own key where it has one, with its unit."""
    flat = {f"job.{name}": getattr(j.job.head, name) for name in HEAD}
    for field in fields(j.job):
        if field.name not in APART:
            flat |= dict(_flat(getattr(j.job, field.name), field.name))
    if j.job.engine.power_low == j.job.engine.power:
        flat.pop("engine.power_low", None)
    named = names(flat)
    for path, value in flat.items():
        key, unit = named.get(path, (path, ""))
        yield key, value, unit


def _flat(value: Any, path: str) -> Iterator[tuple[str, Any]]:
    """Leaves of a record by dotted path; what is not there is left out, lists stay whole."""
    if is_dataclass(value):
        for field in fields(value):
            if field.name not in OWN:
                yield from _flat(getattr(value, field.name), f"{path}.{field.name}")
    elif isinstance(value, tuple) and value:
        yield path, [_plain(item) for item in value]
    elif value is not None and value not in ("", ()):
        yield path, _plain(value)


def _plain(value: Any) -> Any:
    """As JSON has it."""
    if isinstance(value, date):
        return value.isoformat()
    if is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, float):
        # A weld that is nowhere lies infinitely far off: the job file calls it "none".
        return rounded(value) + 0.0 if math.isfinite(value) else "none"
    return value


def names(flat: Mapping[str, Any]) -> dict[str, tuple[str, str]]:
    """The job file's key and unit for each path of the records that one of its keys fills."""
    out: dict[str, tuple[str, str]] = {}
    for path, key in keys(SECTIONS):
        for place in _places(path, key):
            if place in flat and place not in out:
                out[place] = (path, UNITS.get(key.kind.removesuffix(" range"), ""))
                break
    return out


def _places(path: str, key: Key) -> Iterator[str]:
    """Where the records may keep a key: under its section, or in the record above with the section's name before it."""
    root, *middle, _ = path.split(".")
    above = [ROOTS.get(root, root), *middle]
    yield ".".join((*above, key.target))
    if middle:
        yield ".".join((*above[:-1], f"{above[-1].removeprefix('top_')}_{key.target}"))
        yield ".".join((*above[:-1], key.target))
