"""A TOML text cut into its statements, so that some can be taken out and the rest left byte for byte."""

import re
import tomllib
from collections.abc import Iterator

from transom.frozen import dataclass

_PIECE = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'|#[^\n]*|\n|[\[{]|[\]}]|[^"\'#\[\]{}\n]+',
    re.DOTALL,
)


@dataclass(frozen=True)
class Statement:
    """Whole lines of the text: a header, a key with its value, or a line that is empty or a comment.

    `table` is the first name of the table that the statement stands in, "" at the top of the text; of a key
    at the top it is the key's own first name.
    """

    text: str
    table: str
    header: bool = False
    empty: bool = False
    comment: bool = False

    @property
    def says(self) -> bool:
        """Whether it is a header or a key."""
        return not (self.empty or self.comment)


def statements(text: str) -> Iterator[Statement]:
    """Every statement of a text that TOML reads, in order; their texts joined are the text."""
    table = ""
    for lines in _cut(text):
        bare = lines.strip()
        if not bare or bare.startswith("#"):
            yield Statement(lines, table, empty=not bare, comment=bool(bare))
        elif bare.startswith("["):
            table = _first_name(lines)
            yield Statement(lines, table, header=True)
        else:
            yield Statement(lines, table or _first_name(lines))


def _cut(text: str) -> Iterator[str]:
    """The text at every line end that stands outside brackets and texts of many lines."""
    depth, start = 0, 0
    for piece in _PIECE.finditer(text):
        depth += (piece[0] in "[{") - (piece[0] in "]}")
        if piece[0] == "\n" and depth == 0:
            yield text[start : piece.end()]
            start = piece.end()
    if start < len(text):
        yield text[start:]


def _first_name(statement: str) -> str:
    return next(iter(tomllib.loads(statement)))
