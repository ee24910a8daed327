"""Papers for customers: whether one may be made, its number and revision, and never one written over another."""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from datetime import date, timedelta
from decimal import Decimal, InvalidOperation
from pathlib import Path

from transom.errors import JobError
from transom.estimate.reading import shipped
from transom.estimate.records import Estimate
from transom.frozen import dataclass
from transom.job.files import write_atomic
from transom.job.records import Job

ENDS = (".html", ".pdf", ".csv", ".json")  # the last one makes it issued
Files = Mapping[str, str | bytes]  # contents by ending
USUAL_DAYS = 30
MOST = 10**9  # that any quote comes to
ROOM = 60  # letters of a job's number that go into a file's name


@dataclass(frozen=True)
class Issued:
    """A paper that was written, or the last one where nothing has changed since."""

    name: str
    revision: int
    files: tuple[Path, ...]
    fresh: bool


@dataclass(frozen=True)
class Quoted:
    """What the last quote said: its number with revision, and its amounts by name."""

    name: str
    revision: int
    total: Decimal
    materials: Decimal
    labour: Decimal
    tax: Decimal
    call_before: Decimal | None
    currency: str


def refuse(e: Estimate, job_path: Path) -> None:
    """Say why no customer's page can be made, or return where one can.

    Raises:
        JobError: one line for each reason.
    """
    faults = tuple(_faults(e, job_path.name))
    if faults:
        raise JobError(*faults)


def _faults(e: Estimate, name: str) -> Iterator[str]:
    job, book = e.judgement.job, e.book
    if book.invented:
        yield f"{book.source}: its prices are invented, so no customer's page is made; name the shop's own with --prices"
    elif book.items == shipped().items:
        yield f"{book.source}: its prices are the invented sample's, every one; type in the shop's own"
    for line in {x.key: x for x in e.cases[-1].missing if x.kind != "labour"}.values():
        yield f"{book.source}: {line.kind} {line.name}: {line.why}; the price would be too low. Ask for it and type it in."
    if not _printable(book.currency + book.words):
        yield f"{book.source}: [book] currency = {book.currency!r}: not every paper can print it; write its letters, such as INR"
    if book.rate is None:
        yield f"{book.source}: [labour] rate: not given, so no work is priced; write rate = ..., for an hour"
    for what in e.untold:
        section, klass = what.split()
        yield f"{book.source}: [{section}] {klass}: not given; write its share, 0 where there is none"
    if job.head.date is None:
        yield f"{name}: [job] date: a quote needs its day; write date = 2026-05-04, without quotes"
    if not job.quote.customer:
        yield f"{name}: [quote] customer: nobody is named; write whom the quote is for"
    if e.call_before is not None and not e.dry.incomplete and e.call_before < e.dry.total.likely:
        yield (
            f"{name}: [quote] call_before = {e.call_before}: is below the price quoted, {e.dry.total.likely}; write more, or"
            " leave it out"
        )
    if job.shop is None or not job.shop.name:
        yield "shop.toml: [shop] name: a quote says whose it is; write the shop's name"


def _printable(text: str) -> bool:
    """Whether the letters of a PDF have all of it: a price must not lose its sign."""
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True


def number_of(job: Job, path: Path) -> str:
    """The job's number as part of a file's name; the file's own name where it has none."""
    return re.sub(r"[^A-Za-z0-9]+", "-", job.head.number or path.stem).strip("-")[:ROOM] or "job"


def valid_until(job: Job) -> date | None:
    """The last day a quote stands, counted from the job's date."""
    shop_days = None if job.shop is None else job.shop.words.valid_days
    days = job.quote.valid_days or shop_days or USUAL_DAYS
    return None if job.head.date is None else job.head.date + timedelta(days=days)


def last(folder: Path, stem: str) -> int:
    """The highest revision of a paper in a folder; 0 where there is none, however little of it was written."""
    form = re.compile(rf"{re.escape(stem)}-(\d{{1,6}})\.[a-z]+")
    found = [form.fullmatch(p.name) for p in folder.iterdir()] if folder.is_dir() else []
    return max((int(m[1]) for m in found if m), default=0)


def hand_out(folder: Path, stem: str, made: Callable[[int], Files]) -> Issued:
    """Write a paper as its next revision; nothing where the last one says exactly the same.

    `made` gives the contents of a revision, by ending.

    Raises:
        JobError: it cannot be written there, or somebody wrote the same revision meanwhile.
    """
    before = last(folder, stem)
    if before and _stands(folder, f"{stem}-{before}", made(before)):
        return Issued(f"{stem}-{before}", before, (), False)
    name = f"{stem}-{before + 1}"
    files = made(before + 1)
    written = []
    for end in (x for x in ENDS if x in files):
        path = folder / f"{name}{end}"
        if path.exists():
            raise JobError(
                f"{path}: somebody wrote it meanwhile and it is left as it is. Run again for the next revision."
            )
        write_atomic(path, files[end])
        written.append(path)
    return Issued(name, before + 1, tuple(written), True)


def _stands(folder: Path, name: str, files: Files) -> bool:
    """Whether every file of a revision is there and says the same, byte for byte."""
    paths = {folder / f"{name}{end}": content for end, content in files.items()}
    return all(p.is_file() and p.read_bytes() == _bytes(c) for p, c in paths.items())


def _bytes(content: str | bytes) -> bytes:
    return content.encode("utf-8") if isinstance(content, str) else content


def quoted(folder: Path, stem: str) -> Quoted | None:
    """The last quote of a job as its record says; None where none was issued.

    Raises:
        JobError: the record cannot be read as one.
    """
    revision = last(folder, stem)
    path = folder / f"{stem}-{revision}.json"
    if not revision or not path.is_file():
        return None
    try:
        said = json.loads(path.read_text(encoding="utf-8"))
        dry = said["cases"][0]
        call = said["quote"]["call_before"]
        return Quoted(
            name=_words(said["quote"]["name"]),
            revision=revision,
            total=_amount(said["quote"]["price"]),
            materials=_amount(dry["materials"]["likely"]),
            labour=_amount(dry["labour"]["likely"]),
            tax=sum((_amount(t["amount"]["likely"]) for t in dry["tax"]), Decimal(0)),
            call_before=None if call is None else _amount(call),
            currency=_words(said["currency"]),
        )
    except (OSError, ValueError, KeyError, TypeError, IndexError, InvalidOperation, RecursionError):
        raise JobError(f"{path}: is no quote's record any more; put back the file that was written") from None


def _words(value: object) -> str:
    if not isinstance(value, str) or len(value) > 2 * ROOM:
        raise ValueError("no words")
    return value


def _amount(value: str) -> Decimal:
    """An amount as the record has it, text; Decimal alone would take NaN, Infinity and 1e999999 for one."""
    amount = Decimal(_words(value))
    if not (amount.is_finite() and 0 <= amount <= MOST):
        raise ValueError("no amount")
    return amount
