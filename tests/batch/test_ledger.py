"""The ledger takes up what a killed run left, and nothing else."""

from pathlib import Path

import pytest

from transom.batch.ledger import Ledger, place_of
from transom.errors import JobError

HEAD = {"schema": "transom-batch-1", "columns": ["a"]}


def cells(number: int, more: str = "") -> dict[str, object]:
    return {"row": number, "id": f"{number * 2**40 + 5:016x}", "a": more or f"text {number} ½"}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return place_of(tmp_path / "r.csv")


def filled(path: Path, *numbers: int) -> None:
    ledger = Ledger(path, HEAD, go_on=False)
    for n in numbers:
        ledger.add(cells(n))
    ledger.close()


def test_rows_come_back_in_their_order(path: Path) -> None:
    filled(path, 3, 1, 2)
    ledger = Ledger(path, HEAD, go_on=True)
    assert list(ledger.rows(3)) == [cells(1), cells(2), cells(3)]
    assert ledger.has(2, cells(2)["id"])
    assert not ledger.has(2, cells(3)["id"])
    assert not ledger.has(4, cells(4)["id"])
    assert not ledger.has(0, cells(1)["id"])
    with pytest.raises(LookupError):
        list(ledger.rows(4))
    ledger.close(done=True)
    assert not path.exists()


def test_any_cut_leaves_whole_rows_that_are_taken_up(path: Path) -> None:
    filled(path, 2, 1)
    whole = path.read_bytes()
    ends = [i + 1 for i, b in enumerate(whole) if b == ord("\n")]
    for cut in range(len(whole) + 1):
        path.write_bytes(whole[:cut])
        ledger = Ledger(path, HEAD, go_on=True)
        kept = sum(end <= cut for end in ends[1:])
        assert [ledger.has(n, cells(n)["id"]) for n in (2, 1)] == [kept >= 1, kept >= 2], cut
        for n in (2, 1)[kept:]:
            ledger.add(cells(n))
        assert list(ledger.rows(2)) == [cells(1), cells(2)], cut
        ledger.close()
        assert path.read_bytes() == whole


def test_a_spoilt_line_in_the_middle_is_judged_again(path: Path) -> None:
    filled(path, 1, 2, 3)
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(lines[0] + lines[1] + b"\x00" * 20 + b"\n" + lines[3])
    ledger = Ledger(path, HEAD, go_on=True)
    assert [ledger.has(n, cells(n)["id"]) for n in (1, 2, 3)] == [True, False, True]
    ledger.add(cells(2))
    assert list(ledger.rows(3)) == [cells(1), cells(2), cells(3)]
    ledger.close()


def test_a_row_judged_again_replaces_what_was_there(path: Path) -> None:
    filled(path, 1)
    ledger = Ledger(path, HEAD, go_on=True)
    ledger.add(cells(1, "new"))
    assert list(ledger.rows(1)) == [cells(1, "new")]
    ledger.close()


def test_other_options_are_refused_and_nothing_is_lost(path: Path) -> None:
    filled(path, 1)
    before = path.read_bytes()
    with pytest.raises(JobError, match="other options"):
        Ledger(path, {**HEAD, "columns": ["b"]}, go_on=True)
    assert path.read_bytes() == before


def test_without_go_on_it_begins_anew(path: Path) -> None:
    filled(path, 1, 2)
    ledger = Ledger(path, HEAD, go_on=False)
    assert not ledger.has(1, cells(1)["id"])
    ledger.close()


def test_two_runs_never_write_one_ledger(path: Path) -> None:
    first = Ledger(path, HEAD, go_on=False)
    first.add(cells(1))
    for go_on in (False, True):
        with pytest.raises(JobError, match="another"):
            Ledger(path, HEAD, go_on=go_on)
    assert list(first.rows(1)) == [cells(1)]
    first.close()
    Ledger(path, HEAD, go_on=True).close()


def test_a_place_that_cannot_be_written_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="cannot be written"):
        Ledger(tmp_path / "none" / "r.csv.unfinished", HEAD, go_on=False)
