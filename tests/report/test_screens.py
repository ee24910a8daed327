"""What a fabricator and a shop lead see: width, order, plain words, nothing the stream cannot print."""

import re
from dataclasses import replace

import pytest

from tests.report.jobs import TEXTS, job, reviewed, sized
from transom.catalogue import SHIPPED
from transom.job.records import Backing, Corners
from transom.judge.judging import judge
from transom.report.cures_by_mount import cures_of_failing_mount, cures_where_nothing_works
from transom.report.details import details
from transom.report.page import holds, used
from transom.report.parts import not_looked_at
from transom.report.review_screen import review_screen
from transom.report.ruler import next_mark
from transom.report.shopping import board
from transom.report.size_screen import size_screen
from transom.report.text import ASCII, BLOCKS, WIDTH, bars_for, printable
from transom.report.words import CHECKS, CLAMPED, NUMBERED
from transom.result import Assumption

WORK = ("example", "metric", "clamps", "unknown", "unread plate", "accepted")


def screen(name: str) -> list[str]:
    return size_screen(sized(name), ASCII)


@pytest.mark.parametrize("name", TEXTS)
def test_every_screen_is_eighty_columns(name: str) -> None:
    lines = [*screen(name), *details(sized(name))]
    if sized(name).mount is not None:
        lines += review_screen(reviewed(name), ASCII)
    long = [line for line in lines if len(line) > WIDTH]
    assert WIDTH < 80
    assert not long
    assert all(line == line.rstrip() for line in lines)


def test_what_is_cut_out_of_the_board_stands_under_it() -> None:
    j, mount = reviewed("example"), sized("example").mount
    assert mount is not None
    gone = replace(
        j.job.board, notch_width=152.4, notch_depth=25.4, bottom_corners=Corners(76.2, 101.6), top_corners=Corners()
    )
    square, cut = (
        " ".join(words for _, words in board(replace(j, job=replace(j.job, board=b)), mount))
        for b in (j.job.board, gone)
    )
    assert "cut out" not in square
    assert cut == (
        f"{square} cut out: top notch 6 in x 1 in deep, both bottom corners, straight, 3 in along the edge x 4 in up the side"
    )


@pytest.mark.parametrize("name", WORK)
def test_the_answer_is_in_the_first_24_lines(name: str) -> None:
    top = "\n".join(screen(name)[:24])
    headline = "STOP" if name == "unread plate" else "WORKS"
    assert re.search(rf"^ {headline}", top, re.MULTILINE)
    wanted = ["BOARD", "TOTAL", "ENGINE", "comes out", "face grain"]
    if name != "clamps":
        wanted += ["PLATE", "TORQUE", "HOLES", "lower pair", "final drill"]
    assert [w for w in wanted if w not in top] == []


@pytest.mark.parametrize("name", TEXTS)
def test_no_formula_greek_clause_or_code_above_the_checks(name: str) -> None:
    lines = screen(name)
    above = "\n".join(lines[: next(i for i, line in enumerate(lines) if line.startswith(" ---"))])
    assert not re.search(r"\bEN ?1|NDS|D510|ISO|EC5|CFR|§|[α-ωΑ-Ω]|γ|k_mod|[fFM]_\w|=\s*\d", above.replace(" ====", ""))


def test_the_example_reads_as_its_judgement_does() -> None:
    j, text = sized("example"), "\n".join(screen("example"))
    assert j.mount is not None
    assert j.mount.engine_bolts is not None
    assert "24 x 18 in" in text
    assert f"{len(j.mount.layers)} layers of 3/4 in" in text
    # 12-7/8 and 9-7/8 in apart, 1-7/8 in down and 8 in further: the job's own tape.
    assert re.search(r"upper pair\s+6-7/16 in\s+1-7/8 in\s+1 in\s+17/32 in", text)
    assert re.search(r"lower pair\s+4-15/16 in\s+9-7/8 in\s+1 in\s+17/32 in", text)
    assert f"{round(100 * j.governing.utilisation)} % of limit" in text
    assert "Builder's plate: 50 hp, stop there." in " ".join(text.split())
    assert f"after you measure {len(j.to_measure)} things" in text


def test_si_reads_millimetres_and_its_own_spelling() -> None:
    text = "\n".join(screen("metric"))
    assert "610 x 457 mm" in text
    assert "from centre line" in text
    assert "aluminium" in text
    assert re.search(r"\d kg\b", text)
    answer = text.split(" ----")[0]
    assert not re.search(r"\d lb|lbf|lb-ft|aluminum|center line", text.split("CAREFUL")[0])
    # What is sold by the inch keeps its name; nothing else reads in inches.
    assert set(re.findall(r"[\d/-]+ in\b", answer)) <= {"3/4 in", "1/2 in", "3/8 in"}


def test_us_reads_inches() -> None:
    text = "\n".join(screen("example")).split("CAREFUL")[0]
    assert "aluminum" in text
    assert "center line" in text
    assert not re.search(r"\d mm\b|\d kg\b|\d kN|aluminium|centre", text.split("NOTE")[0])


def test_a_stop_hides_no_number_and_names_how_to_accept_it() -> None:
    text = "\n".join(screen("unread plate"))
    assert not sized("unread plate").passes
    assert "STOP - do not build from this: 1 reason" in text
    assert "what follows is strong enough" in text
    assert "BOARD" in text
    assert "WEAKEST LINK" in text
    assert "plate-power-unreadable" in text
    assert "[[accept]]" in text


def test_a_stop_passed_over_says_by_whom_on_what_paper() -> None:
    lines = screen("accepted")
    assert sized("accepted").passes
    top = " ".join(" ".join(lines[:24]).split())
    assert "STOP PASSED OVER, plate-power-unreadable: accepted by A. Shoplead, 2026-05-04, on builder's letter" in top


def test_nothing_works_tells_the_nearest_miss_and_the_cure() -> None:
    j, text = sized("too large"), "\n".join(screen("too large"))
    assert j.mount is None
    assert j.sizing is not None
    assert j.sizing.nearest_miss is not None
    assert " DOES NOT WORK" in text
    assert text.count("FAILS") == len(j.sizing.nearest_miss.failing)
    assert "NEEDS" in text
    assert "metal bracket" in text.split("WHAT WOULD CURE IT")[1]


def test_a_cure_that_was_tried_passes_with_its_share() -> None:
    # One thin sheet carries nothing; the shipped tables do.
    thin = job("example")
    thin = replace(thin, stock=replace(thin.stock, sheets=("3/8 in",), most_sheets=3))
    (cure,) = cures_where_nothing_works(thin, SHIPPED)
    assert not cure.judgement.failing
    assert re.search(r"That works: .* weakest link \d+ %", cure.words("us"))


def failing():  # type: ignore[no-untyped-def]
    """The example's pick on small washers and one sheet fewer."""
    j = sized("example")
    assert j.mount is not None
    assert j.mount.engine_bolts is not None
    weak = replace(j.mount, layers=j.mount.layers[:2],
                   engine_bolts=replace(j.mount.engine_bolts, length=76.2, forward=Backing(washer="1/2 regular")))  # fmt: skip
    return judge(job("example"), SHIPPED, weak)


def test_review_counts_failures_and_says_each_with_its_numbers() -> None:
    j = failing()
    text = "\n".join(review_screen(j, ASCII, cures_of_failing_mount(job("example"), SHIPPED)))
    assert f"DOES NOT PASS {len(j.failing)} of {len(j.worst)}. No stops." in text
    assert text.count("\n FAILS") == len(j.failing)
    assert re.search(r"CURE from your stock: .* That works: .* weakest link \d+ %", " ".join(text.split()))
    assert "may carry" in text


def test_review_of_what_passes() -> None:
    j = reviewed("example")
    text = "\n".join(review_screen(j, ASCII))
    assert f"PASSES {len(j.worst)} of {len(j.worst)}. No stops. {len(not_looked_at(j))} parts not looked at." in text
    assert "PENCIL" in text
    assert "RESTS ON" in text
    close = [c for c in j.worst if c.case != "once" and c.utilisation >= j.job.second_look]
    assert "above your second-look line" in text
    assert ("nothing that passes" in text) == (not close)


@pytest.mark.parametrize("name", WORK)
def test_every_check_has_words_that_fit_a_bar(name: str) -> None:
    unsaid = {
        (c.part, c.what)
        for c in sized(name).checks
        if (c.part, c.what) not in CHECKS and (c.part, c.what.rpartition("-")[0]) not in NUMBERED
    }
    assert not unsaid
    assert max(len(w) for w in (*CHECKS.values(), *CLAMPED.values())) <= 41


@pytest.mark.parametrize("encoding", ("ascii", "cp1252", "utf-8", None))
@pytest.mark.parametrize("name", ("example", "silly"))
def test_any_stream_can_print_it(name: str, encoding: str | None) -> None:
    lines = [*size_screen(sized(name), bars_for(encoding)), *details(sized(name))]
    text = printable("\n".join(lines), encoding)
    text.encode(encoding or "ascii")
    assert all(c == "\n" or c.isprintable() for c in text)
    assert text.count("\n") == len(lines) - 1
    if name == "silly":
        assert "<b>[red]x[/red]" in text


def test_bars_by_the_encoding() -> None:
    assert bars_for("utf-8") is BLOCKS
    assert bars_for("cp1252") is ASCII
    assert bars_for("ascii") is ASCII
    assert bars_for(None) is ASCII
    assert bars_for("no-such-encoding") is ASCII
    assert ASCII.draw(0.5, 10) == "#####....."
    assert ASCII.draw(1.7, 10) == "##########"
    assert ASCII.draw(0.999, 10) == "##########"


def test_characters_an_encoding_lacks_become_their_nearest() -> None:
    assert printable("48 × 96 ≤ ½ é 日", "ascii") == "48 x 96 <= 1/2 e ?"
    assert printable("48 × 96 ≤ ½ é", "cp1252") == "48 × 96 <= ½ é"
    assert printable("a\x1b[31mb\tc", "utf-8") == "a?[31mb?c"


@pytest.mark.parametrize("name, push, mark", [("example", "180 lb", r"\d+/32 in"), ("metric", "80 kg", r"\d+ mm")])
def test_ruler_check_says_push_point_and_when_to_stop(name: str, push: str, mark: str) -> None:
    for lines in (screen(name), review_screen(reviewed(name), ASCII)):
        text = " ".join(" ".join(lines).split())
        assert re.search(rf"RULER CHECK {push} on the cav plate, [\d/-]+ (in|mm) aft of the board, leg down, moves"
                         rf" the middle of the top edge (about|less than) \S+ (in|mm) .*{mark} or more: stop and look", text)  # fmt: skip


def test_clamp_screws_are_no_bolts_and_a_point_below_the_edge_is_told_apart() -> None:
    """A cap rail holds the top edge, so that another point moves most; the pencil line is of the screws."""
    text = " ".join(" ".join(review_screen(reviewed("clamps"), ASCII)).split())
    assert re.search(r"moves the board, \S+ in below its top edge, (about|less than) \S+ in against", text)
    pencil_line = text.split(" PENCIL ")[1].split("Careful method")[0]
    assert "/ 2 clamp screws / " in pencil_line
    assert "bolts" not in pencil_line


def test_a_movement_shown_is_under_the_mark_to_stop_at() -> None:
    for units, step in (("us", 25.4 / 64), ("si", 0.1)):
        for n in range(1, 4000):
            moves = n / 500
            shown = round(moves / step) * step
            assert shown < next_mark(1.5 * moves, units) + 1e-9, (units, moves)


def test_a_board_thicker_than_brackets_seen_works_only_if() -> None:
    j = replace(sized("example"), job=replace(job("example"), engine=replace(job("example").engine, takes=None)))
    beyond = replace(j, total=120.0)
    assert " WORKS only if your bracket takes 4-3/4 in" in "\n".join(size_screen(beyond, ASCII))
    assert "WORKS only" not in "\n".join(size_screen(replace(j, total=50.0), ASCII))


@pytest.mark.parametrize("name", TEXTS)
def test_cut_is_said_only_of_what_passes_with_nothing_left_to_measure(name: str) -> None:
    j, text = sized(name), "\n".join(screen(name))
    if "CUT:" in text or j.paper == "CUT":
        assert j.passes
        assert "MEASURE BEFORE YOU CUT" not in text
    if not j.passes:
        assert j.paper == "QUOTE"
        assert "nothing is to be cut from it" in " ".join(text.split())


def test_a_pair_of_metals_is_cautioned_once() -> None:
    own = [c for c in sized("example").cautions if " V apart" in c]
    assert len(own) == len({c.split(": ", 1)[1] for c in own})
    assert any("in the bracket; engine bolts in the backing: stainless" in c for c in own)


def test_details_show_both_methods_side_by_side() -> None:
    j, text = sized("example"), " ".join(" ".join(details(sized("example"))).split())
    twins = sum(c.method == "plate" for c in j.worst)
    assert twins > 3
    assert len(re.findall(r"careful method; pencil method \d+ %, \d+\.\d\d times as much", text)) >= twins - 1


@pytest.mark.parametrize(
    "key, used_at, end, units, says",
    [
        ("crossmembers.wall", 2.31, 2.19, "us", ("0.091 in", "down to 0.087 in")),
        ("crossmembers.wall", 2.31, 2.19, "si", ("2.31 mm", "down to 2.19 mm")),
        ("frame.flange.thickness", 4.7625, 4.0, "us", ("0.188 in", "down to 0.158 in")),
        ("engine.bracket.ear", 19.05, 18.0, "us", ("0.75 in", "down to 0.709 in")),
        ("crossmembers.apart", 406.4, 325.2, "us", ("16 in", "down to 12-13/16 in")),
    ],
)
def test_what_a_caliper_measures_reads_in_decimals_rounded_to_the_safe_side(
    key: str, used_at: float, end: float, units: str, says: tuple[str, str]
) -> None:
    a = Assumption(key, used_at, "mm", "estimate", "memory", "a table", end, None, "metal", "caliper")
    assert (used(a, units), holds(a, units)) == says


def test_metal_used_and_metal_needed_never_read_alike_unless_there_is_no_room() -> None:
    j = sized("example")
    rows = [
        (a, used(a, "us"), holds(a, "us")) for a in j.assumptions if a.key.endswith((".wall", ".thickness", ".ear"))
    ]
    assert any(a.holds_from is not None for a, _, _ in rows)
    assert all(not said.endswith(f"to {shown}") for _, shown, said in rows)
