"""The trial read: slip, propeller, ruler by hand; figures written back; a kill between leaves the old file or the new."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.checks.ruler import ruler
from transom.cli import main as command
from transom.errors import JobError
from transom.floor import keeping
from transom.floor.findings import Finding, pitch_change, tried
from transom.floor.trialscreen import before
from transom.floor.watch import band_high, band_low
from transom.job.read import load
from transom.job.records import SeaTrial
from transom.judge.records import Judgement

MPH, RPM = 0.44704, 1 / 60


def found(j: Judgement, **figures: float) -> dict[str, Finding]:
    stated = replace(j, job=replace(j.job, sea_trial=SeaTrial(**figures)))
    return {f.what: f for f in tried(stated, SHIPPED).findings}


def test_pitch_advice_is_the_trades() -> None:
    """Common practice: 2 in of pitch is 300 to 400 rpm; 350 rpm off its band is 2 in."""
    assert pitch_change(350 * RPM) == pytest.approx(50.8)
    assert 300 <= 50.8 / pitch_change(1.0) / RPM <= 400
    assert (band_low(5500 * RPM), band_high(5500 * RPM)) == pytest.approx((5000 * RPM, 6000 * RPM))


def test_too_large_and_too_small_a_propeller(judged: Judgement) -> None:
    """Rated 5,500 rpm in the example."""
    low = found(judged, engine_speed=4650 * RPM)["propeller"]
    assert not low.fine
    assert "too large" in low.says
    assert "2 in less pitch" in low.says
    high = found(judged, engine_speed=6200 * RPM)["propeller"]
    assert "too small" in high.says
    assert "1 in more pitch" in high.says
    assert found(judged, engine_speed=5500 * RPM)["propeller"].fine


def test_slip_by_hand(judged: Judgement) -> None:
    """5,400 rpm, 13 in, 2.0: 2,700 x 13/1,056 = 33.24 mph; at 24 mph 1 - 24/33.24 = 28 %."""
    assert judged.facts["engine.propeller.gear"].value == pytest.approx(2.0)
    slipped = found(judged, engine_speed=5400 * RPM, speed=24 * MPH)["slip"]
    assert slipped.says.startswith("28 %")
    assert slipped.fine
    assert not found(judged, engine_speed=5400 * RPM, speed=40 * MPH)["slip"].fine


def test_thrust_under_way_follows_the_speed_found(judged: Judgement) -> None:
    slow = found(judged, speed=8 * MPH)["mount, with the speed found"]
    assert "was" in slow.says
    stated = replace(judged, job=replace(judged.job, sea_trial=SeaTrial(speed=8 * MPH)))
    after = tried(stated, SHIPPED).after
    assert after.setup.loads.thrust_under_way_N > judged.setup.loads.thrust_under_way_N


def test_the_ruler_is_a_finding_from_its_stop_mark_on(judged: Judgement) -> None:
    """The mark of the screen: the next 1/32 in at or above 1.5 times what was predicted."""
    assert judged.careful is not None
    moves = ruler(judged.careful, 80.0, judged.facts["engine.propeller.diameter"].value).moves
    stop = -(-1.5 * moves // (25.4 / 32)) * 25.4 / 32
    assert found(judged, push_mass=80.0, moved=stop * 0.99)["ruler check"].fine
    assert not found(judged, push_mass=80.0, moved=stop)["ruler check"].fine


def test_missing_instruments_are_said(judged: Judgement) -> None:
    stated = replace(judged, job=replace(judged.job, sea_trial=SeaTrial(lacks=("no GPS", "no tachometer"))))
    assert [f.says.split(":")[0] for f in tried(stated, SHIPPED).findings] == ["no GPS", "no tachometer"]


def test_before_it_says_what_to_watch(judged: Judgement) -> None:
    lines = before(judged)
    assert max(map(len, lines)) <= 80
    text = " ".join(" ".join(lines).split())
    for word in ("idle only", "5000 rpm to 6000 rpm", "bilge", "lock to lock", "ventilat", "hole by hole", "surveyor"):
        assert word in text


def test_record_writes_it_back_with_comments_and_keeps_the_old_file(
    sized: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.toml"
    path.write_text("# mine\n" + sized.read_text(encoding="utf-8"), encoding="utf-8")
    old = path.read_bytes()
    code = command.main(["trial", str(path), "--speed", "24 mph", "--engine-speed", "no tachometer", "--record"])
    assert code == 0
    assert path.with_name("job.toml.bak").read_bytes() == old
    assert path.read_text(encoding="utf-8").startswith("# mine\n")
    job = load(path)
    assert job.sea_trial is not None
    assert job.sea_trial.speed == pytest.approx(24 * MPH)
    assert job.sea_trial.lacks == ("no tachometer",)
    capsys.readouterr()
    assert command.main(["trial", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["schema"] == "transom-trial-1"


@pytest.mark.parametrize("typed", [["--speed", "fast"], ["--moved", "1/4 lb"], ["--push", "-3 lb"]])
def test_a_figure_at_fault_writes_nothing(sized: Path, tmp_path: Path, typed: list[str]) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(sized.read_bytes())
    assert command.main(["trial", str(path), *typed, "--record"]) == 2
    assert path.read_bytes() == sized.read_bytes()
    assert list(tmp_path.iterdir()) == [path]


def test_killed_between_the_two_writes_it_is_the_old_file(
    sized: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(sized.read_bytes())
    real, done = keeping.write_atomic, []

    def dies(place: Path, text: str, force: bool) -> None:
        if done:
            raise KeyboardInterrupt
        done.append(place)
        real(place, text, force)

    monkeypatch.setattr(keeping, "write_atomic", dies)
    with pytest.raises(KeyboardInterrupt):
        keeping.kept(path, {"trial.speed": "24 mph"})
    assert path.read_bytes() == sized.read_bytes()
    assert path.with_name("job.toml.bak").read_bytes() == sized.read_bytes()


def test_no_bak_over_a_link(sized: Path, tmp_path: Path) -> None:
    path, other = tmp_path / "job.toml", tmp_path / "other"
    path.write_bytes(sized.read_bytes())
    other.write_text("theirs", encoding="utf-8")
    path.with_name("job.toml.bak").symlink_to(other)
    with pytest.raises(JobError, match="no ordinary file"):
        keeping.kept(path, {"trial.speed": "24 mph"})
    assert other.read_text(encoding="utf-8") == "theirs"
