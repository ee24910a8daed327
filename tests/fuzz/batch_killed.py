"""`transom batch` ended at random moments, again and again, until it is through: the table is the undisturbed one's.

    python tests/fuzz/batch_killed.py [rounds] [seed]

Each round: a table of good and bad jobs, 1 to 3 workers, the run ended after a random time by SIGINT, SIGTERM or
SIGKILL, or one of its workers killed under it; then --go-on, ended again, three times, then let through. Linux.
Prints a line a round; ends with 1 at the first table that differs. Not collected by pytest.
"""

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.batch.jobs import table  # noqa: E402

ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}
ENDS = (signal.SIGINT, signal.SIGTERM, signal.SIGKILL, "worker")


def started(folder: Path, out: str, *more: str) -> "subprocess.Popen[str]":
    given = [sys.executable, "-m", "transom", "batch", str(folder / "jobs.csv"), "--base", str(folder / "base.toml"),
             "--pencil", "--out", str(folder / out), *more]  # fmt: skip
    return subprocess.Popen(given, env=ENVIRONMENT, text=True, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)


def workers(pid: int) -> list[int]:
    """Its processes but the one that keeps the books of shared memory."""
    below = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    return [int(p) for p in below if b"spawn_main" in Path(f"/proc/{p}/cmdline").read_bytes()]


def ended(process: "subprocess.Popen[str]", how: "signal.Signals | str") -> None:
    if how != "worker":
        process.send_signal(how)
        return
    for pid in workers(process.pid)[:1]:
        os.kill(pid, signal.SIGKILL)


def disturbed(folder: Path, out: str, dice: random.Random) -> list[str]:
    """What was done to the run until it was through."""
    story = list[str]()
    for attempt in range(4):
        process = started(folder, out, "--go-on", "--workers", str(dice.randint(1, 3)))
        if attempt < 3:
            after, how = dice.uniform(0.1, 10.0), dice.choice(ENDS)
            time.sleep(after)
            if process.poll() is None:
                ended(process, how)
                story.append(f"{getattr(how, 'name', how)} after {after:.1f} s")
        _, err = process.communicate(timeout=600)
        # Before the command has begun, Python itself complains of Ctrl-C.
        assert "transom/batch/" not in err, err
        if (folder / out).exists():
            break
    return story


def main() -> int:
    rounds, seed = (int(x) for x in (*sys.argv[1:], *("5", "1")[len(sys.argv) - 1 :]))
    dice = random.Random(seed)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        table(folder, good=8, bad=40)
        started(folder, "whole.csv", "--workers", "2").communicate()
        whole = (folder / "whole.csv").read_bytes()
        for i in range(rounds):
            story = disturbed(folder, f"{i}.csv", dice)
            same = (folder / f"{i}.csv").read_bytes() == whole
            print(f"{i + 1}: {', '.join(story) or 'undisturbed'}: {'same' if same else 'DIFFERS'}", flush=True)
            if not same:
                return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
