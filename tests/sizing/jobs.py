"""Random jobs for the search, seeded; invented. Each offers at least 200 stacks and 10 backings."""

import random
from dataclasses import replace

from transom.catalogue import SHIPPED
from transom.job.records import Board, Boat, Engine, EngineBracket, Frame, Head, Hole, Job, Stock

HP = 745.69987158
SIZES = {"pod": ((560, 760), (400, 520)), "uprights": ((560, 700), (400, 520)), "cap rail": ((700, 1100), (400, 560))}
KINDS = tuple(SIZES)
POWERS = 15, 20, 25, 30, 40, 50, 60, 75, 90, 115, 150
# Subsets of what the tables sell, by panel; four sheets of three sizes give 214 stacks or more.
SHEETS = {
    "douglas-fir-marine": ("3/8 in", "1/2 in", "5/8 in", "3/4 in"),
    "okoume": ("9 mm", "12 mm", "15 mm", "18 mm", "22 mm", "25 mm"),
    "exterior-unknown": ("1/2 in", "5/8 in", "3/4 in"),
}


def job_of(seed: int) -> Job:
    """One random job."""
    r = random.Random(seed)
    kind = KINDS[seed % 3]
    power = r.choice(POWERS) * HP
    small = power < 29.9 * HP
    (low, high), heights = SIZES[kind]
    boat = Boat(
        {"pod": "pontoon", "uprights": "aluminium hull", "cap rail": "glass hull"}[kind],
        water=r.choice(["fresh", "salt"]),
        service=r.choice(["calm", "calm", "open"]),
        speed=r.choice([None, r.uniform(7.0, 20.0)]),
        trailer=r.random() < 0.7,
    )
    engine = Engine(
        power=power,
        power_low=power,
        shaft=r.choice([381.0, 508.0, 635.0]),
        mass=r.choice([None, None, 0.0045 * power]),
        steering=r.choice(["wheel", "tiller", "full turn"]) if power < 60 * HP else "wheel",
        takes=r.choice([None, None, (30.0, 85.0)]),
        torque=r.uniform(15e3, 40e3) if r.random() < 0.15 else None,
        threads=r.choice(["dry", "oiled", "anti-seize"]),
        gravity_aft=r.choice([None, r.uniform(170.0, 300.0)]),
        bracket=EngineBracket(upper_holes=250.0, lower_holes=220.0, rows_apart=160.0, top_to_upper=50.0)
        if small
        else EngineBracket(),
    )
    board = Board(
        width=float(r.randint(low, high)),
        height=float(r.randint(*heights)),
        lean=r.choice([None, r.uniform(0.0, 0.28)]),
        pocket=r.uniform(50.0, 90.0) if r.random() < 0.15 else None,
        openings=(Hole(0.0, 380.0, 25.0, "drain"),) if r.random() < 0.3 else (),
    )
    frame = Frame(kind, at=(-225.0, 225.0) if kind == "uprights" else ())
    return Job(Head(code=r.choice(["EN", "EN", "US"])), boat, engine, board, frame, stock_of(r, power))


def stock_of(r: random.Random, power: float) -> Stock:
    """What the shop has: one or two panels, three sheets of each, plates of one thickness, a bolt."""
    strong = ("douglas-fir-marine",), ("okoume",)
    panels = r.choice(
        [*strong, ("douglas-fir-marine", "okoume")] if power > 50 * HP else [*strong, ("exterior-unknown",)]
    )
    sheets = [s for p in panels for s in r.sample(SHEETS[p], 3)]
    measured = [(f"{panels[0]} {sheets[0]}", SHIPPED.sheet(f"{panels[0]} {sheets[0]}").thickness_mm - 0.3)]
    metric = r.random() < 0.4
    return Stock(
        panels=panels,
        sheets=tuple(sheets),
        threads=("M12",) if metric else ("1/2-13",),
        grades=("A2-70",) if metric else (r.choice(["F593C", "SAE 5"]),),
        plates=(r.choice(["6061-T6", "6061-T6", "5052-H32"]),),
        washers=("M12 extra large",) if metric else ("1/2 wide",),
        plate_thicknesses=(r.choice([8.0, 10.0]),) if metric else (r.choice([6.35, 9.525, 12.7]),),
        most_sheets=4,
        measured=tuple(measured) if r.random() < 0.3 else (),
    )


def small_job(seed: int) -> Job:
    """The same with few sheets, where every candidate can be looked at."""
    job = job_of(seed)
    panel = job.stock.panels[0]
    sheets = tuple(s for s in job.stock.sheets if any(s == row.nominal for row in SHIPPED.sheets_of(panel)))[-2:]
    return replace(job, stock=replace(job.stock, panels=(panel,), sheets=sheets, most_sheets=3))
