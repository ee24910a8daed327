"""Plates glued to the board: the worse of glued and loose counts, but in the ruler check."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, PAIR, cases, on_board, setup_of, trial
from transom.checks import all_checks
from transom.checks.careful import Careful
from transom.checks.instead import bonded_moment, bonded_section, plates_of
from transom.checks.ruler import ruler
from transom.job.records import Backing, Corners, Job, Mount
from transom.judge.cautions import _of_job
from transom.judge.evaluate import careful_of, trial_of

LOADS = cases()
EACH = Backing("", "6061-T6", 4.7625, 50.8, 50.8, "bolt")
ALL = Backing("", "6061-T6", 6.35, 410.0, 290.0, "all")


def mount(backing: Backing, glued: bool) -> Mount:
    assert MOUNT.engine_bolts is not None
    return replace(MOUNT, engine_bolts=replace(MOUNT.engine_bolts, forward=replace(backing, bonded=glued)))


def careful(backing: Backing, glued: bool, job: Job = JOB) -> Careful:
    return careful_of(trial_of(setup_of(job), LOADS, [mount(backing, glued)]))


def used(of: Careful) -> dict[str, float]:
    return {c.name: float(np.max(c.utilisation)) for c in all_checks(of)}


@pytest.fixture(scope="module", params=[EACH, PAIR, ALL], ids=["each", "pair", "all"])
def both(request: pytest.FixtureRequest) -> tuple[Careful, Careful]:
    return careful(request.param, False), careful(request.param, True)


def test_glue_makes_no_check_better(both: tuple[Careful, Careful]) -> None:
    loose, glued = (used(of) for of in both)
    assert loose.keys() == glued.keys()
    for name, u in loose.items():
        assert glued[name] >= u * (1 - 1e-9), name


def test_glue_stiffens_what_the_ruler_measures(both: tuple[Careful, Careful]) -> None:
    """So that more movement than is told may be glue gone: the mark to stop at comes down with it."""
    loose, glued = (ruler(of, 80.0, 280.0) for of in both)
    assert 0.3 * loose.moves < glued.moves < 0.97 * loose.moves
    assert glued.limit < loose.limit


def test_a_glued_board_is_in_balance_and_draws_load(both: tuple[Careful, Careful]) -> None:
    loose, glued = both
    (other,) = glued.instead
    assert other.glued
    assert other.instead == ()
    r = glued.actions
    assert other.answer.solution.reaction.sum(axis=(0, 1)) == pytest.approx(np.ravel(r.N), rel=1e-6)
    assert (
        np.abs(other.answer.fields.M_1[other.answer.grid.nodes]).max()
        > 1.1 * np.abs(loose.answer.fields.M_1[loose.answer.grid.nodes]).max()
    )


def test_plates_lie_about_their_bolts_and_meet() -> None:
    """Pair plates 381 x 76.2 reach 190.5 either side of the middle; starboard's upper part from 0 to there."""
    found = plates_of(careful(PAIR, True))
    assert (found[0].y_lo, found[0].y_hi, found[0].z_lo, found[0].z_hi) == pytest.approx((0.0, 190.5, -85.7, -9.5))
    assert (found[1].y_lo, found[1].y_hi) == pytest.approx((-190.5, 0.0))


def test_stress_of_a_glued_plate_by_hand() -> None:
    """Wood feels 472.1 of 1000: curvature 1000/87.49e6; the plate's far face 10.132 from the axis, 8.107 MPa, x 6 x 6/4."""
    m = bonded_moment(472.1, 70_000.0, 6.0, 6000.0, 36.0, 420 / 636 * 21.0)
    assert m == pytest.approx(70_000.0 * 10.1321 * 1000 / 87.49e6 * 9.0, rel=1e-3)


def test_with_cut_corners_all_four_boards_count() -> None:
    job = on_board(top_corners=Corners(50.0, 50.0))
    of = careful(PAIR, True, job)
    assert sorted((bool(o.setup.place.top_cut[0]), o.glued) for o in of.instead) == [
        (False, False),
        (False, True),
        (True, True),
    ]
    least = max(used(of_)["board.bending.ec5.plate"] for of_ in (careful(PAIR, False, job), careful(PAIR, True)))
    assert used(of)["board.bending.ec5.plate"] >= least * (1 - 1e-9)


def test_the_pencil_knows_no_glue() -> None:
    """It credits plates with nothing, loose or glued."""
    one, two = ({c.name: c.utilisation.max() for c in all_checks(trial(mount=mount(PAIR, g)))} for g in (False, True))
    assert one == two


def test_the_caution_says_what_the_glue_is_worth() -> None:
    said = " ".join(_of_job(replace(JOB, mount=mount(PAIR, True))))
    assert "nothing rests on the glue" in said
    assert "glue" not in " ".join(_of_job(replace(JOB, mount=mount(PAIR, False))))


def test_a_derivation_follows_what_a_glued_board_came_to() -> None:
    """Nothing that enters is left as a number of the program's own."""
    from transom.derivation.plate import plate_values

    of = careful(PAIR, True)
    used(of)
    (other,) = of.instead
    found = plate_values(of, trial(mount=mount(PAIR, True)), [])
    some = float(other.moments.Mx[17, 1]), float(other.answer.borne.bolts[0, 0]), float(other.kept["k_l"][0])
    said = [found.find(x, column) for x, column in zip(some, (1, 0, 0), strict=True)]
    assert all(v is not None and v.what.endswith("plates glued") for v in said[:2])
    assert said[2] is not None


def test_section_under_a_glued_plate_is_that_of_two_layers(both: tuple[Careful, Careful]) -> None:
    """Wood and aluminum that cannot narrow, 69,600/(1 - 0.33 x 0.33), about the axis of both, worked as two rectangles."""
    of = both[0]
    w, t, E = of.hardware, float(np.ravel(of.t)[0]), float(of.stacks.E_1[0])
    t_p, E_p = float(w.t[0, 0]), float(w.E[0, 0]) / (1 - 0.33**2)
    e = E_p * t_p * (t + t_p) / 2 / (E * t + E_p * t_p)
    D = E * (t**3 / 12 + t * e**2) + E_p * (t_p**3 / 12 + t_p * ((t + t_p) / 2 - e) ** 2)
    found = np.asarray(bonded_section(of, of.board.grid).D_11)
    assert found.max() == pytest.approx(D, rel=1e-9)
    assert found.min() == pytest.approx(E * t**3 / 12, rel=1e-9)


def test_halves_of_a_pairs_plate_by_hand() -> None:
    """381 by 76.2 over bolts 163.5 and 125.4 out, 47.6 and 250.8 down: each half from the middle line to 190.5."""
    upper, lower = (-85.7, -9.5), (-288.9, -212.7)
    found = [(r.y_lo, r.y_hi, r.z_lo, r.z_hi) for r in plates_of(careful(PAIR, False))]
    wanted = [(0.0, 190.5, *upper), (-190.5, 0.0, *upper), (0.0, 190.5, *lower), (-190.5, 0.0, *lower)]
    assert np.array(found) == pytest.approx(np.array(wanted))
    single = careful(replace(PAIR, per="bolt", width=80.0, height=60.0), False)
    first, second, *_ = plates_of(single)
    assert (first.y_lo, first.y_hi, first.z_lo, first.z_hi) == pytest.approx((123.5, 203.5, -77.6, -17.6))
    assert (second.y_lo, second.y_hi) == pytest.approx((-203.5, -123.5))
