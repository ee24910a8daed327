"""Spoilt jobs through the command as it is installed, each a process of its own: exit codes, time, memory, what is written.

python tests/fuzz/processes.py [COUNT [SEED]]
"""

import os
import random
import resource
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

COMMANDS = (
    ("size", "JOB"), ("size", "JOB", "--json"), ("review", "JOB", "--json"), ("review", "JOB", "--html", "out/r.html"),
    ("draw", "JOB", "--out", "out", "--despite-failure"), ("estimate", "JOB", "--csv", "out/lines.csv", "--despite-failure"),
    ("steps", "JOB", "--pdf", "out/s.pdf", "--despite-failure"), ("trial", "JOB", "--speed", "20 mph"), ("record", "JOB"), ("explain", "JOB"),
    ("pack", "JOB", "--out", "out", "--despite-failure"), ("new", "out/f.pdf", "--field-sheet", "--filled-from", "JOB"), ("compare", "JOB", "other.toml"),
)  # fmt: skip
MOST = 500  # MB
PATIENCE = 30  # s of processor; whatever takes more is killed
SLOW = {"pack": 20.0, "review": 10.0}  # s of processor: all paper at once, with every derivation
USUAL = 5.0


def faults(code: int, out: bytes, err: bytes, megabytes: float) -> Iterator[str]:
    """What must never be."""
    if code not in (0, 1, 2):
        yield f"exit {code}: {err[-200:]!r}"
    if b"Traceback" in out + err:
        yield "traceback"
    if code == 2 and (out or not err.strip()):
        yield "exit 2 with an answer, or without a line"
    if b"\x1b" in out + err or b"\x00" in out + err:
        yield "a control character on the screen"
    if megabytes > MOST:
        yield f"{megabytes:.0f} MB"


def run(words: list[str], folder: Path) -> tuple[int, bytes, bytes, float, float]:
    """Exit code, stdout, stderr, seconds of processor, and the most memory in MB."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "OPENBLAS_NUM_THREADS": "1"}
    with (folder / "stdout").open("wb") as out, (folder / "stderr").open("wb") as err:
        child = subprocess.Popen(
            [sys.executable, "-m", "transom", *words],
            cwd=folder,
            env=environment,
            stdout=out,
            stderr=err,
            stdin=subprocess.DEVNULL,
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, PATIENCE)),  # noqa: PLW1509 - no threads
        )
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    said = [(folder / name).read_bytes() for name in ("stdout", "stderr")]
    return child.returncode, *said, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main() -> int:
    """1 where any run was faulty."""
    from tests.fuzz.laws import jobs
    from tests.fuzz.mutants import spoilt

    given = [int(x) for x in sys.argv[1:3]]
    count, seed = (given + [300, 1][len(given) :])[:2]
    codes, bad, slow, most = Counter[str](), 0, list[tuple[float, int, str]](), 0.0
    for at in range(seed, seed + count):
        chance = random.Random(at)
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            (folder / "out").mkdir()
            text = chance.choice(list(jobs().values()))
            (folder / "job.toml").write_bytes(spoilt(text, chance) if chance.random() < 0.9 else text.encode())
            (folder / "other.toml").write_text(text, encoding="utf-8")
            words = ["job.toml" if w == "JOB" else w for w in chance.choice(COMMANDS)]
            code, out, err, seconds, megabytes = run(words, folder)
        codes[f"{words[0]} {code}"] += 1
        slow.append((seconds, at, " ".join(words)))
        most = max(most, megabytes)
        late = [f"{seconds:.1f} s"] if seconds > SLOW.get(words[0], USUAL) else []
        for fault in (*faults(code, out, err, megabytes), *late):
            bad += 1
            print(f"seed {at}: {' '.join(words)}: {fault}", flush=True)
    print(
        f"{count} processes from seed {seed}: {bad} faults, {most:.0f} MB at most; "
        + ", ".join(f"{k}: {n}" for k, n in sorted(codes.items()))
    )
    for seconds, at, words in sorted(slow, reverse=True)[:8]:
        print(f"  {seconds:.1f} s: seed {at}, {words}")
    return int(bad > 0)


if __name__ == "__main__":
    sys.exit(main())
