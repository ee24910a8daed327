"""Columns, cells and `--vary`: what they state is what a job's file would."""

import pytest

from transom.batch.keyed import changed, known, parts, value
from transom.batch.vary import combinations, grid, varied
from transom.errors import JobError


@pytest.mark.parametrize(
    "option, texts",
    [
        ("engine.power=40,60,90 hp", ("40 hp", "60 hp", "90 hp")),
        ("engine.power=40 hp, 45 kW", ("40 hp", "45 kW")),
        ("engine.power=30, 40 to 60 hp", None),
        ("engine.power=40 to 60 hp, 90 hp", ("40 to 60 hp", "90 hp")),
        ("engine.power=40 to 90 step 25 hp", ("40 hp", "65 hp", "90 hp")),
        ("engine.power=40 to 90 hp by 30 hp", ("40 hp", "70 hp")),
        ("board.width=22, 22-1/2, 23 1/4 in", ("22 in", "22-1/2 in", "23 1/4 in")),
        ('board.width=20-1/2", 3 ft 4 in', ('20-1/2"', "3 ft 4 in")),
        ("board.width=1/2 to 1-1/2 step 1/2 in", None),
        ("board.width=20 to 21 step 1/3 in", ("20 in", "20-1/3 in", "20-2/3 in", "21 in")),
        ("engine.gravity.up=-2 to 2 step 2 in", ("-2 in", "0 in", "2 in")),
        ("boat.service=calm,open", ("calm", "open")),
        ("boat.service=calm, ?", ("calm", "?")),
        ("boat.trailer=true, false", ("true", "false")),
        ("engine.propeller.blades=3 to 5 step 1", ("3", "4", "5")),
        ('stock.sheets=["1/2 in"], ["1/2 in", "3/4 in"]', ('["1/2 in"]', '["1/2 in", "3/4 in"]')),
        ("stock.sheets=1/2 in; 3/4 in, 1/2 in", ("1/2 in; 3/4 in", "1/2 in")),
    ],
)
def test_values_are_read_as_a_shop_writes_them(option: str, texts: tuple[str, ...] | None) -> None:
    if texts is None:
        with pytest.raises(JobError):
            varied([option])
        return
    (found,) = varied([option])
    assert found.texts == texts


@pytest.mark.parametrize(
    "option, says",
    [
        ("engine.power", "no values"),
        ("engine.power=", "no values"),
        ("engine.power=forty hp", "forty"),
        ("engine.power=40, 40 hp", "stands twice"),
        ("power=40 hp", "engine.power"),
        ("engine.pwoer=40 hp", "engine.power"),
        ("engine.bracket.bolts.y=1 in", "no such key"),
        ("engine.power=90 to 40 step 10 hp", "leads nowhere"),
        ("engine.power=40 to 90 step 0 hp", "leads nowhere"),
        ("engine.power=40 hp to 90 kW step 1 hp", "one unit"),
        ("board.width=1 to 999999999 step 0.001 in", "larger step"),
        ("engine.propeller.blades=nan", "nan"),
    ],
)
def test_what_cannot_be_varied_is_refused_in_one_line(option: str, says: str) -> None:
    with pytest.raises(JobError) as error:
        varied([option])
    assert len(error.value.faults) == 1
    assert says in error.value.faults[0]


def test_every_fault_of_every_option_in_one_run() -> None:
    with pytest.raises(JobError) as error:
        varied(["board.width=1 in, wide", "engine.power=x hp", "engine.pwoer=1 hp", "boat.kind", "boat.service=calm",
                "boat.service=open"])  # fmt: skip
    assert len(error.value.faults) == 6


def test_a_grid_goes_through_every_combination_once() -> None:
    several = varied(["engine.power=40,60 hp", "boat.service=calm,open", "board.width=22,23,24 in"])
    texts = [t for _, t in grid(several)]
    assert len(set(texts)) == len(texts) == combinations(several) == 12
    assert texts[0] == ("40 hp", "calm", "22 in")
    assert [t for _, t in grid(())] == [()]


def test_cells_become_what_toml_has() -> None:
    keys = known()
    assert value(keys["frame.bolts.count"], " 8 ") == 8
    assert value(keys["boat.trailer"], "TRUE") is True
    assert value(keys["engine.propeller.gear"], "2.0") == 2.0
    assert value(keys["engine.takes"], "1-1/4 in; 2-3/4 in") == ["1-1/4 in", "2-3/4 in"]
    assert value(keys["engine.takes"], "?") == "?"
    assert value(keys["frame.bolts.count"], "8\ny = 1") == "8\ny = 1"
    assert value(keys["frame.bolts.count"], "eight") == "eight"
    assert str(value(keys["job.date"], "2026-05-04")) == "2026-05-04"


def test_changes_leave_the_document_and_touch_nothing_else() -> None:
    document = {"engine": {"power": "40 hp", "gravity": {"aft": "9 in"}}, "board": "not a table"}
    out = changed(document, (("engine.gravity.up", "6 in"), ("boat.kind", "pontoon"), ("board.width", "1 in")))
    assert out == {"engine": {"power": "40 hp", "gravity": {"aft": "9 in", "up": "6 in"}}, "boat": {"kind": "pontoon"},
                   "board": "not a table"}  # fmt: skip
    assert document == {"engine": {"power": "40 hp", "gravity": {"aft": "9 in"}}, "board": "not a table"}


def test_commas_part_only_outside_quotes_and_brackets() -> None:
    assert list(parts('a, [b, c], "d, e", 3\' 4"')) == ["a", "[b, c]", '"d, e"', "3' 4\""]
