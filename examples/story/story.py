"""One invented job from the first question to the last paper, in a folder of its own.

    python examples/story/story.py [FOLDER]

Every step is a command of `transom`, as a shop would type it; what each made is checked and listed. Demo data, invented.
"""

import contextlib
import io
import re
import shutil
import sys
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path

from transom.cli.main import main as transom

HERE = Path(__file__).parent
# What somebody answers, in tape order.
ANSWERS = """\
18 ft pontoon, soft board
2077
2026-11-25
pontoon
50
?
fresh
calm
22
yes
none
40
255
20
tiller
bolts
11
12
no
30 hp, board rotted at the upper bolts
12-7/8
9-7/8
8
1-7/8
3/4
1-1/4 to 2-3/4
?
oiled
24
18
none
12
pod
1-1/2
3/16
5052-H32
3/8
8
yes
4
1/8
3/8
8
no
70
""".splitlines()
BUILT = """
[built]
date = 2026-12-04
by = "demo builder"
hull = "DEMO00000A000"
engine_serial = "0000000"
thickness = [{thick}]
batches = ["demo ply", "demo epoxy"]
torque = [{torque}]
photos = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"]
found = "rot round the upper bolts, flanges sound"
"""


def run(*command: str, answers: Sequence[str] = ()) -> str:
    """One command; what it printed. It must pass."""
    typed, kept = io.StringIO("".join(f"{a}\n" for a in answers)), sys.stdin
    out = io.StringIO()
    sys.stdin = typed
    try:
        with contextlib.redirect_stdout(out):
            code = transom(command)
    finally:
        sys.stdin = kept
    if code:
        raise SystemExit(f"transom {' '.join(command)} ended with {code}\n{out.getvalue()}")
    return out.getvalue()


def story(folder: Path, tell: Callable[[str], None] = print) -> dict[str, list[Path]]:
    """The whole job; the files that each step made."""
    shutil.copy(HERE / "shop.toml", folder / "shop.toml")
    job = folder / "job.toml"
    made: dict[str, list[Path]] = {}

    def step(name: str, *command: str, answers: Sequence[str] = ()) -> str:
        before = set(folder.rglob("*"))
        out = run(*command, answers=answers)
        made[name] = sorted(p for p in set(folder.rglob("*")) - before if p.is_file())
        tell(f"{name:8} {', '.join(p.name for p in made[name]) or 'screen only'}")
        return out

    step("new", "new", str(job), answers=ANSWERS)
    step("size", "size", str(job), "--write", str(folder / "job-sized.toml"))
    job = folder / "job-sized.toml"
    step("review", "review", str(job), "--html", str(folder / "review.html"))
    step("draw", "draw", str(job), "--out", str(folder / "bench"))
    step("prices", "estimate", str(job), "--write-prices", str(folder / "prices.toml"))
    priced(folder / "prices.toml")
    named(job)
    step("estimate", "estimate", str(job), "--prices", str(folder / "prices.toml"), "--quote")
    step("steps", "steps", str(job), "--from", "2026-11-30 08:00", "--pdf", str(folder / "steps.pdf"))
    step("trial", "trial", str(job), "--speed", "22 mph", "--engine-speed", "5400 rpm", "--record")
    built(job)
    step("record", "record", str(job))
    step("pack", "pack", str(job), "--out", str(folder / "pack"))
    return made


def priced(book: Path) -> None:
    """Every open price of the book filled in: invented, the same for all."""
    text = book.read_text(encoding="utf-8").replace('says = ""', 'says = "invented for the story"')
    text = re.sub(r"^(wood|epoxy|metal|fasteners|supplies|labour) = \"\?\"", r"\1 = 0.10", text, flags=re.MULTILINE)
    text = text.replace('rate = "?"', "rate = 80").replace('half = "?"', "half = 8")
    book.write_text(re.sub(r'= "\?"', "= 12.50", text), encoding="utf-8")


def named(job: Path) -> None:
    """Whom the quote is for."""
    text = job.read_text(encoding="utf-8").replace('customer = ""', 'customer = "Demo customer (invented)"')
    job.write_text(text, encoding="utf-8")


def built(job: Path) -> None:
    """What came out, at the thickness and torque the tool asked for."""
    import json

    judged = json.loads(run("review", str(job), "--json"))
    thick = judged["mount"]["thickness"] + 0.8
    told = re.search(r"at most ([\d.]+ lb-ft)", run("review", str(job)))
    torque = told[1] if told else "8 lb-ft"
    with job.open("a", encoding="utf-8") as file:
        file.write(
            BUILT.format(
                thick=", ".join(f'"{thick + d:.1f} mm"' for d in (0.0, 0.2, 0.1, 0.3)),
                torque=", ".join([f'"{torque}"'] * 4),
            )
        )


if __name__ == "__main__":
    story(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(tempfile.mkdtemp(prefix="story-")))
