"""What a job states and these sums do not carry ends in a stop, never in a silent pass."""

import pytest

from tests.report.jobs import EXAMPLE
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.judge.judging import judge
from transom.report.judgement import as_object
from transom.report.review_screen import review_screen
from transom.report.text import ASCII
from transom.sizing.sizing import size

LINES = 'lines = [{ from = ["-6 in", "0 in"], to = ["-6 in", "18 in"] }, { from = ["6 in", "0 in"], to = ["6 in", "18 in"] }]'


@pytest.mark.parametrize(
    "stop, change",
    [
        ("support-lines", lambda t: t.replace("[frame]\n", f"[frame]\n{LINES}\n")),
    ],
)
def test_it_stops(stop: str, change) -> None:  # type: ignore[no-untyped-def]
    text = EXAMPLE.read_text(encoding="utf-8")
    assert size(loads(text), SHIPPED).passes
    j = size(loads(change(text)), SHIPPED)
    assert [s.name for s in j.stops if s.final] == [stop]
    assert not j.passes


BOUGHT = '\n[bracket]\nkind = "bought"\nsetback = "4 in"\nweight = "20 lb"\n'
ACCEPTED = '\n[[accept]]\nstop = "bracket-not-checked"\nby = "J. Doe"\ndate = 2026-05-04\npaper = "maker\'s letter"\n'


def test_a_bracket_nobody_can_judge_rests_on_its_makers_paper() -> None:
    """Everything else is judged under its loads; the stop passes with name, date and paper, the words stay."""
    text = EXAMPLE.read_text(encoding="utf-8")
    j = size(loads(text + BOUGHT), SHIPPED)
    assert [s.name for s in j.stops if s.stands] == ["bracket-not-checked"]
    assert not j.passes
    assert any(c.startswith("BRACKET NOT CHECKED, rests on its maker's paper") for c in j.cautions)
    assert j.mount is not None
    accepted = judge(loads(text + BOUGHT + ACCEPTED), SHIPPED, j.mount)
    assert accepted.passes
    shown = " ".join("\n".join(review_screen(accepted, ASCII)).split())
    assert shown.count("BRACKET NOT CHECKED, rests on its maker's paper") >= 2
    assert "Accepted by J. Doe, 2026-05-04, on maker's letter" in shown
    case = as_object(accepted)["cases"][0]
    assert len(case["engine_plate_bolts"]) == 4
    assert case["engine_plate_bolts"][0]["tension"] > 0
