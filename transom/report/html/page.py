"""A judged mount as one HTML document that needs nothing beside it."""

from collections.abc import Sequence
from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from transom.chance.sampling import Uncertainty
from transom.derivation.ledger import Ledger
from transom.derivation.lines import Derivation
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.published import shipped
from transom.report.advice import Cure
from transom.report.amounts import percent
from transom.report.chance import TITLE, causes, chance_notes, chance_words, first_rows, link_words
from transom.report.forces import trial_of_mount
from transom.report.html import view
from transom.report.html.derived import counts, provisional, steps
from transom.report.html.safe import mixed, short, user
from transom.report.html.scenes import scenes
from transom.report.html.standards import used_for
from transom.report.maps.pages import sheets
from transom.report.maps.svg import OVER, figure, mark_figures, swatch
from transom.report.page import measure_rows, still
from transom.report.ruler import ruler_words
from transom.report.verified import Outcome, outcomes
from transom.report.words import EVIDENCE, spelled

if TYPE_CHECKING:
    from jinja2 import Environment

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Figure:
    """A map with its legend and the words below it."""

    title: str
    drawing: Markup
    legend: tuple[tuple[Markup, str], ...]
    below: tuple[str, ...]


@dataclass(frozen=True)
class Grounds:
    """How the numbers come about and what they rest on; seconds to trace, and none of it changes an answer."""

    derivations: tuple[Derivation, ...] = ()
    ledger: Ledger = field(default_factory=lambda: Ledger(()))
    verified: tuple[Outcome, ...] = ()


def grounds(j: Judgement) -> Grounds:
    """Every deciding check derived in its worst case, weakest first, the ledger of them all, the published cases computed."""
    from transom.derivation.derive import derive
    from transom.derivation.ledger import ledger
    from transom.derivation.resolve import Resolver
    from transom.derivation.trace import trace

    of = Resolver(trace(j))
    return Grounds(derive(j, j.worst, of), ledger(j, of), tuple(outcomes(shipped())))


def to_html(
    j: Judgement, cures: Sequence[Cure] = (), below: Grounds | None = None, chance: Uncertainty | None = None
) -> str:
    """The review of a judged mount as an HTML document; without `below` its derivations are left out.

    Chances stand in it only where they are handed over.

    Raises:
        ValueError: there is no mount to review.
    """
    if j.mount is None:
        raise ValueError("no mount to review")
    return (
        environment()
        .get_template("page.html")
        .render(**_context(j, cures), **_below(j, below or Grounds()), chance=_chance(j, chance))
    )


def environment() -> "Environment":
    """Templates of this folder: everything printed is escaped, and what cannot be seen is shown."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    env = Environment(
        loader=FileSystemLoader(HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=mixed,
    )
    env.filters |= {"user": user, "short": short}
    return env


def _context(j: Judgement, cures: Sequence[Cure]) -> dict[str, Any]:
    trial, units = trial_of_mount(j), j.job.head.units
    failing, cured = view.failures(j, cures)
    mount, holes = view.mount(j)
    situations, shares = view.matrix(j)
    return {
        "style": Markup((HERE / "style.css").read_text(encoding="utf-8")),
        "over": Markup(OVER),
        "front": view.front(j),
        "head": j.job.head,
        "accepted": j.job.accepts,
        "stop_names": {s.name for s in j.stops},
        "mount": mount,
        "holes": holes,
        "failing": failing,
        "cures": cured,
        "bars": view.bars(j),
        "look": j.job.second_look,
        "look_words": percent(j.job.second_look),
        "parts": view.parts(j),
        "scenes": () if trial is None else scenes(j, trial),
        "figures": figures(j),
        "checks": view.checks(j),
        "opinions": view.opinions(j),
        "matrix": (situations, shares),
        "matrix_rows": tuple((name, *row) for name, row in shares),
        "still": still(j),
        "measure": measure_rows(j),
        "first": first_rows(j),
        "assumptions": tuple(row[:4] for row in view.assumptions(j)),
        "facts": tuple(view.facts(j)),
        "ruler": ruler_words(j),
        "notes": tuple(spelled(n, units) for n in j.notes),
        "cautions": tuple(spelled(c, units) for c in j.cautions),
        "standards": used_for(j),
    }


def _below(j: Judgement, found: Grounds) -> dict[str, Any]:
    from transom.report.html.verified import context

    shown, left = steps(j, found.derivations)
    return {
        **context(found.verified),
        "derivations": shown,
        "not_derived": left,
        "evidence": tuple(EVIDENCE.values()),
        "counts": tuple(counts(found.ledger)) if found.ledger.entries else (),
        "provisional": provisional(j, found.ledger),
    }


def _chance(j: Judgement, u: Uncertainty | None) -> dict[str, Any] | None:
    if u is None:
        return None
    units = j.job.head.units
    rows = tuple(
        (link_words(c, j.job), chance_words(c.over, c.n, c.low, c.high), causes(c, units)) for c in (u.any, *u.chances)
    )
    return {"title": TITLE.capitalize(), "notes": tuple(spelled(n, units) for n in chance_notes(j, u)), "rows": rows}


def figures(j: Judgement) -> tuple[Figure, ...]:
    """The maps of the board."""
    return tuple(
        Figure(
            sheet.title,
            Markup(figure(sheet, values)),
            tuple(
                (Markup(drawing), words)
                for drawing, words in (
                    *((swatch(band), band.words) for band in reversed(sheet.bands)),
                    *mark_figures(sheet),
                )
            ),
            sheet.below,
        )
        for sheet, values in sheets(j).values()
    )
