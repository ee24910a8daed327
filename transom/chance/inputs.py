"""What scatters in a judged mount: every number that enters, how far, and where in its spread it stands."""

from collections.abc import Iterator

from transom.catalogue import Catalogue
from transom.chance.reliability import log_spread, middle_over_low, middle_over_mean, spread_of_range
from transom.frozen import dataclass
from transom.judge.assumptions import TIED
from transom.judge.records import Judgement
from transom.setup.records import Fact

EVIDENCE_OF_LOADS = {"load.thrust": "thrust.torque_peak", "load.road": "road.down", "load.strike": "strike.thrust"}
LOADS = {
    "load.thrust": "thrust",
    "load.inertia": "jolts and turns, times the weight",
    "load.road": "jolts on the road, times the weight",
    "load.strike": "how hard the gearcase is hit",
}
WOOD = ("wood.bending", "wood.sliding", "wood.crushing", "wood.stiffness", "wood.thickness")
METAL = {"bolts.strength": "strength of the engine bolts", "plates.strength": "strength of plates and washers"}
KINDS = {"kg": "weight", "mm": "length", "rad": "length", "m/s": "length", "MPa": "metal"}
STIFF = (".E",)


@dataclass(frozen=True)
class Scatter:
    """A number that scatters: it is multiplied by middle * exp(s z), z normal.

    `keys` are the facts that move together, or the one name of what is no fact. `reshapes` is False where it
    changes strengths alone, so that the careful method shares the forces out as before.
    """

    key: str
    says: str
    s: float
    middle: float
    evidence: str
    known_by: str
    source: str
    keys: tuple[str, ...]
    reshapes: bool = True


def scatters(j: Judgement) -> tuple[Scatter, ...]:
    """Everything that scatters, in the order of the facts, then loads, wood and metal."""
    return (*_facts(j), *_loads(j), *_strengths(j.setup.tables))


def spread_of(fact: Fact, tables: Catalogue) -> tuple[float, float, str, str, str] | None:
    """Log spread, middle over value, and what says so; None for what is counted, or for nothing at all."""
    kind = KINDS.get(fact.unit)
    if kind is None or fact.value == 0.0:
        return None
    if kind != "metal" and fact.low and fact.high:
        return (
            float(spread_of_range(fact.low, fact.high)),
            1.0,
            fact.evidence,
            fact.known_by,
            "range seen: " + fact.source,
        )
    row = tables.spread("metal.strength" if kind == "metal" else f"{kind}.{fact.evidence}")
    return (*_middle(row.cov, row.stands), row.evidence, row.known_by, row.source)


def _middle(cov: float, stands: str) -> tuple[float, float]:
    s = float(log_spread(cov))
    return s, float(middle_over_low(s)) if stands == "low value" else 1.0


def _facts(j: Judgement) -> Iterator[Scatter]:
    tied = {k for keys in TIED.values() for k in keys[1:]}
    for key, fact in j.facts.items():
        found = spread_of(fact, j.setup.tables)
        if found is None or key in tied or key.endswith(STIFF) or overruled(key, j):
            continue
        keys = tuple(k for k in TIED.get(key, (key,)) if k in j.facts)
        yield Scatter(key, fact.says, *found, keys, fact.unit != "MPa")


def overruled(key: str, j: Judgement) -> bool:
    """A measured thrust scatters as a load, and then no propeller makes it."""
    measured = "engine.thrust" in j.facts
    return measured and key.startswith(("engine.thrust", "engine.propeller.diameter", "engine.propeller.pitch"))


def _loads(j: Judgement) -> Iterator[Scatter]:
    tables = j.setup.tables
    service = "inertia.open" if j.job.boat.service == "open" else "inertia.calm"
    for key, says in LOADS.items():
        if key == "load.road" and not j.job.boat.trailer:
            continue
        measured = key == "load.thrust" and "engine.thrust" in j.facts
        row = tables.factor(EVIDENCE_OF_LOADS.get(key, service))
        spread = tables.spread("load.stated" if measured else f"load.{row.evidence}")
        yield Scatter(
            key, says, *_middle(spread.cov, spread.stands), spread.evidence, spread.known_by, spread.source, (key,)
        )


def _strengths(tables: Catalogue) -> Iterator[Scatter]:
    for key in (*WOOD, *METAL):
        row = tables.spread(key if key in WOOD else "metal.strength")
        s, middle = _middle(row.cov, row.stands)
        if key == "wood.stiffness":
            middle = float(middle_over_mean(s))
        says = METAL.get(key, row.says)
        shapes = key in ("wood.crushing", "wood.stiffness", "wood.thickness", "plates.strength")
        yield Scatter(key, says, s, middle, row.evidence, row.known_by, row.source, (key,), shapes)
