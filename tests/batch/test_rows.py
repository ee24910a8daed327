"""Rows from a folder, a table and one job: all that a job is read from, a fault in its place, ids by content."""

import pickle
import tracemalloc
from dataclasses import replace
from pathlib import Path

import pytest

from tests.batch.jobs import BASE, EXAMPLE, table
from transom.batch.rows import Row, found
from transom.batch.vary import varied
from transom.errors import JobError
from transom.job.read import load


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "b.toml").write_text(BASE, encoding="utf-8")
    (tmp_path / "a.toml").write_bytes(EXAMPLE.read_bytes())
    (tmp_path / "c.toml").write_text("[boat\n[engine]\n[boat]", encoding="utf-8")
    (tmp_path / "prices.toml").write_text("[sheets]\n", encoding="utf-8")
    (tmp_path / "shop.toml").write_text('[stock]\npanels = ["okoume"]\n', encoding="utf-8")
    return tmp_path


def test_a_folder_gives_its_jobs_by_name_and_names_what_it_passes_over(folder: Path) -> None:
    jobs, passed_over = found(folder, None, ())
    rows = list(jobs.rows())
    assert [(r.number, r.job) for r in rows] == [(1, "a.toml"), (2, "b.toml"), (3, "c.toml")]
    assert jobs.total == 3
    assert len(passed_over) == 1
    assert "prices.toml" in passed_over[0]
    with pytest.raises(JobError):
        rows[2].read()


def test_a_row_is_read_as_its_file_is_with_the_shops(folder: Path) -> None:
    jobs, _ = found(folder, None, ())
    a, b, _ = jobs.rows()
    assert a.read() == load(folder / "a.toml")
    assert b.read() == load(folder / "b.toml")
    assert a.read().stock.panels != ("okoume",)
    (folder / "b.toml").write_text(
        BASE.replace('panels = ["douglas-fir-marine"]', "").replace("[boat]", 'shop = "other.toml"\n[boat]')
    )
    (folder / "other.toml").write_text('[stock]\npanels = ["okoume"]\n', encoding="utf-8")
    _, b, _ = jobs.rows()
    assert b.read() == load(folder / "b.toml")
    assert b.read().stock.panels == ("okoume",)
    (folder / "other.toml").unlink()
    _, b, _ = jobs.rows()
    with pytest.raises(JobError, match="no such file beside the job"):
        b.read()


def test_a_row_travels_and_reads_the_same_there(folder: Path) -> None:
    row = next(found(folder, None, varied(["engine.power=40,60 hp"]))[0].rows())
    there = pickle.loads(pickle.dumps(row))
    assert there == row
    assert there.id == row.id
    assert there.read() == row.read()


def test_ids_hang_on_content_alone() -> None:
    row = Row(1, "a.toml", BASE, ("shop.toml", ""), (("engine.power", "40 hp"),))
    assert row.id == replace(row, number=7, job="elsewhere.toml", said=(("x", "y"),)).id
    assert len({r.id for r in (row, replace(row, text=BASE + "#"), replace(row, shop=None), replace(row, changes=()),
                               replace(row, faults=("f",)))}) == 5  # fmt: skip


def test_a_table_states_what_its_rows_change(tmp_path: Path) -> None:
    path = table(tmp_path, good=2, bad=2)
    jobs, _ = found(path, tmp_path / "base.toml", varied(["boat.service=calm,open"]))
    rows = list(jobs.rows())
    assert jobs.total is None
    assert [r.number for r in rows] == list(range(1, 9))
    assert rows[0].job == rows[1].job == "jobs.csv:2"
    assert jobs.said == ("engine.power", "engine.weight", "job.number", "boat.service")
    assert dict(rows[1].said) == {
        "engine.power": "40 hp",
        "engine.weight": "240 lb",
        "job.number": "0",
        "boat.service": "open",
    }
    job = rows[1].read()
    assert job.boat.service == "open"
    assert job.head.number == "0"
    with pytest.raises(JobError, match="forty"):
        rows[2].read()


def test_a_table_without_a_base_holds_whole_jobs(tmp_path: Path) -> None:
    path = tmp_path / "jobs.csv"
    path.write_text("\ufeffboat.kind,boat.plate_power,engine.power,board.width,board.height,frame.kind,frame.bolts.count\r\n"
                    'pontoon,50 hp,40 hp,"24 in","18"" ",pod,\r\n\r\n'
                    "pontoon,50 hp\r\n", encoding="utf-8")  # fmt: skip
    rows = list(found(path, None, ())[0].rows())
    assert len(rows) == 2
    assert rows[0].read().board.height == pytest.approx(457.2)
    with pytest.raises(JobError, match="line 4: 2 cells under 7 columns"):
        rows[1].read()


@pytest.mark.parametrize(
    "text, says",
    [
        (b"", "no header"),
        (b"engine.power;board.width\n40 hp;24 in\n", "not parted by commas"),
        (b"engine.power,engine.power\n", "stands twice"),
        (b"engine.pwoer\n40 hp\n", "Did you mean engine.power"),
        (b"engine.power,\n40 hp,\n", "no such key"),
        (b"boat.service\ncalm\n", "--vary states it too"),
        (b"engine.power\n\xff\xfe\n", "UTF-8"),
    ],
)
def test_a_table_that_cannot_be_read_is_refused(tmp_path: Path, text: bytes, says: str) -> None:
    path = tmp_path / "jobs.csv"
    path.write_bytes(text)
    with pytest.raises(JobError, match=says):
        list(found(path, None, varied(["boat.service=calm,open"]))[0].rows())


def test_places_without_jobs_are_refused(tmp_path: Path) -> None:
    for path, base in (
        (tmp_path, None),
        (tmp_path / "none.toml", None),
        (tmp_path / "none.csv", None),
        (EXAMPLE, EXAMPLE),
    ):
        with pytest.raises(JobError):
            found(path, base, ())
    (tmp_path / "jobs.csv").write_text("engine.power\n40 hp\n")
    with pytest.raises(JobError, match="no such file"):
        found(tmp_path / "jobs.csv", tmp_path / "none.toml", ())


def test_rows_of_a_large_grid_are_never_all_in_memory() -> None:
    jobs, _ = found(EXAMPLE, None, varied(["board.width=20 to 28 step 0.01 in", "engine.weight=200 to 300 step 10 lb"]))
    assert jobs.total == 801 * 11
    rows = jobs.rows()
    next(rows)
    tracemalloc.start()
    count = sum(1 for _ in rows)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert count == 801 * 11 - 1
    assert most < 500_000
