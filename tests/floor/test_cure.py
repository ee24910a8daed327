"""Cure by temperature: the doubling rule by hand, the floor of the glue, and what is refused."""

import pytest

from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.floor.cure import curing, time_at


def test_times_double_for_each_step_colder() -> None:
    """16 h at 20 C: 32 h at 10 C, 8 h at 30 C, and 16 x 2^0.2 = 18.38 h at 18 C."""
    assert time_at(16.0, 1.0) == 32.0
    assert time_at(16.0, -1.0) == 8.0
    assert time_at(16.0, 0.2) == pytest.approx(18.379, abs=1e-3)


def test_the_shops_temperature_decides() -> None:
    assert curing(SHIPPED, "structural epoxy", 20.0).hours("work") == pytest.approx(16.0)
    cold = curing(SHIPPED, "structural epoxy, cold hardener", 10.0)
    assert cold.hours("hang") == pytest.approx(48.0)
    assert not cold.assumed
    assert curing(SHIPPED, "structural epoxy", None).assumed


@pytest.mark.parametrize(
    ("glue", "at", "says"),
    [
        ("structural epoxy", 15.9, "Heat shop and wood, or wait"),
        ("structural epoxy", 12.0, "cold hardener would cure"),
        ("structural epoxy", 31.0, "sets in the pot"),
        ("structural epoxy, cold hardener", 4.0, "does not cure below"),
        ("PVA D3", 20.0, "holds no mount"),
        ("chewing gum", 20.0, "is no glue"),
    ],
)
def test_what_does_not_cure_is_refused(glue: str, at: float, says: str) -> None:
    with pytest.raises(JobError, match=says):
        curing(SHIPPED, glue, at)


def test_at_its_floor_it_cures() -> None:
    assert curing(SHIPPED, "structural epoxy", 16.0).hours("clamp") > 10.0
