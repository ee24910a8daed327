"""What every candidate of a search costs, for ranking by cost: stacks, backings and bolt lengths priced apart and added."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from transom.estimate.book import Book
from transom.estimate.hours import hours_of
from transom.estimate.lines import Line, charges, lines_of, of_case, taxes
from transom.estimate.money import total
from transom.estimate.needs import needs_of
from transom.estimate.work import Ground, work_of
from transom.frozen import dataclass
from transom.job.records import EngineBolts, Job, Layer, Mount
from transom.setup.facts import Facts, collect
from transom.setup.records import Setup
from transom.sizing.field import Costs
from transom.units import Array

HARDWARE = ("bolt", "nut", "washer", "plate")
PLATES = "plates"  # the operation that grows with the backing
Priced = tuple[int, int]  # missing prices, cents


@dataclass(frozen=True)
class Prepared:
    """A job before there is a judgement."""

    job: Job
    setup: Setup
    facts: Facts


def costs(book: Book) -> Costs:
    """What `size` ranks by: charge and tax if it is only the board, bolts of frame and pod left out.

    These are settled only when a mount is judged, and hardly differ between boards.
    """

    def each(
        setup: Setup, piles: Sequence[tuple[Layer, ...]], sets: Sequence[EngineBolts], lengths: Array
    ) -> tuple[NDArray[np.int_], NDArray[np.int_]]:
        ground = Prepared(setup.job, setup, collect(setup.job, setup.tables))
        boards = [_board(ground, pile, sets[0], book) for pile in piles]
        backings = [_backing(ground, piles[0], bolts, book) for bolts in sets]
        own = [_bolts(ground, piles[0], sets, lengths, book)]
        s, b = np.divmod(np.arange(len(piles) * len(sets)), len(sets))
        parts = [np.array(boards, dtype=int)[s], np.array(backings, dtype=int)[b], *own]
        found = np.sum(parts, axis=0)
        return found[:, 0], found[:, 1]

    return each


def _lines(ground: Ground, mount: Mount, book: Book) -> tuple[Line, ...]:
    """The lines of a mount if only the board is needed."""
    work = work_of(ground, mount, ())
    tables = ground.setup.tables
    hours = hours_of(work, tables, book)
    return of_case(lines_of(needs_of(ground, mount, work, ()), hours, book, tables, None), "dry")


def _cents(lines: Sequence[Line], book: Book) -> Priced:
    amount = charges(lines) + total(t.amount for t in taxes(lines, book))
    return sum(x.missing for x in lines if x.kind != "labour"), int(amount.likely * 100)


def _board(ground: Ground, pile: tuple[Layer, ...], bolts: EngineBolts, book: Book) -> Priced:
    lines = _lines(ground, Mount(pile, bolts if bolts.thread else None), book)
    return _cents([x for x in lines if x.kind not in HARDWARE and x.name != PLATES], book)


def _backing(ground: Ground, pile: tuple[Layer, ...], bolts: EngineBolts, book: Book) -> Priced:
    lines = _lines(ground, Mount(pile, bolts if bolts.thread else None), book)
    return _cents([x for x in lines if x.kind in HARDWARE[1:] or x.name == PLATES], book)


def _bolts(
    ground: Ground, pile: tuple[Layer, ...], sets: Sequence[EngineBolts], lengths: Array, book: Book
) -> NDArray[np.int_]:
    """Engine bolts of each candidate, (n, 2); no stocked length is as good as no price."""
    which = np.arange(len(lengths)) % len(sets)
    found: dict[tuple[str, str, float], Priced] = {}
    out = np.zeros((len(lengths), 2), dtype=int)
    for i, (b, length) in enumerate(zip(which, lengths, strict=True)):
        bolts = sets[int(b)]
        key = (bolts.thread, bolts.grade, float(length))
        if key not in found:
            lines = _lines(ground, Mount(pile, replace(bolts, length=key[2]) if bolts.thread else None), book)
            found[key] = _cents([x for x in lines if x.kind == "bolt"], book) if key[2] or not bolts.thread else (1, 0)
        out[i] = found[key]
    return out
