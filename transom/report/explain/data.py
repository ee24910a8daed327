"""Derivation and ledger as JSON: working units, nine significant digits, the same bytes for the same job."""

import json
from typing import Any

from transom import __version__
from transom.derivation.ledger import CHECK, FORMULA, NUMBER, Entry, Ledger
from transom.derivation.lines import Derivation, Line
from transom.judge.records import Judgement
from transom.report.explain.words import sentence
from transom.report.judgement import number


def derivation_json(j: Judgement, d: Derivation) -> str:
    """A derivation, schema transom-derivation-1."""
    c = d.check
    return _text(j, "transom-derivation-1", {
        "check": c.id, "utilisation": number(c.utilisation), "passes": c.passes, "sentence": sentence(j, c),
        "lines": [_line(x) for x in d.lines],
    })  # fmt: skip


def ledger_json(j: Judgement, found: Ledger) -> str:
    """The ledger, schema transom-ledger-1; `weakest` counts what the weakest link rests on."""
    kinds = (NUMBER, FORMULA, CHECK)
    return _text(j, "transom-ledger-1", {
        "counts": {k: found.counts(k) for k in kinds},
        "weakest": {k: found.counts(k, weakest=True) for k in kinds},
        "memory": [e.name for e in found.memory],
        "entries": [_entry(e) for e in found.entries],
    })  # fmt: skip


def _text(j: Judgement, schema: str, rest: dict[str, Any]) -> str:
    head = {
        "schema": schema,
        "tool": {"name": "transom", "version": __version__},
        "job": {"name": j.job.head.name, "revision": j.job.head.revision, "sha256": j.job.sha256},
        "paper": j.paper,
    }
    return json.dumps(head | rest, indent=1, allow_nan=False)


def _line(x: Line) -> dict[str, Any]:
    return {
        "number": x.number, "kind": x.kind, "name": x.name, "symbol": x.symbol, "expression": x.expression,
        "numbers": x.numbers, "result": x.result, "value": number(x.value), "unit": x.unit, "says": x.says,
        "source": x.source, "evidence": x.evidence, "known_by": x.known_by, "latex": x.latex, "uses": list(x.uses),
    }  # fmt: skip


def _entry(e: Entry) -> dict[str, Any]:
    return {
        "kind": e.kind, "name": e.name, "says": e.says, "value": None if e.value is None else number(e.value),
        "unit": e.unit, "evidence": e.evidence, "known_by": e.known_by, "source": e.source, "weakest": e.weakest,
        "careful_method_only": e.plate,
    }  # fmt: skip
