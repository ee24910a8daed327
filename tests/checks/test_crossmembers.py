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
        assert u[0] > u[-1] > 0, name
    for name in names[2:]:
        u = [worst(trial(job(wall=t)), name) for t in (2.0, 3.0, 5.0)]
        assert u == sorted(u, reverse=True), name
        assert u[0] > u[-1] > 0, name


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


def singly(*holes: tuple[float, float]) -> Job:
    """The job with every bolt where it was measured, (y, forward)."""
    plain = job()
    return replace(plain, crossmembers=replace(plain.crossmembers, count=None, holes=holes))


EVEN = tuple((y, 150.0 + 406.4 * i) for i in range(4) for y in (-280.0, 280.0))


def test_single_holes_in_even_rows_are_the_rows() -> None:
    """The same eight places stated one by one: the same shears, and pulls with what no order may add."""
    rows, single = trial(job()), trial(singly(*EVEN))
    for load in (LOAD, STRAIGHT):
        a, b = (crossmembers.forces(replace(of, cases=alone(load)), of.setup.pod) for of in (rows, single))  # type: ignore[arg-type]
        assert float(b.pull[0, 0]) == pytest.approx(1.05 * float(a.pull[0, 0]), rel=1e-9)
        assert np.ravel(b.shear)[0] == pytest.approx(np.ravel(a.shear)[0], rel=1e-9)


def test_a_skew_pattern_is_bent_about_its_own_axes() -> None:
    """Five bolts askew: pulls that a plane through the places gives, fitted apart from the code, are never exceeded."""
    holes = ((-250.0, 100.0), (-200.0, 500.0), (0.0, 320.0), (220.0, 640.0), (270.0, 900.0))
    of = trial(singly(*holes), loads=alone(LOAD))
    pod = of.setup.pod
    assert pod is not None
    y, forward = np.array(holes).T
    x = -(forward - forward.mean())
    y = y - y.mean()
    _, _, F_z, M_x, M_y, _ = crossmembers.level(of, of.cases.design, pod)[0]
    # R = F/n + a x + b y with sum(y R) = M_x and -sum(x R) = M_y; a bolt pulls where R is down.
    a, b = np.linalg.solve([[x @ x, x @ y], [x @ y, y @ y]], [-M_y, M_x])
    exact = np.max(-(F_z / 5 + a * x + b * y))
    ours = float(crossmembers.forces(of, pod).pull[0, 0])
    assert exact <= ours <= 3.0 * exact


def test_bolts_on_one_line_hold_no_moment_across_it() -> None:
    of = trial(singly((-200.0, 100.0), (0.0, 300.0), (200.0, 500.0)))
    assert worst(of, "bolt-tension.ec3") == np.inf


def test_crossmembers_where_they_were_measured() -> None:
    """At 100, 300 and 900 mm: about 433.3, squares 277 778, the farthest 466.7 off; two bolts in each."""
    plain = job()
    at = replace(plain, crossmembers=replace(plain.crossmembers, count=None, at=(100.0, 300.0, 900.0),
                                             bolts=replace(BOLTS, count=6)))  # fmt: skip
    g = setup_of(at).pod
    assert g is not None
    assert float(np.ravel(g.group.I_x)[0]) == pytest.approx(2 * (333.333**2 + 133.333**2 + 466.667**2), rel=1e-5)
    assert float(np.ravel(g.group.off_x)[0]) == pytest.approx(466.667, rel=1e-5)


def test_what_is_left_of_a_pitted_wall_decides() -> None:
    plain, pitted = job(), job()
    pitted = replace(pitted, crossmembers=replace(pitted.crossmembers, left=1.5))
    name = "wall-pull-through.ec9"
    assert worst(trial(pitted), name) == pytest.approx(worst(trial(plain), name) * 3.175 / 1.5, rel=1e-9)


def test_a_crossmember_that_is_not_a_number_never_passes() -> None:
    setup = setup_of(job())
    assert setup.pod is not None
    bad = replace(setup, pod=replace(setup.pod, wall=np.nan, group=replace(setup.pod.group, I_x=np.nan)))
    of = trial(setup=bad)
    for name in ("wall-pull-through.ec9", "bolt-tension.ec3", "wall-bearing.ec9"):
        assert worst(of, name) > 1.0


def pulled(x: np.ndarray, y: np.ndarray, load: np.ndarray, k: float) -> float:
    """The worst pull of bolts that only pull, beside contact k times as stiff that only presses, by the rigid pod's motion;
    written out apart from the code. NaN where the two states alternate."""
    A, pressed = np.stack([np.ones(len(x)), y, -x]), np.zeros(len(x), dtype=bool)
    for _ in range(300):
        motion = np.linalg.solve((A * np.where(pressed, k, 1.0)) @ A.T, load)
        now = A.T @ motion > 0
        if (now == pressed).all():
            return float(np.max(-(A.T @ motion)))
        pressed = now
    return np.nan


@pytest.mark.parametrize(("even", "most"), [(True, 1.0), (False, 1.05)])
def test_contact_stiffer_than_the_bolts_never_pulls_harder(even: bool, most: float) -> None:
    """200 groups, contact as stiff as the bolts, then 2 to 1000 times: never above the elastic group, in single holes
    never above it and what is added for them."""
    solved = 0
    for seed in range(200):
        rng = np.random.default_rng(seed)
        n = int(rng.choice([4, 6, 8, 12]))
        x = np.repeat(np.arange(n // 2) * 400.0, 2) if even else rng.uniform(-700, 700, n)
        x, y = x - x.mean(), np.tile([-280.0, 280.0], n // 2)
        load = np.array([rng.uniform(-8000, 0), rng.uniform(-8e5, 8e5), rng.uniform(-3e6, 3e6)])
        I = (x @ x, y @ y, x @ y)  # noqa: E741
        group = np.max(crossmembers.corner_pull(
            load[0], float(n), load[2], crossmembers.lever_of_moment(x, y, *I), load[1],
            crossmembers.lever_of_moment(y, x, I[1], I[0], I[2])))  # fmt: skip
        found = np.array([pulled(x, y, load, k) for k in (1.0, 2.0, 10.0, 1000.0)])
        found = found[np.isfinite(found)]
        solved += len(found)
        assert np.all(found <= most * float(group) * (1 + 1e-9))
    assert solved > 600
