"""What is drawn can be read: no words on words, dimension lines off holes, true sizes, and nothing run as a mark."""

from dataclasses import replace
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.drawing import shapes as s
from transom.drawing.dimensioned import dimensioned, scale_for
from transom.drawing.dimensions import broken
from transom.drawing.files import face_svg
from transom.drawing.ink import width
from transom.drawing.labels import free_spot
from transom.drawing.notes import folded
from transom.drawing.pdf import scenes
from transom.drawing.records import AFT, ENGINE, FORWARD, OPENING, Cut, Drawing, Hole, Outline
from transom.drawing.section import section, spread
from transom.drawing.sheet import sheet
from transom.drawing.svg import svg

Drawn = dict[str, Drawing]
Views = list[tuple[str, Drawing, s.Scene]]
SVG = "{http://www.w3.org/2000/svg}"


def notched(d: Drawing) -> Drawing:
    """The same with a notch and a frame pattern that is all new."""
    return replace(
        d, outline=Outline(d.outline.width, d.outline.height, 200.0, 30.0),
        holes=tuple(replace(h, kept=False) if h.purpose == "frame" else h for h in d.holes),
    )  # fmt: skip


@pytest.fixture(scope="module")
def views(every_example: Drawn) -> Views:
    found = dict(every_example) | {"notched": notched(every_example["pontoon-40hp"])}
    o, cuts = found["notched"].outline, (Cut(38.1, 38.1, "round"), Cut(50.8, 76.2))
    found["cut"] = replace(found["notched"], outline=replace(o, top=cuts[0], bottom=cuts[1]))
    return [
        (f"{name}: {scene.title}", d, scene)
        for name, d in found.items()
        for scene in (*scenes(d), *scenes(d, holes_only=True), dimensioned(d, AFT), dimensioned(d, FORWARD), section(d))
    ]


def true_box(t: s.Label) -> s.Box:
    """A label's box by the face's own widths; capitals are 0.72 of the font high."""
    long, high = width(t.words, t.size, bold=t.bold), 0.72 * t.size
    before = {"start": 0.0, "middle": long / 2, "end": long}[t.anchor]
    if t.upright:
        return s.Box(t.x - high / 2, t.y - before, t.x + high / 2, t.y + long - before)
    return s.Box(t.x - before, t.y - high / 2, t.x + long - before, t.y + high / 2)


def labels(scene: s.Scene) -> list[s.Label]:
    return [x for x in scene.shapes if isinstance(x, s.Label)]


def test_no_words_lie_on_words(views: Views) -> None:
    for name, _, scene in views:
        for a, b in combinations(labels(scene), 2):
            assert not true_box(a).meets(true_box(b)), f"{name}: {a.words!r} on {b.words!r}"


def test_words_are_never_longer_than_they_are_taken_for(views: Views) -> None:
    for _, _, scene in views:
        for t in labels(scene):
            assert t.box.grown(0.01).holds(true_box(t)), t.words


def test_words_keep_off_holes(views: Views) -> None:
    for name, _, scene in views:
        rings = [x for x in scene.shapes if isinstance(x, s.Ring) and x.purpose not in (s.WASHER, s.KEEP_OUT)]
        for t in labels(scene):
            assert not any(true_box(t).meets(r.box) for r in rings), f"{name}: {t.words!r}"


def test_dimension_lines_keep_off_holes(views: Views) -> None:
    for name, _, scene in views:
        rings = [x for x in scene.shapes if isinstance(x, s.Ring) and x.purpose not in (s.WASHER, s.KEEP_OUT)]
        lines = [x for x in scene.shapes if getattr(x, "purpose", "") in (s.DIMENSION, s.EXTENSION)]
        assert not any(line.box.meets(r.box) for line in lines for r in rings), name


def test_dimension_lines_keep_off_words(views: Views) -> None:
    for name, _, scene in views:
        lines = [x for x in scene.shapes if getattr(x, "purpose", "") in (s.DIMENSION, s.EXTENSION)]
        for t in labels(scene):
            assert not any(true_box(t).meets(line.box.grown(0.05)) for line in lines), f"{name}: {t.words!r}"


def test_everything_lies_in_the_scene(views: Views) -> None:
    for name, _, scene in views:
        for shape in scene.shapes:
            box = true_box(shape) if isinstance(shape, s.Label) else shape.box
            assert scene.box.grown(0.5).holds(box), f"{name}: {shape}"


def test_words_can_be_read_at_arms_length(drawings: Drawn) -> None:
    for d in drawings.values():
        ratio = float(scale_for(d))
        for scene, scale in ((dimensioned(d, AFT), ratio), (dimensioned(d, FORWARD), ratio), (section(d), 1.0)):
            assert min(t.size for t in labels(scene)) * scale >= 2.8
        assert min(t.size for scene in scenes(d) for t in labels(scene)) >= 5.0


def test_port_is_on_the_left_seen_from_aft_and_on_the_right_from_inside(drawings: Drawn) -> None:
    d = drawings["runabout-60hp"]
    (drain,) = d.of(OPENING)
    assert drain.y < 0
    for scene, side in ((scenes(d)[0], 1), (scenes(d)[1], -1), (dimensioned(d, AFT), 1), (dimensioned(d, FORWARD), -1)):
        (ring,) = (r for r in scene.shapes if isinstance(r, s.Ring) and r.purpose == s.OPENING_HOLE)
        assert (ring.x, ring.y, ring.diameter) == (side * drain.y, -drain.down, drain.final)
        where = {t.words: t.x for t in labels(scene)}
        assert where["A"] * side < 0 < where["B"] * side


def test_dimensions_say_where_the_holes_are(drawings: Drawn) -> None:
    said = {t.words for t in labels(dimensioned(drawings["pontoon-40hp"], AFT))}
    assert {"12-7/8 in", "6-7/16 in", "9-7/8 in", "4-15/16 in", "1-7/8 in", "24 in", "18 in", "16 in"} <= said
    said = {t.words for t in labels(dimensioned(drawings["uprights-90hp"], AFT))}
    assert {"327 mm", "163.5 mm", "251 mm", "125.5 mm", "48 mm", "520 mm", "450 mm"} <= said


def test_an_odd_pattern_is_dimensioned_row_by_row(drawings: Drawn) -> None:
    d = drawings["uprights-90hp"]
    more = (Hole("E", "row 2 port", -140.0, 150.0, ENGINE, 12.0, 13.0, 24.0),
            Hole("F", "row 2 starboard", 140.0, 150.0, ENGINE, 12.0, 13.0, 24.0))  # fmt: skip
    said = {t.words for t in labels(dimensioned(replace(d, holes=(*d.holes, *more)), AFT))}
    assert {"280 mm", "140 mm", "150 mm", "48 mm", "251 mm"} <= said


# The section


def test_the_section_is_full_size_and_holds_every_sheet(drawings: Drawn) -> None:
    for d in drawings.values():
        root = ElementTree.fromstring(svg(section(d)))
        view = [float(v) for v in root.attrib["viewBox"].split()]
        assert float(root.attrib["width"].removesuffix("mm")) == pytest.approx(view[2], abs=0.01)
        assert float(root.attrib["height"].removesuffix("mm")) == pytest.approx(view[3], abs=0.01)
        wood = [x for x in section(d).shapes if isinstance(x, s.Path) and x.purpose == s.WOOD]
        assert [x.box.width for x in wood] == pytest.approx([p.thickness for p in d.layers])


def test_the_section_says_grip_bolt_and_thread(drawings: Drawn) -> None:
    said = " | ".join(t.words for t in labels(section(drawings["uprights-90hp"])))
    for words in (
        "grip 84 mm",
        "bolt length 110 mm",
        "thread 30 mm",
        "bore 24 mm",
        "drill 13 mm",
        "board, coated 55 mm",
    ):
        assert words in said


@given(st.lists(st.floats(0.0, 200.0), min_size=1, max_size=12).map(sorted), st.floats(1.0, 12.0))
def test_numbers_over_thin_slices_are_spread(middles: list[float], least: float) -> None:
    placed = spread(middles, least)
    assert len(placed) == len(middles)
    assert all(b - a >= least - 1e-6 for a, b in pairwise(placed))
    assert sum(placed) == pytest.approx(sum(middles))


def test_a_board_under_clamp_screws_has_no_bolt(drawings: Drawn) -> None:
    d = drawings["uprights-90hp"]
    wood = tuple(x for x in d.stack.slices if x.kind in ("wood", "glue", "coat"))
    bare = replace(d, holes=(), plates=(), stack=replace(d.stack, slices=wood, bolt=None), held_by="clamps")
    said = [t.words for t in labels(section(bare))]
    assert not any("BOLT" in w or "grip" in w for w in said)
    assert any("board, coated" in w for w in said)


# Helpers


@given(st.text(max_size=300), st.floats(2.0, 6.0), st.floats(10.0, 200.0))
def test_folding_loses_nothing_and_fits(words: str, size: float, room: float) -> None:
    lines = folded(words, size, room)
    assert "".join("".join(lines).split()) == "".join(words.split())
    assert all(s.text_width(line, size) <= room for line in lines if len(line) > 1)


def test_a_broken_line_stops_at_both_sides_of_a_hole() -> None:
    hole = s.Ring(s.DRILL, 50.0, 0.0, 20.0)
    pieces = broken((0.0, 0.0), (100.0, 0.0), [hole.box])
    assert [p.points for p in pieces] == [((0.0, 0.0), (38.5, 0.0)), ((61.5, 0.0), (100.0, 0.0))]


def test_a_free_spot_is_free_or_outside() -> None:
    within = s.Box(0.0, 0.0, 100.0, 100.0)
    x, y = free_spot(20.0, 10.0, [s.Box(30.0, 30.0, 70.0, 70.0)], within)
    assert not s.Box(x - 10, y - 5, x + 10, y + 5).meets(s.Box(30.0, 30.0, 70.0, 70.0))
    x, _ = free_spot(20.0, 10.0, [within], within)
    assert x + 10 <= 0.0


# The file


def texts(root: ElementTree.Element) -> str:
    return " ".join("".join(t.itertext()) for t in root.iter(f"{SVG}text"))


def test_each_face_carries_its_paper_its_reasons_and_every_caution(drawings: Drawn) -> None:
    for d in drawings.values():
        for face in (AFT, FORWARD):
            text = texts(ElementTree.fromstring(face_svg(d, face)))
            assert d.identity.paper in text
            assert ("DOES NOT PASS" in text) == bool(d.identity.fails)
            assert ("DRAFT" in text) == bool(d.identity.draft)
            for caution in d.identity.cautions:
                assert " ".join(caution.split()[:4]) in text


def test_heading_and_notes_lie_on_nothing(drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    page = sheet(section(d), d, 3.4)
    for a, b in combinations(labels(page), 2):
        assert not true_box(a).meets(true_box(b)), f"{a.words!r} on {b.words!r}"


@pytest.mark.parametrize(
    "name", ["</text><script>alert(1)</script>", '" onload="x', "&lt;b&gt; ]]> <!--", "a\x00b\x1b[31m\n\nc"]
)
def test_user_text_is_only_words(name: str, drawings: Drawn) -> None:
    d = drawings["pontoon-40hp"]
    holes = tuple(replace(h, words=name) if h.purpose == "opening" else h for h in d.holes)
    root = ElementTree.fromstring(face_svg(replace(d, identity=replace(d.identity, name=name), holes=holes), AFT))
    assert {e.tag.removeprefix(SVG) for e in root.iter()} <= {
        "svg",
        "title",
        "rect",
        "path",
        "circle",
        "polygon",
        "text",
    }
    assert not any(k.startswith("on") for e in root.iter() for k in e.attrib)
    shown = "".join(c for c in " ".join(name.split()) if c.isprintable())
    assert shown in texts(root)
