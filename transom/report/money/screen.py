"""`transom estimate` for a person: a sentence to say aloud, three prices, what decides between them, what to buy."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from transom.catalogue.shopwork import CASES
from transom.estimate.hours import GLUE
from transom.estimate.leftout import left_out
from transom.estimate.lines import Line, charges, hours_in
from transom.estimate.money import ROUNDING, Span, about
from transom.estimate.records import Case, Estimate
from transom.estimate.ways import End, Way
from transom.quantity import show
from transom.report.amounts import percent, power
from transom.report.money.table import table
from transom.report.money.words import count_words, days_text, hours_text, line_words, money, piece_words, remarks
from transom.report.mounts import short_words
from transom.report.page import PAPERS, careful, head, stop_lines
from transom.report.text import block, clean, rule
from transom.report.words import check_words, plural, spelled

SAMPLE = "SAMPLE PRICES, INVENTED: for trying things out. No customer's page is made from them."
LABEL, COLUMN = 33, 15
WAYS = (37, -11, -8, -7, -7, -7)
LINES = (42, 18, -9, -9)
NO_PRICE = "no price"


def estimate_screen(e: Estimate, ways: Sequence[Way], ends: Sequence[End]) -> list[str]:
    """The whole screen, 79 columns."""
    return list(_screen(e, ways, ends))


def _screen(e: Estimate, ways: Sequence[Way], ends: Sequence[End]) -> Iterator[str]:
    yield from head(e.judgement)
    if e.book.invented:
        yield from block("", SAMPLE, at=0)
    yield from headline(e)
    yield from block("SAY", f'"{sentence(e)}"')
    yield rule()
    yield from _columns(e)
    yield from _decides(e)
    yield rule()
    yield from _ways(e, ways)
    yield from _engines(e, ends)
    yield rule()
    yield from _buy(e)
    yield from _work(e)
    yield from _prices(e)
    yield from block("PAPER", PAPERS[e.judgement.paper])
    yield from careful(e.judgement)


def headline(e: Estimate) -> Iterator[str]:
    """Whether the mount that is priced works, and each stop."""
    j = e.judgement
    if e.stands_in:
        yield from block("", "DOES NOT PASS: nothing in stock works; priced is the nearest miss", at=0)
    elif not e.passes:
        yield from block("", "DOES NOT PASS: priced all the same, not to be built", at=0)
    for c in j.failing[:3]:
        yield from block("", f"- fails: {check_words(c, j.job)}, {percent(c.utilisation)} of limit", at=2)
    yield from stop_lines(j)


def sentence(e: Estimate) -> str:
    """What to say to the customer on the telephone."""
    if any(c.incomplete for c in e.cases):
        count = len(e.cases[-1].missing)
        return f"I cannot say a price yet: {plural(count, 'price')} still missing"
    said = [f"{about(c.total.likely, e.book.currency)} {c.opening.says}" for c in e.cases]
    calls = "" if e.call_before is None else (
        f"; we stop and call you before anything over {whole(e.call_before, e)}"
    )  # fmt: skip
    first = "" if e.passes else "As it stands this does not pass, so it is no promise. "
    return f"{first}About {', '.join(said[:-1])}, around {said[-1]}{calls}"


def whole(amount: Decimal, e: Estimate) -> str:
    """An amount without cents where it has none."""
    return money(amount, e).removesuffix(".00")


def _row(label: str, cells: Sequence[str]) -> str:
    return (f" {label:<{LABEL}}" + "".join(f"{c:>{COLUMN}}" for c in cells)).rstrip()


def _cell(e: Estimate, amount: Decimal, lines: Sequence[Line]) -> str:
    """An amount; a star where a line of it has no price, and no figure at all where none has."""
    if not any(x.missing for x in lines):
        return money(amount, e)
    return f"{money(amount, e)}*" if any(not x.missing for x in lines) else NO_PRICE


def _columns(e: Estimate) -> Iterator[str]:
    """The three prices, side by side; a star marks a sum that something is missing from."""
    titles = {"dry": "only the board", "wet": "edges eaten", "frame": "frame hurt"}
    yield _row("WHAT OPENING-UP FINDS", [titles[c] for c in CASES])
    parts = [_parts(c) for c in e.cases]
    for name in ("materials", "engine off and on", "all other work"):
        yield _row(name, [_cell(e, charges(p[name]).likely, p[name]) for p in parts])
    yield _row("tax", [_cell(e, c.tax.likely, c.lines) for c in e.cases])
    yield _row("TOTAL, likely", [_cell(e, c.total.likely, c.lines) for c in e.cases])
    yield _row("  low", [_cell(e, c.total.low, c.lines) for c in e.cases])
    yield _row("  high", [_cell(e, c.total.high, c.lines) for c in e.cases])
    yield _row("engine off and on", [hours_text(hours_in(c.engine).likely) for c in e.cases])
    yield _row("shop hours", [hours_text(c.hours.likely) for c in e.cases])
    yield _row("  low to high, hours", [_range(c.hours) for c in e.cases])
    yield _row("days on the calendar", [days_text(c) for c in e.cases])
    if e.incomplete:
        yield from block("", "* INCOMPLETE: what has no price is not in it, see PRICES", at=0)


def _parts(case: Case) -> dict[str, tuple[Line, ...]]:
    """The lines of a case by what a reader asks for; taking the engine off and hanging it again on its own."""
    return {
        "materials": tuple(x for x in case.lines if x.kind != "labour"),
        "engine off and on": case.engine,
        "all other work": tuple(x for x in case.lines if x.kind == "labour" and x not in case.engine),
    }


def _range(span: Span) -> str:
    return f"{span.low.normalize():f} to {span.high.normalize():f}"


def _decides(e: Estimate) -> Iterator[str]:
    units = e.judgement.job.head.units
    yield from block("DAYS", f"the epoxy wants {waits_words(e) or 'nothing'}; one person, no weekends counted"
                     + ("; a second visit for the bolts weeks later" if e.dry.days.later else ""))  # fmt: skip
    yield " WHAT DECIDES"
    for c in e.cases:
        yield from block("", f"{c.opening.title}: {spelled(c.opening.see, units)}", at=3)
        yield from block("", f"- {spelled(c.opening.decides, units)}", at=5)


WAITS = {
    "work": "before glued or filled wood is worked on",
    "hang": "from the last coat until the engine hangs",
    "load": "from then until full throttle",
}


def waits_words(e: Estimate) -> str:
    """What is waited for, and how long."""
    return "; ".join(f"{h:g} h {WAITS[stage]}" for h, stage in dict.fromkeys(e.dry.days.waits))


def _ways(e: Estimate, found: Sequence[Way]) -> Iterator[str]:
    """The builds side by side; a star where no other beats it."""
    if not found:
        return
    j = e.judgement
    units = j.job.head.units
    yield from table([("WHICH WAY TO BUILD IT", "total", "weight", "hours", "limit", "stock")], WAYS)
    for w in found:
        words = short_words(w.mount, j.setup.tables, units, None if w.picked else e.mount)
        under = f"{show.length(w.total, units, towards='up')} under the bracket"
        first = f"{'*' if w.best else '-'} {words}; {under}{'; priced above' if w.picked else ''}"
        cost = NO_PRICE if w.incomplete else money(w.cost, e)
        stock = {True: "yes", False: "no", None: "?"}[w.stocked]
        cells = (first, cost, show.mass(w.mass, units), f"{w.hours.normalize():f}", percent(w.limit), stock)
        yield from table([cells], WAYS)
    yield from block("", "* nothing else listed is as good in everything and better in something", at=2)


def _engines(e: Estimate, ends: Sequence[End]) -> Iterator[str]:
    """How much engine the same price carries, and both ends of a range."""
    j = e.judgement
    units, plate = j.job.head.units, j.job.boat.plate_power
    if j.good_for is not None and not ends:
        most = j.good_for.power if plate is None else min(j.good_for.power, plate)
        stop = "" if plate is None else f"; builder's plate {power(plate, units)}, stop there"
        yield from block("ENGINE", f"same mount, same price up to {power(most, units, 'down')}{stop}")
    for end in ends:
        words = short_words(end.estimate.mount, j.setup.tables, units)
        price = "incomplete" if end.estimate.dry.incomplete else money(end.estimate.dry.total.likely, e)
        over = "".join(f"; {s}" for s in end.stops)
        fails = "" if end.estimate.passes else "; DOES NOT PASS"
        yield from block("ENGINE", spelled(f"at {power(end.power, units)}: {price}, {words}{fails}{over}", units))


def _buy(e: Estimate) -> Iterator[str]:
    """Materials of the case quoted, then what the others add."""
    yield from table([("BUY", "how many", "cost", "charge")], LINES)
    yield from _by_case(e, False)


def _work(e: Estimate) -> Iterator[str]:
    yield from table([("WORK, hours yours to change", "low likely high", "", "charge")], LINES)
    yield from _by_case(e, True)


def _by_case(e: Estimate, labour: bool) -> Iterator[str]:
    for case in CASES:
        own = [x for x in e.cases[-1].lines if x.case == case and (x.kind == "labour") == labour]
        if case != "dry" and own:
            yield f"  also {e.case(case).opening.says}"
        for x in own:
            yield from table([_cells(x, e)], LINES)


def _cells(x: Line, e: Estimate) -> tuple[str, str, str, str]:
    """What it is, how many, what it costs the shop and what it charges."""
    j = e.judgement
    units = j.job.head.units
    says = "; ".join((line_words(x, j.setup.tables, units), piece_words(x, units), *remarks(x, units)))
    cost, charge = (NO_PRICE if a is None else money(a.likely, e) for a in (x.cost, x.charge))
    says = says.replace("; ;", ";").removesuffix("; ")
    if x.kind == "labour":
        return (
            f"  {says}",
            " ".join(f"{h:.2f}" for h in (x.quantity.low, x.quantity.likely, x.quantity.high)),
            "",
            charge,
        )
    return f"  {says}", count_words(x, units), cost, charge


def _prices(e: Estimate) -> Iterator[str]:
    """Where the prices come from, how old they are, and what is missing."""
    b, units = e.book, e.judgement.job.head.units
    asked = f", asked {b.date.isoformat()}" if b.date else ", no date"
    yield from block("PRICES", f"{clean(b.source)}{asked}; {clean(b.says)}".rstrip("; "))
    for line in notes(e, units):
        yield from block("", f"- {line}")


def notes(e: Estimate, units: str) -> Iterator[str]:
    """What a reader must know of these sums, a line each: ages, what is missing, rates not given, rounding."""
    tables, b = e.judgement.setup.tables, e.book
    if e.old:
        names = ", ".join(dict.fromkeys(line_words(x, tables, units) for x in e.old))
        yield f"OLD, more than {b.old_after} days before the job's date: {names}: ask again"
    if e.undated:
        yield "how old a price is cannot be told: the job, or the price, has no date"
    for x in e.cases[-1].missing:
        if x.kind != "labour":
            yield f"MISSING: {line_words(x, tables, units)}, {count_words(x, units)}: {x.why}"
    yield from (f"NOT PRICED: {spelled(x, units)}" for x in left_out(e.judgement.job, e.work))
    if b.rate is None:
        yield "MISSING: the rate of an hour; no work is in these sums"
    for what in ("markup", "tax"):
        classes = [w.removeprefix(f"{what} ") for w in e.untold if w.startswith(what)]
        if classes:
            says = "no mark-up given, at cost" if what == "markup" else "no tax given, before tax"
            yield f"{says}: {', '.join(classes)}"
    floor, at = tables.adhesive(GLUE).cure_floor_C, e.judgement.job.shop_temperature
    if at is not None and at < floor:
        said, least = (show.temperature(t, units, towards="up") for t in (at, floor))
        yield f"the shop at {said}: {GLUE} does not cure below {least}; days are counted at that: heat shop and wood"
    own = sum(bool(x.note) for x in e.cases[-1].lines if x.kind == "labour")
    yield (
        f"hours: {own} of {sum(x.kind == 'labour' for x in e.cases[-1].lines)} operations are your own figures, the others the"
        " tool's, assumed, from memory, provisional, for you to change: [[hours]] in the book; so are supplies and spreads"
    )
    yield "low and high: hours and prices as far off as the tables say, all at once; a wide range on purpose"
    yield ROUNDING
