"""An invented 40 hp pod job of which next to nothing was measured, and mounts on both sides of its limit."""

from dataclasses import replace
from typing import Any

from transom.job.records import Backing, Board, Boat, Engine, EngineBolts, Frame, Head, Job, Layer, Mount

HP = 745.69987158
FIR = "douglas-fir-marine"
JOB = Job(
    Head(), Boat("pontoon", "stated", 50 * HP), Engine(40 * HP, 40 * HP), Board(610.0, 457.0, lean=0.21), Frame("pod")
)  # fmt: skip
FORWARD = Backing("", "6061-T6", 6.35, 76.2, 76.2, "bolt")


def mount(sheets: int, size: str = "3/4 in", length: float = 107.95) -> Mount:
    """So many equal sheets, all across but the last."""
    layers = [Layer(f"{FIR} {size}", "across")] * (sheets - 1) + [Layer(f"{FIR} {size}", "along")]
    return Mount(tuple(layers), EngineBolts("1/2-13", "F593C", length, Backing(washer="1/2 regular"), FORWARD))


PLACES = {
    "boat.speed": ("boat", "speed"),
    "engine.shaft": ("engine", "shaft"),
    "engine.gravity.aft": ("engine", "gravity_aft"),
    "board.lean": ("board", "lean"),
    "board.width": ("board", "width"),
    "board.height": ("board", "height"),
}


def put(job: Job, key: str, value: float) -> Job | None:
    """The job with an assumed number stated; None where stating it says more than the number."""
    room, _, name = key.rpartition(".")
    if key in PLACES:
        part, field = PLACES[key]
        return replace(job, **{part: replace(getattr(job, part), **{field: value})})  # type: ignore[arg-type]
    inside = {"engine.propeller": "propeller", "engine.bracket": "bracket"}
    if room in inside:
        whole: Any = inside[room]
        changed: Any = replace(getattr(job.engine, whole), **{name: value})
        return replace(job, engine=replace(job.engine, **{whole: changed}))
    return None
