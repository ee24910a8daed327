"""What mends a failing check of a setback bracket, tried: the smallest stocked change, and the share it then comes to."""

from collections.abc import Iterator
from dataclasses import replace

from transom.checks import setback, setback_base
from transom.job.setback_records import Fillet, Setback
from transom.judge.evaluate import trial_of
from transom.judge.records import Judgement
from transom.loads.cases import build_cases
from transom.quantity import show
from transom.report.amounts import percent
from transom.report.words import check_words
from transom.result import Check
from transom.setup.build import build, values_of
from transom.setup.facts import collect

LEGS = {"us": (4.7625, 6.35, 7.9375, 9.525, 12.7), "si": (5.0, 6.0, 8.0, 10.0, 12.0)}
PLATES = {"us": (6.35, 9.525, 12.7, 15.875, 19.05, 25.4), "si": (6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0)}
Change = tuple[str, Setback]


def tried_on_bracket(j: Judgement) -> Iterator[str]:
    """One line for each failing check of the bracket that a stocked change mends, with its new share of the limit."""
    b = j.job.setback
    if b is None or j.mount is None:
        return
    for c in j.failing:
        if c.part != "bracket":
            continue
        for change, other in _changes(j, b, c.what):
            u = _share(j, other, c)
            if u <= 1.0:
                yield f"{check_words(c, j.job)}: {change}: then {percent(u)} of limit"
                break


def _share(j: Judgement, b: Setback, c: Check) -> float:
    """What the check comes to in its worst case on another bracket, pencil method."""
    job = replace(j.setup.job, setback=b)
    setup = build(job, j.setup.tables, values_of(collect(job, j.setup.tables)))
    assert j.mount is not None
    trial = trial_of(setup, build_cases(setup.loads), [j.mount])
    found = (*setback.checks(trial), *setback_base.checks(trial))
    return max((float(x.worst[0]) for x in found if (x.what, x.rule) == (c.what, c.rule)), default=float("inf"))


def _changes(j: Judgement, b: Setback, what: str) -> Iterator[Change]:
    """The smallest first."""
    units = j.job.head.units
    if what in ("weld-base", "weld-engine-plate"):
        yield from _welds(j, b, "base_weld" if what == "weld-base" else "engine_weld", units)
    elif what == "side-plate-edge-buckling":
        reach = j.facts["bracket.setback"].value
        yield "a tie half way along", replace(b, side_plates=replace(b.side_plates, ties=(reach / 2,)))
    elif what.startswith(("side-plate", "metal-beside")):
        yield from _thicker(j, b, "side_plates", "bracket.sides.thickness", "side plates of", units)
    elif what.startswith("engine-plate") and not what.endswith("-edge"):
        yield from _thicker(j, b, "engine_plate", "bracket.engine_plate.thickness", "an engine plate of", units)
    elif what.startswith("base-plate") and not what.endswith("-edge"):
        yield from _thicker(j, b, "base", "bracket.base.thickness", "a base plate of", units)


def _thicker(j: Judgement, b: Setback, part: str, key: str, words: str, units: str) -> Iterator[Change]:
    for t in PLATES[units]:
        if t > j.facts[key].value:
            yield f"{words} {_size(t, units)}", replace(b, **{part: replace(getattr(b, part), thickness=t)})


def _welds(j: Judgement, b: Setback, end: str, units: str) -> Iterator[Change]:
    """Both faces, then larger legs, none over the thinner plate."""
    plate = "bracket.base.thickness" if end == "base_weld" else "bracket.engine_plate.thickness"
    most = min(j.facts[plate].value, j.facts["bracket.sides.thickness"].value)
    now = j.facts["bracket.weld.base.leg" if end == "base_weld" else "bracket.weld.engine.leg"].value
    one = getattr(b, end).sides != "both"
    for leg in (now, *(x for x in LEGS[units] if now < x <= most)):
        change = [
            *(["both faces of each side plate welded"] if one else []),
            *([f"legs of {_size(leg, units)}"] if leg > now else []),
        ]
        if change:
            mended = Fillet(leg, "both")
            yield (
                ", ".join(change),
                replace(b, base_weld=mended) if end == "base_weld" else replace(b, engine_weld=mended),
            )


def _size(mm: float, units: str) -> str:
    return show.length(mm, units, step="1/16", step_mm="1")
