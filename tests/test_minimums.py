"""`.ci/minimums.txt` is pyproject's lowest versions, each exactly: what `.ci/minimums` installs and tries."""

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
LOWEST = re.compile(r"([A-Za-z0-9_.-]+)>=([0-9.]+)")


def minimums() -> list[str]:
    """Every library that runs or tests the tool, at the lowest version that pyproject allows."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    found = [LOWEST.fullmatch(each) for each in asked]
    assert all(found), "a requirement names one lowest version and nothing else"
    return [f"{m[1]}=={m[2]}" for m in found if m]


def test_the_constraints_are_the_lowest_versions_of_pyproject() -> None:
    lines = (ROOT / ".ci" / "minimums.txt").read_text(encoding="utf-8").splitlines()
    assert [line for line in lines if not line.startswith("#")] == minimums()


def test_ci_tries_them() -> None:
    assert "bash .ci/minimums" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_every_library_of_the_tool_is_on_the_reviewed_list() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    listed = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## Libraries")[1].split("\n## ")[0]
    for each in (*project["dependencies"], *extras["cluster"], *extras["parquet"]):
        name = re.split(r"[<>=]", each)[0]
        assert re.search(rf"^\| [^|]*\b{name}\b", listed, re.MULTILINE), name
