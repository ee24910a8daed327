"""What a mount takes, before anybody asks how it is sold: sheets, plates, bolts, epoxy, what is used up."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from transom.catalogue import Catalogue
from transom.checks.assembly import least_bolt_length
from transom.estimate.reading import square
from transom.estimate.work import PIECES, Ground, Work, engine_bolts
from transom.frozen import dataclass
from transom.job.records import Backing, FrameBolts, Mount, Offcut
from transom.judge.fasteners import Added
from transom.sizing.sheets import NONE_BIG_ENOUGH, halves

MM2 = 1e-6  # m2
Piece = tuple[int, float, float]  # how many, width and height in mm; zero where they follow from elsewhere


@dataclass(frozen=True)
class Need:
    """One thing the work takes. `amount` is bare: without waste, spares or packets.

    `kind`, `name` and `size` find it in a price book; sheets count in halves, plates in m2, angle in m, epoxy
    in liters, the rest by the piece or the supply's unit. `waste` and `spares` are shares on top.
    """

    kind: str
    name: str
    amount: float
    unit: str
    group: str
    supplier: str
    case: str = "dry"
    size: float = 0.0
    waste: float = 0.0
    spares: float = 0.0
    mass: float = 0.0  # kg, of what stays in the mount
    pieces: tuple[Piece, ...] = ()

    @property
    def key(self) -> str:
        """Kind, name and size, the same for the same thing in every estimate."""
        return f"{self.kind} {self.name}" + (f" {self.size:g}" if self.size else "")


def needs_of(j: Ground, mount: Mount, work: Work, fasteners: Sequence[Added]) -> tuple[Need, ...]:
    """Everything the work takes, like things together."""
    tables = j.setup.tables
    found = [
        *_sheets(mount, work, tables, j.job.stock.offcuts),
        *_epoxy(work, tables),
        *_plates(mount, work, tables),
        *_engine(j, mount, tables),
        *_joints(j, mount, work, fasteners, tables),
        *_supplies(work, tables),
    ]
    return tuple(_together(found))


def _need(
    tables: Catalogue, group: str, kind: str, name: str, amount: float, unit: str, size: float = 0.0, mass: float = 0.0,
    pieces: tuple[Piece, ...] = (),
) -> Need:  # fmt: skip
    """A need of a class of things, with that class's waste, spares and supplier."""
    row = next(r for r in tables.rows("buying") if r.name == group)
    return Need(kind, name, amount, unit, group, row.supplier, "dry", size, row.waste, row.spares, mass, pieces)


def _together(found: Sequence[Need]) -> Iterator[Need]:
    """Needs of one key and case as one."""
    groups: dict[tuple[str, str], list[Need]] = {}
    for need in found:
        groups.setdefault((need.case, need.key), []).append(need)
    for same in groups.values():
        first, *rest = same
        if not rest:
            yield first
            continue
        values = vars(first) | {
            "amount": sum(n.amount for n in same),
            "mass": sum(n.mass for n in same),
            "pieces": tuple(p for n in same for p in n.pieces),
        }
        yield Need(**values)


def _sheets(mount: Mount, work: Work, tables: Catalogue, offcuts: Sequence[Offcut]) -> Iterator[Need]:
    for sheet, count in Counter(layer.sheet for layer in mount.layers).items():
        own = [layer for layer in mount.layers if layer.sheet == sheet]
        half = halves(own, work.width, work.height, tables, offcuts)
        amount = math.inf if half >= NONE_BIG_ENOUGH else float(half)
        mass = tables.sheet(sheet).areal_mass_kg_m2 * work.area * count
        pieces = ((count, work.width, work.height),)
        yield _need(tables, "wood", "sheet", sheet, amount, "half sheet", mass=mass, pieces=pieces)


def _epoxy(work: Work, tables: Catalogue) -> Iterator[Need]:
    yield _need(tables, "epoxy", "epoxy", "epoxy", work.epoxy.liters, "L", mass=work.epoxy.mass)


def _plates(mount: Mount, work: Work, tables: Catalogue) -> Iterator[Need]:
    b = mount.engine_bolts
    if b is None or not work.engine_bolts:
        return
    for side in (b.forward, b.aft):
        if side.plate:
            yield _plate(side, PIECES[side.per] or work.engine_bolts, tables)


def _plate(b: Backing, count: int, tables: Catalogue) -> Need:
    area = b.width * b.height * MM2 * count
    mass = area * b.thickness * 1e-3 * tables.plate(b.plate, b.thickness).rho_kg_m3
    return _need(
        tables, "metal", "plate", b.plate, area, "m2", size=b.thickness, mass=mass, pieces=((count, b.width, b.height),)
    )


def _engine(j: Ground, mount: Mount, tables: Catalogue) -> Iterator[Need]:
    b, count = mount.engine_bolts, float(engine_bolts(j.setup, mount))
    if b is None or not count:
        return
    yield _need(tables, "fasteners", "bolt", f"{b.thread} {b.grade}", count, "each", size=b.length)
    yield _need(tables, "fasteners", "nut", b.thread, count, "each")
    for side in (b.aft, b.forward):
        if side.washer:
            yield _need(tables, "fasteners", "washer", side.washer, count, "each")


def _joints(j: Ground, mount: Mount, work: Work, fasteners: Sequence[Added], tables: Catalogue) -> Iterator[Need]:
    for a in fasteners:
        count, new = float(a.bolts.count or 0), float(a.more if a.bolts.keep else a.bolts.count or 0)
        if a.bolts.kind == "bolts":
            yield from _bolts(j, mount, work, a, new, count, tables)
        elif new:
            name = f"{a.bolts.kind} {a.bolts.size}"
            yield _need(tables, "fasteners", "other", name, new, "each", size=a.bolts.length or 0.0)
        if a.washer is not None:
            yield _need(tables, "fasteners", "plate_washer", square(*a.washer), count, "each")
        if a.doubler:
            yield _angle(work, tables)


def _bolts(
    j: Ground, mount: Mount, work: Work, a: Added, new: float, count: float, tables: Catalogue
) -> Iterator[Need]:
    """New bolts, and nuts for all: a lock nut is not used twice, so old bolts get new ones too."""
    thread = thread_of(a.bolts, tables)
    size = thread or a.bolts.size or f"{a.bolts.diameter or 0.0:g} mm"
    if new:
        grade = a.bolts.grade or (grade_of(mount, thread, tables) if thread else "")
        length = length_of(j, a, thread, work) if thread else 0.0
        yield _need(tables, "fasteners", "bolt", f"{size} {grade}".strip(), new, "each", size=length)
    if count:
        yield _need(tables, "fasteners", "nut", size, count, "each")


def _angle(work: Work, tables: Catalogue) -> Need:
    """Angle laid into the flange along the board's sides and bottom."""
    row = next(r for r in tables.rows("supplies") if r.name == "angle")
    length = (2 * work.height + work.width) / 1000.0
    return Need("supply", "angle", length, row.unit, "metal", row.supplier, waste=row.waste)


def thread_of(b: FrameBolts, tables: Catalogue) -> str:
    """The coarse thread of a bolt size; "" where the tables have none of it."""
    size = b.size.removesuffix(" in").strip()
    found = [t.name for t in tables.rows("threads") if t.size == size]
    near = [t.name for t in tables.rows("threads") if b.diameter and abs(t.d_mm - b.diameter) < 0.1]
    return str((found or near or [""])[0])


def grade_of(mount: Mount, thread: str, tables: Catalogue) -> str:
    """The grade to buy for frame and pod: the engine bolts', else the first stainless of that size."""
    made = [g.name for g in tables.grades_for(thread)]
    if mount.engine_bolts is not None and mount.engine_bolts.grade in made:
        return mount.engine_bolts.grade
    stainless = [g.name for g in tables.grades_for(thread) if g.kind == "stainless"]
    return (stainless or made)[0]


def length_of(j: Ground, a: Added, thread: str, work: Work) -> float:
    """The shortest stocked length through what the joint holds, mm; the longest where none is long enough."""
    tables, facts = j.setup.tables, j.facts
    washer = a.washer[1] if a.washer else facts[f"{a.joint}.bolts.washer_t"].value
    if a.joint == "frame":
        held = work.thickness + 2 * j.setup.factors.coat + facts["frame.flange.thickness"].value + a.doubler
    else:
        held = 2 * facts["crossmembers.wall"].value  # the pod's own wall is not in the job: as thick as the other
    t = tables.thread(thread)
    nut = tables.nut(thread, "lock").height_mm
    needed = float(least_bolt_length(held + 2 * washer, nut, t.pitch_mm, j.setup.factors.threads_beyond_nut))
    lengths = [row.length_mm for row in tables.bolt_lengths(thread)]
    return next((x for x in lengths if x >= needed - 1e-9), lengths[-1])


def _supplies(work: Work, tables: Catalogue) -> Iterator[Need]:
    bases = {
        "job": 1.0,
        "glued area": work.glued,
        "coated area": work.coated,
        "epoxy": work.epoxy.liters,
        "engine bolts": float(work.engine_bolts),
        "frame bolts": float(work.frame_bolts),
        "edge": work.edge,
    }
    for row in tables.rows("supplies"):
        amount = row.amount * bases[row.per]
        if amount > 0:
            yield Need("supply", row.name, amount, row.unit, "supplies", row.supplier, row.case, waste=row.waste)
