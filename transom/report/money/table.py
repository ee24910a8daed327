"""Rows of cells for a terminal, amounts flush right."""

from collections.abc import Iterator, Sequence

from transom.report.text import wrapped


def table(rows: Sequence[Sequence[str]], widths: Sequence[int]) -> Iterator[str]:
    """Rows of cells, each wrapped within its own column; a negative width sets a column flush right.

    A first cell that begins with blanks keeps them on each of its lines.
    """
    for row in rows:
        indent = row[0][: len(row[0]) - len(row[0].lstrip())]
        first = wrapped(row[0].strip(), widths[0] - 1 - len(indent))
        cells = [[indent + line for line in first]]
        cells += [wrapped(c.strip(), abs(w) - 1) for c, w in zip(row[1:], widths[1:], strict=True)]
        for i in range(max(map(len, cells))):
            parts = (_set(c[i] if i < len(c) else "", w) for c, w in zip(cells, widths, strict=True))
            yield f" {''.join(parts)}".rstrip()


def _set(text: str, width: int) -> str:
    return f"{text:>{-width}}" if width < 0 else f"{text:<{width}}"
