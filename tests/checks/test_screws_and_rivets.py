"""Lag screws into the board and blind rivets into crossmembers, only where the job says so: by hand, and what helps."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import AHEAD, JOB, alone, found, setup_of, trial
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.job.read import loads
from transom.job.records import Crossmembers, Frame, FrameBolts, Job
from transom.judge.cautions import cautions

SCREWS = FrameBolts("1/4 in", 16, True, 6.35, 15.9, 1.6, 0.0, True, kind="lag screws", length=50.8)
RIVETS = FrameBolts("3/16 in", 8, True, 4.7625, chosen=True, kind="blind rivets")


def screwed(code: str = "EN", **changes: object) -> Job:
    frame = Frame("pod", 38.1, 6.35, "5052-H32", replace(SCREWS, **changes), flange_weld=np.inf)
    return replace(JOB, frame=frame, head=replace(JOB.head, code=code))


def riveted(**changes: object) -> Job:
    return replace(JOB, crossmembers=Crossmembers(4, 3.175, bolts=replace(RIVETS, **changes)))


def worst(of: Trial, name: str) -> float:
    return float(found(of)[name].worst[0])


def test_thread_in_the_wood_by_hand() -> None:
    """2 in screw through 6.35 flange and 1.6 washer: 42.85 past the metal, 36.52 of wood, less 0.6 x 6.35: 32.71 mm;
    EN asks 6 x 6.35 = 38.1."""
    check = found(trial(screwed()))["frame.screw-thread"]
    assert float(check.resistance[0, 0]) == pytest.approx(36.52 - 3.81)
    assert float(check.demand[0, 0]) == pytest.approx(38.1)
    us = found(trial(screwed("US")))["frame.screw-thread"]
    assert float(us.demand[0, 0]) == pytest.approx(25.4)


def test_withdrawal_by_hand() -> None:
    """f_ax 0.52 x 6.35^-0.5 x 32.71^-0.1 x 460^0.8 = 19.69 MPa; x 6.35 x 32.71 x 6.35/8 = 3246 N; short, 0.7/1.3: 1748.
    NDS: 1800 x 0.46^1.5 x 0.25^0.75 lb/in = 34.78 N/mm; x 32.71 x 1.25 x 0.7 = 995 N of service load."""
    checks = found(trial(screwed(), loads=alone(AHEAD)))
    f_ax = 0.52 * 6.35**-0.5 * 32.71**-0.1 * 460**0.8
    assert float(checks["frame.withdrawal.ec5"].resistance[0, 0]) == pytest.approx(
        f_ax * 6.35 * 32.71 * 6.35 / 8 * 0.7 / 1.3, rel=1e-6
    )
    assert float(checks["frame.withdrawal.nds"].resistance[0, 0]) == pytest.approx(
        315.23 * 0.46**1.5 * 0.25**0.75 * 32.71 * 1.25 * 0.7, rel=1e-6
    )
    pull, service = (float(checks[f"frame.withdrawal.{rule}"].demand[0, 0]) for rule in ("ec5", "nds"))
    assert service == pytest.approx(pull / 1.5)


def test_the_jobs_code_decides() -> None:
    for code, rule in (("EN", "ec5"), ("US", "nds")):
        checks = found(trial(screwed(code)))
        assert not checks[f"frame.withdrawal.{rule}"].information
        assert checks[f"frame.withdrawal.{'nds' if rule == 'ec5' else 'ec5'}"].information
    assert "frame.washer-on-wood.ec5" not in found(trial(screwed()))


def test_longer_and_larger_screws_never_hold_less() -> None:
    for rule in ("ec5", "nds"):
        by_length = [worst(trial(screwed(length=v)), f"frame.withdrawal.{rule}") for v in (30.0, 40.0, 50.8, 80.0)]
        by_size = [
            worst(trial(screwed(diameter=v, length=80.0)), f"frame.withdrawal.{rule}") for v in (6.35, 7.94, 9.525)
        ]
        assert by_length == sorted(by_length, reverse=True)
        assert by_length[0] > by_length[-1] > 0
        assert by_size == sorted(by_size, reverse=True)
        assert by_size[0] > by_size[-1] > 0


def test_a_screw_hangs_by_less_metal_than_a_bolt() -> None:
    bolt = replace(SCREWS, kind="bolts", length=None)
    plain = screwed()
    plain = replace(plain, frame=replace(plain.frame, bolts=bolt))
    for name in ("frame.bolt-tension.ec3", "frame.sideways-in-wood.ec5"):
        assert worst(trial(screwed()), name) > worst(trial(plain), name)


def test_a_length_nobody_measured_takes_four_diameters() -> None:
    check = found(trial(screwed(length=None)))["frame.screw-thread"]
    assert float(check.resistance[0, 0]) == pytest.approx(3.4 * 6.35)
    assert check.worst[0] > 1.0


def test_rivets_by_their_table() -> None:
    """3/16 in takes the row of 4.8 mm: 1,700 N of pull and 1,200 of shear over 1.25."""
    checks = found(trial(riveted(), loads=alone(AHEAD)))
    assert float(checks["crossmembers.bolt-tension.iso15977"].resistance[0, 0]) == pytest.approx(1360.0)
    assert float(checks["crossmembers.bolt-shear.iso15977"].resistance[0, 0]) == pytest.approx(960.0)
    assert checks["crossmembers.bolt-tension.iso15977"].known_by == "memory"


def test_a_rivet_below_the_table_holds_nothing() -> None:
    assert worst(trial(riveted(diameter=3.0)), "crossmembers.bolt-tension.iso15977") == np.inf


def test_a_larger_rivet_never_holds_less() -> None:
    u = [worst(trial(riveted(diameter=d)), "crossmembers.bolt-tension.iso15977") for d in (3.2, 4.0, 4.8, 6.4)]
    assert u == sorted(u, reverse=True)
    assert u[0] > u[-1] > 0


def test_both_carry_a_caution() -> None:
    for job, word in ((screwed(), "Lag screws hold"), (riveted(), "Blind rivets shake")):
        told = cautions(job, setup_of(job), None, (), (), True)
        assert any(word in line for line in told)
        assert not any(word in line for line in cautions(JOB, setup_of(JOB), None, (), (), True))


def test_what_is_not_a_number_never_passes() -> None:
    setup = setup_of(screwed())
    bad = replace(setup, frame=replace(setup.frame, bolts=replace(setup.frame.bolts, length=np.nan, d=np.nan)))
    of = trial(setup=bad)
    for name in ("frame.withdrawal.ec5", "frame.screw-thread", "frame.pull-and-sideways-in-wood.ec5"):
        assert worst(of, name) > 1.0
    pod = setup_of(riveted()).pod
    assert pod is not None
    hung = setup_of(riveted())
    worse = replace(hung, pod=replace(pod, bolts=replace(pod.bolts, rivet_tension=np.nan)))
    assert worst(trial(setup=worse), "crossmembers.bolt-tension.iso15977") > 1.0


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ('[frame.bolts]\nkind = "blind rivets"', "hold metal to metal, not a wooden board"),
        ('[frame.bolts]\nlength = "2 in"', "is asked of lag screws alone"),
        ('[crossmembers.bolts]\nkind = "lag screws"', "hold in wood, and crossmembers are metal"),
    ],
)
def test_what_holds_nothing_there_is_refused(table: str, says: str) -> None:
    head = '[boat]\nkind = "pontoon"\nplate_power = "50 hp"\n[engine]\npower = "40 hp"\n[board]\nwidth = "24 in"\n'
    with pytest.raises(JobError, match=says):
        loads(head + f'height = "18 in"\n[frame]\nkind = "pod"\n{table}\n')
