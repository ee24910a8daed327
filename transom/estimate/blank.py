"""A price book to fill in: what this estimate needs, each price "?"."""

from collections.abc import Iterator

from transom.catalogue.shopwork import CLASSES
from transom.estimate.lines import Line
from transom.estimate.reading import sides
from transom.estimate.records import Estimate
from transom.job.write import length, toml

_HEAD = """\
# Your price book. "?" is a price nobody has asked yet: it is listed as missing, never taken as nothing.
# Keep it as prices.toml beside the job or beside shop.toml, or name it with --prices.
"""


def blank_book(e: Estimate) -> str:
    """The book's text: head, rates, and every thing the three cases buy."""
    us = e.judgement.job.head.units == "us"
    day = e.judgement.job.head.date
    parts = [
        _HEAD,
        _section("book", {"says": "", "currency": "$", "words": "dollars", "old_after": 180}),
        f"date = {day.isoformat()}" if day else "# date = 2026-05-04                 # the day these prices were asked",
        "",
        _section("labour", {"rate": "?", "hours_a_day": 8}),
        "",
        _section("markup", {c: "?" for c in CLASSES if c != "labour"}),
        "",
        _section("tax", dict.fromkeys(CLASSES, "?")),
    ]
    return "\n".join([*parts, *_items(e.cases[-1].lines, us)]) + "\n"


def _section(name: str, keys: dict[str, object]) -> str:
    return "\n".join([f"[{name}]", *(f"{k} = {toml(v)}" for k, v in keys.items())])


def _items(lines: tuple[Line, ...], us: bool) -> Iterator[str]:
    seen: set[str] = set()
    for line in lines:
        if line.kind not in _KEYS:
            continue
        text = "\n".join(["", f"[[{line.kind}]]", *_KEYS[line.kind](line, us)])
        if text not in seen:
            seen.add(text)
            yield text


def _sheet(x: Line, us: bool) -> tuple[str, ...]:
    return f"name = {toml(x.name)}", 'price = "?"', 'half = "?"', "in_stock = false"


def _plate(x: Line, us: bool) -> tuple[str, ...]:
    thickness = toml(length(x.size, us=us))
    return f"alloy = {toml(x.name)}", f"thickness = {thickness}", 'price = "?"', f'per = "{"sq ft" if us else "m2"}"'


def _bolt(x: Line, us: bool) -> tuple[str, ...]:
    thread, _, grade = x.name.partition(" ")
    return (
        f"thread = {toml(thread)}",
        f"grade = {toml(grade)}",
        f"length = {toml(length(x.size, us=us))}",
        'price = "?"',
    )


def _nut(x: Line, us: bool) -> tuple[str, ...]:
    return f"thread = {toml(x.name)}", 'price = "?"', "pack = 1"


def _washer(x: Line, us: bool) -> tuple[str, ...]:
    return f"name = {toml(x.name)}", 'price = "?"', "pack = 1"


def _plate_washer(x: Line, us: bool) -> tuple[str, ...]:
    side, t = sides(x.name)
    return f"side = {toml(length(side, us=us))}", f"thickness = {toml(length(t, us=us))}", 'price = "?"'


def _epoxy(x: Line, us: bool) -> tuple[str, ...]:
    return f'holds = "{"1 qt" if us else "1 l"}"', 'price = "?"'


def _supply(x: Line, us: bool) -> tuple[str, ...]:
    return f"name = {toml(x.name)}", 'price = "?"', f"pack = 1                           # {x.need_unit} in a packet"


_KEYS = {
    "sheet": _sheet, "plate": _plate, "bolt": _bolt, "nut": _nut, "washer": _washer, "plate_washer": _plate_washer,
    "epoxy": _epoxy, "supply": _supply,
}  # fmt: skip
