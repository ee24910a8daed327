"""What the boat has to hold, as a table: every line in every situation, its worst either way."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT
from transom.catalogue import SHIPPED
from transom.checks.plate_reactions import held
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.report.holds import _most, boat_holds


@cache
def judged(kind: str = "pod") -> Judgement:
    at = (-225.0, 225.0) if kind == "uprights" else ()
    return judge(replace(JOB, frame=replace(JOB.frame, kind=kind, at=at)), SHIPPED, MOUNT, add=True)


@pytest.mark.parametrize(("kind", "lines"), [("pod", ("port side", "starboard side", "bottom", "crossmember 1")),
                                             ("uprights", ("port side", "starboard side")),
                                             ("cap rail", ("bottom", "top"))])  # fmt: skip
def test_every_line_of_every_situation_stands_in_it(kind: str, lines: tuple[str, ...]) -> None:
    j = judged(kind)
    text = [*boat_holds(j)]
    assert max(len(line) for line in text) <= 80
    for line in lines:
        assert sum(f" {line} " in f"{row} " for row in text) == len(set(j.cases.of))
    assert any("no safety factor in" in row for row in text)
    assert ("POD TO CROSSMEMBERS" in "\n".join(text)) is (kind == "pod")


def test_the_worst_either_way_by_hand() -> None:
    """Fx 100, -300, 50; Fy 10, -20, 5; Fz -400, 200, 0: aft 100, forward 300, up or down 400, sideways 20; by the
    upward axis down 400 comes first, then up 200."""
    w = np.zeros((3, 6))
    w[:, :3] = [[100, 10, -400], [-300, -20, 200], [50, 5, 0]]
    assert _most(w, (0, 2, 1)) == (100.0, 300.0, 400.0, 20.0)
    assert _most(w, (2, 0, 1)) == (400.0, 200.0, 300.0, 20.0)


def test_mirrored_cases_hold_alike_on_both_sides() -> None:
    """Hard over is judged to both sides: port and starboard come to the same worst, though no single case does."""
    j = judged()
    assert j.careful is not None
    lines = {name: wrench for name, _, wrench in held(j.careful).of_lines()}
    over = np.array([of == "hard-over" for of in j.cases.of])
    port, starboard = (lines[f"{side} side"][over] for side in ("port", "starboard"))
    assert _most(port, (0, 2, 1)) == pytest.approx(_most(starboard, (0, 2, 1)), rel=1e-6)
    assert not np.allclose(port[:, 0], starboard[:, 0], rtol=1e-3)
