"""The job's keys as columns and as what is varied: their names, and a cell's text as the job's file would have it."""

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from transom.errors import JobError
from transom.job.faults import brief, listed, nearest
from transom.job.keys import QUANTITIES, Key
from transom.job.schema import SECTIONS, keys, walk

Changes = tuple[tuple[str, Any], ...]  # dotted key and the value that stands there instead
_PLAIN_TEXT = {*QUANTITIES, "power range", "choice", "text", "size", "stop"}


def known() -> dict[str, Key]:
    """Keys that one cell can state, by dotted path; those within lists of tables cannot."""
    lists = tuple(f"{path}." for path, section in walk(SECTIONS) if section.many)
    return {path: key for path, key in keys() if not path.startswith(lists)}


def meant(name: str, names: Mapping[str, Key]) -> str:
    """What to do about a name that is no key."""
    homes = [path for path in names if path.rpartition(".")[2] == name]
    if homes:
        return f"Did you mean {listed(homes[:4])}?"
    near = nearest(name, names)
    return f"Did you mean {near}?" if near else "Write section and key as in a job, such as engine.power."


def keys_of(names: Sequence[str], where: str) -> dict[str, Key]:
    """The keys of these names, in their order.

    Raises:
        JobError: one line for each that is no key or stands twice.
    """
    every, faults = known(), []
    for i, name in enumerate(names):
        if name not in every:
            faults.append(f'{where} "{brief(name)}": no such key of a job. {meant(name, every)}')
        elif name in names[:i]:
            faults.append(f'{where} "{name}": stands twice. Keep one of the two.')
    if faults:
        raise JobError(*faults)
    return {name: every[name] for name in names}


def value(key: Key, text: str) -> Any:
    """What a cell states, as a parsed job file would have it: a list's items parted by semicolons, or as TOML.

    Text that is no TOML value stays text, so that the reader of jobs says what is wrong with it.
    """
    text = text.strip()
    if text == "?":
        return text
    if key.items is not None:
        return _toml(text) if text.startswith("[") else [_one(key, part.strip()) for part in text.split(";")]
    return _one(key, text)


def _one(key: Key, text: str) -> Any:
    if key.kind in _PLAIN_TEXT:
        return text
    return _toml(text.lower() if key.kind == "flag" else text)


def _toml(text: str) -> Any:
    try:
        found = tomllib.loads(f"x = {text}")
    except (ValueError, RecursionError):
        return text
    return found["x"] if len(found) == 1 else text


def changed(document: Mapping[str, Any], changes: Changes) -> dict[str, Any]:
    """The document with other values at some keys; what is no table on the way there is left for the reader."""
    out = dict(document)
    for path, stated in changes:
        *sections, name = path.split(".")
        table = out
        for section in sections:
            below = table.get(section, {})
            if not isinstance(below, dict):
                break
            table[section] = dict(below)
            table = table[section]
        else:
            table[name] = stated
    return out


def parts(text: str) -> Iterator[str]:
    """A text parted at the commas that stand in no quotes and no brackets."""
    depth, quote, start = 0, "", 0
    for i, c in enumerate(text):
        if quote:
            quote = "" if c == quote else quote
        elif c in "\"'" and _opens(text, i):
            quote = c
        elif c in "[{":
            depth += 1
        elif c in "]}":
            depth -= 1
        elif c == "," and depth <= 0:
            yield text[start:i].strip()
            start = i + 1
    yield text[start:].strip()


def _opens(text: str, i: int) -> bool:
    """True for a quote that opens a text; after a figure it is an inch or foot mark."""
    return not re.search(r"[\w½¼¾⅛⅜⅝⅞] ?$", text[:i])
