"""The bench card on one Letter page: the largest type that fits, and never a line left out."""

from collections.abc import Iterator, Sequence
from typing import Any

from transom.drawing.bench import BenchCard, Block
from transom.drawing.flowables import SMALL, beside, boxes, heading, sketch, table, words
from transom.drawing.letter import letter_pages

SIZES = tuple(round(9.6 - 0.2 * i, 1) for i in range(22))  # points, tried largest first
# Blocks that stand beside each other, by their titles; all others run across the page.
PAIRS = {"TAPE CHECKS": "SKETCH", "PLATES": "BOLTS", "RULER CHECK": "HAZARDS"}
SKETCH = Block("SKETCH", ("Aft face, seen from aft: port is left.",))


def bench_pdf(card: BenchCard) -> bytes:
    """The card as a PDF; the same card gives the same bytes. More pages only where the smallest type needs them."""
    return letter_pages(card.identity, "BENCH CARD", lambda size, room: _story(card, size, room), SIZES)


def _story(card: BenchCard, size: float, room: float) -> Iterator[Any]:
    titled = {b.title: b for b in card.blocks} | {"SKETCH": SKETCH}
    right = {PAIRS[t] for t in titled if t in PAIRS}
    for block in card.blocks:
        other = titled.get(PAIRS.get(block.title, ""))
        if other is not None:
            half = (room - 2 * size) / 2
            yield beside(list(_block(block, size, half, card)), list(_block(other, size, half, card)), half, 2 * size)
        elif block.title not in right:
            yield from _block(block, size, room, card)


def _block(b: Block, size: float, room: float, card: BenchCard) -> Sequence[Any]:
    small = size * SMALL if b.title == "CAREFUL" else size
    out = [heading(b.title, size)]
    out += [words(f"- {text}" if len(b.words) > 1 else text, small) for text in b.words]
    if b.title == SKETCH.title:
        out.append(sketch(card.drawing, size, room))
    if b.rows:
        out.append(table(b.head, b.rows, b.widths, size, room))
    if b.boxes:
        out.append(boxes(b.boxes, size, room))
    return out
