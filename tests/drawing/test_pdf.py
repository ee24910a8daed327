"""The template measured back: with a PDF reader, and as pixels."""

import io
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from tests.drawing.rasters import page
from transom.drawing import notes
from transom.drawing.band import square_box, square_side
from transom.drawing.pdf import laid_out, scenes, template
from transom.drawing.records import ASSUMED, ENGINE, Drawing
from transom.drawing.shapes import Box
from transom.drawing.tiles import MARGIN, OVERLAP, PAPERS, Layout, lay_out

Drawn = dict[str, Drawing]
NEAR = 0.1  # mm, of squares and holes at 100 %


def opened(data: bytes) -> tuple[PdfReader, pypdfium2.PdfDocument]:
    return PdfReader(io.BytesIO(data)), pypdfium2.PdfDocument(data)


def tiles(d: Drawing, paper: str, holes_only: bool = False) -> list[tuple[Layout, int, int]]:
    """Every tile in the order of its page."""
    layouts = laid_out(d, scenes(d, holes_only), PAPERS[paper])
    return [(f, i, j) for f in layouts for i, j in f.tiles]


@pytest.fixture(scope="module")
def letter(drawings: Drawn) -> bytes:
    return template(drawings["pontoon-40hp"], "letter")


def test_the_same_drawing_gives_the_same_bytes(drawings: Drawn, letter: bytes) -> None:
    assert template(drawings["pontoon-40hp"], "letter") == letter


def test_check_squares_measure_true_in_both_directions(drawings: Drawn, letter: bytes) -> None:
    d = drawings["pontoon-40hp"]
    reader, document = opened(letter)
    found = tiles(d, "letter")
    first = len(reader.pages) - len(found)
    for k in (0, len(found) // 2, len(found) - 1):
        layout = found[k][0]
        box, side = square_box(layout, "us"), square_side(layout, "us")
        assert box.width == box.height == pytest.approx(side)
        p = page(document, first + k)
        inside = (box.y_lo + 0.5 * side + 3, box.y_hi - 2)
        left, right = (p.line_at(x, inside, upright=True) for x in (box.x_lo, box.x_hi))
        inside = (box.x_lo + 2, box.x_hi - 2)
        bottom, top = (p.line_at(y, inside, upright=False) for y in (box.y_lo, box.y_hi))
        assert right - left == pytest.approx(side, abs=NEAR)
        assert top - bottom == pytest.approx(side, abs=NEAR)


@pytest.mark.parametrize(
    ("name", "paper"), [("pontoon-40hp", "letter"), ("uprights-90hp", "a4"), ("runabout-60hp", "tabloid")]
)
def test_holes_of_the_holes_template_stand_and_measure_true(name: str, paper: str, drawings: Drawn) -> None:
    d = drawings[name]
    reader, document = opened(template(d, paper, holes_only=True))
    found = tiles(d, paper, holes_only=True)
    first = len(reader.pages) - len(found)
    measured: dict[str, tuple[float, float]] = {}
    for k, (layout, i, j) in enumerate(found):
        seen, w = layout.seen(i, j), layout.window
        p = page(document, first + k)
        for h in d.of(ENGINE):
            ring = Box(h.y - 14, -h.down - 14, h.y + 14, -h.down + 14)
            if not seen.holds(ring):
                continue
            x, y = h.y - seen.x_lo + w.x_lo, -h.down - seen.y_lo + w.y_lo
            for diameter in (h.over_bore, h.final):
                a, b, found_d = p.ring(x, y, diameter)
                assert (a, b) == pytest.approx((x, y), abs=NEAR)
                assert found_d == pytest.approx(diameter, abs=NEAR)
            measured[h.name] = (a - w.x_lo + seen.x_lo, b - w.y_lo + seen.y_lo)
    assert set(measured) == {"A", "B", "C", "D"}


def test_holes_only_takes_four_letter_pages_or_one_tabloid(drawings: Drawn) -> None:
    for d in drawings.values():
        assert len(tiles(d, "letter", holes_only=True)) <= 4
        assert len(tiles(d, "a4", holes_only=True)) <= 4
        assert len(tiles(d, "tabloid", holes_only=True)) == 1


def test_pages_taped_by_their_marks_put_the_board_together(drawings: Drawn, letter: bytes) -> None:
    """The aft face, tile over tile as the marks lie: edges of the board and holes across the seams."""
    d = drawings["pontoon-40hp"]
    reader, document = opened(letter)
    layout = tiles(d, "letter")[0][0]
    first = len(reader.pages) - len(tiles(d, "letter"))
    dx, dy = layout.inset()
    edges = {"left": [], "right": [], "top": [], "bottom": []}  # type: dict[str, list[float]]
    half, height = d.outline.width / 2, d.outline.height
    for k, (i, j) in enumerate(layout.tiles):
        p, w = page(document, first + k, 200.0), layout.window
        left, _, _, top = layout.marks(i, j)
        # A page's place in the view, by its upper left mark as printed.
        mark = w.x_lo + dx, w.y_hi - dy
        assert p.ring(*mark, 4.0)[:2] == pytest.approx(mark, abs=NEAR)
        for name, at, other, upright in (("left", -half, -30.0, True), ("right", half, -130.0, True),
                                         ("top", 0.0, 55.0, False), ("bottom", -height, 110.0, False)):  # fmt: skip
            x, y = (at, other) if upright else (other, at)
            on = mark[0] + x - left, mark[1] + y - top
            if not (w.x_lo + 8 < on[0] < w.x_hi - 8 and w.y_lo + 8 < on[1] < w.y_hi - 8):
                continue
            near, along = (on[0], on[1]) if upright else (on[1], on[0])
            found = p.line_at(near, (along - 3, along + 3), upright)
            edges[name].append(found - near + at)
    assert all(edges.values())
    for name, at in (("left", -half), ("right", half), ("top", 0.0), ("bottom", -height)):
        assert edges[name] == pytest.approx([at] * len(edges[name]), abs=NEAR)


def test_nothing_is_printed_in_the_margins(drawings: Drawn, letter: bytes) -> None:
    for data in (letter, template(drawings["uprights-90hp"], "a4", holes_only=True)):
        _, document = opened(data)
        for k in range(len(document)):
            p = page(document, k, 72.0)
            edge = int(p.pixels(MARGIN - 0.4))
            inner = np.zeros_like(p.dark)
            inner[edge:-edge, edge:-edge] = p.dark[edge:-edge, edge:-edge]
            assert (p.dark - inner).max() < 0.05, f"page {k + 1}"


def test_every_page_says_which_paper_which_job_and_how_to_print(drawings: Drawn, letter: bytes) -> None:
    _, document = opened(letter)
    d, count = drawings["pontoon-40hp"], len(document)
    for number, p in enumerate(document, 1):
        text = " ".join(p.get_textpage().get_text_range().split())
        assert notes.paper_words(d.identity) in text
        assert "JOB 1042" in text
        assert "rev A" in text
        assert f"of {count}" in text
        if number > count - len(tiles(d, "letter")):
            assert "Print at 100 %, never fit" in text
            assert f"DRAFT: {len(d.identity.draft)} to measure" in text


def test_every_page_of_a_mount_that_fails_says_so_and_every_tile_names_the_stops_passed_over(drawings: Drawn) -> None:
    taken = ("plate-power-unreadable: accepted by A. Name, 2026-05-04, on builder's letter",
             "unsealed-wood: accepted by A. Name, 2026-05-04, on owner's letter")  # fmt: skip
    d = drawings["uprights-90hp"]
    d = replace(d, identity=replace(d.identity, accepted=taken))
    for paper, holes_only in (("a4", False), ("letter", True)):
        reader, _ = opened(template(d, paper, holes_only))
        for p in reader.pages[-len(tiles(d, paper, holes_only)) :]:
            text = " ".join(p.extract_text().split())
            assert "DOES NOT PASS" in text
            for stop in taken:
                assert f"STOP passed over: {stop}" in text
        front = " ".join(" ".join(p.extract_text() for p in reader.pages).split())
        assert f"DOES NOT PASS: {d.identity.fails[0]}"[:50] in front


def test_the_cover_carries_lengths_to_measure_and_every_caution(drawings: Drawn, letter: bytes) -> None:
    reader, _ = opened(letter)
    text = " ".join(" ".join(p.extract_text() for p in reader.pages[:3]).split())
    assert "diagonal, top port to bottom starboard: 30 in" in text
    assert "A to B: 12-7/8 in" in text
    assert "Accept: each within 1/32 in" in text
    for words in drawings["pontoon-40hp"].identity.cautions:
        assert words.split(":")[0][:40] in text
    assert "Epoxy burns skin" in text


def test_three_pages_to_read_stand_before_the_tiles(drawings: Drawn, letter: bytes) -> None:
    d = drawings["pontoon-40hp"]
    reader, _ = opened(letter)
    first = len(reader.pages) - len(tiles(d, "letter"))
    for p, name in zip(reader.pages[first - 3 : first], ("AFT FACE", "FORWARD FACE", "SECTION"), strict=True):
        text = " ".join(p.extract_text().split())
        assert name in text
        assert "full size; dimensions" in text or "not to scale; dimensions" in text
    assert "12-7/8 in" in reader.pages[first - 3].extract_text()


def test_no_user_text_is_run_or_lost_sight_of(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    name = "<b>bold</b> & \\pard (x) Tj " + "endlessly long name " * 40 + "Łódź 鉄"
    d = replace(d, identity=replace(d.identity, name=name))
    reader, document = opened(template(d, "letter", holes_only=True))
    text = " ".join(reader.pages[-1].extract_text().split())
    assert "<b>bold</b> & \\pard (x) Tj endlessly" in text
    assert "..." in text
    assert len(document) == len(reader.pages)


# How a view is cut


LENGTHS = st.floats(20.0, 1400.0)


@settings(max_examples=120)
@given(LENGTHS, LENGTHS, st.sampled_from(sorted(PAPERS)), st.sampled_from(["us", "si"]))
def test_tiles_cover_the_view_and_lie_over_one_another(width: float, height: float, paper: str, units: str) -> None:
    view = Box(-width / 2, -height, width / 2, 0.0)
    f = lay_out(view, PAPERS[paper], units)
    inner = Box(MARGIN, MARGIN, f.page[0] - MARGIN, f.page[1] - MARGIN).grown(1e-9)
    assert inner.holds(f.window)
    assert inner.holds(f.band)
    assert not f.window.grown(-1e-9).meets(f.band)
    seen = [f.seen(i, j) for i, j in f.tiles]
    assert min(s.x_lo for s in seen) <= view.x_lo + 1e-6
    assert max(s.x_hi for s in seen) >= view.x_hi - 1e-6
    assert min(s.y_lo for s in seen) <= view.y_lo + 1e-6
    assert max(s.y_hi for s in seen) >= view.y_hi - 1e-6
    for i, j in f.tiles:
        here = f.seen(i, j)
        if i + 1 < f.columns:
            assert here.x_hi - f.seen(i + 1, j).x_lo >= OVERLAP - 1e-6
        if j + 1 < f.rows:
            assert f.seen(i, j + 1).y_hi - here.y_lo >= OVERLAP - 1e-6
    assert inner.holds(square_box(f, units))


@pytest.mark.parametrize(("units", "step"), [("us", 6.35), ("si", 5.0)])
def test_marks_stand_a_round_number_apart(units: str, step: float) -> None:
    for paper in PAPERS.values():
        f = lay_out(Box(0.0, -460.0, 620.0, 0.0), paper, units)
        for apart in f.step:
            assert apart / step == pytest.approx(round(apart / step))


def test_holes_of_a_bracket_that_nobody_measured_say_so_on_every_tile(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    assumed = replace(d, holes=tuple(replace(h, place=ASSUMED) for h in d.holes))
    reader, _ = opened(template(assumed, "letter", holes_only=True))
    for p in reader.pages[-len(tiles(assumed, "letter", holes_only=True)) :]:
        assert "ENGINE HOLES ASSUMED: drill to the bracket" in " ".join(p.extract_text().split())


# The same by the file's own numbers


def drawn_by(reader: PdfReader, number: int) -> tuple[list[tuple[float, float]], list[tuple[float, float, float]]]:
    """Rectangles (width, height) and circles (x, y, diameter) of a page, mm, from its drawing commands."""
    from pypdf.generic import ContentStream

    scale, at = 25.4 / 72, [(0.0, 0.0)]
    rectangles, circles = [], []
    start, ends = (0.0, 0.0), []  # type: tuple[float, float], list[tuple[float, float]]
    for operands, operator in ContentStream(reader.pages[number].get_contents(), reader).operations:
        values = [float(v) for v in operands if isinstance(v, int | float)]
        if operator == b"q":
            at.append(at[-1])
        elif operator == b"Q":
            at.pop()
        elif operator == b"cm":
            # Only words are turned; they have no circles.
            at[-1] = at[-1][0] + values[4], at[-1][1] + values[5]
        elif operator == b"re":
            rectangles.append((values[2] * scale, values[3] * scale))
        elif operator == b"m":
            start, ends = (values[0], values[1]), []
        elif operator == b"c":
            ends.append((values[4], values[5]))
            if len(ends) == 4 and ends[-1] == pytest.approx(start, abs=1e-3):
                xs, ys = zip(*ends, strict=True)
                middle = (max(xs) + min(xs)) / 2 + at[-1][0], (max(ys) + min(ys)) / 2 + at[-1][1]
                circles.append((middle[0] * scale, middle[1] * scale, (max(xs) - min(xs)) * scale))
    return rectangles, circles


def test_every_tile_has_its_check_square_by_the_files_own_numbers(drawings: Drawn, letter: bytes) -> None:
    reader, _ = opened(letter)
    found = tiles(drawings["pontoon-40hp"], "letter")
    first = len(reader.pages) - len(found)
    for k, (layout, _, _) in enumerate(found):
        side = square_side(layout, "us")
        rectangles, _ = drawn_by(reader, first + k)
        assert sum(r == pytest.approx((side, side), abs=0.01) for r in rectangles) == 1


def test_holes_by_the_files_own_numbers(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    reader, _ = opened(template(d, "tabloid", holes_only=True))
    ((layout, i, j),) = tiles(d, "tabloid", holes_only=True)
    seen, w = layout.seen(i, j), layout.window
    _, circles = drawn_by(reader, len(reader.pages) - 1)
    for h in d.of(ENGINE):
        for diameter in (h.over_bore, h.final):
            ring = h.y - seen.x_lo + w.x_lo, -h.down - seen.y_lo + w.y_lo, diameter
            assert any(c == pytest.approx(ring, abs=0.01) for c in circles), h.name
