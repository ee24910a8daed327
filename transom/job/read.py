"""A job file to a validated `Job`, or every one of its faults at once."""

import hashlib
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Any

from transom.errors import JobError
from transom.job import build, cross
from transom.job.faults import Fault, Place, printable
from transom.job.files import text_of
from transom.job.reading import Reading, read_tables
from transom.job.records import Job, Shop, ShopWords
from transom.job.schema import SECTIONS, SHOP_SECTIONS
from transom.job.syntax import parse

SHOP_FILE = "shop.toml"


def load(path: Path | str) -> Job:
    """The job in a file, with the shop's file that it names or that lies beside it.

    Raises:
        JobError: the file cannot be read, or one line for each fault in it and in the shop's.
    """
    path = Path(path)
    return loads(text_of(path), folder=path.parent)


def loads(text: str, *, folder: Path | str | None = None) -> Job:
    """The job in a text. `folder` is where it lies; without one no shop's file is looked for.

    Raises:
        JobError: one line for each fault.
    """
    beside = None if folder is None else partial(text_beside, Path(folder))
    return of_tables(parse(plain(text)), _hash(text), beside)


Beside = Callable[[str], str | None]  # the text of a file beside the job, by its name; None where there is none


def text_beside(folder: Path, name: str) -> str | None:
    """A file's text in a folder; None where there is no such file. Raises JobError where it cannot be read."""
    path = folder / name
    return text_of(path) if path.is_file() else None


def of_tables(document: Mapping[str, Any], sha256: str, beside: Beside | None = None) -> Job:
    """The job of a parsed file; without `beside` no shop's file is looked for.

    Raises:
        JobError: one line for each fault.
    """
    reading = read_tables(document, SECTIONS)
    cross.check(reading)
    shop, shop_reading = _shop(reading, beside)
    if reading.faults.lines:
        raise JobError(*reading.faults.lines)
    return build.job(reading, shop, shop_reading, sha256)


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def plain(text: str) -> str:
    """Without the mark that some editors put in front."""
    return text.removeprefix("\ufeff")


def _shop(reading: Reading, beside: Beside | None) -> tuple[Shop | None, Reading]:
    """The shop's file as read; its faults join the job's."""
    named = reading.get("job.shop")
    name = Path(named or SHOP_FILE).name
    try:
        text = None if beside is None else beside(named or SHOP_FILE)
        if text is not None:
            return _shop_file(reading, name, text)
        if named and beside is not None:
            fault = Fault("no such file beside the job", "check its name, or leave the line out")
            reading.faults.add(Place("job", "shop"), named, fault)
    except JobError as error:
        reading.faults.lines.extend(f"{printable(name)}: {line}" for line in error.faults)
    return None, Reading()


def _shop_file(reading: Reading, name: str, text: str) -> tuple[Shop, Reading]:
    """The shop's file as read. Raises JobError where it is no TOML."""
    shop = read_tables(parse(plain(text)), SHOP_SECTIONS)
    reading.faults.lines.extend(f"{printable(name)}: {line}" for line in shop.faults.lines)
    said = {k: shop.get(f"shop.{k}") for k in ("name", "rate") if shop.get(f"shop.{k}") is not None}
    return Shop(file=name, prices=shop.get("prices") or {}, sha256=_hash(text), words=_words(shop), **said), shop


def _words(shop: Reading) -> ShopWords:
    said = {k: shop.get(f"quote.{k}") for k in ("valid_days", "warranty", "storage", "payment")}
    said["address"] = shop.get("shop.address")
    return ShopWords(**{k: v for k, v in said.items() if v is not None})
