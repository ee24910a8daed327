"""The papers as a shop makes them: refused without prices of its own, numbered, never written over, harmless, the same twice."""

import csv
import io
import json
import re
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import html5lib
import pytest
from pypdf import PdfReader

from tests.estimate.shop import BOOK, OVER_PLATE, PASSING, book
from transom.catalogue import SHIPPED
from transom.cli.main import main
from transom.errors import JobError
from transom.estimate.build import estimate
from transom.estimate.numbered import Quoted, hand_out, quoted, refuse
from transom.estimate.records import Estimate
from transom.job.read import loads
from transom.job.records import Shop
from transom.judge.judging import judge
from transom.report.money.buylist import buy_list
from transom.report.money.html import to_html
from transom.report.money.pdf import plain, to_pdf
from transom.report.money.quote import change_order, quote
from transom.report.text import harmless

EVIL = 'A. <script>alert("x")</script> & Co'
SHOP = """
[shop]
name = "Demo Dock, invented"
address = ["1 Invented Pier"]
[quote]
valid_days = 30
warranty = ["A year on our own work, in our own words."]
storage = ["A week is free."]
"""


def shop_at(folder: Path, text: str = PASSING.replace("A. Boater", EVIL.replace('"', "'")), prices: str = BOOK) -> Path:
    (folder / "job.toml").write_text(text, encoding="utf-8")
    (folder / "shop.toml").write_text(SHOP, encoding="utf-8")
    (folder / "prices.toml").write_text(prices, encoding="utf-8")
    return folder / "job.toml"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with quote, change order, buy list and CSV of a job that passes."""
    folder = tmp_path_factory.mktemp("a shop")
    job = shop_at(folder)
    assert main(["estimate", str(job), "--quote", "--found", "wet", "--buy", "--csv", str(folder / "lines.csv")]) == 0
    return folder


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """No other builds beside the mount: sizing them takes seconds and changes nothing that the test asks."""
    monkeypatch.setattr("transom.estimate.ways.ways", lambda e: ())


def pdf_pages(path: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


def page_text(path: Path) -> str:
    """What a browser shows of a page, its style left out."""
    tree = html5lib.parse(path.read_text(encoding="utf-8"), namespaceHTMLElements=False)
    for style in tree.iter("style"):
        style.text = ""
    return " ".join("".join(tree.itertext()).split())


# Customer's pages


def test_the_quote_says_what_a_customer_needs(made: Path) -> None:
    page, paper = page_text(made / "quote-7-1.html"), " ".join(pdf_pages(made / "quote-7-1.pdf"))
    total = json.loads((made / "quote-7-1.json").read_text(encoding="utf-8"))["cases"][0]["total"]["likely"]
    for said in (
        "Quote 7-1", "Demo Dock, invented", "1 Invented Pier", "Estimate of 2026-05-04, good until 2026-06-03",
        f"${float(total):,.2f}, tax included", "In words: ", "We stop and call you before anything goes over $",
        "Engine off and on", "What is in the price", "What is not", "What we buy for it", "Edges eaten or wet", "Frame hurt",
        "days from the first visit", "A year on our own work, in our own words.", "A week is free.", "Your word on quote 7-1", "Signature",
        "Not a survey and not approval", "Shop hazards",
    ):  # fmt: skip
        assert said in page, said
        assert said in paper, said


def test_what_a_user_typed_runs_nowhere(made: Path) -> None:
    text = (made / "quote-7-1.html").read_text(encoding="utf-8")
    assert "<script" not in text
    assert "&lt;script&gt;" in text
    assert not re.search(r"(src|href)=", text)


def test_the_word_stands_on_every_page(made: Path) -> None:
    for name in ("quote-7-1", "change-7-1-1", "buy-7"):
        for text in pdf_pages(made / f"{name}.pdf"):
            assert "QUOTE" in text
            assert "page " in text
        page = (made / f"{name}.html").read_text(encoding="utf-8")
        assert "display: table-header-group" in page
        assert '<span class="marks">QUOTE</span>' in page


def test_the_change_order_compares_with_the_quote_on_file(made: Path) -> None:
    text = " ".join(pdf_pages(made / "change-7-1-1.pdf"))
    data = json.loads((made / "quote-7-1.json").read_text(encoding="utf-8"))
    quoted, found = (float(c["total"]["likely"]) for c in data["cases"][:2])
    for said in ("To quote 7-1", f"${quoted:,.2f}", f"${found:,.2f}", f"More than quoted: ${found - quoted:,.2f}", "White powder",
                 "Name", "Date", "Time", "call me before anything over"):  # fmt: skip
        assert said in text, said


def test_the_buy_list_is_one_page_by_supplier(made: Path) -> None:
    (text,) = pdf_pages(made / "buy-7.pdf")
    for said in ("Lumber yard", "Metal yard", "Fastener counter", "Marine supplier", "Hardware store", "4 x 3 x 3 in", "1 sheet",
                 "bolts 1/2-13 x 4-1/4 in"):  # fmt: skip
        assert said in text, said
    assert "$" not in text


def shop_estimate(change: tuple[str, str]) -> Estimate:
    """The passing job with its quote changed, the shop beside it."""
    stated = loads(PASSING.replace(*change))
    assert stated.mount is not None
    shop = Shop("shop.toml", name="Demo Dock, invented")
    return estimate(judge(replace(stated, shop=shop), SHIPPED, stated.mount, careful=False), book())


CUSTOMER = 'customer = "A. Boater"'


def test_a_firm_price_is_one_price_and_the_shop_calls_before_any_more() -> None:
    e = shop_estimate((CUSTOMER, f'{CUSTOMER}\nkind = "firm"'))
    assert e.call_before == e.dry.total.likely
    text = to_html(quote(e, "7-1", 1))
    assert "Firm price of 2026-05-04" in text
    assert "This price is firm" in text
    assert f"{e.dry.total.high:,}" not in text
    assert f"{e.case('wet').total.high:,}" in text


def test_a_call_before_amount_below_the_price_is_refused(tmp_path: Path) -> None:
    e = shop_estimate((CUSTOMER, f"{CUSTOMER}\ncall_before = 100"))
    with pytest.raises(JobError, match="below the price quoted"):
        refuse(e, tmp_path / "job.toml")


def test_a_sign_that_paper_cannot_print_is_refused_and_names_keep_their_letters(tmp_path: Path) -> None:
    e = shop_estimate((CUSTOMER, 'customer = "Zoë Müller-Škoda"'))
    with pytest.raises(JobError, match="not every paper can print it"):
        refuse(replace(e, book=replace(e.book, currency="₹")), tmp_path / "job.toml")
    refuse(replace(e, book=replace(e.book, currency="€")), tmp_path / "job.toml")
    text = PdfReader(io.BytesIO(to_pdf(quote(e, "7-1", 1)))).pages[0].extract_text()
    assert "Zoë Müller-Škoda" in text
    assert plain("Łódź ₹ →") == "?ódz ? ->"


def test_what_the_job_adds_to_the_scope_stands_in_it() -> None:
    e = shop_estimate((CUSTOMER, f'{CUSTOMER}\nincludes = ["<i>old board away</i>"]\nexcludes = ["hauling"]'))
    text = to_html(quote(e, "7-1", 1))
    within, without = text.split("What is not")
    assert "&lt;i&gt;old board away&lt;/i&gt;" in within
    assert "hauling" in without


def test_a_record_that_was_spoilt_is_no_quote(tmp_path: Path) -> None:
    (tmp_path / "quote-7-1.json").write_text('{"quote": {}}', encoding="utf-8")
    with pytest.raises(JobError, match="no quote's record"):
        quoted(tmp_path, "quote-7")
    assert quoted(tmp_path, "quote-8") is None


def test_numbers_come_from_what_lies_there_however_little(tmp_path: Path) -> None:
    for name in ("quote-7-1.html", "quote-7-3.pdf", "quote-77-9.html", "quote-7-x.html", "quote-7-4-1.html"):
        (tmp_path / name).write_text("", encoding="utf-8")
    made = hand_out(tmp_path, "quote-7", lambda n: {".html": f"revision {n}"})
    assert (made.name, made.revision, made.fresh) == ("quote-7-4", 4, True)
    again = hand_out(tmp_path, "quote-7", lambda n: {".html": f"revision {n}"})
    assert (again.name, again.fresh, again.files) == ("quote-7-4", False, ())
    assert (tmp_path / "quote-7-3.pdf").read_text(encoding="utf-8") == ""


def test_a_change_order_of_a_quote_whose_prices_have_moved_says_what_was_quoted(tmp_path: Path) -> None:
    e = shop_estimate((CUSTOMER, CUSTOMER))
    before = Quoted(
        "7-1", 1, Decimal("1500.00"), Decimal("300.00"), Decimal("1180.00"), Decimal("20.00"), Decimal("1600"), "$"
    )
    text = to_html(change_order(e, "wet", "7-1-1", before))
    assert "$1,500.00" in text
    assert f"More than quoted: ${e.case('wet').total.likely - Decimal('1500.00'):,}" in text
    less = replace(before, total=Decimal("99999.00"))
    assert "Less than quoted: $" in to_html(change_order(e, "dry", "7-1-1", less))


def test_a_stop_passed_over_stands_on_every_page() -> None:
    accept = (
        '[[accept]]\nstop = "over-builders-plate"\nby = "B. Owner"\ndate = 2026-05-04\npaper = "builder\'s letter"\n'
    )
    stated = loads(PASSING.replace(*OVER_PLATE) + accept)
    assert stated.mount is not None
    e = estimate(judge(stated, SHIPPED, stated.mount, careful=False), book())
    assert e.passes
    for document in (quote(e, "7-1", 1), change_order(e, "wet", "7-1-1", None), buy_list(e, ())):
        pages = [" ".join(p.extract_text().split()) for p in PdfReader(io.BytesIO(to_pdf(document))).pages]
        for text in (*pages, to_html(document)):
            assert "Stop passed over, over-builders-plate: accepted by B. Owner, 2026-05-04, on builder" in text


# Numbers and revisions


@pytest.mark.usefixtures("alone")
def test_the_same_quote_is_not_written_twice_and_another_price_is_a_revision(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = shop_at(tmp_path)
    assert main(["estimate", str(job), "--quote"]) == 0
    first = {p.name: p.read_bytes() for p in tmp_path.glob("quote-*")}
    assert main(["estimate", str(job), "--quote"]) == 0
    assert "nothing has changed" in capsys.readouterr().err
    assert {p.name: p.read_bytes() for p in tmp_path.glob("quote-*")} == first
    shop_at(tmp_path, prices=BOOK.replace("149.95", "151.20"))
    assert main(["estimate", str(job), "--quote", "--force"]) == 0
    assert {p.name: p.read_bytes() for p in tmp_path.glob("quote-7-1.*")} == first
    assert "It replaces 7-1." in page_text(tmp_path / "quote-7-2.html")
    log = [json.loads(line) for line in (tmp_path / "job.log.jsonl").read_text(encoding="utf-8").splitlines()]
    assert [entry["command"] for entry in log] == ["estimate --quote"] * 2


def test_the_same_words_are_the_same_bytes_and_a_folder_for_them_is_made(made: Path, tmp_path: Path) -> None:
    out = tmp_path / "papers"
    assert main(["estimate", str(shop_at(tmp_path)), "--quote", "--out", str(out)]) == 0
    for end in ("html", "pdf", "csv", "json"):
        assert (out / f"quote-7-1.{end}").read_bytes() == (made / f"quote-7-1.{end}").read_bytes(), end


# Refusals


def refused(arguments: list[str], capsys: pytest.CaptureFixture[str], folder: Path) -> str:
    before = sorted(p.name for p in folder.iterdir())
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert sorted(p.name for p in folder.iterdir()) == before
    return err


@pytest.mark.usefixtures("alone")
def test_sample_prices_reach_no_customer(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = shop_at(tmp_path)
    (tmp_path / "prices.toml").unlink()
    for option in (["--quote"], ["--found", "wet"]):
        assert "invented" in refused(["estimate", str(job), *option], capsys, tmp_path)
    sample = (Path(__file__).parents[2] / "materials" / "price_book" / "invented.toml").read_text(encoding="utf-8")
    (tmp_path / "prices.toml").write_text(sample.replace("invented = true", ""), encoding="utf-8")
    assert "every one" in refused(["estimate", str(job), "--quote"], capsys, tmp_path)


@pytest.mark.usefixtures("alone")
def test_every_reason_against_a_quote_in_one_run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = PASSING.replace("date = 2026-05-04", "").replace('customer = "A. Boater"', 'customer = ""')
    prices = (
        BOOK.replace("rate = 90", 'rate = "?"')
        .replace("wood = 0.25", 'wood = "?"')
        .replace("half = 82.50", 'half = "?"')
    )
    prices = prices.replace("price = 149.95", 'price = "?"').replace("labour = 0\n", "").replace("other = 0.0825", "")
    job = shop_at(tmp_path, text, prices)
    (tmp_path / "shop.toml").unlink()
    lines = refused(["estimate", str(job), "--quote"], capsys, tmp_path).splitlines()
    for said in ("sheet douglas-fir-marine 3/4 in", "[labour] rate", "[markup] wood", "[tax] labour", "[job] date",
                 "[quote] customer", "[shop] name"):  # fmt: skip
        assert sum(said in line for line in lines) == 1, said


@pytest.mark.usefixtures("alone")
def test_no_paper_of_a_mount_that_fails_unless_asked_and_then_it_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = shop_at(tmp_path, PASSING.replace(*OVER_PLATE))
    before = sorted(tmp_path.iterdir())
    for option in (["--quote"], ["--buy"], ["--csv", str(tmp_path / "x.csv")]):
        # Judged, and it fails: the prices are still told, as a stop never hides numbers.
        assert main(["estimate", str(job), *option]) == 1
        out, err = capsys.readouterr()
        assert "--despite-failure" in err
        assert "DOES NOT PASS" in out
        assert sorted(tmp_path.iterdir()) == before
    assert main(["estimate", str(job), "--quote", "--buy", "--despite-failure", "--csv", str(tmp_path / "x.csv")]) == 1
    assert "DOES NOT PASS" in capsys.readouterr().out
    for name in ("quote-7-1", "buy-7"):
        assert all("DOES NOT PASS" in text for text in pdf_pages(tmp_path / f"{name}.pdf"))
        assert "DOES NOT PASS" in page_text(tmp_path / f"{name}.html").split("Quote")[0] or name == "quote-7-1"
    assert "DOES NOT PASS" in (tmp_path / "x.csv").read_text(encoding="utf-8")


@pytest.mark.usefixtures("alone")
def test_files_that_are_there_are_left(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = made / "job.toml"
    assert "--force" in refused(["estimate", str(job), "--buy"], capsys, made)
    assert "--force" in refused(["estimate", str(job), "--csv", str(made / "lines.csv")], capsys, made)
    assert main(["estimate", str(job), "--buy", "--force"]) == 0


# Books


def test_the_books_add_up_to_the_cent(made: Path) -> None:
    rows = list(csv.DictReader(io.StringIO((made / "lines.csv").read_text(encoding="utf-8"))))
    cents = lambda row: round(float(row["charge"]) * 100)  # noqa: E731
    for case, within in (("dry", ("dry",)), ("wet", ("dry", "wet")), ("frame", ("dry", "wet", "frame"))):
        lines = [
            r
            for r in rows
            if r["line"].split(" ")[0] in within and r["case"] in within and not r["line"].startswith(("tax", "total"))
        ]
        taxes = [r for r in rows if r["line"].startswith("tax on") and r["case"] == case]
        (total,) = (r for r in rows if r["line"] == f"total, {case}")
        assert cents(total) == sum(map(cents, lines)) + sum(map(cents, taxes))


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1"])
def test_no_cell_begins_like_a_formula(cell: str) -> None:
    assert harmless(cell).startswith("'")
    assert not harmless(cell)[1:].startswith(("\t", "\r"))


@pytest.mark.parametrize("cell", ["1/2-13", "a = b", "", "3.50", "'quoted"])
def test_other_cells_stay(cell: str) -> None:
    assert harmless(cell) == cell


@pytest.mark.usefixtures("alone")
def test_json_is_one_object_with_money_as_text(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["estimate", str(made / "job.toml"), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["schema"] == "transom-estimate-1"
    assert all(isinstance(line["charge"]["likely"], str) for line in data["lines"])
    assert [c["name"] for c in data["cases"]] == ["dry", "wet", "frame"]
    assert json.loads((made / "quote-7-1.json").read_text(encoding="utf-8"))["quote"]["customer"]
