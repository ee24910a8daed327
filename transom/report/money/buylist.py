"""The buy list: one page, by kind of supplier, with boxes to tick."""

from collections.abc import Sequence

from transom.estimate.buying import SAME
from transom.estimate.lines import Line
from transom.estimate.records import Estimate
from transom.estimate.ways import Way
from transom.estimate.work import LITERS
from transom.quantity import show
from transom.report.money.document import Block, Document, Table, Text, bullets
from transom.report.money.quote import marks, shop_lines, taken_on
from transom.report.money.words import count_words, line_words, piece_words
from transom.report.mounts import short_words
from transom.report.words import spelled


def buy_list(e: Estimate, ways: Sequence[Way]) -> Document:
    """What to buy if it is only the board, by supplier; no prices on it."""
    head, units = e.judgement.job.head, e.judgement.job.head.units
    lines = [x for x in e.dry.lines if x.kind != "labour"]
    rows: list[tuple[str, ...]] = []
    heads = []
    for supplier in dict.fromkeys(x.supplier for x in lines):
        heads.append(len(rows))
        rows.append(("", supplier[0].upper() + supplier[1:], *[""] * 4))
        rows += [_row(x, e, ways) for x in lines if x.supplier == supplier]
    header = ("got", "what, and what to cut from it", "how many", "spares", "weighs", "or, on the rack")
    blocks: list[Block] = []
    if not e.passes:
        blocks.append(Text("DOES NOT PASS: do not buy for a mount that is not to be built.", warning=True))
    blocks.append(Table(header, tuple(rows), (0.06, 0.4, 0.15, 0.1, 0.1, 0.19), strong=tuple(heads)))
    built = show.mass(sum(x.mass for x in lines), units)
    blocks.append(
        Text(f"Spares are what is bought over what the mount takes. Board, epoxy and plates: {built} built in.")
    )
    blocks += bullets(tuple(spelled(c, units) for c in e.judgement.cautions), small=True)
    number = f" {head.number}" if head.number else ""
    subtitle = f"{head.name}, revision {head.revision}"
    return Document(f"Buy list{number}", subtitle, shop_lines(e), marks(e), tuple(blocks), taken_on(e), dense=True)


def _row(x: Line, e: Estimate, ways: Sequence[Way]) -> tuple[str, ...]:
    units = e.judgement.job.head.units
    words = "; ".join(p for p in (line_words(x, e.judgement.setup.tables, units), piece_words(x, units)) if p)
    mass = _mass(x, e)
    weighs = show.mass(mass, units, towards="up") if mass else ""
    return "[  ]", words, count_words(x, units), _spares(x), weighs, _instead(x, e, ways)


def _mass(x: Line, e: Estimate) -> float:
    """What is carried home, kg; 0 where nobody would weigh it."""
    number = float(x.quantity.likely)
    if x.kind == "sheet":
        row = e.judgement.setup.tables.sheet(x.name)
        sheet = row.areal_mass_kg_m2 * row.width_mm * row.length_mm * 1e-6
        return sheet * number * (0.5 if x.unit == "half sheet" else 1.0)
    if x.kind == "epoxy":
        return number * (x.sold or 1.0) * e.work.epoxy.density / LITERS
    return x.mass


def _spares(x: Line) -> str:
    """How many of what is bought are over what the mount takes."""
    return f"{x.spares}" if x.spares else ""


def _instead(x: Line, e: Estimate, ways: Sequence[Way]) -> str:
    """Something on the rack that would do in its place: it, a longer bolt, a thicker plate, another stack that passes."""
    if x.stocked:
        return "this is on the rack"
    units, tables = e.judgement.job.head.units, e.judgement.setup.tables
    if x.kind == "sheet":
        found = next((w for w in ways if not w.picked and w.stocked), None)
        return "" if found is None else short_words(found.mount, tables, units, e.mount)
    larger = sorted(
        (i for i in e.book.of(x.kind) if i.stocked and i.name == x.name and i.size > x.size + SAME),
        key=lambda i: i.size,
    )
    if x.kind not in ("bolt", "plate") or not larger:
        return ""
    return f"{show.length(larger[0].size, units)} {'long' if x.kind == 'bolt' else 'thick'}"
