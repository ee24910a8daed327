"""The plate that stands against another program's, without anything cut out: as the handbook's, and what it refuses.

Cut, notched and stiffened ones stand in `materials/published/pynite_plates.toml`.
"""

import pytest

from transom.board.cut_plate import cut_plate
from transom.board.handbook import handbook_ratio
from transom.errors import JobError

THIN = {"width": 600.0, "height": 400.0, "t": 2.0, "E": 10_000.0, "step": 25.0}


@pytest.mark.parametrize("at", [(0.0, 0.0), (0.0, -200.0), (150.0, -100.0)])
def test_a_thin_one_is_the_handbook_s(at: tuple[float, float]) -> None:
    """Three sides held, one free; 0.01 MPa on D = E t^3/(12 (1 - nu^2))."""
    D = 10_000.0 * 8.0 / (12 * 0.91)
    place = [at[0] / 600 + 0.5, at[1] / 400 + 1.0]
    book = handbook_ratio("w", place, "SSSF", 600.0, 400.0) * 0.01 * 600.0**4 / D
    assert cut_plate("w", at, **THIN) == pytest.approx(book, rel=0.005)
    if at[1]:
        book = handbook_ratio("M_1", place, "SSSF", 600.0, 400.0) * 0.01 * 600.0**2
        assert cut_plate("M_1", at, **THIN) == pytest.approx(book, rel=0.01)


def test_a_moment_over_a_line_is_its_mean() -> None:
    """Of a field that hardly curves over 20 mm the mean lies between its ends."""
    ends = [cut_plate("M_1", (0.0, z), **THIN) for z in (-200.0, -180.0)]
    assert min(ends) < cut_plate("M_1", (0.0, 0.0, -200.0, -180.0), **THIN) < max(ends)


def test_cutting_and_thickening_go_the_right_ways() -> None:
    plain = cut_plate("w", (0.0, -200.0), 600.0, 400.0, 40.0, 1e4)
    assert (
        cut_plate(
            "w", (0.0, -200.0), 600.0, 400.0, 40.0, 1e4, missing=[[-300, -200, -400, -300], [200, 300, -400, -300]]
        )
        > plain
    )
    assert (
        cut_plate("w", (0.0, -200.0), 600.0, 400.0, 40.0, 1e4, thicker=[-120, 120, -240, -180], t_thicker=52.0) < plain
    )


def test_what_it_does_not_know_is_refused() -> None:
    with pytest.raises(JobError, match="'Q_1' is none of w, M_1, M_2"):
        cut_plate("Q_1", (0.0, 0.0), **THIN)
