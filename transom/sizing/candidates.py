"""What the shop could build: stacks of sheets, bolts, and what spreads them. Names only, in a fixed order."""

from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement, product

from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.job.records import Backing, EngineBolts, Job, Layer
from transom.setup.records import Setup

MARINE = ("douglas-fir-marine", "okoume")
INCH_SIDES = (50.8, 63.5, 76.2, 88.9, 101.6)
METRIC_SIDES = (50.0, 60.0, 75.0, 90.0, 100.0)
PLATE_ALLOY = "6061-T6"
USUAL_THREAD = "1/2-13"
OUTSIDE_WASHER = "regular", "large"
MOST_KINDS = 2
USUAL_SHEET = 9.0  # mm; thinner sheets only where the shop lists them
Pile = tuple[Layer, ...]


def sheets_in_stock(job: Job, tables: Catalogue) -> dict[str, tuple[str, ...]]:
    """Sheets the shop can take, by panel; a family is never mixed with another in one board."""
    out = {}
    for name in job.stock.panels or MARINE:
        rows = tables.sheets_of(name)
        wanted = job.stock.sheets
        out[name] = tuple(
            s.name
            for s in rows
            if (s.nominal in wanted or s.name in wanted if wanted else s.thickness_mm >= USUAL_SHEET)
        )
    return out


def piles(job: Job, tables: Catalogue, thickest: float, thinnest: float) -> tuple[Pile, ...]:
    """Every stack of 1 to `most_sheets` sheets of one panel, each turned along or across.

    No board mixes more than two thicknesses, and unequal sheets lie thickest aft. A stack and the same stack
    upside down are one where all its sheets are equal. Stacks outside the thickness (mm) this method judges
    are left out.

    Raises:
        JobError: no stack of what the shop has is within that thickness.
    """
    measured = dict(job.stock.measured)
    out = []
    for names in sheets_in_stock(job, tables).values():
        thick = {n: measured.get(n, tables.sheet(n).thickness_mm) for n in names}
        order = sorted(names, key=lambda n: (-thick[n], n))
        for count in range(1, job.stock.most_sheets + 1):
            for sheets in combinations_with_replacement(order, count):
                if len(set(sheets)) <= MOST_KINDS and thinnest <= sum(thick[s] for s in sheets) <= thickest:
                    out += [tuple(map(Layer, sheets, turned)) for turned in _turns(sheets)]
    if not out:
        raise JobError(
            f"[stock] sheets: no stack of 1 to {job.stock.most_sheets} of them is {thinnest:g} to {thickest:g} mm thick,"
            " which is what can be judged; list other sheets or allow more of them"
        )
    return tuple(out)


def _turns(sheets: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """Ways to turn the sheets; turning two equal neighbours' order about the middle is the same board."""
    alike = len(set(sheets)) == 1
    for turned in product(("across", "along"), repeat=len(sheets)):
        if not alike or turned <= turned[::-1]:
            yield turned


def backings(job: Job, tables: Catalogue, setup: Setup, thread: str) -> tuple[Backing, ...]:
    """Washers of the bolt's size, and plates one per bolt, per pair and for all, that lie on the board."""
    washers = [w.name for w in tables.washers_for(thread) if not job.stock.washers or w.name in job.stock.washers]
    metric = tables.thread(thread).system == "metric"
    stocked = [p.thickness_mm for p in tables.plate_thicknesses() if p.name.endswith("mm") == metric]
    thicknesses = job.stock.plate_thicknesses or tuple(stocked)
    p, place = setup.holding.pattern, setup.place
    out = [Backing(washer=w) for w in washers]
    for alloy, t, side, per in product(
        job.stock.plates or (PLATE_ALLOY,), thicknesses, METRIC_SIDES if metric else INCH_SIDES, ("bolt", "pair", "all")
    ):
        reach = max(float(p.y_u), float(p.y_l)) * 2
        width = side if per == "bolt" else _up(reach + side, metric)
        height = side if per != "all" else _up(float(p.z_l) - float(p.z_u) + side, metric)
        lies = side / 2 <= float(p.z_u) and width <= float(place.width) and reach + side <= float(place.width)
        if lies and (per != "all" or float(p.z_u) + height - side / 2 <= float(place.height)):
            out.append(Backing(plate=alloy, thickness=t, width=width, height=height, per=per))
    return tuple(out)


def _up(length: float, metric: bool) -> float:
    """The next whole centimetre, or quarter inch, that a saw fence is set to, without noise in its last digit: it is read back."""
    step = 10.0 if metric else 6.35
    return round(-(-round(length, 6) // step) * step, 6)


def thread_of(job: Job, setup: Setup, tables: Catalogue) -> str:
    """The bolts the bracket is drilled for: as mounted, else as stocked, else the usual."""
    if setup.holding.thread:
        return setup.holding.thread
    if job.stock.threads:
        return job.stock.threads[0]
    return tables.bracket(float(setup.power)).thread or USUAL_THREAD


def grades_of(job: Job, tables: Catalogue, thread: str) -> tuple[str, ...]:
    """Bolt grades to try: the shop's, else stainless, 316 in salt water."""
    made = {g.name for g in tables.grades_for(thread)}
    if job.stock.grades:
        return tuple(g for g in job.stock.grades if g in made)
    wanted = ("F593G", "F593H", "A4-70") if job.boat.water == "salt" else ("F593C", "F593D", "A4-70")
    return tuple(g for g in wanted if g in made)[:1]


def outside_washer(tables: Catalogue, thread: str) -> Backing:
    """The washer under the bolt head on the bracket."""
    found = [w.name for w in tables.washers_for(thread) if w.kind in OUTSIDE_WASHER]
    return Backing(washer=found[0]) if found else Backing()


def bolt_sets(job: Job, tables: Catalogue, setup: Setup) -> tuple[EngineBolts, ...]:
    """Every bolt and backing, lengths still to be chosen (0)."""
    thread = thread_of(job, setup, tables)
    aft = outside_washer(tables, thread)
    return tuple(
        EngineBolts(thread, grade, 0.0, aft, forward)
        for grade in grades_of(job, tables, thread)
        for forward in backings(job, tables, setup, thread)
    )
