"""One line of arithmetic that a pocket calculator repeats, from the pencil method's own numbers."""

import numpy as np

from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.job.records import Job
from transom.loads.cases import components
from transom.quantity import show
from transom.report.words import case_words
from transom.statics.contact import foot_pivot, lever, lower_bolt_tension, top_pivot, upper_bolt_tension
from transom.statics.wrench import mid_thickness_moment_y


@dataclass(frozen=True)
class Term:
    """One factored action: what it is, its size (N) and its arm about where the pads push (mm)."""

    name: str
    force: float
    arm: float


@dataclass(frozen=True)
class Pencil:
    """Terms whose sum over two bolts and a lever is the pull of each bolt of a row, without prying."""

    case: str
    row: str  # upper | lower
    terms: tuple[Term, ...]
    moment: float  # N*mm about the pads' push, the sense that pulls the row
    lever: float  # mm
    tension: float  # N, each bolt
    tool: float  # N, with prying and the couple that turns the board sideways


def pencil(trial: Trial, wanted: str) -> Pencil | None:
    """The line for the wanted case, or for the hardest pull where that case pulls no row alone.

    None where no bolt pulls in any case.
    """
    s = trial.strips
    one_row = np.ravel(~np.asarray(s.lifted) & ~np.asarray(s.pressed))
    if not one_row.any():
        return None
    names = trial.cases.names
    i = names.index(wanted) if wanted in names else -1
    if i < 0 or not one_row[i]:
        i = int(np.argmax(np.where(one_row, np.ravel(trial.tension), -1.0)))
    return _line(trial, i)


def _line(trial: Trial, i: int) -> Pencil:
    p, name = trial.setup.holding.pattern, trial.cases.names[i]
    upper = bool(np.ravel(trial.strips.ahead)[i])
    h, z_u, z_l = (float(np.ravel(v)[0]) for v in (p.h, p.z_u, p.z_l))
    share = float(np.ravel(p.top_share)[0])
    pivot = float(np.ravel(foot_pivot(h) if upper else top_pivot(h, share))[0])
    d = float(np.ravel(lever(pivot, z_u) if upper else lever(z_l, pivot))[0])
    pull = upper_bolt_tension if upper else lower_bolt_tension
    terms, tension = [], 0.0
    for c in components(trial.setup.loads):
        if c.case != name:
            continue
        w = np.reshape(c.wrench, (-1, 6))[0] * float(np.ravel(c.gamma)[0])
        moment = mid_thickness_moment_y(w[4], w[2], float(trial.t[0, 0]))
        each = float(np.ravel(pull(moment, -w[0], pivot, d))[0])
        size = float(np.linalg.norm(w[:3]))
        tension += each
        if size > 0:
            terms.append(Term(c.action, size, 2 * d * each / size))
    tool = trial.upper_tension if upper else trial.lower_tension
    row = "upper" if upper else "lower"
    return Pencil(name, row, tuple(terms), 2 * d * tension, d, tension, float(np.ravel(tool)[i]))


def sentence(p: Pencil, job: Job) -> str:
    """The line in words and the job's units; every number is factored, as the checks are."""
    units = job.head.units
    sums = ""
    for term in p.terms:
        arm = show.length(abs(term.arm), "si") if units == "si" else _inches(abs(term.arm))
        sign = ("- " if term.arm < 0 else "+ ") if sums else ("-" if term.arm < 0 else "")
        sums += f"{' ' if sums else ''}{sign}{term.name.replace('-', ' ')} {show.force(term.force, units)} x {arm}"
    where = "low on the bracket" if p.row == "upper" else "high on the bracket"
    lever_text = show.length(p.lever, "si") if units == "si" else _inches(p.lever)
    return (
        f"{case_words(p.case, job.cases)}, safety factors in, about where the pads push {where}: {sums}"
        f" = {show.moment(p.moment, units)}; / 2 {_pulled(p, job)} / {lever_text}"
        f" = {show.force(p.tension, units)} each; {show.force(p.tool, units)} with prying and sideways twist."
    )


def _pulled(p: Pencil, job: Job) -> str:
    """What the row is of: clamp screws are one row, whichever way they are pulled."""
    return "clamp screws" if job.engine.held_by == "clamps" and job.setback is None else f"{p.row} bolts"


def _inches(mm: float) -> str:
    return f"{mm / 25.4:.1f} in"
