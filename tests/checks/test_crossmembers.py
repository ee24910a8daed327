"""Pod to crossmembers: a group worked by hand, published pivots, and what more metal does."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, alone, found, setup_of, trial, whole
from transom.catalogue import SHIPPED
from transom.checks import crossmembers
from transom.checks.trial import Trial
from transom.job.records import Crossmembers, FrameBolts, Job
from transom.judge.fasteners import fastened, least_crossmembers, pod_options

BOLTS = FrameBolts("3/8 in", 8, True, 9.525, 50.8, 4.7625, 0.0, True)
LOAD = (-3000.0, -1000.0, -2000.0, 0.0, 2.6e6, 0.0)
STRAIGHT = (-3000.0, 0.0, -2000.0, 0.0, 2.6e6, 0.0)


def job(count: int = 4, wall: float = 3.175, **bolts: object) -> Job:
    level = replace(JOB, board=replace(JOB.board, lean=0.0), crossmembers=Crossmembers(count, wall))
    frame = replace(level.frame, bolts=FrameBolts("3/8 in", 12, True, 9.525, 76.2, 6.35, 9.525, True))
    own = replace(BOLTS, count=2 * count, **bolts)
    return replace(level, frame=frame, crossmembers=replace(level.crossmembers, bolts=own))


def worst(of: Trial, name: str) -> float:
    return float(found(of)[f"crossmembers.{name}"].worst[0])


def test_four_crossmembers_by_hand() -> None:
    """Four rows 406.4 apart, two bolts 560 apart: I 1 651 610, I across 627 200, far 609.6 and 280; middle 759.6
    forward, at the top edge's level. Fz -2000 with board and pod; My about there 2.6e6 + 759.6 Fz ... by statics."""
    of = trial(job(), loads=alone(LOAD))
    pod = of.setup.pod
    assert pod is not None
    g = pod.group
    assert (g.n, pod.x, g.off_x) == pytest.approx((8, -759.6, 609.6))
    assert pytest.approx(2 * 406.4**2 * (1.5**2 + 0.5**2) * 2) == g.I_x
    mass = float(of.stacks.mass[0]) * 0.610 * 0.450
    F_z = -2000.0 * (1 + (mass + 40.0) / (0.9 * 136.0))
    M_y = 2.6e6 + 759.6 * 2000.0
    M_z = 0.0 - 759.6 * 1000.0
    W = float(of.setup.place.span)
    T = -F_z / 8 + M_y * 609.6 / g.I_x
    J = g.I_x + 8 * (W / 2) ** 2
    V = np.hypot(3000 / 8 + abs(M_z) * W / 2 / J, 1000 / 8 + abs(M_z) * 609.6 / J)
    forces = crossmembers.forces(of, pod)
    assert float(forces.pull[0, 0]) == pytest.approx(T, rel=1e-9)
    assert float(forces.shear[0]) == pytest.approx(V, rel=1e-9)


def test_pull_is_the_highest_of_the_handbook_pivots() -> None:
    """Segui Ex 8.3's group: 88 kip at 2.75 in, rows at 1.5 and 4.5 in, 4 bolts above: edge pivot 6.72, neutral axis 7.82,
    Case II 10.08, in proportion to distance 12.10 kip; ours is the last."""
    T = crossmembers.corner_pull(0.0, 8.0, 88.0 * 2.75, 4.5 / (4 * (1.5**2 + 4.5**2)), 0.0, 0.0)
    assert pytest.approx(12.10, abs=0.005) == T


def test_more_crossmembers_and_a_thicker_wall_are_never_worse() -> None:
    names = ("bolt-tension.ec3", "bolt-shear.ec3", "wall-pull-through.ec9", "wall-pull-through.adm", "wall-bearing.ec9")
    for name in names:
        u = [worst(trial(job(count)), name) for count in (2, 3, 4, 6)]
        assert u == sorted(u, reverse=True), name
    for name in names[2:]:
        u = [worst(trial(job(wall=t)), name) for t in (2.0, 3.0, 5.0)]
        assert u == sorted(u, reverse=True), name


def test_one_row_holds_no_moment_and_never_passes() -> None:
    assert worst(trial(job(1)), "bolt-tension.ec3") == np.inf


def test_a_wider_washer_spreads_over_the_wall_only_as_far_as_it_is_stiff() -> None:
    """2 in, 3/16 thick: 14.29 + 2 x 4.7625 = 23.8 mm; 0.5 x 0.7 x 3.175 x 215 x (23.8 - 10.3) = 3226 N."""
    check = found(trial(job()))["crossmembers.wall-pull-through.adm"]
    assert float(check.resistance[0, 0]) == pytest.approx(0.35 * 3.175 * 215 * (23.815 - 10.325), rel=1e-6)
    thin, thick = (worst(trial(job(washer_t=t)), "wall-pull-through.adm") for t in (1.6, 6.35))
    assert thick < thin


def test_no_pod_no_crossmembers() -> None:
    of = trial(replace(JOB, frame=replace(JOB.frame, kind="uprights")))
    assert crossmembers.checks(of) == ()


def test_lower_crossmembers_shorten_the_arm_of_the_thrust() -> None:
    top, low = (
        float(crossmembers.forces(of, of.setup.pod).pull[0, 0])  # type: ignore[arg-type]
        for of in (trial(setup=setup_of(job(), crossmembers__down=d), loads=alone(STRAIGHT)) for d in (0.0, 200.0))
    )
    assert top - low == pytest.approx(3000 * 200 * 609.6 / (4 * 406.4**2 * 2.5), rel=1e-9)


def test_how_many_must_be_caught() -> None:
    plain = replace(job(), frame=replace(JOB.frame, bolts=None))
    kept = replace(plain, crossmembers=Crossmembers(4, 3.175, (), FrameBolts("3/8 in", 8, True, 9.525)))
    settled = fastened(kept, SHIPPED, whole(kept)).job
    assert 2 <= least_crossmembers(settled, SHIPPED, MOUNT) <= 4


def test_options_run_from_nothing_to_most() -> None:
    first, *_, last = pod_options(
        replace(job(), crossmembers=Crossmembers(4, bolts=FrameBolts("3/8 in", 8, True, 9.525))), SHIPPED
    )
    assert (first.count, first.washer) == (8, None)
    assert (last.count, last.washer) == (24, 101.6)
