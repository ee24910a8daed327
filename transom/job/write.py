"""Job files written: a blank one, the shipped example, and a mount put into one that stands."""

import datetime as dt
import json
from collections.abc import Iterator, Mapping
from dataclasses import fields
from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from typing import Any

from transom.job.faults import listed
from transom.job.files import text_of
from transom.job.records import Mount
from transom.job.schema import MOUNT, SECTIONS, Key, Section, walk
from transom.job.statements import Statement, statements
from transom.job.syntax import parse

EXAMPLE = "pontoon-40hp.toml"
MARK = "\ufeff"
_INCH = Fraction("25.4")
_COMMENT_AT = 34
_HEAD = """\
# A job for transom. Take it to the boat, measure down the page, type over each "?".
# "?" stays where nothing was measured: the printed default is taken, and the paper says so.
# Measures carry their unit, in quotes: "20-1/2 in", "3 ft 4 in", "18 mm", "260 lb", "40 hp", "55 lb-ft", "14 deg".
# Across (y) is from the center line, starboard +; down is from the board's top edge.
"""


def example_text() -> str:
    """The shipped example's text: from the installed package, else from the checkout it runs in.

    Raises:
        JobError: neither is there.
    """
    shipped = files("transom") / "examples" / EXAMPLE
    if shipped.is_file():
        return shipped.read_bytes().decode("utf-8")
    return text_of(Path(__file__).resolve().parents[2] / "examples" / EXAMPLE)


def blank(answers: Mapping[str, Any] | None = None) -> str:
    """A job file in tape order, every line with how to measure it, "?" where an answer waits.

    Args:
        answers: what is known already, by dotted path ("engine.power"), each as TOML holds it: a str,
            bool, int, float, date, or a list of these. A section that a blank job leaves out is written
            if one of its keys is answered.

    It loads once boat.kind and engine.power, or a builder's plate power to size for, are given.

    Raises:
        ValueError: no key of this path, or it lies in a list of tables.
    """
    given = dict(answers or {})
    known = {f"{path}.{key.name}" for path, section in _tables() for key in section.keys}
    strange = sorted(set(given) - known)
    if strange:
        raise ValueError(f"no key that a blank job can hold: {', '.join(strange)}")
    parts = [_section(path, section, given) for path, section in _tables()]
    return "\n".join([_HEAD, *(part for part in parts if part), _rest(given)])


def _judged() -> Iterator[tuple[str, Section]]:
    """Every section that a person fills and something is decided by, with its path."""
    return walk(tuple(section for section in SECTIONS if section.judged and section is not MOUNT))


def _tables() -> Iterator[tuple[str, Section]]:
    """Every such section that is a single table of keys."""
    return ((path, s) for path, s in _judged() if s.keys and s.judged and not s.many)


def _section(path: str, section: Section, given: Mapping[str, Any]) -> str:
    """One table; nothing where a blank job leaves it out and no key of it is answered."""
    own = {k.name: given[f"{path}.{k.name}"] for k in section.keys if f"{path}.{k.name}" in given}
    if section.blank == "none" and not own:
        return ""
    lines = [_line(f"[{path}]", section.title)]
    lines += [_key(key, own) for key in section.keys if key.blank or key.name in own]
    lines += [line for part in section.parts if part.blank == "list" for line in _empty(part)]
    return "\n".join(lines) + "\n"


def _line(text: str, comment: str) -> str:
    return f"{text.ljust(_COMMENT_AT)} # {comment}"


def _key(key: Key, own: Mapping[str, Any]) -> str:
    """One line, commented out where the table of keys says so."""
    if key.name in own:
        return _line(f"{key.name} = {toml(own[key.name])}", _how(key))
    off = key.blank.startswith("#")
    return _line(f"{'# ' if off else ''}{key.name} = {key.blank.removeprefix('#')}", _how(key))


def _how(key: Key) -> str:
    return f"{' | '.join(key.choices)}: {key.how}" if key.choices else key.how


def _empty(section: Section) -> Iterator[str]:
    """A list with nothing in it, and the form of one thing in it."""
    yield _line(f"{section.name} = []", f"{section.title}:")
    pattern = ", ".join(f'{key.name} = "..."' for key in section.keys)
    yield f"#   [{{ {pattern} }}]"


def _rest(given: Mapping[str, Any]) -> str:
    """What else may stand in a job, one line each."""
    lines = ["# Only where there is one:"]
    for path, section in _judged():
        stands = any(p.startswith(f"{path}.") for p in given)
        if section.blank == "none" and section.keys and not stands:
            lines.append(f"#   {_brackets(path, section)} {listed((k.name for k in section.keys), 'and')}")
    return "\n".join(lines) + "\n"


def _brackets(path: str, section: Section) -> str:
    return f"[[{path}]]" if section.many else f"[{path}]"


def with_mount(text: str, mount: Mount) -> str:
    """The job's text with this mount in place of any other, all else byte for byte.

    Comments on lines of their own, line ends and the byte order mark stay as they are. The new tables
    stand where the old ones did, else at the end.

    Raises:
        JobError: the text is not TOML.
    """
    mark, body = (MARK, text[1:]) if text.startswith(MARK) else ("", text)
    head = parse(body).get("job")
    units = head.get("units") if isinstance(head, dict) else None
    end = "\r\n" if "\r\n" in body else "\n"
    before, after = _around(list(statements(body)), end)
    return mark + before + end.join(_mount(mount, units != "si")) + end + after


def _around(told: list[Statement], end: str) -> tuple[str, str]:
    """What stands before and after the mount; a comment from between its lines comes before."""
    old = [i for i, s in enumerate(told) if s.table == MOUNT.name and s.says]
    headed = [i for i in old if told[i].header]
    if not headed:
        return _closed("".join(s.text for i, s in enumerate(told) if i not in old), end), ""
    first, last = headed[0], old[-1]
    gone = set(old) | {i for i, s in enumerate(told) if first < i < last and s.table == MOUNT.name and s.empty}
    kept = [(i, s.text) for i, s in enumerate(told) if i not in gone]
    return "".join(t for i, t in kept if i < last), "".join(t for i, t in kept if i > last)


def _closed(text: str, end: str) -> str:
    """With an empty line at its end."""
    if not text.strip():
        return text
    whole = text if text.endswith("\n") else text + end
    return whole if whole.endswith(("\n\n", "\n\r\n")) else whole + end


def _mount(mount: Mount, us: bool) -> Iterator[str]:
    """The mount's lines, by the table of keys."""
    parts = {part.name: part for part in MOUNT.parts}
    yield f"[{MOUNT.name}]"
    yield "layers = ["
    yield from (f"    {_inline(parts['layers'], layer, us)}," for layer in mount.layers)
    yield "]"
    for name in ("engine_bolts", "frame_bolts", "pod_bolts"):
        if getattr(mount, name) is not None:
            yield ""
            yield from _bolts_of(parts[name], getattr(mount, name), us)


def _bolts_of(section: Section, bolts: Any, us: bool) -> Iterator[str]:
    yield f"[{MOUNT.name}.{section.name}]"
    yield from (f"{name} = {value}" for name, value in _stated(section, bolts, us))
    for side in section.parts:
        backing = getattr(bolts, side.name)
        if any(_stated(side, backing, us)):
            yield f"{side.name} = {_inline(side, backing, us)}"


def _inline(section: Section, record: Any, us: bool) -> str:
    return "{ " + ", ".join(f"{name} = {value}" for name, value in _stated(section, record, us)) + " }"


def _stated(section: Section, record: Any, us: bool) -> Iterator[tuple[str, str]]:
    """Keys and values of a record that are not as they are when nothing is stated."""
    unstated = {f.name: f.default for f in fields(record)}
    for key in section.keys:
        value = getattr(record, key.target)
        if value != unstated[key.target]:
            yield key.name, toml(length(value, us=us) if key.kind == "length" else value)


def length(mm: float, *, us: bool) -> str:
    """A length that reads back to within 1e-6 mm: inches in 64ths or decimals where they are exact, else mm."""
    inches = Fraction(repr(float(mm))) / _INCH
    if us and abs(inches - round(inches * 64) / Fraction(64)) < Fraction(1, 10**9):
        return f"{_mixed(Fraction(round(inches * 64), 64))} in"
    if us and abs(inches - round(inches, 4)) < Fraction(1, 10**9) and inches % 1:
        return f"{_decimal(float(inches), 4)} in"
    return f"{_decimal(mm, 7)} mm"


def _mixed(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    return "-".join([str(whole)] * bool(whole or not rest) + [str(rest)] * bool(rest))


def _decimal(value: float, places: int) -> str:
    return f"{value:.{places}f}".rstrip("0").rstrip(".")


def toml(value: Any) -> str:
    """A str, bool, int, float, date or list of these as TOML writes it."""
    if isinstance(value, list | tuple):
        return f"[{', '.join(toml(v) for v in value)}]"
    if isinstance(value, dt.date):
        return value.isoformat()
    return json.dumps(value, ensure_ascii=False)
