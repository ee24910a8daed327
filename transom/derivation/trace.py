"""A judged mount computed once more while it is watched: every formula, row and fact behind its checks."""

import difflib
import inspect
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from transom.board import answer as plate_method
from transom.catalogue import Catalogue
from transom.checks import all_checks
from transom.checks.careful import Careful
from transom.checks.lifting import lifting
from transom.checks.trial import Trial
from transom.derivation.record import MARK, Call, Recording, Watched, watching
from transom.frozen import dataclass
from transom.job.records import Mount
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.judging import side_by_side
from transom.judge.records import Judgement
from transom.judge.told import facts_told
from transom.loads.cases import build_cases
from transom.result import Cases, Check, CheckArray
from transom.setup.build import build, values_of
from transom.setup.facts import Facts, collect
from transom.setup.records import Fact
from transom.units import Array


@dataclass(frozen=True)
class Given:
    """A number that no formula computed: a fact, a row's column, a line of the job; `name` says which."""

    name: str
    value: Array
    unit: str | None  # None: in working units, which one is not written down
    says: str
    source: str
    evidence: str
    known_by: str


@dataclass(frozen=True)
class Number:
    """A number in the plain and in the marked run."""

    value: float
    marked: float

    def __neg__(self) -> "Number":
        return Number(-self.value, -self.marked)


@dataclass(frozen=True)
class Again:
    """A check computed again: its two numbers in both runs, and its case's column."""

    check: Check
    column: int
    demand: Number
    resistance: Number


@dataclass(frozen=True)
class Run:
    """The checks of one mount computed while watched."""

    recording: Recording
    mount: Mount
    facts: Facts
    trial: Trial
    plate: Careful | None
    checks: tuple[CheckArray, ...]
    solved: int  # calls from here on know what the plate came to, where it was solved

    def again(self, check: Check) -> Check:
        """The check as this run has it.

        Raises:
            ValueError: it is not one of this run's.
        """
        name = check.id.removesuffix(f".{check.case}")
        array = next((a for a in self.checks if a.name == name and a.information == check.information), None)
        if array is None or check.case not in array.cases:
            raise ValueError(f"{check.id}: not a check of this judgement")
        return array.row(check.case)


@dataclass(frozen=True)
class Trace:
    """A judgement's checks run twice, plain and with marks.

    In all its cases, whatever is asked: the plate's seat is taken from all of them, and a run of a few would not
    come to the same.
    """

    judgement: Judgement
    run: Run
    marked: Run
    columns: tuple[frozenset[int], ...]  # of each case: where it may stand on a last axis

    @cached_property
    def given(self) -> tuple[tuple[Given, float], ...]:
        """Every single number that enters, nearest to the user first, and its marked value."""
        found: list[tuple[Given, float]] = []
        for plain, marked in (
            (_facts(facts_told(self.judgement)), _facts(self.marked.facts)),
            (_rows(self.run.recording), _rows(self.marked.recording)),
            (_job(self.judgement, self.run.mount), _job(self.judgement, self.marked.mount)),
        ):
            there = {g.name: g for g in marked}
            found += [(g, float(there[g.name].value)) for g in plain if g.value.ndim == 0 and g.name in there]
        return tuple(found)

    @cached_property
    def calls(self) -> tuple[tuple[Call, Call], ...]:
        """The calls of both runs, side by side.

        Where a mark led the checks another way, as between two that are alike, what only one run called is left
        out: what rests on it is then untraced, never wrong.
        """
        plain, marked = self.run.recording.calls, self.marked.recording.calls
        kinds = [[f"{c.formula.name} {c.result.shape}" for c in calls] for calls in (plain, marked)]
        if kinds[0] == kinds[1]:
            return tuple(zip(plain, marked, strict=True))
        blocks = difflib.SequenceMatcher(None, kinds[0], kinds[1], autojunk=False).get_matching_blocks()
        return tuple((plain[b.a + i], marked[b.b + i]) for b in blocks for i in range(b.size))

    def again(self, check: Check) -> Again:
        """The check as it was computed again.

        Raises:
            ValueError: it is not one of the judgement's.
        """
        plain, marked, names = self.run.again(check), self.marked.again(check), self.judgement.cases.names
        column = names.index(check.case) if check.case in names else 0
        return Again(plain, column, Number(plain.demand, marked.demand), Number(plain.resistance, marked.resistance))

    def into_plate(self, column: int) -> Iterator[tuple[str, str, Number]]:
        """What the careful method was given in a case: name, unit and number of wrench, thickness and moduli."""
        if self.run.plate is None or self.marked.plate is None:
            return
        both = (self.run.plate, self.marked.plate)
        for name, unit in (("N", "N"), ("M", "N*mm"), ("M_z", "N*mm")):
            plain, marked = (np.ravel(getattr(p.actions, name)) for p in both)
            yield name, unit, Number(float(plain[column]), float(marked[column]))
        for name, unit in (("t", "mm"), *((n, "N/mm^2") for n in ("E_1", "E_2", "G_12", "G_trans"))):
            plain, marked = (np.ravel(getattr(p.stacks, name)) for p in both)
            yield name, unit, Number(float(plain[0]), float(marked[0]))

    @cached_property
    def columns_given(self) -> tuple[Given, ...]:
        """Every list of numbers that enters."""
        return tuple(g for g in _rows(self.run.recording) if g.value.ndim)


def trace(j: Judgement) -> Trace:
    """Run the checks of a judgement's mount again, watched.

    Raises:
        ValueError: a judgement without a mount.
    """
    if j.mount is None:
        raise ValueError("nothing was judged: no mount works")
    plain = _run(j, j.mount)
    marked = _run(j, j.mount, np.random.default_rng(0), plain.plate)
    return Trace(j, plain, marked, tuple(_columns(j.cases, i) for i in range(len(j.cases))))


def _run(j: Judgement, mount: Mount, marks: np.random.Generator | None = None, plate_of: Careful | None = None) -> Run:
    """The checks of a mount; with marks, on the plate as it was solved without.

    A mark would move a line of the plate's grid, and with it the count of cells: the two runs could not be
    laid side by side.
    """
    job, tables = j.setup.job, j.setup.tables
    mount = as_marked(mount, marks)
    with watching(watched(), marks) as found:
        facts = {k: _marked(found, f) for k, f in collect(job, tables).items()}
        setup = build(job, tables, values_of(facts))
        trial = trial_of(setup, build_cases(setup.loads), [mount])
        pencil = all_checks(trial)
        plate = None if j.careful is None else _plate(trial, plate_of)
        solved = len(found.calls)
        checks = side_by_side(pencil, pencil if plate is None else all_checks(plate), trial)
    return Run(found, mount, facts, trial, plate, checks, solved)


def _plate(trial: Trial, solved: Careful | None) -> Careful:
    """The careful method, solved, or as it was solved before; its board and loads are made in either case, and first."""
    plate = careful_of(trial)
    bolts, _ = plate.board.seat.bolts, plate.actions
    answer = plate.answer if solved is None else solved.answer
    assert len(answer.seat.bolts) == len(bolts)
    vars(plate)["answer"] = answer  # where the property keeps what it worked out
    plate.kept.update({} if solved is None else solved.kept)
    return plate


def _marked(found: Recording, fact: Fact) -> Fact:
    """A fact, marked where marks are made, but for one that a formula has just worked out: that is marked already."""
    worked_out = any(fact.value == c.result for c in found.calls if c.result.ndim == 0)
    return fact if worked_out else replace(fact, value=float(found.marked(fact.value)))


def as_marked(record: Any, marks: np.random.Generator | None) -> Any:
    """A record of the job with every fraction in it marked, where marks are made."""
    if marks is None:
        return record
    if isinstance(record, float):
        return record * (1.0 + float(marks.uniform(0.5 * MARK, MARK)))
    if isinstance(record, tuple):
        return tuple(as_marked(item, marks) for item in record)
    if is_dataclass(record) and not isinstance(record, type):
        return replace(record, **{f.name: as_marked(getattr(record, f.name), marks) for f in fields(record)})
    return record


MEANS = ("moments_at_bolts", "moments_at_openings")


def watched() -> Watched:
    """What looks a row up; what the plate hands on; what the plate does within."""
    found = inspect.getmembers(Catalogue, inspect.isfunction)
    rows = tuple(name for name, _ in found if not name.startswith("_"))
    return Watched(
        rows={Catalogue: rows, Careful: MEANS},
        closed=(plate_method.answer, plate_method.on_one_grid, lifting),
        closed_methods={plate_method.Recovered: ("better",)},
    )


def _columns(cases: Cases, i: int) -> frozenset[int]:
    """Where case i stands among all, and within its own situation."""
    alike = [k for k, of in enumerate(cases.of) if of == cases.of[i]]
    return frozenset((i, alike.index(i)))


def _facts(facts: Facts) -> Iterator[Given]:
    for key, f in facts.items():
        yield Given(
            key, np.asarray(f.value), FORMULA_UNITS.get(f.unit, f.unit), f.says, f.source, f.evidence, f.known_by
        )


def _job(j: Judgement, mount: Mount) -> Iterator[Given]:
    """Every number that the job states, by its path; the mount's too, whoever chose it."""
    own = ("the job", "stated", "read")
    chosen = own if j.job.mount is not None else ("the mount that was sized", "convention", "computed")
    for record, start, known in ((j.setup.job, "job", own), (mount, "mount", chosen)):
        for path, value in numbers(record, start):
            name = path.removeprefix("job.")
            yield Given(name, value, None, ", ".join(name.split(".")).replace("_", " "), *known)


FORMULA_UNITS = {"MPa": "N/mm^2"}  # as formulas write what tables and facts write otherwise
SUFFIXES = {
    "_mm": "mm", "_MPa": "N/mm^2", "_mm2": "mm^2", "_W": "W", "_kg": "kg", "_1_s": "1/s", "_kg_m3": "kg/m^3",
    "_N": "N",
}  # fmt: skip


def unit_of_column(name: str, row: Any) -> str | None:
    """The unit a column's name ends in; of a factor, its own."""
    if name == "value" and hasattr(row, "unit"):
        unit = str(row.unit)
        return FORMULA_UNITS.get(unit, unit)
    longest = max((s for s in SUFFIXES if name.endswith(s)), key=len, default="")
    return SUFFIXES.get(longest, "")


def _rows(found: Recording) -> Iterator[Given]:
    """Every number of every row that was looked up, once."""
    seen: set[str] = set()
    for lookup in found.lookups:
        for row in lookup.row if isinstance(lookup.row, tuple) else (lookup.row,):
            label = f"{type(row).__name__.lower()} {getattr(row, 'name', '') or getattr(row, 'id', '')}".strip()
            if is_dataclass(row) and lookup.table not in MEANS and label not in seen:
                seen.add(label)
                yield from _row(row, label)


def _row(row: Any, label: str) -> Iterator[Given]:
    says, evidence = str(getattr(row, "says", "")), str(getattr(row, "evidence", "published"))
    source, known_by = str(getattr(row, "source", label)), str(getattr(row, "known_by", "transcribed"))
    for path, value in numbers(row, label):
        column = path.rsplit(".", 1)[-1]
        yield Given(path, value, unit_of_column(column, row), says or f"{label}, {column}", source, evidence, known_by)


def numbers(record: Any, path: str, depth: int = 6) -> Iterator[tuple[str, Array]]:
    """Every number below a record, by path: floats, whole numbers, arrays."""
    if isinstance(record, bool) or record is None or isinstance(record, str) or depth == 0:
        return
    if isinstance(record, int | float | np.ndarray):
        if np.asarray(record).dtype.kind in "fi":
            yield path, np.asarray(record, dtype=float)
    elif isinstance(record, tuple):
        for i, item in enumerate(record):
            yield from numbers(item, f"{path}[{i + 1}]", depth - 1)
    elif is_dataclass(record):
        for f in fields(record):
            yield from numbers(getattr(record, f.name), f"{path}.{f.name}", depth - 1)
    elif isinstance(record, Mapping):
        for key, item in record.items():
            yield from numbers(item, f"{path}.{key}", depth - 1)
