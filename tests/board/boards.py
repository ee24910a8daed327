"""Boards that several tests share: a uniform panel under a bracket of common size."""

from transom.board.answer import Board
from transom.board.bracket import Bolt, Seat, bolt_stiffness, pad_cells, shank_stiffness, wood_stiffness
from transom.board.elements import Section
from transom.board.grid import Rectangle, grid
from transom.board.plate import Support

UPPER, LOWER, PADS, HEIGHT = (163.5, -47.6), (125.4, -250.8), (105.0, 175.0), 330.0


def uniform(t: float) -> Section:
    """The panel's own row at any thickness, as the independent model had it."""
    inertia = t**3 / 12
    return Section(7000 * inertia, 0.0, 4000 * inertia, 500 * inertia, 100 * t, 100 * t)


def seat(t: float, E_90: float = 250.0, cell: float = 25.0, plate: float = 60.0) -> Seat:
    """Four 1/2 in bolts over 60 mm plates and two pads."""
    k = bolt_stiffness(shank_stiffness(200e3, 91.5, t + 20), wood_stiffness(E_90, plate**2, t))
    half = plate / 2
    bolts = tuple(
        Bolt(s * y, z, k, Rectangle(s * y - half, s * y + half, z - half, z + half))
        for y, z in (UPPER, LOWER) for s in (-1, 1)
    )  # fmt: skip
    pads = (Rectangle(-PADS[1], -PADS[0], -HEIGHT, 0), Rectangle(*PADS, -HEIGHT, 0))
    return Seat(bolts, sum((pad_cells(p, E_90, t, cell) for p in pads), ()))


def board(
    t: float, kind: str = "pod", W: float = 610.0, H: float = 450.0, target: float = 40.0, section=None, **kw
) -> Board:
    y = [s * v for s in (-1, 1) for v in (W / 2, *PADS, UPPER[0], LOWER[0])]
    on = grid(y, [-H, -HEIGHT, LOWER[1], UPPER[1], 0], target)
    lines = [Rectangle(s * W / 2, s * W / 2, -H, 0) for s in (-1, 1)]
    lines += {"pod": [Rectangle(-W / 2, W / 2, -H, -H)], "uprights": []}[kind]
    return Board(on, section or uniform(t), tuple(Support(line) for line in lines), seat(t, **kw))
