"""What a job states and these sums do not carry ends in a stop, never in a silent pass."""

import pytest

from tests.report.jobs import EXAMPLE
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.sizing.sizing import size

LINES = 'lines = [{ from = ["-6 in", "0 in"], to = ["-6 in", "18 in"] }, { from = ["6 in", "0 in"], to = ["6 in", "18 in"] }]'


@pytest.mark.parametrize(
    "stop, change",
    [
        ("setback-bracket", lambda t: t + '\n[bracket]\nsetback = "20 in"\nweight = "60 lb"\n'),
        ("support-lines", lambda t: t.replace("[frame]\n", f"[frame]\n{LINES}\n")),
    ],
)
def test_it_stops(stop: str, change) -> None:  # type: ignore[no-untyped-def]
    text = EXAMPLE.read_text(encoding="utf-8")
    assert size(loads(text), SHIPPED).passes
    j = size(loads(change(text)), SHIPPED)
    assert [s.name for s in j.stops if s.final] == [stop]
    assert not j.passes
