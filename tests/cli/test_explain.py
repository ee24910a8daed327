"""`transom explain` as somebody types it."""

import json
import re
from pathlib import Path

import pytest

from tests.derivation.evaluator import fault
from transom.cli.main import main

JOB = str(Path(__file__).parents[2] / "examples" / "uprights-90hp.toml")
NUMBER = re.compile(r" {2,3}\((\d+)\) (.*)|( {9,})(.*)")


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = main(["explain", *arguments])
    out, err = capsys.readouterr()
    return code, out, err


def printed_lines(out: str) -> list[str]:
    """The equations of a screen, put together again from its rows."""
    found: list[list[str]] = []
    open_ = False
    for row in out.split(" STEP BY STEP\n")[1].split("\n ---", maxsplit=1)[0].splitlines():
        if re.match(r" *\(\d+\) ", row):
            found.append([row.split(") ", 1)[1]])
            open_ = True
        elif open_ and re.match(r" {9}(= | {2}\S)", row) and not re.match(r" {9}\S", row.replace("= ", "  ", 1)):
            found[-1].append(row.strip())
        else:
            open_ = False
    return [" ".join(rows) for rows in found]


def test_the_screen_of_the_weakest_link_comes_out_line_by_line(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, JOB)
    assert (code, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 79
    assert out.isascii() or "×" in out
    lines = printed_lines(out)
    assert len(lines) == len(re.findall(r"^ *\(\d+\) ", out.split(" STEP BY STEP\n")[1], re.M)) > 50
    for line in lines:
        _, *_, numbers, result = line.split(" = ")
        assert not fault(numbers, result.split()[0]), line
    assert lines[-1].startswith("u = ")
    assert "DOES NOT PASS" in out
    assert "CAREFUL" in out


def test_a_part_gives_its_weakest_and_names_the_others(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, JOB, "backing")
    assert code == 0
    text = " ".join(out.split())
    assert "ALSO" in out
    assert "name one to see it" in text
    assert len(re.findall(r"^ +\d+ % +backing\.", out, re.M)) > 4


def test_an_id_gives_that_case_and_a_beginning_its_worst(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, JOB, "board.bending.ec5.hand.wave", "--json")
    assert json.loads(out)["check"] == "board.bending.ec5.hand.wave"
    _, out, _ = run(capsys, JOB, "engine-bolts.tension", "--json")
    assert json.loads(out)["check"].startswith("engine-bolts.tension.ec3.plate.")


def test_a_part_alone_is_of_the_only_job_here(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "only.toml").write_text(Path(JOB).read_text(encoding="utf-8"), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    _, out, _ = run(capsys, "engine bolts", "--json")
    assert json.loads(out)["check"].startswith("engine-bolts.")


def test_an_unknown_name_is_refused_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, JOB, "bord.bending")
    assert (code, out) == (2, "")
    assert len(err.splitlines()) == 1
    assert "board.bending" in err


@pytest.mark.parametrize("wrong", [("--markdown", "--json"), ("--ledger", "--latex"), ("board", "--ledger")])
def test_forms_that_exclude_each_other_are_refused(wrong: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, JOB, *wrong)
    assert (code, out) == (2, "")
    assert err.startswith("--")


def test_json_has_what_the_screen_has(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, JOB, "--json")
    got = json.loads(out)
    assert got["schema"] == "transom-derivation-1"
    assert not got["passes"]
    assert [x["number"] for x in got["lines"]] == list(range(1, len(got["lines"]) + 1))
    assert got["lines"][-1]["value"] == pytest.approx(got["utilisation"])
    assert run(capsys, JOB, "--json")[1] == out, "the same job gives the same bytes"


def test_latex_is_balanced_and_markdown_holds_user_text_as_text(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    job = tmp_path / "odd.toml"
    text = Path(JOB).read_text(encoding="utf-8").replace('"5.6 m work boat', '"<b>50 %_#$&{~^\\\\ boat', 1)
    job.write_text(text, encoding="utf-8")
    _, latex, _ = run(capsys, str(job), "backing", "--latex")
    assert r"\textless{}b\textgreater{}50 \%\_\#\$\&\{\textasciitilde{}\textasciicircum{}" in latex
    bare = latex.replace("\\{", "").replace("\\}", "")
    assert bare.count("{") == bare.count("}")
    assert latex.count(r"\begin{align*}") == latex.count(r"\end{align*}") > 20
    assert len(re.findall(r"(?<!\\)\$", latex)) % 2 == 0
    _, markdown, _ = run(capsys, str(job), "backing", "--markdown")
    assert r"\<b\>50 %\_\#$\&\{\~^" in markdown
    assert markdown.count("```") % 2 == 0


def test_the_ledger_counts_and_lists(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, JOB, "--ledger")
    assert code == 0
    assert max(map(len, out.splitlines())) <= 79
    for words in ("book", "you gave it", "shop practice", "tool's choice", "assumed", "from memory"):
        assert words in out
    _, data, _ = run(capsys, JOB, "--ledger", "--json")
    got = json.loads(data)
    assert got["schema"] == "transom-ledger-1"
    for kind, counts in got["counts"].items():
        assert sum(counts.values()) == sum(e["kind"] == kind for e in got["entries"])
        assert re.search(rf"\b{sum(counts.values())} {kind}s", out)
    assert set(got["memory"]) == {e["name"] for e in got["entries"] if e["known_by"] == "memory"}
