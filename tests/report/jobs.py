"""Jobs that the report and command tests share; invented."""

from functools import cache
from pathlib import Path

from transom.catalogue import SHIPPED
from transom.job.read import load, loads
from transom.job.records import Backing, EngineBolts, FrameBolts, Job, Layer, Mount
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.sizing.sizing import size

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"

CLAMPS = """
[job]
name = "jon boat"
[boat]
kind = "aluminium hull"
plate_power = "15 hp"
length = "14 ft"
transom_width = "48 in"
[engine]
power = "9.9 hp"
steering = "tiller"
held_by = "clamps"
shaft = "15 in"
weight = "?"
[board]
width = "18 in"
height = "15 in"
[frame]
kind = "cap rail"
"""
UNKNOWN = """
[job]
name = "nothing measured yet"
number = "77"
[boat]
kind = "pontoon"
plate_power = "60 hp"
[engine]
power = "60 hp"
shaft = "?"
weight = "?"
takes = "?"
torque = "?"
[board]
width = "?"
height = "?"
lean = "?"
pocket = "?"
[frame]
kind = "?"
[stock]
panels = ["okoume"]
sheets = ["15 mm", "25 mm"]
"""
TOO_LARGE = """
[boat]
kind = "pontoon"
plate_power = "150 hp"
[engine]
power = "150 hp"
shaft = "25 in"
takes = ["1-5/8 in", "2-3/4 in"]
torque = "55 lb-ft"
[board]
width = "24 in"
height = "18 in"
[frame]
kind = "pod"
[stock]
panels = ["douglas-fir-marine"]
sheets = ["3/4 in"]
"""
SILLY = """
[job]
name = "silly \\u00e9 \\u00bd <b>[red]x[/red] \\u65e5\\u672c and a very long name that goes on and on and wraps over the page"
units = "si"
[boat]
kind = "pontoon"
plate_power = "cannot read"
service = "open"
[engine]
power = "300 hp"
shaft = "30 in"
weight = "700 kg"
held_by = "clamps"
steering = "full turn"
[board]
width = "300 mm"
height = "250 mm"
material = "plastic"
sealed = false
treatment = "copper"
pocket = "20 mm"
[frame]
kind = "uprights"
at = ["-100 mm", "100 mm"]
[stock]
most_sheets = 1
"""
UNREAD_PLATE = EXAMPLE.read_text(encoding="utf-8").replace('plate_power = "50 hp"', 'plate_power = "cannot read"')
ACCEPTED = (
    UNREAD_PLATE
    + """
[[accept]]
stop = "plate-power-unreadable"
by = "A. Shoplead"
date = 2026-05-04
paper = "builder's letter"
"""
)
METRIC = EXAMPLE.read_text(encoding="utf-8").replace('units = "us"', 'units = "si"')
TEXTS = {
    "example": EXAMPLE.read_text(encoding="utf-8"),
    "metric": METRIC,
    "clamps": CLAMPS,
    "unknown": UNKNOWN,
    "too large": TOO_LARGE,
    "silly": SILLY,
    "unread plate": UNREAD_PLATE,
    "accepted": ACCEPTED,
}


@cache
def job(name: str) -> Job:
    return load(EXAMPLE) if name == "example" else loads(TEXTS[name])


@cache
def sized(name: str) -> Judgement:
    return size(job(name), SHIPPED)


@cache
def reviewed(name: str) -> Judgement:
    """The size's own pick, judged as a stated mount."""
    mount = sized(name).mount
    assert mount is not None
    return judge(job(name), SHIPPED, mount)


_FRAME = FrameBolts(size="3/8 in", count=8, diameter=9.525, washer=50.8, washer_t=4.7625, doubler=6.35)
DRAWN = {
    "example": Mount(
        (Layer("douglas-fir-marine 3/4 in", "across"),) * 2 + (Layer("douglas-fir-marine 3/4 in", "along"),),
        EngineBolts("1/2-13", "F593C", 101.6, aft=Backing(washer="1/2 regular"),
                    forward=Backing(plate="6061-T6", thickness=4.7625, width=50.8, height=50.8)),
        frame_bolts=_FRAME,
        pod_bolts=FrameBolts(size="3/8 in", count=8, diameter=9.525, washer=101.6, washer_t=9.525),
    ),
    "clamps": Mount((Layer("douglas-fir-marine 5/8 in", "across"),) * 3, frame_bolts=_FRAME),
}  # fmt: skip


@cache
def drawn(name: str) -> Judgement:
    """A mount that a shop has drawn, judged: no search before it, which takes seconds."""
    return judge(job(name), SHIPPED, DRAWN.get(name, DRAWN["example"]))
