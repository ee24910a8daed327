"""Where the strips and the pad block change over: at the very limit, and which of two rows pulls; by hand."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from transom.statics import crossed
from transom.statics.pads import _height

ANY: Any = SimpleNamespace
BOARD = ANY(t=40.0, H=400.0, W=600.0)
ROWS = ANY(y1=150.0, y2=120.0, z1=50.0, z2=250.0)


@pytest.mark.parametrize(
    "board, rows, valid",
    [
        ({}, {}, True),
        ({"t": 25.0}, {}, True),
        ({"t": 24.99}, {}, False),
        ({"t": 90.0}, {}, True),
        ({"t": 90.01}, {}, False),
        ({"H": 270.0}, {}, True),  # 20 below the lower row
        ({"H": 269.99}, {}, False),
        ({}, {"z1": 230.0}, True),  # 20 between the rows
        ({}, {"z1": 230.01}, False),
        ({}, {"y1": 299.5}, True),
        ({}, {"y1": 300.0}, False),
        ({}, {"y2": 299.5}, True),
        ({}, {"y2": 300.0}, False),
    ],
)
def test_what_the_strips_were_set_on(board: dict[str, float], rows: dict[str, float], valid: bool) -> None:
    found = crossed._valid(ANY(**(vars(BOARD) | board)), ANY(**(vars(ROWS) | rows)))
    assert bool(found) is valid


@pytest.mark.parametrize(
    "ahead, lifted, P_2, pull",
    [
        (True, False, -900.0, 1000.0),  # the lower row pushes by 1000: turned over, it pulls
        (False, True, -900.0, 1000.0),
        (True, False, 900.0, 500.0),
        (False, True, 900.0, 500.0),
        (False, False, 900.0, 800.0),
        (False, False, -900.0, 500.0),
    ],
)
def test_the_lower_row_pulls_a_side_line_in_its_own_sense(ahead: bool, lifted: bool, P_2: float, pull: float) -> None:
    """Upper row 700 - 200; lower one P_2 - 100; no bolt pulls and nothing aft."""
    contact = ANY(ahead=np.array(ahead), lifted=np.array(lifted), T_u=0.0, T_l=0.0)
    found = crossed._side_pull(0.0, contact, ANY(P1=700.0, P2=P_2), ANY(q1=200.0, q2=100.0))
    assert float(found) == pytest.approx(pull)


def test_a_low_block_is_still_a_block_and_none_is_endless() -> None:
    """y = L - sqrt(L^2 - 2 M/(f b)): 0.8 - sqrt(0.64 - 0.5)."""
    assert float(_height(50.0, 0.8, 2.0, 100.0)) == pytest.approx(0.8 - np.sqrt(0.14))
    assert float(_height(64.1, 0.8, 2.0, 100.0)) == np.inf
    assert float(_height(0.0, 0.0, 2.0, 100.0)) == np.inf
