"""The blank job: in tape order, every line with how to measure it, and what it still needs to load."""

import datetime as dt
import re
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.job.orders import faults
from transom.job.read import loads
from transom.job.schema import MOUNT, SECTIONS, keys, walk
from transom.job.write import blank, toml

ENOUGH = {"boat.kind": "pontoon", "engine.power": "40 hp"}


def test_it_needs_the_kind_of_boat_and_a_power_to_load() -> None:
    assert faults(blank()) == (
        '[boat] kind = "?": "?" is no answer here. Say pontoon, aluminium hull or glass hull: what she is.',
        '[engine] power = "?": nothing can be sized without it, and no builder\'s plate power is stated to size for. '
        'Read the cowl, or give a range such as "40 to 60 hp".',
    )
    assert loads(blank(ENOUGH)).engine.power == pytest.approx(40 * 745.6998715822702)
    assert loads(blank({"boat.kind": "pontoon", "boat.plate_power": "50 hp"})).engine.power is None


def test_every_question_mark_waits_as_not_measured_and_nothing_is_left_out() -> None:
    job = loads(blank(ENOUGH))
    waiting = [line for line in blank(ENOUGH).splitlines() if line.split("#")[0].rstrip().endswith('= "?"')]
    assert len(job.unmeasured) == len(waiting)
    assert job.left_out == ()
    assert {"board.width", "board.height", "frame.kind", "boat.plate_power", "crossmembers.wall"} <= set(job.unmeasured)


def test_every_key_line_says_how_to_measure() -> None:
    how = {key.name: [k.how for _, k in keys() if k.name == key.name] for _, key in keys()}
    for line in blank().splitlines():
        if found := re.match(r"(?:# )?([a-z_]+) = .*?# (.*)", line):
            assert len(found[2]) > 5, line
            assert found[1] in {"openings", "obstructions"} or any(h in found[2] for h in how[found[1]]), line
        else:
            assert not line or line.startswith(("#", "[")), line


def test_tape_order() -> None:
    at = [blank().index(f"\n[{name}]") for name in
          ("job", "boat", "engine", "engine.propeller", "engine.bracket", "board", "frame", "crossmembers", "stock")]  # fmt: skip
    assert at == sorted(at)


def test_every_section_stands_or_is_named_but_the_mount_and_what_comes_after_the_building() -> None:
    text = blank()
    for path, section in walk(tuple(s for s in SECTIONS if s.judged and s is not MOUNT)):
        if section.free is None and section.judged and section.keys:
            name = path.rpartition(".")[2]
            assert f"[{path}]" in text or f"\n{name} = []" in text, path
    assert "[mount" not in text
    assert "[trial" not in text


def test_answers_stand_where_they_belong() -> None:
    given_ = ENOUGH | {
        "job.date": dt.date(2026, 5, 4), "job.name": 'the "old" one', "boat.trailer": False, "engine.takes": ["1 in", "2 in"],
        "engine.propeller.blades": 4, "engine.propeller.gear": 2.08, "engine.kicker.power": "5 hp", "bracket.setback": "10 in",
        "board.width": '20-1/2"', "stock.panels": ["okoume"], "job.shop": "shop.toml",
    }  # fmt: skip
    job = loads(blank(given_))
    assert (job.head.name, job.head.date, job.boat.trailer) == ('the "old" one', dt.date(2026, 5, 4), False)
    assert (job.engine.takes, job.engine.propeller.blades, job.engine.propeller.gear) == ((25.4, 50.8), 4, 2.08)
    assert job.engine.kicker is not None
    assert job.setback is not None
    assert (job.setback.distance, job.board.width, job.stock.panels) == (254.0, 520.7, ("okoume",))


@pytest.mark.parametrize("path", ["boat.colour", "boat", "board.openings.y", "mount.layers", "trial.speed", "kind"])
def test_an_answer_to_no_question_is_refused(path: str) -> None:
    with pytest.raises(ValueError, match=f"no key that a blank job can hold: {path}"):
        blank({path: "?"})


@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(codec="utf-8", exclude_characters="\x7f"), max_size=30))
def test_any_answer_is_written_so_that_toml_reads_it(said: str) -> None:
    assert tomllib.loads(f"a = {toml(said)}")["a"] == said
    assert tomllib.loads(blank({"job.name": said}))["job"]["name"] == said
