"""TOML that does not parse: the line, what is wrong with it, and the mend."""

import contextlib
import datetime
import re
import tomllib
from collections.abc import Callable
from typing import Any

from transom.errors import JobError
from transom.job.faults import printable

MOST_FAULTS = 30
LONGEST = 60
LONGEST_MEND = 200
_WHERE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)")
_STRAIGHT = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'')
_CURLY = "“”„‟″‘’‚‛′«»"
_KEY = re.compile(r"\s*([A-Za-z0-9_.-]+)\s*=\s*(.*)")
_COLON = re.compile(r"""\s*([A-Za-z0-9_.-]+)\s*:\s*(["'\[{\w?.].*)""")
_HEADER = re.compile(r"\s*\[\[?\s*([A-Za-z0-9_. -]*)")
_INCHES = re.compile(r'([\d½¼¾⅛⅜⅝⅞])"(?:\s*in(?:ch(?:es)?|\.)?\b)?')
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
_NUMBER = re.compile(r"(\d*)([.,])(\d+)\Z")
_DATE = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})\b")


def parse(text: str) -> dict[str, Any]:
    """The document.

    Raises:
        JobError: one line for each line of it that TOML cannot read.
    """
    lines = text.split("\n")
    faults: dict[int, str] = {}
    while len(faults) < MOST_FAULTS:
        try:
            document = tomllib.loads("\n".join(lines))
        except (ValueError, RecursionError) as error:
            number = _line_of(error, lines)
            if number in faults:
                break
            faults[number] = _fault(number, lines[number - 1], error)
            _set_aside(lines, number)
        else:
            if not faults:
                return document
            break
    raise JobError(*(faults[number] for number in sorted(faults)))


def _line_of(error: Exception, lines: list[str]) -> int:
    """The line at fault: where a bracket or a text was left open, else where the reader stopped."""
    found = _WHERE.search(str(error))
    stopped = min(int(found[1]), len(lines)) if found and found[1] else 0
    opened = _text_left_open(lines) if not stopped else 0
    opened = opened or _left_open(lines)
    if opened and (not stopped or opened < stopped):
        return opened
    return stopped or _last(lines)


def _text_left_open(lines: list[str]) -> int:
    """The line whose three quotes nothing closes; 0 where none is."""
    return next((i for i, line in reversed(list(enumerate(lines, 1)))
                 if (line.count('"""') + line.count("'''")) % 2), 0)  # fmt: skip


def _last(lines: list[str]) -> int:
    return max((i for i, line in enumerate(lines, 1) if line.strip()), default=1)


def _left_open(lines: list[str]) -> int:
    """The line whose [ or { is still open where the next key or section begins; 0 where none is."""
    depth, opener = 0, 0
    for i, line in enumerate(lines, 1):
        bare = _bare(line)
        begins = _KEY.match(bare) or _HEADER.fullmatch(bare.rstrip(" ]\r")) if depth else None
        if depth and begins and "{" not in bare.split("=")[0]:
            return opener
        if depth == 0:
            opener = i
        depth = max(0, depth + sum(map(bare.count, "[{")) - sum(map(bare.count, "]}")))
    return opener if depth else 0


def _bare(line: str) -> str:
    """The line without its texts and its comment."""
    return _STRAIGHT.sub('""', line).split("#")[0]


def _set_aside(lines: list[str], number: int) -> None:
    """Blank the faulty line so that the ones after it can be read; a section keeps a name of its own."""
    header = _HEADER.match(lines[number - 1])
    lines[number - 1] = f"[at-fault-{number}]" if header else ""


def _fault(number: int, line: str, error: Exception) -> str:
    line = line.strip()
    what, mend = _mend(line, _WHERE.sub("", str(error)))
    return f"line {number}: {_short(line, LONGEST)}  <- {_short(what, LONGEST_MEND)}. {_short(mend, LONGEST_MEND)}"


def _short(text: str, most: int) -> str:
    """So much of a text as a line on a screen can be, printable; a file may be one line of a megabyte."""
    return printable(text if len(text) <= most else f"{text[: most - 3]}...")


def _mend(line: str, message: str) -> tuple[str, str]:
    """What is wrong and what to do, by the first description that fits."""
    for describes in _DESCRIPTIONS:
        found = describes(line, message)
        if found:
            return found
    return printable(message.rstrip(".")) or "cannot be read", 'A line reads: key = "value"'


Found = tuple[str, str] | None


def _twice(line: str, message: str) -> Found:
    if "twice" in message or "overwrite" in message or "Cannot mutate" in message:
        what = "section" if line.startswith("[") else "key"
        return f"this {what} stands twice", "Keep one of the two"
    return None


def _curly(line: str, message: str) -> Found:
    if any(c in _CURLY for c in _bare(line)):
        return "curly quotes", 'Type straight ones: "..."; a word processor curls them, a plain editor does not'
    return None


def _control(line: str, message: str) -> Found:
    return ("a control character", "Delete it, or type the line again") if _CONTROL.search(line) else None


def _section(line: str, message: str) -> Found:
    header = _HEADER.match(line)
    if not header or "=" in _bare(line):
        return None
    name = header[1].strip() or "board"
    meant = f"[[{name}]]" if "[[" in line or "]]" in line else f"[{name}]"
    return "a section name is not closed or not plain", f"Write {meant} on a line of its own"


def _colon(line: str, message: str) -> Found:
    found = None if _KEY.match(line) else _COLON.match(line)
    return ("a colon after the key", f"Write an equals sign: {found[1]} = {found[2]}") if found else None


def _backslash(line: str, message: str) -> Found:
    if "\\" in line and ("\\" in message or "escape" in message.lower() or "hex" in message.lower()):
        return "a backslash in double quotes", "Write / for each \\, or put the text in single quotes"
    return None


def _inch_mark(line: str, message: str) -> Found:
    found = _KEY.match(line)
    value = found[2].split("#")[0].strip() if found else ""
    if value.startswith('"') and re.search(r'\d"', value) and value.count('"') >= 3 and value.count('"') % 2:
        inner = _INCHES.sub(r"\1 in", value[1:-1] if value.endswith('"') else value[1:])
        return "an inch mark inside double quotes", f'Write in for inches: "{inner}"; or single quotes outside'
    if value.startswith("[") and re.search(r'\d""', value):
        return "an inch mark inside double quotes", "Write in for inches, or put single quotes outside"
    return None


def _quote_open(line: str, message: str) -> Found:
    found = _KEY.match(line)
    if found and found[2].startswith(('"""', "'''")):
        return "three quotes open a text of many lines", f'Keep it on one line: {found[1]} = "..."'
    if found and found[2].startswith('"') and _bare(found[2]).replace('""', "").count('"') == 1:
        return "a quote is missing", f'Put one at each end: {found[1]} = "..."'
    if found and re.match(r"'[^']*\Z", found[2]):
        return "a quote is missing", f"Put one at each end: {found[1]} = '...'"
    return None


def _nothing(line: str, message: str) -> Found:
    found = _KEY.match(line)
    if found and not found[2].split("#")[0].strip():
        return "no value after the equals sign", f'Type one, or {found[1]} = "?" if it was not measured'
    return None


def _date(line: str, message: str) -> Found:
    found = _KEY.match(line)
    day = _DATE.match(found[2]) if found else None
    if found and day:
        return "not a date TOML can read", f"Year, month, day, two figures each: {found[1]} = {_meant(*day.groups())}"
    return None


def _meant(year: str, one: str, other: str) -> str:
    """The date that was meant, in figures TOML reads: month and day the other way round only where there is no such day."""
    for month, day in ((one, other), (other, one)):
        with contextlib.suppress(ValueError):
            return datetime.date(int(year), int(month), int(day)).isoformat()
    return "2026-05-04"


def _number(line: str, message: str) -> Found:
    found = _KEY.match(line)
    number = _NUMBER.match(found[2].split("#")[0].strip()) if found else None
    if not found or not number:
        return None
    what = "a comma inside a number" if number[2] == "," else "a number begins with a figure"
    return what, f"Write {found[1]} = {number[1] or '0'}.{number[3]}; a measure goes in quotes with its unit"


def _word(line: str, message: str) -> Found:
    found = _KEY.match(line)
    word = found[2].split("#")[0].strip().lower() if found else ""
    meant = {"yes": "true", "true": "true", "on": "true", "no": "false", "false": "false", "off": "false"}
    if found and word in meant:
        return "not true or false as TOML spells it", f"Write {found[1]} = {meant[word]}"
    return None


def _bracket(line: str, message: str) -> Found:
    found = _KEY.match(line)
    bare = _bare(found[2]) if found else ""
    for left, right in ("[]", "{}"):
        if bare.count(left) > bare.count(right):
            same = ", on the same line" if right == "}" else ""
            return f"a closing {right} is missing", f"End the list or table with {right}{same}"
        if bare.count(left) < bare.count(right):
            return f"a {right} too many", f"Each {right} needs its {left}"
    return None


def _in_list(line: str, message: str) -> Found:
    found = _KEY.match(line)
    if not found or found[2][:1] not in "[{" or not found[2]:
        return None
    if re.search(r'"\s*"', _bare(line)):
        return "a comma is missing between two values", "Put a comma between them"
    return "a value in the list or table is not in quotes", 'Put each quantity or word in quotes: ["1-1/4 in", ...]'


def _unquoted(line: str, message: str) -> Found:
    found = _KEY.match(line)
    value = found[2].split("#")[0].strip() if found else ""
    if not found or value[0] in "\"'":
        return None
    if len(value) > LONGEST:
        return "a number or word too long", "Write it in fewer figures, in quotes"
    return "quotes are missing", f"Write {found[1]} = {_in_quotes(value)}"


def _in_quotes(value: str) -> str:
    """Quotes around a value that has none, or one; an inch mark after a figure stays."""
    if value.count('"') == 1 and value.endswith('"') and not value[-2:-1].isdigit():
        value = value[:-1]
    return f"'{value}'" if '"' in value else f'"{value}"'


def _after(line: str, message: str) -> Found:
    found = _KEY.match(line)
    if found and "newline" in message:
        return "something stands after the value", "Put it inside the quotes, or after a # as a remark"
    return None


def _no_equals(line: str, message: str) -> Found:
    if _KEY.match(line):
        return None
    return "no key with an equals sign", 'A line reads: key = "value"; a remark begins with #'


_DESCRIPTIONS: tuple[Callable[[str, str], Found], ...] = (
    _twice, _curly, _control, _section, _colon, _backslash, _inch_mark, _quote_open, _nothing, _date, _number,
    _word, _bracket, _in_list, _unquoted, _after, _no_equals,
)  # fmt: skip
