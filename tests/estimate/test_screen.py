"""The estimator's screen: what it must say whatever the job is, within 79 columns, and nothing hidden."""

import json
import math
from dataclasses import replace
from pathlib import Path

import pytest

from tests.estimate.shop import BOOK, JOB, OVER_PLATE, PASSING, book, judged, priced
from transom.catalogue import SHIPPED
from transom.cli.main import main
from transom.estimate.book import Book
from transom.estimate.build import estimate
from transom.estimate.reading import from_tables, shipped
from transom.estimate.records import Estimate
from transom.estimate.ways import Way, beats, ends, marked, ways
from transom.job.read import loads
from transom.job.syntax import parse
from transom.judge.judging import judge
from transom.report.money.books import to_json
from transom.report.money.screen import estimate_screen, sentence
from transom.report.money.words import count_words, line_words
from transom.report.text import printable


def screen(e: Estimate, *, others: bool = False) -> str:
    return "\n".join(estimate_screen(e, ways(e) if others else (), ()))


def of(text: str, b: Book | None = None) -> Estimate:
    job = loads(text)
    assert job.mount is not None
    return estimate(judge(job, SHIPPED, job.mount, careful=False), b or book())


@pytest.mark.parametrize("e", [priced(), priced(shipped()), priced(Book("empty"))], ids=["own", "sample", "empty"])
def test_it_fits_80_columns_and_prints_anywhere(e: Estimate) -> None:
    lines = estimate_screen(e, (), ())
    assert max(map(len, lines)) <= 79
    assert all(printable(line, "cp1252") for line in lines)
    printable("\n".join(lines), "ascii").encode("ascii")


def test_the_sentence_to_say_aloud() -> None:
    assert sentence(priced()) == (
        "As it stands this does not pass, so it is no promise. About $1,900 if it is only the board, $2,300 if the edges round it are eaten, around $3,800 if the frame is hurt;"
        " we stop and call you before anything over $2,350"
    )


def test_the_stated_amount_to_call_before_goes_first() -> None:
    text = JOB.replace('customer = "A. Boater"', 'customer = "A. Boater"\ncall_before = 2111.5')
    assert sentence(of(text)).endswith("before anything over $2,111.50")


def test_three_prices_hours_and_days_stand_side_by_side() -> None:
    text = screen(priced())
    for said in (
        "$1,901.94",
        "$2,269.53",
        "$3,768.99",
        "16.5 h",
        "engine off and on",
        "days on the calendar",
        "WHAT DECIDES",
    ):
        assert said in text, said


def test_a_missing_price_leaves_no_figure_that_looks_whole() -> None:
    b = book(("price = 149.95\nhalf = 82.50", 'price = "?"'))
    text = screen(priced(b))
    assert "I cannot say a price yet: 1 price still missing" in text
    assert "INCOMPLETE" in text
    assert 'MISSING: 3/4 in Douglas-fir marine plywood, 1 sheet: price "?"' in " ".join(text.split())
    total = next(line for line in text.splitlines() if line.startswith(" TOTAL"))
    assert total.count("*") == total.count("$") == 3


def test_an_empty_book_shows_no_sum_at_all() -> None:
    text = screen(priced(Book("empty")))
    assert "$0" not in text
    assert "the rate of an hour" in text


def test_old_prices_and_rates_not_given_are_said() -> None:
    b = book(
        ("date = 2026-04-01", "date = 2025-04-01"), ("wood = 0.25", 'wood = "?"'), ("other = 0.0825", 'wood = "?"')
    )
    text = " ".join(screen(priced(b)).split())
    assert "OLD, more than 180 days before the job's date" in text
    assert "OLD price of 2025-04-01" in text
    assert "no mark-up given, at cost: wood" in text
    assert "no tax given, before tax: epoxy, fasteners, metal, supplies, wood" in text


def test_without_a_date_the_age_cannot_be_told() -> None:
    e = of(JOB.replace("date = 2026-05-04", ""))
    assert "how old a price is cannot be told" in " ".join(screen(e).split())


def test_sample_prices_are_called_that() -> None:
    assert "SAMPLE PRICES, INVENTED" in screen(priced(shipped()))


def test_a_stop_still_prices_with_its_line() -> None:
    e = of(PASSING.replace(*OVER_PLATE))
    text = " ".join(screen(e).split())
    assert "DOES NOT PASS" in text
    assert "the engine is over the builder's plate" in text
    assert e.dry.total.likely > 1000


def test_what_no_line_stands_for_is_said() -> None:
    text = JOB.replace("[board]\n", '[engine.kicker]\npower = "5 hp"\n[board]\n').replace(
        'pocket = "none"',
        'pocket = "none"\nopenings = [{ y = "0 in", down = "16 in", diameter = "1 in", what = "drain" }]',
    )
    out = " ".join(screen(of(text)).split())
    assert "NOT PRICED: The kicker" in out
    assert "NOT PRICED: Drains" in out
    assert "NOT PRICED" not in screen(priced())


def test_every_caution_stands() -> None:
    text = " ".join(screen(priced()).split())
    assert "Not a survey and not approval" in text
    assert "epoxy burns skin" in text


def test_question_marks_are_priced_by_the_presets(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = (
        JOB.split("[mount]")[0]
        .replace('"24 in"', '"?"')
        .replace('"18 in"', '"?"')
        .replace('kind = "uprights"', 'kind = "pod"')
    )
    stock = '[stock]\npanels = ["douglas-fir-marine"]\nsheets = ["3/4 in"]\nmost_sheets = 3\n'
    (tmp_path / "job.toml").write_text(text.replace('at = ["-8 in", "8 in"]\n', "") + stock, encoding="utf-8")
    assert main(["estimate", str(tmp_path / "job.toml")]) in (0, 1)
    out = capsys.readouterr().out
    assert " SAY " in out
    assert "TOTAL, likely" in out


# Which way to build it


def way(*measures: float, incomplete: bool = False) -> Way:
    from decimal import Decimal

    cost, mass, hours, total, limit = measures
    mount = judged().mount
    assert mount is not None
    return Way(mount, Decimal(str(cost)), incomplete, mass, Decimal(str(hours)), total, limit, None, False)


def test_what_another_beats_is_not_marked() -> None:
    a, b, c, d = (
        way(100, 5, 16, 40, 0.9),
        way(110, 5, 16, 40, 0.9),
        way(120, 4, 16, 40, 0.9),
        way(1, 1, 1, 1, 0.1, incomplete=True),
    )
    assert beats(a, b)
    assert not beats(b, a)
    assert not beats(a, a)
    assert [w.best for w in marked([a, b, c, d])] == [True, False, True, False]


def test_builds_stand_side_by_side() -> None:
    e = of(PASSING)
    found = ways(e)
    assert found[0].picked
    assert found[0].cost == e.dry.total.likely
    assert len({w.mount for w in found}) == len(found) > 1
    assert all(w.limit <= 1.0 for w in found)


# A range of power


def test_a_range_is_priced_at_both_ends_each_with_its_stop() -> None:
    """9.9 hp under the plate of 25, 40 over it: the price there stands beside its line."""
    text = PASSING.replace('plate_power = "50 hp"', 'plate_power = "25 hp"').replace('"9.9 hp"', '"9.9 to 40 hp"')
    e = of(text)
    low, high = ends(e, SHIPPED)
    assert (round(low.power / 745.7, 1), round(high.power / 745.7, 1)) == (9.9, 40.0)
    assert low.stops == ()
    assert any("over the builder's plate" in s for s in high.stops)
    out = " ".join("\n".join(estimate_screen(e, (), (low, high))).split())
    assert "at 9.9 hp: $" in out
    assert "STOP: the engine is over the builder's plate" in out
    accept = (
        '[[accept]]\nstop = "over-builders-plate"\nby = "B. Owner"\ndate = 2026-05-04\npaper = "builder\'s letter"\n'
    )
    (said,) = ends(of(text + accept), SHIPPED)[1].stops
    assert said.startswith("STOP PASSED OVER: the engine is over the builder's plate")
    assert "B. Owner" in said
    assert low.estimate.dry.total.likely <= high.estimate.dry.total.likely


def test_one_power_has_no_ends() -> None:
    assert ends(priced(), SHIPPED) == ()


def test_a_passing_mount_prices_with_0_and_prints_one_object(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "job.toml").write_text(PASSING, encoding="utf-8")
    (tmp_path / "p.toml").write_text(BOOK.replace("rate = 90", "rate = inf"), encoding="utf-8")
    assert main(["estimate", str(tmp_path / "job.toml"), "--prices", str(tmp_path / "p.toml")]) == 2
    assert "finite" in capsys.readouterr().err
    assert replace(from_tables(parse(BOOK), "x"), source="a test's book") == book()


def test_clamps_need_no_bolts_and_a_chain_is_not_priced() -> None:
    text = PASSING.split("[mount.engine_bolts]")[0].replace("[engine.bracket]", 'held_by = "clamps"\n[engine.bracket]')
    job = loads(text)
    assert job.mount is not None
    e = estimate(judge(job, SHIPPED, job.mount, careful=False), book())
    assert e.work.engine_bolts == e.work.plates == 0
    assert not [x for x in e.dry.lines if x.kind == "plate" or (x.kind == "bolt" and x.name.startswith("1/2"))]
    assert "NOT PRICED: Safety chain" in " ".join(screen(e).split())


def test_a_number_without_end_is_no_json_number() -> None:
    e = priced()
    data = json.loads(to_json(e, [replace(marked([way(1, 1, 1, 1, 1)])[0], limit=math.inf)], ()))
    assert data["ways"][0]["of_limit"] is None
    assert data["cases"][0]["total"]["likely"] == "1901.94"
    empty = json.loads(to_json(priced(Book("empty")), (), ()))
    assert empty["cases"][0]["total"] is None
    assert empty["complete"] is False
    assert len(empty["cases"][2]["missing"]) == len(empty["lines"])


def test_a_shop_too_cold_for_the_glue_is_said() -> None:
    e = of(JOB.replace("date = 2026-05-04", 'date = 2026-05-04\ntemperature = "58 F"'))
    assert "the shop at 58 F: structural epoxy does not cure below 61 F" in " ".join(screen(e).split())
    assert "does not cure below" not in screen(
        of(JOB.replace("date = 2026-05-04", 'date = 2026-05-04\ntemperature = "68 F"'))
    )


@pytest.mark.parametrize(("units", "said"), [
    ("us", ("1 packet of 10 m (32.8 ft)", "1 L (1.1 qt)", "0.74 sq ft", "1 kit of 0.50 qt", "1/4 in 6061-T6 aluminum plate")),
    ("si", ("1 packet of 10 m", "1 L", "0.069 m2", "1 kit of 0.47 L", "6.4 mm 6061-T6 aluminium plate")),
])  # fmt: skip
def test_what_is_sold_in_metric_keeps_its_name(units: str, said: tuple[str, ...]) -> None:
    e = of(JOB.replace("date = 2026-05-04", f'date = 2026-05-04\nunits = "{units}"'))
    text = "\n".join(f"{line_words(x, SHIPPED, units)}\n{count_words(x, units)}\n" for x in e.dry.lines)
    for words in said:
        assert f"{words}\n" in text, words
    assert max(map(len, estimate_screen(e, (), ()))) <= 79
