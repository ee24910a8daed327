"""`transom verify`: the shipped cases agree, and nothing that deviates passes for agreement."""

import io
import json
from pathlib import Path

import pytest

from transom.cli import verify
from transom.errors import TableError

GOOD = """\
[source]
title = "A handbook | of circles"

[[case]]
id = "circle"
area = "loads"
formula = "loads.thrust:disc_area"
inputs = { D = 2.0 }
printed = 3.14159
unit = "m^2"
digits = 6
citation = "page 1"
known_by = "read"
"""


def printed(tmp_path: Path, text: str, **form: bool) -> tuple[int, str]:
    (tmp_path / "book.toml").write_text(text, encoding="utf-8")
    out = io.StringIO()
    return verify.run(folder=tmp_path, out=out, **form), out.getvalue()


def test_a_case_that_agrees_is_printed_with_source_printed_ours_deviation_and_how_known(tmp_path: Path) -> None:
    code, text = printed(tmp_path, GOOD)
    assert code == 0
    assert "A handbook | of circles" in text
    row = next(line for line in text.splitlines() if "circle" in line and "3.14" in line)
    assert row.split() == ["circle", "3.14159", "3.14159", "+0.00", "%", "read"]
    assert "1 of 1 agree" in text


@pytest.mark.parametrize(
    ("old", "new"),
    [
        pytest.param("printed = 3.14159", "printed = 3.14161", id="last digit"),
        pytest.param("printed = 3.14159", "printed = 31.4159", id="factor of ten"),
        pytest.param("printed = 3.14159", "printed = -3.14159", id="sign"),
        pytest.param("printed = 3.14159", "printed = nan", id="not a number"),
        pytest.param("D = 2.0", "D = nan", id="ours not a number"),
        pytest.param("D = 2.0", 'D = "two"', id="ours raises"),
        pytest.param("disc_area", "no_such_formula", id="formula gone"),
        pytest.param("loads.thrust", "loads.no_such_module", id="module gone"),
    ],
)
@pytest.mark.parametrize("form", [{}, {"markdown": True}, {"as_json": True}], ids=["screen", "markdown", "json"])
def test_a_doctored_case_gives_exit_1_and_is_named(tmp_path: Path, old: str, new: str, form: dict[str, bool]) -> None:
    assert old in GOOD
    code, text = printed(tmp_path, GOOD.replace(old, new), **form)
    assert code == 1
    if "as_json" in form:
        data = json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} in JSON"))
        assert data["passes"] is False
        assert [row["agrees"] for row in data["cases"]] == [False]
    else:
        assert text.rstrip().endswith("DEVIATES: circle.")
        assert "0 of 1 agree" in text


def test_one_bad_case_does_not_hide_the_others(tmp_path: Path) -> None:
    second = GOOD.split("\n\n")[1].replace('id = "circle"', 'id = "second"').replace("3.14159", "3.2")
    code, text = printed(tmp_path, GOOD + "\n" + second, as_json=True)
    data = json.loads(text)
    assert code == 1
    assert {row["id"]: row["agrees"] for row in data["cases"]} == {"circle": True, "second": False}
    assert data["counts"] == {"cases": 2, "agree": 1, "by_area": {"loads": 2}, "by_known_by": {"read": 2}}


def test_no_cases_is_no_agreement(tmp_path: Path) -> None:
    with pytest.raises(TableError, match="no published cases"):
        verify.run(folder=tmp_path, out=io.StringIO())


def test_markdown_is_a_table_whose_cells_hold(tmp_path: Path) -> None:
    code, text = printed(tmp_path, GOOD, markdown=True)
    assert code == 0
    assert "## A handbook | of circles" in text
    assert "| circle | page 1 | 3.14159 | 3.14159 | m^2 | +0.00 % | read |" in text.splitlines()
    lengths = {line.replace("\\|", "").count("|") for line in text.splitlines() if line.startswith("| circle")}
    assert lengths == {8}


@pytest.fixture(scope="module")
def shipped() -> tuple[int, str]:
    out = io.StringIO()
    return verify.run(out=out), out.getvalue()


def test_the_shipped_cases_all_agree(shipped: tuple[int, str]) -> None:
    code, text = shipped
    assert code == 0, text.splitlines()[-1]
    assert "DEVIATES" not in text
    assert "from memory: provisional" in text


def test_the_screen_is_plain_and_80_columns_wide(shipped: tuple[int, str]) -> None:
    assert shipped[1].isascii() or all(line.isprintable() for line in shipped[1].splitlines())
    assert max(map(len, shipped[1].splitlines())) <= 80


def test_a_console_that_prints_only_ascii_gets_ascii(tmp_path: Path) -> None:
    (tmp_path / "book.toml").write_text(GOOD.replace("A handbook", "Größe × 2"), encoding="utf-8")
    raw = io.BytesIO()
    out = io.TextIOWrapper(raw, encoding="ascii")
    assert verify.run(folder=tmp_path, out=out) == 0
    out.flush()
    assert b"x 2" in raw.getvalue()
