"""One line of the README's table of speeds, as the scripts beside this one hand it to `all.py`."""

import json
import sys
from collections.abc import Iterable
from dataclasses import asdict, dataclass

WANTED_ROWS = "--rows" in sys.argv  # figures alone, one JSON object a line


@dataclass(frozen=True)
class Row:
    """What was measured, ours, what stands beside it, the ratio that counts, what is wanted of it, which script."""

    what: str
    ours: str
    beside: str
    ratio: str
    wanted: str
    script: str


def hand_over(rows: Iterable[Row]) -> None:
    """Print rows for `all.py`, or to be read where a script is run by itself."""
    for row in rows:
        if WANTED_ROWS:
            print(json.dumps(asdict(row)), flush=True)
        else:
            print(f"{row.what}: {row.ours}; {row.beside}: {row.ratio} (wanted: {row.wanted or 'nothing'})", flush=True)


def brief(seconds: float) -> str:
    """A time to three figures in a unit that suits it."""
    for size, unit in ((1.0, "s"), (1e-3, "ms"), (1e-6, "µs")):
        if seconds >= size or unit == "µs":
            return f"{seconds / size:.3g} {unit}"
    raise AssertionError


def times(ratio: float) -> str:
    """A ratio to three figures, in whole numbers from a hundred up."""
    return f"{ratio:,.0f}x" if ratio >= 100 else f"{ratio:.3g}x"
