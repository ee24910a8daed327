"""One value of a job file, read as its key in the table says."""

import datetime as dt
import math
import re
from collections.abc import Callable
from typing import Any

from transom.job.faults import Fault, listed, nearest, shown, toml, with_unit
from transom.job.names import chosen, in_table
from transom.job.schema import QUANTITIES, Key
from transom.job.stop_names import FINAL, PASSABLE
from transom.quantity import QuantityError, is_unmeasured, read, read_range

LONGEST_TEXT = 200
_SIGNED = ("length", "angle", "temperature")
_METRIC = re.compile(r"[Mm]\s*(\d{1,2})\Z")


class Unmeasured:
    """The value was "?"."""


UNMEASURED = Unmeasured()


def unmeasured(raw: Any) -> bool:
    """True for "?"."""
    return isinstance(raw, str) and is_unmeasured(raw)


def value_of(key: Key, raw: Any) -> Any:
    """The value in working units: a float, str, bool, int, date, tuple of these, or `UNMEASURED`.

    Raises:
        Fault: the value is not one this key can have.
    """
    if unmeasured(raw):
        if key.unknown:
            return UNMEASURED
        raise Fault('"?" is no answer here', f"say {asked(key)}")
    if key.items is None:
        return _single(key, raw)
    return _several(key, raw, key.items)


def asked(key: Key) -> str:
    """What the key asks for, in a few words."""
    return f"{listed(key.choices)}: {key.how}" if key.choices else key.how


def _several(key: Key, raw: Any, items: tuple[int, int]) -> tuple[Any, ...]:
    if not isinstance(raw, list):
        raise Fault("takes a list in square brackets", f"write {key.name} = [{toml(raw)}, ...]")
    low, high = items
    if not low <= len(raw) <= high:
        count = f"exactly {low}" if low == high else f"{low} to {high}"
        raise Fault(f"takes {count} values in its list, this has {len(raw)}", f"give {key.how}")
    if any(unmeasured(item) for item in raw):
        raise Fault('"?" cannot stand inside a list', f'give every value, or {key.name} = "?" for the whole')
    return tuple(_single(key, item) for item in raw)


def _single(key: Key, raw: Any) -> Any:
    if key.kind in QUANTITIES:
        return _quantity(key, raw)
    return _READERS[key.kind](key, raw)


def _stated(key: Key, raw: Any) -> str:
    if isinstance(raw, str):
        return raw
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        raise Fault("a bare number has no unit", f"write {with_unit(toml(raw), key)}")
    raise Fault("must be text with a number and its unit", f"write {with_unit('...', key)}")


def _quantity(key: Key, raw: Any) -> float | str:
    text = _stated(key, raw)
    word = chosen(text, key.words)
    if word:
        return word
    try:
        value = read(text, _dimension(key), negative=key.kind in _SIGNED)
    except QuantityError as error:
        words = "".join(f', or "{word}"' for word in key.words)
        raise Fault(error.rule, f"{error.next_step}{words}") from None
    return _within(key, settled(value))


def _dimension(key: Key) -> str:
    return "power" if key.kind == "power range" else key.kind


def settled(value: float) -> float:
    """Twelve significant digits, so that 3-1/2 in and 88.9 mm are the same length."""
    return float(f"{value:.12g}")


def _within(key: Key, value: float) -> float:
    if not math.isfinite(value):
        raise Fault("must be a finite number", "write it out in figures")
    if key.classes:
        return _class(key, value)
    if value < key.low or value > key.high:
        raise Fault(_outside(key, value), f"check the figure and its unit: {key.how}")
    return value


def _outside(key: Key, value: float) -> str:
    low, high = (shown(limit, key.kind) for limit in (key.low, key.high))
    return f"reads as {shown(value, key.kind)}, outside {low} to {high}"


def _class(key: Key, value: float) -> float:
    near = min(key.classes, key=lambda c: abs(c - value))
    if abs(near - value) > 1.0:
        names = listed(f"{c / 25.4:g} in" for c in key.classes)
        raise Fault(f"must be a class: {names}", f'write the nearest, {key.name} = "{near / 25.4:g} in"')
    return near


def _power_range(key: Key, raw: Any) -> tuple[float, float]:
    try:
        low, high = read_range(_stated(key, raw), _dimension(key))
    except QuantityError as error:
        raise Fault(error.rule, error.next_step) from None
    return _within(key, settled(low)), _within(key, settled(high))


def _choice(key: Key, raw: Any) -> str:
    allowed = f"must be {listed(key.choices)}"
    if not isinstance(raw, str):
        raise Fault(allowed, f'write it in quotes, such as {key.name} = "{key.choices[0]}"')
    found = chosen(raw, key.choices)
    if not found:
        near = nearest(raw, key.choices)
        raise Fault(allowed, f'did you mean "{near}"?' if near else f"pick one: {key.how}")
    return found


def _text(key: Key, raw: Any) -> str:
    if not isinstance(raw, str):
        raise Fault("must be text", f'put it in quotes: "{toml(raw)}"')
    if any(not c.isprintable() for c in raw):
        raise Fault(
            "holds a line break, tab or control character",
            "keep it on one line; in a Windows path write / for each backslash",
        )
    if len(raw) > LONGEST_TEXT:
        raise Fault(f"is longer than {LONGEST_TEXT} letters", "shorten it")
    return in_table(key.family, raw) if key.family else raw.strip()


def _flag(key: Key, raw: Any) -> bool:
    if isinstance(raw, bool):
        return raw
    known = _FLAGS.get(raw.strip().lower(), "") if isinstance(raw, str) else ""
    step = f"write {key.name} = {known}" if known else f"write true or false: {key.how}"
    raise Fault("must be true or false, without quotes", step)


_FLAGS = {"yes": "true", "true": "true", "on": "true", "y": "true"} | dict.fromkeys(
    ("no", "false", "off", "n", "none"), "false"
)


def _count(key: Key, raw: Any) -> int:
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise Fault("must be a whole number, without quotes or unit", f"write {key.name} = {_digits(raw)}")
    if not key.low <= raw <= key.high:
        raise Fault(f"must be from {key.low:g} to {key.high:g}", f"check it: {key.how}")
    return raw


def _ratio(key: Key, raw: Any) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise Fault("must be a plain number, without quotes or unit", f"write {key.name} = {_digits(raw)}")
    if not (math.isfinite(raw) if isinstance(raw, float) else abs(raw) < 10**9):
        raise Fault("must be a finite number", "write it out in figures")
    if not key.low <= raw <= key.high:
        raise Fault(f"must be from {key.low:g} to {key.high:g}", f"check it: {key.how}")
    return float(raw)


def _digits(raw: Any) -> str:
    """The number meant by a text such as "3" or "2:1", or by 3.0 for a count."""
    if isinstance(raw, float) and raw.is_integer() and abs(raw) < 1e9:
        return str(int(raw))
    found = re.match(r"\s*(\d{1,9}(?:\.\d{1,9})?)", raw) if isinstance(raw, str) else None
    return found[1] if found else "..."


def _date(key: Key, raw: Any) -> dt.date:
    if type(raw) is dt.date:
        return raw
    if isinstance(raw, dt.datetime):
        raise Fault("must be a date without a time", f"write {key.name} = {raw.date().isoformat()}")
    try:
        meant = dt.date.fromisoformat(str(raw).strip() if isinstance(raw, str | int) else "").isoformat()
    except ValueError:
        meant = "2026-05-04"
    raise Fault("must be a date: year, month, day, without quotes", f"write {key.name} = {meant}")


def _size(key: Key, raw: Any) -> tuple[str, float]:
    """A bolt's size as typed and its diameter, mm."""
    metric = _METRIC.match(raw.strip()) if isinstance(raw, str) else None
    probe = Key(key.name, "length", key.how, 3.0, 40.0)
    if metric:
        return f"M{metric[1]}", _within(probe, float(metric[1]))
    diameter = _quantity(probe, raw)
    return " ".join(str(raw).split()), float(diameter)


def _stop(key: Key, raw: Any) -> str:
    """The name of a stop that can be accepted; a final one cannot."""
    name = chosen(raw, (*PASSABLE, *FINAL)) if isinstance(raw, str) else ""
    if name in PASSABLE:
        return name
    if name:
        raise Fault("is final: no name, date or paper passes it", "leave this table out, and do as the stop says")
    near = nearest(raw, (*PASSABLE, *FINAL)) if isinstance(raw, str) else ""
    step = f'did you mean "{near}"?' if near else f"those that can be accepted are {listed(PASSABLE, 'and')}"
    raise Fault("no such stop", step)


_READERS: dict[str, Callable[[Key, Any], Any]] = {
    "power range": _power_range,
    "choice": _choice,
    "text": _text,
    "flag": _flag,
    "count": _count,
    "ratio": _ratio,
    "date": _date,
    "size": _size,
    "stop": _stop,
}
