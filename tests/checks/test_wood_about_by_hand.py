"""How far the wood goes from a point, read off a drawing: a board 600 by 400, notch 200 by 60, top corners cut 50 by 80,
bottom ones 100 by 120; sides 560 apart. The cuts' sides stand 250 and 200 out, the bottom one begins 280 down."""

from dataclasses import replace

import numpy as np
import pytest

from transom.checks import wood_about as wood
from transom.checks.patch import FAR
from transom.setup.records import Place

BOARD = Place("pod", 600.0, 400.0, 560.0, 380.0, 0.0, 200.0, 60.0, top_cut=(50.0, 80.0), bottom_cut=(100.0, 120.0))
WHOLE = replace(BOARD, notch_width=0.0, notch_depth=0.0, top_cut=(0.0, 0.0), bottom_cut=(0.0, 0.0))
BARE = replace(BOARD, kind="uprights")


def one(x: object) -> float:
    return float(np.ravel(np.asarray(x))[0])


@pytest.mark.parametrize(
    "y, z, up",
    [
        (90.0, 100.0, 40.0),  # under the notch
        (100.0, 100.0, 100.0),  # under its side: the edge
        (260.0, 100.0, 20.0),  # under the corner
        (240.0, 100.0, 20.0),  # 10 beside it and 20 below: up to its level
        (230.0, 100.0, 100.0),  # 20 and 20: past its side
        (240.0, 50.0, 50.0),  # level with it
    ],
)
def test_wood_above(y: float, z: float, up: float) -> None:
    assert one(wood.above(BOARD, y, z)) == up
    assert one(wood.above(WHOLE, y, z)) == z
    assert one(wood.above(replace(WHOLE, top_cut=(50.0, 80.0)), 90.0, 100.0)) == 100.0


@pytest.mark.parametrize(
    "y, z, down, bare",
    [
        (150.0, 200.0, 80.0, 80.0),  # 50 inside the cut's side, 80 over its level
        (120.0, 200.0, 200.0, 200.0),  # 80 and 80: past its side
        (250.0, 200.0, 80.0, 80.0),
        (150.0, 300.0, 100.0, 100.0),  # level with it
    ],
)
def test_wood_below(y: float, z: float, down: float, bare: float) -> None:
    """A bottom line holds what lies over it but for the corner; between uprights nothing does."""
    assert one(wood.below(BOARD, y, z)) == down
    assert one(wood.below(WHOLE, y, z)) == 400.0 - z
    assert one(wood.free_below(BARE, y, z)) == bare
    assert one(wood.free_below(BOARD, y, z)) == (down if down == 80.0 else FAR)
    assert one(wood.free_below(WHOLE, y, z)) == FAR


@pytest.mark.parametrize(
    "y, z, out, free",
    [
        (150.0, 200.0, 150.0, FAR),  # between the cuts
        (150.0, 50.0, 100.0, 100.0),  # the top corner
        (150.0, 300.0, 50.0, 50.0),  # the bottom corner
        (290.0, 200.0, 10.0, 10.0),  # outside the side line
        (280.0, 200.0, 20.0, 20.0),  # on it
    ],
)
def test_wood_outward(y: float, z: float, out: float, free: float) -> None:
    assert one(wood.outward(BOARD, y, z)) == out
    assert one(wood.free_outward(BOARD, y, z)) == free


@pytest.mark.parametrize("b, free", [(10.0, FAR), (20.0, 130.0), (30.0, 120.0)])
def test_a_cut_outside_the_side_line_is_held(b: float, free: float) -> None:
    """The line, 280 out, holds the wood inside a cut whose side lies past it; on it or inside it the side is bare."""
    small = replace(BOARD, top_cut=(b, 80.0))
    assert one(wood.free_outward(small, 150.0, 50.0)) == free


def test_wood_inward() -> None:
    for y, towards, free in ((90.0, 90.0, FAR), (100.0, 0.0, 0.0), (150.0, 50.0, 50.0)):
        assert one(wood.towards_middle(BOARD, y)) == towards
        assert one(wood.free_inward(BOARD, y)) == free
        assert one(wood.towards_middle(WHOLE, y)) == y
        assert one(wood.free_inward(WHOLE, y)) == FAR


@pytest.mark.parametrize(
    "top, foot, width",
    [(100.0, 250.0, 600.0), (80.0, 280.0, 600.0), (79.9, 280.0, 500.0), (80.0, 280.1, 400.0), (0.0, 330.0, 400.0)],
)
def test_width_a_pad_finds(top: float, foot: float, width: float) -> None:
    assert one(wood.width_for_pads(BOARD, top, foot)) == width
    assert one(wood.width_for_pads(WHOLE, top, foot)) == 600.0


def test_what_counts_as_cut() -> None:
    assert [wood.cut(c) for c in ((50.0, 80.0), (0.0, 80.0), (50.0, 0.0), (0.0, 0.0))] == [True, False, False, False]
    assert wood.cut((np.array([0.0, 5.0]), np.array([5.0, 5.0])))
    assert [
        wood.notched(replace(WHOLE, notch_width=w, notch_depth=d)) for w, d in ((9.0, 9.0), (9.0, 0.0), (0.0, 9.0))
    ] == [
        True,
        False,
        False,
    ]
    assert wood.top_corner(WHOLE, 1.0, 1.0) is None
    assert wood.bottom_corner(WHOLE, 1.0, 1.0) is None
    clear = wood.bottom_corner(BOARD, 150.0, 200.0)
    assert clear is not None
    assert (one(clear.aside), one(clear.away)) == (50.0, 80.0)
    assert (one(wood.side_of(BOARD, BOARD.top_cut)), one(wood.bottom_cut_at(BOARD))) == (250.0, 280.0)
    assert wood.between_cuts(600.0, 50.0) == 500.0
