"""Published cases computed by our functions on this copy: what was printed, what we get, how far off, how known."""

import math
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from transom.frozen import dataclass

if TYPE_CHECKING:
    from transom.published import Published

KNOWN = {
    "read": "read in the source",
    "transcribed": "from a copy that cites the source",
    "memory": "from memory: provisional until somebody reads it",
    "derived": "worked by hand from the theory",
    "computed": "computed by another program or method",
}


@dataclass(frozen=True)
class Outcome:
    """One published case with what our function gave; `error` says why where it gave nothing."""

    case: "Published"
    ours: float
    error: str = ""

    @property
    def deviation(self) -> float:
        """Ours less the printed value, in the printed unit."""
        return self.ours - self.case.printed

    @property
    def agrees(self) -> bool:
        """True within the printed digits; a number that is not finite never is."""
        return (
            math.isfinite(self.ours) and math.isfinite(self.case.printed) and abs(self.deviation) <= self.case.allowed
        )


def outcome(case: "Published") -> Outcome:
    """Compute one case; whatever its function raises is a deviation, not an end."""
    try:
        return Outcome(case, case.ours)
    except Exception as error:
        return Outcome(case, math.nan, f"{type(error).__name__}: {error}")


def outcomes(folder: Path) -> Iterator[Outcome]:
    """Every case in the folder, computed one by one.

    Raises:
        TableError: a file that cannot be read, or no case at all.
    """
    from transom.errors import TableError
    from transom.published import published_cases

    found = 0
    for found, case in enumerate(published_cases(folder), 1):  # noqa: B007 - counted for the end
        yield outcome(case)
    if not found:
        raise TableError(f"no published cases in {folder}. Install transom again.")


def off(o: Outcome) -> str:
    """The deviation in percent of the printed value, in the unit itself where zero was printed."""
    if not math.isfinite(o.deviation):
        return "none"
    if o.case.printed == 0:
        return f"{o.deviation:+.1e}"
    return f"{round(100 * o.deviation / abs(o.case.printed), 2) + 0.0:+.2f} %"


def verdict(every: Sequence[Outcome]) -> str:
    """How many agree, and how many of all rest on memory."""
    bad = [o.case.id for o in every if not o.agrees]
    memory = sum(o.case.known_by == "memory" for o in every)
    loose = sum(o.case.tolerance > 0 for o in every)
    said = (
        f"{len(every) - len(bad)} of {len(every)} agree, to the digits printed or, {loose} of them, to a tolerance"
        f" with its reason in the file. {memory} printed values are provisional."
    )
    return f"{said} DEVIATES: {', '.join(bad)}." if bad else said
