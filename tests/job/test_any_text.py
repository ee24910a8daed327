"""Whatever is in the file: a job whose every number is finite, or faults of one line each, and no other exception."""

import dataclasses
import math
from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.job.orders import WHOLE
from transom.errors import JobError
from transom.job.read import loads
from transom.job.records import Job, Layer, Mount
from transom.job.write import with_mount

MOUNT = Mount((Layer("okoume 18 mm", "across"),))
LINES = WHOLE.split("\n")
PIECES = st.sampled_from(
    [*'[]{}="\'#,.?\\-:\n\r\t\x00“”½°', "\r\n", '"""', "'''", "[boat]", "[[case]]", "[mount]", "nan", "-inf", "1e400", "0x10",
     "9" * 40, "2026-02-30", "true", '"?"', '"40 hp"', '"1/0 in"', '"1e9 in"', "kind", "power", "mount.layers", "\ufeff", "\ud800"]
)  # fmt: skip
GARBAGE = st.text(max_size=60) | st.lists(PIECES, max_size=25).map("".join)


def numbers(value: Any) -> Iterator[float]:
    """Every number in a record."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        for f in dataclasses.fields(value):
            yield from numbers(getattr(value, f.name))
    elif isinstance(value, tuple):
        for part in value:
            yield from numbers(part)
    elif isinstance(value, int | float):
        yield value


def read(text: str) -> tuple[Job | None, tuple[str, ...]]:
    """The job, or its faults."""
    try:
        return loads(text), ()
    except JobError as error:
        return None, error.faults


def job_or_faults(text: str) -> None:
    job, faults = read(text)
    if job is None:
        assert faults
        assert all(line and line.isprintable() for line in faults)
        return
    assert all(math.isfinite(n) for n in numbers(job))
    mounted = loads(with_mount(text, MOUNT))
    assert dataclasses.replace(mounted, mount=job.mount, sha256=job.sha256) == job
    assert mounted.mount == MOUNT


@settings(max_examples=250, deadline=None)
@given(GARBAGE)
def test_garbage(text: str) -> None:
    job_or_faults(text)


@settings(max_examples=250, deadline=None)
@given(st.integers(0, len(WHOLE)), st.integers(0, 30), GARBAGE)
def test_a_piece_of_the_work_order_replaced(at: int, length: int, piece: str) -> None:
    job_or_faults(WHOLE[:at] + piece + WHOLE[at + length :])


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, len(LINES) - 1), st.sampled_from(["drop", "twice", "swap", "value"])), max_size=4
    ),
    PIECES,
)
def test_lines_of_the_work_order_lost_doubled_moved_or_answered_otherwise(
    changes: list[tuple[int, str]], piece: str
) -> None:
    lines = list(LINES)
    for i, how in changes:
        if how == "drop":
            lines[i] = ""
        elif how == "twice":
            lines[i] = f"{lines[i]}\n{lines[i]}"
        elif how == "swap":
            lines[i], lines[i - 1] = lines[i - 1], lines[i]
        else:
            lines[i] = f"{lines[i].split('=')[0]}= {piece}"
    job_or_faults("\n".join(lines))
