"""Text of users and tables made fit for a document: what cannot be seen is shown, what turns direction is fenced in."""

import re
from typing import Any

from markupsafe import Markup, escape

# Characters that turn the direction of what follows them (Unicode 15, UAX 9), and those that only mark it.
TURNS = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
MARKS = "\u061c\u200e\u200f"
_HIDDEN = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef]|[\ufffe\uffff]|"
    + "[" + "".join(f"{chr(plane * 0x10000 + 0xFFFE)}{chr(plane * 0x10000 + 0xFFFF)}" for plane in range(1, 17)) + "]"
)  # fmt: skip
_TURNING = re.compile(f"[{TURNS}{MARKS}]")


def visible(text: str) -> str:
    """The text with every character that a document may not hold as [U+001B]."""
    return _HIDDEN.sub(_code, text)


def mixed(value: Any) -> Any:
    """What the template prints of words of ours round somebody's: characters that turn direction shown as codes."""
    if isinstance(value, Markup) or not isinstance(value, str):
        return value
    return _TURNING.sub(_code, visible(value))


def _code(found: re.Match[str]) -> str:
    return f"[U+{ord(found[0]):04X}]"


def user(text: str) -> Markup:
    """Somebody's own words: as they stand, but unable to turn what stands round them; empty stays empty."""
    if not text.strip():
        return Markup("")
    note = (
        ' <span class="odd">(holds marks that turn the direction of reading)</span>' if set(text) & set(TURNS) else ""
    )
    return Markup("<bdi>{}</bdi>").format(visible(text)) + Markup(note)


def short(text: str, most: int = 60) -> str:
    """The beginning of a text, on one line."""
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[: most - 3].rstrip()}..."


__all__ = ["escape", "mixed", "short", "user", "visible"]
