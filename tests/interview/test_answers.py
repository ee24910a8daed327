"""What is typed at a question, against what the job file then holds."""

import datetime as dt
from typing import Any

import pytest

from transom.interview.answers import answer, file_answers
from transom.interview.questions import FULL, QUICK, YES_OR_NO, Question
from transom.job.faults import Fault
from transom.job.schema import keys

ASKED = {q.path: q for stop in FULL for q in stop.asks}


@pytest.mark.parametrize(
    ("path", "typed", "stands", "read_back"),
    [
        ("board.width", "24", "24 in", "24 in (610 mm)"),
        ("board.width", "20 1/2", "20 1/2 in", "20.5 in (521 mm)"),
        ("board.width", "610 mm", "610 mm", "24 in (610 mm)"),
        ("board.pocket", "none", "none", "none"),
        ("board.lean", "12", "12 deg", "12 deg"),
        ("engine.power", "40", "40 hp", "40 hp (29.8 kW)"),
        ("engine.power", "40 to 60", "40 to 60 hp", "40 hp (29.8 kW) to 60 hp (44.7 kW), sized for the top"),
        ("engine.takes", "1-1/4 to 2-3/4", ["1-1/4 in", "2-3/4 in"], "1.25 in (31.8 mm) to 2.75 in (69.8 mm)"),
        ("boat.kind", "pont", "pontoon", "pontoon"),
        ("boat.kind", "2", "aluminium hull", "aluminium hull"),
        ("boat.trailer", "y", True, "yes"),
        ("boat.plate_power", "cannot read", "cannot read", "cannot read"),
        ("frame.bolts.size", "M10", "M10", "M10"),
        ("frame.bolts.count", "8", 8, "8"),
        ("job.date", "2026-11-25", dt.date(2026, 11, 25), "2026-11-25"),
        ("engine.weight", "", "?", "not measured"),
        ("engine.weight", "?", "?", "not measured"),
        ("job.name", "", None, "left out"),
        ("engine.kicker", "n", "no", "no"),
    ],
)
def test_an_answer_stands_in_the_file_as_a_shop_would_type_it(
    path: str, typed: str, stands: Any, read_back: str
) -> None:
    found = answer(ASKED[path], typed, si=False)
    assert found.stands == stands
    assert found.read_back == read_back
    assert found.doubt == ""


def test_a_bare_number_is_metric_where_the_shop_is() -> None:
    assert answer(ASKED["board.width"], "610", si=True).stands == "610 mm"
    assert answer(ASKED["engine.power"], "30", si=True).stands == "30 kW"


@pytest.mark.parametrize(
    ("path", "typed", "meant"),
    [("board.width", "610", "610 mm"), ("board.width", "2.4 in", "24 in"), ("engine.weight", "26", "26 kg"),
     ("engine.power", "400", "40 hp"), ("crossmembers.wall", "3", "3 mm")],
)  # fmt: skip
def test_outside_the_usual_it_asks_what_was_meant(path: str, typed: str, meant: str) -> None:
    """Doubtful ones are asked about, impossible ones refused, both with what it might be."""
    try:
        said = answer(ASKED[path], typed, si=False).doubt
    except Fault as fault:
        said = fault.next_step
    assert f"did you mean {meant}?" in said


@pytest.mark.parametrize(
    ("path", "typed"),
    [("board.width", "wide"), ("board.width", "20 30"), ("engine.power", "forty"), ("engine.power", "-3"), ("boat.kind", "canoe"),
     ("boat.kind", ""), ("boat.kind", "7"), ("frame.bolts.count", "eight"), ("boat.trailer", "perhaps"), ("bracket", "maybe"),
     ("engine.takes", "1 in"), ("job.date", "yesterday"), ("board.width", "nan"), ("engine.weight", "40 lb-ft")],
)  # fmt: skip
def test_no_answer_says_the_rule_and_the_next_step(path: str, typed: str) -> None:
    with pytest.raises(Fault) as fault:
        answer(ASKED[path], typed, si=False)
    assert fault.value.rule
    assert fault.value.next_step


def test_every_question_is_a_key_of_the_job_asked_once() -> None:
    known = {path for path, _ in keys()}
    asked = [q.path for stop in FULL for q in stop.asks]
    assert len(asked) == len(set(asked))
    assert set(asked) - set(YES_OR_NO) <= known
    assert {q.path for stop in QUICK for q in stop.asks} <= set(asked)
    assert len(QUICK) == 9
    assert set(YES_OR_NO) == {q.path for q in ASKED.values() if q.path in YES_OR_NO}


@pytest.mark.parametrize("question", [q for q in ASKED.values() if q.usual[0]], ids=lambda q: q.path)
def test_the_usual_range_is_itself_usual(question: Question) -> None:
    for limit in question.usual:
        text = f"{limit} to {limit}" if question.key.items else limit
        assert answer(question, text, si=False).doubt == ""


def test_a_section_nobody_knows_anything_of_is_left_out_of_the_file() -> None:
    assert file_answers({"engine.kicker": "yes", "engine.kicker.power": "?", "job.name": None}) == {}
    assert file_answers({"engine.kicker.power": "6 hp", "engine.kicker.weight": "?"}) == {
        "engine.kicker.power": "6 hp",
        "engine.kicker.weight": "?",
    }
