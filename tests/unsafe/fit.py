"""Cards of what the tape decides: edges, spacing, plates, lengths, pocket, the bracket's range. `k` is a length in mm."""

from collections.abc import Callable
from dataclasses import replace
from math import hypot

from tests.checks.shop import BOLTS, JOB, SHEET, on_board, plate, setup_of, trial, with_bolts, with_engine
from tests.unsafe.cards import Card
from transom.checks.trial import Trial
from transom.job.records import EngineBracket, Hole, Layer, Mount

D = 12.7
COATED = 36.52 + 0.2 + 2 * 0.3  # one glue line, a coat on each face


def short(k: float) -> Trial:
    """So many mm less than plenty of edge above the upper bolts."""
    return trial(setup=setup_of(engine__bracket__top_to_upper=100.0 - k))


def close(k: float) -> Trial:
    """Rows that come nearer to each other, all four bolts at one distance across."""
    return trial(
        setup=setup_of(
            engine__bracket__rows_apart=200.0 - k,
            engine__bracket__upper_holes=260.0,
            engine__bracket__lower_holes=240.0,
        )
    )


def pitch(k: float, least: float = 5 * D, across: float = 10.0, along: bool = True) -> float:
    """EN 1995-1-1 Table 8.4, a1 5 d; the nearest two lie 10 mm across and so far along."""
    return least / hypot(across, 200.0 - k if along else 200.0)


def reach(k: float, bolts: float = 327.0, sides: float = 2.0) -> float:
    """A pair's plate 420 - k long: (length - 327)/2 beyond a bolt, 1.5 d asked."""
    left = (420.0 - k - bolts) / sides
    return 1.5 * D / left if left > 0 else 1e3


def room(k: float, free: float = 47.6, half: float = 2.0) -> float:
    """Plate k high about bolts 47.6 down: half of it above them."""
    return k / half / free


def between(k: float, inset: float = 25.0, half: float = 2.0) -> float:
    """Half of a plate k long against half the span (610 - 2 x 25) less the inset, 25."""
    return k / half / (280.0 - inset)


def long_enough(k: float, grip: float = 19.05, nut: float = 15.5, threads: float = 2.0) -> float:
    """Grip (ear 19, coated board, plate 6.35, washer 2.54), nut and two threads of 1.954 mm over 120 - k."""
    return (grip + COATED + 6.35 + 2.54 + nut + threads * 25.4 / 13) / (120.0 - k)


def beyond(k: float, thread: float = 31.75, grip: float = 19.05) -> float:
    """ASME B18.2.1: length less thread (2 d + 1/4 in) against the grip."""
    return max(k - thread, 0.0) / (grip + COATED + 6.35 + 2.54)


def ear(k: float) -> Trial:
    """A measured ear of 19.05 mm and bolts of k."""
    return trial(with_engine(bracket=EngineBracket(ear=19.05)), with_bolts(length=k))


def takes(low: float | None, high: float | None) -> Callable[[float], Trial]:
    """A bracket whose range ends at so many mm."""
    return lambda k: trial(with_engine(takes=(low or 200.0 - k, high or 200.0 - k) if low else (k, 900.0)))


def stack(k: float, plate_in: float = 6.35, coats: float = 0.8) -> float:
    """36.52 with glue and coats, and the plate inside, against the most a bracket takes, 200 - k."""
    return (36.52 + coats + plate_in) / (200.0 - k)


def thin(k: float, coats: float = 0.8) -> float:
    """The least it takes over the stack."""
    return k / (36.52 + coats + 6.35)


def pocket(k: float, coats: float = 0.8, clear: float = 1.5) -> float:
    """Coated board and the clearance against a channel 200 - k wide."""
    return (36.52 + coats + clear) / (200.0 - k)


def measured(k: float, sheets: int = 2) -> Trial:
    """Sheets of another thickness, by caliper."""
    job = replace(JOB, stock=replace(JOB.stock, measured=((SHEET, k),)))
    return trial(job, Mount((Layer(SHEET, "across"),) * sheets, BOLTS))


def rim(k: float, radius: float = 12.5, depth: float = 47.6) -> float:
    """A 25 mm drain (200 - k) below the top edge under an upper bolt: 3.5 d asked from its rim."""
    left = 200.0 - k - depth - radius
    return 3.5 * D / left if left > 0 else 1e3


def clear(k: float, radius: float = 20.0, half: float = 38.1) -> float:
    """A 40 mm thing (200 - k) down beneath the upper plate's lower edge (47.6 + 38.1): 3 mm asked."""
    left = 200.0 - k - 47.6 - half - radius
    return 3.0 / left if left > 0 else 1e3


CARDS = (
    Card("engine-bolts.edge-distance.ec5", short, lambda k, times=3.5, d=D: times * d / (100.0 - k), {
        "metal's 1.5 d": {"times": 1.5}, "unloaded edge, 3 d": {"times": 3.0},
    }, most=99.0),
    Card("engine-bolts.bolt-spacing.ec5", close, pitch, {
        "metal's 3 d": {"least": 3 * D}, "edge's 4 d": {"least": 4 * D}, "along taken across": {"along": False}, "straight distance of the rows' holes": {"across": 250.0},
    }, most=199.0),
    Card("backing.plate-edge", lambda k: trial(mount=plate(6.35, 420.0 - k)), reach, {"one side for both": {"sides": 1.0}, "lower bolts for upper": {"bolts": 250.8}}, most=92.9),
    Card("backing.plate-pitch", close, lambda k, times=3.0: times * D / hypot(10.0, 200.0 - k), {"2.2 d, the code's floor": {"times": 2.2}}, most=199.0),
    Card("backing.plate-room", lambda k: trial(mount=plate(6.35, 381.0, k)), room, {"half for a quarter": {"half": 4.0}, "half way to the other row": {"free": 101.6}}, most=95.2 * 1.5),
    Card("backing.plate-between-frame", lambda k: trial(mount=plate(6.35, k)), between, {"inset forgotten": {"inset": 0.0}, "span for half of it": {"half": 4.0}}, most=900.0),
    Card("engine-bolts.length", lambda k: ear(120.0 - k), long_enough, {"ear forgotten": {"grip": 0.0}, "nut forgotten": {"nut": 0.0}, "threads forgotten": {"threads": 0.0}}, most=119.0, exact=0.006),
    Card("engine-bolts.shank-in-grip", ear, beyond, {"all of it thread": {"thread": 1e3}, "thread counted twice": {"thread": 63.5}}, most=150.0),
    Card("assembly.bracket-thickest", takes(20.0, None), stack, {"plate inside forgotten": {"plate_in": 0.0}, "a washer for the plate": {"plate_in": 2.54}}, most=179.0, exact=3e-3),
    Card("assembly.bracket-thinnest", takes(None, None), thin, {"clearance counted": {"coats": 2.3}}, most=200.0),
    Card("assembly.pocket", lambda k: trial(on_board(pocket=200.0 - k, pocket_stated=True)), pocket, {"clearance forgotten": {"clear": 0.0}, "coats forgotten": {"coats": 0.0}}, most=199.0),
    Card("assembly.thinnest-judged", lambda k: measured(100.0 - k), lambda k, floor=25.0: floor / (2 * (100.0 - k)), {"one sheet's floor": {"floor": 12.5}}, most=99.0),
    Card("assembly.thickest-judged", measured, lambda k, sheets=2: sheets * k / 90.0, {"one sheet for two": {"sheets": 1}}, most=100.0),
    Card("board.opening-1.ec5", lambda k: trial(on_board(openings=(Hole(163.5, 200.0 - k, 25.0),))), rim, {"to its middle": {"radius": 0.0}, "from the top edge": {"depth": 0.0}}, most=139.8),
    Card("assembly.obstruction-1", lambda k: trial(on_board(obstructions=(Hole(163.5, 200.0 - k, 40.0),))), clear, {"to its middle": {"radius": 0.0}, "from the bolt": {"half": 0.0}}, most=94.2),
)  # fmt: skip
