"""From a blank job to a printable quote in at most ten filled keys, counted; the shop's own files are there once for all jobs."""

import tomllib
from pathlib import Path

from tests.estimate.test_papers import SHOP, pdf_pages
from transom.cli.main import main
from transom.job.read import load
from transom.job.write import blank

# What somebody types over in the job; every other line stays as `transom new --blank` wrote it.
FILLED = {
    "job.number": ('number = ""', 'number = "77"'),
    "job.date": ("# date = 2026-05-04", "date = 2026-05-04"),
    "boat.kind": ('kind = "?"                         # pontoon', 'kind = "pontoon"                   # pontoon'),
    "boat.plate_power": ('plate_power = "?"', 'plate_power = "50 hp"'),
    "engine.power": (
        'power = "?"                        # on the cowl',
        'power = "40 hp"                    # on the cowl',
    ),
    "board.width": (
        'width = "?"                        # across, edge',
        'width = "24 in"                    # across, edge',
    ),
    "board.height": ('height = "?"                       # top edge', 'height = "18 in"                   # top edge'),
    "quote.customer": ('customer = ""', 'customer = "A. Boater"'),
}
PRICED = Path(__file__).parents[2] / "materials" / "price_book" / "invented.toml"


def filled() -> str:
    text = blank()
    for path, (before, after) in FILLED.items():
        assert text.count(before) == 1, (path, text.count(before))
        text = text.replace(before, after)
    return text


def values(text: str) -> dict[str, object]:
    out: dict[str, object] = {}

    def walk(table: dict[str, object], above: str) -> None:
        for key, value in table.items():
            if isinstance(value, dict):
                walk(value, f"{above}{key}.")
            else:
                out[f"{above}{key}"] = value

    walk(tomllib.loads(text), "")
    return out


def test_the_keys_are_counted_and_no_more_than_ten() -> None:
    before, after = values(blank()), values(filled())
    changed = {key for key in after if after[key] != before.get(key)}
    assert changed == set(FILLED)
    assert len(changed) <= 10


def test_they_make_a_quote_that_prints(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(filled(), encoding="utf-8")
    (tmp_path / "shop.toml").write_text(SHOP, encoding="utf-8")
    own = PRICED.read_text(encoding="utf-8").replace("invented = true\n", "").replace("rate = 95.00", "rate = 96.50")
    (tmp_path / "prices.toml").write_text(own.replace("price = 52.00", "price = 53.10"), encoding="utf-8")
    assert len(load(tmp_path / "job.toml").unmeasured) > 20
    assert main(["estimate", str(tmp_path / "job.toml"), "--quote"]) == 0
    pages = pdf_pages(tmp_path / "quote-77-1.pdf")
    assert "tax included" in pages[0]
    assert "Not measured yet, and able to move the price" in " ".join(pages)
    assert all("QUOTE" in page for page in pages)
