"""How often load outgrows strength, and what to measure first: words for screen and page, values for JSON."""

import math
from collections.abc import Iterator
from typing import Any

from transom.chance.measure_first import Effect, measure_first
from transom.chance.sampling import Chance, Uncertainty
from transom.job.records import Job
from transom.judge.records import Judgement
from transom.report.amounts import of_key, percent
from transom.report.page import COUNTED
from transom.report.text import block, columns, rule
from transom.report.words import EVIDENCE, part_words, spelled
from transom.result import rounded

SHOWN = 6  # rows on the screen; JSON and the page have them all
CAUSES = 3
SMALL_SHARE = 0.05
TITLE = "CHANCE THAT LOAD OUTGROWS STRENGTH, for comparison only"
FOR = "for comparison only"


def chance_words(over: int, n: int, low: float, high: float) -> str:
    """ "about 3 in 1,000 (2 to 5)"; what was never seen is fewer than its upper end."""
    if over == 0:
        most, of = _ceiling(high)
        return f"none seen, fewer than {most} in {of:,}"
    if over == n:
        return f"every sample of {n:,}"
    of = _of(over / n)
    least, middle, most = math.floor(low * of), max(round(over / n * of), 1), min(math.ceil(high * of), of)
    return f"about {middle} in {of:,} ({least or 'under 1'} to {most})"


def _of(p: float) -> int:
    """The power of ten, 100 or more, in which a chance is a few."""
    return int(10 ** max(2, math.ceil(-math.log10(p) - 1e-9)))


def _ceiling(p: float) -> tuple[int, int]:
    of = _of(p)
    return math.ceil(p * of), of


def causes(c: Chance, units: str) -> str:
    """What causes the scatter of a check, largest first: "thrust 45 %, ..."; the rest is small, or acts together."""
    some = [(s, x) for s, x in c.shares[:CAUSES] if x >= SMALL_SHARE]
    return ", ".join(f"{spelled(s.says, units)} {percent(x)}" for s, x in some) or "nothing by itself"


def link_words(c: Chance, job: Job) -> str:
    """The check as people say it."""
    return "any link at all" if c.part == "any" else part_words(c.part, c.what, job)


def chance_block(j: Judgement, u: Uncertainty) -> Iterator[str]:
    """The block of the review's screen."""
    yield rule("=")
    yield from block("", TITLE, at=0)
    for line in chance_notes(j, u):
        yield from block("", spelled(line, j.job.head.units), at=1)
    seen = [c for c in u.chances if c.over]
    for c in (u.any, *seen[:SHOWN]):
        said = chance_words(c.over, c.n, c.low, c.high)
        yield from block("", f"- {link_words(c, j.job)}: chance of going over the limit {said}, {FOR}", at=2)
        if c.over:
            yield from block("", f"caused by {causes(c, j.job.head.units)}", at=6)
    yield from _others(u, len(seen))


def _others(u: Uncertainty, seen: int) -> Iterator[str]:
    if seen > SHOWN:
        yield from block("", f"- {seen - SHOWN} more went over less often (--json has them)", at=2)
    quiet = [c for c in u.chances if not c.over]
    if quiet:
        most = chance_words(0, u.n, 0.0, quiet[0].high).removeprefix("none seen, ")
        yield from block("", f"- {len(quiet)} other links: never over in {u.n:,} samples, {most} each", at=2)


def chance_notes(j: Judgement, u: Uncertainty) -> tuple[str, ...]:
    """What was sampled and how, and why no verdict uses it."""
    how = (
        f"Careful method, followed to first order from {u.solves} solves."
        if u.solves
        else "Pencil method, which finds more than the careful one in most boards."
    )
    fails = () if j.passes else ("THIS MOUNT DOES NOT PASS, whatever chance stands here.",)
    return (
        *fails,
        f"{u.n:,} samples of {len(u.scatters)} numbers that scatter, seed {u.seed}, in the {u.cases} of"
        f" {u.of_cases} load cases that come near a limit. {how}",
        "Safety factors are taken off: the limit here is the strength itself, low values raised to"
        " their middle, bolt holes always out of the board. Every"
        " situation is taken to happen, a strike too, at about the load printed for it. In brackets: 19 of 20 such runs.",
        f"{_resting(u)} The chance is no better than they are: set two mounts side by side with it, build by the verdict above.",
    )


def _resting(u: Uncertainty) -> str:
    """How many spreads are of which evidence."""
    kinds = [s.evidence for s in u.scatters]
    said = ", ".join(f"{kinds.count(k)} {word}" for k, word in EVIDENCE.items() if k in kinds)
    return f"How far they scatter: {said} (transom materials spreads lists them)."


def first_rows(j: Judgement, most: int | None = None) -> tuple[tuple[str, str, str, str], ...]:
    """What to measure first: what it is, what was used, its range, the weakest link over it."""
    units = j.job.head.units
    return tuple(
        (spelled(e.fact.says, units), _value(e, e.fact.value, units), f"{_value(e, e.low, units)} to {_value(e, e.high, units)}",
         _over(e))
        for e in measure_first(j)[:most]
    )  # fmt: skip


def _value(e: Effect, value: float, units: str) -> str:
    return f"{value:g}" if e.key in COUNTED or not e.fact.unit else of_key(e.key, value, e.fact.unit, units)


def _over(e: Effect) -> str:
    """The weakest link at the low and at the high end."""
    return f"{percent(e.at_low)} to {percent(e.at_high)}"


FIRST = ("WHAT TO MEASURE FIRST", "I used", "may be", "weakest link then")


def first_block(j: Judgement) -> Iterator[str]:
    """The same as a list for the screen."""
    rows = first_rows(j, SHOWN)
    if rows:
        yield from columns([("", *FIRST), *((str(i), *row) for i, row in enumerate(rows, 1))], (3, 29, 11, 18, 18))


def first_data(j: Judgement) -> list[dict[str, Any]]:
    """For JSON; utilisations that are not finite are null."""
    return [
        {"key": e.key, "value": rounded(e.fact.value), "unit": e.fact.unit, "range": [rounded(e.low), rounded(e.high)],
         "weakest": [_number(e.at_low), _number(e.at_high)], "weakest_as_used": _number(e.used)}
        for e in measure_first(j)
    ]  # fmt: skip


def _number(x: float) -> float | None:
    return rounded(x) if math.isfinite(x) else None


def chance_data(u: Uncertainty) -> dict[str, Any]:
    """For JSON."""
    return {
        "for": "comparison",
        "samples": u.n,
        "seed": u.seed,
        "safety_factors": False,
        "cases": u.cases,
        "of_cases": u.of_cases,
        "careful_solves": u.solves,
        "any": _chance(u.any),
        "checks": [_chance(c) for c in u.chances],
        "spreads": [
            {"key": s.key, "log_spread": rounded(s.s), "middle": rounded(s.middle), "evidence": s.evidence,
             "known_by": s.known_by, "source": s.source}
            for s in u.scatters
        ],
    }  # fmt: skip


def _chance(c: Chance) -> dict[str, Any]:
    return {
        "check": ".".join(p for p in (c.part, c.what, c.rule, c.method) if p),
        "over": c.over,
        "chance": rounded(c.over / c.n),
        "interval": [c.low, c.high],
        "median_utilisation": c.middle,
        "shares": {s.key: x for s, x in c.shares if x > 0.0},
    }
