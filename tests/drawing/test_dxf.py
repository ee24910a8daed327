"""The cut file read back: by the library that wrote it, and by another."""

import io
from dataclasses import replace
from pathlib import Path

import pytest
from ezdxf.filemanagement import read

from transom.drawing.dxf import LAYERS, dxf, escaped
from transom.drawing.records import ASSUMED, ENGINE, Drawing
from transom.drawing.views import plate_kinds

Drawn = dict[str, Drawing]
NEAR = 0.01  # mm


def document(d: Drawing):  # type: ignore[no-untyped-def]
    return read(io.StringIO(dxf(d)))


def circles(doc, layer: str) -> list[tuple[float, float, float]]:  # type: ignore[no-untyped-def]
    return sorted(
        (c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius) for c in doc.modelspace().query(f'CIRCLE[layer=="{layer}"]')
    )


def test_the_same_drawing_gives_the_same_bytes_without_a_clock(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    assert dxf(d) == dxf(d)


def test_the_order_of_a_set_is_nothing_to_the_file(drawings: Drawn, monkeypatch: pytest.MonkeyPatch) -> None:
    """The library lists what it uses from a set, whose order hangs on the process's hash seed."""
    from ezdxf.entitydb import EntityDB

    def listed(turned: bool) -> str:
        monkeypatch.setattr(
            EntityDB, "dxf_types_in_use", lambda db: sorted({e.dxftype() for e in db.values()}, reverse=turned)
        )
        return dxf(drawings["pontoon-40hp"])

    assert listed(False) == listed(True)


def test_it_is_r2010_in_millimeters_and_audits_clean(drawings: Drawn) -> None:
    for d in drawings.values():
        doc = document(d)
        audit = doc.audit()
        assert (doc.dxfversion, doc.header["$INSUNITS"], doc.header["$MEASUREMENT"]) == ("AC1024", 4, 1)
        assert not audit.errors
        assert not audit.fixes


def test_holes_and_outline_are_where_the_geometry_says(drawings: Drawn) -> None:
    for d in drawings.values():
        doc = document(d)
        for layer, size in (("HOLES_ENGINE_BORE", "over_bore"), ("HOLES_ENGINE_DRILL", "final")):
            expected = sorted((h.y, -h.down, getattr(h, size)) for h in d.of(ENGINE))
            assert circles(doc, layer) == [pytest.approx(c, abs=NEAR) for c in expected]
        kept = sorted((h.y, -h.down, h.final) for h in d.holes if h.kept)
        assert circles(doc, "REF_HOLES_FRAME_KEPT") == [pytest.approx(c, abs=NEAR) for c in kept]
        assert circles(doc, "HOLES_FRAME_NEW") == []
        (board,) = doc.modelspace().query('LWPOLYLINE[layer=="BOARD_OUTLINE"]')
        assert board.closed
        assert [tuple(p[:2]) for p in board.get_points()] == [
            pytest.approx((y, -z), abs=NEAR) for y, z in d.outline.corners
        ]


def test_plates_are_closed_outlines_of_their_size_with_their_holes(drawings: Drawn) -> None:
    for d in drawings.values():
        doc = document(d)
        outlines = doc.modelspace().query('LWPOLYLINE[layer=="PLATE_OUTLINE"]')
        kinds = plate_kinds(d.plates)
        assert len(outlines) == len(kinds)
        assert len(circles(doc, "PLATE_HOLES")) == sum(len(k.one.holes) for k in kinds)
        for line, kind in zip(outlines, kinds, strict=True):
            xs, ys = zip(*(p[:2] for p in line.get_points()), strict=True)
            assert line.closed
            assert max(xs) - min(xs) == pytest.approx(kind.one.rect.width, abs=NEAR)
            assert max(ys) - min(ys) == pytest.approx(kind.one.rect.height, abs=NEAR)
            middle = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
            r = kind.one.rect
            inside = [(x - middle[0], y - middle[1]) for x, y, _ in circles(doc, "PLATE_HOLES")]
            for c in kind.one.holes:
                at = c.y - r.middle[0], r.middle[1] - c.down
                assert any(at == pytest.approx(p, abs=NEAR) for p in inside)


def test_rounded_corners_are_arcs_inside_the_outline(drawings: Drawn) -> None:
    from ezdxf.bbox import extents

    doc = document(drawings["uprights-90hp"])
    lines = doc.modelspace().query('LWPOLYLINE[layer=="PLATE_OUTLINE"]')
    box = extents(lines, fast=False)
    assert (box.size.x, box.size.y) == pytest.approx((376.0, 280.0), abs=NEAR)


def test_every_thing_has_a_layer_with_a_purpose_and_only_words_lie_on_notes(drawings: Drawn) -> None:
    names = {name for name, _, _ in LAYERS}
    doc = document(drawings["runabout-60hp"])
    for entity in doc.modelspace():
        assert entity.dxf.layer in names
        assert (entity.dxftype() == "TEXT") == (entity.dxf.layer == "NOTES")


def words(d: Drawing) -> list[str]:
    return [t.dxf.text for t in document(d).modelspace().query("TEXT")]


def test_it_says_no_kerf_which_paper_and_every_caution(drawings: Drawn) -> None:
    text = " ".join(words(drawings["uprights-90hp"]))
    assert "NO KERF OFFSET" in text
    assert "QUOTE - DOES NOT PASS" in text
    assert "DO NOT CUT" in text
    for caution in drawings["uprights-90hp"].identity.cautions:
        assert escaped(caution)[:30] in text


NASTY = "a%%cb %%%d ^J ^M \\P{\\fArial;x} \\U+2205 \n0\nENDSEC <b> Łódź 鉄"


def test_user_text_stays_words(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    other = replace(d, identity=replace(d.identity, name=NASTY + " long" * 200))
    doc = document(other)
    assert not doc.audit().errors
    assert len(doc.modelspace().query("CIRCLE")) == len(document(d).modelspace().query("CIRCLE"))
    from ezdxf.tools.text import plain_text

    said = " ".join(plain_text(t) for t in words(other))
    for code in ("\u00b0", "\u2300", "\n", "\r"):
        assert code not in said
    assert "a% %cb" in said
    assert "Łódź 鉄" in said


@pytest.mark.parametrize(
    ("typed", "written"), [("50%%", "50% %"), ("%%%%", "% % % %"), ("a^b", "a^ b"), ("c:\\x", "c:/x"), ("é", "é")]
)
def test_codes_of_the_format_are_spelled_out(typed: str, written: str) -> None:
    assert escaped(typed) == written


def test_another_reader_sees_the_same(drawings: Drawn, tmp_path: Path) -> None:
    pyogrio = pytest.importorskip("pyogrio")
    d = drawings["runabout-60hp"]
    path = tmp_path / "board.dxf"
    path.write_text(dxf(d), encoding="utf-8")
    _, _, shapes, (layers, *_) = pyogrio.raw.read(path, columns=["Layer"])
    _, (x_lo, y_lo, x_hi, y_hi) = pyogrio.read_bounds(path)
    assert len(shapes) == len(layers) == len(document(d).modelspace())
    seen = sorted(
        ((a + c) / 2, (b + e) / 2, c - a)
        for a, b, c, e, layer in zip(x_lo, y_lo, x_hi, y_hi, layers, strict=True)
        if layer == "HOLES_ENGINE_BORE"
    )
    assert seen == [pytest.approx(t, abs=NEAR) for t in sorted((h.y, -h.down, h.over_bore) for h in d.of(ENGINE))]
    (board,) = (k for k, layer in enumerate(layers) if layer == "BOARD_OUTLINE")
    assert (x_lo[board], y_lo[board], x_hi[board], y_hi[board]) == pytest.approx((-304.8, -457.2, 304.8, 0.0), abs=NEAR)


def test_holes_of_a_bracket_that_nobody_measured_are_not_on_a_layer_that_is_cut(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    assumed = replace(d, holes=tuple(replace(h, place=ASSUMED) for h in d.holes))
    doc = document(assumed)
    assert circles(doc, "HOLES_ENGINE_BORE") == circles(doc, "HOLES_ENGINE_DRILL") == []
    assert len(circles(doc, "REF_HOLES_ENGINE_ASSUMED")) == 8
