"""The review as a document: valid, whole, deaf to what users type, with the words that must stand on it."""

import re
from dataclasses import replace
from functools import cache

import html5lib
import pytest

from tests.report.jobs import ACCEPTED, DRAWN, drawn, job
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.job.records import Hole, Sign
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.amounts import percent
from transom.report.cures_by_mount import cures_of_failing_mount
from transom.report.html.page import to_html
from transom.report.html.safe import user, visible
from transom.report.html.signing import same, signing
from transom.report.html.standards import used_for
from transom.report.parts import not_looked_at
from transom.report.words import check_words, spelled

NAMES = ("example", "metric", "clamps", "accepted", "failing", "stop")
NASTY = (
    "<script>alert('a')</script> \"two\" 'one' &amp; ]]> </title></style><!-- \u05e9\u05dc\u05d5\u05dd \u202eevil\u2066"
)
LONG = "long words " * 500 + "x" * 5000
MOST_BYTES = 1_500_000


@cache
def judged(name: str) -> Judgement:
    if name == "failing":
        return judge(job("example"), SHIPPED, replace(DRAWN["example"], layers=DRAWN["example"].layers[:1]))
    return drawn("unread plate" if name == "stop" else name)


@cache
def document(name: str) -> str:
    j = judged(name)
    return to_html(j, cures_of_failing_mount(j.job, SHIPPED) if j.failing else ())


CELL = re.compile(r'<rect [^>]*shape-rendering="crispEdges"/>')
APART = {"td", "th", "tr", "li", "p", "dt", "dd", "h1", "h2", "h3", "div", "section", "text", "title", "caption", "br"}


@cache
def tree(text: str):
    """The document as a strict reader of HTML has it; any fault of the markup is an error."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)


@cache
def found(name: str):
    """The same of a judgement's, without the thousands of like cells of its maps, which cost seconds."""
    return tree(CELL.sub("", document(name)))


def words(element) -> str:
    return " ".join("".join(_pieces(element)).split())


def _pieces(element):
    if element.tag == "style":
        return
    yield " " * (element.tag in APART) + (element.text or "")
    for child in element:
        yield from _pieces(child)
        yield child.tail or ""


def part(where, path: str) -> str:
    """The words of one element."""
    element = where.find(path)
    assert element is not None
    return words(element)


@cache
def body_words(name: str) -> str:
    return part(found(name), "body")


@pytest.mark.parametrize("name", NAMES)
def test_the_document_is_valid_small_and_needs_nothing_beside_it(name: str) -> None:
    text, root = document(name), found(name)
    assert len(text.encode()) < MOST_BYTES
    assert not {"script", "link", "img", "iframe", "object", "embed", "form", "base"} & {e.tag for e in root.iter()}
    for element in root.iter():
        for key, value in element.attrib.items():
            assert not str(key).startswith("on")
            assert key not in ("src", "href", "srcset", "data", "action")
            assert not re.match(r"\s*(?:javascript|https?|data):", str(value))
    assert not re.search(r"@import|url\((?!#)|https?:", text)
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids))


def test_cells_of_maps_are_valid_too() -> None:
    assert len(CELL.findall(document("clamps"))) > 100
    tree(document("clamps"))


def test_same_judgement_same_bytes() -> None:
    assert to_html(judged("example")) == document("example")


@pytest.mark.parametrize("name", NAMES)
def test_what_repeats_on_every_page_says_paper_and_verdict_and_stops(name: str) -> None:
    j, running = judged(name), part(found(name), ".//thead")
    assert running.startswith(j.paper)
    assert ("DOES NOT PASS" in running) == (not j.passes)
    assert ("DOES NOT PASS" in body_words(name)) == (not j.passes)
    for a in j.job.accepts:
        assert f"STOP PASSED OVER, {a.stop}: accepted by {a.by}, {a.date.isoformat()}, on {a.paper}" in running
    assert "Not a survey and not approval" in part(found(name), ".//tfoot")


@pytest.mark.parametrize("name", NAMES)
def test_page_one_stands_alone(name: str) -> None:
    j = judged(name)
    front = part(found(name), ".//section[@class='front']")
    assert f"revision {j.job.head.revision}" in front
    assert j.job.sha256 in front
    assert "by transom 0." in front
    assert f"{check_words(j.governing, j.job)}, {percent(j.governing.utilisation)} of limit" in front
    assert "Pencil line" in front
    for line in not_looked_at(j):
        assert line in front
    for role in ("made by", "checked by", "accepted by"):
        assert role in front
    for stop in j.stops:
        assert stop.name in front
    assert (f"{len(j.failing)} of {len(j.worst)} checks fail" in front) == bool(j.failing)


@pytest.mark.parametrize("name", NAMES)
def test_every_check_part_and_caution_is_there(name: str) -> None:
    j, text = judged(name), body_words(name)
    for c in j.worst:
        assert f"{spelled(check_words(c, j.job), j.job.head.units)} {percent(c.utilisation)}" in text
    for caution in j.cautions:
        assert " ".join(spelled(caution, j.job.head.units).split()) in text
    for fact in j.facts.values():
        assert spelled(fact.says, j.job.head.units) in text
    assert text.count("seen from aft: port is left") == 3


def test_a_failure_stands_with_its_numbers_and_a_cure_that_was_tried() -> None:
    text = body_words("failing")
    assert "What fails" in text
    assert "What would cure it" in text
    assert "That works:" in text
    assert "What fails" not in body_words("example")


def test_no_word_promises_more_than_a_use() -> None:
    for name in NAMES:
        text = body_words(name).lower()
        assert not re.search(r"\b(?:compl(?:y|ies|iant|iance)|conforms?|certified|approved|guarantee[ds]?)\b", text)
        assert "uncertainty" not in text
        assert "used for" in text
    named = [name for name, _ in used_for(judged("example"))]
    assert any(n.startswith("EN 1995-1-1:2004") for n in named)
    assert any(n.startswith("NDS") for n in named)
    assert named == sorted(named)
    assert all(uses and all(uses) for _, uses in used_for(judged("example")))


def nasty() -> Judgement:
    """The accepted job with words in every place where somebody may type words."""
    j = judged("accepted")
    said = f"{NASTY} {LONG}"
    accepts = tuple(replace(a, by=said, paper=said) for a in j.job.accepts)
    head = replace(j.job.head, name=said, number=said, revision=said)
    board = replace(j.job.board, openings=(Hole(0.0, 400.0, 20.0, said),))
    odd = replace(j.job, head=head, accepts=accepts, board=board, sign=Sign(said, said, said))
    return replace(j, job=odd, cautions=(*j.cautions, said))


def test_what_somebody_types_is_text_and_nothing_else() -> None:
    text = to_html(nasty())
    root = tree(CELL.sub("", text))
    assert not [e for e in root.iter() if e.tag == "script"]
    shown = [words(e) for e in root.iter("bdi")]
    said = " ".join(f"{NASTY} {LONG}".split())
    assert shown.count(said) >= 8
    assert "<script>alert" in words(root)
    assert len(text.encode()) < MOST_BYTES


def test_what_turns_the_direction_of_reading_is_fenced_in() -> None:
    for element in tree(CELL.sub("", to_html(nasty()))).iter():
        own = (element.text or "") + "".join(child.tail or "" for child in element)
        if element.tag not in ("bdi", "title", "style"):
            assert not set(own) & set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"), element.tag
    assert "turn the direction" in user("a\u202eb")
    assert "turn the direction" not in user("\u05e9\u05dc\u05d5\u05dd")


def test_characters_that_a_document_may_not_hold_are_shown_as_codes() -> None:
    assert visible("a\x1b[31m\x00\ufffe\U0001fffe\ud800\ufdd0 b\tc") == (
        "a[U+001B][31m[U+0000][U+FFFE][U+1FFFE][U+D800][U+FDD0] b\tc"
    )
    j = judged("example")
    odd = replace(
        j, job=replace(j.job, head=replace(j.job.head, name="a\x1b\x00\x7f\x85\ufffe\ud800")), cautions=("\x1b\x0c",)
    )
    text = to_html(odd)
    tree(CELL.sub("", text))
    assert "a[U+001B][U+0000][U+007F][U+0085][U+FFFE][U+D800]" in text
    text.encode("utf-8")


def test_one_name_twice_is_flagged() -> None:
    text = ACCEPTED + '[sign]\nmade_by = "A. Shoplead"\nchecked_by = " a shop-LEAD "\naccepted_by = "C. Owner"\n'
    found = signing(loads(text))
    assert len(found.flags) == 2
    assert found.flags[0].startswith("SAME NAME TWICE: made by and checked by")
    assert "plate-power-unreadable" in found.flags[1]
    j = judged("accepted")
    front = part(tree(CELL.sub("", to_html(replace(j, job=loads(text))))), ".//section[@class='front']")
    assert front.count("SAME NAME TWICE") == 2
    assert "C. Owner" in front


@pytest.mark.parametrize(
    "one, other, alike",
    [("A. Lee", "a lee", True), ("Ann Lee", "Ann\u200b Lee", True), ("", "", False), ("?", "?", False),
     ("Ren\u00e9", "Rene\u0301", True), ("Ann Lee", "Anna Lee", False)],
)  # fmt: skip
def test_what_counts_as_one_name(one: str, other: str, alike: bool) -> None:
    assert same(one, other) == alike


def test_nobody_named_flags_nothing() -> None:
    assert signing(job("example")).flags == ()
    assert "not named" in part(found("example"), ".//section[@class='front']")


def test_without_a_mount_there_is_nothing_to_review() -> None:
    with pytest.raises(ValueError, match="no mount"):
        to_html(replace(judged("example"), mount=None))
