"""Names that a job takes from the tables: a sheet, a panel, a thread, a washer."""

from transom.catalogue import load
from transom.job.faults import Fault, nearest
from transom.job.schema import NOMINAL
from transom.quantity import QuantityError, read

_SAYS = {
    "panels": "panel", "sheets": "sheet", NOMINAL: "sheet", "threads": "thread", "grades": "bolt grade",
    "washers": "washer", "plates": "plate alloy", "supplies": "supply", "labour": "operation",
}  # fmt: skip


def plain(text: str) -> str:
    """Spelling that does not matter: case, hyphens, runs of spaces, the American aluminum."""
    return " ".join(text.lower().replace("-", " ").replace("_", " ").split()).replace("aluminum", "aluminium")


def chosen(text: str, choices: tuple[str, ...]) -> str:
    """The choice that the text spells, or nothing."""
    return next((choice for choice in choices if plain(choice) == plain(text)), "")


def known(family: str) -> tuple[str, ...]:
    """Every name that the tables hold, each once."""
    if family == NOMINAL:
        nominal = tuple(dict.fromkeys(row.nominal for row in load("sheets")))
        return known("sheets") + nominal
    return tuple(dict.fromkeys(row.name for row in load(family)))


def in_table(family: str, text: str) -> str:
    """The name as its table has it.

    Raises:
        Fault: the table has none like it.
    """
    names = known(family)
    found = chosen(text, names) or (_of_length(text, names) if family == NOMINAL else "")
    if found:
        return found
    table = "sheets" if family == NOMINAL else family
    near = nearest(text, names)
    step = f'did you mean "{near}"? ' if near else ""
    raise Fault(f"no such {_SAYS[family]} in the tables", f"{step}`transom materials {table}` lists what there is")


def _of_length(text: str, names: tuple[str, ...]) -> str:
    """The nominal size that is as long as the text says: 3/4 in for 3/4\"."""
    wanted = _mm(text)
    return next((n for n in names if wanted is not None and _mm(n) == wanted), "")


def _mm(text: str) -> float | None:
    try:
        return read(text, "length")
    except QuantityError:
        return None
