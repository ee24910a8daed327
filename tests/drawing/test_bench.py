"""The bench card and the cut list on paper: one Letter page, all of the words, the paper's word, nothing lost."""

import io
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
from pypdf import PdfReader

from transom.drawing import benchtext, nestwords
from transom.drawing.bench import BenchCard, bench_card, ranged
from transom.drawing.benchpdf import bench_pdf
from transom.drawing.files import bench_files, cuts_of
from transom.drawing.nestpdf import cut_pdf
from transom.drawing.notes import HAZARDS, page_words
from transom.drawing.records import ENGINE, FRAME, Drawing, Hole
from transom.drawing.supplies import bolts_to_hand, fasteners, spares, to_buy, volume
from transom.judge.records import Judgement

Judged = dict[str, Judgement]
Drawn = dict[str, Drawing]
NAMES = ["pontoon-40hp", "runabout-60hp", "uprights-90hp"]
SIX_MM = 6.0 / 25.4 * 72


def bare(text: str) -> str:
    return "".join(text.split())


def text_of(pdf: bytes) -> str:
    return bare("".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


def said_on(card: BenchCard) -> list[str]:
    """Everything the card has to say, cell by cell."""
    out = [*page_words(card.identity)]
    for b in card.blocks:
        out += [b.title, *b.words, *b.head, *(cell for row in b.rows for cell in row), *b.boxes]
    return [words for words in out if words]


@pytest.fixture(scope="module")
def cards(judged: Judged, drawings: Drawn) -> dict[str, BenchCard]:
    return {name: bench_card(judged[name], drawings[name]) for name in NAMES}


@pytest.fixture(scope="module")
def papers(judged: Judged, drawings: Drawn) -> dict[str, dict[str, bytes]]:
    found = {name: bench_files(judged[name], drawings[name]) for name in NAMES}
    return {name: {k: v for k, v in files.items() if isinstance(v, bytes)} for name, files in found.items()}


@pytest.mark.parametrize("name", NAMES)
def test_the_card_is_one_letter_page_with_every_word(
    name: str, cards: dict[str, BenchCard], papers: dict[str, dict[str, bytes]]
) -> None:
    (page,) = PdfReader(io.BytesIO(papers[name]["bench.pdf"])).pages
    assert [float(v) for v in page.mediabox] == [0.0, 0.0, 612.0, 792.0]
    text = text_of(papers[name]["bench.pdf"])
    for words in said_on(cards[name]):
        assert bare(words) in text, words


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("file", ["bench.pdf", "cuts.pdf"])
def test_nothing_is_printed_where_printers_do_not_reach(
    name: str, file: str, papers: dict[str, dict[str, bytes]]
) -> None:
    for page in pypdfium2.PdfDocument(papers[name][file]):
        ink = np.asarray(page.render(scale=1).to_pil().convert("L")) < 250
        assert ink.any()
        m = int(SIX_MM)
        ink[m:-m, m:-m] = False
        assert not ink.any()


@pytest.mark.parametrize("name", NAMES)
def test_the_screen_says_the_same_in_80_columns(name: str, cards: dict[str, BenchCard]) -> None:
    lines = list(benchtext.lines(cards[name]))
    assert max(map(len, lines)) <= 79
    text = bare("".join(lines))
    for b in cards[name].blocks:
        assert bare(b.title) in text
        # Cells wrap within their columns, so that only their words can be looked for.
        assert all(bare(word) in text for row in b.rows for cell in row for word in cell.split())


def test_a_mount_that_fails_says_so_on_both_and_why(
    cards: dict[str, BenchCard], papers: dict[str, dict[str, bytes]]
) -> None:
    card = cards["uprights-90hp"]
    assert card.identity.fails
    for pdf in papers["uprights-90hp"].values():
        assert all("DOES NOT PASS" in p.extract_text() for p in PdfReader(io.BytesIO(pdf)).pages)
        assert bare(card.identity.fails[0]) in text_of(pdf)
    assert "DOES NOT PASS" in "\n".join(benchtext.lines(card))
    assert "DOES NOT PASS" not in "\n".join(benchtext.lines(cards["runabout-60hp"]))


@pytest.mark.parametrize("name", NAMES)
def test_cautions_and_five_hazards_stand_on_both(
    name: str, cards: dict[str, BenchCard], papers: dict[str, dict[str, bytes]]
) -> None:
    assert len(HAZARDS) == 5
    for pdf in papers[name].values():
        text = text_of(pdf)
        assert all(bare(words) in text for words in (*HAZARDS, *cards[name].identity.cautions))


def test_the_same_card_is_the_same_bytes(cards: dict[str, BenchCard], papers: dict[str, dict[str, bytes]]) -> None:
    assert bench_pdf(cards["runabout-60hp"]) == papers["runabout-60hp"]["bench.pdf"]


def test_what_needs_more_than_a_page_loses_nothing_and_says_which_paper_on_each(cards: dict[str, BenchCard]) -> None:
    card = cards["uprights-90hp"]
    more = tuple(f"Invented caution number {i}: {'look twice, ' * 12}then once more." for i in range(60))
    identity = replace(card.identity, cautions=more, accepted=("stop: accepted by somebody, 2026-05-04, letter",))
    blocks = tuple(replace(b, words=more) if b.title == "CAREFUL" else b for b in card.blocks)
    pdf = bench_pdf(BenchCard(replace(card.drawing, identity=identity), blocks))
    pages = PdfReader(io.BytesIO(pdf)).pages
    assert len(pages) == 2
    for page in pages:
        assert "DOES NOT PASS" in page.extract_text()
        assert "STOP passed over: stop: accepted by somebody, 2026-05-04, letter" in page.extract_text()
    assert all(bare(words) in text_of(pdf) for words in more)


def test_many_new_frame_holes_still_fit_a_page(judged: Judged, drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    new = tuple(
        Hole(f"F{i}", "port line", -285.0, 20.0 + 17.0 * i, FRAME, 6.35, 7.14375, place="chosen") for i in range(1, 25)
    )
    card = bench_card(judged["runabout-60hp"], replace(d, holes=(*d.of(ENGINE), *new)))
    pdf = bench_pdf(card)
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 1
    assert "TOONEAR" in text_of(pdf)  # 17 mm apart where 19.05 is asked
    (holes,) = (b for b in card.blocks if b.title.startswith("HOLES"))
    assert sum(cell.count("F") for row in holes.rows for cell in row[:1]) == 24


def test_words_with_marks_of_markup_are_words(judged: Judged, drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    identity = replace(d.identity, name="<b>x</b> & <para>", cautions=("a < b & c > d", "</font>"))
    card = bench_card(judged["runabout-60hp"], replace(d, identity=identity))
    text = text_of(bench_pdf(card))
    assert bare("<b>x</b> & <para>") in text
    assert bare("a < b & c > d") in text
    assert "</font>" in text


def test_holes_in_a_row_read_as_one_line_with_what_the_checks_ask(cards: dict[str, BenchCard]) -> None:
    (holes,) = (b for b in cards["runabout-60hp"].blocks if b.title.startswith("HOLES"))
    assert holes.rows[0] == ("A B", "6-7/16 in each side", "1-7/8 in", "1 in", "17/32 in", "1-7/8 in (1-3/4)", "8-1/8 in (2-1/2)")  # fmt: skip
    assert holes.rows[-1][:3] == ("O1", "9 in port", "16 in")
    (tape,) = (b for b in cards["runabout-60hp"].blocks if b.title == "TAPE CHECKS")
    assert tape.rows[0] == ("A", "5-7/8 in", "18-17/32 in")
    assert ("board, corner to corner, both ways", "30 in", "") in tape.rows


@pytest.mark.parametrize(
    "names, said",
    [
        (("A", "B", "F1", "F2", "F3", "F7"), "A B F1 to F3 F7"),
        (("F10", "F9", "F8", "O1"), "O1 F8 to F10"),
        (("F1", "F2"), "F1 F2"),
        ((), ""),
    ],
)
def test_names_in_a_row_are_shortened(names: tuple[str, ...], said: str) -> None:
    assert ranged(names) == said


def test_bolts_are_the_ones_judged_each_with_a_spare(judged: Judged, drawings: Drawn) -> None:
    j = judged["runabout-60hp"]
    assert j.mount is not None
    assert j.mount.engine_bolts is not None
    rows = list(bolts_to_hand(j))
    assert rows[0] == ("4", "1", "1/2-13 x 3-3/4 in, 316 stainless F593G", "bolt")
    assert ("14", "2", "1/4-20", "lock nut, new") in rows  # old bolts, new nuts
    assert all(spares(n) >= 1 for n in fasteners(j))
    assert [row[2] for row in to_buy(j, drawings["runabout-60hp"]) if row[3].startswith("epoxy")]


def test_plates_of_one_size_are_one_line(judged: Judged, drawings: Drawn) -> None:
    plates = [row for row in to_buy(judged["pontoon-40hp"], drawings["pontoon-40hp"]) if row[3].startswith("plate,")]
    assert [row[0] for row in plates] == ["4"]
    assert "aluminum" in plates[0][3]


def test_volumes_round_up() -> None:
    assert volume(0.0295735295625 * 10, "us") == "10 fl oz"
    assert volume(0.0295735295625 * 10 + 1e-6, "us") == "11 fl oz"
    assert volume(0.701, "si") == "0.75 L"


@pytest.mark.parametrize("name", NAMES)
def test_the_cut_list_on_paper_says_what_the_screen_does(
    name: str, judged: Judged, drawings: Drawn, papers: dict[str, dict[str, bytes]]
) -> None:
    c, units = cuts_of(judged[name], drawings[name]), drawings[name].identity.units
    text = text_of(papers[name]["cuts.pdf"])
    for row in nestwords.rows(c, units):
        assert all(bare(cell) in text for cell in row)
    for s in c.sheets:
        assert bare(f"BUY {nestwords.buy_words(s)}") in text
        for nest in s.nests:
            for cut in nestwords.cuts_of(nest, units):
                assert bare(cut.piece) in text
                assert all(bare(given) in text for given in cut.gives)
    assert cut_pdf(c, drawings[name].identity, to_buy(judged[name], drawings[name])) == papers[name]["cuts.pdf"]
