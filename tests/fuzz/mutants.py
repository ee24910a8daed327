"""Files spoilt: one value, one number, one line, one byte, or the coding of the whole; by the seed alone."""

import random
import re
from collections.abc import Callable

from tests.fuzz.corpus import BYTES, HOSTILE, TYPED, VALUES

VALUE = re.compile(r"""(?m)(?:^|[{,]) *(["\w.-]+ *= *)("[^"\n]*"|\[[^\]\n]*\]|\{[^}\n]*\}|[^#,}\n]+)""")
INSIDE = re.compile(r'"([^"\n]*)"')
NUMBER = re.compile(r"\d+(?:\.\d+)?")
HEADER = re.compile(r"(?m)^\[+[\w.]+\]+")
NAME = re.compile(r"(?m)^ *([\w-]+) *=")
SCALES = (0.0, 1e-9, 0.01, 0.3, 0.8, 0.95, 1.05, 1.3, 3.0, 100.0, 1e6, 1e300, -1.0)


def spoilt(text: str, chance: random.Random) -> bytes:
    """One to four changes of a text, and now and then of its coding."""
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 4))):
        text = chance.choice(WAYS)(text, chance)
    return _coded(text, chance)


def _coded(text: str, chance: random.Random) -> bytes:
    way = chance.random()
    if way < 0.9:
        data = text.encode("utf-8", "surrogatepass")
    else:
        data = chance.choice((_latin, _wide, _crlf, _bom, _bytes))(text, chance)
    return data


def _latin(text: str, _: random.Random) -> bytes:
    return text.replace("in", "ín", 1).encode("latin-1", "replace")


def _wide(text: str, chance: random.Random) -> bytes:
    return text.encode(chance.choice(("utf-16", "utf-16-le", "utf-16-be", "utf-32")), "surrogatepass")


def _crlf(text: str, chance: random.Random) -> bytes:
    return text.replace("\n", chance.choice(("\r\n", "\r", "\n\r"))).encode("utf-8", "surrogatepass")


def _bom(text: str, chance: random.Random) -> bytes:
    return b"\xef\xbb\xbf" * chance.choice((1, 2)) + text.encode("utf-8", "surrogatepass")


def _bytes(text: str, chance: random.Random) -> bytes:
    data = text.encode("utf-8", "surrogatepass")
    at = chance.randrange(len(data) + 1)
    return data[:at] + chance.choice(BYTES) + data[at + chance.choice((0, 0, 1, 5)) :]


def quoted(value: str) -> str:
    """A text as TOML has it."""
    return '"' + "".join(c if c >= " " and c not in '"\\\x7f' else f"\\u{ord(c):04x}" for c in value) + '"'


def _span(text: str, chance: random.Random, start: int, end: int, new: str) -> str:
    return text[:start] + new + text[end:]


def _value(text: str, chance: random.Random) -> str:
    found = list(VALUE.finditer(text))
    if not found:
        return text
    m = chance.choice(found)
    new = chance.choice((quoted(chance.choice(TYPED)), quoted(chance.choice(HOSTILE)), chance.choice(VALUES)))
    return _span(text, chance, m.start(2), m.end(2), new + " ")


def _inside(text: str, chance: random.Random) -> str:
    """Between the quotes, as it would be typed: nothing is escaped."""
    found = list(INSIDE.finditer(text))
    if not found:
        return text
    m = chance.choice(found)
    return _span(text, chance, m.start(1), m.end(1), chance.choice(TYPED))


def _scaled(text: str, chance: random.Random) -> str:
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    m = chance.choice(found)
    return _span(text, chance, m.start(), m.end(), f"{float(m[0]) * chance.choice(SCALES):g}")


def _scaled_often(text: str, chance: random.Random) -> str:
    for _ in range(chance.randint(2, 6)):
        text = _scaled(text, chance)
    return text


def _dropped(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        at = chance.randrange(len(lines))
        del lines[at : at + chance.choice((1, 1, 2, 10))]
    return "".join(lines)


def _moved(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        lines.insert(chance.randrange(len(lines)), chance.choice(lines))
    return "".join(lines)


def _torn(text: str, chance: random.Random) -> str:
    return text[: chance.randrange(len(text) + 1)] if chance.random() < 0.3 else text


def _put_in(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    new = chance.choice(
        (
            '"',
            "'",
            "[",
            "]",
            "{",
            "}",
            "=",
            "\x00",
            "\t",
            "“",
            "”",
            "#",
            "\\",
            "é",
            "\n",
            "\r",
            "\ud800",
            "½",
            "0",
            "-",
            ",",
        )
    )
    return text[:at] + new + text[at + chance.choice((0, 0, 1)) :]


def _renamed(text: str, chance: random.Random) -> str:
    found = list(NAME.finditer(text)) + list(HEADER.finditer(text))
    if len(found) < 2:
        return text
    m, other = chance.sample(found, 2)
    return _span(text, chance, m.start(), m.end(), other[0])


def _huge(text: str, chance: random.Random) -> str:
    if chance.random() > 0.02:
        return text
    many = chance.choice(
        (
            "# x\n" * 20_000,
            "[[case]]\nname='x'\nlike='ahead'\ntimes=1.0\nreason='x'\n" * 300,
            "x" * 200_000,
            '"' * 3_000,
            "[" * 900,
        )
    )
    return text + many if chance.random() < 0.7 else many + text


WAYS: tuple[Callable[[str, random.Random], str], ...] = (
    _value, _value, _value, _inside, _inside, _scaled, _scaled, _scaled_often, _dropped, _moved, _torn, _put_in, _renamed, _huge,
)  # fmt: skip
