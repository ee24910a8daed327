"""Two judgements side by side: everything that differs and nothing else; what should have changed and did not."""

import copy
import json
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from tests.job.orders import WHOLE
from tests.report.jobs import ACCEPTED, DRAWN, EXAMPLE, drawn
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.job.schema import SECTIONS, keys
from transom.judge.judging import judge
from transom.report.compare.comparing import compare
from transom.report.compare.data import as_object as as_data
from transom.report.compare.records import Comparison
from transom.report.compare.screen import screen
from transom.report.inputs import inputs, stated
from transom.report.judgement import as_object, to_json

TEXT = EXAMPLE.read_text(encoding="utf-8")


@cache
def before() -> dict[str, Any]:
    return json.loads(to_json(drawn("example")))


def after(*swaps: tuple[str, str], text: str = TEXT) -> dict[str, Any]:
    """The example's mount judged in a job with some text replaced."""
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    return json.loads(to_json(judge(loads(text), SHIPPED, DRAWN["example"], careful=False)))


@cache
def pencil() -> dict[str, Any]:
    """The example by the pencil alone, as `after` has it."""
    return after()


@cache
def stronger() -> dict[str, Any]:
    return after(('power = "40 hp"', 'power = "50 hp"'))


def lines(c: Comparison) -> str:
    return "\n".join(screen(c, ("old", "new"), "us"))


def test_a_judgement_and_itself_differ_in_nothing() -> None:
    c = compare(before(), copy.deepcopy(before()))
    assert c.same
    assert c.unchanged == len(drawn("example").worst)
    assert lines(c).endswith("nothing differs")
    assert as_data(c, ("a", "a"))["same"] is True


def test_a_job_and_its_saved_judgement_differ_in_nothing() -> None:
    assert compare(as_object(drawn("example")), before()).same


def test_another_engine_changes_inputs_and_checks_and_tells_the_ratios() -> None:
    c = compare(pencil(), stronger())
    power = next(x for x in c.inputs if x.key == "engine.power")
    assert (power.before, power.after) == (pytest.approx(40 * 745.6998715822702), pytest.approx(50 * 745.6998715822702))
    assert c.engine is not None
    assert c.engine.weight[0] == c.engine.weight[1]
    assert c.engine.moment[1] > c.engine.moment[0]
    assert c.engine.pull is not None
    assert c.engine.pull[1] > c.engine.pull[0]
    bending = next(x for x in c.checks if x.name.startswith("board.bending"))
    assert bending.before is not None
    assert bending.after is not None
    assert bending.after > bending.before
    assert "engine power                  40 hp                   50 hp" in lines(c)


def test_checks_are_those_of_the_judgements_with_the_worst_case_of_each() -> None:
    """Every deciding check of either is a change or counted as unchanged; shares are the JSON's own."""
    a, b = pencil(), stronger()
    c = compare(a, b)

    def worst(o: dict[str, Any]) -> dict[str, float]:
        out: dict[str, float] = {}
        for x in o["checks"]:
            if not x.get("information"):
                name = x["id"].removesuffix(f".{x['case']}")
                out[name] = max(out.get(name, 0.0), x["utilisation"])
        return out

    assert c.unchanged + len(c.checks) == len(worst(a).keys() | worst(b).keys())
    for x in c.checks:
        assert (x.before, x.after) == (worst(a)[x.name], worst(b)[x.name])
    assert [abs(x.step) for x in c.checks] == sorted((abs(x.step) for x in c.checks), reverse=True)
    assert c.checks[0].name in {x for x in worst(a) if abs(worst(a)[x] - worst(b)[x]) > 0}


def test_backwards_is_the_mirror() -> None:
    there, back = compare(pencil(), stronger()), compare(stronger(), pencil())
    assert {(x.key, json.dumps(x.before), json.dumps(x.after)) for x in there.inputs} == {
        (x.key, json.dumps(x.after), json.dumps(x.before)) for x in back.inputs
    }
    assert {(x.name, x.before, x.after) for x in there.checks} == {(x.name, x.after, x.before) for x in back.checks}
    assert there.engine is not None
    assert back.engine is not None
    assert there.engine.moment == back.engine.moment[::-1]


def test_what_belongs_to_the_old_engine_is_asked_after() -> None:
    c = compare(pencil(), stronger())
    asked = "\n".join(c.stale)
    assert "engine weight, ready to run stands as it was though engine power changed" in asked
    assert "the old engine's manual" in asked
    assert 'revision is still "A"' in asked
    weighed = after(
        ('power = "40 hp"', 'power = "50 hp"'),
        ('weight = "260 lb"', 'weight = "300 lb"'),
        ('revision = "A"', 'revision = "B"'),
    )
    asked = "\n".join(compare(pencil(), weighed).stale)
    assert "ready to run stands" not in asked
    assert "revision" not in asked


def test_nothing_is_asked_where_nothing_changed_or_only_a_measurement_came_in() -> None:
    assert compare(before(), before()).stale == ()
    measured = after(('weight = "260 lb"', 'weight = "262 lb"'), ('revision = "A"', 'revision = "B"'))
    assert not [s for s in compare(pencil(), measured).stale if "propeller" in s or "weight" in s]


@pytest.mark.parametrize("unknown", ("A", "B"))
def test_no_ratio_where_a_weight_is_from_the_table(unknown: str) -> None:
    none = after(('power = "40 hp"', 'power = "50 hp"'), ('weight = "260 lb"', 'weight = "?"'))
    c = compare(none, pencil()) if unknown == "A" else compare(pencil(), none)
    assert c.engine is None
    assert c.refused.startswith(f"the weight in {unknown} is from the table")
    assert "not told" in lines(c)
    assert as_data(c, ("a", "b"))["engine"] is None


def test_the_same_engine_is_not_set_against_itself() -> None:
    c = compare(pencil(), after(('width = "24 in"', 'width = "25 in"')))
    assert c.engine is None
    assert c.refused == ""
    assert any(x.key == "board.width" for x in c.inputs)


def test_an_input_measured_since_differs_in_its_evidence() -> None:
    unread = after(('weight = "260 lb"', 'weight = "?"'))
    x = next(x for x in compare(unread, pencil()).inputs if x.key == "engine.weight")
    assert (x.evidence[0] != "stated", x.evidence[1]) == (True, "stated")


def test_stops_come_go_and_are_accepted() -> None:
    unread = after(('plate_power = "50 hp"', 'plate_power = "cannot read"'))
    accepted = after(text=ACCEPTED)
    came = compare(pencil(), unread).stops
    assert [(x.key, x.before, x.after) for x in came] == [("plate-power-unreadable", None, "stands")]
    taken = compare(unread, accepted).stops
    assert taken[0].after == "accepted by A. Shoplead, 2026-05-04, on builder's letter"
    wider = after(('width = "24 in"', 'width = "25 in"'), text=ACCEPTED)
    assert any("still accepted by A. Shoplead" in s for s in compare(accepted, wider).stale)


def test_another_mount_changes_layers_mass_and_thickness() -> None:
    j = drawn("example")
    assert j.mount is not None
    thin = as_object(judge(j.job, SHIPPED, replace(j.mount, layers=j.mount.layers[:1]), careful=False))
    c = compare(pencil(), thin)
    changed = {x.key for x in c.mount}
    assert {"mount.layers", "mount.mass", "mount.thickness", "mount.total"} <= changed
    assert c.inputs == ()
    assert ("passes", True, False) in {(x.key, x.before, x.after) for x in c.verdict}
    assert "FAILS" in lines(c)


def test_every_line_fits_the_terminal() -> None:
    c = compare(pencil(), after(('power = "40 hp"', 'power = "50 hp"'), ("22 ft pontoon", "x" * 60 + " y" * 60)))
    assert all(len(line) < 80 or " " not in line.strip() for line in lines(c).splitlines())


def test_the_same_comparison_is_the_same_bytes_and_plain_json() -> None:
    first = json.dumps(as_data(compare(pencil(), stronger()), ("a", "b")), allow_nan=False)
    assert first == json.dumps(as_data(compare(pencil(), stronger()), ("a", "b")), allow_nan=False)
    value = json.loads(first)
    assert value["engine"]["thrust_moment"]["ratio"] == pytest.approx(
        value["engine"]["thrust_moment"]["after"] / value["engine"]["thrust_moment"]["before"], rel=1e-8
    )


def test_no_number_and_not_there_are_told_apart() -> None:
    gone = copy.deepcopy(pencil())
    name = gone["checks"][0]["part"], gone["checks"][0]["what"]
    for x in gone["checks"]:
        if (x["part"], x["what"]) == name:
            x["utilisation"], x["passes"] = None, False
    c = next(x for x in compare(pencil(), gone).checks if x.name.startswith(".".join(name)))
    assert (c.after, c.there, c.passes[1]) == (None, (True, True), False)
    assert "over 999 % FAILS" in " ".join(lines(compare(pencil(), gone)).split()) or "FAILS" in lines(
        compare(pencil(), gone)
    )
    without = copy.deepcopy(pencil())
    without["checks"] = [x for x in without["checks"] if (x["part"], x["what"]) != name]
    assert "not there" in lines(compare(pencil(), without))


# What goes into a judgement


def test_inputs_bear_the_job_files_own_keys() -> None:
    """Every leaf of the records that a work order with everything in it fills, but those with no key of their own."""

    class Stand:
        job = loads(WHOLE)

    known = {path for path, _ in keys(SECTIONS)} | {"board.openings", "cases", "boat.plate", "second_look"}
    strange = [key for key, _, _ in stated(Stand()) if key not in known]  # type: ignore[arg-type]
    assert not [key for key in strange if not key.startswith("frame.bolts.")]


def test_inputs_say_unit_and_evidence() -> None:
    found = inputs(drawn("example"))
    assert found["engine.weight"] == {
        "value": pytest.approx(260 * 0.45359237), "unit": "kg", "evidence": "stated", "says": "engine weight, ready to run",
    }  # fmt: skip
    assert found["engine.takes"]["unit"] == "mm"
    assert found["boat.kind"] == {"value": "pontoon", "unit": "", "evidence": "stated", "says": "boat.kind"}
    assert found["engine.gravity.aft"]["evidence"] == "estimate"
    assert found["boat.road_support"]["evidence"] == "convention"
    assert json.loads(json.dumps(found, allow_nan=False)) == found
