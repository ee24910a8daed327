"""The bench card for a terminal: the same words as on paper, under 80 columns."""

from collections.abc import Iterator

from transom.drawing import notes
from transom.drawing.bench import BenchCard, Block
from transom.report.text import block, columns, rule

HELD = "\u00a0"  # keeps a caption and its box on one line


def lines(card: BenchCard) -> Iterator[str]:
    """The card, top to bottom; the paper's word first and last."""
    first, *rest = notes.page_words(card.identity)
    yield from block("", f"BENCH CARD - {first}", at=0)
    for words in (*rest, *notes.reasons(card.identity)):
        yield from block("", words, at=0)
    for each in card.blocks:
        yield rule()
        yield from _block(each)
    yield rule()
    yield from block("", f"{first} - {card.identity.tool}", at=0)


def _block(b: Block) -> Iterator[str]:
    yield f" {b.title}"
    for words in b.words:
        yield from block("", f"- {words}" if len(b.words) > 1 else words, at=1)
    if b.rows:
        yield from columns([b.head, *b.rows], b.widths)
    yield from (
        block("", "   ".join(f"{caption} [______]".replace(" ", HELD) for caption in b.boxes), at=1) if b.boxes else ()
    )
