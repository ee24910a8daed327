"""`--maps DIR`: three files beside the answer, whole or not at all, never over others unless forced."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.report.jobs import EXAMPLE, TEXTS
from transom.cli import main as command

NAMES = ["job-deflection.svg", "job-limit.svg", "job-pads.svg"]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    place = tmp_path / "shop floor"
    place.mkdir()
    (place / "job.toml").write_bytes(EXAMPLE.read_bytes())
    monkeypatch.chdir(place)
    return place


def test_size_and_review_draw_them(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", "job.toml", "--maps", "maps", "--write", "sized.toml"]) == 0
    out, err = capsys.readouterr()
    assert " WORKS" in out
    assert err.count(": drawn") == 3
    assert sorted(p.name for p in (folder / "maps").iterdir()) == NAMES
    for name in NAMES:
        ElementTree.fromstring((folder / "maps" / name).read_bytes())
    assert command.main(["review", "sized.toml", "--maps", "maps", "--json"]) == 0
    assert capsys.readouterr().out.startswith("{")
    for name in NAMES:
        same = (folder / "maps" / name.replace("job", "sized")).read_bytes()
        assert same == (folder / "maps" / name).read_bytes()


def test_nothing_is_written_over_unless_forced(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "maps").mkdir()
    mine = folder / "maps" / "job-limit.svg"
    mine.write_text("mine", encoding="utf-8")
    assert command.main(["size", "job.toml", "--maps", "maps"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "job-limit.svg" in err
    assert "--force" in err
    assert [p.name for p in (folder / "maps").iterdir()] == ["job-limit.svg"]
    assert mine.read_text(encoding="utf-8") == "mine"
    assert command.main(["size", "job.toml", "--maps", "maps", "--force"]) == 0
    assert mine.read_text(encoding="utf-8").startswith("<?xml")


def test_a_file_where_the_folder_should_be(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["size", "job.toml", "--maps", "job.toml"]) == 2
    assert "Choose another place" in capsys.readouterr().err
    assert (folder / "job.toml").read_bytes() == EXAMPLE.read_bytes()
    assert command.main(["size", "job.toml", "--maps", "no/such"]) == 2


def test_no_mount_no_maps(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "large.toml").write_text(TEXTS["too large"], encoding="utf-8")
    assert command.main(["size", "large.toml", "--maps", "maps"]) == 1
    assert "no maps" in capsys.readouterr().err
    assert not (folder / "maps").exists()
