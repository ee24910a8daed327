"""The old engine against the new one, by numbers that somebody knows and none from a table."""

from collections.abc import Mapping, Sequence
from typing import Any

from transom.report.compare.records import Change, Ratios

WEIGHT = "engine.weight"
SAME_ROW = 1.0  # mm within which bolts are one row


def engines(a: Mapping[str, Any], b: Mapping[str, Any], inputs: Sequence[Change]) -> tuple[Ratios | None, str]:
    """Ratios, or why there are none; neither where nothing about the engine changed."""
    if not any(c.key.startswith("engine.") for c in inputs):
        return None, ""
    for name, o in (("A", a), ("B", b)):
        weight = o.get("inputs", {}).get(WEIGHT)
        if weight is None or weight["evidence"] != "stated":
            return None, (
                f"the weight in {name} is from the table, not off a scale or the maker's sheet, so a ratio would set the"
                " table against an engine: state engine.weight in both"
            )
        if not isinstance(weight["value"], int | float) or not weight["value"] > 0:
            return None, f"the weight in {name} is no usable number"
        if "engine" not in o or not o["engine"]["thrust_moment"]:
            return None, f"{name} says nothing of its thrust"
    pulls = [_pull(o) for o in (a, b)]
    both = pulls[0] is not None and pulls[1] is not None and pulls[0][0] > 0
    weights = tuple(o["inputs"][WEIGHT]["value"] for o in (a, b))
    moments = tuple(o["engine"]["thrust_moment"] for o in (a, b))
    return Ratios(
        weight=(weights[0], weights[1]),
        moment=(moments[0], moments[1]),
        pull=(pulls[0][0], pulls[1][0]) if both and pulls[0] and pulls[1] else None,
        cases=(pulls[0][1] if pulls[0] else "", pulls[1][1] if pulls[1] else ""),
    ), ""


def _pull(o: Mapping[str, Any]) -> tuple[float, str] | None:
    """The hardest pull of an upper bolt in any case, N with factors, by the method that decides; None without bolts."""
    best: tuple[float, str] | None = None
    for case in o["cases"]:
        bolts = case["bolts"]["plate"] or case["bolts"]["hand"]
        if not bolts:
            continue
        top = max(bolt["z"] for bolt in bolts)
        pull = max(bolt["tension"] for bolt in bolts if bolt["z"] > top - SAME_ROW)
        if best is None or pull > best[0]:
            best = (pull, case["name"])
    return best
