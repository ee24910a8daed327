"""An invented shop for tests: a job with a stated mount, a small price book with round prices, both judged and read once."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

from transom.catalogue import SHIPPED
from transom.estimate.book import Book, Item
from transom.estimate.build import estimate
from transom.estimate.reading import from_tables
from transom.estimate.records import Estimate
from transom.job.read import loads
from transom.job.records import Job, Layer, Mount
from transom.job.syntax import parse
from transom.judge.judging import judge
from transom.judge.records import Judgement

JOB = """
# Demo data, invented.
[job]
name = "worked by hand"
number = "7"
date = 2026-05-04
[boat]
kind = "pontoon"
plate_power = "50 hp"
[engine]
power = "40 hp"
[board]
width = "24 in"
height = "18 in"
pocket = "none"
[frame]
kind = "uprights"
at = ["-8 in", "8 in"]
[frame.bolts]
size = "3/8 in"
count = 8
keep = true
[quote]
customer = "A. Boater"
[mount]
layers = [
    { sheet = "douglas-fir-marine 3/4 in", grain = "across" },
    { sheet = "douglas-fir-marine 3/4 in", grain = "across" },
]
[mount.engine_bolts]
thread = "1/2-13"
grade = "F593C"
length = "3-1/2 in"
aft = { washer = "1/2 wide" }
forward = { plate = "6061-T6", thickness = "1/4 in", width = "16 in", height = "3 in", per = "pair" }
"""
# A builder's plate that the engine is over: a stop, so the mount does not pass.
OVER_PLATE = ('plate_power = "50 hp"', 'plate_power = "5 hp"')
# The same with a small engine on a heavy board: it passes, with room to spare. Little stock, so that sizing is quick.
PASSING = (
    JOB.replace(
        'power = "40 hp"',
        '''power = "9.9 hp"
weight = "90 lb"
[engine.bracket]
upper_holes = "12-7/8 in"
lower_holes = "9-7/8 in"
rows_apart = "8 in"
top_to_upper = "1-7/8 in"''',
    )
    .replace('kind = "uprights"\nat = ["-8 in", "8 in"]', 'kind = "pod"')
    .replace(
        "layers = [",
        """layers = [
    { sheet = "douglas-fir-marine 3/4 in", grain = "across" },""",
    )
    .replace("3-1/2 in", "4-1/4 in")
    .replace('width = "16 in", height = "3 in", per = "pair"', 'width = "3 in", height = "3 in", per = "bolt"')
    + """[mount.frame_bolts]
size = "3/8 in"
count = 8
washer = "3 in"
washer_thickness = "1/4 in"
doubler = "1/4 in"
[mount.pod_bolts]
size = "3/8 in"
count = 8
washer = "3 in"
washer_thickness = "1/4 in"
[stock]
panels = ["douglas-fir-marine"]
sheets = ["3/4 in"]
most_sheets = 3
plate_thicknesses = ["1/4 in"]
washers = ["1/2 wide"]
"""
)
BOOK = """
[book]
date = 2026-04-01
currency = "$"
[labour]
rate = 90
[markup]
wood = 0.25
epoxy = 0.25
metal = 0.25
fasteners = 0.5
supplies = 0.25
[tax]
labour = 0
other = 0.0825
[[sheet]]
name = "douglas-fir-marine 3/4 in"
price = 149.95
half = 82.50
[[epoxy]]
holds = "1 pt"
price = 31.40
[[epoxy]]
holds = "1 qt"
price = 52.65
[[plate]]
alloy = "6061-T6"
thickness = "1/4 in"
price = 29.90
per = "sq ft"
[[bolt]]
thread = "1/2-13"
grade = "F593C"
length = "3-1/2 in"
price = 4.35
[[bolt]]
thread = "1/2-13"
grade = "F593C"
length = "4-1/2 in"
price = 5.15
[[bolt]]
thread = "3/8-16"
grade = "F593C"
length = "2 in"
price = 1.45
[[plate_washer]]
side = "3 in"
thickness = "1/4 in"
price = 5.80
[[nut]]
thread = "1/2-13"
price = 11.05
pack = 10
[[nut]]
thread = "3/8-16"
price = 6.95
pack = 10
[[washer]]
name = "1/2 wide"
price = 14.25
pack = 10
[[supply]]
name = "filler"
price = 14.50
pack = 0.5
[[supply]]
name = "brushes"
price = 1.15
[[supply]]
name = "gloves"
price = 15.99
pack = 50
[[supply]]
name = "pots"
price = 11.25
pack = 10
[[supply]]
name = "discs"
price = 1.35
[[supply]]
name = "cleaner"
price = 15.40
[[supply]]
name = "sealant"
price = 18.95
[[supply]]
name = "isolating tape"
price = 21.10
pack = 10
[[supply]]
name = "barrier primer"
price = 36.45
pack = 0.5
[[supply]]
name = "abrasives"
price = 6.35
[[supply]]
name = "angle"
price = 44.20
pack = 2.5
[[supply]]
name = "welding"
price = 33.00
"""


@cache
def job(*changes: tuple[str, str]) -> Job:
    """The job with texts replaced."""
    return loads(_changed(JOB, changes))


@cache
def book(*changes: tuple[str, str]) -> Book:
    """The price book with texts replaced."""
    return from_tables(parse(_changed(BOOK, changes)), "a test's book")


def _changed(text: str, changes: tuple[tuple[str, str], ...]) -> str:
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


@cache
def judged(*changes: tuple[str, str]) -> Judgement:
    """The job's own mount judged, by the pencil: no price hangs on the method."""
    stated = job(*changes)
    assert stated.mount is not None
    return judge(stated, SHIPPED, stated.mount, careful=False)


def priced(b: Book | None = None) -> Estimate:
    """The job's estimate with a book."""
    return estimate(judged(), b or book())


def with_layers(layers: tuple[Layer, ...], b: Book, length: float | None = None) -> Estimate:
    """The same judged job with another stack and the bolts that it takes: prices hang on the mount alone."""
    j = judged()
    assert j.mount is not None
    assert j.mount.engine_bolts is not None
    bolts = replace(j.mount.engine_bolts, length=length or j.mount.engine_bolts.length)
    return estimate(replace(j, mount=Mount(layers, bolts)), b)


def items(b: Book, change: Callable[[Item], dict[str, Any]]) -> Book:
    """The book with each item changed."""
    return replace(b, items=tuple(replace(i, **change(i)) for i in b.items))
