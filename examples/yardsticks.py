"""Thickness of board that the pencil method asks for, against an independent plate model's table. Invented boats.

Bending and twist alone, holes left out, every number at its default but the shaft (20 in throughout), one sheet
of five plies thought as thick as need be, held along the board's own edges.
"""

from dataclasses import dataclass

import numpy as np

from transom.board.lamination import Stacks
from transom.catalogue import SHIPPED
from transom.checks.board import bending_without_holes
from transom.checks.hardware import hardware
from transom.checks.stack_arrays import stacks_of
from transom.checks.trial import Trial
from transom.job.records import Backing, Board, Boat, Engine, EngineBolts, EngineBracket, Frame, Head, Job, Layer
from transom.loads.cases import build_cases
from transom.result import Cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.setup.records import Setup

HP = 745.69987158
POWERS = (15, 25, 40, 60, 90, 115, 150, 200, 300)
# mm by power; computed with an orthotropic plate on one-way supports before this tool was written.
PLATE = {
    "pod, Douglas-fir": (25.5, 29.6, 36.7, 43.9, 53.8, 59.7, 63.2, 69.2, 80.4),
    "uprights, Douglas-fir": (19.6, 22.8, 29.4, 36.2, 45.9, 50.6, 53.5, 59.9, 69.0),
    "pod, okoume": (25.9, 30.2, 37.2, 44.8, 54.9, 60.7, 65.1, 73.5, 84.9),
}
BOARDS = {
    "pod, Douglas-fir": ("pod", "douglas-fir-marine 3/4 in"),
    "uprights, Douglas-fir": ("uprights", "douglas-fir-marine 3/4 in"),
    "pod, okoume": ("pod", "okoume 10 mm"),
}
# The pattern usual from 30 hp, for the small engines too, mm.
BRACKET = EngineBracket(
    upper_holes=327.0, lower_holes=250.8, rows_apart=203.2, top_to_upper=47.6, pads_apart=280.0, pad_width=70.0,
    pad_height=330.0,
)  # fmt: skip
BOLTS = EngineBolts("1/2-13", "F593C", 0.0, Backing(), Backing(washer="1/2 wide"))  # do not enter
THICKNESSES = np.arange(100, 1301) / 10


@dataclass(frozen=True)
class Line:
    """One board under one engine: what each method asks for, mm, and the case that asks."""

    board: str
    hp: int
    pencil: float
    plate: float
    case: str

    @property
    def ratio(self) -> float:
        """Pencil over plate."""
        return self.pencil / self.plate


def setup_of(kind: str, hp: float) -> Setup:
    """The place of a board 610 x 450 mm held at its edges, or between uprights 450 mm apart."""
    boat = Boat({"pod": "pontoon", "uprights": "aluminium hull"}[kind])
    engine = Engine(hp * HP, hp * HP, shaft=508.0, bracket=BRACKET)
    job = Job(Head(), boat, engine, Board(610.0, 450.0), Frame(kind, at=(-225.0, 225.0) if kind == "uprights" else ()))
    return build(job, SHIPPED, values_of(collect(job, SHIPPED)) | {"frame.inset": 0.0})


def bent(setup: Setup, cases: Cases, stacks: Stacks) -> np.ndarray:
    """Utilisation in bending and twist, (thicknesses, cases)."""
    trial = Trial(setup, cases, stacks, hardware([BOLTS], SHIPPED))
    return np.broadcast_to(bending_without_holes(trial), (len(stacks), len(cases)))


def line(board: str, hp: int) -> Line:
    """The thinnest board from which on nothing is too thin, to 0.1 mm."""
    kind, sheet = BOARDS[board]
    setup = setup_of(kind, hp)
    cases = build_cases(setup.loads)
    one = stacks_of([(Layer(sheet, "across"),)], SHIPPED)
    u = bent(setup, cases, one.scaled(THICKNESSES / one.t))
    last = int(np.flatnonzero(u.max(axis=1) > 1.0)[-1])
    case = cases.of[int(u[last].argmax())]
    return Line(board, hp, float(THICKNESSES[last + 1]), PLATE[board][POWERS.index(hp)], case)


def lines() -> list[Line]:
    """Every board under every engine."""
    return [line(board, hp) for board in BOARDS for hp in POWERS]


def main() -> None:
    print(f"{'board':<24}{'power':>7}{'pencil':>9}{'plate':>8}{'ratio':>8}   governs")
    for each in lines():
        print(
            f"{each.board:<24}{each.hp:>4} hp{each.pencil:>6.1f} mm{each.plate:>5.1f} mm{each.ratio:>8.2f}   {each.case}"
        )


if __name__ == "__main__":
    main()
