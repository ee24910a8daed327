"""Each situation for the document: drawings, every force in numbers, and what the boat has to hold."""

import numpy as np
from markupsafe import Markup

from transom.checks.plate_reactions import held as what_holds
from transom.checks.reactions import Reactions
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import percent
from transom.report.forces import holds
from transom.report.holds import situation_words
from transom.report.html.body import Body, Push, bodies
from transom.report.html.draw import above, side
from transom.report.words import case_words, check_words
from transom.units import Array

NOTHING = 5e-4  # share of a force below which one of its parts is nought


@dataclass(frozen=True)
class Scene:
    """A situation in the case that comes nearest to a limit.

    `forces` rows: number, name, size without factor, factor, size with it; aft, starboard, up; where it acts, aft,
    starboard, up. `lines` rows: line, where aft, starboard, up; force aft, starboard, up; the three moments.
    """

    title: str
    case: str
    link: str
    drawings: tuple[Markup, ...]
    forces: tuple[tuple[str, ...], ...]
    turning: str
    side_pull: str
    bottom_push: str
    lines: tuple[tuple[str, ...], ...]
    own_weight: tuple[str, ...]


def scenes(j: Judgement, trial: Trial) -> tuple[Scene, ...]:
    """One for each situation that was judged."""
    found = what_holds(j.careful or trial)
    most = {h.of: h for h in holds(trial)}
    out = []
    for b in bodies(j, trial):
        units, held = j.job.head.units, most[b.of]
        width = float(np.ravel(trial.setup.place.width)[0])
        out.append(
            Scene(
                title=situation_words(b.of),
                case=case_words(b.case, j.job.cases),
                link=f"{check_words(b.check, j.job)}, {percent(b.check.utilisation)} of limit",
                drawings=tuple(Markup(d) for d in ((side(b), above(b, width)) if b.sideways else (side(b),))),
                forces=tuple(_force_row(n, p, units) for n, p in enumerate((*b.acts, *b.holds), 1)),
                turning=_turning(b, units),
                side_pull=show.force(held.side, units, towards="up"),
                bottom_push=show.force(held.bottom, units, towards="up"),
                lines=_lines(found, trial.cases.names.index(b.case), units),
                own_weight=(*_place(found.weight_at, units), *_parts(found.own_weight, units)),
            )
        )
    return tuple(out)


def _force_row(n: int, p: Push, units: str) -> tuple[str, ...]:
    plain, factor = ("", "") if p.factor is None else (show.force(p.size / p.factor, units), f"{p.factor:g}")
    return (str(n), p.name, plain, factor, show.force(p.size, units), *_parts(p.force, units), *_place(p.at, units))


def _parts(force: Array | tuple[float, ...], units: str) -> tuple[str, ...]:
    """Signed parts of a force; what is nought beside the whole is 0."""
    values = [float(f) for f in force]
    least = NOTHING * max(map(abs, values), default=0.0)
    return tuple(show.force(f, units) if abs(f) > least else "0" for f in values)


def _place(at: Array | tuple[float, ...], units: str) -> tuple[str, ...]:
    return tuple(arm(float(x), units) for x in at)


def arm(mm: float, units: str) -> str:
    """A distance for a pocket calculator: tenths of an inch, or whole millimeters."""
    text = f"{mm / 25.4:.1f}" if units == "us" else f"{mm:.0f}"
    return f"{text.removeprefix('-') if float(text) == 0 else text} {'in' if units == 'us' else 'mm'}"


def _turning(b: Body, units: str) -> str:
    """What turns the mount sideways, where anything does."""
    if not b.sideways:
        return ""
    return (
        f"Turning moment about the upright axis {show.moment(abs(b.turning), units)}: held by"
        " the bolts of one side pulling harder than those of the other."
    )


def _lines(found: Reactions, i: int, units: str) -> tuple[tuple[str, ...], ...]:
    """What each line of bolts and bearing puts on the boat in a case, about the line's middle, board axes."""
    return tuple(
        (
            name,
            *_place(at, units),
            *_parts(wrench[i][:3], units),
            *(show.moment(float(m), units) for m in wrench[i][3:]),
        )
        for name, at, wrench in found.of_lines()
    )


def _moments(values: Array, units: str) -> tuple[str, ...]:
    """Moments; what comes out as nought has no unit."""
    shown = (show.moment(float(m), units) for m in values)
    return tuple("0" if text.lstrip("-").startswith("0 ") else text for text in shown)
