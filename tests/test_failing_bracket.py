"""The failing bracket fails for the three things planted in it and nothing else; mending one clears that one alone."""

from itertools import combinations
from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.judge.judging import judge
from transom.report.review_screen import review_screen
from transom.report.text import ASCII

TEXT = (Path(__file__).parents[1] / "examples" / "custom-bracket-failing.toml").read_text(encoding="utf-8")
EIGHT = "".join(
    f'[[crossmembers.holes]]\ny = "{y} in"\nforward = "{forward} in"\n\n'
    for forward in (6, 22, 38, 54)
    for y in (-10, 10)
)


def both_faces(text: str) -> str:
    return text.replace('sides = "one" ', 'sides = "both"')


def wide_plate(text: str) -> str:
    return text.replace('edge = "5/8 in" ', 'edge = "1-1/2 in"')


def eight_bolts(text: str) -> str:
    start, end = text.index("[[crossmembers.holes]]"), text.index("[bracket]  ")
    return text[:start].replace("count = 3\n", "count = 8\n") + EIGHT + text[end:]


MENDS = {both_faces: "bracket.weld-base.lines", wide_plate: "bracket.engine-plate-edge",
         eight_bolts: "crossmembers.wall-pull-through.adm"}  # fmt: skip


def failing(text: str) -> set[str]:
    """Part, what and rule of every check that fails in any case."""
    job = loads(text)
    assert job.mount is not None
    j = judge(job, SHIPPED, job.mount)
    assert not any(s.stands for s in j.stops)
    assert j.passes is not bool(j.failing)
    return {".".join(p for p in (c.part, c.what, c.rule) if p) for c in j.deciding if not c.passes}


def test_each_mend_changes_the_text() -> None:
    assert all(mend(TEXT) != TEXT for mend in MENDS)


@pytest.mark.parametrize("mended", [c for k in (0, 1, 3) for c in combinations(MENDS, k)],
                         ids=lambda c: "+".join(m.__name__ for m in c) or "as built")  # fmt: skip
def test_it_fails_for_what_is_left_and_nothing_else(mended: tuple) -> None:  # type: ignore[type-arg]
    text = TEXT
    for mend in mended:
        text = mend(text)
    assert failing(text) == {name for mend, name in MENDS.items() if mend not in mended}


def test_the_screen_names_the_three_and_their_cures() -> None:
    job = loads(TEXT)
    assert job.mount is not None
    shown = " ".join("\n".join(review_screen(judge(job, SHIPPED, job.mount), ASCII)).split())
    assert "DOES NOT PASS 3 of" in shown
    for words in ("bracket's welds at the base", "bracket's engine plate, hole to its edge", "pod bolts pulling through crossmembers",
                  "both faces of each side plate", "holes farther in"):  # fmt: skip
        assert words in shown, words
