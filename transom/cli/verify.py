"""`transom verify`: what others printed, computed by our functions on the copy that is installed."""

import json as json_text
import math
import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import Annotated, Any

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import Force
from transom.frozen import dataclass
from transom.report.text import WIDTH, clean
from transom.report.verified import KNOWN, Outcome, off, outcomes, verdict

SCHEMA = "transom-verification-1"
ID = 35  # columns of a case's name


def verify(
    markdown: Annotated[bool, typer.Option("--markdown", help="Print the list as Markdown.")] = False,
    json: Annotated[bool, typer.Option("--json", help="Print the cases as JSON.")] = False,
    html: Annotated[
        Path | None,
        typer.Option(
            "--html", metavar="FILE", help="Write them as one HTML page by area, to read and print.", show_default=False
        ),
    ] = None,
    force: Force = False,
) -> None:
    """Compute what books and others printed, on this copy: source, printed, ours, how far off."""
    from transom.published import shipped

    raise typer.Exit(run(shipped(), markdown=markdown, as_json=json, html=html, force=force))


def run(
    folder: Path, *, markdown: bool = False, as_json: bool = False, html: Path | None = None, force: bool = False
) -> int:
    """Print every published case in the folder beside ours; the exit code: 0 all agree, 1 any deviates.

    Raises:
        JobError: the page cannot be written, or something is there and not forced.
        TableError: the cases cannot be read.
    """
    from transom.cli.stream import say, tell
    from transom.job.files import free, write_atomic

    if html is not None:
        free(html, force)
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
    if html is not None:
        from transom.report.html.verified import page

        write_atomic(html, page(every), force)
        tell(f"{html}: written")
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


def summary(every: Sequence[Outcome], form: Form) -> Iterator[str]:
    """Counts by area and by how the value is known, and the verdict in one line."""
    yield from _counted("area", [(o.case.area, o.agrees) for o in every], form)
    yield from _counted("how the printed value is known", [(KNOWN[o.case.known_by], o.agrees) for o in every], form)
    yield "\n" + (verdict(every) if form is MARKDOWN else textwrap.fill(verdict(every), WIDTH))


def _counted(what: str, named: Sequence[tuple[str, bool]], form: Form) -> Iterator[str]:
    total, good = Counter(name for name, _ in named), Counter(name for name, agrees in named if agrees)
    yield form.count_head.format(what=what, cases="cases", agree="agree")
    yield from (form.count.format(what=name, cases=n, agree=good[name]) for name, n in sorted(total.items()))


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
