"""The log beside a job: whole lines only, whoever else writes and whoever is killed."""

import datetime as dt
import importlib.util
import json
import os
import random
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest

from tests.job.orders import WHOLE
from transom.job import log
from transom.job.read import load, loads

# Writes until it is killed; says each line on stdout once it is on disk.
WRITER = """
import json, sys
from pathlib import Path
from transom.job.log import append
who, i = sys.argv[2], 0
while True:
    assert append(Path(sys.argv[1]), json.dumps({"who": who, "i": i, "pad": "x" * (i * 37 % 900)})) == ()
    sys.stdout.write(f"{who} {i}\\n")
    sys.stdout.flush()
    i += 1
"""
ROOT = Path(__file__).parents[2]


def lines(path: Path) -> list[str]:
    return path.read_bytes().decode("ascii").splitlines()


def test_a_line_says_when_what_from_what_and_how_it_went(tmp_path: Path) -> None:
    path = tmp_path / "river job.toml"
    path.write_text("".join(x for x in WHOLE.splitlines(True) if not x.startswith("shop")), encoding="utf-8")
    job = load(path)
    for result in ("CUT, passes", "QUOTE, does not pass"):
        assert log.log_paper(path, job, "draw --out größe", result, [Path("größe/a.pdf")]) == ()
    assert [p.name for p in sorted(tmp_path.iterdir())] == ["river job.log.jsonl", "river job.toml"]
    first, second = (json.loads(line) for line in lines(tmp_path / "river job.log.jsonl"))
    assert abs(dt.datetime.fromisoformat(first.pop("time")) - dt.datetime.now().astimezone()) < dt.timedelta(seconds=60)
    assert first == {
        "version": log.__version__, "job": "river job.toml", "sha256": job.sha256, "command": "draw --out größe",
        "result": "CUT, passes", "made": [str(Path("größe/a.pdf"))],
    }  # fmt: skip
    assert second["result"] == "QUOTE, does not pass"


def test_what_the_shop_says_is_an_input_too(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(WHOLE, encoding="utf-8")
    (tmp_path / "shop.toml").write_text("[shop]\nname = 'x'\n", encoding="utf-8")
    with_shop = load(path)
    assert with_shop.shop is not None
    log.log_paper(path, with_shop, "draw", "CUT, passes")
    log.log_paper(path, replace(with_shop, shop=None), "draw", "CUT, passes")
    one, other = (json.loads(line) for line in lines(tmp_path / "job.log.jsonl"))
    assert one["shop_sha256"] == with_shop.shop.sha256
    assert len(one["shop_sha256"]) == 64
    assert "shop_sha256" not in other


@pytest.mark.parametrize("torn", [b'{"time": "20', b"\x00\x00\x00", b"\n\n{", b'{"whole": 1}'])
def test_a_torn_line_is_left_and_the_next_starts_anew(tmp_path: Path, torn: bytes) -> None:
    path = tmp_path / "job.log.jsonl"
    path.write_bytes(b'{"i": 0}\n' + torn)
    assert log.append(path, '{"i": 1}') == ()
    assert log.append(path, '{"i": 2}') == ()
    assert path.read_bytes() == b'{"i": 0}\n' + torn + b'\n{"i": 1}\n{"i": 2}\n'


def test_a_disk_that_takes_half_a_line_leaves_none_of_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.log.jsonl"
    path.write_bytes(b'{"i": 0}\n')
    whole = os.write
    monkeypatch.setattr(os, "write", lambda file, data: whole(file, data[: len(data) // 2]))
    (warning,) = log.append(path, '{"i": 1}')
    assert warning.startswith(f"warning: {path}: not logged (")
    monkeypatch.undo()
    assert path.read_bytes() == b'{"i": 0}\n'


def test_where_nothing_can_be_written_it_is_a_warning(tmp_path: Path) -> None:
    job = loads(WHOLE)
    (tmp_path / "job.log.jsonl").mkdir()
    (warning,) = log.log_paper(tmp_path / "job.toml", job, "draw", "CUT, passes")
    assert "not logged" in warning
    assert "\n" not in warning
    (warning,) = log.log_paper(tmp_path / "gone" / "job.toml", job, "draw", "CUT, passes")
    assert "no such file" in warning


def test_a_folder_that_is_read_only_is_a_warning(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Refused by hand: the superuser writes anywhere."""

    def refuse(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    (warning,) = log.log_paper(tmp_path / "job.toml", loads(WHOLE), "draw", "CUT, passes")
    assert "permission denied" in warning


def test_one_who_keeps_it_locked_does_not_keep_us_for_ever(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(log, "PATIENCE", 0.05)
    path = tmp_path / "job.log.jsonl"
    with log._opened(path) as file, log._locked(file):
        (warning,) = log.append(path, '{"i": 1}')
    assert "another process keeps it locked" in warning
    assert log.append(path, '{"i": 2}') == ()
    assert path.read_bytes() == b'{"i": 2}\n'


def test_the_lock_of_windows_lies_behind_the_text_and_is_given_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other branch of the module, on a stand-in for Windows' own lock that keeps account of bytes."""
    held: set[int] = set()
    busy = [1]  # how often another process still has it

    def locking(file: int, mode: int, count: int) -> None:
        at = os.lseek(file, 0, os.SEEK_CUR)
        assert count == 1
        assert at > 10**9
        if mode == stand_in.LK_UNLCK:
            held.remove(at)
        elif busy.pop() if busy else at in held:
            raise PermissionError(13, "Permission denied")
        else:
            held.add(at)

    stand_in = SimpleNamespace(LK_NBLCK=2, LK_UNLCK=0, locking=locking)
    monkeypatch.setitem(sys.modules, "msvcrt", stand_in)
    monkeypatch.setattr(sys, "platform", "win32")
    spec = importlib.util.spec_from_file_location("transom_job_log_on_windows", log.__file__)
    assert spec is not None
    assert spec.loader is not None
    windows = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(windows)
    path = tmp_path / "job.log.jsonl"
    for i in range(3):
        assert windows.append(path, f'{{"i": {i}}}') == ()
        assert not held
    assert lines(path) == ['{"i": 0}', '{"i": 1}', '{"i": 2}']


def writer(path: Path, who: int) -> "subprocess.Popen[bytes]":
    return subprocess.Popen([sys.executable, "-c", WRITER, str(path), str(who)], cwd=ROOT, stdout=subprocess.PIPE)


def test_two_hammer_it_and_are_killed_at_random(tmp_path: Path) -> None:
    """What a writer has said is on disk, once; at most one line of each killed writer is torn."""
    path, seeded, said = tmp_path / "job.log.jsonl", random.Random(7), set()
    for pair in range(4):
        both = [writer(path, 2 * pair + k) for k in range(2)]
        for each in both:
            assert each.stdout is not None
            said.add(each.stdout.readline().decode().strip())  # both are up before the clock runs
        for each in both:
            time.sleep(seeded.uniform(0.02, 0.2))
            each.send_signal(signal.SIGTERM if os.name == "nt" else signal.SIGKILL)
            rest, _ = each.communicate()
            said |= {line.strip() for line in rest.decode().split("\n")[:-1]}
    assert log.append(path, json.dumps({"who": "last", "i": 0})) == ()
    whole, torn = [], 0
    for line in lines(path):
        try:
            whole.append(json.loads(line))
        except ValueError:
            torn += 1
    found = [f"{each['who']} {each['i']}" for each in whole]
    assert len(found) == len(set(found))
    assert said <= set(found)
    assert len(set(found) - said) + torn <= 8 + 1  # of each killed writer, one written and not yet said
    assert whole[-1]["who"] == "last"
    assert len(said) > 40
