"""What cannot be built is refused with the pair and the distance; what cannot be vouched for is said."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.drawing.buildable import faults
from transom.drawing.distances import between_circles, between_rects, circle_to_edge, circle_to_rect, rect_to_edge
from transom.drawing.doubts import doubts
from transom.drawing.records import AFT, ENGINE, FORWARD, OPENING, Circle, Drawing, Hole, KeepOut, Outline, Rect, Washer

Drawn = dict[str, Drawing]


def opening(y: float, down: float, d: float = 25.4) -> Hole:
    return Hole("O9", "hose", y, down, OPENING, 0.0, d)


def refused(d: Drawing) -> str:
    return "\n".join(faults(d))


def test_the_examples_can_be_built(drawings: Drawn) -> None:
    assert all(faults(d) == () for d in drawings.values())


def test_a_hole_in_a_hole_is_refused_with_both_and_how_far(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    a = d.holes[0]
    text = refused(replace(d, holes=(*d.holes, opening(a.y + 20.0, a.down))))
    assert "engine hole A (1 in bore) and opening hose (1 in hole) 7/32 in in each other" in text


def test_a_thin_web_is_refused_with_what_is_left(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    a = d.holes[0]
    text = refused(replace(d, holes=(*d.holes, opening(a.y + 27.0, a.down))))
    assert "leaves 1/16 in of wood between them" in text
    assert refused(replace(d, holes=(*d.holes, opening(a.y + 28.5, a.down)))) == ""


@pytest.mark.parametrize(("y", "down"), [(300.0, 200.0), (0.0, 5.0), (-400.0, 200.0), (0.0, 450.0)])
def test_a_hole_off_the_board_or_in_its_edge_is_refused(y: float, down: float, drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    assert "opening hose (1 in hole)" in refused(replace(d, holes=(*d.holes, opening(y, down))))
    assert "off the board or through its edge" in refused(replace(d, holes=(*d.holes, opening(y, down))))


def test_a_hole_in_the_notch_is_refused(drawings: Drawn) -> None:
    d = replace(drawings["pontoon-40hp"], outline=Outline(609.6, 457.2, 340.0, 40.0))
    assert "engine hole A" in refused(d)


def test_a_plate_past_the_edge_over_its_neighbor_or_over_something_is_refused(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    wide = replace(d.plates[0], rect=replace(d.plates[0].rect, y_lo=-320.0))
    text = refused(replace(d, plates=(wide,)))
    assert "plate P1 reaches 5/8 in past the board's edge" in text
    assert "port flange" in text
    tall = replace(d.plates[0], rect=replace(d.plates[0].rect, bottom=222.25))
    assert "plates P1 and P2 lie 3/8 in over each other" in refused(replace(d, plates=(tall, d.plates[1])))
    cable = KeepOut("cable", FORWARD, circle=Circle(0.0, 50.0, 30.0))
    assert "over cable" in refused(replace(d, keep_outs=(cable,)))


def test_a_bolt_outside_its_plate_is_refused(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    short = replace(d.plates[0], rect=replace(d.plates[0].rect, y_lo=-150.0))
    assert "bolt A is 13/16 in outside plate P1" in refused(replace(d, plates=(short,)))


def test_a_bolt_that_is_too_short_or_jams_on_its_shank_is_refused(drawings: Drawn) -> None:
    d = drawings["uprights-90hp"]
    b = d.stack.bolt
    assert b is not None
    for length, thread, words in ((95.0, 30.0, "3.9 mm too short"), (180.0, 36.0, "60 mm past the grip")):
        other = replace(d, stack=replace(d.stack, bolt=replace(b, length=length, thread=thread)))
        assert words in refused(other)


def test_kept_holes_raise_doubts_not_refusals(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    a, kept = d.holes[0], next(h for h in d.holes if h.kept)
    other = replace(d, holes=(*(h for h in d.holes if h is not kept), replace(kept, y=a.y, down=a.down)))
    assert refused(other) == ""
    assert any(f"frame hole {kept.name} as assumed is" in s and "in engine hole A" in s for s in doubts(other).doubts)


def plate_washer(y: float, down: float) -> Washer:
    return Washer("F1", AFT, y, down, 10.0, 50.8, 5.0, "plate washer", square=True)


def test_what_hangs_off_an_edge_is_said(drawings: Drawn) -> None:
    d = replace(drawings["pontoon-40hp"], washers=(plate_washer(-285.75, 19.05),))
    assert any("Washers reach 1/4 in past the board's edge" in s for s in doubts(d).doubts)
    clear = doubts(replace(d, washers=(plate_washer(-270.0, 40.0),), doubts=())).doubts
    assert not any("Washers reach" in s for s in clear)


def test_what_a_plate_covers_is_said(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    y, down = d.plates[0].rect.middle
    frame = [h for h in d.holes if h.kept]
    moved = replace(d, holes=(*d.of(ENGINE), replace(frame[0], y=y, down=down)), doubts=())
    assert any(f"Plate P1 lies over {frame[0].name}:" in s for s in doubts(moved).doubts)
    away = replace(d, holes=(*d.of(ENGINE), replace(frame[0], y=-290.0, down=440.0)), doubts=())
    assert not any("lies over" in s for s in doubts(away).doubts)


def test_what_belongs_to_the_job_and_is_not_drawn_is_said(drawings: Drawn) -> None:
    assert "Not drawn: the bolts from pod to crossmembers." in drawings["pontoon-40hp"].doubts
    assert not any("Not drawn" in s for s in drawings["uprights-90hp"].doubts)


def test_frame_washers_over_each_other_are_said(drawings: Drawn) -> None:
    d = replace(drawings["pontoon-40hp"], washers=(plate_washer(-200.0, 400.0), plate_washer(-160.0, 400.0)))
    assert any("Frame washers lie 7/16 in over each other" in s for s in doubts(d).doubts)


# The distances


NUMBER = st.floats(-500.0, 500.0)
SIZE = st.floats(1.0, 200.0)


@given(NUMBER, NUMBER, SIZE, NUMBER, NUMBER, SIZE)
def test_circles_apart_by_as_much_as_they_can_move(y: float, z: float, d: float, v: float, w: float, e: float) -> None:
    a, b = Circle(y, z, d), Circle(v, w, e)
    room = between_circles(a, b)
    assert room == pytest.approx(between_circles(b, a))
    assert room + (d + e) / 2 == pytest.approx(math.dist((y, z), (v, w)))


@given(NUMBER, NUMBER, SIZE, SIZE, NUMBER, NUMBER, SIZE)
def test_circle_to_rectangle_by_many_points(
    y: float, z: float, w: float, h: float, v: float, u: float, d: float
) -> None:
    r, c = Rect(y, y + w, z, z + h), Circle(v, u, d)
    room = circle_to_rect(c, r)
    near = (min(max(v, r.y_lo), r.y_hi), min(max(u, r.top), r.bottom))
    outside = math.dist(near, (v, u))
    assert (room + d / 2 == pytest.approx(outside)) if outside > 0 else room <= -d / 2


@given(NUMBER, NUMBER, SIZE, SIZE, NUMBER, NUMBER, SIZE, SIZE)
def test_rectangles_moved_by_their_overlap_only_touch(
    y: float, z: float, w: float, h: float, v: float, u: float, k: float, m: float
) -> None:
    a, b = Rect(y, y + w, z, z + h), Rect(v, v + k, u, u + m)
    room = between_rects(a, b)
    assert room == pytest.approx(between_rects(b, a))
    if room < 0:
        moved = [Rect(v + dy, v + k + dy, u + dz, u + m + dz)
                 for dy, dz in ((room, 0), (-room, 0), (0, room), (0, -room))]  # fmt: skip
        assert max(between_rects(a, other) for other in moved) == pytest.approx(0.0, abs=1e-9)


def test_the_notch_counts_as_an_edge() -> None:
    o = Outline(600.0, 450.0, 200.0, 30.0)
    assert circle_to_edge(Circle(0.0, 50.0, 20.0), o) == pytest.approx(10.0)
    assert circle_to_edge(Circle(0.0, 20.0, 10.0), o) < 0
    assert rect_to_edge(Rect(-50.0, 50.0, 10.0, 100.0), o) < 0
    assert rect_to_edge(Rect(-50.0, 50.0, 40.0, 100.0), o) == pytest.approx(10.0)
