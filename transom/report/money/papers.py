"""The papers of an estimate as contents of files: quote, change order, buy list."""

import json
from collections.abc import Sequence
from typing import Any

from transom.estimate.money import cents
from transom.estimate.numbered import Files, Quoted, valid_until
from transom.estimate.records import Estimate
from transom.estimate.ways import End, Way
from transom.report.money.books import as_data, to_csv
from transom.report.money.buylist import buy_list
from transom.report.money.document import Document
from transom.report.money.html import to_html
from transom.report.money.pdf import to_pdf
from transom.report.money.quote import change_order, quote


def pages(document: Document, e: Estimate) -> dict[str, str | bytes]:
    """One document for screen and for paper."""
    return {".html": to_html(document), ".pdf": to_pdf(document, e.judgement.job.head.units)}


def quote_files(e: Estimate, ways: Sequence[Way], ends: Sequence[End], stem: str, revision: int) -> Files:
    """A quote in one revision: for the customer HTML and PDF, for the books CSV and JSON."""
    name = f"{stem.removeprefix('quote-')}-{revision}"
    head = {"quote": _identity(e, name, revision)} | as_data(e, ways, ends)
    return pages(quote(e, name, revision, ends), e) | {
        ".csv": to_csv(e),
        ".json": json.dumps(head, indent=1, ensure_ascii=False, allow_nan=False) + "\n",
    }


def _identity(e: Estimate, name: str, revision: int) -> dict[str, Any]:
    job = e.judgement.job
    until = valid_until(job)
    return {
        "name": name,
        "revision": revision,
        "customer": job.quote.customer,
        "kind": job.quote.kind,
        "price": f"{cents(e.dry.total.likely)}",
        "call_before": None if e.call_before is None else f"{cents(e.call_before)}",
        "date": job.head.date.isoformat() if job.head.date else None,
        "valid_until": until.isoformat() if until else None,
    }


def change_files(e: Estimate, found: str, stem: str, revision: int, before: Quoted | None) -> Files:
    """A change order, HTML and PDF."""
    name = f"{stem.removeprefix('change-')}-{revision}"
    return pages(change_order(e, found, name, before), e)


def buy_files(e: Estimate, ways: Sequence[Way]) -> Files:
    """The buy list, HTML and PDF."""
    return pages(buy_list(e, ways), e)
