"""A whole work order, and what is said when somebody spoils it."""

from pathlib import Path

import pytest

from transom.errors import JobError
from transom.job.read import loads

WHOLE = Path(__file__).with_name("whole.toml").read_text(encoding="utf-8")


def changed(*swaps: tuple[str, str]) -> str:
    """The whole work order with these pieces of text replaced."""
    text = WHOLE
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def faults(text: str) -> tuple[str, ...]:
    """Every line that a text's faults give."""
    with pytest.raises(JobError) as caught:
        loads(text)
    lines: tuple[str, ...] = caught.value.faults
    assert all(len(line.splitlines()) == 1 and line.isprintable() for line in lines)
    return lines
