"""Cut corners on the drawings: outline, distances, words, all writers alike."""

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.drawing.test_dxf import document
from transom.drawing import shapes as s
from transom.drawing.dimensioned import dimensioned
from transom.drawing.distances import circle_to_edge, rect_to_edge
from transom.drawing.drilling import diagonals, taped
from transom.drawing.records import Circle, Cut, Drawing, Outline, Rect
from transom.drawing.taped import board_lengths
from transom.drawing.views import face_view
from transom.drawing.words import board_words

CUT = Outline(610.0, 450.0, 0.0, 0.0, Cut(40.0, 40.0, "round"), Cut(60.0, 80.0))
SQUARE = Outline(610.0, 450.0, 100.0, 30.0, Cut(40.0, 20.0, "square"))


def shoelace(o: Outline) -> float:
    y, z = np.array(o.corners).T
    return float(abs(y @ np.roll(z, -1) - z @ np.roll(y, -1)) / 2)


@pytest.mark.parametrize(
    "o", [Outline(610.0, 450.0), CUT, SQUARE, Outline(610.0, 450.0, bottom=Cut(12.7, 12.7, "round"))]
)
def test_the_outline_goes_once_round_what_is_left(o: Outline) -> None:
    """A curve drawn as short lines leaves at most 0.05 mm of wood over."""
    assert shoelace(o) == pytest.approx(o.area, abs=0.05 * 4 * 63)
    y, z = np.array(o.corners).T
    assert (np.abs(y).max(), z.min(), z.max()) == (305.0, 0.0, 450.0)
    assert sorted(np.round(y, 9)) == pytest.approx(sorted(np.round(-y, 9)))


def test_area_by_hand() -> None:
    """610 x 450 less 2 x 1600 (1 - pi/4) less 60 x 80; with the notch 100 x 30 and two 40 x 20."""
    assert CUT.area == pytest.approx(274_500 - 3200 * (1 - math.pi / 4) - 4800)
    assert SQUARE.area == 274_500 - 3000 - 1600


def test_room_beside_each_kind_of_cut_by_hand() -> None:
    """Straight: 100 in from both, (100/60 + 100/80 - 1) x 48 = 92; round: from its center; square: to its inner corner."""
    assert circle_to_edge(Circle(205.0, 350.0, 20.0), CUT) == pytest.approx(92.0 - 10.0)
    assert circle_to_edge(Circle(-285.0, 20.0, 0.0), CUT) == pytest.approx(40.0 - math.hypot(20.0, 20.0))
    assert circle_to_edge(Circle(262.0, 24.0, 0.0), SQUARE) == pytest.approx(math.hypot(3.0, 4.0))
    assert circle_to_edge(Circle(270.0, 10.0, 0.0), SQUARE) < 0
    assert rect_to_edge(Rect(240.0, 265.0, 30.0, 60.0), SQUARE) == pytest.approx(10.0)
    assert rect_to_edge(Rect(200.0, 300.0, 300.0, 400.0), CUT) < 0


def test_tapes_end_where_the_edges_end(drawings: dict[str, Drawing]) -> None:
    d = replace(drawings["pontoon-40hp"], outline=CUT)
    one = taped(d)[0]
    hole = next(h for h in d.holes if h.name == one.hole)
    assert one.port == pytest.approx(math.hypot(hole.y + 265.0, hole.down))
    assert diagonals(d)[0][1] == pytest.approx(math.hypot(265.0 + 245.0, 450.0))
    assert [x.mm for x in board_lengths(d)][:3] == pytest.approx([490.0, 330.0, 330.0])


def test_words_say_how_the_corners_are(drawings: dict[str, Drawing]) -> None:
    d = drawings["pontoon-40hp"]
    d = replace(d, identity=replace(d.identity, units="si"), outline=CUT)
    assert board_words(d) == (
        "610 mm x 450 mm, both top corners rounded to a radius of 40 mm, both bottom corners cut off straight,"
        " 60 mm of the edge and 80 mm of the side"
    )
    assert board_words(replace(d, outline=SQUARE)).startswith(
        "610 mm x 450 mm, both top corners cut out square, 40 mm of the edge and 20 mm of the side, the others square, notch"
    )
    assert "corners square" in board_words(replace(d, outline=Outline(610.0, 450.0)))


@pytest.mark.parametrize("o", [CUT, SQUARE])
def test_every_writer_has_the_same_outline(drawings: dict[str, Drawing], o: Outline) -> None:
    d = replace(drawings["pontoon-40hp"], outline=o)
    (path,) = (x for x in face_view(d, "aft").shapes if isinstance(x, s.Path) and x.purpose == s.OUTLINE)
    assert np.array(path.points) * (1.0, -1.0) == pytest.approx(np.array(o.corners))
    assert len([x for x in dimensioned(d).shapes if isinstance(x, s.Label)]) >= 12
    (line,) = document(d).modelspace().query('LWPOLYLINE[layer=="BOARD_OUTLINE"]')
    assert np.array([p[:2] for p in line.get_points()]) * (1.0, -1.0) == pytest.approx(np.array(o.corners), abs=1e-6)
