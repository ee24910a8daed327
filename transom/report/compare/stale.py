"""What should have changed and did not: numbers that belong to the old engine, board or boat and still stand."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from transom.frozen import dataclass
from transom.report.compare.records import Change


@dataclass(frozen=True)
class Belongs:
    """Where one of `to` changes, what was stated of `keys` (a key, or the beginning of keys) is another's."""

    to: tuple[str, ...]
    keys: tuple[str, ...]
    says: str


RULES = (
    Belongs(("engine.power",), ("engine.weight",), "is that the old engine's? Weigh the new one, or read its sheet"),
    Belongs(("engine.power",), ("engine.thrust",), "was that measured with the old engine?"),
    Belongs(("engine.power", "engine.weight"), ("engine.gravity.",), "is that the old engine's?"),
    Belongs(("engine.power",), ("engine.propeller.",), "is that the old propeller, or the old engine's gear?"),
    Belongs(("engine.power",), ("engine.bracket.",), "was that measured on the old bracket?"),
    Belongs(("engine.power",), ("engine.takes", "engine.torque"), "is that from the old engine's manual?"),
    Belongs(("engine.power", "engine.kicker.power"), ("engine.kicker.mass", "engine.kicker.weight"), "is that still so?"),
    Belongs(("board.width", "board.height"), ("board.pocket", "frame.bolts.count"), "is that of the old board?"),
    Belongs(("boat.kind",), ("boat.plate_power", "boat.plate_engine_weight", "boat.speed", "frame.kind"),
            "is that the other boat's?"),
    Belongs(("frame.kind",), ("frame.flange.", "frame.bolts.size", "frame.bolts.count"), "is that the old frame's?"),
    Belongs(("bracket.setback",), ("bracket.weight", "bracket.gravity."), "is that the old bracket's?"),
)  # fmt: skip


def stale(
    a: Mapping[str, Any], b: Mapping[str, Any], inputs: Sequence[Change], mount: Sequence[Change]
) -> Iterator[str]:
    """One sentence for each group of things that stand though what they belong to is another."""
    changed = {c.key for c in inputs if c.before != c.after}
    yield from dict.fromkeys(_old(a, b, changed))
    if not (changed or mount):
        return
    if a["job"]["revision"] == b["job"]["revision"] and a["job"]["sha256"] != b["job"]["sha256"]:
        yield f'revision is still "{b["job"]["revision"]}" though what is judged is not the same'
    before = {s["name"]: s["accepted"] for s in a["stops"]}
    for s in b["stops"]:
        if s["accepted"] and s["accepted"] == before.get(s["name"]):
            yield f"stop {s['name']} is still accepted by {s['accepted']}: that was for what stood before, ask again"


def _old(a: Mapping[str, Any], b: Mapping[str, Any], changed: set[str]) -> Iterator[str]:
    before, after = a.get("inputs", {}), b.get("inputs", {})
    for rule in RULES:
        cause = next((key for key in rule.to if key in changed), None)
        if cause is None:
            continue
        old = [x["says"] for key, x in before.items()
               if _under(key, rule.keys) and key not in changed and _stated(x) and _stated(after.get(key))]  # fmt: skip
        if old:
            stand = "stands as it was" if len(old) == 1 else "stand as they were"
            yield f"{', '.join(dict.fromkeys(old))} {stand} though {_words(after, before, cause)} changed: {rule.says}"


def _under(key: str, names: Sequence[str]) -> bool:
    return any(key == name or (name.endswith(".") and key.startswith(name)) for name in names)


def _stated(x: Mapping[str, Any] | None) -> bool:
    return x is not None and x["evidence"] == "stated"


def _words(after: Mapping[str, Any], before: Mapping[str, Any], key: str) -> str:
    found = after.get(key) or before.get(key)
    return str(found["says"]) if found else key
