"""Hours in the trade's bands, in quarters; days that wait for the cure; all of it the shop's to change."""

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.estimate.shop import book, judged, priced
from transom.catalogue import SHIPPED
from transom.estimate.book import Book
from transom.estimate.hours import cure, days_of, hours_of, quarters
from transom.estimate.lines import hours_in, of_case
from transom.estimate.records import Estimate
from transom.estimate.work import Work, work_of
from transom.floor.cure import curing

POWERS = (7.4, 18.6, 29.8, 44.7, 67.1, 111.9)  # kW: 9.9 to 150 hp


def work(**changes: object) -> Work:
    """A usual pontoon board: 24 x 18 in, three layers, 12 bolts of the frame, 8 of the pod, four plates."""
    j = judged()
    assert j.mount is not None
    usual = {"frame": "pod", "layers": 3, "holes": 12, "frame_bolts": 16, "plates": 4, "boat": "pontoon"}
    return replace(work_of(j, j.mount, ()), **(usual | changes))  # type: ignore[arg-type]


def total(w: Work, end: str = "likely", case: str = "dry", b: Book | None = None) -> Decimal:
    found = hours_of(w, SHIPPED, b or book())
    ranks = ("dry", "wet", "frame")
    return sum((getattr(h, end) for h in found if ranks.index(h.operation.case) <= ranks.index(case)), Decimal(0))


@pytest.mark.parametrize("power", POWERS)
@pytest.mark.parametrize("layers", [2, 3, 4])
def test_a_sound_pontoon_board_takes_what_the_trade_says(power: float, layers: int) -> None:
    """14 to 23 h, common practice."""
    assert 14 <= total(work(power=power, layers=layers)) <= 23


def test_low_and_high_of_a_usual_pontoon_board_stay_in_the_band() -> None:
    assert total(work(), "low") >= 14
    assert total(work(), "high") <= 23


@pytest.mark.parametrize("power", POWERS)
def test_a_capped_aluminium_transom_takes_what_the_trade_says(power: float) -> None:
    """15 to 30 h, common practice; low and high too, up to 90 hp."""
    w = work(power=power, boat="aluminium hull", frame="cap rail", holes=18, frame_bolts=14)
    assert 15 <= total(w, "low") < total(w) <= 30
    assert total(w, "high") <= 30 or power > 70


@pytest.mark.parametrize("grows", ["area", "layers", "holes", "frame_bolts", "plates", "power"])
def test_more_of_anything_takes_longer(grows: str) -> None:
    w = work()
    assert total(replace(w, **{grows: 2 * getattr(w, grows)})) > total(w)


def test_glass_and_aluminium_take_longer_than_a_pontoon() -> None:
    assert total(work()) < total(work(boat="aluminium hull")) < total(work(boat="glass hull"))


@pytest.mark.parametrize(("hours", "said"), [(0.01, "0.25"), (0.25, "0.25"), (0.2500001, "0.50"), (1.7, "1.75"), (2.0, "2.00"),
                                             (0.1 + 0.2 + 0.7, "1.00")])  # fmt: skip
def test_quarters_round_up_and_dust_starts_none(hours: float, said: str) -> None:
    assert str(quarters(hours)) == said


def test_one_layer_is_not_laminated() -> None:
    assert "laminate" not in {h.operation.name for h in hours_of(work(layers=1), SHIPPED, book())}


def test_the_shops_own_hours_go_before_the_table() -> None:
    own = book(("[[sheet]]", '[[hours]]\noperation = "strip"\nbase_h = 6\n[[sheet]]'))
    found = {h.operation.name: h for h in hours_of(work(), SHIPPED, own)}
    assert found["strip"].own
    assert found["strip"].likely == quarters(6 + 0.06 * 16)
    assert not found["cut"].own


def test_every_row_says_it_is_an_estimate_of_shop_practice() -> None:
    assert {r.evidence for r in SHIPPED.rows("labour")} <= {"estimate", "common practice"}


# Days


def days(temperature: float | None, case: str = "dry") -> tuple[int, int, int]:
    b = book()
    d = days_of(hours_of(work(), SHIPPED, b), case, b, SHIPPED, temperature)
    return d.low, d.likely, d.high


def test_days_by_hand_at_20_degrees() -> None:
    """Likely, days of 8 h from hour 0: looking, taking out and gluing 8.00 h, day 1 to its end; 16 h of cure to hour 24; bore
    1.75 h, day 2, hour 25.75; 16 h to hour 41.75, which waits for the morning of day 3, 48; plates and coats 3 h, 51; 48 h until
    the engine may be hung, 99, day 5; fit and hang 4.25 h, 103.25; 48 h more until full throttle, 151.25, day 7,
    three quarters of an hour before it ends; the trial's last quarter falls on day 8.
    """
    found = {h.operation.name: h.likely for h in hours_of(work(), SHIPPED, book())}
    first = ("inspect", "engine-off", "strip", "template", "cut", "laminate")
    assert sum(found[n] for n in first) == Decimal("8.00")
    assert found["bore"] == Decimal("1.75")
    assert found["plates"] + found["coat"] == Decimal("3.00")
    assert found["fit"] + found["engine-on"] == Decimal("4.25")
    assert days(20.0)[1] == 8


@pytest.mark.parametrize(("stage", "temperature", "hours"), [
    ("work", 20.0, 16.0), ("work", 30.0, 8.0), ("hang", 20.0, 48.0), ("load", 20.0, 48.0), ("none", 20.0, 0.0),
    ("work", 16.0, 21.1), ("work", 5.0, 21.1), ("work", None, 18.4),
])  # fmt: skip
def test_cure_doubles_for_ten_degrees_down_to_the_glues_floor(
    stage: str, temperature: float | None, hours: float
) -> None:
    """16 x 2^0.4 = 21.1 at the floor of 16 degrees; 16 x 2^0.2 = 18.4 at the 18 assumed."""
    assert cure(stage, SHIPPED, temperature) == hours


@pytest.mark.parametrize("temperature", [16.0, 18.0, 20.0, 25.0])
def test_cures_are_those_of_the_builds_steps(temperature: float) -> None:
    glue = curing(SHIPPED, "structural epoxy", temperature)
    assert cure("work", SHIPPED, temperature) == round(glue.hours("work"), 1)
    assert cure("hang", SHIPPED, temperature) == round(glue.hours("hang"), 1)
    assert cure("work", SHIPPED, None) == round(glue_assumed(), 1)


def glue_assumed() -> float:
    return curing(SHIPPED, "structural epoxy", None).hours("work")


def test_a_cold_shop_waits_longer_and_a_longer_day_is_no_slower() -> None:
    assert days(16.0) > days(20.0)
    long_days = replace(book(), hours_a_day=Decimal(10))
    d = days_of(hours_of(work(), SHIPPED, long_days), "dry", long_days, SHIPPED, 20.0)
    assert d.likely <= days(20.0)[1]


def test_days_and_hours_are_told_apart() -> None:
    e: Estimate = priced()
    assert e.dry.days.likely < e.dry.hours.likely
    assert e.dry.days.later
    assert len(e.dry.days.waits) == 4
    assert days(20.0, "frame")[1] >= days(20.0, "wet")[1] >= days(20.0)[1]


def test_more_is_found_more_hours() -> None:
    lines = priced().cases[-1].lines
    dry, wet, frame = (hours_in(of_case(lines, c)).likely for c in ("dry", "wet", "frame"))
    assert dry < wet < frame
