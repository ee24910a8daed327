"""Drills in their order, room about holes against what the checks ask, and what the tape must read."""

import math
from dataclasses import replace

import pytest

from transom.drawing import drilling
from transom.drawing.records import ENGINE, FRAME, OPENING, Drawing, Hole, Outline
from transom.judge.records import Judgement

Judged = dict[str, Judgement]
Drawn = dict[str, Drawing]
NAMES = ["pontoon-40hp", "runabout-60hp", "uprights-90hp"]


@pytest.mark.parametrize("name", NAMES)
def test_every_hole_is_drilled_once_and_bored_before_it_is_filled(name: str, drawings: Drawn) -> None:
    d = drawings[name]
    steps = list(drilling.steps(d))
    kinds = [s.kind for s in steps]
    assert kinds.index(drilling.PILOTS) < kinds.index(drilling.BORES) < kinds.index(drilling.FILL)
    assert kinds.index(drilling.FILL) < kinds.index(drilling.FINALS) < kinds.index(drilling.PLATES)
    done = [n for s in steps if s.kind in (drilling.FINALS, drilling.OPENINGS, drilling.MARKED) for n in s.holes]
    assert sorted(done) == sorted(h.name for h in d.holes)
    assert [n for s in steps if s.kind == drilling.MARKED for n in s.holes] == [h.name for h in d.holes if h.kept]
    (bore,) = [s for s in steps if s.kind == drilling.BORES]
    assert bore.holes == tuple(h.name for h in d.of(ENGINE))
    assert bore.diameter == pytest.approx(d.of(ENGINE)[0].over_bore)


def test_a_hole_may_be_off_by_half_of_what_it_is_larger(drawings: Drawn) -> None:
    final = next(s for s in drilling.steps(drawings["pontoon-40hp"]) if s.kind == drilling.FINALS)
    assert final.diameter == pytest.approx(17 / 32 * 25.4)
    assert final.off == pytest.approx(25.4 / 64)  # 17/32 for a 1/2 in bolt
    tight = Hole("A", "", 0.0, 50.0, ENGINE, 12.7, 12.7)
    assert drilling.slack(tight) == 0.0


def test_a_bit_goes_in_once_for_all_holes_of_its_size(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    more = (
        replace(d.of(OPENING)[0], name="O2", y=100.0),
        replace(d.of(OPENING)[0], name="O3", y=-100.0, final=20.0),
        Hole("F20", "", 200.0, 300.0, FRAME, 6.35, 7.0, place="chosen"),
    )
    steps = list(drilling.steps(replace(d, holes=(*d.holes, *more))))
    opened = [(round(s.diameter, 2), s.holes) for s in steps if s.kind == drilling.OPENINGS]
    assert opened == [(20.0, ("O3",)), (31.75, ("O1", "O2"))]
    assert steps[-2].kind == drilling.FINALS
    assert steps[-2].holes == ("F20",)


@pytest.mark.parametrize("name", NAMES)
def test_room_about_engine_holes_is_what_was_checked(name: str, judged: Judged, drawings: Drawn) -> None:
    j, d = judged[name], drawings[name]
    rooms = [r for r in drilling.rooms(d, j.checks) if r.hole.purpose == ENGINE]
    edge = next(c for c in j.checks if (c.part, c.what) == ("engine-bolts", "edge-distance"))
    apart = next(c for c in j.checks if (c.part, c.what) == ("engine-bolts", "bolt-spacing"))
    assert min(r.edge for r in rooms) == pytest.approx(edge.resistance, abs=0.01)
    assert min(r.apart for r in rooms) == pytest.approx(apart.resistance, abs=0.01)
    assert {r.least_edge for r in rooms} == {edge.demand}
    assert edge.demand == pytest.approx(3.5 * d.of(ENGINE)[0].bolt)
    assert {r.least_next for r in rooms} == {apart.demand}
    assert apart.demand == pytest.approx(5 * d.of(ENGINE)[0].bolt)
    assert all(r.holds for r in rooms)


def test_what_is_too_near_does_not_hold() -> None:
    hole = Hole("A", "", 0.0, 40.0, ENGINE, 12.7, 13.5)
    near = drilling.Room(hole, 40.0, 44.45, "B", 100.0, 63.5)
    assert not near.holds
    assert replace(near, edge=44.45).holds
    assert not replace(near, edge=50.0, apart=60.0).holds
    assert replace(near, edge=50.0, apart=math.inf, next="").holds
    assert not replace(near, edge=math.nan).holds


def test_room_in_plates_is_what_was_checked(judged: Judged, drawings: Drawn) -> None:
    for name in NAMES:
        edge = next(c for c in judged[name].checks if (c.part, c.what) == ("backing", "plate-edge"))
        assert min(drilling.plate_rooms(p)[0] for p in drawings[name].plates) == pytest.approx(
            edge.resistance, abs=0.01
        )


def test_the_notch_is_an_edge() -> None:
    board = Outline(610.0, 457.0, 200.0, 60.0)
    below = Hole("A", "", 0.0, 100.0, ENGINE, 12.7, 13.5)
    beside = Hole("B", "", 130.0, 40.0, ENGINE, 12.7, 13.5)
    corner = Hole("C", "", 103.0, 64.0, ENGINE, 12.7, 13.5)
    assert [drilling.to_edge(h, board) for h in (below, beside, corner)] == pytest.approx([40.0, 30.0, 5.0])


@pytest.mark.parametrize("name", NAMES)
def test_the_tape_reads_a_pair_alike_from_its_own_corner(name: str, drawings: Drawn) -> None:
    d = drawings[name]
    found = {t.hole: t for t in drilling.taped(d)}
    for port, starboard in (("A", "B"), ("C", "D")):
        assert found[port].port == pytest.approx(found[starboard].starboard)
        assert found[port].starboard == pytest.approx(found[starboard].port)
    a = d.of(ENGINE)[0]
    # Two circles about the corners cross at the hole: its place from the two lengths, the other way about.
    w, p, s = d.outline.width, found["A"].port, found["A"].starboard
    y = (p * p - s * s) / (2 * w)
    assert y == pytest.approx(a.y)
    assert math.sqrt(p * p - (y + w / 2) ** 2) == pytest.approx(a.down)


def test_by_hand_a_board_of_3_4_5() -> None:
    hole = Hole("A", "", 0.0, 300.0, ENGINE, 12.7, 13.5)
    board = Outline(800.0, 600.0)
    d = Drawing(**dict.fromkeys(Drawing.__dataclass_fields__, ()) | {"outline": board, "holes": (hole,)})  # type: ignore[arg-type]
    (taped,) = drilling.taped(d)
    assert (taped.port, taped.starboard) == (500.0, 500.0)
    assert drilling.diagonals(d) == (("board, corner to corner, both ways", 1000.0),)


def test_the_pattern_has_two_diagonals(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    (_, board), (first, one), (second, other) = drilling.diagonals(d)
    assert (first, second) == ("A to D", "B to C")
    assert one == pytest.approx(other)
    assert one == pytest.approx(math.hypot(163.5125 + 125.4125, 203.2))
    assert board == pytest.approx(math.hypot(609.6, 457.2))
