"""The geometry says what the judgement says, at the places the job states."""

import re
from dataclasses import replace

import numpy as np
import pytest

from transom.drawing.buildable import slices_meet
from transom.drawing.drills import stocked
from transom.drawing.identity import identity
from transom.drawing.layout import drawing_of
from transom.drawing.records import ASSUMED, CHOSEN, ENGINE, FRAME, OPENING, STATED, Drawing, Outline
from transom.judge.records import Judgement, Stop
from transom.report.amounts import drill
from transom.report.mounts import hole_rows

Judged = dict[str, Judgement]
Drawn = dict[str, Drawing]
IN = 25.4


def test_engine_holes_stand_where_the_tape_found_them(drawings: Drawn) -> None:
    found = {h.words: (h.y / IN, h.down / IN) for h in drawings["pontoon-40hp"].of(ENGINE)}
    assert found == {
        "upper port": pytest.approx((-6.4375, 1.875)),
        "upper starboard": pytest.approx((6.4375, 1.875)),
        "lower port": pytest.approx((-4.9375, 9.875)),
        "lower starboard": pytest.approx((4.9375, 9.875)),
    }


def test_holes_are_of_the_sizes_that_the_screen_prints(judged: Judged, drawings: Drawn) -> None:
    for name, j in judged.items():
        units = j.job.head.units
        printed = {(row[3], row[4]) for row in hole_rows(j)}
        drawn = {(drill(h.over_bore, units, "down"), drill(h.final, units, "nearest"))
                 for h in drawings[name].of(ENGINE)}  # fmt: skip
        assert drawn == printed


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("towards", ["nearest", "up", "down"])
@pytest.mark.parametrize("mm", [6.35, 7.15, 8.8, 12.8, 13.5, 15.99, 16.7, 18.55, 24.7, 25.4, 28.6, 31.75])
def test_stocked_drills_are_the_ones_printed(mm: float, units: str, towards: str) -> None:
    assert drill(mm, units, towards) == drill(stocked(mm, units, towards), units, "nearest")


@pytest.mark.parametrize("mm", [0.0, -1.0, float("nan"), float("inf")])
def test_there_is_no_drill_for_nonsense(mm: float) -> None:
    with pytest.raises(ValueError, match="no drill"):
        stocked(mm, "us")


def test_no_over_bore_takes_more_wood_than_was_judged(judged: Judged, drawings: Drawn) -> None:
    for name, j in judged.items():
        for h in drawings[name].of(ENGINE):
            assert h.final > h.bolt
            assert h.final < h.over_bore <= h.bolt + j.setup.factors.over_bore + 1e-9


def test_frame_holes_are_the_group_that_was_judged(judged: Judged, drawings: Drawn) -> None:
    for name, j in judged.items():
        f, holes = j.setup.frame, drawings[name].of(FRAME)
        down = np.array([h.down for h in holes])
        y = np.array([h.y for h in holes])
        assert len(holes) == round(float(np.ravel(f.n)[0]))
        assert down.mean() == pytest.approx(float(np.ravel(f.z_c)[0]), abs=0.5)
        assert y.mean() == pytest.approx(0.0, abs=0.5)
        assert (y**2 + (down - down.mean()) ** 2).sum() == pytest.approx(float(np.ravel(f.J)[0]), rel=0.01)


def test_old_frame_holes_are_kept_and_never_called_measured(drawings: Drawn) -> None:
    for d in drawings.values():
        assert all(h.kept and h.place == ASSUMED for h in d.of(FRAME))
        assert any("Mark the real ones through from the frame" in s for s in d.doubts)


def test_new_frame_holes_are_the_tools_choice(judged: Judged) -> None:
    j = judged["pontoon-40hp"]
    bolts = replace(j.setup.job.frame.bolts, keep=False)  # type: ignore[type-var]
    setup = replace(j.setup, job=replace(j.setup.job, frame=replace(j.setup.job.frame, bolts=bolts)))
    frame = drawing_of(replace(j, setup=setup)).of(FRAME)
    assert frame
    assert all(h.place == CHOSEN and not h.kept for h in frame)


def test_an_opening_is_a_hole_with_its_own_name(drawings: Drawn) -> None:
    (drain,) = drawings["pontoon-40hp"].of(OPENING)
    assert (drain.words, drain.y, drain.final) == ("drain", 0.0, pytest.approx(25.4))


def test_the_stack_adds_up_to_what_was_judged(judged: Judged, drawings: Drawn) -> None:
    for name, d in drawings.items():
        s, j = d.stack, judged[name]
        by = {kind: sum(x.thickness for x in s.slices if x.kind == kind) for kind in ("wood", "glue", "coat", "plate")}
        assert slices_meet(d)
        assert by["wood"] == pytest.approx(j.wood)
        assert by["wood"] + by["glue"] + by["coat"] == pytest.approx(j.coated)
        assert by["wood"] + by["glue"] + by["coat"] + by["plate"] == pytest.approx(j.total)
        assert s.bolt is not None
        assert s.bolt.grip == pytest.approx(s.depth)
        length = next(c for c in j.checks if (c.part, c.what) == ("engine-bolts", "length"))
        nut_and_threads = length.demand - s.bolt.grip
        assert nut_and_threads == pytest.approx(s.bolt.nut + 2 * s.bolt.pitch)


def test_plates_lie_about_their_bolts(drawings: Drawn) -> None:
    (one,) = drawings["uprights-90hp"].plates
    assert (one.rect.width, one.rect.height, one.thickness) == (376.0, 280.0, 6.0)
    assert one.rect.middle == pytest.approx((0.0, 149.5))
    assert [c.what for c in one.holes] == ["A", "B", "C", "D"]
    pairs = drawings["runabout-60hp"].plates
    assert [[c.what for c in p.holes] for p in pairs] == [["A", "B"], ["C", "D"]]


def test_the_outline_goes_round_its_notch() -> None:
    plain, notched = Outline(600.0, 450.0), Outline(600.0, 450.0, 200.0, 30.0)
    assert len(plain.corners) == 4
    assert len(notched.corners) == 8
    for o in (plain, notched):
        (y, z) = np.array(o.corners).T
        shoelace = abs(np.dot(y, np.roll(z, -1)) - np.dot(z, np.roll(y, -1))) / 2
        assert shoelace == pytest.approx(o.area)


# What every page says


def test_quote_is_a_draft_with_its_reasons(judged: Judged, drawings: Drawn) -> None:
    d, j = drawings["pontoon-40hp"].identity, judged["pontoon-40hp"]
    assert (d.paper, d.fails) == (j.paper, ())
    assert {a.says for a in j.to_measure} <= set(d.draft)
    assert bool(d.draft) == (j.paper == "QUOTE")


def test_a_mount_that_fails_says_why(drawings: Drawn) -> None:
    fails = drawings["uprights-90hp"].identity.fails
    assert fails
    assert re.search(r"1\d\d % of limit", fails[0])


def test_an_unmeasured_bracket_makes_a_draft_of_any_paper(judged: Judged) -> None:
    j = judged["uprights-90hp"]
    assert not identity(j).draft
    assert all(h.place == STATED for h in drawing_of(j).of(ENGINE))
    fact = replace(j.facts["engine.bracket.upper_holes"], evidence="common practice")
    other = replace(j, facts=j.facts | {"engine.bracket.upper_holes": fact})
    assert "the bracket's bolt holes" in identity(other).draft
    assert all(h.place == ASSUMED for h in drawing_of(other).of(ENGINE))


def test_an_accepted_stop_is_carried_with_name_date_and_paper(judged: Judged) -> None:
    j = judged["pontoon-40hp"]
    taken = Stop("unsealed-wood", "not sealed", False, "A. Name, 2026-05-04, on owner's letter")
    found = identity(replace(j, stops=(taken,)))
    assert found.accepted == ("unsealed-wood: accepted by A. Name, 2026-05-04, on owner's letter",)
    assert not found.fails
    assert identity(replace(j, stops=(replace(taken, accepted=""),))).fails == ("STOP unsealed-wood: not sealed",)
