"""README, DEVELOPERS and CI say what is so, and no file speaks of anything but the project."""

import ast
import importlib
import re
import shutil
import subprocess
import tomllib
from fnmatch import fnmatch
from pathlib import Path
from typing import get_args

import pytest
import typer

from transom.catalogue import families
from transom.cli.main import app, main
from transom.cli.size import Rank
from transom.job.read import loads
from transom.job.schema import SECTIONS, keys, walk
from transom.quantity import read

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def blocks(text: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", text, re.MULTILINE | re.DOTALL)


# Commands


COMMANDS = typer.main.get_command(app).commands  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_and_stands_in_the_readme_with_its_options(name: str) -> None:
    command = COMMANDS[name]
    assert command.help
    assert f"`transom {name}" in README
    for parameter in command.params:
        for option in (o for o in parameter.opts if o.startswith("--")):
            assert getattr(parameter, "help", None), f"{name} {option} has no help"
            assert option == "--help" or option in README, f"{name} {option}"


def test_the_readme_names_no_command_or_rank_that_is_not_there() -> None:
    commands = " ; ".join(
        blocks(README, "sh") + blocks(README, "powershell") + re.findall(r"`(transom [^`]*)`", README)
    )
    assert set(re.findall(r"transom ([a-z]+)", commands)) == set(COMMANDS)
    table = README.split("`size --rank`")[1].split("Exit codes")[0]
    assert set(re.findall(r"^\| `(\w+)`", table, re.MULTILINE)) == set(get_args(get_args(Rank)[0]))


def test_the_readme_gives_every_exit_code() -> None:
    assert [int(n) for n in re.findall(r"\*\*(\d+)\*\*", README.split("Exit codes:")[1])][:5] == [0, 1, 2, 70, 130]


# The two commands


def test_two_commands_each_with_its_powershell_line() -> None:
    posix, windows = blocks(README, "sh"), blocks(README, "powershell")
    assert len(posix) == len(windows) == 2
    assert all(len(block.strip().splitlines()) == 1 for block in posix + windows)
    for one, other in zip(posix, windows, strict=True):
        assert words(one) == words(other)


def words(command: str) -> list[list[str]]:
    """The steps of a command, whatever shell it is written for."""
    plain = command.strip().replace("\\", "/").replace("/Scripts/", "/bin/").replace("python3 ", "py ")
    return [step.split() for step in re.split(r" && |; ", plain)]


def test_ci_runs_the_readmes_commands_as_they_stand() -> None:
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    for command in blocks(README, "sh"):
        assert command.strip() in ci


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash on this machine")
def test_ci_is_a_script_bash_can_read() -> None:
    subprocess.run(["bash", "-n", str(ROOT / ".ci" / "run")], check=True)


# What the README shows


def test_the_readme_shows_what_the_example_prints(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["size", str(ROOT / "examples" / "pontoon-40hp.toml")]) == 0
    printed = capsys.readouterr().out.splitlines()
    (shown,) = blocks(README, "text")
    assert len(shown.splitlines()) == 6
    missing = [line for line in shown.splitlines() if line.rstrip() not in (p.rstrip() for p in printed)]
    assert not missing, "paste what `transom size examples/pontoon-40hp.toml` prints now"


def test_the_readmes_least_job_loads_and_each_line_of_it_is_needed() -> None:
    (job,) = blocks(README, "toml")
    assert loads(job).engine.power == pytest.approx(40 * 745.7, rel=1e-4)
    lines = job.splitlines()
    for i, line in enumerate(lines):
        if "=" in line:
            with pytest.raises(ValueError, match=r"required|missing|there"):
                loads("\n".join(lines[:i] + lines[i + 1 :]))


def test_the_readme_names_only_keys_that_a_job_has() -> None:
    known = {name for path, key in keys() for name in (key.name, path)}
    sections = {path for path, _ in walk(SECTIONS)}
    table = README.split("Keys that move the answer most:")[1].split("Across (`y`)")[0]
    for name in re.findall(r"`\[+([\w.]+)\]+`", table):
        assert name in sections
    known |= {path.rpartition(".")[2] for path in sections} | set(COMMANDS)
    for name in re.findall(r"`([a-z_]+)`", table):
        assert name in known, name


KINDS = ("length", "mass", "power", "torque", "temperature", "angle")


def kinds_read(text: str) -> list[str]:
    def reads(kind: str) -> bool:
        try:
            read(text, kind)
        except ValueError:
            return False
        return True

    return [kind for kind in KINDS if reads(kind)]


def test_quantities_that_the_readme_gives_are_read() -> None:
    text = README.split("Quantities are text")[1].split("A bare number")[0]
    given = re.findall(r'`"([^"]+)"`', text)
    assert len(given) > 10
    for quantity in given:
        assert kinds_read(quantity), quantity


def test_links_lead_somewhere() -> None:
    for name, text in (("README.md", README), ("DEVELOPERS.md", DEVELOPERS)):
        for target in re.findall(r"\]\(([^)#]+)\)", text):
            assert (ROOT / target).exists(), f"{name}: {target}"


# DEVELOPERS


def test_developers_places_every_room_and_names_none_that_is_gone() -> None:
    rooms = {p.stem for p in (ROOT / "transom").iterdir() if p.suffix == ".py" or (p / "__init__.py").is_file()}
    table = DEVELOPERS.split("## The rooms")[1].split("\n## ")[0]
    named = set(
        re.findall(r"`([a-z_]+)`", "\n".join(line.split("|")[1] for line in table.splitlines() if line.startswith("|")))
    )
    assert named == rooms - {"__init__", "__main__"}


def test_developers_names_files_and_functions_that_are_there() -> None:
    for path in re.findall(r"`((?:transom|tests|materials|examples)/[\w./]+)`", DEVELOPERS):
        assert (ROOT / path).exists(), path
    files = [path.as_posix() for path in tracked()]
    for name in re.findall(r"`([\w./*]+\.(?:py|toml|txt))`", DEVELOPERS):
        assert any(fnmatch(path, f"*/{name}") for path in files), name


def test_what_developers_shows_of_the_code_stands_in_it() -> None:
    (function,) = blocks(DEVELOPERS, "python")
    assert function in (ROOT / "transom" / "standards" / "ec5.py").read_text(encoding="utf-8")
    (case,) = blocks(DEVELOPERS, "toml")
    (shown,) = tomllib.loads(case)["case"]
    published = [
        row
        for path in (ROOT / "materials" / "published").glob("*.toml")
        for row in tomllib.loads(path.read_text("utf-8"))["case"]
    ]
    assert shown in published


SCRIPTS = sorted(
    p for folder in ("tests/bench", "tests/fuzz", "tests/mutation", "examples") for p in (ROOT / folder).rglob("*.py")
)


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_scripts_that_pytest_does_not_collect_import_what_is_there(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "transom":
            module = importlib.import_module(node.module or "")
            for alias in node.names:
                if not hasattr(module, alias.name):
                    importlib.import_module(f"{node.module}.{alias.name}")


def test_every_table_is_described() -> None:
    readme = (ROOT / "materials" / "README.md").read_text(encoding="utf-8")
    assert all(f"| `{family}` |" in readme for family in families())


# The repository speaks of the project alone


def tracked() -> list[Path]:
    listed = (
        subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False)
        if shutil.which("git")
        else None
    )
    if listed is None or listed.returncode:
        return [
            p
            for p in ROOT.rglob("*")
            if p.is_file() and not any(part.startswith(".") for part in p.relative_to(ROOT).parts)
        ]
    return [ROOT / name for name in listed.stdout.decode().split("\0") if name and (ROOT / name).is_file()]


# Split, so that this file does not find itself.
NOT_OURS = [
    r"\bissue" + r"s?\b",
    r"\bhelper" + r"\s+[A-Z]\b",
    r"shared" + "/",
    r"\bplan" + r"\.md\b",
    r"/wor" + "k/",
    r"\bsession" + r"s?\b",
]


def test_no_file_speaks_of_how_it_came_to_be() -> None:
    found = []
    for path in tracked():
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue
        for number, line in enumerate(text.splitlines(), 1):
            found += [
                f"{path.relative_to(ROOT)}:{number}: {line.strip()}"
                for p in NOT_OURS
                if re.search(p, line, re.IGNORECASE)
            ]
    assert not found, "\n".join(found)


def test_examples_say_that_they_are_invented() -> None:
    examples = [*(ROOT / "examples").glob("*.toml"), *(ROOT / "examples").glob("*.py")]
    assert examples
    for path in examples:
        assert "invented" in path.read_text(encoding="utf-8")[:200].lower(), path.name
