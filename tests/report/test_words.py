"""Cases and spelling in the trade's words."""

import pytest

from tests.report.jobs import sized
from transom.job.records import ShopCase
from transom.report.amounts import carried
from transom.report.words import case_words, spelled


@pytest.mark.parametrize(
    "name, words",
    [
        ("once", ""),
        ("bolt-up", "at bolt-up"),
        ("ahead", "full throttle ahead"),
        ("hard-over-starboard", "full throttle, hard over to starboard"),
        (
            "hard-over-port-30-left-hand-light",
            "full throttle, steered 30 deg to port, left-hand propeller, light engine",
        ),
        ("kicker-astern", "kicker alone: full astern"),
        ("road-down-forward-40-mid", "on the trailer, dropping into a hole, braking, tilted 40 deg"),
        ("road-up-port-75", "on the trailer, bouncing up, swaying to port, tilted 75 deg"),
        ("beach-launch-light", "the shop's own case Beach launch (light)"),
    ],
)
def test_cases(name: str, words: str) -> None:
    assert case_words(name, (ShopCase("Beach launch", "ahead", 1.2, "slope"),)) == words


def test_no_case_falls_back_to_its_name() -> None:
    names = sized("example").cases.names
    assert not [n for n in names if case_words(n) == n.replace("-", " ")]
    assert len({case_words(n) for n in names}) == len(names)


def test_spelling_by_units() -> None:
    assert spelled("aluminum at the center line", "si") == "aluminium at the centre line"
    assert spelled("Aluminium, centre", "us") == "Aluminum, center"


def test_a_share_beyond_all_reason_is_no_row_of_figures() -> None:
    assert carried(3.084, "", "bending", "us") == "3.08"
    assert carried(1260078724986.78, "", "pull-and-sideways-in-wood", "us") == "over 1000"
    assert carried(12.0, "", "count", "us") == "12"
