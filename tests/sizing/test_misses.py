"""The nearest miss is what a shop would call so: what fails, fails by little, by the plate."""

from dataclasses import replace

import numpy as np
import pytest

from tests.sizing.test_sizing import job
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.judge.judging import prepared
from transom.report.page import still
from transom.sizing import misses
from transom.sizing.field import Field, field_of
from transom.sizing.misses import _by_plate, miss_of, nearest, shortlist
from transom.sizing.options import option
from transom.sizing.search import blocks
from transom.sizing.sizing import size

TOO_MUCH = """
[boat]
kind = "aluminium hull"
plate_power = "none"
[engine]
power = "300 hp"
weight = "2000 lb"
shaft = "30 in"
[board]
width = "3 ft"
height = "24 in"
[frame]
kind = "cap rail"
[stock]
panels = ["douglas-fir-marine"]
sheets = ["1/2 in", "3/4 in"]
most_sheets = 4
grades = ["F593C"]
threads = ["1/2-13"]
"""
NOTCHED = (
    TOO_MUCH.replace('"300 hp"', '"40 hp"').replace('"2000 lb"', '"?"').replace('"30 in"', '"20 in"')
    .replace('"3 ft"', '"24 in"\ntop_notch = { width = "10 in", depth = "3 in" }')
)  # fmt: skip


@pytest.fixture(scope="module")
def field() -> Field:
    stated = job(hp=60.0, sheets=("3/4 in",))
    stated = replace(stated, engine=replace(stated.engine, takes=(30.0, 47.0)))
    _, setup, cases = prepared(stated, SHIPPED)
    return field_of(stated, SHIPPED, setup, cases, "material")


def test_it_is_the_best_of_the_short_list_by_the_plate(field: Field) -> None:
    found = nearest(field)
    assert _by_plate(field, found) == min(_by_plate(field, int(p)) for p in shortlist(field))
    assert _by_plate(field, found) > (0.0, 1.0)


def test_where_the_pads_bear_no_board_the_rest_tells_them_apart() -> None:
    """Pads that no wood bears up are beyond any number for every candidate; one thin sheet is not the nearest for that."""
    stated = loads(TOO_MUCH)
    _, setup, cases = prepared(stated, SHIPPED)
    found = miss_of(stated, SHIPPED, field_of(stated, SHIPPED, setup, cases, "material"))
    assert any(np.isinf(c.utilisation) for c in found.failing)
    assert len(found.mount.layers) == 4
    assert max(c.utilisation for c in found.failing if np.isfinite(c.utilisation)) < 8.0


def test_what_no_board_mends_does_not_choose_it() -> None:
    """Frame bolts at the side of a notch have no wood about them in any candidate: that is told, and the best board is."""
    stated = loads(NOTCHED)
    _, setup, cases = prepared(stated, SHIPPED)
    found = miss_of(stated, SHIPPED, field_of(stated, SHIPPED, setup, cases, "material"))
    assert any(c.part == "frame" and c.utilisation > 1000.0 for c in found.failing)
    assert max(c.utilisation for c in found.failing if c.part != "frame") < 1.3


def test_the_short_list_holds_different_candidates(field: Field) -> None:
    places = shortlist(field)
    assert len(np.unique(places)) == len(places)


@pytest.mark.parametrize("text, asked", [("", 3), ("notched", 128), ("too much", 128)])
def test_the_short_list_is_the_one_that_asks_every_candidate_in_every_case(
    field: Field, text: str, asked: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    if text:
        stated = loads({"notched": NOTCHED, "too much": TOO_MUCH}[text])
        _, setup, cases = prepared(stated, SHIPPED)
        field = field_of(stated, SHIPPED, setup, cases, "material")
    monkeypatch.setattr(misses, "ASKED", asked)
    u = np.concatenate([misses._pencil(field, places, field.cases) for places in blocks(field.order, 256)], axis=1)
    assert shortlist(field).tolist() == field.order[np.lexsort(u[::-1])[: misses.SHORT]].tolist()


def test_a_bracket_too_narrow_is_what_fails() -> None:
    """Boards next to strong enough are there, none as thin as the bracket takes: the nearest miss fails by its thickness."""
    stated = job(sheets=("1/2 in",))
    j = size(replace(stated, engine=replace(stated.engine, takes=(30.0, 38.0))), SHIPPED)
    assert j.mount is None
    assert j.sizing is not None
    assert j.sizing.nearest_miss is not None
    worst, *others = sorted(j.sizing.nearest_miss.failing, key=lambda c: -c.utilisation)
    assert worst.what == "bracket-thickest"
    assert all(c.utilisation < 1.01 for c in others)


LEAST_BOLTS = """
[boat]
kind = "pontoon"
plate_power = "150 hp"
[engine]
power = "110 hp"
shaft = "25 in"
steering = "wheel"
[board]
width = "28 in"
height = "20 in"
[frame]
kind = "pod"
[crossmembers]
count = 4
wall = "3/16 in"
alloy = "6061-T6"
bolts = { size = "1/2 in", count = 16 }
[stock]
panels = ["douglas-fir-marine"]
sheets = ["3/4 in"]
most_sheets = 4
grades = ["F593C"]
threads = ["1/2-13"]
"""


def test_a_miss_says_what_it_fails_with_the_bolts_it_would_get(monkeypatch: pytest.MonkeyPatch) -> None:
    """With the most bolts to the frame its board would pass; it gets the least that carry the frame, and bends more."""
    stated = loads(LEAST_BOLTS)
    _, setup, cases = prepared(stated, SHIPPED)
    field = field_of(stated, SHIPPED, setup, cases, "material")
    turned = ["across", "across", "along", "across"]
    place = next(int(p) for p in shortlist(field) if [x.grain for x in field.mount(int(p)).layers] == turned)
    monkeypatch.setattr(misses, "nearest", lambda _: place)
    assert option(field, place).passes
    miss = miss_of(stated, SHIPPED, field)
    assert [c.what for c in miss.failing] == ["bending"]
    assert miss.weakest == miss.failing[0]
    assert miss.weakest.utilisation > 1.0


THIN_WALL = """
[boat]
kind = "pontoon"
plate_power = "70 hp"
[engine]
power = "70 hp"
[board]
width = "24 in"
height = "18 in"
[frame]
kind = "pod"
[stock]
panels = ["okoume"]
sheets = ["22 mm"]
most_sheets = 3
grades = ["F593C"]
threads = ["1/2-13"]
"""


def test_where_an_assumed_number_is_what_fails_it_is_to_be_measured() -> None:
    """A wall that nobody measured fails by a little; one that is as thick as the screen asks carries the engine."""
    j = size(loads(THIN_WALL), SHIPPED)
    assert j.mount is None
    assert still(j) == "still fails"
    listed = {a.key: a for a in j.to_measure}
    wall = listed["crossmembers.wall"]
    assert set(listed) <= {a.key for a in j.assumptions}
    assert wall.holds_to is not None
    assert wall.value < wall.holds_to < 1.1 * wall.value
    measured = THIN_WALL + f'[crossmembers]\nwall = "{1.02 * wall.holds_to:.3f} mm"\n'
    assert size(loads(measured), SHIPPED).mount is not None
