"""The height on the screen: where to start, what practice it is, what to look at again."""

from dataclasses import replace
from functools import cache

from tests.checks.shop import JOB, MOUNT
from transom.catalogue import SHIPPED
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.height import height_block, height_table, height_words


@cache
def judged(kind: str = "pontoon", bottom: float | None = 508.0) -> Judgement:
    return judge(replace(JOB, boat=replace(JOB.boat, kind=kind, bottom=bottom)), SHIPPED, MOUNT, careful=False)


def test_where_to_start_and_what_to_look_at() -> None:
    text = height_words(judged())
    assert text.startswith("start by hole 1 (lowest): cav plate level with the tube bottom")
    for part in ("shop practice starts 1 in below to 1 in above", "Then test", "After any move: steering lock to lock"):
        assert part in text


def test_a_bottom_nobody_taped_is_said_to_be_assumed() -> None:
    assert "assumed at the shaft class: tape it" in height_words(judged(bottom=None))
    assert "assumed" not in height_words(judged())


def test_a_hull_is_no_tube_and_out_of_the_band_is_said() -> None:
    assert "HIGHER than shop practice" in height_words(judged("aluminium hull", 560.0))
    assert "LOWER than shop practice" in height_words(judged("aluminium hull", 400.0))
    assert "tube" not in height_words(judged("aluminium hull", 400.0))


def test_lines_keep_to_eighty_columns() -> None:
    lines = [*height_block(judged()), *height_table(judged())]
    assert max(len(line) for line in lines) <= 80
    assert sum("above" in line for line in lines) > 3
