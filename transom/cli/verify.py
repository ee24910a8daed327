"""`transom verify`: what others printed, computed by our functions on the copy that is installed."""

import json as json_text
import math
import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from transom.cli.jobs import FAILS, PASSES
from transom.report.text import WIDTH, clean

if TYPE_CHECKING:
    from transom.published import Published

SCHEMA = "transom-verification-1"
ID = 35  # columns of a case's name
KNOWN = {
    "read": "read in the source",
    "transcribed": "from a copy that cites the source",
    "memory": "from memory: provisional until somebody reads it",
    "derived": "worked by hand from the theory",
    "computed": "computed by another program or method",
}


@dataclass(frozen=True)
class Outcome:
    """One published case with what our function gave; `error` says why where it gave nothing."""

    case: "Published"
    ours: float
    error: str = ""

    @property
    def deviation(self) -> float:
        """Ours less the printed value, in the printed unit."""
        return self.ours - self.case.printed

    @property
    def agrees(self) -> bool:
        """True within the printed digits; a number that is not finite never is."""
        return (
            math.isfinite(self.ours) and math.isfinite(self.case.printed) and abs(self.deviation) <= self.case.allowed
        )


def outcome(case: "Published") -> Outcome:
    """Compute one case; whatever its function raises is a deviation, not an end."""
    try:
        return Outcome(case, case.ours)
    except Exception as error:
        return Outcome(case, math.nan, f"{type(error).__name__}: {error}")


def outcomes(folder: Path) -> Iterator[Outcome]:
    """Every case in the folder, computed one by one.

    Raises:
        TableError: a file that cannot be read, or no case at all.
    """
    from transom.errors import TableError
    from transom.published import published_cases

    found = 0
    for found, case in enumerate(published_cases(folder), 1):  # noqa: B007 - counted for the end
        yield outcome(case)
    if not found:
        raise TableError(f"no published cases in {folder}. Install transom again.")


def verify(
    markdown: Annotated[bool, typer.Option("--markdown", help="Print the list as Markdown.")] = False,
    json: Annotated[bool, typer.Option("--json", help="Print the cases as JSON.")] = False,
) -> None:
    """Compute what books and others printed, on this copy: source, printed, ours, how far off."""
    from transom.published import shipped

    raise typer.Exit(run(shipped(), markdown=markdown, as_json=json))


def run(folder: Path, *, markdown: bool = False, as_json: bool = False) -> int:
    """Print every published case in the folder beside ours; the exit code: 0 all agree, 1 any deviates.

    Raises:
        TableError: the cases cannot be read.
    """
    from transom.cli.stream import say

    found = outcomes(folder)
    if as_json:
        every = tuple(found)
        say([json_text.dumps(document(every), indent=1, allow_nan=False)])
    else:
        form, every = MARKDOWN if markdown else SCREEN, ()
        say([form.head])
        for source, group in groupby(found, key=lambda o: o.case.source):
            of_one = tuple(group)
            say(listed(source, of_one, form))
            every += of_one
        say(summary(every, form))
    return PASSES if all(o.agrees for o in every) else FAILS


@dataclass(frozen=True)
class Form:
    """How the list looks: before all, before each source, each case, and the counts after all."""

    head: str
    source: str
    case: str
    count_head: str
    count: str


SCREEN = Form(
    head="PUBLISHED CASES, computed by this copy of transom\n",
    source=f"\n{{source}}\n  {'case':<{ID}}{'printed':>9} {'ours':>10} {'off':>8}  how known",
    case=f"  {{id:<{ID}}}{{printed:>9}} {{ours:>10}} {{off:>8}}  {{known}}{{mark}}",
    count_head="\n{what:<50}{cases:>8}{agree:>8}",
    count="  {what:<48}{cases:>8}{agree:>8}",
)
MARKDOWN = Form(
    head="# Published cases, computed by this copy of transom\n",
    source="\n## {source}\n\n| case | where | printed | ours | unit | off | how known |\n|---|---|---|---|---|---|---|",
    case="| {id} | {citation} | {printed} | {ours} | {unit} | {off} | {known}{mark} |",
    count_head="\n| {what} | {cases} | {agree} |\n|---|---|---|",
    count="| {what} | {cases} | {agree} |",
)


def listed(source: str, found: Iterable[Outcome], form: Form) -> Iterator[str]:
    """The cases of one source, line by line."""
    yield form.source.format(source=_heading(source, form))
    yield from (form.case.format(**{k: _cell(v, form) for k, v in cells(o).items()}) for o in found)


def _heading(source: str, form: Form) -> str:
    return clean(source) if form is MARKDOWN else textwrap.fill(clean(source), WIDTH)


def _cell(text: str, form: Form) -> str:
    """In a table a bar or a line end would end the cell."""
    return clean(text).replace("|", "\\|") if form is MARKDOWN else text


def cells(o: Outcome) -> dict[str, str]:
    """One case as words."""
    return {
        "id": o.case.id if len(o.case.id) < ID else f"{o.case.id}\n{'':<{ID + 2}}",
        "citation": clean(o.case.citation),
        "printed": f"{o.case.printed:.6g}",
        "ours": f"{o.ours:.6g}" if not o.error else "none",
        "unit": o.case.unit,
        "off": off(o),
        "known": o.case.known_by,
        "mark": "" if o.agrees else f"  DEVIATES {clean(o.error)}".rstrip(),
    }


def off(o: Outcome) -> str:
    """The deviation in percent of the printed value, in the unit itself where zero was printed."""
    if not math.isfinite(o.deviation):
        return "none"
    if o.case.printed == 0:
        return f"{o.deviation:+.1e}"
    return f"{round(100 * o.deviation / abs(o.case.printed), 2) + 0.0:+.2f} %"


def summary(every: Sequence[Outcome], form: Form) -> Iterator[str]:
    """Counts by area and by how the value is known, and the verdict in one line."""
    yield from _counted("area", [(o.case.area, o.agrees) for o in every], form)
    yield from _counted("how the printed value is known", [(KNOWN[o.case.known_by], o.agrees) for o in every], form)
    yield "\n" + (verdict(every) if form is MARKDOWN else textwrap.fill(verdict(every), WIDTH))


def _counted(what: str, named: Sequence[tuple[str, bool]], form: Form) -> Iterator[str]:
    total, good = Counter(name for name, _ in named), Counter(name for name, agrees in named if agrees)
    yield form.count_head.format(what=what, cases="cases", agree="agree")
    yield from (form.count.format(what=name, cases=n, agree=good[name]) for name, n in sorted(total.items()))


def verdict(every: Sequence[Outcome]) -> str:
    """How many agree, and how many of all rest on memory."""
    bad = [o.case.id for o in every if not o.agrees]
    memory = sum(o.case.known_by == "memory" for o in every)
    loose = sum(o.case.tolerance > 0 for o in every)
    said = (
        f"{len(every) - len(bad)} of {len(every)} agree, to the digits printed or, {loose} of them, to a tolerance"
        f" with its reason in the file. {memory} printed values are provisional."
    )
    return f"{said} DEVIATES: {', '.join(bad)}." if bad else said


def document(every: Sequence[Outcome]) -> dict[str, Any]:
    """The outcomes as JSON data: no NaN, null where our function gave no number."""
    from transom import __version__

    return {
        "schema": SCHEMA,
        "tool": {"name": "transom", "version": __version__},
        "passes": all(o.agrees for o in every),
        "counts": {
            "cases": len(every),
            "agree": sum(o.agrees for o in every),
            "by_area": dict(sorted(Counter(o.case.area for o in every).items())),
            "by_known_by": dict(sorted(Counter(o.case.known_by for o in every).items())),
        },
        "cases": [_row(o) for o in every],
    }


def _row(o: Outcome) -> dict[str, Any]:
    c = o.case
    return {
        "id": c.id, "area": c.area, "source": c.source, "citation": c.citation, "formula": c.formula,
        "printed": _number(c.printed), "unit": c.unit, "ours": _number(o.ours), "deviation": _number(o.deviation),
        "allowed": _number(c.allowed) if math.isfinite(c.printed) else None,
        "known_by": c.known_by, "agrees": o.agrees, "error": o.error,
    }  # fmt: skip


def _number(value: float) -> float | None:
    """Nine significant digits, or null."""
    return float(f"{value:.9g}") if math.isfinite(value) else None
