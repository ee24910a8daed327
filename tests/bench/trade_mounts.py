"""What the trade builds at 40, 90 and 150 hp, through every check: worst utilisation of each, as a table.

    python tests/bench/trade_mounts.py [plate]

Invented jobs on the usual pod and uprights, nothing measured; layers and plates as common practice has them:
two 3/4 in sheets to 60 hp, three (57 mm) from 125 hp, 6061-T6 plates of 1/4 or 3/8 in. With `plate` the careful
method decides in place of the pencil's.
"""

import sys
from dataclasses import replace

import numpy as np

from transom.catalogue import SHIPPED
from transom.checks import all_checks, second_opinions
from transom.checks.assembly import grip_of, least_bolt_length
from transom.checks.board import bending_without_holes
from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.job.records import Backing, Board, Boat, Engine, EngineBolts, Frame, Head, Job, Layer, Mount
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect

HP = 745.69987158
INCH = 25.4
SHEET = "douglas-fir-marine 3/4 in"
THREAD = "1/2-13"
BUILT = (
    (40, "pod", 2, 0.25),
    (40, "uprights", 2, 0.25),
    (90, "pod", 2, 0.25),
    (90, "pod", 3, 0.25),
    (90, "uprights", 3, 0.25),
    (150, "pod", 3, 0.375),
    (150, "pod", 4, 0.375),
    (150, "uprights", 3, 0.375),
    (150, "uprights", 4, 0.375),
)


def job(hp: float, kind: str) -> Job:
    """An invented job, 20 in shaft, everything else a default."""
    return Job(
        Head(),
        Boat("pontoon", "stated", 2 * hp * HP),
        Engine(hp * HP, hp * HP, shaft=508.0),
        Board(610.0, 450.0),
        Frame(kind, at=(-225.0, 225.0) if kind == "uprights" else ()),
    )


def mount(sheets: int, plate_in: float, length: float = 0.0) -> Mount:
    """Sheets turned across and along by turns, face across, and one 15 x 3 in plate for each pair of bolts."""
    forward = Backing("", "6061-T6", plate_in * INCH, 15 * INCH, 3 * INCH, "pair")
    bolts = EngineBolts(THREAD, "F593C", length, Backing(washer="1/2 regular"), forward)
    turned = ("across", "across") if sheets == 2 else ("across", "along", "across", "across")[:sheets]
    return Mount(tuple(Layer(SHEET, grain) for grain in turned), bolts)


def trial(hp: float, kind: str, sheets: int, plate_in: float) -> Trial:
    """The mount under its cases, on the shortest stocked bolt that is long enough."""
    j = job(hp, kind)
    setup = build(j, SHIPPED, values_of(collect(j, SHIPPED)))
    bare = trial_of(setup, build_cases(setup.loads), [mount(sheets, plate_in)])
    w = bare.hardware
    needed = float(np.ravel(least_bolt_length(grip_of(bare), w.nut, w.pitch, setup.factors.threads_beyond_nut))[0])
    length = min(row.length_mm for row in SHIPPED.bolt_lengths(THREAD) if row.length_mm >= needed)
    return replace(bare, hardware=replace(w, length=np.full_like(w.length, length)))


def table(plate: bool = False) -> dict[str, list[tuple[float, str]]]:
    """Worst utilisation and its case of each check, one entry for each mount of `BUILT`."""
    out: dict[str, list[tuple[float, str]]] = {}
    for built in BUILT:
        of = trial(*built)
        if plate:
            of = Careful(of.setup, of.cases, of.stacks, of.hardware)
        whole = bending_without_holes(of)
        at = int(np.argmax(whole[0]))
        out.setdefault("(board.bending, holes left out)", []).append((float(whole[0, at]), of.cases.names[at]))
        for c in (*all_checks(of), *second_opinions(of)):
            worst = max(c.rows(), key=lambda r: r.utilisation)
            name = c.name + (" *" if c.information else "")
            out.setdefault(name, []).append((worst.utilisation, worst.case))
    return out


def main() -> None:
    """Print the table; the last column is the case that governs where the check is worst."""
    print(" " * 46 + "".join(f"{hp:>4}{kind[:3]}{n}x" for hp, kind, n, _ in BUILT))
    for name, row in table("plate" in sys.argv[1:]).items():
        print(f"{name:46}" + "".join(f"{u:9.2f}" for u, _ in row) + f"  {max(row)[1]}")
    print("* for information")


if __name__ == "__main__":
    main()
