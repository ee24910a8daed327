"""Maps: well-formed, complete, with nothing on top of anything, in colors that read in grey."""

import math
import re
from dataclasses import replace
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest

from tests.report.jobs import job, sized
from transom.board.grid import Rectangle
from transom.catalogue import SHIPPED
from transom.judge.judging import judge
from transom.report.maps import board
from transom.report.maps.bands import even, index_of, of_limit
from transom.report.maps.pages import pages
from transom.report.maps.plain import plain_map
from transom.report.maps.ramp import colors, luminance

SVG = "{http://www.w3.org/2000/svg}"
NAMES = ("example", "metric", "clamps", "unread plate")


@cache
def drawn(name: str) -> dict[str, str]:
    return pages(sized(name))


def roots(name: str) -> list[ElementTree.Element]:
    return [ElementTree.fromstring(text.encode()) for text in drawn(name).values()]


def classed(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return [e for e in root.iter() if e.get("class") == name]


@pytest.mark.parametrize("name", NAMES)
def test_three_pages_with_bolts_supports_pads_scale_and_legend(name: str) -> None:
    assert list(drawn(name)) == ["limit", "deflection", "pads"]
    for root in roots(name):
        assert len(classed(root, "bolt")) == len(classed(root, "backing")) == (2 if name == "clamps" else 4)
        assert len(classed(root, "support")) == (4 if name == "clamps" else 3)
        assert len(classed(root, "pad")) == 2
        assert len(classed(root, "scale")) == 1
        assert len(classed(root, "legend")) >= 2


@pytest.mark.parametrize("name", NAMES)
def test_every_number_is_one(name: str) -> None:
    for text in drawn(name).values():
        assert not re.search(r"\b(nan|inf|NaN|Infinity|None)\b", text)
        assert "+-" not in text


@pytest.mark.parametrize("name", NAMES)
def test_no_words_lie_over_others_or_off_the_page(name: str) -> None:
    """Boxes of a wide face: 0.6 of the size for each character, 0.8 above the line, 0.25 below it."""
    for root in roots(name):
        boxes = []
        for e in root.iter(f"{SVG}text"):
            size, words = float(e.get("font-size", 0)), e.text or ""
            wide = 0.6 * size * len(words) * (1.1 if e.get("font-weight") == "bold" else 1.0)
            x, y = float(e.get("x", 0)), float(e.get("y", 0))
            x -= {"start": 0.0, "middle": wide / 2, "end": wide}[e.get("text-anchor", "start")]
            boxes.append((x, y - 0.8 * size, x + wide, y + 0.25 * size, words))
        high, across = float(root.get("height", 0)), float(root.get("width", 0))
        for i, (x, y, right, low, words) in enumerate(boxes):
            assert min(x, y, across - right, high - low) >= 0, words
            for x2, y2, right2, low2, other in boxes[i + 1 :]:
                assert right <= x2 or right2 <= x or low <= y2 or low2 <= y, (words, other)


def test_legend_in_the_jobs_units() -> None:
    assert re.search(r"\d in<", drawn("example")["deflection"])
    assert re.search(r"\d psi<", drawn("example")["pads"])
    assert ">4 in<" in drawn("example")["limit"]
    assert re.search(r"\d mm<", drawn("metric")["deflection"])
    assert re.search(r"\d MPa<", drawn("metric")["pads"])
    assert ">100 mm<" in drawn("metric")["limit"]


def test_every_page_says_which_paper_and_whether_it_passes() -> None:
    for name in NAMES:
        j = sized(name)
        for root in roots(name):
            words = [e.text or "" for e in root.iter(f"{SVG}text")]
            assert words[0].startswith(j.paper)
            assert ("DOES NOT PASS" in words[0]) == (not j.passes)


def test_what_is_over_the_limit_is_hatched() -> None:
    j = sized("example")
    assert j.mount is not None
    weak = judge(job("example"), SHIPPED, replace(j.mount, layers=j.mount.layers[:1]))
    hatched = [drawn("example")["limit"].count("url(#over)"), pages(weak)["limit"].count("url(#over)")]
    assert hatched[0] == 1  # the legend's
    assert hatched[1] > 20
    assert "#" in "\n".join(list(plain_map(weak))[5:])


def test_no_mount_no_maps() -> None:
    assert pages(sized("too large")) == {}
    assert list(plain_map(sized("too large"))) == []


def test_a_name_is_text_whatever_it_holds() -> None:
    j = sized("example")
    odd = replace(j, job=replace(j.job, head=replace(j.job.head, name="a <b> & \x1b[31m \x00 ]]> é", number="9<")))
    for text in pages(odd).values():
        words = [e.text or "" for e in ElementTree.fromstring(text.encode()).iter(f"{SVG}text")]
        assert "a <b> & [31m ]]> é" in words[0]


def test_the_map_is_the_checks_own_bending_before_holes() -> None:
    """The largest value of the map is the check without holes, and the check is no less."""
    j = sized("example")
    assert j.careful is not None
    top = float(np.nanmax(board.share_of_limit(j.careful)))
    checked = max(c.utilisation for c in j.deciding if (c.part, c.what) == ("board", "bending"))
    assert 0 < top <= checked + 1e-9


def test_a_raster_gives_a_plane_back_exactly() -> None:
    j = sized("example")
    assert j.careful is not None
    grid = j.careful.answer.grid
    plane = 2.0 * grid.y[:, None] - 3.0 * grid.z[None, :]
    r = board.raster(j.careful, plane, 40, 30)
    y, z = (r.y[1:] + r.y[:-1]) / 2, (r.z[1:] + r.z[:-1]) / 2
    assert r.values == pytest.approx(2.0 * y[:, None] - 3.0 * z[None, :])


def test_even_bands_hold_both_ends_in_round_steps() -> None:
    """1, 2 or 5 times a power of ten, at most eight, first below the least and last above the most."""
    for low, high in ((-0.13, 1.31), (0.0, 3.2), (0.0, 0.0), (-1e-5, 2e-5), (0.0, 25.4)):
        for units in ("us", "si"):
            bands = even(low, high, "mm", units)
            assert 1 <= len(bands) <= 9
            assert bands[0].low <= low + 1e-12
            assert bands[-1].high >= high - 1e-12
            assert all(a.high == pytest.approx(b.low) for a, b in pairwise(bands))
            step = (bands[0].high - bands[0].low) / (25.4 if units == "us" else 1.0)
            digits = step / 10 ** math.floor(math.log10(step) + 1e-9)
            assert round(digits) in (1, 2, 5)
            assert digits == pytest.approx(round(digits))


def test_bands_of_the_limit_end_at_it() -> None:
    bands = of_limit()
    assert bands[index_of(bands, 0.0)].words == "0 to 10 %"
    assert bands[index_of(bands, 0.9999)].words == "90 to 100 %"
    assert bands[index_of(bands, 1.0001)].over
    assert bands[index_of(bands, float("inf"))].over


@pytest.mark.parametrize("count", (2, 5, 10))
def test_colors_fall_evenly_in_lightness_so_that_they_read_in_grey(count: int) -> None:
    """CIE lightness from relative luminance (CIE 15:2004): L* = 116 Y^(1/3) - 16."""
    light = [116 * luminance(c) ** (1 / 3) - 16 for c in colors(count)]
    steps = -np.diff(light)
    assert (steps > 0).all()
    assert steps.min() > 0.6 * steps.max()
    assert light[0] > 90
    assert light[-1] < 30


def test_colors_differ_along_yellow_and_blue_and_not_along_red_and_green() -> None:
    """Red-green blindness confuses a*; every step is told by blue against the mean of red and green."""
    for color in colors(10):
        red, green = int(color[1:3], 16), int(color[3:5], 16)
        assert red - green < 30


def test_terminal_map_is_ascii_and_marks_the_bolts() -> None:
    lines = list(plain_map(sized("example")))
    text = "\n".join(lines)
    assert text.isascii()
    assert max(map(len, lines)) < 80
    rows = [line[3:] for line in lines if re.fullmatch(r" {3}[0-9#o]+", line)]
    assert sum(row.count("o") for row in rows) == 4
    assert {len(row) for row in rows} == {60}


def test_pad_outlines_hold_every_cell() -> None:
    j = sized("example")
    assert j.careful is not None
    outlines = board.pad_outlines(j.careful)
    cells = [p.where for p in j.careful.answer.seat.pads]
    assert sum(o.area for o in outlines) == pytest.approx(sum(c.area for c in cells))
    assert all(any(_within(c, o) for o in outlines) for c in cells)


def _within(c: Rectangle, o: Rectangle) -> bool:
    near = 1e-6
    across = o.y_lo - near <= c.y_lo and c.y_hi <= o.y_hi + near
    return across and o.z_lo - near <= c.z_lo and c.z_hi <= o.z_hi + near
