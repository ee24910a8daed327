"""What a quick look is worth beside plates on two grids that were solved for others."""

import numpy as np
import pytest

from transom.result import CheckArray
from transom.sizing.looks import AT_MOST, COARSE, FAR, MOST, OTHER_BOLTS, OWN_BOLTS, SAME_LOOK, Looks

HERE, THERE = np.array([3.6, 0.1, 2.0]), np.array([3.6, 0.1, 2.1])
BENDING = np.array([True, False, False])


def check(part: str) -> CheckArray:
    one = np.ones((1, 1))
    return CheckArray(
        part, "what", "ec5", "plate", "", "source", "published", "derived", ("a", "b"), one, one, "", False
    )


CHECKS = [check("board"), check("backing"), check("frame")]


def looks(*raised: tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray | None]) -> Looks:
    """Looks at the places 0, 1, ... that two grids were asked of, each with what they found, and at 9, 1.0 in all."""
    out = Looks()
    for place, (like, look, fine, lifted) in enumerate(raised):
        out.take(place, CHECKS, look)
        out.compare(place, (like, place), fine, BENDING, lifted)
    out.take(9, CHECKS, np.ones((3, 2)))
    return out


def test_where_nothing_is_known_a_look_counts_as_it_is() -> None:
    assert looks().expected(9, HERE, 9) == (1.0, COARSE)


def test_a_look_is_raised_by_what_two_grids_made_of_the_one_most_like_it() -> None:
    look = np.full((3, 2), 0.5)
    near, far = (np.array([[0.51, 0.5], [0.5, k], [0.5, 0.5]]) for k in (0.53, 0.54))
    found = looks((HERE, look, near, np.ones(2)), (THERE, look, far, np.ones(2)))
    assert found.expected(9, HERE, 9) == (pytest.approx(1.06), OTHER_BOLTS[0])
    likely, off = found.expected(9, HERE + 0.06 * (THERE - HERE) / 0.1, 9)
    assert (likely, off) == (pytest.approx(1.08), pytest.approx(OTHER_BOLTS[0] + 0.04 * OTHER_BOLTS[1]))
    thicker = np.array([1.0, 0.0, 0.0])
    # The farther one has the same bolts, and tells more of it than the nearer.
    likely, off = found.expected(9, HERE + 0.04 * (THERE - HERE) / 0.1, 1)
    assert (likely, off) == (pytest.approx(1.08), pytest.approx(OWN_BOLTS[0] + 0.06 * OWN_BOLTS[1]))
    assert found.expected(9, HERE + 0.4 * thicker, 9)[1] == AT_MOST
    assert found.expected(9, HERE + (FAR + 0.01) * thicker, 9) == (1.0, COARSE)


def test_the_frames_bolts_count_as_they_are_and_keep_the_wider_margin() -> None:
    """On two grids another choice of them may be the best: 1.06 of the limit by a look is no more than 1 + 0.075 may be."""
    fine = np.array([[0.5, 0.5], [0.5, 0.5], [0.9, 0.9]])
    found = looks((HERE, np.full((3, 2), 0.5), fine, np.ones(2)))
    for u, hopeful in ((1.06, True), (1.08, False)):
        found.take(9, CHECKS, np.array([[0.5, 0.5], [0.5, 0.5], [u, 0.5]]))
        likely, off = found.expected(9, HERE, 9)
        assert (likely <= 1.0 + off) is hopeful


def test_no_more_than_so_much_is_told_and_of_what_was_not_asked_the_least() -> None:
    look = np.array([[0.5, 0.0], [0.5, 0.4], [0.5, 0.5]])
    fine = np.array([[0.45, 3.0], [0.9, 0.4], [0.5, 0.5]])
    (raised,) = looks((HERE, look, fine, np.ones(2))).raised
    np.testing.assert_allclose(raised.times, [[0.9, 0.9], [MOST, 1.0], [1.0, 1.0]])


def test_what_a_plate_left_out_of_bending_others_tell() -> None:
    """Its edge was not let lift, since it was over its limit already: the least that others' bending came to counts."""
    look = np.full((3, 2), 0.5)
    lifted = np.array([1.04, 1.08]), np.array([1.05, 1.02])
    *_, raised = looks(*((THERE, look, look, k) for k in lifted), (HERE, look, look, None)).raised
    np.testing.assert_allclose(raised.times, [[1.04, 1.02], [1.0, 1.0], [1.0, 1.0]])


def test_a_plate_that_was_not_looked_at_tells_its_lifting_alone() -> None:
    found = looks()
    found.compare(5, (HERE, 5), np.ones((3, 2)), BENDING, np.array([1.1, 1.2]))
    assert not found.raised
    assert found.lifted == pytest.approx([1.1, 1.2])


def test_one_whose_look_was_much_the_same_tells_most() -> None:
    """Whatever the two are: of what comes near the worst the looks differ by 0.004; the rest and the frame's bolts by more."""
    look = np.array([[1.0, 0.95], [0.5, 0.9], [0.7, 1.0]])
    found = looks((HERE + 0.2, look, 1.02 * look, np.ones(2)))
    for change, off in ((np.zeros((3, 2)), 0.0), (np.array([[0.0, -0.004], [0.2, 0.0], [0.1, 0.01]]), 0.008)):
        found.take(9, CHECKS, look + change)
        likely, margin = found.expected(9, HERE, 9)
        assert margin == pytest.approx(SAME_LOOK[0] + off)
        assert likely == pytest.approx(1.02)
    found.take(9, CHECKS, look + 0.1)
    assert found.expected(9, HERE, 9)[1] == AT_MOST
