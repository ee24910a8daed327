"""A job file to a validated `Job`, or every one of its faults at once."""

import hashlib
from pathlib import Path

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
    reading = read_tables(parse(_plain(text)), SECTIONS)
    cross.check(reading)
    shop, shop_reading = _shop(reading, Path(folder) if folder is not None else None)
    if reading.faults.lines:
        raise JobError(*reading.faults.lines)
    return build.job(reading, shop, shop_reading, _hash(text))


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _plain(text: str) -> str:
    """Without the mark that some editors put in front."""
    return text.removeprefix("\ufeff")


def _shop(reading: Reading, folder: Path | None) -> tuple[Shop | None, Reading]:
    """The shop's file as read; its faults join the job's."""
    named = reading.get("job.shop")
    path = folder / (named or SHOP_FILE) if folder is not None else None
    if path is None or not (named or path.is_file()):
        return None, Reading()
    if not path.is_file():
        fault = Fault("no such file beside the job", "check its name, or leave the line out")
        reading.faults.add(Place("job", "shop"), named, fault)
        return None, Reading()
    return _shop_file(reading, path)


def _shop_file(reading: Reading, path: Path) -> tuple[Shop | None, Reading]:
    name = printable(path.name)
    try:
        text = text_of(path)
        shop = read_tables(parse(_plain(text)), SHOP_SECTIONS)
    except JobError as error:
        reading.faults.lines.extend(f"{name}: {line}" for line in error.faults)
        return None, Reading()
    reading.faults.lines.extend(f"{name}: {line}" for line in shop.faults.lines)
    said = {k: shop.get(f"shop.{k}") for k in ("name", "rate") if shop.get(f"shop.{k}") is not None}
    return Shop(file=path.name, prices=shop.get("prices") or {}, sha256=_hash(text), words=_words(shop), **said), shop


def _words(shop: Reading) -> ShopWords:
    said = {k: shop.get(f"quote.{k}") for k in ("valid_days", "warranty", "storage", "payment")}
    said["address"] = shop.get("shop.address")
    return ShopWords(**{k: v for k, v in said.items() if v is not None})
