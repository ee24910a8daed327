"""Free bodies: in balance, drawn whole, with numbers that can be read."""

import math
from functools import cache

import numpy as np
import pytest

from tests.report.jobs import drawn
from transom.checks.trial import Trial
from transom.report.forces import trial_of_mount
from transom.report.html.body import Body, bodies
from transom.report.html.draw import ROOM, View, _arrows, above, from_above, from_port, side
from transom.report.html.scenes import arm, scenes

NAMES = ("example", "clamps")


@cache
def trial(name: str) -> Trial:
    found = trial_of_mount(drawn(name))
    assert found is not None
    return found


@cache
def found(name: str) -> tuple[Body, ...]:
    return bodies(drawn(name), trial(name))


@pytest.mark.parametrize("name", NAMES)
def test_one_for_each_situation_in_its_worst_case(name: str) -> None:
    j = drawn(name)
    assert [b.of for b in found(name)] == list(dict.fromkeys(j.cases.of))
    for b in found(name):
        mine = [
            c.utilisation
            for c in j.deciding
            if c.case in j.cases.names and j.cases.of[j.cases.names.index(c.case)] == b.of
        ]
        assert b.check.utilisation == max(mine)


@pytest.mark.parametrize("name", NAMES)
def test_forces_and_moments_balance(name: str) -> None:
    """About the starboard axis, M_y = z F_x - x F_z; the sums are nought to rounding, without the method's own functions."""
    for b in found(name):
        pushes = (*b.acts, *b.holds)
        most = max(p.size for p in pushes)
        for axis in range(3):
            assert abs(sum(p.force[axis] for p in pushes)) < 1e-9 * most
        moment = sum(p.at[2] * p.force[0] - p.at[0] * p.force[2] + p.couple[1] for p in pushes)
        assert abs(moment) < 1e-7 * most * b.height


@pytest.mark.parametrize("name", NAMES)
def test_what_acts_adds_up_to_the_case(name: str) -> None:
    """The sum of what acts, turned into the board's axes by hand, is the case's own wrench with factors."""
    for b in found(name):
        cases = trial(name).cases
        design = cases.design.reshape(-1, 6)[cases.names.index(b.case)]
        x, y, z = (sum(p.force[i] for p in b.acts) for i in range(3))
        sin, cos = math.sin(b.lean), math.cos(b.lean)
        assert [x * cos - z * sin, y, x * sin + z * cos] == pytest.approx(list(design[:3]), rel=1e-9, abs=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_bolts_pull_forward_and_pads_push_aft(name: str) -> None:
    for b in found(name):
        for p in b.holds:
            square = p.force[0] * math.cos(b.lean) - p.force[2] * math.sin(b.lean)
            if p.name.startswith(("upper", "lower")):
                assert square < 0
            if p.name.startswith("bracket bears"):
                assert square > 0
            assert p.factor is None


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("axes", (from_port, from_above))
def test_every_force_that_shows_has_a_number_clear_of_the_others(name: str, axes) -> None:
    for b in found(name):
        view = View(axes, 0.3)
        arrows = _arrows(view, b)
        pushes = (*b.acts, *b.holds)
        most = max(p.size for p in pushes)
        seen = [n for n, p in enumerate(pushes, 1) if math.hypot(*axes(p.force)) > 1e-6 * most]
        assert [a.number for a in arrows] == seen
        for i, a in enumerate(arrows):
            push = pushes[a.number - 1]
            along = np.subtract(a.tip, a.tail)
            assert np.dot(along, axes(push.force)) == pytest.approx(
                np.linalg.norm(along) * math.hypot(*axes(push.force))
            )
            assert all(math.dist(a.label, other.label) >= ROOM - 1e-9 for other in arrows[:i])


def test_drawings_name_which_way_is_which() -> None:
    b = next(b for b in found("example") if b.sideways)
    assert "forward" in side(b)
    assert "aft" in side(b)
    assert "port" in above(b, 600.0)
    assert "starboard" in above(b, 600.0)


@pytest.mark.parametrize("name", NAMES)
def test_scenes_have_a_row_for_every_force_and_the_lines_the_board_lies_on(name: str) -> None:
    for scene, b in zip(scenes(drawn(name), trial(name)), found(name), strict=True):
        assert len(scene.forces) == len(b.acts) + len(b.holds)
        assert len(scene.drawings) == 1 + b.sideways
        assert bool(scene.turning) == b.sideways
        assert [row[0] for row in scene.lines][:2] == ["port side", "starboard side"]
        assert all(len(row) == 11 for row in scene.forces)
        assert all(len(row) == 10 for row in scene.lines)
        assert not any("nan" in cell or "inf " in cell for row in (*scene.forces, *scene.lines) for cell in row)


def test_an_arm_is_for_a_pocket_calculator() -> None:
    assert arm(254.0, "us") == "10.0 in"
    assert arm(-0.01, "us") == "0.0 in"
    assert arm(-253.6, "si") == "-254 mm"
