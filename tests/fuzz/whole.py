"""Malformed and mutated jobs through every command: no traceback, no hang, no pass from nonsense.

    python tests/fuzz/whole.py [COUNT] [SEED] [COMMAND ...]

In process, in a folder that is thrown away; prints each failure with the seed that makes it again. Not collected by pytest.
"""

import contextlib
import io
import json
import math
import os
import random
import re
import resource
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.fuzz.corpus import TYPED
from tests.fuzz.mutants import spoilt
from tests.fuzz.rows import TABLE
from transom.cli.main import main as transom

EXAMPLES = Path(__file__).parents[2] / "examples"
SLOW = 5.0  # s of processor
TIMES = {"pack": 4, "review": 4, "chart": 4, "batch": 2}  # all paper at once; a size for each power; several jobs
BATCH = ("batch", "--pencil", "--workers", "1")
COMMANDS = (
    ("size", "JOB"), ("size", "JOB", "--json"), ("review", "JOB"), ("review", "JOB", "--html", "OUT/r.html"),
    ("draw", "JOB", "--out", "OUT/d", "--despite-failure"), ("estimate", "JOB"), ("steps", "JOB", "--despite-failure"),
    ("trial", "JOB", "--speed", "20 mph"), ("trial", "JOB", "--engine-speed", "5200 rpm", "--height", "1 in", "--push", "150 lb", "--moved", "1/4 in"),
    ("trial", "JOB", "--speed", "ODD", "--push", "ODD", "--moved", "ODD", "--record"), ("trial", "JOB", "--json"), ("record", "JOB"), ("explain", "JOB"), ("compare", "JOB", "OTHER"),
    ("pack", "JOB", "--out", "OUT/p", "--despite-failure"), ("new", "OUT/f.pdf", "--field-sheet", "--filled-from", "JOB"),
    ("chart", "JOB", "--power", "40 hp", "--panels", "douglas-fir-marine", "--out", "OUT/c.svg", "--csv", "OUT/c.csv"),
    ("chart", "JOB", "--power", "ODD", "--panels", "okoume", "--json"), (*BATCH, "JOB", "--out", "OUT/r.csv"),
    (*BATCH, "JOB", "--vary", "engine.power=ODD, 30 hp", "--out", "OUT/r.csv"), (*BATCH, "TABLE", "--base", "JOB", "--out", "OUT/r.jsonl"),
    (*BATCH, "OUT", "--vary", "board.width=22,24 in", "--out", "OUT/r.csv"),
)  # fmt: skip
ODD = (
    '"?"', '""', "0", "-1", "1e400", "nan", "inf", "true", "[]", "{}", '"0 in"', '"-3 in"', '"1e9 in"', '"nan in"', '"1,5 in"',
    '"20 1/2 in"', '"20 30 in"', '"1/0 in"', '"½ in"', '"3 lb"', '"40 hp"', '"40 to 60 hp"', '"60 to 40 hp"', '"pod"', '"wheel"',
    '"none"', '"cannot read"', '"M10"', '"<script>alert(1)</script>"', '"=1+1"', '"\\u202eevil"', '"' + "x" * 5000 + '"', "2026-13-01",
    '["1 in"]', '["1 in", "2 in", "3 in"]', '"0.001 mm"', '"3000 mm"', '"5 deg"', '"90 deg"', '"12 in on 1 in"', '"99999 kg"',
)  # fmt: skip
VALUE = re.compile(r"^(\s*[\w\"-]+\s*=\s*)([^#\n]+)", re.MULTILINE)
NUMBER = re.compile(r"\d+(?:\.\d+)?")


def texts() -> list[str]:
    """The examples, sized once where they have no mount."""
    return [p.read_text(encoding="utf-8") for p in sorted(EXAMPLES.glob("*.toml"))]


def mutated(text: str, chance: random.Random) -> str:
    """One to three changes: a value replaced, scaled or dropped, a line moved, doubled or torn, a byte put in."""
    for _ in range(chance.randint(1, 3)):
        text = chance.choice(WAYS)(text, chance)
    return text


def _odd(text: str, chance: random.Random) -> str:
    return _at_value(text, chance, chance.choice(ODD))


def _at_value(text: str, chance: random.Random, value: str) -> str:
    found = list(VALUE.finditer(text))
    if not found:
        return text
    m = chance.choice(found)
    return text[: m.start(2)] + value + " " + text[m.end(2) :]


def _scaled(text: str, chance: random.Random) -> str:
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    m = chance.choice(found)
    times = chance.choice((0.0, 0.01, 0.3, 0.8, 1.3, 3.0, 100.0, 1e6))
    return text[: m.start()] + f"{float(m[0]) * times:g}" + text[m.end() :]


def _dropped(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        del lines[chance.randrange(len(lines))]
    return "".join(lines)


def _moved(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        lines.insert(chance.randrange(len(lines)), lines[chance.randrange(len(lines))])
    return "".join(lines)


def _torn(text: str, chance: random.Random) -> str:
    return text[: chance.randrange(len(text) + 1)] if chance.random() < 0.1 else text


def _typed(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    return (
        text[:at] + chance.choice(('"', "'", "[", "]", "=", "\x00", "\t", "\u201c", "#", "\\", "é", "\n")) + text[at:]
    )


WAYS = (_odd, _odd, _odd, _scaled, _scaled, _dropped, _moved, _torn, _typed)


def run(command: tuple[str, ...], folder: Path) -> tuple[int, str, str, float]:
    """Exit code, stdout, stderr and seconds of one command."""
    places = {"JOB": "job.toml", "OTHER": "other.toml", "TABLE": "jobs.csv"}
    words = [str(folder / places[w]) if w in places else w.replace("OUT", str(folder)) for w in command]
    out, err = io.StringIO(), io.StringIO()
    start = _spent()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = transom(words)
    return code, out.getvalue(), err.getvalue(), _spent() - start


def _spent() -> float:
    """Seconds of processor, of the processes that `batch` started too."""
    below = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + below.ru_utime + below.ru_stime


def faults(command: tuple[str, ...], code: int, out: str, err: str, seconds: float) -> Iterator[str]:
    """What must never be."""
    if code not in (0, 1, 2):
        yield f"exit {code}: {err.strip().splitlines()[-1:] or ''}"
    if "Traceback" in out + err:
        yield "traceback"
    if seconds > SLOW * TIMES.get(command[0], 1):
        yield f"slow: {seconds:.1f} s"
    if code == 2 and not err.strip():
        yield "exit 2 without a line"
    if "--json" in command and code in (0, 1):
        yield from _numbers(json.loads(out))
    elif re.search(r"\b(nan|inf)\b", out) and code == 0:
        yield "nan or inf on a screen that passes"


def _numbers(value: object) -> Iterator[str]:
    if isinstance(value, float) and not math.isfinite(value):
        yield "not finite in the JSON"
    for each in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from _numbers(each)


def main() -> int:
    given = sys.argv[1:]
    count, seed = (int(given[n]) if len(given) > n else usual for n, usual in ((0, 200), (1, 1)))
    only = set(sys.argv[3:])
    commands = [c for c in COMMANDS if not only or c[0] in only]
    base, codes, bad = texts(), Counter[str](), 0
    for at in range(seed, seed + count):
        chance = random.Random(at)
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            text = mutated(chance.choice(base), chance)
            (folder / "job.toml").write_text(text, encoding="utf-8", errors="surrogateescape")
            (folder / "other.toml").write_text(chance.choice(base), encoding="utf-8")
            (folder / "jobs.csv").write_bytes(spoilt(TABLE, chance))
            odd = chance.choice((*TYPED, *(o.strip('"') for o in ODD)))
            command = tuple(w.replace("ODD", odd) for w in chance.choice(commands))
            found = run(command, folder)
            codes[f"{command[0]} {found[0]}"] += 1
            for fault in faults(command, *found):
                bad += 1
                print(f"seed {at}: {command!r}: {fault}", flush=True)
    print(f"{count} jobs from seed {seed}: {bad} faults; " + ", ".join(f"{k}: {n}" for k, n in sorted(codes.items())))
    return int(bad > 0)


if __name__ == "__main__":
    sys.exit(main())
