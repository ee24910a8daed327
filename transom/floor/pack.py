"""All paper of a job at once: which files, and one page that leads to them, for a phone."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from transom.drawing.buildable import faults
from transom.drawing.files import bench_files, drawn
from transom.drawing.identity import identity
from transom.drawing.layout import drawing_of
from transom.drawing.notes import accepted_words, job_words, paper_words, reasons
from transom.drawing.records import Identity
from transom.errors import JobError
from transom.estimate.build import estimate
from transom.estimate.numbered import hand_out, number_of, refuse
from transom.estimate.reading import book_for
from transom.estimate.records import Estimate
from transom.estimate.ways import End, Way, ends, ways
from transom.floor import clock
from transom.floor.building import build_of
from transom.floor.cure import GLUE
from transom.floor.fieldsheet import field_sheet
from transom.floor.record import record_of
from transom.floor.recordpaper import page as record_page
from transom.floor.screen import checklist
from transom.floor.steps import steps
from transom.floor.trialscreen import before
from transom.frozen import dataclass
from transom.interview.keep import known_in
from transom.judge.records import Judgement
from transom.report.html.page import grounds, to_html
from transom.report.money.papers import buy_files, quote_files
from transom.report.money.screen import estimate_screen
from transom.running import hand_back

BUILD, CHECK, PRICE = "Build", "Check", "Price"


@dataclass(frozen=True)
class Sheet:
    """One file of a pack: its name, what it is, under which heading it stands."""

    name: str
    what: str
    heading: str
    content: str | bytes


@dataclass(frozen=True)
class Priced:
    """The mount priced, with the ways to build it and the ends of its range of power: seconds to find, so found once."""

    estimate: Estimate
    ways: tuple[Way, ...]
    ends: tuple[End, ...]


@dataclass(frozen=True)
class Pack:
    """Every sheet, and in one line each what could not be made and why; and the prices in it."""

    sheets: tuple[Sheet, ...]
    left_out: tuple[str, ...]
    identity: Identity
    priced: Priced


def pack_of(j: Judgement, path: Path, text: str, start: str | None = None, glue: str = GLUE) -> Pack:
    """The pack of a judged mount; `path` and `text` are the job's.

    Raises:
        JobError: there is no mount, it cannot be built, or the start is none.
    """
    left: list[str] = []
    # The search for other mounts takes most memory, the derivations of the review next: one after the other.
    priced = _priced(j, path)
    hand_back()
    sheets = (
        *_bench(j, path),
        *_steps(j, start, glue, left),
        Sheet(
            "field-sheet.pdf",
            "field sheet, with what the job knows",
            BUILD,
            field_sheet(j.job.head.units, known_in(text)),
        ),
        *_review(j),
        Sheet("trial.txt", "what to watch on the water", CHECK, "\n".join(before(j)) + "\n"),
        *_record(j, left),
    )
    return Pack((*sheets, *_price(priced)), tuple(left), identity(j), priced)


def _bench(j: Judgement, path: Path) -> Iterator[Sheet]:
    drawing = drawing_of(j)
    if found := faults(drawing):
        raise JobError(*(f"{path}: {line}" for line in found))
    paper = "letter" if drawing.identity.units == "us" else "a4"
    made: Mapping[str, str | bytes] = {**bench_files(j, drawing), **drawn(drawing, paper)}
    for name, content in made.items():
        yield Sheet(name, WHAT.get(name, name.replace("-", " ").rsplit(".", 1)[0]), BUILD, content)


WHAT = {
    "bench.pdf": "bench card: drills, holes, tape checks, torque",
    "cuts.pdf": "cut list: what to saw from which sheet",
    "template.pdf": "full-size template: print at 100 %, never fit",
    "board.dxf": "cut file for a router",
    "section.svg": "section through the stack, full size",
    "aft.svg": "aft face with dimensions",
    "forward.svg": "forward face, from inside, with dimensions",
}


def _steps(j: Judgement, start: str | None, glue: str, left: list[str]) -> Iterator[Sheet]:
    begins = clock.start_of(start)
    try:
        b = build_of(j, j.setup.tables, glue)
    except JobError as error:
        left.extend(f"steps: {line}" for line in error.faults)
        return
    told = clock.timed(steps(b), begins)
    yield Sheet("steps.pdf", "the build in order, to tick", BUILD, checklist(b, told, begins))


def _review(j: Judgement) -> Iterator[Sheet]:
    yield Sheet("review.html", "every load, every check, a page to sign", CHECK, to_html(j, (), grounds(j)))


def _record(j: Judgement, left: list[str]) -> Iterator[Sheet]:
    if j.job.built is None:
        left.append("mount record: nothing said yet of what was built ([built])")
        return
    yield Sheet("record.pdf", "mount record, for owner and surveyor", CHECK, record_page(record_of(j, j.setup.tables)))


def _priced(j: Judgement, path: Path) -> Priced:
    e = estimate(j, book_for(j.job, path.parent))
    return Priced(e, ways(e), ends(e, j.setup.tables))


def _price(p: Priced) -> Iterator[Sheet]:
    yield Sheet("estimate.txt", "three prices by what opening-up finds, for the shop", PRICE,
                "\n".join(estimate_screen(p.estimate, p.ways, p.ends)) + "\n")  # fmt: skip
    yield from (
        Sheet(f"buy{x}", "buy list by kind of supplier", PRICE, c) for x, c in buy_files(p.estimate, p.ways).items()
    )


def issue_quote(p: Priced, path: Path, folder: Path) -> tuple[tuple[Sheet, ...], tuple[str, ...]]:
    """The customer's quote handed out in the folder, numbered and never over another; or why there is none."""
    try:
        refuse(p.estimate, path)
    except JobError as error:
        return (), tuple(f"quote: {line}" for line in error.faults)
    stem = f"quote-{number_of(p.estimate.judgement.job, path)}"
    made = hand_out(folder, stem, lambda n: quote_files(p.estimate, p.ways, p.ends, stem, n))
    found = made.files or tuple(sorted(folder.glob(f"{made.name}.*")))
    return tuple(Sheet(p.name, "customer's quote, as issued", PRICE, "") for p in found), ()


def index(p: Pack, names: Mapping[str, str]) -> str:
    """The page that leads to the others; `names` are the files' names in the folder by sheet."""
    from jinja2 import Environment, select_autoescape

    page = Environment(autoescape=select_autoescape(default=True), trim_blocks=True, lstrip_blocks=True)
    parts = [(h, [(names[s.name], s.what) for s in p.sheets if s.heading == h]) for h in (BUILD, CHECK, PRICE)]
    i = p.identity
    return page.from_string(PAGE).render(
        paper=paper_words(i), job=job_words(i), said=(*reasons(i), *accepted_words(i)), parts=parts, left=p.left_out,
        cautions=i.cautions, tool=f"{i.tool}, job {i.sha256[:12]}", fails=bool(i.fails),
    )  # fmt: skip


PAGE = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{ job }}</title>
<style>
body { font: 1rem/1.45 sans-serif; margin: 0 auto; max-width: 44rem; padding: 1rem; color: #111; overflow-wrap: anywhere; }
h1 { font-size: 1.2rem; margin: 0; }
.word { font-weight: bold; border: 2px solid #111; display: inline-block; padding: .1rem .6rem; margin: .5rem 0; }
.fails { background: #111; color: #fff; }
h2 { font-size: 1.05rem; border-bottom: 1px solid #777; margin: 1.2rem 0 .3rem; }
ul { padding-left: 1.1rem; margin: .3rem 0; }
a { display: inline-block; padding: .35rem 0; color: #003a70; }
small { color: #444; }
</style>
</head>
<body>
<h1>{{ job }}</h1>
<p class="word{{ ' fails' if fails }}">{{ paper }}</p>
{% for line in said %}
<p><strong>{{ line }}</strong></p>
{% endfor %}
{% for heading, files in parts %}
<h2>{{ heading }}</h2>
<ul>
{% for name, what in files %}
<li><a href="{{ name | urlencode }}">{{ what }}</a> <small>{{ name }}</small></li>
{% endfor %}
</ul>
{% endfor %}
{% if left %}
<h2>Not in this pack</h2>
<ul>
{% for line in left %}
<li>{{ line }}</li>
{% endfor %}
</ul>
{% endif %}
<h2>Careful</h2>
<ul>
{% for line in cautions %}
<li>{{ line }}</li>
{% endfor %}
</ul>
<p><small>{{ tool }}</small></p>
</body>
</html>
"""
