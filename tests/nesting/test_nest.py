"""Nests: nothing overlaps, areas balance, a saw can cut them, and few orders find a better one."""

import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sizing.plain import fewest_halves
from transom.nesting.pack import NoneBigEnoughError, halves_needed, nest
from transom.nesting.records import HALF, OFFCUT, WHOLE, Blank, Box, Cut, Nest, Placed, Stuff, halves_of
from transom.nesting.saw import sawn

SHEET, KERF = (2438.4, 1219.2), 3.2
NEAR = 1e-6
SIZE = st.floats(40.0, 1000.0).map(lambda x: round(x, 1))
BLANKS = st.lists(st.tuples(SIZE, SIZE), min_size=1, max_size=7)
OFFCUTS = st.lists(st.tuples(SIZE, SIZE), max_size=3)


def blanks_of(sizes: list[tuple[float, float]]) -> list[Blank]:
    return [Blank(f"b{i}", *size) for i, size in enumerate(sizes)]


def offcuts_of(sizes: list[tuple[float, float]]) -> list[Stuff]:
    return [Stuff(f"o{i}", *size) for i, size in enumerate(sizes)]


def apart(a: Box, b: Box, by: float) -> bool:
    return max(a.x0 - b.x1, b.x0 - a.x1, a.y0 - b.y1, b.y0 - a.y1) >= by - NEAR


def replayed(nest: Nest) -> list[Box]:
    """The pieces that lie on the bench once every cut is made, each through the whole of the piece it is in."""
    pieces = [Box(0.0, 0.0, nest.stuff.length, nest.stuff.width)]
    for cut in nest.cuts:
        b = cut.box
        (hit,) = [p for p in pieces if not apart(p, b, 0.0) and min(p.x1, b.x1) - max(p.x0, b.x0) > NEAR / 2
                  and min(p.y1, b.y1) - max(p.y0, b.y0) > NEAR / 2]  # fmt: skip
        if cut.across:
            assert (b.y0, b.y1) == pytest.approx((hit.y0, hit.y1))
            parts = [Box(hit.x0, hit.y0, b.x0, hit.y1), Box(b.x1, hit.y0, hit.x1, hit.y1)]
        else:
            assert (b.x0, b.x1) == pytest.approx((hit.x0, hit.x1))
            parts = [Box(hit.x0, hit.y0, hit.x1, b.y0), Box(hit.x0, b.y1, hit.x1, hit.y1)]
        assert same(cut.of, hit)
        assert len(cut.parts) == sum(min(p.length, p.width) > NEAR for p in parts)
        assert all(any(same(p, q) for q in parts) for p in cut.parts)
        pieces.remove(hit)
        pieces += [p for p in parts if min(p.length, p.width) > NEAR]
    return pieces


def same(a: Box, b: Box) -> bool:
    return (a.x0, a.y0, a.x1, a.y1) == pytest.approx((b.x0, b.y0, b.x1, b.y1), abs=1e-5)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(BLANKS, OFFCUTS)
def test_whatever_is_cut(sizes: list[tuple[float, float]], scraps: list[tuple[float, float]]) -> None:
    blanks, offcuts = blanks_of(sizes), offcuts_of(scraps)
    nests = nest(blanks, SHEET, KERF, offcuts)
    sound(nests, blanks)
    used = [n.stuff.name for n in nests if n.stuff.kind == OFFCUT]
    assert len(used) == len(set(used))
    assert halves_of(nests) == halves_needed(blanks, SHEET, KERF, offcuts)
    assert halves_of(nests) <= halves_of(nest(blanks, SHEET, KERF))  # an offcut never costs


# 88: a blank starts less than a kerf behind a cut, so that less than a kerf has to be trimmed off.
@pytest.mark.parametrize("seed", [0, 1, 2, 88])
def test_many_blanks_are_cut(seed: int) -> None:
    sound(nest(random_set(seed), SHEET, KERF), random_set(seed))


def sound(nests: tuple[Nest, ...], blanks: list[Blank]) -> None:
    """Every blank once and never turned, nothing overlapping, a saw's width apart, sawable as listed, areas balanced."""
    placed = [p for n in nests for p in n.placed]
    assert sorted(p.blank.name for p in placed) == sorted(b.name for b in blanks)
    for p in placed:  # never turned: the grain goes with the sheet's
        assert (p.box.length, p.box.width) == pytest.approx((p.blank.length, p.blank.width))
    for n in nests:
        whole = Box(0.0, 0.0, n.stuff.length, n.stuff.width)
        on = [p.box for p in n.placed]
        assert all(b.x0 >= -NEAR and b.y0 >= -NEAR and b.x1 <= whole.x1 + NEAR and b.y1 <= whole.y1 + NEAR for b in on)
        assert all(apart(a, b, KERF) for a, b in combinations(on, 2))
        assert all(apart(a, b, 0.0) for a, b in combinations([*on, *n.left], 2))
        assert all(apart(c.box, b, 0.0) for c in n.cuts for b in on)
        assert all(0 < (c.box.length if c.across else c.box.width) <= KERF + NEAR for c in n.cuts)
        parts = sum(b.area for b in (*on, *n.left)) + sum(c.box.area for c in n.cuts)
        assert parts == pytest.approx(whole.area, rel=1e-9)
        assert [b.area for b in n.left] == sorted((b.area for b in n.left), reverse=True)
        pieces = replayed(n)
        assert len(pieces) == len(on) + len(n.left)
        assert all(any(same(b, p) for p in pieces) for b in (*on, *n.left))


def random_set(seed: int) -> list[Blank]:
    r = random.Random(seed)
    return [Blank(f"b{i}", float(r.randint(200, 900)), float(r.randint(200, 600))) for i in range(r.randint(8, 20))]


def halves_in_this_order(blanks: list[Blank], order: list[int], rule: str) -> float:
    """Half sheets of another packing, each blank into the first sheet with room; infinite if no saw can cut it."""
    from rectpack import SORT_NONE, PackingBin, PackingMode, guillotine, maxrects, newPacker

    algorithm = getattr(maxrects if rule.startswith("Max") else guillotine, rule)
    packer = newPacker(PackingMode.Offline, PackingBin.BFF, algorithm, SORT_NONE, rotation=False)
    for i in order:
        packer.add_rect(round((blanks[i].length + KERF) * 10), round((blanks[i].width + KERF) * 10), rid=i)
    for _ in blanks:
        packer.add_bin(round((SHEET[0] + KERF) * 10), round((SHEET[1] + KERF) * 10))
    packer.pack()
    half = (SHEET[0] + KERF) * 5
    if not all(sawable([(r.x, r.y, r.x + r.width, r.y + r.height) for r in sheet]) for sheet in packer):
        return float("inf")
    return sum(1 if max(r.x + r.width for r in sheet) <= half else 2 for sheet in packer)


def sawable(boxes: list[tuple[int, int, int, int]]) -> bool:
    """Whether boxes that touch at most can be parted by straight cuts."""
    if len(boxes) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        for at in {b[high] for b in boxes}:
            one, other = [b for b in boxes if b[high] <= at], [b for b in boxes if b[low] >= at]
            if one and other and len(one) + len(other) == len(boxes):
                return sawable(one) and sawable(other)
    return False


@pytest.mark.parametrize("seed", range(20))
def test_within_a_twentieth_of_the_best_of_200_random_orders(seed: int) -> None:
    """Of two rules of placing that share nothing with ours but that a saw must be able to cut the nest."""
    blanks, shuffled = random_set(seed), random.Random(1000 + seed)
    orders = [shuffled.sample(range(len(blanks)), len(blanks)) for _ in range(200)]
    rules = ("MaxRectsBssf", "GuillotineBssfSas")
    best = min(halves_in_this_order(blanks, order, rule) for order in orders for rule in rules)
    assert halves_needed(blanks, SHEET, KERF) <= 1.05 * best


@pytest.mark.parametrize("seed", range(60))
def test_the_layers_of_a_board_take_the_fewest_halves_there_can_be(seed: int) -> None:
    r = random.Random(seed)
    p, q = r.uniform(300, 1210), r.uniform(300, 1210)
    across, along = r.choice([(a, u) for a in range(5) for u in range(5) if 0 < a + u <= 4])
    blanks = [*[Blank("", p, q)] * across, *[Blank("", q, p)] * along]
    assert halves_needed(blanks, SHEET, KERF) == fewest_halves(across, along, p, q, *SHEET)


def test_by_hand_three_sideways_and_one_up() -> None:
    """Blanks 622 x 469: two sideways in the width (941 of 1219), two rows of 622 and a kerf, 1247 > 1217.6: a whole."""
    blanks = [Blank("a", 622.0, 469.0), Blank("b", 622.0, 469.0), Blank("c", 622.0, 469.0), Blank("d", 469.0, 622.0)]
    (one,) = nest(blanks, SHEET, KERF)
    assert one.stuff.kind == WHOLE
    (two,) = nest(blanks[:2], SHEET, KERF)
    assert (two.stuff.kind, two.stuff.length) == (HALF, pytest.approx((2438.4 - 3.2) / 2))
    assert [(round(b.length), round(b.width)) for b in two.left] == [(592, 1219), (622, 275)]


def test_an_offcut_goes_before_a_sheet_and_the_smallest_that_does_first() -> None:
    blanks = [Blank("a", 600.0, 450.0)]
    offcuts = [Stuff("large", 900.0, 900.0), Stuff("small", 610.0, 455.0), Stuff("turned", 455.0, 610.0)]
    (one,) = nest(blanks, SHEET, KERF, offcuts)
    assert one.stuff.name == "small"
    assert nest(blanks, SHEET, KERF, offcuts[2:])[0].stuff.kind == HALF


def test_what_no_sheet_holds_is_refused() -> None:
    for size in ((2438.5, 100.0), (100.0, 1219.3)):
        with pytest.raises(NoneBigEnoughError, match="wide one: larger than a whole sheet"):
            nest([Blank("wide one", *size)], SHEET, KERF)
    assert nest([Blank("all of it", *SHEET)], SHEET, KERF)[0].left == ()
    assert nest([], SHEET, KERF) == ()


def test_a_pinwheel_is_no_nest() -> None:
    """Four round a middle: nothing overlaps, and no straight cut frees one."""
    boxes = [Box(0, 0, 60, 37), Box(63, 0, 100, 60), Box(40, 63, 100, 100), Box(0, 40, 37, 100)]
    placed = [Placed(Blank(str(i), b.length, b.width), b) for i, b in enumerate(boxes)]
    with pytest.raises(ValueError, match="no straight cut"):
        sawn(Box(0, 0, 100, 100), placed, 3.0)
    whole, low = Box(0, 0, 100, 100), Box(0, 0, 100, 37)
    assert sawn(whole, placed[:1], 3.0).cuts == (
        Cut(Box(0, 37, 100, 40), False, whole, (low, Box(0, 40, 100, 100))),
        Cut(Box(60, 0, 63, 37), True, low, (Box(0, 0, 60, 37), Box(63, 0, 100, 37))),
    )


def test_the_same_blanks_are_cut_the_same_way() -> None:
    assert nest(random_set(3), SHEET, KERF) == nest(random_set(3), SHEET, KERF)
