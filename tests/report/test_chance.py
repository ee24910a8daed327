"""Chances and what to measure first in words, on the page and as JSON: for comparison only, and only where asked."""

import json
from dataclasses import replace

import pytest

from tests.report.jobs import EXAMPLE
from transom.catalogue import SHIPPED
from transom.chance.sampling import Uncertainty, uncertainty
from transom.job.read import load
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.chance import chance_block, chance_data, chance_words, first_block, first_data
from transom.report.html.page import to_html


@pytest.fixture(scope="module")
def judged() -> Judgement:
    job = load(EXAMPLE.with_name("runabout-60hp.toml"))
    assert job.mount is not None
    return judge(job, SHIPPED, job.mount)


@pytest.fixture(scope="module")
def found(judged: Judgement) -> Uncertainty:
    return uncertainty(judged, 1500)


@pytest.mark.parametrize(
    ("over", "n", "low", "high", "words"),
    [
        (30, 10_000, 0.0021, 0.0043, "about 3 in 1,000 (2 to 5)"),
        (1, 10_000, 0.0000177, 0.000566, "about 1 in 10,000 (under 1 to 6)"),
        (1825, 10_000, 0.1751, 0.1902, "about 18 in 100 (17 to 20)"),
        (9_999, 10_000, 0.9994, 0.99998, "about 100 in 100 (99 to 100)"),
        (100, 1000, 0.083, 0.12, "about 10 in 100 (8 to 12)"),
        (0, 10_000, 0.0, 0.000384, "none seen, fewer than 4 in 10,000"),
        (500, 500, 0.992, 1.0, "every sample of 500"),
    ],
)
def test_a_chance_in_words_is_rounded_outwards(over: int, n: int, low: float, high: float, words: str) -> None:
    assert chance_words(over, n, low, high) == words


def test_every_chance_on_the_screen_says_what_it_is_for(judged: Judgement, found: Uncertainty) -> None:
    lines = list(chance_block(judged, found))
    assert all(len(line) < 80 for line in lines)
    text = " ".join(" ".join(lines).split())
    assert text.count("chance of going over") == text.count(", for comparison only -") + text.count(
        ", for comparison only caused"
    )
    assert "Safety factors are taken off" in text
    assert "any link at all" in text


def test_a_failing_mount_is_not_talked_up(judged: Judgement, found: Uncertainty) -> None:
    words = "THIS MOUNT DOES NOT PASS"
    failing = replace(judged, checks=(replace(judged.checks[0], demand=2.0, resistance=1.0), *judged.checks[1:]))
    assert not any(words in line for line in chance_block(judged, found))
    assert any(words in line for line in chance_block(failing, found))


def test_the_page_has_chances_only_where_they_are_handed_over(judged: Judgement, found: Uncertainty) -> None:
    without, with_it = to_html(judged), to_html(judged, chance=found)
    assert "outgrows strength" not in without
    assert "Chance that load outgrows strength, for comparison only" in with_it
    assert "What to measure first" in without


def test_json_is_finite_and_says_comparison(found: Uncertainty) -> None:
    data = json.loads(json.dumps(chance_data(found), allow_nan=False))
    assert data["for"] == "comparison"
    assert data["safety_factors"] is False
    assert {c["check"] for c in data["checks"]} >= {"board.bending.ec5.plate", "engine-bolts.shear.ec3.hand"}
    assert all(c["interval"][0] <= c["chance"] <= c["interval"][1] for c in [data["any"], *data["checks"]])


def test_what_to_measure_first_stands_in_order(judged: Judgement) -> None:
    data = first_data(judged)
    moves = [max(*e["weakest"], e["weakest_as_used"]) - min(*e["weakest"], e["weakest_as_used"]) for e in data]
    assert moves == sorted(moves, reverse=True)
    assert data
    assert data[0]["weakest_as_used"] == pytest.approx(judged.governing.utilisation)
    lines = list(first_block(judged))
    assert all(len(line) < 80 for line in lines)
    assert "MEASURE FIRST" in lines[0]
