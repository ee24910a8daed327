"""No check that a wrong sign, a swapped axis or a forgotten factor could get past: one card and more for each of them."""

import re
from functools import cache

import pytest

from tests.checks.shop import found
from tests.unsafe import board, bolts, bracket, clamps, fit, frame, loads, pod
from tests.unsafe.cards import OVER, Card
from transom.report.words import CHECKS, NUMBERED
from transom.result import CheckArray

CARDS = tuple(c for m in (board, bolts, bracket, clamps, fit, frame, loads, pod) for c in m.CARDS)
IDS = [f"{c.check}-{i}" for i, c in enumerate(CARDS)]
# Judged nowhere but where a name has a number: `opening-1`.
_NUMBER = re.compile(r"-\d+$")


@cache
def judged(i: int) -> dict[str, CheckArray]:
    """Every check at the load of one card, judged once."""
    return found(CARDS[i].at(CARDS[i].times()))


@pytest.mark.parametrize("i", range(len(CARDS)), ids=IDS)
def test_what_is_just_over_by_hand_fails(i: int) -> None:
    card: Card = CARDS[i]
    right = card.hand(card.times())
    assert right >= OVER - 1e-9
    check = judged(i)[card.check]
    worst = float(check.worst.max())
    assert worst > 1.0
    assert not all(row.passes for row in check.rows())
    assert worst == pytest.approx(right, rel=card.exact)


SLIPS = [(i, slip) for i, c in enumerate(CARDS) for slip in c.slips]


@pytest.mark.parametrize("i, slip", SLIPS, ids=[f"{CARDS[i].check}-{i}-{slip}" for i, slip in SLIPS])
def test_a_slip_would_pass_it(i: int, slip: str) -> None:
    """What makes the card worth having: with the slip the same mount, under the same load, comes out under its limit."""
    card = CARDS[i]
    assert card.hand(card.times(), **card.slips[slip]) < 1.0


def test_every_card_has_a_slip() -> None:
    assert all(c.slips for c in CARDS)


def test_no_check_escapes() -> None:
    """Whoever adds a check adds a card: every name the screen has words for, and every rule any of these jobs is judged by."""
    carded = {c.check for c in CARDS}
    plain = {_NUMBER.sub("", ".".join(name.split(".")[:2])) for name in carded}
    worded = {f"{part}.{what}" for part, what in (*CHECKS, *NUMBERED)}
    assert worded - plain == set()
    met = {_NUMBER.sub("", n) if n.count(".") == 1 else n for i in range(len(CARDS)) for n in judged(i)}
    one = {_NUMBER.sub("", n) if n.count(".") == 1 else n for n in carded}
    assert {re.sub(r"-\d+(?=\.|$)", "", n) for n in met} - {re.sub(r"-\d+(?=\.|$)", "", n) for n in one} == set()
