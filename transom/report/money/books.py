"""An estimate for the books: JSON and CSV. Money stands as text to the cent, so that no program rounds it."""

import csv
import io
import json
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from transom import __version__
from transom.estimate.leftout import left_out
from transom.estimate.lines import Line, Tax
from transom.estimate.money import ROUNDING, Span, cents
from transom.estimate.records import Case, Estimate
from transom.estimate.ways import End, Way
from transom.report.judgement import as_object, number
from transom.report.money.words import line_words
from transom.report.text import harmless
from transom.result import rounded

HEADER = (
    "line", "case", "class", "what", "supplier", "quantity", "unit", "unit price", "cost", "mark-up", "charge", "charge low",
    "charge high", "price asked", "old", "missing", "note",
)  # fmt: skip


def to_json(e: Estimate, ways: Sequence[Way], ends: Sequence[End]) -> str:
    """The estimate as JSON, `transom-estimate-1`."""
    return json.dumps(as_data(e, ways, ends), indent=1, ensure_ascii=False, allow_nan=False)


def as_data(e: Estimate, ways: Sequence[Way], ends: Sequence[End]) -> dict[str, Any]:
    """The estimate as plain data, in a fixed order."""
    j = e.judgement
    return {
        "schema": "transom-estimate-1",
        "tool": {"name": "transom", "version": __version__},
        "job": {"name": j.job.head.name, "number": j.job.head.number, "revision": j.job.head.revision,
                "sha256": j.job.sha256},
        "paper": j.paper,
        "passes": e.passes,
        "stands_in": e.stands_in,
        "stops": [{"name": s.name, "says": s.says, "stands": s.stands, "accepted": s.accepted} for s in j.stops],
        "cautions": list(j.cautions),
        "currency": e.book.currency,
        "rounding": ROUNDING,
        "prices": {"source": e.book.source, "invented": e.book.invented, "date": _day(e.book.date),
                   "old_after_days": e.book.old_after, "not_given": list(e.untold)},
        "mount": _mount(e),
        "amounts": _amounts(e),
        "call_before": _text(e.call_before),
        "complete": not e.incomplete,
        "not_priced": list(left_out(j.job, e.work)),
        "cases": [_case(c, e) for c in e.cases],
        "lines": [_line(x, e) for x in e.cases[-1].lines],
        "ways": [_way(w) for w in ways],
        "ends": [_end(x) for x in ends],
    }  # fmt: skip


def _mount(e: Estimate) -> Any:
    return as_object(e.judgement)["mount"]


def _amounts(e: Estimate) -> dict[str, Any]:
    w = e.work
    return {
        "board_area_m2": rounded(w.area), "board_mass_kg": rounded(w.board_mass), "glued_area_m2": rounded(w.glued),
        "coated_area_m2": rounded(w.coated), "holes": w.holes, "plates": w.plates, "engine_bolts": w.engine_bolts,
        "frame_bolts": w.frame_bolts,
        "epoxy": {"glue_kg": rounded(w.epoxy.glue), "coats_kg": rounded(w.epoxy.coats), "plugs_kg": rounded(w.epoxy.plugs),
                  "density_kg_m3": rounded(w.epoxy.density), "liters": rounded(w.epoxy.liters)},
    }  # fmt: skip


def _case(c: Case, e: Estimate) -> dict[str, Any]:
    return {
        "name": c.name, "title": c.opening.title, "complete": not c.incomplete, "total": None if c.incomplete else _span(c.total), "priced_so_far": _span(c.total),
        "materials": _span(c.materials), "labour": _span(c.labour), "cost": _span(c.cost),
        "tax": [_tax(t) for t in c.taxes], "hours": _span(c.hours, money=False),
        "engine_off_and_on_hours": _span(sum((x.quantity for x in c.engine), _NONE), money=False),
        "days": {"low": c.days.low, "likely": c.days.likely, "high": c.days.high, "second_visit": c.days.later},
        "missing": [x.key for x in c.missing],
    }  # fmt: skip


_NONE = Span(Decimal(0), Decimal(0), Decimal(0))


def _tax(t: Tax) -> dict[str, Any]:
    return {"class": t.klass, "rate": _text(t.rate, money=False), "amount": _span(t.amount)}


def _line(x: Line, e: Estimate) -> dict[str, Any]:
    units = e.judgement.job.head.units
    return {
        "key": x.key, "what": line_words(x, e.judgement.setup.tables, units), "kind": x.kind, "name": x.name,
        "size": rounded(x.size), "class": x.klass, "case": x.case, "supplier": x.supplier,
        "quantity": _span(x.quantity, money=False), "unit": x.unit, "price": _text(x.price, money=False),
        "cost": _span(x.cost), "markup": _text(x.markup, money=False), "charge": _span(x.charge),
        "waste": rounded(x.waste), "over": x.spares, "mass_kg": rounded(x.mass), "in_stock": x.stocked, "asked": _day(x.asked), "old": x.old, "missing": x.why,
        "note": x.note,
    }  # fmt: skip


def _way(w: Way) -> dict[str, Any]:
    return {
        "layers": [{"sheet": x.sheet, "grain": x.grain} for x in w.mount.layers], "total": None if w.incomplete else _text(w.cost),
        "complete": not w.incomplete, "mass_kg": rounded(w.mass), "hours": _text(w.hours, money=False),
        "thickness_mm": rounded(w.total), "of_limit": number(w.limit), "in_stock": w.stocked, "priced": w.picked,
        "none_better": w.best,
    }  # fmt: skip


def _end(x: End) -> dict[str, Any]:
    dry = x.estimate.dry
    return {"power_W": rounded(x.power), "total": None if dry.incomplete else _span(dry.total), "complete": not dry.incomplete,
            "passes": x.estimate.passes, "stops": list(x.stops)}  # fmt: skip


def _day(day: Any) -> str | None:
    return None if day is None else str(day.isoformat())


def _text(value: Decimal | None, money: bool = True) -> str | None:
    """An amount to the cent, or a plain number; never a binary float."""
    if value is None:
        return None
    return f"{cents(value)}" if money else f"{value.normalize():f}"


def _span(value: Span | None, money: bool = True) -> dict[str, Any] | None:
    if value is None:
        return None
    return {end: _text(getattr(value, end), money) for end in ("low", "likely", "high")}


def to_csv(e: Estimate) -> str:
    """Every line of every case, then tax and totals of each; CRLF ends, quoted where needed."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADER)
    writer.writerows([harmless(cell) for cell in row] for row in _rows(e))
    return out.getvalue()


def _rows(e: Estimate) -> Iterator[list[str]]:
    for x in e.cases[-1].lines:
        yield _csv_line(x, e)
    for c in e.cases:
        for t in c.taxes:
            rate = "not given" if t.rate is None else _text(t.rate, money=False)
            yield _sum(f"tax on {t.klass}, {c.name}", c, t.amount, f"rate {rate}", t.klass)
        what = "INCOMPLETE, a price is missing: priced so far" if c.incomplete else "total"
        yield _sum(f"{what}, {c.name}", c, c.total, "INCOMPLETE" if c.incomplete else "", "total")
    for note in _heads(e):
        yield [*[""] * (len(HEADER) - 1), note]


def _heads(e: Estimate) -> Iterator[str]:
    """What the sheet must say of itself."""
    if e.book.invented:
        yield "SAMPLE PRICES, INVENTED"
    if not e.passes:
        yield "DOES NOT PASS"
    yield from (f"STOP: {s.says}" for s in e.judgement.stops if s.stands)
    yield f"paper: {e.judgement.paper}; currency {e.book.currency}; prices: {e.book.source}"


def _csv_line(x: Line, e: Estimate) -> list[str]:
    units = e.judgement.job.head.units
    charge = (None, None, None) if x.charge is None else (x.charge.likely, x.charge.low, x.charge.high)
    return [
        x.key, x.case, x.klass, line_words(x, e.judgement.setup.tables, units), x.supplier,
        _text(x.quantity.likely, money=False) or "", x.unit, "" if x.price is None else f"{x.price.quantize(Decimal('0.0001'))}",
        "" if x.cost is None else _text(x.cost.likely) or "", _text(x.markup, money=False) or "",
        *(_text(a) or "" for a in charge), _day(x.asked) or "", {True: "old", False: "", None: "not known"}[x.old], x.why,
        x.note,
    ]  # fmt: skip


def _sum(what: str, c: Case, amount: Span, note: str, klass: str) -> list[str]:
    blank = [""] * 6
    return [what, c.name, klass, what, "", *blank[:5], *(_text(a) or "" for a in (amount.likely, amount.low, amount.high)),
            "", "", "", note]  # fmt: skip
