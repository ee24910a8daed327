"""What must hold of any file whatever: each target reads one, and raises `Broken` where a law is broken.

A target answers "refused", "read", "fails" or "passes". What comes out of it as another exception is broken too.
"""

import contextlib
import copy
import io
import json
import math
import random
import re
import tomllib
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

from tests.fuzz.bench import Bench, Broken, finite, good, job_numbers, jobs, judged, plain, sane, told
from tests.fuzz.corpus import HOSTILE, TYPED
from tests.fuzz.mutants import spoilt
from tests.fuzz.rows import TABLE, rows_table
from tests.fuzz.saved_judgements import GONE, SPOILT, places
from tests.fuzz.saved_judgements import spoilt as one_spoilt
from transom.catalogue import families, stocked
from transom.catalogue.tables import folder as tables_folder
from transom.catalogue.tables import parse as table
from transom.errors import TransomError
from transom.job.read import load
from transom.judge.judging import judge

SHOP = """
[shop]
name = "invented shop"
rate = 95.0
temperature = "65 F"
second_look = 0.85
[stock]
panels = ["douglas-fir-marine"]
sheets = ["3/4 in", "5/8 in"]
most_sheets = 4
grades = ["F593C"]
threads = ["1/2-13"]
[[stock.offcuts]]
sheet = "douglas-fir-marine 3/4 in"
length = "30 in"
width = "24 in"
[prices.labour]
rate = 95.0
[[prices.sheet]]
name = "douglas-fir-marine 3/4 in"
price = 140.0
[quote]
valid_days = 30
warranty = ["a year"]
"""


def job_file(data: bytes, bench: Bench, chance: random.Random) -> str:
    """A job: refused in lines, or read with finite numbers, and judged."""
    job = load(bench.put("job.toml", data))
    finite(job_numbers(job), "a job")
    with contextlib.suppress(ValueError, RecursionError):
        finite(tomllib.loads(data.decode("utf-8").removeprefix("\ufeff")), "a document that was read")
    return judged(job, bench, chance)


def shop_file(data: bytes, bench: Bench, chance: random.Random) -> str:
    """The shop's file beside a good job; its prices are nobody's business until they are asked for."""
    from transom.estimate.reading import book_for

    shop = bench.put("shop.toml", data)
    try:
        job = load(bench.put("job.toml", jobs()["pontoon-40hp"].encode()))
        assert job.shop is not None
        finite(replace(job, shop=replace(job.shop, prices={})), "a job with a shop")
        answer = judged(job, bench, chance)
        finite(book_for(job, bench.folder), "the shop's prices")
        return answer
    finally:
        shop.unlink()


def price_book(data: bytes, bench: Bench, chance: random.Random) -> str:
    """A price book, and the estimate it gives: money is a number, never less than nothing."""
    from transom.estimate.build import estimate
    from transom.estimate.reading import from_file
    from transom.report.money.books import to_csv, to_json
    from transom.report.money.screen import estimate_screen

    book = from_file(bench.put("prices.toml", data))
    if chance.random() >= 2 * bench.judged:
        return "read"
    e = estimate(good(), book)
    for case in e.cases:
        if not (case.total.low.is_finite() and 0 <= case.total.low <= case.total.likely <= case.total.high):
            raise Broken(f"a price of {case.total}")
    if chance.random() < 0.2:
        plain(to_json(e, (), ()))
        to_csv(e)
        estimate_screen(e, (), ())
    return "passes" if e.passes else "fails"


def material_table(data: bytes, bench: Bench, chance: random.Random) -> str:
    """A table: the rows are refused, or finite; a shop's panels, sheets and washers are judged with."""
    family = chance.choice(families())
    text = spoilt(tables()[family], chance).decode("utf-8", "replace")
    finite(table(family, text, f"{family}.toml"), f"{family}.toml")
    if family not in ("panels", "sheets", "washers") or chance.random() >= bench.judged:
        return "read"
    own = stocked({family: tomllib.loads(text)["row"]})
    job = good().job
    assert job.mount is not None
    return sane(judge(job, own, job.mount, careful=False))


@cache
def tables() -> dict[str, str]:
    """The shipped tables' texts, long ones cut to their first rows."""
    return {
        f: "[[row]]".join((tables_folder() / f"{f}.toml").read_text(encoding="utf-8").split("[[row]]")[:25])
        for f in families()
    }


@cache
def saved() -> dict[str, Any]:
    """A judgement as it is saved, without most of its rows."""
    from transom.report.judgement import to_json

    whole: dict[str, Any] = json.loads(to_json(good()))
    return whole | {
        "cases": whole["cases"][:2],
        "checks": whole["checks"][::400],
        "assumptions": whole["assumptions"][:2],
    }


def judgement_file(data: bytes, bench: Bench, chance: random.Random) -> str:
    """A saved judgement, spoilt as a value or as text, compared with a good one both ways."""
    from transom.report.compare.comparing import compare
    from transom.report.compare.data import to_json
    from transom.report.compare.saved import read_saved
    from transom.report.compare.screen import screen

    text = json.dumps(saved())
    if chance.random() < 0.5:
        for _ in range(chance.randint(1, 3)):
            value = json.loads(text)
            by = chance.choice((*SPOILT, *TYPED[::9], *HOSTILE[::7], math.nan, 1e308, [[]] * 9))
            text = json.dumps(one_spoilt(value, chance.choice(list(places(value))), by))
        data = text.encode()
    else:
        data = spoilt(text, chance)
    found = read_saved(bench.put("saved.json", data))
    for pair in ((saved(), found), (found, saved())):
        said = compare(*pair)
        plain(to_json(said, ("a", "b")))
        screen(said, ("a", "b"), "us")
    return "read"


def log_lines(data: bytes, bench: Bench, chance: random.Random) -> str:
    """A log of anything: what stood stays, and one whole line comes behind it."""
    from transom.job.log import log_of, log_paper

    log = log_of(bench.job)
    before = bytes(chance.randrange(256) for _ in range(chance.choice((0, 1, 3, 40)))) + data[: chance.choice((0, 30))]
    log.write_bytes(before)
    words = chance.choice((*HOSTILE, *TYPED))
    warned = log_paper(bench.job, good().job, f"draw --out {words}", words, [words])
    after = log.read_bytes()
    log.unlink()
    line = after[len(before) :].lstrip(b"\n")
    if warned or not after.startswith(before) or line.count(b"\n") != 1 or not line.isascii():
        raise Broken(f"{warned} {after!r}")
    if json.loads(line)["result"] != words or (
        before and not before.endswith(b"\n") and after[len(before) :][:1] != b"\n"
    ):
        raise Broken(f"another line: {line!r}")
    return "read"


def filled_paper(data: bytes, bench: Bench, chance: random.Random) -> str:
    """Answers typed at the questions, into a blank job: what was taken as an answer reads back."""
    from transom.interview.answers import answer
    from transom.interview.keep import added_to, new_text
    from transom.interview.questions import FULL
    from transom.job.faults import Fault

    si = chance.random() < 0.3
    answers: dict[str, Any] = {"boat.kind": "pontoon", "engine.power": "40 hp", "boat.plate_power": "50 hp"}
    for question in (q for stop in FULL for q in stop.asks if q.due(answers)):
        if chance.random() < 0.3:
            try:
                answers[question.path] = answer(question, _at_the_tape(chance), si).stands
            except Fault as fault:
                if not fault.rule or not f"{fault.rule}{fault.next_step}".isprintable():
                    raise Broken(f"{question.path}: {fault!r}") from None
    text = new_text(answers, si)
    tomllib.loads(text)
    if chance.random() < 0.1:
        tomllib.loads(added_to(text, answers))
    job = load(bench.put("job.toml", text.encode()))
    finite(job_numbers(job), "a filled-in paper")
    return "read"


def _at_the_tape(chance: random.Random) -> str:
    figure = f"{chance.choice((0.5, 1, 3, 12, 20, 40, 250, 600)) * chance.choice((0.1, 1, 1, 1, 10)):g}"
    return chance.choice(
        (
            chance.choice(TYPED),
            chance.choice(HOSTILE),
            figure,
            figure,
            f"{figure} {chance.choice(('in', 'mm', 'lb', 'kg', 'hp', 'kW', 'deg'))}",
        )
    )


def quote_record(data: bytes, bench: Bench, chance: random.Random) -> str:
    """The last quote's record, which a change order compares with."""
    from transom.estimate.numbered import quoted

    text = json.dumps(copy.deepcopy(QUOTED))
    if chance.random() < 0.6:
        value = json.loads(text)
        by = chance.choice(
            (*SPOILT, *TYPED[::9], *HOSTILE[::7], math.nan, 1e308, "1e999999", "NaN", "Infinity", "-1", "9" * 5_000)
        )
        data = json.dumps(one_spoilt(value, chance.choice(list(places(value))), by)).encode()
    else:
        data = spoilt(text, chance)
    path = bench.put("quote-7-1.json", data)
    try:
        found = quoted(bench.folder, "quote-7")
    finally:
        path.unlink()
    if found is not None and not all(x.is_finite() for x in (found.total, found.materials, found.labour, found.tax)):
        raise Broken(f"a quote of {found}")
    return "read"


QUOTED = {
    "quote": {"name": "7-1", "price": "1234.00", "call_before": "1500.00"}, "currency": "$",
    "cases": [{"materials": {"likely": "400.00"}, "labour": {"likely": "800.00"}, "tax": [{"amount": {"likely": "34.00"}}]}],
}  # fmt: skip
Target = Callable[[bytes, Bench, random.Random], str]
TARGETS: dict[str, Target] = {
    "job": job_file, "shop": shop_file, "prices": price_book, "table": material_table, "saved": judgement_file, "log": log_lines,
    "paper": filled_paper, "quote": quote_record, "rows": rows_table,
}  # fmt: skip
SHARES = {"job": 40, "shop": 10, "prices": 12, "table": 14, "saved": 10, "log": 3, "paper": 6, "quote": 5, "rows": 10}


def base_of(kind: str, chance: random.Random) -> str:
    """What a mutant of this kind is made of; nothing where its target makes its own."""
    if kind == "job":
        return chance.choice(list(jobs().values()))
    return {"shop": SHOP, "prices": book_text(), "log": SHOP, "rows": TABLE}.get(kind, "")


@cache
def book_text() -> str:
    """The shipped price book, of each kind of thing the first three."""
    head, *rows = re.split(
        r"(?m)^(?=\[\[)", (tables_folder() / "price_book" / "invented.toml").read_text(encoding="utf-8")
    )
    kinds = [row.split("]]")[0] for row in rows]
    return head + "".join(row for i, row in enumerate(rows) if kinds[:i].count(kinds[i]) < 3)


def kind_of(chance: random.Random) -> str:
    """Which file, by its share."""
    return chance.choices(list(SHARES), weights=list(SHARES.values()))[0]


def run(kind: str, data: bytes, bench: Bench, chance: random.Random) -> str:
    """One file through its target, refusals looked at.

    Raises:
        Broken: a law; or whatever else came out, which is a fault too.
    """
    quiet = io.StringIO()
    try:
        with contextlib.redirect_stdout(quiet), contextlib.redirect_stderr(quiet):
            return TARGETS[kind](data, bench, chance)
    except TransomError as error:
        told(error)
        return "refused"


def one(seed: int, bench: Bench, kind: str = "") -> tuple[str, str]:
    """The mutant of a seed: its kind, and what became of it."""
    chance = random.Random(seed)
    kind = kind or kind_of(chance)
    base = base_of(kind, chance)
    return kind, run(kind, spoilt(base, chance) if base else b"", bench, chance)


__all__ = ["GONE", "TARGETS", "Bench", "Broken", "good", "jobs", "one", "plain", "sane"]
