"""Published and independent values: data files read by the tests and by `transom verify` alike.

`materials/published/<source>.toml` holds `[source]` (title, note) and one `[[case]]` for each value:
`id`, `area`, `formula` ("room.module:function" below transom), `inputs` (in the units of that function;
lists become arrays), optional `inputs_in` (input name to factor: that input stands as its source prints
it, 25.4 for inches), optional `item` (attribute, key or index of the result), `printed`, `unit`, optional
`per_unit` (one printed unit in ours, by which our result is divided: 4.4482216152605 for lbf), `digits`
(significant digits printed; the tolerance is half a unit of the last one) or `tolerance` (relative, with
a `why`), `citation` and `known_by`.
"""

import importlib
import math
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import field
from pathlib import Path
from typing import Any

import numpy as np

from transom.errors import TableError
from transom.formula import KNOWN_BY
from transom.frozen import dataclass


@dataclass(frozen=True)
class Published:
    """One value somebody else printed, and the function of ours that should compute it."""

    source: str
    id: str
    area: str
    formula: str
    inputs: Mapping[str, Any]
    printed: float
    unit: str
    citation: str
    known_by: str
    digits: int = 0
    tolerance: float = 0.0
    why: str = ""
    item: str | int | None = None
    inputs_in: Mapping[str, float] = field(default_factory=dict)
    per_unit: float = 1.0

    @property
    def allowed(self) -> float:
        """How far ours may lie from the printed value, in the unit of the value."""
        if self.tolerance:
            return abs(self.printed) * self.tolerance
        exponent = math.floor(math.log10(abs(self.printed))) if self.printed else 0
        return float(0.5 * 10.0 ** (exponent - self.digits + 1) * (1 + 1e-9))

    @property
    def ours(self) -> float:
        """The value our function computes, in the printed unit."""
        module, _, name = self.formula.partition(":")
        function = getattr(importlib.import_module(f"transom.{module}"), name)
        result = function(**{k: _argument(v, self.inputs_in.get(k)) for k, v in self.inputs.items()})
        return float(_item(result, self.item)) / self.per_unit

    @property
    def agrees(self) -> bool:
        """True where ours is within the allowed distance; NaN is not."""
        return bool(abs(self.ours - self.printed) <= self.allowed)


def _argument(value: Any, factor: float | None) -> Any:
    value = np.asarray(value, dtype=float) if isinstance(value, list) else value
    return value if factor is None else value * factor


def _item(result: Any, item: str | int | None) -> Any:
    if item is None:
        return result
    if isinstance(item, int):
        return np.ravel(result)[item]
    for step in item.split("."):
        if isinstance(result, Mapping):
            result = result[step]
        elif step.lstrip("-").isdigit():
            result = np.asarray(result)[int(step)]
        else:
            result = getattr(result, step)
    return result


def shipped() -> Path:
    """The folder of published cases that belongs to this copy."""
    from transom.catalogue.tables import folder

    return folder() / "published"


def published_cases(folder: Path) -> Iterator[Published]:
    """Every case in `folder`, in the order of file and row.

    Raises:
        TableError: a file or a row that cannot be read, naming both.
    """
    for file in sorted(folder.glob("*.toml")):
        data = tomllib.loads(file.read_text(encoding="utf-8"))
        for row in data.get("case", []):
            try:
                case = Published(source=data["source"]["title"], **row)
            except (TypeError, KeyError) as error:
                raise TableError(f"{file.name}, case {row.get('id', '?')}: {error}") from error
            if case.known_by not in KNOWN_BY or not (case.digits or (case.tolerance and case.why)):
                raise TableError(f"{file.name}, case {case.id}: known_by, or digits or tolerance with why")
            yield case
