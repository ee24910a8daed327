"""Bolt-up: F = T/(K d) (Shigley 9e, eq 8-27), bolt to 0.75 of proof, dry face to 3.0 f_c,90,k without k_mod (convention)."""

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, plate, row, setup_of, trial, with_bolts, with_engine
from transom.catalogue import SHIPPED
from transom.checks import all_checks
from transom.checks.torque import proposed
from transom.job.records import Backing, Mount
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases

BOLT, FACE = "engine-bolts.stretch-at-bolt-up", "backing.wood-crushing-at-bolt-up"


def dry_area() -> float:
    """Dry 6.72 MPa: reach 9.525 + 6.35 sqrt(240/(2 x 6.72 x 1.1)) = 9.525 + 25.58 = 35.11 but 27 outward at the upper
    row: (35.11 + 27) x 2 x 35.11 - 143.1 = 4217.8 mm^2, the smaller of the rows."""
    return (35.11 + 27) * 2 * 35.11 - 143.1


def test_no_torque_stated_is_no_check() -> None:
    assert not any(c.what.endswith("at-bolt-up") for c in all_checks(trial()))


def test_stated_torque_dry_stainless() -> None:
    """40 lb-ft = 54,233 N mm on dry stainless: K 0.30, low 0.21. Bolt: 54,233/(0.30 x 12.7) = 14,234 N of
    0.75 x 448 x 91.5 = 30,744; face 54,233/(0.21 x 12.7) = 20,335 of 6.72 x 4217.8 = 28,344."""
    of = trial(with_engine(torque=54233.0, threads="dry"))
    bolt, face = row(of, BOLT, "bolt-up"), row(of, FACE, "bolt-up")
    assert bolt.demand == pytest.approx(14234, rel=1e-3)
    assert bolt.resistance == pytest.approx(30744, rel=1e-3)
    assert face.demand == pytest.approx(20335, rel=1e-3)
    assert face.resistance == pytest.approx(6.72 * dry_area(), rel=1e-3)


@pytest.mark.parametrize(
    "threads, low, usual", [("oiled", 0.105, 0.15), ("anti-seize", 0.12, 0.14), ("dry", 0.21, 0.30)]
)
def test_thread_condition_sets_the_range(threads: str, low: float, usual: float) -> None:
    of = trial(with_engine(torque=40000.0, threads=threads))
    assert row(of, BOLT, "bolt-up").demand == pytest.approx(40000 / (usual * 12.7), rel=1e-6)
    assert row(of, FACE, "bolt-up").demand == pytest.approx(40000 / (low * 12.7), rel=1e-6)


def test_dry_steel_is_not_dry_stainless() -> None:
    of = trial(with_engine(torque=40000.0, threads="dry"), with_bolts(grade="SAE 5"))
    assert row(of, BOLT, "bolt-up").demand == pytest.approx(40000 / (0.20 * 12.7), rel=1e-6)
    assert row(of, FACE, "bolt-up").demand == pytest.approx(40000 / (0.14 * 12.7), rel=1e-6)


def test_mixed_grades_keep_each_its_own_factor() -> None:
    """A stainless set judged beside a steel one reads as it does alone."""
    job = with_engine(torque=40000.0, threads="dry")
    setup = setup_of(job)
    both = trial_of(setup, build_cases(setup.loads), [MOUNT, with_bolts(grade="SAE 5")])
    one = next(c for c in all_checks(both) if c.what == "stretch-at-bolt-up")
    assert one.demand[:, 0] == pytest.approx([40000 / (0.30 * 12.7), 40000 / (0.20 * 12.7)])


def test_too_much_torque_fails_the_bolt_and_the_face() -> None:
    """Oiled, 60 lb-ft = 81,349: bolt 42,703 of 30,744; face 61,004 of 28,344. 25 lb-ft = 33,896 passes both."""
    hard, good = (trial(with_engine(torque=T, threads="oiled")) for T in (81349.0, 33896.0))
    assert not row(hard, BOLT, "bolt-up").passes
    assert not row(hard, FACE, "bolt-up").passes
    assert row(good, BOLT, "bolt-up").passes
    assert row(good, FACE, "bolt-up").passes


def test_washers_crush_where_plates_do_not() -> None:
    """1/2 wide, f_c,90 once, dry: 2.24 x 1408.9 = 3156 N; 25 lb-ft oiled brings 25,418."""
    washers: Mount = with_bolts(forward=Backing(washer="1/2 wide"))
    of = trial(with_engine(torque=33896.0, threads="oiled"), washers)
    one = row(of, FACE, "bolt-up")
    assert one.resistance == pytest.approx(3156, rel=1e-3)
    assert not one.passes


def test_proposed_torque_is_the_smaller_of_bolt_and_face() -> None:
    """Oiled: bolt 0.15 x 12.7 x 30,744 = 58,567; face 0.105 x 12.7 x 28,344 = 37,796 N mm: the face."""
    of = trial(with_engine(threads="oiled"))
    assert proposed(of)[0, 0] == pytest.approx(0.105 * 12.7 * 6.72 * dry_area(), rel=1e-3)
    # A 12.7 mm plate, 100 high: reach 9.525 + 51.2 = 60.7, the plate's own 50 up, 47.6 to the edge, 27 outward.
    wide = trial(with_engine(threads="oiled"), plate(12.7, 381.0, 95.0))
    assert proposed(wide)[0, 0] == pytest.approx(0.15 * 12.7 * 0.75 * 448 * 91.5, rel=1e-3)


def test_proposed_torque_passes_its_own_check() -> None:
    for threads in ("dry", "oiled", "anti-seize"):
        T = float(proposed(trial(with_engine(threads=threads)))[0, 0])
        assert T > 10000.0
        of = trial(with_engine(threads=threads, torque=T * 0.999999))
        assert row(of, BOLT, "bolt-up").passes
        assert row(of, FACE, "bolt-up").passes


def test_proof_of_a_grade_without_one_is_its_yield() -> None:
    """SAE 5 lists 586 MPa of proof; F593C lists none: 0.2 % proof stress 448 stands in."""
    assert trial().hardware.proof[0, 0] == SHIPPED.grade("F593C", "1/2-13").f_yb_MPa == 448.0
    assert trial(mount=with_bolts(grade="SAE 5")).hardware.proof[0, 0] == 586.0
    assert np.isfinite(trial(JOB).dry_area).all()
