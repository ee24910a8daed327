"""Blanks, sheets and what is left: the same halves that size counts, grain kept, voids apart, areas adding up."""

from dataclasses import replace

import pytest

from transom.catalogue import SHIPPED
from transom.drawing import nestwords
from transom.drawing.cutlist import CutList, cut_list
from transom.drawing.records import Drawing, LayerPart, Outline
from transom.job.records import Layer, Offcut
from transom.judge.records import Judgement
from transom.nesting.saw import KEEP
from transom.sizing.sheets import NONE_BIG_ENOUGH, halves

FIR, HALF_INCH = "douglas-fir-marine 3/4 in", "douglas-fir-marine 1/2 in"


def layers(*grains: str, sheet: str = FIR, outline: Outline | None = None) -> tuple[LayerPart, ...]:
    board = outline or Outline(610.0, 457.0)
    row = SHIPPED.sheet(sheet)
    return tuple(LayerPart(i, sheet, row.nominal, "fir", row.thickness_mm, g, board) for i, g in enumerate(grains, 1))


def joined(c: CutList, units: str = "us") -> str:
    return " ".join(" ".join(nestwords.lines(c, units)).split())


@pytest.mark.parametrize("name", ["pontoon-40hp", "runabout-60hp", "uprights-90hp"])
def test_the_examples_buy_what_the_screen_says(
    name: str, judged: dict[str, Judgement], drawings: dict[str, Drawing]
) -> None:
    j, d = judged[name], drawings[name]
    assert j.mount is not None
    c = cut_list(d.layers, SHIPPED, j.job.stock.offcuts)
    assert sum(s.halves for s in c.sheets) == halves(j.mount.layers, d.outline.width, d.outline.height, SHIPPED)
    assert [b.grain for b in c.blanks] == [layer.grain for layer in j.mount.layers]
    for s in c.sheets:
        bought = sum(n.stuff.area for n in s.nests)
        blanks = sum(b.length * b.width for b in c.blanks if b.sheet == s.sheet)
        left = sum(b.area for n in s.nests for b in n.left)
        dust = sum(cut.box.area for n in s.nests for cut in n.cuts)
        assert bought == pytest.approx(blanks + left + dust, rel=1e-9)
    assert max(map(len, nestwords.lines(c, d.identity.units))) <= 79


def test_grain_along_the_blank_and_the_allowance_all_round() -> None:
    across, along = cut_list(layers("across", "along"), SHIPPED).blanks
    assert (across.length, across.width) == pytest.approx((622.7, 469.7))
    assert (along.length, along.width) == pytest.approx((469.7, 622.7))


def test_like_grained_layers_never_lie_the_same_way_round_one_after_the_other() -> None:
    blanks = cut_list(layers("across", "across", "along", "across", "along", "along"), SHIPPED).blanks
    assert [b.arrow for b in blanks] == ["starboard", "port", "up", "starboard", "down", "up"]


def test_every_layer_of_every_pile_is_cut_from_as_many_halves_as_ranked() -> None:
    for grains in (("across",) * 4, ("across", "along", "across"), ("along",) * 3):
        for outline in (Outline(610.0, 457.0), Outline(900.0, 600.0), Outline(1250.0, 457.0)):
            pile = [Layer(FIR, g) for g in grains]
            ranked = halves(pile, outline.width, outline.height, SHIPPED)
            (sheet,) = cut_list(layers(*grains, outline=outline), SHIPPED).sheets
            assert (ranked >= NONE_BIG_ENOUGH) == bool(sheet.too_large)
            assert sheet.too_large or sheet.halves == ranked


def test_what_no_sheet_holds_is_said_and_not_bought() -> None:
    c = cut_list(layers("along", outline=Outline(1300.0, 457.0)), SHIPPED)
    assert not c.whole
    assert c.sheets[0].halves == 0
    assert "NO SHEET of 3/4 in fir IS LARGE ENOUGH: layer 1" in joined(c)
    assert "BUY" not in joined(c)


def test_offcuts_are_used_up_first_and_named() -> None:
    c = cut_list(layers("across"), SHIPPED, [Offcut(HALF_INCH, 900.0, 900.0), Offcut(FIR, 700.0, 500.0)])
    (sheet,) = c.sheets
    assert (sheet.halves, sheet.offcuts) == (0, 1)
    assert "BUY nothing of 3/4 in fir; 1 offcut used up" in joined(c)
    assert "offcut 2, 27-9/16 x 19-11/16 in" in joined(c)


def test_two_thicknesses_come_from_two_sheets() -> None:
    both = (*layers("across"), replace(layers("across", sheet=HALF_INCH)[0], number=2))
    assert [s.sheet for s in cut_list(both, SHIPPED).sheets] == [FIR, HALF_INCH]


def test_the_cuts_in_words_by_hand() -> None:
    """One blank 622.7 x 469.7 (24-1/2 x 18-1/2) out of a half, 1217.6 x 1219.2 (47-15/16 x 48)."""
    (sheet,) = cut_list(layers("across"), SHIPPED).sheets
    (nest,) = sheet.nests
    first, second = nestwords.cuts_of(nest, "us")
    assert first.piece == "whole (47-15/16 x 48 in)"
    assert (first.how, first.fence) == ("along the grain", "18-1/2 in")
    assert first.gives == ("piece a (47-15/16 x 18-1/2 in)", "left over (47-15/16 x 29-3/8 in)")
    assert (second.how, second.fence) == ("across the grain", "24-1/2 in")
    assert second.gives == ("layer 1 (24-1/2 x 18-1/2 in)", "left over (23-5/16 x 18-1/2 in)")
    assert all(min(b.length, b.width) >= KEEP for b in sheet.left)


def test_no_layers_no_list() -> None:
    with pytest.raises(ValueError, match="no cut list"):
        cut_list((), SHIPPED)
