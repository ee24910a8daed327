"""From two judgements, as their JSON has them, to what differs."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from transom.report.compare.engines import engines
from transom.report.compare.records import Change, CheckChange, Comparison
from transom.report.compare.stale import stale

Object = Mapping[str, Any]
IDENTITY = (("job.name", "name"), ("job.revision", "revision"))
VERDICT = (("paper", "paper"), ("passes", "passes"), ("governing", "weakest link"))


def compare(a: Object, b: Object) -> Comparison:
    """What differs between judgement A and judgement B, both valid objects of the schema."""
    inputs, mount = tuple(_inputs(a, b)), tuple(_mount(a, b))
    identity = tuple(_plain(a, b, IDENTITY))
    checks, unchanged = _checks(a, b)
    ratios, refused = engines(a, b, inputs)
    return Comparison(
        identity=identity,
        verdict=tuple(_plain(a, b, VERDICT)),
        inputs=inputs,
        mount=mount,
        stops=tuple(_stops(a, b)),
        checks=checks,
        unchanged=unchanged,
        engine=ratios,
        refused=refused,
        stale=tuple(stale(a, b, inputs, mount)),
        notes=tuple(_notes(a, b)),
    )


def _plain(a: Object, b: Object, keys: tuple[tuple[str, str], ...]) -> Iterator[Change]:
    for key, says in keys:
        before, after = _at(a, key), _at(b, key)
        if before != after:
            yield Change(key, says, "", before, after)


def _at(o: Object, path: str) -> Any:
    found: Any = o
    for name in path.split("."):
        found = found.get(name) if isinstance(found, Mapping) else None
    return found


def _inputs(a: Object, b: Object) -> Iterator[Change]:
    """Inputs whose value or evidence changed."""
    before, after = a.get("inputs", {}), b.get("inputs", {})
    nothing: dict[str, Any] = {"value": None, "unit": "", "evidence": "", "says": ""}
    for key in (*before, *(k for k in after if k not in before)):
        x, y = before.get(key, nothing), after.get(key, nothing)
        if (x["value"], x["evidence"]) != (y["value"], y["evidence"]):
            yield Change(key, y["says"] or x["says"], y["unit"] or x["unit"], x["value"], y["value"],
                         (x["evidence"], y["evidence"]))  # fmt: skip


UNITS = {"thickness": "mm", "total": "mm", "mass": "kg", "length": "mm", "width": "mm", "height": "mm", "diameter": "mm",
         "side": "mm", "doubler": "mm", "spacing": "mm"}  # fmt: skip


def _mount(a: Object, b: Object) -> Iterator[Change]:
    """What the mount is made of and comes to."""
    before, after = (dict(_leaves(o.get("mount") or {}, "mount")) for o in (a, b))
    for key in (*before, *(k for k in after if k not in before)):
        if before.get(key) != after.get(key):
            name = key.rsplit(".", 1)[-1]
            yield Change(key, key.removeprefix("mount.").replace("_", " ").replace(".", ", "), UNITS.get(name, ""),
                         before.get(key), after.get(key))  # fmt: skip


def _leaves(value: Any, path: str) -> Iterator[tuple[str, Any]]:
    if isinstance(value, Mapping):
        for key, each in value.items():
            yield from _leaves(each, f"{path}.{key}")
    elif path == "mount.layers":
        yield path, [f"{layer['sheet']}, grain {layer['grain']}" for layer in value]
    else:
        yield path, value


def _stops(a: Object, b: Object) -> Iterator[Change]:
    """Stops that came, went, or were accepted by somebody else or on other paper."""
    before, after = ({s["name"]: s for s in o["stops"]} for o in (a, b))
    for name in (*before, *(n for n in after if n not in before)):
        x, y = (_stop(o.get(name)) for o in (before, after))
        if x != y:
            yield Change(name, (after.get(name) or before[name])["says"], "", x, y)


def _stop(s: Object | None) -> str | None:
    if s is None:
        return None
    return f"accepted by {s['accepted']}" if s["accepted"] and not s["final"] else "stands"


def _checks(a: Object, b: Object) -> tuple[tuple[CheckChange, ...], int]:
    """Deciding checks whose worst case changed, largest step first, and how many did not change in any case."""
    before, after = _by_name(a), _by_name(b)
    changed, unchanged = [], 0
    for name in sorted({*before, *after}):
        x, y = before.get(name, {}), after.get(name, {})
        cases = sum(_share(x.get(case)) != _share(y.get(case)) for case in {*x, *y})
        if not cases and (bool(x), bool(y)) == (True, True):
            unchanged += 1
            continue
        w, v = _worst(x), _worst(y)
        changed.append(CheckChange(name, _share(w), _share(v), (_case(w), _case(v)), (_passes(w), _passes(v)),
                                   (bool(x), bool(y)), cases))  # fmt: skip
    return tuple(sorted(changed, key=lambda c: (-abs(c.step), c.name))), unchanged


def _by_name(o: Object) -> dict[str, dict[str, Object]]:
    """Deciding checks by their name without the case, and by case."""
    out: dict[str, dict[str, Object]] = {}
    for c in o["checks"]:
        if not c.get("information"):
            name = ".".join(p for p in (c["part"], c["what"], c["rule"], c["method"]) if p)
            out.setdefault(name, {})[c["case"]] = c
    return out


def _worst(of: Mapping[str, Object]) -> Object | None:
    def rank(c: Object) -> tuple[float, str]:
        return (float("inf") if c["utilisation"] is None else c["utilisation"], c["id"])

    return max(of.values(), key=rank, default=None)


def _share(c: Object | None) -> float | None:
    return None if c is None else c["utilisation"]


def _case(c: Object | None) -> str:
    return "" if c is None else c["case"]


def _passes(c: Object | None) -> bool:
    return c is not None and bool(c["passes"])


def _notes(a: Object, b: Object) -> Iterator[str]:
    """What is in the way of the comparison itself."""
    versions = [o["tool"]["version"] for o in (a, b)]
    if versions[0] != versions[1]:
        yield f"made by different versions, {versions[0]} and {versions[1]}: some of what follows may be the tool's doing"
    for name, o in (("A", a), ("B", b)):
        if "inputs" not in o:
            yield f"{name} was saved by a version that kept no inputs: they are not compared, and nor is what should have changed"


def dumped(value: Any) -> str:
    """A value of any form as one line."""
    return value if isinstance(value, str) else json.dumps(value)
