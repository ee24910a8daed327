"""The field sheet: two pages, every question once, blank or filled."""

from pathlib import Path

import pypdf
import pytest

from transom.cli import main as command
from transom.floor.fieldsheet import CLOSE, LETTERS, field_sheet
from transom.floor.photos import PHOTOS
from transom.interview.questions import FULL, YES_OR_NO

ASKED = {q.path for stop in FULL for q in stop.asks}


@pytest.mark.parametrize("units", ["us", "si"])
def test_two_pages_with_every_question_and_photograph(units: str, tmp_path: Path) -> None:
    (tmp_path / "s.pdf").write_bytes(field_sheet(units))
    pages = [" ".join(p.extract_text().split()) for p in pypdf.PdfReader(tmp_path / "s.pdf").pages]
    assert len(pages) == 2
    text = " ".join(pages)
    assert set(CLOSE) <= ASKED
    assert set(LETTERS) <= ASKED
    for _, what in PHOTOS:
        assert what.split(",")[0] in text
    for q in (q for stop in FULL for q in stop.asks if q.path not in YES_OR_NO and not q.key.choices):
        assert q.key.how.split(";")[0][:40].split('"')[0].strip() in text, q.path
    assert ("1/32 in" in text) is (units == "us")


def test_what_the_job_knows_stands_in_it(tmp_path: Path) -> None:
    example = Path(__file__).parents[2] / "examples" / "uprights-90hp.toml"
    assert command.main(["new", str(tmp_path / "s.pdf"), "--field-sheet", "--filled-from", str(example)]) == 0
    text = " ".join(p.extract_text() for p in pypdf.PdfReader(tmp_path / "s.pdf").pages)
    assert "520 mm" in text
    assert "168 kg" in text


def test_a_name_that_is_no_pdf(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["new", str(tmp_path / "s.toml"), "--field-sheet"]) == 2
    assert ".pdf" in capsys.readouterr().err
