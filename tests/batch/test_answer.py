"""A careful row says what `transom size` says of the same job, whichever way that ends."""

import ast
import json
from pathlib import Path

import pytest

from tests.report.jobs import TEXTS, sized
from transom.batch.rows import Row
from transom.batch.work import ALL, How, judged
from transom.judge.always import ALWAYS

ROOT = Path(__file__).parents[2]
ENDLESS = ("cache", "functools.cache", "lru_cache(maxsize=None)")


@pytest.mark.parametrize("name", ["example", "too large", "unread plate", "clamps"])
def test_a_row_is_the_judgement_in_cells(name: str) -> None:
    j, row = sized(name), judged(Row(1, name, TEXTS[name]), How())
    json.dumps(row, allow_nan=False)
    assert row["method"] == "careful method"
    assert row["passes"] == j.passes
    assert row["exit"] == (0 if j.passes else 1)
    assert row["paper"] == j.paper
    assert str(row["to_measure"]).split(" | ") == ([a.key for a in j.to_measure] or [""])
    assert str(row["stops"]).split(" | ") == ([s.name for s in j.stops if s.stands] or [""])
    assert str(row["cautions"]).split(" | ") == [c for c in j.cautions if c not in ALWAYS] + [ALL]
    assert j.sizing is not None
    assert row["candidates"] == j.sizing.candidates
    if j.mount is None:
        miss = j.sizing.nearest_miss
        assert miss is not None
        assert row["verdict"] == "DOES NOT WORK" if not row["stops"] else "STOP"
        assert row["sheets"] is None
        assert row["check"] == miss.weakest.id
        assert row["percent_of_limit"] == pytest.approx(100 * miss.weakest.utilisation, rel=1e-8)
        return
    assert str(row["sheets"]).split("; ") == [f"{x.sheet} {x.grain}" for x in j.mount.layers]
    assert row["check"] == j.governing.id
    assert row["percent_of_limit"] == pytest.approx(100 * j.governing.utilisation, rel=1e-8)
    for cell, value in (("wood_mm", j.wood), ("board_mm", j.coated), ("total_mm", j.total), ("mass_kg", j.mass)):
        assert row[cell] == pytest.approx(value, rel=1e-8)
    bolts = j.mount.engine_bolts
    assert str(row["bolts"]).startswith(bolts.thread if bolts else "clamp screws")
    needs = dict(part.rsplit(" ", 1) for part in str(row["needs"]).split(" | "))
    for required in j.sizing.required:
        assert required.thickness == 5.0 or float(needs[required.check]) == required.thickness


def test_what_goes_wrong_inside_is_a_row_too(monkeypatch: pytest.MonkeyPatch) -> None:
    from transom.sizing import sizing

    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("two\nlines")

    monkeypatch.setattr(sizing, "size", broken)
    row = judged(Row(1, "example", TEXTS["example"]), How())
    assert row["exit"] == 70
    assert row["faults"] == "internal error: RuntimeError: two lines"
    assert row["verdict"] == "CANNOT BE JUDGED"
    assert row["cautions"] == ALL


# What is kept for good, and why it does not grow with the jobs that go by.
BOUNDED = {
    "board.elements._templates": "takes nothing",
    "frozen._compared": "kinds of records",
    "quantity.definitions._sizes": "takes nothing",
    "quantity.definitions.factor": "units of our own list",
    "quantity.kinds.spellings": "kinds of quantity",
    "quantity.registry.registry": "takes nothing",
    "nesting.pack._rule": "ways of placing",
    "catalogue.tables.load": "families of tables",
}


def test_no_cache_grows_with_the_jobs_that_go_by() -> None:
    found = set()
    for path in (ROOT / "transom").rglob("*.py"):
        module = ".".join(path.relative_to(ROOT / "transom").with_suffix("").parts)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and any(ast.unparse(d) in ENDLESS for d in node.decorator_list):
                found.add(f"{module}.{node.name}")
    assert found == set(BOUNDED), "give it a most, lru_cache(maxsize=...), or say here why it stays small"
