"""How many half sheets a board's layers take, cut in rows across the sheet."""

from collections import Counter
from collections.abc import Sequence

from transom.catalogue import Catalogue
from transom.job.records import Layer

ALLOWANCE = 6.0  # mm a side, trimmed after gluing
KERF = 3.0


def halves(pile: Sequence[Layer], width: float, height: float, tables: Catalogue) -> int:
    """Half sheets to buy for a board width x height (mm): blanks with allowance, face grain kept."""
    total = 0
    for sheet in sorted({layer.sheet for layer in pile}):
        row = tables.sheet(sheet)
        turned = Counter(layer.grain for layer in pile if layer.sheet == sheet)
        half_length, across_sheet = row.length_mm / 2, row.width_mm
        a, b = width + 2 * ALLOWANCE, height + 2 * ALLOWANCE
        rows = [
            *_rows(turned["across"], a, b, half_length, across_sheet),
            *_rows(turned["along"], b, a, half_length, across_sheet),
        ]
        total += _boxes(rows, half_length)
    return total


def _rows(count: int, along: float, across: float, length: float, width: float) -> list[float]:
    """Lengths of sheet that rows of blanks take; a blank that does not fit a half takes two."""
    if not count:
        return []
    a_row = int((width + KERF) // (across + KERF))
    if a_row == 0 or along > 2 * length:
        return [float("inf")] * count
    return [along] * -(-count // a_row)


def _boxes(rows: Sequence[float], length: float) -> int:
    """First fit, longest first. A row longer than a half takes a whole sheet; one longer than that has none."""
    left: list[float] = []
    used = 0
    for row in sorted(rows, reverse=True):
        if row == float("inf"):
            return NONE_BIG_ENOUGH
        if row > length:
            used += 2
            left.append(2 * length - row - KERF)
            continue
        for i, room in enumerate(left):
            if row <= room:
                left[i] = room - row - KERF
                break
        else:
            used += 1
            left.append(length - row - KERF)
    return used


NONE_BIG_ENOUGH = 10**6
