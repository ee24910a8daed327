"""Draw many random mounts and count what is wrong with the views: words on words, on holes, on dimension lines, outside.

Run from the checkout: `python tests/bench/random_drawings.py [mounts] [seed]`. Mounts are judged by the pencil and need not pass.
"""

import random
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.drawing.test_views import labels, true_box
from tests.judge.mounts import FIR, HP, JOB
from transom.catalogue import SHIPPED
from transom.drawing import shapes as s
from transom.drawing.buildable import faults
from transom.drawing.dimensioned import dimensioned
from transom.drawing.dxf import dxf
from transom.drawing.layout import drawing_of
from transom.drawing.pdf import scenes, template
from transom.drawing.records import AFT, FORWARD, Drawing
from transom.drawing.section import section
from transom.errors import JobError
from transom.job.records import (
    Backing,
    Board,
    EngineBolts,
    EngineBracket,
    Frame,
    FrameBolts,
    Hole,
    Job,
    Layer,
    Mount,
    Pad,
)
from transom.judge.judging import judge

BACKINGS = (
    Backing("", "6061-T6", 6.35, 76.2, 76.2, "bolt"),
    Backing("", "6061-T6", 6.35, 381.0, 76.2, "pair"),
    Backing("", "6061-T6", 6.35, 381.0, 280.0, "all"),
    Backing(washer="1/2 wide"),
)
ODD = EngineBracket(
    bolts=tuple(Hole(y, d) for d, y_0 in ((48.0, 163.0), (150.0, 140.0), (251.0, 125.0)) for y in (-y_0, y_0)),
    pads=(Pad(-140.0, 0.0, 70.0, 330.0), Pad(140.0, 0.0, 70.0, 330.0)),
)
FRAMES = (None, FrameBolts("3/8 in", 8, True, 9.525), FrameBolts("3/8 in", 12, False, 9.525))


def board(r: random.Random) -> Board:
    """A board with or without notch, openings and things behind it."""
    width, height = r.choice([380.0, 450.0, 520.0, 610.0, 762.0, 900.0]), r.choice([330.0, 400.0, 457.0, 520.0, 640.0])

    def things(most: int, what: str) -> tuple[Hole, ...]:
        count = max(0, r.randint(-2, most))
        places = [(r.uniform(30 - width / 2, width / 2 - 30), r.uniform(30, height - 30)) for _ in range(count)]
        return tuple(Hole(y, down, r.choice([12.0, 25.4, 60.0]), what) for y, down in places)

    notch = r.choice([(0.0, 0.0), (0.0, 0.0), (150.0, 30.0), (220.0, 25.0)])
    return Board(
        width, height, lean=r.choice([0.0, 0.21]), openings=things(2, "steering cable tube"),
        obstructions=things(1, "cable"), notch_width=notch[0], notch_depth=notch[1],
    )  # fmt: skip


def mounted(r: random.Random) -> tuple[Job, Mount]:
    """A job and a mount for it."""
    at, kind, clamps = board(r), r.choice(["pod", "uprights", "cap rail"]), r.random() < 0.12
    layers = tuple(
        Layer(f"{FIR} {r.choice(['1/2 in', '3/4 in'])}", r.choice(["across", "along"]))
        for _ in range(r.choice([2, 3, 4, 5]))
    )
    bolts = EngineBolts(
        "1/2-13", "F593C", r.choice([101.6, 114.3, 127.0]), Backing(washer="1/2 regular"), r.choice(BACKINGS)
    )
    engine = replace(JOB.engine, bracket=r.choice([EngineBracket(), ODD]))
    if clamps:
        engine = replace(engine, held_by="clamps", power=9 * HP, power_low=9 * HP)
    half = at.width or 0.0
    uprights = (60 - half / 2, half / 2 - 60) if kind == "uprights" else ()
    frame = Frame(kind, flange_width=r.choice([None, 38.0, 60.0]), bolts=r.choice(FRAMES), at=uprights)
    head = replace(JOB.head, units=r.choice(["us", "si"]), name=r.choice(["x", "a very long name indeed " * 8]))
    return replace(JOB, head=head, board=at, engine=engine, frame=frame), Mount(layers, None if clamps else bolts)


def wrong(scene: s.Scene) -> Iterator[str]:
    """What cannot be read in a view."""
    words = labels(scene)
    rings = [x.box for x in scene.shapes if isinstance(x, s.Ring) and x.purpose not in (s.WASHER, s.KEEP_OUT)]
    lines = [x.box for x in scene.shapes if getattr(x, "purpose", "") in (s.DIMENSION, s.EXTENSION)]
    yield from ("words on words" for a, b in combinations(words, 2) if true_box(a).meets(true_box(b)))
    yield from ("words on a hole" for t in words for ring in rings if true_box(t).meets(ring))
    yield from ("words on a dimension line" for t in words for line in lines if true_box(t).meets(line.grown(0.05)))
    yield from ("dimension line on a hole" for line in lines for ring in rings if line.meets(ring))
    yield from ("words outside" for t in words if not scene.box.grown(0.5).holds(true_box(t)))


def views(d: Drawing) -> list[s.Scene]:
    """Every view of a drawing."""
    return [*scenes(d), dimensioned(d, AFT), dimensioned(d, FORWARD), section(d)]


def main(count: int, seed: int) -> None:
    """Print what was found."""
    r = random.Random(seed)
    found: Counter[str] = Counter()
    for _ in range(count):
        job, mount = mounted(r)
        try:
            d = drawing_of(judge(job, SHIPPED, mount, careful=False))
        except JobError:
            found["not judged"] += 1
            continue
        kind = "refused" if faults(d) else "drawn"
        found[kind] += 1
        dxf(d)
        template(d, r.choice(["letter", "a4", "tabloid", "roll"]))
        found.update(f"{kind}: {what}" for scene in views(d) for what in wrong(scene))
    for what, times in sorted(found.items()):
        print(f"{times:6} {what}")


if __name__ == "__main__":
    main(*(int(a) for a in (sys.argv[1:] + ["40", "1"][len(sys.argv) - 1 :])))
