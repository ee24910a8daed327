"""What the boat has to hold, place by place: each line's bolts, the ends that close the balance, the crossmembers; by hand."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tests.checks.shop import AHEAD, ASTERN, JOB, MOUNT, alone, trial
from tests.checks.test_crossmembers import EVEN, singly
from tests.checks.test_frame import KEPT
from transom.checks import crossmembers, pod_reactions, reactions
from transom.checks.frame_pull import _across
from transom.checks.plate_reactions import at_service, held
from transom.checks.pod_reactions import slope_across, slope_aft
from transom.checks.reactions import _closed, _end, own_weight, with_weight
from transom.job.records import Frame
from transom.judge.evaluate import careful_of

SKEW = ((-250.0, 100.0), (-200.0, 500.0), (0.0, 320.0), (220.0, 640.0), (270.0, 900.0))


def end_line(n: int, pitch: float, y_pad: float, *force: float) -> tuple[np.ndarray, np.ndarray]:
    frame, pattern = SimpleNamespace(end_pitch=pitch), SimpleNamespace(y_pad=y_pad)
    of: Any = SimpleNamespace(setup=SimpleNamespace(frame=frame, holding=SimpleNamespace(pattern=pattern)))
    return _across(pitch, n), _end(of, np.array(force), n)


def test_half_of_an_end_lines_force_acts_at_either_pad() -> None:
    """Four bolts 100 apart stand at -150 ... 150; 500 N at +75 is three quarters the bolt at 50's and one the one at 150's."""
    y, F = end_line(4, 100.0, 75.0, 1000.0, -200.0)
    assert y == pytest.approx(np.array([-150.0, -50.0, 50.0, 150.0]))
    assert pytest.approx(np.array([[125.0, 375.0, 375.0, 125.0], [-25.0, -75.0, -75.0, -25.0]])) == F


def test_an_end_line_of_two_one_or_no_bolts() -> None:
    y, F = end_line(2, 300.0, 100.0, 1000.0)
    assert y.tolist() == [-150.0, 150.0]
    assert pytest.approx(np.array([[500.0, 500.0]])) == F
    y, F = end_line(1, 300.0, 100.0, 1000.0, 70.0)
    assert (y.tolist(), F.tolist()) == ([0.0], [[1000.0], [70.0]])
    y, F = end_line(0, 300.0, 100.0, 1000.0, 70.0)
    assert (y.shape, F.shape) == ((0,), (2, 0))


def test_what_is_left_open_goes_to_the_ends_of_the_side_lines() -> None:
    """Three bolts a side, 500 apart, 20 to 420 down; 600 N aft held by nothing yet, its moment about a level axis
    through the bolts 600 x -120: at 120 down, a quarter of the way, so 3/4 and 1/4 of it; and a turn of 50,000 N mm,
    +-50 N at 500 apart, at both ends of a side."""
    y = np.array([-250.0] * 3 + [250.0] * 3)
    z = np.array([-20.0, -220.0, -420.0] * 2)
    held_already = np.array([[0.0, 10.0, 0.0, 0.0, 10.0, 0.0]])
    F_x, M_y, M_z = 620.0, 600.0 * -120 + 20.0 * -220, 50_000.0
    both = np.array([[F_x, 0.0, 0.0, 0.0, M_y, M_z]])
    out = _closed(held_already, y, z, both, 0.0, 3, 500.0)
    assert out == pytest.approx(np.array([[225.0 + 50, 10.0, 75.0 + 50, 225.0 - 50, 10.0, 75.0 - 50]]))
    assert held_already.tolist() == [[0.0, 10.0, 0.0, 0.0, 10.0, 0.0]]


def test_the_ends_take_moments_about_mid_thickness() -> None:
    """18 mm forward of the datum 1000 N up has a moment of 18,000 N mm about the y axis, 400 across one of -7,200 about
    z: over two sides 400 high 22.5 N aft at the top and forward at the foot, over 500 across 7.2 N to starboard."""
    y = np.array([-250.0, -250.0, 250.0, 250.0])
    z = np.array([-20.0, -420.0, -20.0, -420.0])
    out = _closed(np.zeros((1, 4)), y, z, np.array([[0.0, 400.0, 1000.0, 0.0, 0.0, 0.0]]), -18.0, 2, 500.0)
    M_y, M_z = -18.0 * 1000.0, 18.0 * 400.0
    assert out.sum() == pytest.approx(0.0, abs=1e-9)
    assert float(out[0] @ z) == pytest.approx(M_y)
    assert float(-(out[0] @ y)) == pytest.approx(M_z)
    assert out[0] == pytest.approx([-22.5 + 7.2, 22.5 + 7.2, -22.5 - 7.2, 22.5 - 7.2])


@pytest.mark.parametrize("load, upper", [(AHEAD, True), (ASTERN, False)])
def test_a_rows_share_comes_on_the_two_bolts_beside_it(load: tuple[float, ...], upper: bool) -> None:
    """Service loads are 1/1.5 of the design ones, and so are the strips'. Row 1 pulls aft where the upper bolts pull
    and pushes where they do not, row 2 the other way; at the foot nothing but the closing of the balance."""
    of = trial(replace(JOB, frame=Frame("pod", 38.1, 6.35, "5052-H32", replace(KEPT, count=30))), loads=alone(load))
    f, s = of.setup.frame, of.strips
    n, first, pitch = int(f.n_side), float(f.first), float(f.side_pitch)
    assert n > 5
    sense = 1.0 if upper else -1.0
    assert bool((s.ahead | s.lifted)[0, 0]) is upper
    want = np.zeros(n)
    for way, P, q, z in ((sense, s.P1, s.q1, s.z1), (-sense, s.P2, s.q2, s.z2)):
        at = (float(np.ravel(z)[0]) - first) / pitch
        i = int(np.floor(at))
        F = way * float(np.ravel(P - q)[0]) / 1.5
        want[i] += F * (1 - (at - i))
        want[i + 1] += F * (at - i)
    r = reactions.reactions(of)
    assert r.lines[: 2 * n] == ("port side",) * n + ("starboard side",) * n
    for side in (slice(0, n), slice(n, 2 * n)):
        assert r.force[0, side, 0][1:-1] == pytest.approx(want[1:-1], abs=1e-6)
    assert np.abs(want[1:-1]).max() > 100.0


def test_own_weight_hangs_at_the_boards_middle() -> None:
    """The board leaning 14 degrees: its middle half the thickness forward and half the height down."""
    of = trial()
    W, at = own_weight(of)
    m = float(of.stacks.mass[0]) * 0.610 * 0.450
    assert at == pytest.approx(np.array([-36.52 / 2, 0.0, -450.0 / 2]), rel=1e-3)
    assert np.hypot(W[0], W[2]) == pytest.approx(m * 9.80665)
    lean = float(of.setup.place.lean)
    assert W[2] == pytest.approx(-m * 9.80665 * np.cos(lean))
    assert W[0] == pytest.approx(m * 9.80665 * np.sin(lean))
    both, W_again, at_again = with_weight(of)
    assert np.array_equal(W, W_again)
    assert np.array_equal(at, at_again)
    assert both[:, :3] == pytest.approx(of.cases.wrench[:, :3] + W)
    assert both[:, 3:] == pytest.approx(of.cases.wrench[:, 3:] + np.cross(at, W))


def about_middle(at: np.ndarray, force: np.ndarray, point: np.ndarray) -> np.ndarray:
    return np.concatenate([force.sum(axis=0), np.cross(at - point, force).sum(axis=0)])


@pytest.mark.parametrize("holes", [EVEN, SKEW])
def test_forces_on_crossmembers_lie_in_a_plane_and_balance(holes: tuple[tuple[float, float], ...]) -> None:
    """Up on a bolt: F/n + a x + b y, with sum(y R) = M_x and -sum(x R) = M_y, solved apart from the code."""
    of = trial(singly(*holes))
    found = pod_reactions.pod_reactions(of)
    assert found is not None
    r, middle = found.forces, found.forces.at.mean(axis=0)
    x, y = (r.at - middle)[:, 0], (r.at - middle)[:, 1]
    for i, w in enumerate(of.cases.wrench):
        F, M = w[:3].copy(), w[3:] + np.cross(-middle, w[:3])
        for W, at in zip(found.weights, found.weights_at, strict=True):
            F, M = F + W, M + np.cross(at - middle, W)
        a, b = np.linalg.solve([[x @ x, x @ y], [x @ y, y @ y]], [-M[1], M[0]])
        assert r.force[i, :, 2] == pytest.approx(F[2] / len(x) + a * x + b * y)


def test_slopes_of_a_skew_group_solve_its_two_equations() -> None:
    x, y = np.array([-300.0, -50.0, 120.0, 230.0]), np.array([-100.0, 150.0, -200.0, 150.0])
    I = (float(x @ x), float(y @ y), float(x @ y))  # noqa: E741 sums of squares
    assert abs(I[2]) > 1e4
    for M_x, M_y in ((1e5, 0.0), (0.0, 1e5), (-3e4, 7e4)):
        a, b = slope_aft(M_x, M_y, *I), slope_across(M_x, M_y, *I)
        R = a * x + b * y
        assert float(y @ R) == pytest.approx(M_x, abs=1e-6)
        assert float(-(x @ R)) == pytest.approx(M_y, abs=1e-6)


def test_board_and_pod_hang_by_their_own_weights() -> None:
    """Pod 40 kg at the bolts' middle; the board level, so its middle is where its measures say."""
    of = trial(singly(*EVEN))
    found = pod_reactions.pod_reactions(of)
    assert found is not None
    assert of.setup.pod is not None
    m = float(of.stacks.mass[0]) * 0.610 * 0.450
    assert found.weights == pytest.approx(np.array([[0, 0, -m * 9.80665], [0, 0, -float(of.setup.pod.mass) * 9.80665]]))
    assert found.weights_at[0] == pytest.approx([-36.52 / 2, 0.0, -225.0], rel=1e-3)
    assert found.weights_at[1] == pytest.approx(found.forces.at.mean(axis=0))
    leaning = singly(*EVEN)
    leaning = replace(leaning, board=replace(leaning.board, lean=0.2))
    found = pod_reactions.pod_reactions(trial(leaning))
    assert found is not None
    c, s = np.cos(0.2), np.sin(0.2)
    x, z = -36.52 / 2, -225.0
    assert found.weights_at[0] == pytest.approx([x * c + z * s, 0.0, z * c - x * s], rel=1e-3)


@pytest.mark.parametrize(
    "holes",
    [
        ((-200.0, 300.0), (0.0, 300.0), (200.0, 300.0)),  # one row
        ((0.0, 100.0), (0.0, 300.0), (0.0, 500.0)),  # one line forward
        ((-200.0, 100.0), (0.0, 300.0), (200.0, 500.0)),  # askew, and on one line
    ],
)
def test_bolts_that_hold_no_moment_have_no_forces(holes: tuple[tuple[float, float], ...]) -> None:
    assert pod_reactions.pod_reactions(trial(singly(*holes))) is None


def test_no_pod_nothing_on_crossmembers() -> None:
    assert pod_reactions.pod_reactions(trial(replace(JOB, frame=Frame("uprights")))) is None


def test_a_group_askew_pulls_by_both_its_axes() -> None:
    """The worst corner: each bolt's own plane through the places, both terms taken as pulls, never less than the plane."""
    of = trial(singly(*SKEW))
    assert of.setup.pod is not None
    g = of.setup.pod.group
    x, y = g.off_x, g.off_y
    I = np.array([[x @ x, x @ y], [x @ y, y @ y]])  # noqa: E741 sums of squares
    F_z, M_x, M_y = -5000.0, 4e5, 9e5
    by_y, by_x = np.linalg.solve(I, [M_y, 0.0]), np.linalg.solve(I, [0.0, M_x])
    want = g.skew * (5000.0 / 5 + np.abs(by_y[0] * x + by_y[1] * y) + np.abs(by_x[0] * x + by_x[1] * y))
    got = crossmembers._pull(np.array([F_z]), np.array([M_x]), np.array([M_y]), np.array([5.0]), g)
    assert got == pytest.approx(want)


def test_the_plate_at_service_is_asked_on_its_finest_grid() -> None:
    """Under service loads all it holds comes to the characteristic wrench; on as many places as the finest grid has on its lines."""
    of = careful_of(trial(JOB, MOUNT, loads=alone(AHEAD)))
    answer = at_service(of)
    finest = max(of.answer.seated, key=lambda s: len(s.units.plate.grid.y) * len(s.units.plate.grid.z))
    assert len(of.answer.seated) > 1
    assert answer.seated == (finest,)
    r = held(of)
    bearing = r.force[:, np.any(r.force[0][:, 1:] == 0.0, axis=1)]
    assert bearing.shape[1] >= 1
    assert r.force.sum(axis=1)[0] == pytest.approx(of.cases.wrench[0, :3] + r.own_weight, rel=1e-6)
