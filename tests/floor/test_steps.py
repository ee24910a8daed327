"""The build in order: nothing before what it waits for, within working hours, nothing left out."""

import datetime as dt
import json
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from transom.cli import main as command
from transom.errors import JobError
from transom.floor.clock import CLOSES, HOUR, OPENS, said, start_of, timed
from transom.floor.screen import cautions, checklist, data, screen
from transom.floor.steps import Build, Step, steps

MONDAY = dt.datetime(2026, 11, 30, 8)


def test_every_step_waits_for_its_cure(build: Build) -> None:
    told = timed(steps(build), MONDAY)
    ends = {t.step.name: t.ends for t in told}
    for t in told:
        for name, hours in t.step.after:
            assert t.begins >= ends[name] + hours * HOUR, t.step.name
    assert [t.begins for t in told] == sorted(t.begins for t in told)
    order = [t.step.name for t in told]
    assert order.index("glue") < order.index("fill") < order.index("drill") < order.index("coat") < order.index("hang")
    hang = next(t for t in told if t.step.name == "hang")
    assert hang.begins - ends["coat"] >= dt.timedelta(hours=48)


def test_nobody_works_at_night(build: Build) -> None:
    for t in timed(steps(build), MONDAY.replace(hour=15)):
        assert OPENS <= t.begins.hour + t.begins.minute / 60 < CLOSES
        assert t.ends.hour + t.ends.minute / 60 <= CLOSES


def test_a_colder_shop_takes_longer(build: Build) -> None:
    cold = replace(build, curing=replace(build.curing, temperature=16.0))
    last = [timed(steps(b), MONDAY)[-1].ends for b in (build, cold)]
    assert last[1] > last[0]


def test_by_hand() -> None:
    """8 h from 15:00 does not fit in what is left of the day: next morning. Then 10.5 h later is 02:30: next morning."""
    told = timed(
        (
            Step("a", "", (), "", 1.0),
            Step("b", "", (), "", 8.0),
            Step("c", "", (), "", 0.5, (("b", 10.5),)),
            Step("d", "", (), "", 12.0),
        ),
        MONDAY.replace(hour=15),
    )  # fmt: skip
    assert [said(t.begins, MONDAY) for t in told] == [
        "Mon 30 Nov 15:00", "Tue 1 Dec 08:00", "Wed 2 Dec 08:00", "Thu 3 Dec 08:00",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "typed", ["tomorrow", "2026-11-30", "2026-11-30 03:00", "2026-11-30 08:00+01:00", "2026-13-30 08:00"]
)
def test_a_start_that_is_none(typed: str) -> None:
    with pytest.raises(JobError, match="--from"):
        start_of(typed)


def test_every_bolt_has_its_box_and_every_step_its_hazard(build: Build) -> None:
    listed = steps(build)
    assert all(s.hazard for s in listed)
    hang = next(s for s in listed if s.name == "hang")
    assert hang.boxes == tuple(f"bolt {n}: torque" for n in "ABCD")
    assert "STOP" in " ".join(hang.says)
    again = " ".join(s for step in listed for s in step.says if step.name == "re-torque")
    assert "10 hours" in again
    assert "100 hours" in again


def test_one_sheet_is_not_glued(build: Build) -> None:
    single = replace(build, work=replace(build.work, layers=1))
    assert "glue" not in {s.name for s in steps(single)}


def test_the_screen_fits_and_carries_every_caution(build: Build) -> None:
    told = timed(steps(build), None)
    lines = screen(build, told, None)
    assert max(map(len, lines)) <= 80
    text = " ".join(" ".join(lines).split())
    for caution in cautions(build):
        assert " ".join(caution.split()) in text
    assert "day 1 08:00" in text


def test_the_checklist_says_the_word_on_every_page(build: Build, tmp_path: Path) -> None:
    told = timed(steps(build), MONDAY)
    made = checklist(build, told, MONDAY)
    assert made == checklist(build, told, MONDAY)
    (tmp_path / "c.pdf").write_bytes(made)
    for page in pypdf.PdfReader(tmp_path / "c.pdf").pages:
        assert build.j.paper in page.extract_text()


def test_as_data_it_is_the_same(build: Build) -> None:
    told = timed(steps(build), MONDAY)
    found = data(build, told, MONDAY)
    assert [s["name"] for s in found["steps"]] == [s.name for s in steps(build)]
    json.dumps(found)


def test_the_command(sized: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["steps", str(sized), "--from", "2026-11-30 08:00"]) == 0
    assert "Mon 30 Nov 08:00" in capsys.readouterr().out
    cold = sized.with_name("cold.toml")
    cold.write_text(
        sized.read_text(encoding="utf-8").replace("[job]", '[job]\ntemperature = "50 F"', 1), encoding="utf-8"
    )
    assert command.main(["steps", str(cold)]) == 2
    assert "Heat shop and wood, or wait" in capsys.readouterr().err
