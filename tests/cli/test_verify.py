"""`transom verify`: the shipped cases agree, and nothing that deviates passes for agreement."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import html5lib
import pytest

from tests.report.jobs import drawn
from transom.cli import verify
from transom.cli.main import main
from transom.errors import TableError
from transom.published import shipped
from transom.report.html import verified
from transom.report.html.page import Grounds, environment, to_html
from transom.report.verified import outcomes

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


Printed = Callable[..., tuple[int, str]]


@pytest.fixture
def printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Printed:
    def of(text: str, **form: bool) -> tuple[int, str]:
        (tmp_path / "book.toml").write_text(text, encoding="utf-8")
        code = verify.run(tmp_path, **form)
        return code, capsys.readouterr().out

    return of


def test_a_case_that_agrees_is_printed_with_source_printed_ours_deviation_and_how_known(printed: Printed) -> None:
    code, text = printed(GOOD)
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
def test_a_doctored_case_gives_exit_1_and_is_named(printed: Printed, old: str, new: str, form: dict[str, bool]) -> None:
    assert old in GOOD
    code, text = printed(GOOD.replace(old, new), **form)
    assert code == 1
    if "as_json" in form:
        data = json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} in JSON"))
        assert data["passes"] is False
        assert [row["agrees"] for row in data["cases"]] == [False]
    else:
        assert text.rstrip().endswith("DEVIATES: circle.")
        assert "0 of 1 agree" in text


def test_one_bad_case_does_not_hide_the_others(printed: Printed) -> None:
    second = GOOD.split("\n\n")[1].replace('id = "circle"', 'id = "second"').replace("3.14159", "3.2")
    code, text = printed(GOOD + "\n" + second, as_json=True)
    data = json.loads(text)
    assert code == 1
    assert {row["id"]: row["agrees"] for row in data["cases"]} == {"circle": True, "second": False}
    assert data["counts"] == {"cases": 2, "agree": 1, "by_area": {"loads": 2}, "by_known_by": {"read": 2}}


def test_no_cases_is_no_agreement(tmp_path: Path) -> None:
    with pytest.raises(TableError, match="no published cases"):
        verify.run(tmp_path)


def test_markdown_is_a_table_whose_cells_hold(printed: Printed) -> None:
    code, text = printed(GOOD, markdown=True)
    assert code == 0
    assert "## A handbook | of circles" in text
    assert "| circle | page 1 | 3.14159 | 3.14159 | m^2 | +0.00 % | read |" in text.splitlines()
    lengths = {line.replace("\\|", "").count("|") for line in text.splitlines() if line.startswith("| circle")}
    assert lengths == {8}


@pytest.fixture(scope="module")
def installed() -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    return subprocess.run(
        [sys.executable, "-m", "transom", "verify"], capture_output=True, text=True, check=False, env=environment
    )


def test_the_shipped_cases_all_agree(installed: subprocess.CompletedProcess[str]) -> None:
    assert installed.returncode == 0, [*installed.stdout.splitlines()[-1:], installed.stderr]
    assert "DEVIATES" not in installed.stdout
    assert "from memory: provisional" in installed.stdout


def test_the_screen_is_80_columns_wide_and_what_the_console_holds(installed: subprocess.CompletedProcess[str]) -> None:
    assert installed.stdout.isascii()
    assert max(map(len, installed.stdout.splitlines())) <= 80


# The page.


DEVIATING = (
    GOOD.replace("printed = 3.14159", "printed = 3.2")
    .replace('known_by = "read"', 'known_by = "memory"')
    .replace("A handbook | of circles", "A <b>handbook</b> & more")
)


def page(folder: Path, text: str) -> tuple[int, str]:
    (folder / "book.toml").write_text(text, encoding="utf-8")
    file = folder / "page.html"
    code = verify.run(folder, html=file, force=True)
    said = file.read_text(encoding="utf-8")
    html5lib.HTMLParser(strict=True).parse(said)
    return code, said


def test_the_page_has_every_case_by_area_with_printed_ours_off_and_how_known(tmp_path: Path) -> None:
    code, said = page(tmp_path, GOOD)
    assert code == 0
    assert "<title>Published cases" in said
    assert "loads: 1 of 1 agree" in said
    row = next(line for line in said.splitlines() if "circle" in line and "3.14159" in line)
    assert row.startswith("<tr><td>circle <small>page 1</small><td>3.14159 m^2<td>3.14159<td>+0.00 %<td>read<")


def test_the_page_says_what_deviates_and_what_is_provisional_and_takes_no_markup(tmp_path: Path) -> None:
    code, said = page(tmp_path, DEVIATING)
    assert code == 1
    assert "<title>DEVIATES" in said
    assert "loads: 0 of 1 agree, 1 provisional, 1 DEVIATE" in said
    assert '<tr class="no"><td>circle' in said
    assert "<b>provisional</b>" in said
    assert "<b>handbook" not in said
    assert "A &lt;b&gt;handbook&lt;/b&gt; &amp; more" in said


def test_the_page_of_all_cases_is_whole_and_the_same_each_time_and_overwrites_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "page.html"
    every = tuple(outcomes(shipped()))
    assert verified.page(every) == verified.page(every)
    file.write_text("mine", encoding="utf-8")
    assert main(["verify", "--html", str(file)]) == 2
    assert file.read_text(encoding="utf-8") == "mine"
    assert "--force" in capsys.readouterr().err
    said = verified.page(every)
    assert len(every) >= 150
    assert all(f"<tr><td>{o.case.id}" in said for o in every)
    assert said.count("<td><b>provisional</b>") == sum(o.case.known_by == "memory" for o in every) > 0
    assert "<script" not in said
    assert "http" not in said


def test_the_appendix_of_a_review_is_folded_compact_and_opens_what_deviates() -> None:
    every = tuple(outcomes(shipped()))
    macros = environment().from_string(
        '{% from "cases.html" import area %}{% for a in areas %}<details>{{ area(a, false) }}</details>{% endfor %}'
    )
    said = macros.render(**verified.context(every))
    assert len(said.encode()) < 100_000
    assert all(o.case.id in said for o in every)
    j = drawn("example")
    assert "Published cases" not in to_html(j)
    bad = replace(every[0], ours=2 * every[0].ours + 1)
    text = to_html(j, below=Grounds(verified=(bad, *every[1:9])))
    folded = text.split("Published cases, held")[1]
    assert folded.count("<details open>") == 1
    assert "DEVIATES" in folded
