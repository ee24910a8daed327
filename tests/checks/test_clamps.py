"""A 9.9 hp engine on clamp screws: no bolt is checked; the hook holds it in reverse. A kicker beside a main engine."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from tests.checks.setbacks import job as setback
from tests.checks.shop import HP, JOB, MOUNT, SHEET, alone, found, row, setup_of, trial, whole, with_engine
from tests.laws import jobs
from transom.catalogue import SHIPPED
from transom.checks import BY_PLATE, all_checks, plate_checks
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.job.read import loads
from transom.job.records import EngineClamps, Hole, Kicker, Layer, Mount
from transom.judge.evaluate import careful_of, trial_of, worst
from transom.loads.cases import build_cases
from transom.result import Check, CheckArray
from transom.sizing.sizing import size

BOARD = Mount((Layer(SHEET, "across"), Layer(SHEET, "across")))
CLAMPED = with_engine(power=9.9 * HP, power_low=9.9 * HP, held_by="clamps", mass=45.0, shaft=381.0, steering="tiller")


def test_it_runs_and_passes_without_bolts() -> None:
    of = whole(CLAMPED, BOARD)
    parts = {(c.part, c.what) for c in all_checks(of)}
    assert not any(part == "engine-bolts" for part, _ in parts)
    assert not any(w in ("plate-edge", "plate-room", "bolt-spacing", "shank-in-grip") for _, w in parts)
    assert {"bending", "pad-bearing", "wood-crushing-upper-bolts", "plies-sliding-upper-bolts"} <= {w for _, w in parts}
    assert np.isfinite(worst(of)).all()


def test_ahead_the_screws_push_where_bolts_would_pull() -> None:
    """Pads to 220: foot at 176, screws 60 down, 100 across. N 1000, My 500,000, Fz -600: M = 500,000 + 600 x 18.26
    = 510,956; T = (510,956 - 176,000)/(2 x 116) = 1443.8, x 45/36.52 = 1779.0.

    Swivel pad 44 mm: pi/4 x 44^2 = 1520.5 mm^2 at 3.92 = 5960.5 N.
    """
    of = trial(CLAMPED, BOARD, alone((-1000.0, 0.0, -600.0, 0.0, 5e5, 0.0)))
    one = row(of, "backing.wood-crushing-upper-bolts.ec5", "only")
    assert one.demand == pytest.approx(1779.0, rel=1e-3)
    assert one.resistance == pytest.approx(5960.5, rel=1e-3)


def test_reverse_is_held_by_the_hook_at_the_top_edge() -> None:
    """The screws 60 down against the wedge 11 down: T = (-M + 11 N)/(2 x 49). Fx 700, Fz -400, My -400,000:
    M = -400,000 + 400 x 18.26 = -392,696; T = (392,696 - 7700)/98 = 3928.5, x 45/36.52 = 4840.7 N a screw.

    A bracket bolted 250 down would have carried it at 1060: taking the bolts' lever is unsafe here.
    """
    of = trial(CLAMPED, BOARD, alone((700.0, 0.0, -400.0, 0.0, -4e5, 0.0)))
    one = row(of, "backing.wood-crushing-lower-bolts.ec5", "only")
    assert one.demand == pytest.approx(4840.7, rel=1e-3)
    assert one.utilisation == pytest.approx(4840.7 / 5960.5, rel=1e-3)


def test_where_a_stiff_bracket_bears_backwards() -> None:
    """The wedge on paper. A stiff bracket turns about a depth c; pads of 70 mm press from the edge to c, k w wide,
    k = E_90/t; a screw 44 across goes in k (60 - c) x 1520.5. Of the screws' push S some 0.9 comes back at the wedge
    (the rest is the thrust): 70 c^2/2 = 0.9 x 1520.5 (60 - c), c = 32.7, whose middle lies at c/3 = 10.9. The
    stiffness of the wood falls out of it.
    """
    c = (-39.1 + np.sqrt(39.1**2 + 4 * 39.1 * 60)) / 2
    assert abs(0.9 * 1520.5 / 35 - 39.1) < 0.01
    assert c / 3 == pytest.approx(float(SHIPPED.factor("clamps.hook_down_mm").value), abs=0.15)


def test_the_careful_method_finds_the_wedge_too() -> None:
    """Screws by the plate against M/lever of the wedge; and the saddle and friction left out as on paper.

    One even pressure over the last 25 mm of a pad would take 4 % of the lever away, and with it passing boards.
    """
    of = trial(CLAMPED, Mount(BOARD.layers * 2), alone((700.0, 0.0, -400.0, 0.0, -4e5, 0.0)))
    t = float(of.t[0, 0])
    paper = (4e5 - 400 * t / 2 - 11 * 700) / (2 * 49)
    by_plate = careful_of(of)
    assert by_plate.lower_tension[0, 0] == pytest.approx(paper, rel=0.03)
    assert by_plate.upper_tension[0, 0] == 0.0
    assert by_plate.pads.sum() == pytest.approx(2 * by_plate.answer.borne.bolts[0, 0] - 700, rel=1e-6)


def test_clamp_screws_are_measured() -> None:
    """Lower screws have the longer lever; a wider swivel pad crushes less: what the tape finds is what is judged."""
    load = alone((700.0, 0.0, -400.0, 0.0, -4e5, 0.0))
    name = "backing.wood-crushing-lower-bolts.ec5"
    taped = replace(
        CLAMPED, engine=replace(CLAMPED.engine, clamps=EngineClamps(screw_down=75.0, screw_y=90.0, pad=50.0))
    )
    one = row(trial(taped, BOARD, load), name, "only")
    assert one.demand == pytest.approx((392696 - 7700) / (2 * 64) * 45 / 36.52, rel=1e-3)
    assert one.resistance == pytest.approx(np.pi / 4 * 50**2 * 3 * 2.24 * 0.7 / 1.2, rel=1e-3)


def test_a_drain_in_a_clamped_board_is_judged_by_the_plate() -> None:
    """No hole is bored for the screws, so that none of them shares its strip with the drain; the drain's own counts."""
    bored = replace(CLAMPED, board=replace(CLAMPED.board, openings=(Hole(0.0, 250.0, 40.0),)))
    load = alone((700.0, 0.0, -400.0, 0.0, -4e5, 0.0))
    plain, with_drain = (
        row(careful_of(trial(j, BOARD, load)), "board.bending.ec5.plate", "only") for j in (CLAMPED, bored)
    )
    assert with_drain.utilisation >= plain.utilisation > 0


def test_clamp_screws_of_a_bolted_engine_are_a_fault() -> None:
    text = jobs.text({**jobs.job(5), "engine.clamps": {"screw_down": jobs.Q(60.0)}})
    with pytest.raises(JobError, match=r'\[engine.clamps\] screw_down.*Say held_by = "clamps"'):
        loads(text)
    clamped = jobs.changed({**jobs.job(10), "engine.clamps": {"screw_down": jobs.Q(60.0)}}, "engine", held_by="clamps")
    assert loads(jobs.text(clamped)).engine.clamps.screw_down == 60.0


def test_a_long_shaft_on_clamps_finds_a_board() -> None:
    """9.9 hp, 20 in shaft, on a pod: full astern decides. Plates of another panel said nothing would do when it would."""
    job = replace(CLAMPED, engine=replace(CLAMPED.engine, shaft=508.0, mass=None))
    found = size(job, SHIPPED)
    assert found.passes
    assert worst_of(found.checks, "wood-crushing-lower-bolts") > 0.9


def worst_of(checks: Sequence[Check], what: str) -> float:
    return max(c.utilisation for c in checks if c.what == what)


def test_twice_that_reverse_crushes_the_wood_under_the_screws() -> None:
    of = trial(CLAMPED, BOARD, alone((1400.0, 0.0, -800.0, 0.0, -8e5, 0.0)))
    assert not row(of, "backing.wood-crushing-lower-bolts.ec5", "only").passes


def test_no_holes_are_bored_for_clamps() -> None:
    """Bending of the whole section, however much of it is used."""
    load = alone((-4000.0, 0.0, -2400.0, 0.0, 2e6, 0.0))
    of = trial(CLAMPED, BOARD, load)
    s = of.strips
    whole_section = of.stacks.veneer_utilisation(s.Mx, s.My, s.Mxy, of.k)
    assert whole_section[0, 0] > 0.6
    assert row(of, "board.bending.ec5", "only").demand == pytest.approx(whole_section[0, 0])


def test_a_kicker_brings_its_own_situations() -> None:
    job = with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=230.0))
    bare, beside = whole(), whole(job)
    assert not any(n.startswith("kicker-") for n in bare.cases.names)
    for of in ("kicker-ahead", "kicker-hard-over", "kicker-astern", "kicker-strike"):
        assert of in beside.cases.of
    assert np.isfinite(worst(beside)).all()


def test_a_kicker_never_helps() -> None:
    job = with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=230.0))
    bare, beside = found(whole()), found(whole(job))
    for name, check in bare.items():
        # The bottom line's pull in a strike comes from thrust alone, which a kicker's weight does relieve.
        if not check.information and name != "frame.flange-bending-end.ec9":
            assert beside[name].worst[0] >= check.worst[0] - 1e-9, name


def test_a_kicker_off_center_turns_the_bracket_about_the_upward_axis() -> None:
    """600 N x 1.5 at y 230 to starboard: Mz = 207 N m, over 4 x 163.5: 316.5 N on an upper bolt."""
    setup = setup_of(with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=230.0)))
    cases = build_cases(setup.loads)
    at = cases.names.index("kicker-ahead")
    thrust = float(setup.loads.kicker.thrust_N) * 1.5  # type: ignore[union-attr]
    lean = JOB.board.lean or 0.0
    assert abs(cases.design[at, 5]) == pytest.approx(thrust * 230.0 * np.cos(lean), rel=0.15)
    assert trial_of(setup, cases, [MOUNT]).upper_tension[0, at] > 0


def test_mirrored_kicker_mirrors() -> None:
    u = [worst(whole(with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=y))))[0] for y in (230.0, -230.0)]
    assert u[0] == pytest.approx(u[1], rel=1e-9)
    assert u[0] > 0.1
    assert replace(CLAMPED).engine.held_by == "clamps"


@pytest.mark.parametrize(
    "of", [whole(CLAMPED, BOARD), whole(JOB, MOUNT), whole(setback(), MOUNT)], ids=["clamps", "bolts", "setback"]
)
def test_a_closer_look_asks_whatever_a_plate_decides(of: Trial) -> None:
    """The same checks with the same figures, in the same order, as among all of them."""

    def decided(checks: Sequence[CheckArray]) -> list[tuple[str, float]]:
        return [(c.name, float(c.worst[0])) for c in checks if (c.part, c.what) in BY_PLATE and not c.information]

    assert decided(plate_checks(of)) == decided(all_checks(of))
    assert len(decided(plate_checks(of))) >= 6
