"""Files: the only job, what cannot be read, and writing the whole file or nothing."""

import os
import stat
import sys
from pathlib import Path

import pytest

from tests.job.orders import WHOLE
from transom.errors import JobError
from transom.job.files import text_of, the_only_job, write_atomic
from transom.job.read import load

JOB = "[boat]\n[engine]\n"


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def said(line: str, call: object, *arguments: object) -> None:
    with pytest.raises(JobError) as caught:
        call(*arguments)  # type: ignore[operator]
    assert caught.value.faults == (line,)


def test_the_only_job_in_a_folder(tmp_path: Path) -> None:
    folder = tmp_path / "a folder with spaces"
    folder.mkdir()
    for name, text in {
        "shop.toml": "[shop]\n[boat]\n[engine]\n", "pyproject.toml": JOB, ".hidden.toml": JOB, "notes.txt": JOB,
        "prices.toml": "[boat]\n", "remarks.toml": "# [boat]\n# [engine]\n",
    }.items():  # fmt: skip
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "folder.toml").mkdir()
    (folder / "latin.toml").write_bytes(b"[boat]\n[engine]\n# caf\xe9\n")
    said(f"no job file in {folder}. Name one, or write one with `transom new`.", the_only_job, folder)
    (folder / "1042.toml").write_text(WHOLE, encoding="utf-8")
    assert the_only_job(folder) == folder / "1042.toml"
    (folder / "1043.toml").write_text("[boat]\nwidth = 24 in\n[engine.bracket]\n", encoding="utf-8")
    said(f"2 job files in {folder}: 1042.toml, 1043.toml. Say which.", the_only_job, folder)


def test_a_job_with_a_fault_in_it_is_found_so_that_the_fault_is_told(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text('[boat]\nwidth = 24 in\n[engine]\npower = "40 hp', encoding="utf-8")
    with pytest.raises(JobError, match="line 2"):
        load(the_only_job(tmp_path))


def test_what_cannot_be_read(tmp_path: Path) -> None:
    missing, wide, latin = tmp_path / "job.toml", tmp_path / "wide.toml", tmp_path / "latin.toml"
    wide.write_bytes(WHOLE.encode("utf-16"))
    latin.write_bytes(b'[boat]\n# caf\xe9\nkind = "pontoon"\n')
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 1_000_001)
    said(f"{missing}: no such file. Check its name, or leave JOB out for the only one here.", load, missing)
    said(f"{wide}: the text is UTF-16. Save it as UTF-8 in the editor.", load, wide)
    said(f"{latin}: the text is not UTF-8 from line 2 on. Save it as UTF-8 in the editor.", load, latin)
    said(f"{large}: larger than 1 MB, no job file. Name the job's own file.", load, large)
    with pytest.raises(JobError, match=r"cannot be read \(.*\)\. Name a job file\."):
        load(tmp_path)


@pytest.mark.parametrize("text", ["plain\n", "a\r\nb\r\n", "\ufeffmarked\n", "½ in, öl\n", ""])
def test_text_is_written_and_read_as_it_stands(tmp_path: Path, text: str) -> None:
    write_atomic(tmp_path / "a.toml", text)
    assert (tmp_path / "a.toml").read_bytes() == text.encode()
    assert text_of(tmp_path / "a.toml") == text


def test_nothing_is_written_over_without_force(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("old", encoding="utf-8")
    said(
        f"{path}: is there already and is left as it is. Choose another name, or add --force.",
        write_atomic,
        path,
        "new",
    )
    assert path.read_text(encoding="utf-8") == "old"
    write_atomic(path, "new", force=True)
    assert path.read_text(encoding="utf-8") == "new"
    assert names(tmp_path) == ["job.toml"]


def test_bytes_too(tmp_path: Path) -> None:
    write_atomic(str(tmp_path / "a.pdf"), b"\x00\xff")
    assert (tmp_path / "a.pdf").read_bytes() == b"\x00\xff"


def test_a_folder_and_a_missing_folder(tmp_path: Path) -> None:
    lost = tmp_path / "lost" / "job.toml"
    said(f"{tmp_path}: is a folder. Name a file in it.", write_atomic, tmp_path, "x", True)
    said(f"{lost}: the folder is not there. Make it first.", write_atomic, lost, "x")


@pytest.mark.parametrize("step", ["replace", "fsync"])
@pytest.mark.parametrize("old", ["old", None])
def test_when_the_disk_fails_nothing_is_half_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, old: str | None
) -> None:
    path = tmp_path / "job.toml"
    if old:
        path.write_text(old, encoding="utf-8")

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    said(f"{path}: cannot be written (no space left on device). Choose another place.", write_atomic, path, "new", True)
    assert names(tmp_path) == ["job.toml"] * bool(old)
    assert not old or path.read_text(encoding="utf-8") == old


def test_a_file_that_appears_meanwhile_is_not_written_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path, fsync = tmp_path / "job.toml", os.fsync

    def slow(number: int) -> None:
        fsync(number)
        path.write_text("somebody else's", encoding="utf-8")

    monkeypatch.setattr(os, "fsync", slow)
    with pytest.raises(JobError, match="is there already"):
        write_atomic(path, "mine")
    assert path.read_text(encoding="utf-8") == "somebody else's"
    assert names(tmp_path) == ["job.toml"]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such permissions, and links need a right")
def test_permissions_and_links_stay(tmp_path: Path) -> None:
    path, link = tmp_path / "job.toml", tmp_path / "link.toml"
    path.write_text("old", encoding="utf-8")
    path.chmod(0o640)
    link.symlink_to(path)
    write_atomic(link, "new", force=True)
    assert link.is_symlink()
    assert path.read_text(encoding="utf-8") == "new"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
