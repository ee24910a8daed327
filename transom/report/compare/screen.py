"""A comparison on a screen: the verdict, engines as ratios, what should have changed, then inputs, mount, stops, checks."""

import math
from collections.abc import Iterator, Sequence

from transom.quantity import show
from transom.report.amounts import amount, percent
from transom.report.compare.comparing import dumped
from transom.report.compare.records import Change, CheckChange, Comparison, Ratios
from transom.report.text import block, clean, columns, rule
from transom.report.words import CHECKS, EVIDENCE, NUMBERED, case_words, plural, spelled

SHOWN = 110  # characters of a value; --json has the whole
COUNTS = {"engine.propeller.blades", "frame.bolts.count", "crossmembers.count", "crossmembers.bolts.count"}


def screen(c: Comparison, titles: tuple[str, str], units: str) -> list[str]:
    """The whole comparison; one line where nothing differs."""
    head = [f" A  {clean(titles[0])}", f" B  {clean(titles[1])}", rule("=")]
    if c.same:
        return [*head, " nothing differs"]
    return [
        *head,
        *(line for note in c.notes for line in block("NOTE", note)),
        *_changes("JOB", c.identity, units),
        *_changes("ANSWER", c.verdict, units),
        *_engine(c, units),
        *_stale(c, units),
        *_changes("INPUTS", c.inputs, units),
        *_changes("MOUNT", c.mount, units),
        *_changes("STOPS", c.stops, units),
        *_checks(c),
    ]


def _changes(title: str, changes: Sequence[Change], units: str) -> Iterator[str]:
    if not changes:
        return
    rows = [(title, "A", "B")]
    rows += [(spelled(c.says, units), _side(c, 0, units), _side(c, 1, units)) for c in changes]
    yield from columns(rows, (30, 24, 24))


def _side(c: Change, side: int, units: str) -> str:
    """A value with its evidence where that is not the user's own word, or changed."""
    value, evidence = (c.before, c.after)[side], c.evidence[side]
    text = value_words(value, c.unit, units, c.key)
    changed = c.evidence[0] != c.evidence[1]
    return f"{text} ({EVIDENCE[evidence]})" if evidence and (changed or evidence != "stated") else text


def value_words(value: object, unit: str, units: str, key: str = "") -> str:
    """A value as people read it."""
    if value is None or isinstance(value, bool):
        return {None: "-", True: "yes", False: "no"}[value]
    if isinstance(value, int | float):
        return amount(float(value), unit, units) if unit and key not in COUNTS else f"{value:g}"
    if isinstance(value, list) and unit:
        return " to ".join(value_words(v, unit, units) for v in value)
    if key == "governing" and isinstance(value, str):
        return _check_id(value)
    text = clean("; ".join(map(dumped, value)) if isinstance(value, list) else dumped(value))
    return text if len(text) <= SHOWN else f"{text[: SHOWN - 3]}..."


def _engine(c: Comparison, units: str) -> Iterator[str]:
    if c.refused:
        yield from block("ENGINE", f"old against new is not told: {c.refused}.")
    if c.engine is not None:
        yield from block("ENGINE", f"new over old: {'; '.join(_ratios(c.engine, units))}.")


def _ratios(r: Ratios, units: str) -> Iterator[str]:
    weights, moments = ([f(v, units) for v in pair] for f, pair in ((show.mass, r.weight), (show.moment, r.moment)))
    yield f"weight x {_ratio(r.weight)} ({weights[0]}, {weights[1]})"
    yield f"thrust moment about the top edge x {_ratio(r.moment)} ({moments[0]}, {moments[1]})"
    if r.pull is None:
        yield "upper bolts' pull not told, bolts do not hold both"
        return
    pulls = [show.force(v, units) for v in r.pull]
    yield f"hardest pull of an upper bolt x {_ratio(r.pull)} ({pulls[0]}, {pulls[1]}; {case_words(r.cases[1])})"


def _ratio(pair: tuple[float, float]) -> str:
    return f"{pair[1] / pair[0]:.2f}"


def _stale(c: Comparison, units: str) -> Iterator[str]:
    if not c.stale:
        return
    yield " SHOULD HAVE CHANGED AND DID NOT"
    for text in c.stale:
        yield from block("", f"- {spelled(text, units)}", at=2)


def _checks(c: Comparison) -> Iterator[str]:
    if c.checks:
        rows = [("CHECKS, % of limit, worst case", "A", "B", "change")]
        rows += [(_check_id(x.name), *_shares(x), _step(x)) for x in c.checks]
        yield from columns(rows, (44, 12, 12, 10))
    yield from block("", f"{plural(c.unchanged, 'check')} as before in every case.", at=0)


def _shares(x: CheckChange) -> tuple[str, str]:
    shown = []
    for share, there, passes in zip((x.before, x.after), x.there, x.passes, strict=True):
        words = percent(math.inf if share is None else share)
        shown.append(f"{words}{'' if passes else ' FAILS'}" if there else "not there")
    return shown[0], shown[1]


def _step(x: CheckChange) -> str:
    if not math.isfinite(x.step):
        return ""
    points = 100 * x.step
    if abs(points) < 0.5:
        return "in a case" if x.before == x.after else "under 1"
    return f"{points:+.0f}"


def _check_id(name: str) -> str:
    """A check by its name or its id in words, with its case where it has one; what is no id stands as it is."""
    part, _, more = name.partition(".")
    if not more:
        return name
    what, *rest = more.split(".")
    stem = what.rpartition("-")[0]
    words = (
        CHECKS.get((part, what)) or NUMBERED.get((part, stem)) or f"{part.replace('-', ' ')}, {what.replace('-', ' ')}"
    )
    return words if part_of_id(rest) else f"{words}, {case_words(rest[-1])}".rstrip(", ")


def part_of_id(rest: Sequence[str]) -> bool:
    """True where a name ends with its method, and so has no case."""
    return not rest or rest[-1] in ("hand", "plate")
