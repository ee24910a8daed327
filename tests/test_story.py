"""The story of one invented job, from the first question to the last paper."""

import re
from pathlib import Path
from urllib.parse import unquote

import pytest

from examples.story.story import story


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, list[Path]]]:
    folder = tmp_path_factory.mktemp("a shop's folder")
    return folder, story(folder, tell=lambda line: None)


def test_every_step_makes_its_files(told: tuple[Path, dict[str, list[Path]]]) -> None:
    _, made = told
    names = {step: {p.suffix for p in files} for step, files in made.items()}
    assert list(made) == ["new", "size", "review", "draw", "prices", "estimate", "steps", "trial", "record", "pack"]
    assert names["draw"] >= {".pdf", ".dxf", ".svg"}
    assert names["estimate"] >= {".html", ".pdf", ".csv", ".json"}
    assert names["trial"] == {".bak"}
    assert all(p.stat().st_size for files in made.values() for p in files)


def test_the_pack_leads_to_each_of_its_files(told: tuple[Path, dict[str, list[Path]]]) -> None:
    folder, made = told
    page = (folder / "pack" / "index.html").read_text(encoding="utf-8")
    linked = {unquote(name) for name in re.findall(r'href="([^"]+)"', page)}
    assert linked == {p.name for p in made["pack"]} - {"index.html"}
    for heading in ("Build", "Check", "Price"):
        assert f"<h2>{heading}</h2>" in page
    assert "surveyor" in page


def test_each_paper_stands_in_the_log(told: tuple[Path, dict[str, list[Path]]]) -> None:
    folder, _ = told
    logged = (folder / "job-sized.log.jsonl").read_text(encoding="utf-8")
    for command in ("review --html", "draw", "estimate --quote", "steps", "record", "pack"):
        assert command in logged
