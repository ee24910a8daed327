"""The JSON object: keys and types of the contract, no NaN, the same bytes for the same job."""

import json
import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

from tests.report.jobs import TEXTS, job, reviewed, sized
from transom.catalogue import SHIPPED
from transom.report.forces import bolt_forces, trial_of_mount
from transom.report.judgement import as_object, to_json
from transom.sizing.sizing import size

# The contract's object, key for key; a list holds the form of its rows, a tuple what a value may be.
N = (int, float)
NONE = type(None)
OPTION = dict
CONTRACT: dict[str, Any] = {
    "schema": str,
    "tool": {"name": str, "version": str},
    "units": {"length": str, "force": str, "moment": str, "stress": str, "angle": str, "mass": str},
    "job": {"name": str, "revision": str, "sha256": str},
    "paper": str,
    "passes": bool,
    "governing": str,
    "mount": {"layers": [{"sheet": str, "grain": str}], "thickness": N, "total": N, "mass": N, "engine_bolts": dict,
              "frame_fasteners": dict},
    "sizing": {"rank": str, "candidates": int, "required": [{"check": str, "thickness": (*N, NONE)}],
               "next_lighter": (dict, NONE), "alternatives": list, "nearest_miss": (dict, NONE)},
    "good_for": {"power": N, "mass": N},
    "ruler": {"push": N, "at": N, "down": N, "moves": N, "stop_at": N},
    "height": {"bottom": N, "band": [N], "start": int,
               "holes": [{"hole": int, "raised": N, "plate_above": N, "shaft_below": N, "tip_below": N}]},
    "to_measure": [str],
    "assumptions": [{"key": str, "value": N, "unit": str, "evidence": str, "known_by": str, "source": str, "holds_to": list}],
    "inputs": dict,
    "engine": {"thrust": N, "thrust_moment": N},
    "cases": [{"name": str, "of": str, "factor": N, "duration": str, "wrench": [N],
               "bolts": {"hand": [{"y": N, "z": N, "tension": N, "shear": N}], "plate": [{"y": N, "z": N, "tension": N, "shear": N}]}, "reactions": [dict], "own_weight": dict}],
    "checks": [{"id": str, "part": str, "what": str, "rule": str, "case": str, "method": str, "demand": (*N, NONE),
                "resistance": (*N, NONE), "unit": str, "utilisation": (*N, NONE), "passes": bool, "source": str,
                "evidence": str, "known_by": str}],
    "stops": list,
    "cautions": [str],
}  # fmt: skip
MAY = {"information", "crossmembers"}  # a check that does not decide says so; what a pod hangs from


def differences(form: Any, value: Any, where: str = "") -> Iterator[str]:
    if isinstance(form, dict):
        if not isinstance(value, dict):
            yield f"{where}: {value!r} is no object"
            return
        if set(form) != set(value) - MAY:
            yield f"{where}: {set(form) ^ (set(value) - MAY)}"
        for k in set(form) & set(value):
            yield from differences(form[k], value[k], f"{where}.{k}")
    elif isinstance(form, list):
        for i, each in enumerate(value):
            yield from differences(form[0], each, f"{where}[{i}]")
    elif isinstance(value, bool) != (form is bool) or not isinstance(value, form):
        yield f"{where}: {value!r}"


def resultant(forces: list[dict[str, object]]) -> np.ndarray:
    """Wrench about the datum of what the JSON lists."""
    out = np.zeros(6)
    for f in forces:
        F = np.array([f[k] for k in ("Fx", "Fy", "Fz")], dtype=float)
        M = np.array([f[k] for k in ("Mx", "My", "Mz")], dtype=float)
        out += np.concatenate([F, M + np.cross(np.array(f["at"], dtype=float), F)])
    return out


def test_keys_and_types_are_the_contracts() -> None:
    value = json.loads(to_json(sized("example")))
    assert list(differences(CONTRACT, value)) == []
    assert list(value) == list(CONTRACT)
    assert value["schema"] == "transom-judgement-1"
    assert value["units"] == {
        "length": "mm",
        "force": "N",
        "moment": "N*mm",
        "stress": "MPa",
        "angle": "rad",
        "mass": "kg",
    }
    assert all(len(c["wrench"]) == 6 for c in value["cases"])
    for c in value["cases"]:
        assert resultant(c["reactions"]) == pytest.approx(
            np.add(c["wrench"], resultant([c["own_weight"]])), rel=1e-6, abs=1e-3
        )
    assert all(len(a["holds_to"]) == 2 for a in value["assumptions"])


def test_no_mount_is_null_and_the_nearest_miss_filled() -> None:
    value = as_object(sized("too large"))
    assert value["mount"] is None
    assert value["passes"] is False
    assert value["good_for"] is None
    assert value["checks"] == []
    assert value["governing"] is None
    assert value["sizing"]["nearest_miss"]["failing"]
    assert not value["sizing"]["nearest_miss"]["passes"]


def test_a_review_has_no_sizing() -> None:
    value = as_object(reviewed("example"))
    assert value["sizing"] is None
    assert value["good_for"] is None
    assert value["governing"] == as_object(sized("example"))["governing"]


@pytest.mark.parametrize("name", TEXTS)
def test_strict_json_and_nothing_that_is_not_finite(name: str) -> None:
    def refuse(token: str) -> None:
        raise AssertionError(token)

    text = to_json(sized(name))
    json.loads(text, parse_constant=refuse)
    text.encode("ascii")


def test_an_infinite_utilisation_is_null_and_does_not_pass() -> None:
    from dataclasses import replace

    j = sized("example")
    broken = replace(j.checks[0], resistance=0.0)
    hopeless = replace(j.checks[1], demand=math.nan)
    rows = {c["id"]: c for c in as_object(replace(j, checks=(broken, hopeless)))["checks"]}
    for check in (broken, hopeless):
        assert rows[check.id]["utilisation"] is None
        assert rows[check.id]["passes"] is False
    assert rows[hopeless.id]["demand"] is None


def test_same_job_same_bytes() -> None:
    assert to_json(size(job("example"), SHIPPED)) == to_json(size(job("example"), SHIPPED))


def test_floats_have_nine_digits_and_checks_are_sorted() -> None:
    value = as_object(sized("example"))
    ids = [c["id"] for c in value["checks"]]
    assert ids == sorted(ids)
    assert len(set(ids)) == len(ids)
    assert value["governing"] in ids
    assert all(c["demand"] == float(f"{c['demand']:.9g}") for c in value["checks"])


def test_bolt_forces_hold_the_checks_own_largest() -> None:
    trial = trial_of_mount(sized("example"))
    assert trial is not None
    found = bolt_forces(trial)
    pull = [max(b.tension for b in row) for row in found]
    shear = [max(b.shear for b in row) for row in found]
    assert pull == pytest.approx(np.ravel(trial.tension))
    assert shear == pytest.approx(np.ravel(trial.shear))


def test_the_couple_pulls_the_side_it_turns_aft() -> None:
    """Turning to starboard the thrust points to port: the starboard bolts pull the harder."""
    j = sized("example")
    trial = trial_of_mount(j)
    assert trial is not None
    rows = dict(zip(j.cases.names, bolt_forces(trial), strict=True))
    upper = {b.y > 0: b.tension for b in rows["hard-over-starboard"] if b.z > -100}
    assert upper[True] > upper[False]
    mirrored = {b.y > 0: b.tension for b in rows["hard-over-port-left-hand"] if b.z > -100}
    assert mirrored[False] == pytest.approx(upper[True])
    assert mirrored[True] == pytest.approx(upper[False])


def test_clamps_have_no_bolts_to_list() -> None:
    assert all(c["bolts"] == {"hand": [], "plate": []} for c in as_object(sized("clamps"))["cases"])


def test_the_plate_decides_and_the_pencil_stands_beside() -> None:
    """Each check that the plate makes stands twice, the pencil's for information, under ids of their own."""
    checks = as_object(sized("example"))["checks"]
    plate = {(c["part"], c["what"], c["rule"], c["case"]) for c in checks if c["method"] == "plate"}
    hand = {
        (c["part"], c["what"], c["rule"], c["case"]) for c in checks if c["method"] == "hand" and "information" in c
    }
    assert plate
    assert plate <= hand
    assert not any("information" in c for c in checks if c["method"] == "plate" and c["rule"] != "adm")
    assert ("board", "bending") in {k[:2] for k in plate}


def test_bolts_by_the_plate_are_in_balance_with_the_pads() -> None:
    """Bolts pull the bracket forward and pads push it aft; together they are the force off the board."""
    j = sized("example")
    assert j.careful is not None
    found = as_object(j)["cases"]
    pads = j.careful.answer.borne.pads.sum(axis=0)
    for i, case in enumerate(found):
        bolts = case["bolts"]["plate"]
        assert len(bolts) == 4
        assert all(b["tension"] >= 0 for b in bolts)
        off = sum(b["tension"] for b in bolts) - pads[i]
        assert off == pytest.approx(float(j.cases.design.reshape(-1, 6)[i, 0]), abs=1e-3)


def test_bolts_by_the_plate_shear_as_by_hand() -> None:
    """The plate gives pulls; what pushes bolts sideways is shared by their group either way."""
    for case in as_object(sized("example"))["cases"]:
        hand, plate = ({(b["y"], b["z"]): b["shear"] for b in case["bolts"][method]} for method in ("hand", "plate"))
        assert hand == plate


def test_the_ruler_stops_at_a_mark_and_without_a_mount_there_is_none() -> None:
    ruler = as_object(sized("example"))["ruler"]
    assert ruler["push"] == pytest.approx(180 * 4.4482216152605)  # 180 lbf
    assert ruler["down"] == 0
    marks = ruler["stop_at"] / (25.4 / 32)
    assert marks == pytest.approx(round(marks))
    assert 1.5 * ruler["moves"] <= ruler["stop_at"] < 1.5 * ruler["moves"] + 25.4 / 32
    metric = as_object(sized("metric"))["ruler"]
    assert metric["push"] == pytest.approx(80 * 9.80665)
    assert metric["stop_at"] == round(metric["stop_at"])
    assert as_object(sized("too large"))["ruler"] is None
