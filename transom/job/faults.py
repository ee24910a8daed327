"""How a fault of the job reads: one line with section, key, value, rule and next step."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import field
from difflib import get_close_matches
from math import degrees
from typing import Any

from transom.frozen import dataclass
from transom.job.schema import HP, Key

_SHOWN = {
    "length": (("in", 1 / 25.4), ("mm", 1.0)),
    "mass": (("lb", 1 / 0.45359237), ("kg", 1.0)),
    "power": (("hp", 1 / HP), ("kW", 1e-3)),
    "power range": (("hp", 1 / HP), ("kW", 1e-3)),
    "force": (("lbf", 1 / 4.4482216152605), ("N", 1.0)),
    "torque": (("lb-ft", 1 / 1355.8179483314), ("Nm", 1e-3)),
    "speed": (("mph", 1 / 0.44704), ("m/s", 1.0)),
    "rotation": (("rpm", 60.0),),
    "angle": (("deg", degrees(1.0)),),
    "temperature": (("C", 1.0),),
}
SAMPLES = {
    "length": ("in", "mm"),
    "mass": ("lb", "kg"),
    "power": ("hp", "kW"),
    "power range": ("hp", "kW"),
    "force": ("lbf", "N"),
    "torque": ("lb-ft", "Nm"),
    "speed": ("mph", "km/h"),
    "rotation": ("rpm",),
    "angle": ("deg",),
    "temperature": ("F", "C"),
}


class Fault(Exception):  # noqa: N818 - the trade's word; `job` and the questions turn it into a line
    """What is wrong with one value, and what to do about it."""

    def __init__(self, rule: str, next_step: str) -> None:
        super().__init__(rule)
        self.rule = rule
        self.next_step = next_step


@dataclass(frozen=True)
class Place:
    """Where a value stands: its section as printed, and its key."""

    section: str
    key: str = ""

    def line(self, value: Any, fault: Fault) -> str:
        """The fault on one line."""
        what = f"[{self.section}] {self.key}".strip()
        stated = "" if value is MISSING else f" = {toml(value)}"
        stop = "" if fault.rule.endswith("?") else "."
        return f"{what}{stated}: {fault.rule}{stop} {sentence(fault.next_step)}"


MISSING = object()
_DEEPEST = 60  # brackets, as many as letters are shown


@dataclass
class Faults:
    """Every fault met so far, each once."""

    lines: list[str] = field(default_factory=list)

    def add(self, place: Place, value: Any, fault: Fault) -> None:
        """Keep one more."""
        line = place.line(value, fault)
        if line not in self.lines:
            self.lines.append(line)


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    text = text[:1].upper() + text[1:]
    return text if not text or text[-1] in ".?!" else f"{text}."


def shown(value: float, kind: str) -> str:
    """A value in working units as a shop reads it, both ways: `4 in (102 mm)`."""
    first, *rest = (f"{_figures(value * scale)} {unit}" for unit, scale in _SHOWN[kind])
    return first + "".join(f" ({other})" for other in rest)


def _figures(value: float) -> str:
    """Three figures, and never a power of ten."""
    return f"{value:.3g}" if abs(value) < 999.5 else f"{value:.0f}"


def toml(value: Any) -> str:
    """A value as it stood in the file, on one line and not too long."""
    return brief(_plain(value))


def brief(text: str) -> str:
    """A text on one line and not too long."""
    text = printable(text)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _plain(value: Any, deep: int = 0) -> str:
    """The value in full; what lies deeper than a line could show is dots: a.a.a... nests without end."""
    if deep > _DEEPEST:
        return "..."
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{printable(k)} = {_plain(v, deep + 1)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(_plain(v, deep + 1) for v in value) + "]"
    return _scalar(value)


def _scalar(value: Any) -> str:
    if isinstance(value, str):
        return f'"{printable(value)}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) >= 10**30:
        return "a number of more than 30 figures"
    return value.isoformat() if isinstance(value, dt.date | dt.time) else str(value)


def printable(text: str) -> str:
    """Text with everything that would break a line or a terminal escaped."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


def nearest(word: str, names: Iterable[str]) -> str:
    """The name most like the word, or nothing where none is."""
    spelt = {name.lower(): name for name in names}
    found = get_close_matches(word.lower()[:80], spelt, n=1, cutoff=0.7)
    return spelt[found[0]] if found else ""


def listed(names: Iterable[str], last: str = "or") -> str:
    """`a, b or c`."""
    *most, end = names
    return f"{', '.join(most)} {last} {end}" if most else end


def with_unit(value: str, key: Key) -> str:
    """What to write for a value without unit: `"24 in" or "24 mm"`."""
    return " or ".join(f'{key.name or "it"} = "{value} {unit}"' for unit in SAMPLES[key.kind])
