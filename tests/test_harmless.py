"""Words of a user come out as words: no markup, path, formula or escape in page, drawing, table, paper, terminal or log.

One job with hostile words wherever it takes words, another with plain ones of the same length: what is made of both has the same make-up.
"""

import csv
import io
import json
import re
import xml.etree.ElementTree as ET
from collections import Counter
from functools import cache
from pathlib import Path

import ezdxf
import html5lib
import pytest
from pypdf import PdfReader

from tests.fuzz.corpus import HOSTILE
from tests.fuzz.laws import jobs, saved
from tests.fuzz.mutants import quoted
from transom.catalogue import SHIPPED
from transom.chart.data import to_json as chart_json
from transom.chart.page import chart_svg
from transom.chart.points import _said
from transom.chart.records import SIZED, Chart, Line
from transom.chart.screen import chart_screen
from transom.chart.table import to_csv as chart_csv
from transom.cli.main import main
from transom.errors import JobError
from transom.estimate.build import estimate
from transom.estimate.reading import from_file
from transom.floor.pack import index, pack_of
from transom.job.log import log_of, log_paper
from transom.job.read import load, loads
from transom.job.schema import SECTIONS, SHOP_SECTIONS, walk
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.compare.comparing import compare
from transom.report.compare.data import to_json as compare_json
from transom.report.compare.screen import screen as compare_screen
from transom.report.html.page import Grounds
from transom.report.judgement import as_object, to_json
from transom.report.money.books import to_csv
from transom.report.money.papers import quote_files
from transom.report.review_screen import review_screen
from transom.report.text import ASCII, printable

# What can be printed and means something to whoever reads it next; the rest is refused at reading.
SHOWN = tuple(h for h in HOSTILE if h.isprintable() and h.isascii() and 2 < len(h) < 40)
HIDDEN = tuple(h for h in HOSTILE if not h.isprintable())
PLACES = (
    "job.name", "job.revision", "job.history", "case.name", "case.reason", "accept.by", "accept.paper", "sign.made_by", "sign.checked_by",
    "sign.accepted_by", "quote.customer", "quote.includes", "quote.excludes", "board.openings.what", "shop.name", "shop.address", "shop.warranty",
    "shop.payment", "book.says", "book.words", "sheet.supplier", "built.by", "built.hull", "built.engine_serial", "built.found",
)  # fmt: skip
JOB = """
[[case]]
name = {case.name}
like = "ahead"
times = 1.01
reason = {case.reason}
[[accept]]
stop = "plate-power-unreadable"
by = {accept.by}
date = 2026-05-04
paper = {accept.paper}
[sign]
made_by = {sign.made_by}
checked_by = {sign.checked_by}
accepted_by = {sign.accepted_by}
[quote]
customer = {quote.customer}
includes = [{quote.includes}]
excludes = [{quote.excludes}]
[built]
by = {built.by}
hull = {built.hull}
engine_serial = {built.engine_serial}
found = {built.found}
"""
SHOP = """
[shop]
name = {shop.name}
address = [{shop.address}]
[quote]
warranty = [{shop.warranty}]
payment = [{shop.payment}]
"""
BOOK = """
[book]
says = {book.says}
words = {book.words}
date = 2026-05-04
[labour]
rate = 90.0
[[sheet]]
name = "douglas-fir-marine 3/4 in"
price = 140.0
supplier = {sheet.supplier}
"""


def words_of(hostile: bool) -> dict[str, str]:
    """What stands in each place; several in each, so that every one of them stands somewhere."""
    said = {p: " ".join(SHOWN[i :: len(PLACES)]) for i, p in enumerate(PLACES)}
    if not hostile:
        said = {p: re.sub(r"\S", "w", words) for p, words in said.items()}
    return {p: quoted(words) for p, words in said.items()}


def filled(text: str, said: dict[str, str]) -> str:
    """A text with the words in their places."""
    for place, words in said.items():
        text = text.replace("{" + place + "}", words)
    return text


def job_text(said: dict[str, str]) -> str:
    """A whole job that passes, with words wherever it takes them."""
    text = jobs()["pontoon-40hp"]
    for old, new in (
        (r'(?m)^name = ".*$', f"name = {said['job.name']}\nhistory = {said['job.history']}"), (r'(?m)^revision = ".*$', f"revision = {said['job.revision']}"),
        (r'(?m)^plate_power = ".*$', 'plate_power = "cannot read"'), (r"(?m)^openings = .*\n", ""),
        (r"(?m)^\[board\]$", f'[board]\nopenings = [{{ y = "0 in", down = "16 in", diameter = "1 in", what = {said["board.openings.what"]} }}]'),
        (r"(?ms)^\[quote\].*?(?=^\[)", ""), (r"(?ms)^\[sign\].*?(?=^\[)", ""),
    ):  # fmt: skip
        text = re.sub(old, lambda _, new=new: new, text, count=1)  # type: ignore[misc]
    return text + filled(JOB, said)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("harmless")


@cache
def judged(folder: Path, hostile: bool) -> tuple[Judgement, Path]:
    """The job read from its file beside the shop's, and judged."""
    said, here = words_of(hostile), folder / str(hostile)
    here.mkdir()
    (here / "job.toml").write_text(job_text(said), encoding="utf-8")
    (here / "shop.toml").write_text(filled(SHOP, said), encoding="utf-8")
    (here / "prices.toml").write_text(filled(BOOK, said), encoding="utf-8")
    job = load(here / "job.toml")
    assert job.mount is not None
    return judge(job, SHIPPED, job.mount), here / "job.toml"


@cache
def made(folder: Path, hostile: bool) -> dict[str, str | bytes]:
    """Every paper there is of the job, by name."""
    j, path = judged(folder, hostile)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("transom.floor.pack.grounds", lambda j: Grounds())  # seconds, and no words of a user
        pack = pack_of(j, path, path.read_text(encoding="utf-8"))
    assert not pack.left_out
    e = estimate(j, from_file(path.with_name("prices.toml")))
    quote = quote_files(e, (), (), "quote-1042", 1)
    names = {s.name: s.name for s in pack.sheets}
    return {
        **{s.name: s.content for s in pack.sheets},
        **{f"quote{end}": content for end, content in quote.items()},
        "index.html": index(pack, names),
        "lines.csv": to_csv(e),
        "judgement.json": to_json(j),
        "review.txt": "\n".join(review_screen(j, ASCII)),
        **charted(j),
        **compared(j),
    }


def charted(j: Judgement) -> dict[str, str]:
    """The chart of a job at its own power, on every kind of paper."""
    point = _said(j, j.facts["engine.power"].value, SIZED)
    c = Chart((point.power,), (Line("douglas-fir-marine", (point,), False),), j, True, (j.job.head.name,))
    screen = "\n".join(chart_screen(c))
    return {"chart.svg": chart_svg(c), "chart.csv": chart_csv(c), "chart.json": chart_json(c), "chart.txt": screen}


def compared(j: Judgement) -> dict[str, str]:
    """The judgement beside a good one, both ways."""
    said, titles = compare(saved(), as_object(j)), (j.job.head.name, j.job.head.revision)
    back = compare(as_object(j), saved())
    lines = (*compare_screen(said, titles, "us"), *compare_screen(back, titles, "us"))
    return {"compare.json": compare_json(said, titles), "compare.txt": "\n".join(lines)}


def pairs(folder: Path, end: str) -> list[tuple[str, str, str]]:
    """Name, what was made of hostile words, what of plain ones, of every paper with this ending."""
    hostile, plain = made(folder, True), made(folder, False)
    assert set(hostile) == set(plain)
    out = [(n, hostile[n], plain[n]) for n in sorted(hostile) if n.endswith(end)]
    assert out
    return [(n, *(x.decode("latin-1") if isinstance(x, bytes) else x for x in both)) for n, *both in out]


def test_the_words_are_in_the_papers_at_all(folder: Path) -> None:
    papers = made(folder, True)
    for name in ("review.html", "quote.html", "index.html"):
        text = papers[name]
        assert isinstance(text, str)
        assert "&lt;script&gt;alert(1)" in text or "&lt;b&gt;bold" in text or "&#39; onmouseover" in text, name


ELEMENTS = {
    "script",
    "iframe",
    "object",
    "embed",
    "link",
    "base",
    "form",
    "img",
    "meta",
    "foreignObject",
    "animate",
    "set",
    "image",
}


def test_pages_have_the_elements_and_attributes_that_plain_words_give(folder: Path) -> None:
    for name, *texts in pairs(folder, ".html"):
        shapes = []
        for text in texts:
            root = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(
                re.sub(r"<rect [^>]*crispEdges\"/>", "", text)
            )
            shapes.append(Counter((e.tag, *sorted(e.keys())) for e in root.iter() if isinstance(e.tag, str)))
        assert shapes[0] == shapes[1], name
        assert not any(tag in ELEMENTS - {"meta"} for tag, *_ in shapes[0]), name
        assert not any(k.startswith("on") for _, *keys in shapes[0] for k in keys), name
        assert not re.search(r"""(?:href|src)\s*=\s*["']?\s*(?:javascript|data:text|http)""", texts[0]), name


def test_drawings_have_the_shapes_that_plain_words_give(folder: Path) -> None:
    for name, *texts in pairs(folder, ".svg"):
        shapes = [Counter((e.tag, *sorted(e.attrib)) for e in ET.fromstring(text).iter()) for text in texts]
        assert set(shapes[0]) == set(shapes[1]), name
        assert not any(tag.split("}")[-1] in ELEMENTS for tag, *_ in shapes[0]), name
        assert "<!DOCTYPE" not in texts[0]
        assert "<!ENTITY" not in texts[0]


def test_the_cut_file_has_the_entities_that_plain_words_give(folder: Path) -> None:
    for name, *texts in pairs(folder, ".dxf"):
        shapes = []
        for text in texts:
            document = ezdxf.read(io.StringIO(text))
            assert not document.audit().errors, name
            shapes.append(Counter((e.dxftype(), e.dxf.layer) for e in document.modelspace()))
        # A long text may take one line more than another; what a saw follows is the same to a line.
        words = ("TEXT", "MTEXT")
        assert {k: n for k, n in shapes[0].items() if k[0] not in words} == {
            k: n for k, n in shapes[1].items() if k[0] not in words
        }
        assert {k for k in shapes[0] if k[0] in words} == {k for k in shapes[1] if k[0] in words}


def test_tables_have_the_rows_that_plain_words_give_and_no_formula(folder: Path) -> None:
    for name, *texts in pairs(folder, ".csv"):
        rows = [list(csv.reader(io.StringIO(text, newline=""))) for text in texts]
        assert [len(row) for row in rows[0]] == [len(row) for row in rows[1]], name
        for cell in (cell for row in rows[0] for cell in row):
            assert not cell.startswith(("=", "+", "@", "\t", "\r")), (name, cell)
            assert not cell.startswith("-") or re.fullmatch(r"-[\d.]+", cell), (name, cell)


def test_paper_has_no_action_link_or_script_and_shows_markup_as_it_was_typed(folder: Path) -> None:
    found = ""
    for name, content in made(folder, True).items():
        if not name.endswith(".pdf"):
            continue
        assert isinstance(content, bytes)
        reader = PdfReader(io.BytesIO(content))
        root = reader.trailer["/Root"]
        assert not {"/OpenAction", "/AA", "/AcroForm", "/URI"} & set(root), name
        assert not any("/Annots" in page for page in reader.pages), name
        assert not re.search(rb"/JavaScript|/Launch|/EmbeddedFile|/URI", content), name
        found += "".join(page.extract_text() for page in reader.pages)
    packed = "".join(found.split())
    for words in ("<b>bold", "</para>", "<script>alert(1)</script>", "[red]x[/red]", "&lt;b&gt;"):
        assert words in packed, words


@pytest.mark.parametrize("name", ["judgement.json", "quote.json", "chart.json", "compare.json"])
def test_json_holds_the_words_as_they_are(folder: Path, name: str) -> None:
    texts = [made(folder, hostile)[name] for hostile in (True, False)]
    shapes = [shape(json.loads(text)) for text in texts]
    assert shapes[0] == shapes[1]


def shape(value: object) -> object:
    """A value without its words."""
    if isinstance(value, dict):
        return {k: shape(v) for k, v in value.items()}
    if isinstance(value, list):
        return [shape(v) for v in value]
    return type(value).__name__


def test_screens_print_no_control_character_and_swallow_no_bracket(folder: Path) -> None:
    _, path = judged(folder, True)
    for name, said in made(folder, True).items():
        if name.endswith(".txt"):
            assert isinstance(said, str)
            assert all(line == printable(line, "utf-8") for line in said.splitlines()), name
    log_of(path).unlink(missing_ok=True)
    assert (
        log_paper(path, judged(folder, True)[0].job, "draw --out " + "\n".join(HOSTILE), "\r\n\x1b[2J", list(HOSTILE))
        == ()
    )
    lines = log_of(path).read_bytes().split(b"\n")
    assert len(lines) == 2
    assert json.loads(lines[0])["made"] == list(HOSTILE)
    assert lines[0].isascii()


TEXTS = sorted(
    f"{path}.{key.name}"
    for sections in (SECTIONS, SHOP_SECTIONS)
    for path, section in walk(sections)
    for key in section.keys
    if key.kind == "text" and not key.family and key.items is None
)


@pytest.mark.parametrize("place", [t for t in TEXTS if t.split(".")[0] in ("job", "quote", "sign", "engine", "built")])
def test_what_cannot_be_seen_is_refused_wherever_words_are_taken(place: str) -> None:
    section, key = place.rsplit(".", 1)
    for words in HIDDEN:
        try:
            job = loads(f"[{section}]\n{key} = {quoted(words)}\n")
        except JobError as error:
            found = [line for line in error.faults if f" {key} " in line and f"[{section}]" in line]
        else:
            raise AssertionError(job)
        assert found, (place, words)
        assert all(line.isprintable() for line in found)


@pytest.mark.parametrize("words", HIDDEN)
def test_a_saved_judgement_with_what_cannot_be_seen_turns_no_terminal(
    words: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = json.loads(json.dumps(saved()))
    other["job"] |= {"name": words, "revision": words}
    other["governing"] = words
    other["checks"][0] |= {"part": words, "id": words}
    other["stops"] = [{"name": words, "says": words, "final": True, "accepted": None}]
    for name, value in (("a.json", saved()), ("b.json", other)):
        (tmp_path / name).write_text(json.dumps(value), encoding="utf-8")
    assert main(["compare", str(tmp_path / "a.json"), str(tmp_path / "b.json")]) == 0
    out, err = capsys.readouterr()
    assert all(c == "\n" or c.isprintable() for c in out + err)


@pytest.mark.parametrize(
    "name", ["a\x1b[2J.toml", "a\nb.toml", "\u202egood.toml", "<b>.toml", "=1+1.toml", "[red].toml", "-x.toml"]
)
def test_a_files_name_turns_no_terminal_either(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / name
    path.write_text("width = \x1b[2J\n[boat", encoding="utf-8")
    assert main(["size", "--", str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert all(c == "\n" or c.isprintable() for c in err)
