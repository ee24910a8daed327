"""The customer's quote and the change order, in plain words."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from transom.catalogue.shopwork import CASES
from transom.estimate.leftout import left_out
from transom.estimate.lines import Line
from transom.estimate.money import in_words
from transom.estimate.numbered import Quoted, valid_until
from transom.estimate.records import Case, Estimate
from transom.estimate.ways import End
from transom.judge.always import ALWAYS
from transom.report.amounts import power
from transom.report.money.document import Block, Box, Bullets, Document, Heading, Table, Text, bullets
from transom.report.money.words import count_words, days_text, hours_text, line_words, money, piece_words
from transom.report.mounts import bolt_words, panel_words, plate_words, stack_words
from transom.report.page import power_words, size_words
from transom.report.text import clean
from transom.report.words import spelled

OUT = (
    "Pod, frame, tubes, hull, deck and welds beyond the board and its bolts, and whatever is hidden until the old board is out",
    "The engine itself: faults in it, its rigging, cables, hoses and fuel beyond taking them off and putting them back",
    "A survey, an engineer's opinion, permits",
)
FAILS = "DOES NOT PASS"


def marks(e: Estimate) -> tuple[str, ...]:
    """What stands on every page: the kind of paper, and whether the mount fails."""
    return (e.judgement.paper, *((FAILS,) if not e.passes else ()))


def taken_on(e: Estimate) -> tuple[str, ...]:
    """Stops that somebody took on, for the foot of every page."""
    return tuple(
        f"Stop passed over, {s.name}: accepted by {clean(s.accepted)}" for s in e.judgement.stops if not s.stands
    )


def quote(e: Estimate, name: str, revision: int, ends: Sequence[End] = ()) -> Document:
    """The quote: `name` is its number with the revision."""
    job = e.judgement.job
    firm = job.quote.kind == "firm"
    before = f" It replaces {name.removesuffix(f'-{revision}')}-{revision - 1}." if revision > 1 else ""
    day, until = job.head.date, valid_until(job)
    subtitle = (
        f"{'Firm price' if firm else 'Estimate'} of {day.isoformat() if day else 'no date'}, good until"
        f" {until.isoformat() if until else 'no date'}.{before}"
    )
    blocks: list[Block] = [
        *_warnings(e),
        Text(f"For {clean(job.quote.customer)}: {clean(job.head.name) or 'boat'} - {_boat(e)}"),
        *_price(e, firm),
        *_findings(e, firm),
        *_ends(e, ends),
        *_scope(e),
        *_supplies(e),
        *_time(e),
        *_shop_words(e),
        *_rests_on(e),
        _approval(e, name),
    ]
    return Document(f"Quote {name}", subtitle, shop_lines(e), marks(e), tuple(blocks), taken_on(e))


def shop_lines(e: Estimate) -> tuple[str, ...]:
    """The shop's name and address."""
    shop = e.judgement.job.shop
    return () if shop is None else (clean(shop.name), *map(clean, shop.words.address))


def _boat(e: Estimate) -> str:
    j = e.judgement
    return spelled(f"{j.job.boat.kind}, {power_words(j)} outboard", j.job.head.units)


def _warnings(e: Estimate) -> Iterator[Block]:
    """What fails and what stops, before any price."""
    j, units = e.judgement, e.judgement.job.head.units
    if not e.passes:
        yield Text(f"{FAILS}. What is priced here is not to be built as it stands.", warning=True)
    for s in j.stops:
        said = f"STOP: {s.says}." if s.stands else f"Stop passed over, {s.name}: accepted by {s.accepted}."
        yield Text(spelled(said, units), warning=s.stands)


def _price(e: Estimate, firm: bool) -> Iterator[Block]:
    dry, unit = e.dry, e.book.words
    yield Heading("The price, if it is only the board")
    yield Text(f"{money(dry.total.likely, e)}, tax included", strong=True)
    yield Text(f"In words: {in_words(dry.total.likely, unit)}.")
    if firm:
        yield Text("This price is firm for what is listed here. Anything else we find is yours to decide, see below.")
    else:
        yield Text(f"This is an estimate: likely {money(dry.total.likely, e)}, at least {money(dry.total.low, e)}, up to"
                   f" {money(dry.total.high, e)}.")  # fmt: skip
    yield _sums(e, dry)
    if e.call_before is not None:
        yield Text(f"We stop and call you before anything goes over {money(e.call_before, e)}"
                   f" ({in_words(e.call_before, unit)}).", strong=True)  # fmt: skip


def _sums(e: Estimate, case: Case) -> Table:
    """What the price is made of; the rows add up to the total to the cent."""
    engine = sum((x.charge.likely for x in case.engine if x.charge is not None), Decimal(0))
    rows = [
        ("Materials", "", money(case.materials.likely, e)),
        ("Engine off and on", hours_text(_hours(case.engine)), money(engine, e)),
        ("All other work", hours_text(case.hours.likely - _hours(case.engine)), money(case.labour.likely - engine, e)),
        ("Tax", "", money(case.tax.likely, e)),
        ("Total", hours_text(case.hours.likely), money(case.total.likely, e)),
    ]
    return Table(("", "hours", "price"), tuple(rows), (0.6, 0.18, 0.22), (1, 2), (len(rows) - 1,))


def _hours(lines: Sequence[Line]) -> Decimal:
    return sum((x.quantity.likely for x in lines), Decimal(0))


def _findings(e: Estimate, firm: bool) -> Iterator[Block]:
    """The three prices, what one would see and what decides."""
    units = e.judgement.job.head.units
    yield Heading("What the old board may be hiding")
    yield Text("Nobody can see behind it until it is out. Nothing beyond the first line is done without your word.")
    most = [c.total.likely if firm and c is e.dry else c.total.high for c in e.cases]
    rows = tuple((_title(c), money(c.total.likely, e), money(m, e)) for c, m in zip(e.cases, most, strict=True))
    yield Table(("what we find", "likely", "up to"), rows, (0.5, 0.25, 0.25), (1, 2))
    yield from bullets([
        spelled(f"{_title(c)}. It looks like this: {c.opening.see} {c.opening.decides} Then: {c.opening.work}", units)
        for c in e.cases
    ])  # fmt: skip


def _title(c: Case) -> str:
    return c.opening.title[0].upper() + c.opening.title[1:]


def _ends(e: Estimate, ends: Sequence[End]) -> Iterator[Block]:
    """Both ends of a range of power, each with what stands against it."""
    if not ends:
        return
    units = e.judgement.job.head.units
    yield Heading("With which engine")
    rows = []
    for end in ends:
        stops = "; ".join(end.stops) or ("" if end.estimate.passes else FAILS)
        price = "incomplete" if end.estimate.dry.incomplete else money(end.estimate.dry.total.likely, e)
        rows.append((power(end.power, units), spelled(stops, units), price))
    yield Table(("engine", "", "price"), tuple(rows), (0.2, 0.56, 0.24), (2,))


def _scope(e: Estimate) -> Iterator[Block]:
    j, job = e.judgement, e.judgement.job
    units = job.head.units
    yield Heading("What is in the price")
    yield Bullets(tuple(spelled(x, units) for x in (*_mount(e), *_work(e), *map(clean, job.quote.includes))))
    yield Heading("What is not")
    others = tuple(f"{_title(c)}: the work named above" for c in e.cases[1:])
    yield Bullets(
        tuple(
            spelled(x, j.job.head.units)
            for x in (*others, *left_out(job, e.work), *OUT, *map(clean, job.quote.excludes))
        )
    )


def _mount(e: Estimate) -> Iterator[str]:
    """The new board and what holds the engine, in words."""
    j, tables, units, layers = e.judgement, e.judgement.setup.tables, e.judgement.job.head.units, e.mount.layers
    yield f"New board, {size_words(j)}: {stack_words(layers, tables)} {panel_words(layers, tables)}, glued and sealed with epoxy"
    bolts, count = e.mount.engine_bolts, e.work.engine_bolts
    if bolts is not None and count:
        yield f"Engine bolts: {bolt_words(bolts, count, tables, units)}"
        yield f"Inside, {plate_words(bolts.forward, tables, units, count)}"


def _work(e: Estimate) -> Iterator[str]:
    """Each operation as a sentence of its own."""
    tables, units = e.judgement.setup.tables, e.judgement.job.head.units
    for x in e.dry.lines:
        if x.kind == "labour":
            words = line_words(x, tables, units)
            yield f"{words[0].upper()}{words[1:]}"


def _supplies(e: Estimate) -> Iterator[Block]:
    """What is bought for it, by name."""
    tables, units = e.judgement.setup.tables, e.judgement.job.head.units
    yield Heading("What we buy for it")
    rows = tuple(
        (" - ".join(p for p in (line_words(x, tables, units), piece_words(x, units)) if p), count_words(x, units))
        for x in e.dry.lines
        if x.kind != "labour"
    )
    yield Table(("what", "how many"), rows, (0.72, 0.28))


def _time(e: Estimate) -> Iterator[Block]:
    d, hours = e.dry.days, e.dry.hours
    yield Heading("How long")
    why = (
        " Most of that is waiting: epoxy has to cure before the next step, the engine hangs and she runs."
        if d.waits
        else ""
    )
    later = " After a few hours of running she comes back once, so that every bolt is checked." if d.later else ""
    yield Text(
        f"{days_text(e.dry)} days from the first visit, weekends not counted, {hours_text(hours.likely)} of work in all.{why}{later}"
    )


def _shop_words(e: Estimate) -> Iterator[Block]:
    """Warranty, storage and payment as the shop words them; the tool has no words of its own for these."""
    shop = e.judgement.job.shop
    if shop is None:
        return
    for title, said in (
        ("Warranty", shop.words.warranty),
        ("Storage", shop.words.storage),
        ("Payment", shop.words.payment),
    ):
        if said:
            yield Heading(title)
            yield from (Text(clean(line)) for line in said)


def _rests_on(e: Estimate) -> Iterator[Block]:
    """What is still assumed, and every caution."""
    j, units = e.judgement, e.judgement.job.head.units
    yield Heading("What this rests on, and what it does not cover")
    if j.to_measure:
        names = "; ".join(spelled(a.says, units) for a in j.to_measure)
        yield Text(f"Not measured yet, and able to move the price: {names}.")
    yield Bullets(tuple(spelled(c, units) for c in j.cautions if c in ALWAYS))
    others = [spelled(c, units) for c in j.cautions if c not in ALWAYS]
    if others:
        yield Heading("For whoever builds or checks it")
        yield from bullets(others, small=True)


def _approval(e: Estimate, name: str) -> Box:
    call = "" if e.call_before is None else f", and call me before anything over {money(e.call_before, e)}"
    return Box(
        f"Your word on quote {name}",
        (
            f"Go ahead with the board at {money(e.dry.total.likely, e)}{call}",
            "Call me before you start",
            "Keep the old parts for me",
        ),
        ("Name", "Signature", "Date", "Where to reach me"),
    )


def change_order(e: Estimate, found: str, name: str, before: Quoted | None) -> Document:
    """What was quoted, what was found, the difference and why; nothing is done on it before somebody says yes."""
    case = e.cases[CASES.index(found)]
    units = e.judgement.job.head.units
    of = f"to quote {before.name}" if before else "no quote on file: against today's price of the board alone"
    day = e.judgement.job.head.date
    blocks: list[Block] = [
        *_warnings(e),
        Text(f"For {clean(e.judgement.job.quote.customer)}: {clean(e.judgement.job.head.name) or 'boat'} - {_boat(e)}"),
        Heading("What we found"),
        Text(spelled(f"{_title(case)}. {case.opening.see}", units)),
        Text(spelled(f"What decides: {case.opening.decides}", units)),
        Text(spelled(f"What has to be done: {case.opening.work}", units)),
        Heading("What it does to the price"),
        *_difference(e, case, before),
        *_added(e, case),
        *_rests_on(e),
        _word(e, case, name, before),
    ]
    return Document(f"Change order {name}", f"{of[0].upper()}{of[1:]}. Prices of {day.isoformat() if day else 'no date'}.",
                    shop_lines(e), marks(e), tuple(blocks), taken_on(e))  # fmt: skip


def _difference(e: Estimate, case: Case, before: Quoted | None) -> Iterator[Block]:
    dry = e.dry
    old = (
        (dry.materials.likely, dry.labour.likely, dry.tax.likely, dry.total.likely)
        if before is None
        else (before.materials, before.labour, before.tax, before.total)
    )
    new = (case.materials.likely, case.labour.likely, case.tax.likely, case.total.likely)
    names = ("Materials", "Work", "Tax", "Total")
    rows = tuple((n, money(a, e), money(b, e), money(b - a, e)) for n, a, b in zip(names, old, new, strict=True))
    yield Table(("", "quoted", "with what was found", "difference"), rows, (0.25, 0.25, 0.25, 0.25), (1, 2, 3), (3,))
    more = new[-1] - old[-1]
    said = in_words(abs(more), e.book.words)
    yield Text(f"{'More' if more >= 0 else 'Less'} than quoted: {money(abs(more), e)} ({said}).", strong=True)
    yield Text(f"Likely {money(case.total.likely, e)} in all, up to {money(case.total.high, e)};"
               f" {hours_text(case.hours.likely)} of work, {days_text(case)} days.")  # fmt: skip


def _added(e: Estimate, case: Case) -> Iterator[Block]:
    """The lines that the finding adds; they and the tax on them are the difference where no price has changed since."""
    tables, units = e.judgement.setup.tables, e.judgement.job.head.units
    rows = tuple(
        (line_words(x, tables, units), count_words(x, units), money(x.charge.likely, e))
        for x in case.lines
        if x.case != "dry" and x.charge is not None
    )
    if rows:
        yield Heading("What is added")
        yield Table(("what", "how much", "price"), rows, (0.6, 0.2, 0.2), (2,))


def call_before(e: Estimate, case: Case, before: Quoted | None) -> Decimal:
    """The amount to call before from here on: never below the high end of what was found."""
    from transom.estimate.money import up_to

    agreed = before.call_before if before is not None and before.call_before is not None else Decimal(0)
    return max(agreed, up_to(case.total.high))


def _word(e: Estimate, case: Case, name: str, before: Quoted | None) -> Box:
    """Date, time and name are written in by hand when the customer says yes: the tool has no clock."""
    limit = money(call_before(e, case, before), e)
    return Box(
        f"Your word on change order {name}",
        (
            f"Go ahead at {money(case.total.likely, e)}, and call me before anything over {limit}",
            "Do not go ahead: close up what is safe to close and call me",
        ),
        ("Name", "Date", "Time", "By telephone, message or in person", "Taken by", "Signature"),
    )
