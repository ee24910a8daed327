"""The fewest half sheets that some blanks can be sawn from, offcuts first, and the largest piece left over.

Placement is rectpack's, by guillotine splits alone: what a saw cannot cut straight through is no nest. The
order in which blanks are placed is what is searched: every one of up to four blanks; of more, largest first
by several measures, and from there by steps that leave no more wood without a place. Always the same steps.
"""

import random
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import islice, permutations, product
from typing import Any

from transom.nesting.records import HALF, WHOLE, Blank, Box, Nest, Placed, Stuff, halves_of
from transom.nesting.saw import NEAR, sawn

FEW = 4  # blanks of which every order is tried
STEPS = 120  # of the search from the best order of each rule
ENOUGH = 50  # nests that are compared by what they keep
_FINE = 100  # the packer counts in hundredths of a millimeter: whole numbers add up
_RULES = ("BssfSas", "BafLas", "BafSas", "BssfLas", "BafMaxas", "BlsfSlas")

Order = tuple[int, ...]
Places = dict[int, tuple[int, int, int]]  # piece and lower corner of each blank


class NoneBigEnoughError(ValueError):
    """A blank is larger than a whole sheet and every offcut."""


def nest(
    blanks: Sequence[Blank], sheet: tuple[float, float], kerf: float, offcuts: Sequence[Stuff] = ()
) -> tuple[Nest, ...]:
    """Blanks on as few half sheets as found, after the offcuts; on as many, the one that keeps the largest piece.

    `sheet` is length along the face grain and width, mm. A half is a sheet cut across its middle. Two halves
    bought are taken as a whole sheet, which does all that they do.

    Raises:
        NoneBigEnoughError: a blank that fits neither the sheet nor an offcut.

    Two boards of 24 x 18 in side by side on half a sheet of 8 x 4 ft:

    >>> boards = [Blank(f"layer {i}", 610.0, 458.0) for i in (1, 2)]
    >>> len(nest(boards, (2440.0, 1220.0), kerf=3.0)), halves_needed(boards, (2440.0, 1220.0), kerf=3.0)
    (1, 1)
    """
    best: tuple[Nest, ...] = ()
    for stuff in _bought(blanks, sheet, kerf, offcuts):
        for places in islice(_all_placed(blanks, stuff, kerf), ENOUGH):
            nests = _nests(blanks, stuff, places, kerf)
            best = nests if not best or _kept(nests) > _kept(best) else best
        if best:
            break
    return best


def halves_needed(
    blanks: Sequence[Blank], sheet: tuple[float, float], kerf: float, offcuts: Sequence[Stuff] = ()
) -> int:
    """Half sheets that `nest` buys, without laying them out.

    Raises:
        NoneBigEnoughError: a blank that fits neither the sheet nor an offcut.
    """
    for stuff in _bought(blanks, sheet, kerf, offcuts):
        for places in _all_placed(blanks, stuff, kerf):
            return sum(stuff[k].halves for k in {place[0] for place in places.values()})
    return 0


def _bought(
    blanks: Sequence[Blank], sheet: tuple[float, float], kerf: float, offcuts: Sequence[Stuff]
) -> Iterator[list[Stuff]]:
    """What may be cut from: the offcuts and more and more half sheets, to a sheet for each blank."""
    whole = Stuff(WHOLE, *sheet, WHOLE)
    half = Stuff(HALF, (sheet[0] - kerf) / 2, sheet[1], HALF)
    for blank in blanks:
        if not any(_fits(blank, stuff) for stuff in (whole, *offcuts)):
            raise NoneBigEnoughError(f"{blank.name}: larger than a whole sheet")
    there = sorted(offcuts, key=lambda s: (s.area, s.length, s.name))
    for halves in range(_least(blanks, whole, there, kerf), 2 * len(blanks) + 1):
        yield [*there, *[half] * (halves % 2), *[whole] * (halves // 2)]


def _fits(blank: Blank, stuff: Stuff) -> bool:
    return blank.length <= stuff.length + NEAR and blank.width <= stuff.width + NEAR


def _least(blanks: Sequence[Blank], whole: Stuff, offcuts: Sequence[Stuff], kerf: float) -> int:
    """Half sheets that no nest can do without, by area."""

    def with_kerf(length: float, width: float) -> float:
        return (length + kerf) * (width + kerf)

    area = sum(with_kerf(b.length, b.width) for b in blanks)
    left = area - sum(with_kerf(s.length, s.width) for s in offcuts)
    a_half = with_kerf(whole.length, whole.width) / 2
    return max(-int(-(left - NEAR) // a_half), 0) if left > NEAR else 0


def _all_placed(blanks: Sequence[Blank], stuff: Sequence[Stuff], kerf: float) -> Iterator[Places]:
    """Every way found to place all the blanks, each once."""
    seen: set[tuple[tuple[int, int, int], ...]] = set()
    for places in _tries(blanks, stuff, kerf):
        if len(places) == len(blanks) and (key := tuple(sorted(places.values()))) not in seen:
            seen.add(key)
            yield places


def _tries(blanks: Sequence[Blank], stuff: Sequence[Stuff], kerf: float) -> Iterator[Places]:
    """Placements, whole or not: the orders to start from by every rule, then steps from the best of each rule."""
    best: dict[str, tuple[float, Order]] = {}
    for order, rule in product(_orders(blanks), _RULES):
        places = _placed(blanks, order, stuff, kerf, rule)
        best[rule] = min(best.get(rule, (float("inf"), order)), (_without(blanks, places), order))
        yield places
    if len(blanks) <= FEW:
        return
    for rule in _RULES:
        yield from _steps(blanks, stuff, kerf, rule, *best[rule])


def _steps(
    blanks: Sequence[Blank], stuff: Sequence[Stuff], kerf: float, rule: str, least: float, order: Order
) -> Iterator[Places]:
    """Two blanks change places, or one moves; kept where no more wood is left without a place."""
    seeded = random.Random(len(blanks))
    for _ in range(STEPS):
        i, j = seeded.sample(range(len(order)), 2)
        moved = list(order)
        if seeded.random() < 0.5:
            moved[i], moved[j] = moved[j], moved[i]
        else:
            moved.insert(j, moved.pop(i))
        places = _placed(blanks, tuple(moved), stuff, kerf, rule)
        yield places
        if (area := _without(blanks, places)) <= least:
            least, order = area, tuple(moved)


def _without(blanks: Sequence[Blank], places: Places) -> float:
    """Area of the blanks that found no place, mm2."""
    return sum(b.area for i, b in enumerate(blanks) if i not in places)


def _kept(nests: tuple[Nest, ...]) -> tuple[float, ...]:
    """What makes one nest better than another: little bought, few pieces begun, large pieces left over."""
    areas = sorted((box.area for n in nests for box in n.left), reverse=True)
    return (-halves_of(nests), -len(nests), *(round(a) for a in areas[:2]))


def _orders(blanks: Sequence[Blank]) -> Iterator[Order]:
    """Orders to start from: every one of few blanks, else largest first by five measures; like blanks once."""
    measures: tuple[Callable[[Blank], float], ...] = (
        lambda b: b.area, lambda b: max(b.length, b.width), lambda b: b.length, lambda b: b.width,
        lambda b: b.length + b.width,
    )  # fmt: skip
    ways = permutations(range(len(blanks))) if len(blanks) <= FEW else (_sorted(blanks, m) for m in measures)
    seen: set[tuple[tuple[float, float], ...]] = set()
    for order in ways:
        key = tuple((blanks[i].length, blanks[i].width) for i in order)
        if key not in seen:
            seen.add(key)
            yield order


def _sorted(blanks: Sequence[Blank], measure: Callable[[Blank], float]) -> Order:
    def key(i: int) -> tuple[float, ...]:
        return (-measure(blanks[i]), -blanks[i].length, -blanks[i].width, i)

    return tuple(sorted(range(len(blanks)), key=key))


def _placed(blanks: Sequence[Blank], order: Order, stuff: Sequence[Stuff], kerf: float, rule: str) -> Places:
    """Piece and lower corner of each blank that found room, in hundredths; blanks and pieces grow by a kerf."""
    from rectpack import SORT_NONE, PackingBin, PackingMode, newPacker  # type: ignore[import-untyped]

    packer = newPacker(
        mode=PackingMode.Offline, bin_algo=PackingBin.BFF, pack_algo=_rule(rule), sort_algo=SORT_NONE, rotation=False
    )
    for i in order:
        packer.add_rect(_up(blanks[i].length + kerf), _up(blanks[i].width + kerf), rid=i)
    for k, piece in enumerate(stuff):
        packer.add_bin(_down(piece.length + kerf), _down(piece.width + kerf), bid=k)
    packer.pack()
    return {rect.rid: (bin_.bid, rect.x, rect.y) for bin_ in packer for rect in bin_}


def _up(mm: float) -> int:
    return -int(-(mm - NEAR) * _FINE // 1)


def _down(mm: float) -> int:
    return int((mm + NEAR) * _FINE // 1)


@cache
def _rule(name: str) -> type[Any]:
    """A way of placing; never joining free pieces of two cuts, which no saw could cut straight through."""
    from rectpack import guillotine

    parent: type[Any] = getattr(guillotine, f"Guillotine{name}")

    def start(self: Any, width: int, height: int, rot: bool = True, *more: Any, **named: Any) -> None:
        parent.__init__(self, width, height, rot, False, *more, **named)

    return type(f"Apart{name}", (parent,), {"__init__": start})


def _nests(blanks: Sequence[Blank], stuff: Sequence[Stuff], places: Places, kerf: float) -> tuple[Nest, ...]:
    """Nests of what was placed, with their cuts; pieces that nothing is cut from are left out."""
    out = []
    for k, piece in enumerate(stuff):
        placed = tuple(_on(blanks[i], *places[i][1:]) for i in sorted(places) if places[i][0] == k)
        if placed:
            saw = sawn(Box(0.0, 0.0, piece.length, piece.width), placed, kerf)
            left = sorted(saw.left, key=lambda b: (-b.area, b.x0, b.y0))
            out.append(Nest(piece, placed, saw.cuts, tuple(left)))
    return tuple(out)


def _on(blank: Blank, x: int, y: int) -> Placed:
    x0, y0 = x / _FINE, y / _FINE
    return Placed(blank, Box(x0, y0, x0 + blank.length, y0 + blank.width))
