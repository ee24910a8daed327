"""How long the glue wants at the temperature of the shop."""

from transom.catalogue import Catalogue
from transom.catalogue.shopwork import Cure
from transom.catalogue.wood import Adhesive
from transom.errors import JobError
from transom.formula import formula
from transom.frozen import dataclass
from transom.quantity import show
from transom.units import ONE

GLUE = "structural epoxy"
ASSUMED_C = 18.0  # where nobody measured the shop
WARMEST_C = 30.0  # hotter, the pot sets faster than any rule of thumb says


@formula(
    symbol="t",
    source="times double for each step of 10 degrees colder: common rule for glues that cure in the air of the shop",
    evidence="common practice",
    known_by="memory",
    typical={"t_ref": 16.0, "colder": 0.6},
)
def time_at(t_ref: ONE, colder: ONE) -> ONE:
    """Time for a cure, in the unit of `t_ref`, so many steps colder than where that holds; below zero warmer."""
    return t_ref * 2.0**colder


@dataclass(frozen=True)
class Curing:
    """A glue at a temperature: hours of each stage there."""

    glue: Adhesive
    row: Cure
    temperature: float  # degC
    assumed: bool

    def hours(self, stage: str) -> float:
        """Hours of a stage of the table: open, clamp, work, recoat, hang, load."""
        colder = (self.row.ref_C - self.temperature) / self.row.doubling_C
        return float(time_at(getattr(self.row, f"{stage}_h"), colder))


def curing(tables: Catalogue, glue: str, temperature: float | None) -> Curing:
    """The glue at the shop's temperature, or at one assumed.

    Raises:
        JobError: no such glue, or none that a mount is built with; or it is too cold or too hot for it.
    """
    known = {a.name: a for a in tables.rows("adhesives")}
    fit = {row.name: row for row in tables.rows("cures") if known[row.name].structural}
    if glue not in fit:
        why = "holds no mount" if glue in known else "is no glue in the tables"
        raise JobError(f"glue {glue!r}: {why}. Take one of: {', '.join(fit)}")
    at = ASSUMED_C if temperature is None else temperature
    _cures(known[glue], fit[glue], at, [n for n in fit if known[n].cure_floor_C <= at])
    return Curing(known[glue], fit[glue], at, temperature is None)


def _cures(glue: Adhesive, row: Cure, at: float, others: list[str]) -> None:
    shown = f"{show.temperature(at, 'us')} ({show.temperature(at, 'si')})"
    if at < glue.cure_floor_C:
        floor = f"{show.temperature(glue.cure_floor_C, 'us')} ({show.temperature(glue.cure_floor_C, 'si')})"
        other = f"; {', '.join(others)} would cure: --glue" if others else ""
        raise JobError(f"shop at {shown}: {glue.name} does not cure below {floor}. Heat shop and wood, or wait{other}")
    if at > WARMEST_C:
        raise JobError(f"shop at {shown}: {row.name} sets in the pot before it is spread. Work in the cool of the day")
