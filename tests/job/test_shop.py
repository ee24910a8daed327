"""The shop's own file: found, read once, and the job's word over it."""

from pathlib import Path

import pytest

from tests.job.orders import WHOLE, changed
from transom.errors import JobError
from transom.job.read import load, loads
from transom.job.records import Job, ShopWords

SHOP = """
[shop]
name = "an invented shop"
temperature = "58 F"
second_look = 0.8
rate = 95

[stock]
panels = ["okoume"]
sheets = ["18 mm"]
grades = ["A4-80"]
most_sheets = 3

[stock.measured]
"okoume 18 mm" = "17.6 mm"
"douglas-fir-marine 3/4 in" = ".72 in"

[prices]
currency = "USD"
sheet = { "okoume 18 mm" = 190 }
"""
NO_STOCK = changed(('[stock]                            #', "#"), ('panels = ["douglas-fir-marine"]\n', ""),
                   ('sheets = ["1/2 in", "3/4 in"]\n', ""), ("most_sheets = 4\n", ""))  # fmt: skip
UNNAMED = ('shop = "shop.toml"', "#")


def job_in(folder: Path, text: str, **shops: str) -> Job:
    for name, said in shops.items():
        (folder / f"{name}.toml").write_text(said, encoding="utf-8")
    (folder / "job.toml").write_text(text, encoding="utf-8")
    return load(folder / "job.toml")


def faults_in(folder: Path, text: str, **shops: str) -> tuple[str, ...]:
    with pytest.raises(JobError) as caught:
        job_in(folder, text, **shops)
    lines: tuple[str, ...] = caught.value.faults
    return lines


def test_what_its_quotes_say(tmp_path: Path) -> None:
    words = '[quote]\nvalid_days = 30\nwarranty = ["A year on our work."]\nstorage = ["Free for a week.", "Then by the day."]\n'
    job = job_in(tmp_path, NO_STOCK, shop=SHOP.replace("rate = 95", 'rate = 95\naddress = ["1 Pier"]') + words)
    assert job.shop is not None
    assert job.shop.words == ShopWords(
        ("1 Pier",), 30, ("A year on our work.",), ("Free for a week.", "Then by the day.")
    )


def test_what_the_shop_says(tmp_path: Path) -> None:
    job = job_in(tmp_path, NO_STOCK, shop=SHOP)
    assert job.shop is not None
    assert (job.shop.file, job.shop.name, job.shop.rate) == ("shop.toml", "an invented shop", 95.0)
    assert job.shop.prices == {"currency": "USD", "sheet": {"okoume 18 mm": 190}}
    assert (job.second_look, job.shop_temperature) == (0.8, pytest.approx(130 / 9))
    assert (job.stock.panels, job.stock.sheets, job.stock.grades, job.stock.most_sheets) == (
        ("okoume",), ("18 mm",), ("A4-80",), 3,
    )  # fmt: skip
    assert dict(job.stock.measured) == {"okoume 18 mm": 17.6, "douglas-fir-marine 3/4 in": pytest.approx(18.288)}


def test_the_job_goes_before_the_shop_key_by_key(tmp_path: Path) -> None:
    text = changed(
        ('number = "1042"', 'temperature = "10 C"'),
        ("most_sheets = 4", 'most_sheets = 4\n[stock.measured]\n"okoume 18 mm" = "18.1 mm"'),
    )
    job = job_in(tmp_path, text, shop=SHOP)
    assert (job.stock.panels, job.stock.sheets, job.stock.most_sheets) == (
        ("douglas-fir-marine",),
        ("1/2 in", "3/4 in"),
        4,
    )
    assert job.stock.grades == ("A4-80",)
    assert dict(job.stock.measured) == {"okoume 18 mm": 18.1, "douglas-fir-marine 3/4 in": pytest.approx(18.288)}
    assert job.shop_temperature == 10.0


def test_it_lies_beside_the_job_without_being_named(tmp_path: Path) -> None:
    assert job_in(tmp_path, changed(UNNAMED), shop=SHOP).second_look == 0.8


def test_the_named_one_goes_before_the_one_that_lies_there(tmp_path: Path) -> None:
    text = changed(('shop = "shop.toml"', 'shop = "ours.toml"'))
    job = job_in(tmp_path, text, shop=SHOP, ours="[shop]\nsecond_look = 0.7\n")
    assert job.second_look == 0.7
    assert job.shop is not None
    assert job.shop.file == "ours.toml"


def test_a_named_one_that_is_missing_is_a_fault_and_an_unnamed_one_is_not(tmp_path: Path) -> None:
    assert faults_in(tmp_path, WHOLE) == (
        '[job] shop = "shop.toml": no such file beside the job. Check its name, or leave the line out.',
    )
    assert job_in(tmp_path, changed(UNNAMED)).shop is None


def test_without_one_the_shipped_line_and_tables(tmp_path: Path) -> None:
    job = job_in(tmp_path, NO_STOCK.replace(*UNNAMED))
    assert (job.second_look, job.shop_temperature, job.stock.panels, job.stock.measured) == (0.85, None, (), ())


def test_a_text_without_a_folder_looks_for_none() -> None:
    assert loads(WHOLE).shop is None


def test_its_faults_join_the_jobs_under_its_name(tmp_path: Path) -> None:
    spoilt = SHOP.replace("second_look = 0.8", "second_look = 80").replace("panels", "pannels").replace('"58 F"', "58")
    got = faults_in(tmp_path, changed(("trailer = true", 'trailer = "yes"')), shop=spoilt)
    assert set(got) == {
        '[boat] trailer = "yes": must be true or false, without quotes. Write trailer = true.',
        "shop.toml: [shop] second_look = 80: must be from 0.05 to 1. Check it: share of the limit above which you want "
        "to look again.",
        'shop.toml: [shop] temperature = 58: a bare number has no unit. Write temperature = "58 F" or temperature = "58 C".',
        'shop.toml: [stock] pannels = ["okoume"]: no such key. Did you mean panels?',
    }


def test_toml_at_fault_in_it_names_its_line(tmp_path: Path) -> None:
    got = faults_in(tmp_path, WHOLE, shop='[shop]\nname = "x\n')
    assert got == ('shop.toml: line 2: name = "x  <- a quote is missing. Put one at each end: name = "..."',)


def test_a_job_is_no_shop(tmp_path: Path) -> None:
    got = faults_in(tmp_path, WHOLE, shop=WHOLE)
    assert "shop.toml: [boat]: no such section. Leave it out; sections are shop, stock, quote and prices." in got


OFFCUT = '[[stock.offcuts]]\nsheet = "douglas-fir-marine 3/4 in"\nlength = "{}"\nwidth = "30 in"\n'


def test_offcuts_are_the_jobs_else_the_shops(tmp_path: Path) -> None:
    shop = SHOP.replace("[prices]", OFFCUT.format("48 in") + "[prices]")
    (one,) = job_in(tmp_path, NO_STOCK, shop=shop).stock.offcuts
    assert (one.sheet, one.length, one.width) == ("douglas-fir-marine 3/4 in", 1219.2, 762.0)
    mine = NO_STOCK + OFFCUT.format("26 in") + OFFCUT.format("2 ft")
    assert [round(o.length, 1) for o in job_in(tmp_path, mine, shop=shop).stock.offcuts] == [660.4, 609.6]
    assert job_in(tmp_path, NO_STOCK, shop=SHOP).stock.offcuts == ()
    (fault,) = faults_in(tmp_path, NO_STOCK + OFFCUT.format("26"), shop=SHOP)
    assert fault.startswith('[stock.offcuts 1] length = "26"')
