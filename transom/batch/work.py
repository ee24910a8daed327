"""One row judged: a pure function of what the row holds, on whichever machine."""

import math

from transom.batch.columns import LAST, Cell
from transom.batch.rows import Row
from transom.errors import TransomError
from transom.frozen import dataclass

CAREFUL, PENCIL = "careful method", "pencil method, SCREENING ONLY"
BOTH = " | "
ALL = "Covers the mount only; not a survey and not approval: read the cautions beside this table."
SCREEN = "Pencil method, for screening: size it by the careful method before anything is quoted or cut."
INTERNAL, UNJUDGED = 70, 2
Cells = dict[str, Cell]


@dataclass(frozen=True)
class How:
    """What every row is judged by."""

    rank: str = "material"
    careful: bool = True

    @property
    def method(self) -> str:
        """As each row says it."""
        return CAREFUL if self.careful else PENCIL


def judged(row: Row, how: How) -> Cells:
    """The row's cells. Never raises: what cannot be judged is a row too, with its faults."""
    from transom.catalogue import SHIPPED

    try:
        job = row.read()
        from transom.batch.answer import answer
        from transom.sizing.sizing import size

        return _cells(row, how, answer(size(job, SHIPPED, how.rank, how.careful, beside=False), how))
    except TransomError as error:
        faults = getattr(error, "faults", None) or tuple(str(error).splitlines())
        return faulty(row, how, UNJUDGED, faults)
    except Exception as error:
        return faulty(row, how, INTERNAL, (f"internal error: {type(error).__name__}: {' '.join(str(error).split())}",))


def faulty(row: Row, how: How, code: int, faults: tuple[str, ...]) -> Cells:
    """A row that cannot be judged."""
    return _cells(row, how, {"exit": code, "verdict": "CANNOT BE JUDGED", "faults": BOTH.join(faults), "cautions": ALL})


def _cells(row: Row, how: How, answer: Cells) -> Cells:
    first: Cells = {"row": row.number, "id": row.id, "job": row.job}
    last: Cells = {**dict.fromkeys(c.name for c in LAST), "method": how.method, **answer}
    return {**first, **dict(row.said), **last}


def number(value: float) -> float | None:
    """Nine significant digits, so that the last ones never differ; None for what is not finite."""
    return float(f"{value:.9g}") + 0.0 if math.isfinite(value) else None
