"""Commands as a shop runs them: exit codes, what goes where, files never written over, lazy imports."""

import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.report.jobs import EXAMPLE, TEXTS
from transom import __version__
from transom.cli import main as command
from transom.cli import size as size_command
from transom.job.read import load

ROOT = Path(__file__).parents[2]
COMMANDS = ("size", "review", "new", "draw", "estimate")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a space in its name and one job in it."""
    place = tmp_path / "shop floor"
    place.mkdir()
    (place / "job.toml").write_bytes(EXAMPLE.read_bytes())
    monkeypatch.chdir(place)
    return place


def put(folder: Path, name: str) -> str:
    (folder / f"{name}.toml").write_text(TEXTS[name], encoding="utf-8")
    return str(folder / f"{name}.toml")


def python(*arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error", **more}
    return subprocess.run([sys.executable, *arguments], capture_output=True, text=True, env=environment,
                          encoding="utf-8", check=False)  # fmt: skip


def test_the_only_job_in_the_folder_is_sized(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size"]) == 0
    out, err = capsys.readouterr()
    assert " WORKS" in out
    assert err == ""


def test_several_jobs_and_none_are_faults(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(folder, "clamps")
    assert command.main(["size"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "job.toml" in err
    for path in folder.glob("*.toml"):
        path.unlink()
    assert command.main(["size"]) == 2


@pytest.mark.parametrize("name, code", [("example", 0), ("accepted", 0), ("unread plate", 1), ("too large", 1)])
def test_exit_codes_of_size(folder: Path, capsys: pytest.CaptureFixture[str], name: str, code: int) -> None:
    assert command.main(["size", put(folder, name), "--json"]) == code
    value = json.loads(capsys.readouterr().out)
    assert value["passes"] == (code == 0)


def test_each_fault_is_a_line_on_stderr_and_nothing_on_stdout(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    text = text.replace('power = "40 hp"', 'power = "forty"').replace('kind = "pontoon"', 'kind = "canoe"')
    text = text.replace('width = "24 in"', "width = 24")
    Path("bad.toml").write_text(text, encoding="utf-8")
    for how in (["size", "bad.toml"], ["size", "bad.toml", "--json"], ["review", "bad.toml"]):
        assert command.main(how) == 2
        out, err = capsys.readouterr()
        assert out == ""
        lines = err.splitlines()
        assert len(lines) == 3
        assert all(any(key in line for key in ("power", "kind", "width")) for line in lines)


@pytest.mark.parametrize(
    "arguments",
    [["size", "no-such.toml"], ["size", "--no-such"], ["sizes"], ["size", "--rank", "colour"], ["review"], ["new"],
     ["new", "x.toml", "--field-sheet"], ["new", "x.toml", "--blank", "--example"], ["materials", "panel"], ["size", "a", "b"]],
)  # fmt: skip
def test_what_cannot_be_judged_is_2(folder: Path, capsys: pytest.CaptureFixture[str], arguments: list[str]) -> None:
    assert command.main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert len(err.strip().splitlines()) == 1
    assert "Traceback" not in err


def test_an_internal_error_is_70_and_one_line(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(path: Path) -> None:
        raise RuntimeError("two\nlines")

    monkeypatch.setattr(size_command, "read", broken)
    assert command.main(["size"]) == 70
    out, err = capsys.readouterr()
    assert out == ""
    assert err.splitlines() == ["internal error: RuntimeError: two lines. Nothing was judged; please report it."]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="wants a device that is always full")
def test_an_answer_that_finds_no_room_is_one_line_and_no_internal_error() -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "transom", "--version"], stdout=full, stderr=subprocess.PIPE, text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT)}, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.splitlines() == [
        "the answer cannot be written (no space left on device). Send it elsewhere, or free room."
    ]


def test_a_choice_that_there_is_not_is_told_in_plain_words(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", "--rank", "cheap"]) == 2
    assert capsys.readouterr().err.startswith("Invalid value for '--rank': 'cheap' is not one of 'material'")


@pytest.mark.parametrize("error", [KeyboardInterrupt, EOFError])
def test_an_interruption_and_the_end_of_input_are_130(
    folder: Path, monkeypatch: pytest.MonkeyPatch, error: type[BaseException]
) -> None:
    def stopped(path: Path) -> None:
        raise error

    monkeypatch.setattr(size_command, "read", stopped)
    assert command.main(["size"]) == 130


def test_what_size_writes_passes_its_review(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", "job.toml", "--write", "mounted.toml", "--json"]) == 0
    sized = json.loads(capsys.readouterr().out)
    assert command.main(["review", "mounted.toml", "--json"]) == 0
    reviewed = json.loads(capsys.readouterr().out)
    assert reviewed["mount"] == sized["mount"]
    assert reviewed["checks"] == sized["checks"]
    assert reviewed["passes"]
    assert Path("job.toml").read_bytes() == EXAMPLE.read_bytes()
    assert load("mounted.toml").mount is not None


def test_write_refuses_what_is_there(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = Path("job.toml").read_bytes()
    assert command.main(["size", "job.toml", "--write", "job.toml"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "--force" in err
    assert Path("job.toml").read_bytes() == before
    assert command.main(["size", "job.toml", "--write", "job.toml", "--force"]) == 0
    assert load("job.toml").mount is not None
    assert sorted(p.name for p in folder.iterdir()) == ["job.toml"]


def test_write_leaves_no_file_where_nothing_works(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", put(folder, "too large"), "--write", "out.toml", "--json"]) == 1
    assert not Path("out.toml").exists()
    assert "not written" in capsys.readouterr().err


def test_write_away_from_the_shops_file_is_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its stock and measured sheets would be lost, and the review would be of another board."""
    Path("shop.toml").write_text('[stock.measured]\n"douglas-fir-marine 3/4 in" = "18.0 mm"\n', encoding="utf-8")
    Path("elsewhere").mkdir()
    assert command.main(["size", "job.toml", "--write", "elsewhere/out.toml"]) == 2
    assert "shop.toml" in capsys.readouterr().err
    assert not Path("elsewhere/out.toml").exists()


def test_new_writes_a_job_that_sizes(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["new", "example.toml", "--example"]) == 0
    assert Path("example.toml").read_bytes() == EXAMPLE.read_bytes()
    assert command.main(["new", "blank.toml", "--blank"]) == 0
    assert '"?"' in Path("blank.toml").read_text(encoding="utf-8")
    assert command.main(["new", "blank.toml", "--blank"]) == 2
    assert command.main(["new", "blank.toml", "--blank", "--force"]) == 0
    assert capsys.readouterr().out == ""


def test_details_hold_every_check_fact_and_source(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", "--details"]) == 0
    out = capsys.readouterr().out
    for part in ("CHECKS, each in its worst case", "WOOD ASKED FOR", "WHAT THE BOAT HAS TO HOLD", "LOADS, no safety",
                 "WHAT THE ANSWER RESTS ON", "PROVISIONAL", "EN 1995-1-1:2004", "pencil method", "assumed"):  # fmt: skip
        assert part in out
    assert max(map(len, out.splitlines())) < 80


def test_units_si_reads_millimetres(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", put(folder, "metric")]) == 0
    out = capsys.readouterr().out
    assert re.search(r"comes out [\d.]+ mm coated", out)
    assert "N m" in out


def test_materials(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["materials"]) == 0
    assert "panels" in capsys.readouterr().out
    assert command.main(["materials", "washers"]) == 0
    out = capsys.readouterr().out
    assert "1/2 wide" in out
    assert "ASME B18.21.1" in out
    assert command.main(["materials", "washers", "--provisional", "--json"]) == 0
    value = json.loads(capsys.readouterr().out)
    assert {row["known_by"] for row in value["families"]["washers"]} == {"memory"}
    assert command.main(["materials", "--provisional"]) == 0
    out = capsys.readouterr().out
    assert "provisional" in out
    assert max(map(len, out.splitlines())) < 80


def test_help_lists_every_command_and_each_has_help(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["--help"]) == 0
    out = capsys.readouterr().out
    listed = re.findall(r"^  ([a-z]+) +[A-Z]", out.split("Commands:")[1], re.MULTILINE)
    assert listed[: len(COMMANDS)] == list(COMMANDS)
    for name in listed:
        assert command.main([name, "--help"]) == 0
        text = capsys.readouterr().out
        assert text.isascii()
        assert max(map(len, text.splitlines())) < 80
        # Every option and argument says what it does.
        options = re.findall(r"^  (-{2}[a-z]+|\[?[A-Z]+\]?)(?: <.*?>| [A-Z]+)?( {2,}\S|$)", text, re.MULTILINE)
        assert options
    assert command.main([]) == 0
    assert capsys.readouterr().out == out


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["--version"]) == 0
    assert capsys.readouterr().out == f"transom {__version__}\n"


HEAVY = ("numpy", "pint", "sympy", "pydantic")


def loaded(arguments: list[str]) -> set[str]:
    """The heavy modules that a run has imported at its end."""
    code = f"import sys; from transom.cli.main import main; main({arguments!r}); print(*sys.modules, file=sys.stderr)"
    return set(python("-c", code).stderr.split()) & set(HEAVY)


def test_help_imports_nothing_heavy() -> None:
    assert loaded(["--help"]) == set()
    # Newer Typers coerce a command's options through pydantic themselves; nothing of ours is imported.
    assert loaded(["size", "--help"]) <= {"pydantic"}


def test_size_imports_neither_sympy_nor_pint() -> None:
    assert not {"sympy", "pint"} & loaded(["size", str(EXAMPLE)])
    assert not {"sympy", "pint"} & loaded(["size", str(EXAMPLE), "--details"])


def test_one_thread_is_set_before_numpy_loads_and_never_over_the_users() -> None:
    code = ("import os, sys; from transom.cli.main import main; main(['--version']); "
            "print(os.environ['OPENBLAS_NUM_THREADS'], 'numpy' in sys.modules)")  # fmt: skip
    assert python("-c", code, OPENBLAS_NUM_THREADS="3").stdout.split()[-2:] == ["3", "False"]
    bare = {k: v for k, v in os.environ.items() if k not in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS")}
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True,
                         env={**bare, "PYTHONPATH": str(ROOT)})  # fmt: skip
    assert run.stdout.split()[-2:] == ["1", "False"]


def test_python_dash_m_and_a_closed_pipe() -> None:
    assert python("-m", "transom", "--version").stdout == f"transom {__version__}\n"
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    process = subprocess.Popen([sys.executable, "-m", "transom", "materials", "factors"], stdout=subprocess.PIPE,
                               stderr=subprocess.PIPE, env=environment)  # fmt: skip
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    assert process.stderr.read() == b""
    process.stderr.close()
    process.wait(timeout=60)


@pytest.mark.parametrize("encoding", ("ascii", "cp1252"))
def test_a_stream_that_prints_little_gets_what_it_can(
    folder: Path, monkeypatch: pytest.MonkeyPatch, encoding: str
) -> None:
    raw = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding=encoding))
    assert command.main(["size", put(folder, "silly"), "--details"]) == 1
    text = raw.getvalue().decode(encoding)
    assert "STOP" in text
    assert "<b>[red]x[/red]" in text
    assert ("é" in text) == (encoding == "cp1252")
