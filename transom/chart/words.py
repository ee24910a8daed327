"""What a chart says in words: boards, weakest links, what it rests on, what it cannot say. In the job's units."""

import math
from collections.abc import Iterator, Sequence
from itertools import groupby

import numpy as np

from transom.catalogue import Catalogue
from transom.chart.records import Chart, Line, Point
from transom.chart.usual import usual
from transom.job.records import Layer
from transom.quantity import show
from transom.report.amounts import amount, percent, power, tape
from transom.report.page import boat_words, size_words
from transom.report.words import check_words, name_words, spelled
from transom.setup.facts import Facts, collect
from transom.setup.records import Fact

SEEN = ", more than any bracket seen takes"
NEVER_BETWEEN = (
    "Between two powers nothing was worked out, and above the last there is no line: read up to the next board picked,"
    " never down, and run `transom size` with the engine itself before anything is bought or cut."
)


def board(layers: Sequence[Layer], tables: Catalogue) -> str:
    """ "3 x 3/4 in", "3/4 in + 3 x 5/8 in": sheets, aft face first."""
    runs = ((tables.sheet(name).nominal, len(list(run))) for name, run in groupby(layers, key=lambda x: x.sheet))
    return " + ".join(nominal if count == 1 else f"{count} x {nominal}" for nominal, count in runs)


def panel(line: Line, tables: Catalogue) -> str:
    """What the sheets are called."""
    return tables.panel(line.panel).title.split(" (")[0]


def set_by(p: Point, c: Chart) -> str:
    """The check that wants the thickest board."""
    return "no thickness of wood cures it" if p.needs is None else name_words(p.needs.check, c.own.job)


def linked(p: Point, c: Chart) -> str:
    """The weakest link of the board picked."""
    return check_words(p.weakest, c.own.job)


def needs(p: Point, units: str) -> str:
    """The thickness asked for (already rounded up), as by a caliper: in fractions it could read more than the board has."""
    return "-" if p.needs is None else show.measured(p.needs.thickness, units)


def own_words(c: Chart) -> tuple[str, ...]:
    """The job's own board in two or three lines."""
    j = c.own
    if j.mount is None:
        return ("this job: no board at all",)
    verdict = "passes" if j.passes else "DOES NOT PASS"
    hp = power(j.facts["engine.power"].value, j.job.head.units)
    return (f"this job, {hp}", f"{board(j.mount.layers, j.setup.tables)}, {whose(c)}: {verdict}")


def whose(c: Chart) -> str:
    """Where the job's own board comes from."""
    return "its mount" if c.mounted else "picked" if c.own.sizing else "the nearest miss"


def _ends(c: Chart) -> Iterator[str]:
    """Where each line stops and what fails there first."""
    units = c.own.job.head.units
    for line in c.lines:
        p, name = line.ends, panel(line, c.own.setup.tables)
        if p is not None:
            worst = "; ".join(f"{check_words(f, c.own.job)}, {percent(f.utilisation)} of limit" for f in p.failing[:2])
            which = "the board picked before it" if line.sized else "the nearest miss"
            says = f" Crossed mark: what the wood of {which} would have to be, laid up like it." if p.needs else ""
            yield f"{name}: nothing in stock works at {power(p.power, units)}; larger engines were not sized. First to fail: {worst}.{says}"
        elif not line.points:
            yield f"{name}: nothing in stock comes near, at no power of the chart."
        if line.as_sold:
            yield f"{name}: not on the job's shelf, so sheets as sold were tried."
        thick = [p for p in line.sized if p.beyond_brackets]
        if thick:
            yield (
                f"{name}: from {power(thick[0].power, units)} the board comes to"
                f" {show.length(thick[0].total, units, towards='up')} in all{SEEN}: measure yours first."
            )
    yield from (f"Not on the chart: {line}." for line in c.left_out)


def assumed(c: Chart) -> tuple[str, ...]:
    """What every point of the chart rests on; an asterisk marks what is known from memory, and is provisional."""
    return tuple(spelled(line, c.own.job.head.units) for line in _assumed(c))


def _assumed(c: Chart) -> Iterator[str]:
    j, units = c.own, c.own.job.head.units
    yield f"Boat as in the job: {boat_words(j)}. Board {size_words(j)}, leaning {_said(j.facts['board.lean'], units)}, {_held(c)}."
    yield (
        f"Same at every power: speed under way {_said(j.facts['boat.speed'], units)}, bracket's holes, thickness the bracket takes"
        f" ({_takes(c)}), everything else the job states of boat, frame and shelf."
    )
    yield from _engines(c)
    yield _wet(c)
    yield from (_strength(line, c) for line in c.lines)
    yield "* from memory: provisional until somebody has read the source (`transom materials --provisional`)."


def _star(known_by: str) -> str:
    return "*" if known_by == "memory" else ""


def _said(f: Fact, units: str) -> str:
    """A fact with its number, whether assumed, and the mark of memory."""
    shown = tape(f.value, units) if f.unit == "mm" else amount(f.value, f.unit, units)
    return f"{shown}{_star(f.known_by)}{'' if f.evidence == 'stated' else ' (assumed)'}"


def _held(c: Chart) -> str:
    """What holds the board, and how far apart."""
    place, units = c.own.setup.place, c.own.job.head.units
    span = tape(float(np.ravel(place.span)[0]), units)
    what = {"pod": "in a pod", "uprights": "on two uprights", "cap rail": "on a hull skin with cap rail"}[place.kind]
    return f"{what}, lines that hold it {span} apart"


def _takes(c: Chart) -> str:
    units, takes = c.own.job.head.units, c.own.job.engine.takes
    if takes is None:
        return "not measured, not checked"
    return f"{show.length(takes[0], units, unit=False)} to {show.length(takes[1], units)}"


def _engines(c: Chart) -> Iterator[str]:
    """The engines of the lines: as usual at the first and at the last power."""
    yield (
        "Engines as usual at each power, whatever the job says of its own (weight, center of gravity, propeller, torque);"
        " only the mark of this job has its own."
    )
    shown = sorted(p.power for line in c.lines for p in line.points)
    yield from (_engine(c, watts) for watts in dict.fromkeys((*shown[:1], *shown[-1:])))


def _engine(c: Chart, watts: float) -> str:
    units, tables = c.own.job.head.units, c.own.setup.tables
    f: Facts = collect(usual(c.own.job, tables, watts, c.lines[0].panel), tables)
    keys = (
        ("engine.shaft", "shaft"),
        ("engine.weight", "ready to run"),
        ("engine.gravity.aft", "center of gravity aft"),
        ("engine.propeller.diameter", "propeller"),
    )
    return f"At {power(watts, units)}: " + ", ".join(f"{says} {_said(f[k], units)}" for k, says in keys) + "."


def _wet(c: Chart) -> str:
    tables = c.own.setup.tables
    short, instant, gamma_m, gamma_f = (
        tables.factor(name) for name in ("k_mod.short", "k_mod.instantaneous", "gamma_M.plywood", "gamma_F.action")
    )
    return (
        f"Wet wood: time-and-damp factor {short.value:g}{_star(short.known_by)} under thrust,"
        f" {instant.value:g}{_star(instant.known_by)} in waves, on the road and at a strike; wood safety factor"
        f" {gamma_m.value:g}{_star(gamma_m.known_by)}, load safety factor {gamma_f.value:g}{_star(gamma_f.known_by)}."
    )


def _strength(line: Line, c: Chart) -> str:
    tables, units = c.own.setup.tables, c.own.job.head.units
    row = tables.panel(line.panel)
    along, across, sliding = (show.stress(v, units) for v in (row.f_m_par_k_MPa, row.f_m_perp_k_MPa, row.f_r_k_MPa))
    how = "assumed, not a promise by whoever pressed it" if row.evidence == "estimate" else row.evidence
    return (
        f"{panel(line, tables)}, low values{_star(row.known_by)}: bending {along} along the face grain and {across} across,"
        f" plies sliding {sliding} ({how})."
    )


def key(c: Chart) -> dict[str, str]:
    """A letter for each check that sets a thickness or is a weakest link, in the order they come up."""
    found = dict.fromkeys(words for line in c.lines for p in line.sized for words in (set_by(p, c), linked(p, c)))
    return {words: chr(ord("A") + i) for i, words in enumerate(found)}


def reading(c: Chart) -> tuple[str, ...]:
    """How to read the drawing."""
    letters = "; ".join(f"{letter} {words}" for words, letter in key(c).items())
    read = (
        "Line and full marks: thickness of wood that the hungriest check wants (NEEDS of `transom size`), by the careful"
        " method, the engine's plates and washers as picked with it. Open marks: the board picked from stock, also at the"
        " right. Gray: what the trade builds (shop practice), beside the answer, not forced on it."
    )
    own = f"Heavy ring: {', '.join(own_words(c))}." if c.own.mount is not None else ""
    lines = (read, own, f"Letters: {letters}; none: nothing in stock works." if letters else "")
    return tuple(spelled(line, c.own.job.head.units) for line in lines if line)


def stopped(c: Chart) -> tuple[str, ...]:
    """Where lines stop, and what is not on the chart."""
    return tuple(spelled(line, c.own.job.head.units) for line in _ends(c))


def cautions(c: Chart) -> tuple[str, ...]:
    """What stands under every chart; none of it can be left out."""
    plate = c.own.job.boat.plate_power
    units = c.own.job.head.units
    limit = (
        f"The builder's plate ends it at {power(plate, units)}, however strong the board."
        if plate is not None
        else "No builder's plate was read: ask the boat's builder how much power she takes before any of this is used."
    )
    return tuple(spelled(s, units) for s in (limit, NEVER_BETWEEN, *c.own.cautions))


def finite(value: float) -> float | None:
    """The value, or None where thickness cures nothing."""
    return value if math.isfinite(value) else None
