"""Spoilt files of every kind, in process: refused in lines or read, and nothing passes that should not.

Two thousand seeded here; a hundred thousand by hand with tests/fuzz/many.py. Below them every fault that those found.
"""

import json
import random
import re
import time
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz import laws
from tests.fuzz.corpus import HOSTILE, TYPED, VALUES
from tests.fuzz.laws import Bench, Broken, jobs, one, run
from tests.fuzz.mutants import quoted
from transom.catalogue import SHIPPED
from transom.catalogue.tables import folder as tables_folder
from transom.catalogue.tables import parse as table
from transom.errors import JobError, TableError
from transom.estimate.numbered import quoted as last_quote
from transom.estimate.reading import book_for, from_file
from transom.job.read import load, loads
from transom.judge.judging import judge
from transom.quantity import QuantityError, read
from transom.quantity.kinds import KINDS
from transom.report.compare.comparing import compare
from transom.report.compare.saved import read_saved
from transom.report.compare.screen import screen

PONTOON = jobs()["pontoon-40hp"]
SLOW = 5.0  # s of processor
HUGE = "0x" + "f" * 5_000
DEEP = "a" + ".b" * 3_000


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(tmp_path, judged=0.04)


@pytest.mark.parametrize("block", range(8))
def test_two_thousand_spoilt_files(bench: Bench, block: int) -> None:
    became = Counter[str]()
    for seed in range(250 * block, 250 * (block + 1)):
        start = time.process_time()
        kind, what = one(seed, bench)
        became[what] += 1
        assert time.process_time() - start < SLOW, f"{kind}, seed {seed}"
    # Refusing all or taking all would prove nothing.
    assert became["refused"] > 30
    assert became["read"] > 30


def test_the_jobs_that_are_spoilt_pass_as_they_stand(tmp_path: Path) -> None:
    for text in jobs().values():
        assert run("job", text.encode(), Bench(tmp_path), random.Random(1)) == "passes"


@pytest.mark.parametrize("kind", ["shop", "prices", "rows"])
def test_what_else_is_spoilt_is_read_as_it_stands(kind: str, tmp_path: Path) -> None:
    """Else every mutant of it would be refused, and prove nothing."""
    text = laws.base_of(kind, random.Random(1))
    assert run(kind, text.encode(), Bench(tmp_path), random.Random(1)) in ("read", "passes")


@pytest.mark.parametrize(
    "value",
    [
        "nan",
        "inf",
        "-inf",
        "1e400",
        "-1e308",
        "0",
        "0.0",
        '"0 in"',
        '"nan in"',
        '"inf mm"',
        '"1e308 mm"',
        '"-20 in"',
        HUGE,
    ],
)
@pytest.mark.parametrize("key", ["width", "height"])
def test_no_board_without_a_size_is_judged(key: str, value: str) -> None:
    stands = {"width": 'width = "24 in"', "height": 'height = "18 in"'}[key]
    assert stands in PONTOON
    with pytest.raises(JobError):
        loads(PONTOON.replace(stands, f"{key} = {value}"))


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(sorted(KINDS)),
    st.sampled_from(TYPED),
    st.sampled_from(["", "in", "mm", "lb", "kg", "hp", "kW", "°", "lb-ft"]),
    st.text(max_size=3),
)
def test_what_a_shop_types_is_a_finite_number_or_refused_in_a_line(kind: str, typed: str, unit: str, more: str) -> None:
    for text in (typed, f"{typed} {unit}", typed + more):
        value, fault = 0.0, ""
        try:
            value = read(text, kind)
        except QuantityError as error:
            fault = str(error)
        assert abs(value) < 1e16
        assert "\n" not in fault
        assert len(fault) < 400


@pytest.mark.parametrize("seed", range(0, len(HOSTILE), 9))
def test_hostile_words_stand_in_a_job_as_text_and_change_no_number(seed: int, tmp_path: Path) -> None:
    words = quoted(HOSTILE[seed][:90])
    text = PONTOON.replace('name = "22 ft pontoon, new engine board"', f"name = {words}")
    assert text != PONTOON
    try:
        job = loads(text)
    except JobError as error:
        faults = error.faults
    else:
        faults = ()
        assert job.engine == loads(PONTOON).engine
    assert all(line.isprintable() for line in faults)


# Found by spoiling files, each mended.


def refused(read_it: Callable[[], Any], kind: type[Exception] = JobError) -> str:
    with pytest.raises(kind) as caught:
        read_it()
    return str(caught.value)


def test_a_supply_that_no_table_has_is_refused_by_name(tmp_path: Path) -> None:
    book = tmp_path / "prices.toml"
    book.write_text('[[supply]]\nname = "moon dust"\nprice = 1.0\n', encoding="utf-8")
    assert "no such supply in the tables" in refused(lambda: from_file(book))
    book.write_text('[[hours]]\noperation = "sing"\nlikely = 1.0\n', encoding="utf-8")
    assert "no such operation in the tables" in refused(lambda: from_file(book))


def test_a_line_of_a_megabyte_that_cannot_be_read_is_told_in_a_short_one() -> None:
    for line in (
        "[engine.gravity" + "x" * 200_000,
        "width = " + "9" * 100_000 + " in",
        "width: " + "x" * 100_000,
        'width = "' + "x" * 100_000,
    ):
        said = refused(lambda line=line: loads(f"{line}\n"))  # type: ignore[misc]
        assert max(map(len, said.splitlines())) < 600


def test_every_table_that_a_key_takes_names_from_has_a_word() -> None:
    from transom.estimate.schema import BOOK
    from transom.job.names import _SAYS
    from transom.job.schema import SECTIONS, SHOP_SECTIONS, walk

    asked = {
        each.family
        for sections in (SECTIONS, SHOP_SECTIONS, BOOK)
        for _, section in walk(sections)
        for each in (*section.keys, *([section.free] if section.free else ()))
        if each.family
    }
    assert len(asked) > 5
    assert asked <= set(_SAYS)


QUOTED = laws.QUOTED


def records(tmp_path: Path) -> Iterator[tuple[str, Path, Any]]:
    for path in (
        ("quote", "price"),
        ("cases", 0, "materials", "likely"),
        ("cases", 0, "tax", 0, "amount", "likely"),
        ("quote", "call_before"),
    ):
        for amount in ("NaN", "Infinity", "-Infinity", "1e999999", "-5", "9" * 200, 7, True, None, [1]):
            value = json.loads(json.dumps(QUOTED))
            at = value
            for step in path[:-1]:
                at = at[step]
            at[path[-1]] = amount
            yield f"{path} {amount}", tmp_path, value


def test_a_quotes_record_without_amounts_is_none(tmp_path: Path) -> None:
    file = tmp_path / "quote-7-1.json"
    file.write_text(json.dumps(QUOTED), encoding="utf-8")
    assert last_quote(tmp_path, "quote-7") is not None
    for what, _, value in records(tmp_path):
        file.write_text(json.dumps(value), encoding="utf-8")
        if what == "('quote', 'call_before') None":  # nothing was asked for
            assert last_quote(tmp_path, "quote-7") is not None
            continue
        assert "no quote's record" in refused(lambda: last_quote(tmp_path, "quote-7")), what


@pytest.mark.parametrize("where", ["section", "key", "value", "date", "list", "braces"])
def test_what_nests_without_end_is_a_fault_like_any(where: str) -> None:
    text = {
        "section": PONTOON + f"\n[{DEEP}]\nx = 1\n",
        "key": PONTOON.replace("[boat]", f"[boat]\n{DEEP} = 1"),
        "value": PONTOON.replace("[boat]", f"[boat]\nx = {{ {DEEP} = 1 }}"),
        "date": re.sub(r"(?m)^date = .*$", f"date = {{ {DEEP} = 1 }}", PONTOON),
        "list": PONTOON.replace("trailer = true", f"trailer = {'[' * 330}{']' * 330}"),
        "braces": PONTOON.replace("trailer = true", f"trailer = {'{a=' * 330}1{'}' * 330}"),
    }[where]
    assert text != PONTOON
    said = refused(lambda: loads(text))
    assert max(map(len, said.splitlines())) < 600


@pytest.mark.parametrize("value", [HUGE, '"' + "x" * 5_000 + '"', "[" + HUGE + "]", f"{{ {DEEP} = 1 }}"])
def test_a_value_too_long_for_a_table_is_named_in_a_short_line(value: str) -> None:
    text = (tables_folder() / "panels.toml").read_text(encoding="utf-8")
    rows = text.split("[[row]]")[1:]
    for spoilt in (
        f"[[row]]\nnew = {value}\n{rows[0]}",
        f"[[row]]\n{rows[0].replace('E_par_MPa =', f'E_par_MPa = {value} #', 1)}",
        f"row = [{value}]",
    ):
        said = refused(lambda text=spoilt: table("panels", text, "panels.toml"), TableError)  # type: ignore[misc]
        assert max(map(len, said.splitlines())) < 400


@pytest.mark.parametrize("number", ["1e999", "-1e999", "1e307", "9" * 400, "9" * 5_000, "NaN", "Infinity"])
def test_a_saved_judgement_with_a_number_that_is_none_is_refused(tmp_path: Path, number: str) -> None:
    file = tmp_path / "saved.json"
    file.write_text(json.dumps(laws.saved()), encoding="utf-8")
    assert read_saved(file)
    text = file.read_text(encoding="utf-8").replace('"utilisation": ', f'"utilisation": {number}, "u": ', 1)
    file.write_text(text, encoding="utf-8")
    assert "is no JSON" in refused(lambda: read_saved(file))


def test_a_saved_judgement_whose_weakest_link_is_no_id_is_compared_all_the_same() -> None:
    other = laws.saved() | {"governing": "nonsense"}
    said = screen(compare(laws.saved(), other), ("a", "b"), "us")
    assert any("nonsense" in line for line in said)


def test_a_broken_law_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """A judgement that passes by nothing, on a board of no size, or by a resistance that is none."""
    from dataclasses import replace

    from transom.judge.records import Judgement

    job = loads(PONTOON)
    assert job.mount is not None
    j = judge(job, SHIPPED, job.mount, careful=False)
    monkeypatch.setattr(Judgement, "passes", property(lambda _: True))
    assert laws.sane(j) == "passes"
    spoilt = replace(j.checks[0], resistance=float("nan"), information=False)
    for bad in (
        replace(j, checks=()),
        replace(j, wood=0.0),
        replace(j, checks=(*j.checks, spoilt)),
        replace(j, mass=float("inf")),
    ):
        with pytest.raises(Broken):
            laws.sane(bad)


@pytest.mark.parametrize("rate", ["nan", "-nan", "inf", "1e400", "-1.0", "true"])
def test_a_shops_price_that_is_no_number_is_refused_when_it_is_asked_for(rate: str, tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(f'[shop]\nname = "x"\n[prices.labour]\nrate = {rate}\n', encoding="utf-8")
    (tmp_path / "job.toml").write_text(PONTOON, encoding="utf-8")
    job = load(tmp_path / "job.toml")
    with pytest.raises(JobError, match="rate"):
        book_for(job, tmp_path)


def test_the_corpus_is_what_it_says() -> None:
    assert len(TYPED) > 140
    assert len(HOSTILE) > 50
    assert len(VALUES) > 40
