"""Saved judgements read back: JSON of the schema, whole and with nothing but numbers where numbers are due."""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from transom.errors import JobError
from transom.report.judgement import SCHEMA

MOST_BYTES = 100_000_000
LARGEST = 1e100  # no judgement holds a larger number in any unit
MENDS = "Save one with `transom review JOB --json > FILE`."
NUMBER = (int, float)
# What a comparison reads, and of what sort it must be.
TOP = {"tool": dict, "job": dict, "paper": str, "passes": bool, "cases": list, "checks": list, "stops": list}
ROWS: dict[str, dict[str, Any]] = {
    "checks": {"id": str, "part": str, "what": str, "rule": str, "case": str, "method": str, "passes": bool,
               "utilisation": (*NUMBER, type(None))},
    "stops": {"name": str, "says": str, "final": bool, "accepted": (str, type(None))},
    "cases": {"name": str, "bolts": dict},
}  # fmt: skip
INPUT = {"value": object, "unit": str, "evidence": str, "says": str}
EVIDENCE = ("published", "stated", "common practice", "convention", "estimate")


def is_saved(path: Path) -> bool:
    """True for a file that a job is not: by its ending, or by its first character."""
    if path.suffix.lower() == ".json":
        return True
    try:
        with path.open("rb") as file:
            return file.read(64).lstrip(b"\xef\xbb\xbf\xff\xfe\x00 \t\r\n")[:1] == b"{"
    except OSError:
        return False


def read_saved(path: Path) -> Mapping[str, Any]:
    """The judgement saved in a file.

    Raises:
        JobError: it cannot be read, or is no judgement of this schema.
    """
    try:
        value = json.loads(_text(path), parse_constant=_no_number, parse_float=_real, parse_int=_whole)
    except (ValueError, RecursionError) as error:
        raise JobError(f"{path}: is no JSON ({' '.join(str(error).split())[:100]}). {MENDS}") from None
    faults = list(_faults(value))
    if faults:
        raise JobError(*(f"{path}: {fault}. {MENDS}" for fault in faults[:5]))
    found: Mapping[str, Any] = value
    return found


def _no_number(name: str) -> float:
    raise ValueError(f"{name} is no number")


def _real(text: str) -> float:
    """A number that is one, and can be worked with: 1e999 is read as infinite otherwise."""
    value = float(text)
    return value if abs(value) <= LARGEST else _no_number(text[:20])


def _whole(text: str) -> int:
    _real(text)
    return int(text)


def _text(path: Path) -> str:
    try:
        if path.is_file() and path.stat().st_size > MOST_BYTES:
            raise JobError(f"{path}: larger than 100 MB, no judgement. {MENDS}")
        data = path.read_bytes()
    except FileNotFoundError:
        raise JobError(f"{path}: no such file. Check its name.") from None
    except OSError as error:
        raise JobError(f"{path}: cannot be read ({str(error.strerror or error).lower()}). {MENDS}") from None
    # What some shells make of `>`.
    form = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    return data.decode(form)


def _faults(value: Any) -> Iterator[str]:
    """What keeps it from being compared."""
    if not isinstance(value, dict) or value.get("schema") != SCHEMA:
        found = value.get("schema") if isinstance(value, dict) else None
        yield f"schema is {found!r}, not {SCHEMA!r}: no judgement that this version reads"
        return
    wrong = [key for key, kind in TOP.items() if not _is(value.get(key), kind)]
    yield from (f"{key}: missing, or not what the schema says" for key in wrong)
    if wrong:
        return
    if not _is(value["tool"].get("version"), str) or not all(
        _is(value["job"].get(k), str) for k in ("name", "revision", "sha256")
    ):
        yield "tool or job: missing, or not what the schema says"
    for key, form in ROWS.items():
        yield from _row_faults(key, value[key], form)
    yield from _more(value)


def _is(value: Any, kind: Any) -> bool:
    return isinstance(value, kind) and (not isinstance(value, bool) or kind in (bool, object))


def _row_faults(key: str, rows: list[Any], form: Mapping[str, Any]) -> Iterator[str]:
    for i, row in enumerate(rows):
        if not isinstance(row, dict) or not all(k in row and _is(row[k], kind) for k, kind in form.items()):
            yield f"{key}[{i}]: not what the schema says"


def _more(value: Mapping[str, Any]) -> Iterator[str]:
    """What later versions added, and the bolts."""
    inputs, engine, mount = value.get("inputs", {}), value.get("engine"), value.get("mount")
    if not isinstance(inputs, dict) or not all(
        isinstance(x, dict)
        and all(k in x and _is(x[k], kind) for k, kind in INPUT.items())
        and x["evidence"] in EVIDENCE
        for x in inputs.values()
    ):
        yield "inputs: not what the schema says"
    if engine is not None and not (isinstance(engine, dict) and _is(engine.get("thrust_moment"), NUMBER)):
        yield "engine: not what the schema says"
    if mount is not None and not _is_mount(mount):
        yield "mount: not what the schema says"
    for i, case in enumerate(value["cases"]):
        if not all(isinstance(b, dict) and all(_is(b.get(k), NUMBER) for k in ("z", "tension")) for b in _bolts(case)):
            yield f"cases[{i}]: bolts are not what the schema says"


def _is_mount(mount: Any) -> bool:
    layers = mount.get("layers") if isinstance(mount, dict) else None
    return isinstance(layers, list) and all(
        isinstance(x, dict) and _is(x.get("sheet"), str) and _is(x.get("grain"), str) for x in layers
    )


def _bolts(case: Any) -> list[Any]:
    """Every bolt of a case; something that is none where they do not stand as the schema says."""
    found = case["bolts"] if isinstance(case, dict) and isinstance(case.get("bolts"), dict) else {"hand": None}
    lists = [found.get(method) for method in ("hand", "plate")]
    return [b for each in lists for b in (each if isinstance(each, list) else [None])]
