"""Lines for a terminal: under 80 columns, plain without color, ASCII where the stream cannot print more."""

import re
import textwrap
import unicodedata
from collections.abc import Iterable, Iterator, Sequence

from transom.frozen import dataclass

WIDTH = 79
LABEL = 9
_AMOUNT = re.compile(r"(\d) (?=(?:%|in|mm|lb|lbf|lb-ft|lb-in|psi|half|m|hp|kW|kg|N|kN|MPa|deg|rpm|mph)\b|%)")
_TIMES = re.compile(r"(?<=\d) x (?=\d)")
RISKY = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")  # as a spreadsheet may read them
GAP = "\u00a0\u00a0 "  # a wide gap at which a line may end

# What the tables' sources hold that a shop's console may not.
PLAIN = {
    "×": "x", "·": "-", "−": "-", "–": "-", "—": "-", "≤": "<=", "≥": ">=", "°": " deg", "²": "2", "³": "3",
    "½": "1/2", "¼": "1/4", "¾": "3/4", "’": "'", "‘": "'", "“": '"', "”": '"', "→": "->", "±": "+-", "…": "...",
    "α": "alpha", "β": "beta", "γ": "gamma", "η": "eta", "θ": "theta", "ρ": "rho", "τ": "tau", "σ": "sigma",
}  # fmt: skip


@dataclass(frozen=True)
class Bars:
    """What a bar is drawn with: the used part and the rest."""

    full: str
    rest: str

    def draw(self, share: float, width: int = 24) -> str:
        """A bar of `share` of the limit; what is over the limit fills it."""
        used = min(width, max(0, round(share * width))) if share < 1.0 else width
        return self.full * used + self.rest * (width - used)


BLOCKS = Bars("█", "░")
ASCII = Bars("#", ".")


def bars_for(encoding: str | None) -> Bars:
    """Blocks where the stream's encoding has them, else # and dots."""
    return BLOCKS if _holds(BLOCKS.full + BLOCKS.rest, encoding) else ASCII


def _holds(text: str, encoding: str | None) -> bool:
    try:
        text.encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def printable(text: str, encoding: str | None) -> str:
    """The text as the stream can print it: no control characters but line ends, no character it lacks."""
    seen = "".join(c if c == "\n" or c.isprintable() else "?" for c in text)
    if _holds(seen, encoding):
        return seen
    return "".join(c if _holds(c, encoding) else _nearest(c, encoding) for c in seen)


def _nearest(character: str, encoding: str | None) -> str:
    plain = PLAIN.get(character) or unicodedata.normalize("NFKD", character)
    return "".join(c for c in plain if _holds(c, encoding) and not unicodedata.combining(c)) or "?"


def clean(text: str) -> str:
    """Words of a user or a table on one line: line ends, tabs and runs of spaces are one space."""
    return " ".join(text.split())


def harmless(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula and no terminal for an order.

    An apostrophe stands before what begins like a formula; what cannot be seen is written out, \\x1b.
    """
    from transom.job.faults import printable as visible

    text = cell if cell.startswith(RISKY) else clean(cell)
    return visible(f"'{clean(text)}" if text.startswith(RISKY) else text)


def block(label: str, text: str, *, at: int = LABEL, width: int = WIDTH) -> list[str]:
    """A label and its text, wrapped under itself."""
    hang = "  " if text.startswith("- ") else ""
    lines = wrapped(text, width - at - 1, hang)
    first = f" {label:<{at}}{lines[0]}" if len(label) < at or not label else f" {label} {lines[0]}"
    if len(first) > width:
        return [f" {label}", *(f" {'':<{at}}{line}" for line in lines)]
    return [first.rstrip(), *(f" {'':<{at}}{line}" for line in lines[1:])]


def wrapped(text: str, width: int, hang: str = "") -> list[str]:
    """Lines of a text; a number keeps its unit on its line."""
    held = _AMOUNT.sub("\\1\u00a0", re.sub(r"[ \t\r\n\f\v]+", " ", text).strip(" "))
    held = _TIMES.sub("\u00a0x\u00a0", held)
    lines = textwrap.wrap(held, width, break_on_hyphens=False, subsequent_indent=hang)
    return [line.replace("\u00a0", " ") for line in lines] or [""]


def rule(mark: str = "-") -> str:
    """A line across the page."""
    return " " + mark * (WIDTH - 1)


def ends(left: str, right: str) -> list[str]:
    """One word flush right on the text's last line, or on its own line where there is no room."""
    lines = wrapped(left, WIDTH - 1)
    room = WIDTH - 2 - len(lines[-1])
    if room < len(right) + 1:
        lines.append("")
        room = WIDTH - 2
    lines[-1] += right.rjust(room)
    return [f" {line}" for line in lines]


def columns(rows: Iterable[Sequence[str]], widths: Sequence[int], indent: int = 1) -> Iterator[str]:
    """Rows of cells, each wrapped within its own column."""
    for row in rows:
        cells = [wrapped(c, w - 1) for c, w in zip(row, widths, strict=True)]
        for i in range(max(map(len, cells))):
            parts = (f"{c[i] if i < len(c) else '':<{w}}" for c, w in zip(cells, widths, strict=True))
            yield (" " * indent + "".join(parts)).rstrip()
