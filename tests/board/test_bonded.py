"""A plate bonded behind a board: by hand, as a laminate of two layers, and the share of the bending that the wood feels."""

import numpy as np
import pytest

from transom.board.bonded import axis_shift, bonded, bonded_rigidity, covered, inside, moduli, wood_part
from transom.board.elements import Section
from transom.board.grid import Rectangle, grid
from transom.board.laminate import abd

WOOD, METAL = (6000.0, 36.0), (70_000.0, 6.0)
GRID = grid([0.0, 40.0, 80.0, 120.0], [-80.0, -40.0, 0.0], 40.0)


def test_by_hand() -> None:
    """Axial stiffness 216,000 and 420,000 N/mm, 21 mm apart: e = 420/636 x 21 = 13.868 mm; D = 6000 x 36 x (108 + 192.3)
    + 70,000 x 6 x (3 + 50.87) = 64.866e6 + 22.624e6 N mm."""
    e = axis_shift(*WOOD, *METAL)
    assert e == pytest.approx(420 / 636 * 21.0)
    assert bonded_rigidity(*WOOD, *METAL, e) == pytest.approx(87.49e6, rel=1e-4)
    # A moment of 1000 per mm stresses the far face, 31.868 from the axis, by 6000 x 31.868 x 1000/87.49e6 = 2.1855 MPa;
    # on the wood alone it would take 2.1855 x 36 x 36/6 = 472.1.
    assert 1000 * wood_part(*WOOD, e, 87.49e6) == pytest.approx(472.1, rel=1e-3)


@pytest.mark.parametrize("wood", [WOOD, (4000.0, 55.0)])
@pytest.mark.parametrize("metal", [METAL, (190_000.0, 3.0), (70_000.0, 12.7)])
def test_as_laminate_theory_has_two_layers(wood: tuple[float, float], metal: tuple[float, float]) -> None:
    """About its elastic axis, D - B^2/A, with Poisson's ratios next to nothing."""
    E, t = zip(wood, metal, strict=True)
    two = abd(np.array(E), np.array(E), np.array(E) / 2, 1e-9, 0.0, np.array(t))
    D = two.D[0, 0] - two.B[0, 0] ** 2 / two.A[0, 0]
    assert bonded_rigidity(*wood, *metal, axis_shift(*wood, *metal)) == pytest.approx(D, rel=1e-6)


def test_a_bonded_plate_of_nothing_changes_nothing() -> None:
    e = axis_shift(*WOOD, 70_000.0, 1e-9)
    assert bonded_rigidity(*WOOD, 70_000.0, 1e-9, e) == pytest.approx(6000.0 * 36.0**3 / 12)
    assert wood_part(*WOOD, e, bonded_rigidity(*WOOD, 70_000.0, 1e-9, e)) == pytest.approx(1.0)


def test_cells_take_the_share_of_plates_they_lie_under() -> None:
    """Three by two cells of 40: a plate from 0 to 60 over the upper row covers one whole cell and half of the next."""
    plate = (Rectangle(0.0, 60.0, -40.0, 0.0),)
    assert covered(GRID, plate) == pytest.approx(np.array([[0.0, 1.0], [0.0, 0.5], [0.0, 0.0]]))
    D = 6000.0 * 36.0**3 / 12
    k = vars(bonded(Section(D, 0.0, D, D / 20, 1.0, 1.0), GRID, plate, 36.0, (70_000.0, 6.0, 0.0)))
    whole = bonded_rigidity(*WOOD, *METAL, axis_shift(*WOOD, *METAL))
    assert k["D_11"] == pytest.approx(D + (whole - D) * covered(GRID, plate))
    assert k["D_11"] == pytest.approx(k["D_22"])
    assert k["D_66"][0, 1] > 3 * k["D_66"][0, 0]
    assert (np.asarray(k["S_1"]) == 1.0).all()


def test_nodes_beside_bare_wood_are_not_inside() -> None:
    """Of a plate over the two cells at port only the nodes at its free edges, and none at its inner end, have metal alone."""
    under = inside(GRID, (Rectangle(0.0, 40.0, -80.0, 0.0),))
    assert under.tolist() == [[True] * 3, [False] * 3, [False] * 3, [False] * 3]


def test_metal_bends_wide_and_twists_by_its_own_moduli() -> None:
    """70,000 MPa, 0.33: 70,000/0.8911 = 78,554.6 against bending, 70,000/2.66 = 26,315.8 against twisting."""
    assert moduli(70_000.0, 0.33) == pytest.approx({"M_1": 78_554.6, "M_2": 78_554.6, "M_12": 26_315.8}, rel=1e-6)
    assert moduli(200_000.0, 0.0) == pytest.approx({"M_1": 200_000.0, "M_2": 200_000.0, "M_12": 100_000.0})
