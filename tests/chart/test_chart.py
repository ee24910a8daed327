"""Charts say what `size` says at the same power, can be read in black and white, and carry every caution."""

import csv
import io
import json
import random
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.report.jobs import drawn
from transom.catalogue import SHIPPED
from transom.chart import words
from transom.chart.axes import HIGH
from transom.chart.data import to_json
from transom.chart.figure import apart, figure, scale, trade_boxes
from transom.chart.page import chart_svg, page
from transom.chart.points import chart
from transom.chart.powers import asked, sold
from transom.chart.records import NOTHING, SIZED, Chart, Line, Point
from transom.chart.screen import chart_screen
from transom.chart.table import HEADER, to_csv
from transom.cli import main as command
from transom.drawing import shapes as s
from transom.drawing.ink import width
from transom.job.read import loads
from transom.job.records import Job
from transom.judge.judging import judge
from transom.judge.notes import HP
from transom.judge.records import Judgement, Required, Stop
from transom.report.text import RISKY
from transom.report.words import spelled
from transom.sizing.required import most_wanted
from transom.sizing.sizing import size

TEXT = """
# Invented.
[job]
name = "=1+1 skiff"
number = "7"
[boat]
kind = "aluminium hull"
plate_power = "75 hp"
service = "calm"
[engine]
power = "{power}"
weight = "{weight}"
shaft = "20 in"
steering = "wheel"
takes = ["1-1/4 in", "2-3/4 in"]
[board]
width = "24 in"
height = "18 in"
treatment = "none"
[frame]
kind = "cap rail"
[stock]
panels = ["douglas-fir-marine"]
sheets = ["5/8 in", "3/4 in"]
plate_thicknesses = ["1/4 in"]
"""
STATED = TEXT.format(power="50 hp", weight="200 lb")
PANEL = "douglas-fir-marine"
WATTS = asked(40 * HP, 90 * HP)


def at(watts: float) -> Job:
    """The job as somebody would write it for another engine: its power, nothing else known of it."""
    return loads(TEXT.format(power=f"{watts / HP:.9g} hp", weight="?"))


@pytest.fixture(scope="module")
def real() -> Chart:
    return chart(loads(STATED), SHIPPED, WATTS, [PANEL])


@pytest.fixture(scope="module")
def sized() -> tuple[Judgement, ...]:
    return tuple(size(at(watts), SHIPPED) for watts in WATTS)


def test_three_powers_are_what_engines_are_sold_with() -> None:
    assert [round(w / HP) for w in WATTS] == [40, 60, 90]
    assert set(WATTS[1:-1]) <= set(sold())


def test_each_point_is_what_size_prints_at_that_power(real: Chart, sized: tuple[Judgement, ...]) -> None:
    (line,) = real.lines
    assert [p.state for p in line.points] == [SIZED] * 3
    for p, j in zip(line.points, sized, strict=True):
        assert j.mount is not None
        assert j.sizing is not None
        wanted = most_wanted(j.sizing.required)
        assert p.needs == wanted
        assert (p.layers, p.wood, p.total) == (j.mount.layers, j.wood, j.total)
        assert p.weakest.id == j.governing.id
        assert p.weakest.utilisation == pytest.approx(j.governing.utilisation, rel=1e-6)


def test_a_board_as_thick_as_the_line_is_at_its_limit_when_reviewed(real: Chart, sized: tuple[Judgement, ...]) -> None:
    (line,) = real.lines
    for p, j in zip(line.points, sized, strict=True):
        assert p.needs is not None
        assert j.mount is not None
        share = p.needs.thickness / p.wood
        thick = tuple((name, SHIPPED.sheet(name).thickness_mm * share) for name in {layer.sheet for layer in p.layers})
        job = replace(j.job, stock=replace(j.job.stock, measured=thick))
        found = {".".join(c.id.split(".")[:4]): c.utilisation for c in judge(job, SHIPPED, j.mount, add=True).worst}
        assert 0.98 < found[p.needs.check] <= 1.0005, p.needs


def test_more_power_wants_more_wood(real: Chart) -> None:
    thick = [p.needs.thickness for p in real.lines[0].points if p.needs]
    assert thick == sorted(thick)
    assert all(p.needs.thickness <= p.wood + 0.1 for p in real.lines[0].points if p.needs)


def test_the_job_keeps_its_own_engine_and_the_line_has_the_usual(real: Chart) -> None:
    assert real.own.facts["engine.weight"].value == pytest.approx(90.72, abs=0.01)
    at_40 = SHIPPED.engine_weight(WATTS[0]).running_kg
    assert at_40 > 100
    said = " ".join(words.assumed(real))
    assert "ready to run" in said
    assert "*" in said


# The page


def test_the_command_writes_the_same_bytes_and_never_over_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], real: Chart
) -> None:
    job, svg, table = (tmp_path / name for name in ("skiff.toml", "chart.svg", "chart.csv"))
    job.write_text(STATED, encoding="utf-8")
    told = [
        str(job),
        "--power",
        "40 to 90 hp",
        "--panels",
        "Douglas fir marine",
        "--out",
        str(svg),
        "--csv",
        str(table),
    ]
    assert command.main(["chart", *told]) == 0
    out, err = capsys.readouterr()
    assert out.splitlines() == list(chart_screen(real))
    assert max(map(len, out.splitlines())) <= 80
    assert err.count(": written") == 2
    assert svg.read_text(encoding="utf-8") == chart_svg(real)
    assert table.read_bytes() == to_csv(real).encode()
    assert '"command": "chart"' in (tmp_path / "skiff.log.jsonl").read_text(encoding="utf-8")
    svg.write_text("mine", encoding="utf-8")
    assert command.main(["chart", *told]) == 2
    assert svg.read_text(encoding="utf-8") == "mine"
    assert capsys.readouterr().err.count("--force") == 2


def test_every_fault_in_one_run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "skiff.toml"
    job.write_text(STATED, encoding="utf-8")
    told = ["--power", "90 to 400 hp", "--panels", "okoumé, balsa", "--out", "chart.png", "--csv", str(job)]
    assert command.main(["chart", str(job), *told]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert len(err.splitlines()) == 5
    for part in ("400 hp", "largest engine", "balsa", "chart.svg", "skiff.csv"):
        assert part in err
    assert "Traceback" not in err


@pytest.mark.parametrize("power", ["0 hp", "90 to 40 hp", "forty", "40", "-5 hp", "40 to 41 kg"])
def test_a_range_that_is_none(power: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "skiff.toml"
    job.write_text(STATED, encoding="utf-8")
    assert command.main(["chart", str(job), "--power", power]) == 2
    assert "--power" in capsys.readouterr().err


def test_a_power_whose_holes_nobody_knows_is_refused_and_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "skiff.toml"
    job.write_text(STATED, encoding="utf-8")
    assert command.main(["chart", str(job), "--power", "15 to 60 hp"]) == 2
    assert capsys.readouterr().err.startswith("at 15 hp and 25 hp: [engine.bracket]")


def test_csv_names_its_units_and_no_cell_is_a_formula(real: Chart) -> None:
    rows = list(csv.reader(io.StringIO(to_csv(real), newline="")))
    assert tuple(rows[0]) == HEADER
    assert {"power_hp", "power_kW", "needs_in", "needs_mm", "wood_mm"} <= set(HEADER)
    assert all(len(row) == len(HEADER) for row in rows)
    assert not [cell for row in rows for cell in row if cell.startswith(RISKY)]
    points = [dict(zip(HEADER, row, strict=True)) for row in rows[1:4]]
    for row, p in zip(points, real.lines[0].points, strict=True):
        assert p.needs is not None
        assert float(row["needs_mm"]) == p.needs.thickness
        assert float(row["needs_in"]) * 25.4 == pytest.approx(p.needs.thickness, abs=0.02)
        assert float(row["power_kW"]) * 1000 == pytest.approx(p.power, rel=1e-5)
        assert float(row["pencil_needs_mm"]) > p.needs.thickness
    last = [row[-1] for row in rows]
    assert all(f"CAREFUL: {line}" in last for line in words.cautions(real))
    assert "this job: passes" in {row[3] for row in rows}


def test_json_holds_the_points_and_every_caution(real: Chart) -> None:
    data = json.loads(to_json(real))
    assert data["schema"] == "transom-chart-1"
    assert data["paper"] == "QUOTE"
    (line,) = data["lines"]
    for found, p in zip(line["points"], real.lines[0].points, strict=True):
        assert p.needs is not None
        assert (found["needs_mm"], found["set_by"]) == (p.needs.thickness, p.needs.check)
        assert found["weakest"]["id"] == p.weakest.id
    assert data["cautions"] == list(words.cautions(real))
    assert data["own"]["passes"] is True
    for c in CHARTS[:10]:
        assert "Infinity" not in to_json(c)


def test_every_caution_stands_on_the_page_on_the_screen_and_in_the_table(real: Chart) -> None:
    cautions = words.cautions(real)
    assert {spelled(line, "us") for line in real.own.cautions} <= set(cautions)
    assert "75 hp" in cautions[0]
    assert any("never down" in line for line in cautions)
    texts = (plain(chart_svg(real)), squeezed("\n".join(chart_screen(real))), squeezed(to_csv(real).replace('""', '"')))
    for text in texts:
        assert all(squeezed(line) in text for line in cautions)
        assert "QUOTE" in text


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


def plain(svg: str) -> str:
    root = ElementTree.fromstring(svg.encode())
    return squeezed("".join(e.text or "" for e in root.iter() if e.tag.endswith("}text")))


# What is drawn, over many charts of invented points


def invented(seed: int) -> Chart:
    """A chart with points that nothing was worked out for."""
    r = random.Random(seed)
    own = drawn(r.choice(("example", "clamps")))
    low, high = sorted(r.sample(range(5, 300), 2))
    powers = asked(low * HP, high * HP)
    panels = r.sample(("douglas-fir-marine", "okoume", "exterior-unknown", "okoume"), r.randint(1, 3))
    lines = tuple(
        Line(panel, tuple(_points(r, powers, panel, own)), r.random() < 0.3) for panel in dict.fromkeys(panels)
    )
    if r.random() < 0.5:
        own = replace(own, job=replace(own.job, head=replace(own.job.head, units="si")))
    if r.random() < 0.5:
        plate = None if r.random() < 0.5 else r.uniform(low, high) * HP
        own = replace(own, job=replace(own.job, boat=replace(own.job.boat, plate_power=plate)))
    return Chart(powers, lines, own, r.random() < 0.5, ("at 9.9 hp: holes not measured",) if r.random() < 0.3 else ())


def _points(r: random.Random, powers: tuple[float, ...], panel: str, own: Judgement) -> Iterator[Point]:
    sheets = [row.name for row in SHIPPED.sheets_of(panel)]
    assert own.mount is not None
    wood = r.uniform(25, 40)
    for power in powers:
        wood = min(90.0, wood + r.uniform(-2, 12))
        names = r.choices(sheets, k=r.randint(1, 4))
        ends = r.random() < 0.15
        check = r.choice(own.worst)
        need = (
            None if r.random() < 0.05 else Required(".".join(check.id.split(".")[:4]), round(wood - r.uniform(0, 5), 1))
        )
        yield Point(power, NOTHING if ends else SIZED, need, wood + 5, tuple(replace(own.mount.layers[0], sheet=n) for n in names),
                    wood, wood + 5, check, own.worst[:2] if ends else (), r.random() < 0.2)  # fmt: skip
        if ends:
            return


CHARTS = [invented(seed) for seed in range(60)]


def true_box(t: s.Label) -> s.Box:
    """A label's box by the face's own widths; capitals are 0.72 of the font high."""
    long, high = width(t.words, t.size, bold=t.bold), 0.72 * t.size
    before = {"start": 0.0, "middle": long / 2, "end": long}[t.anchor]
    return s.Box(t.x - before, t.y - high / 2, t.x + long - before, t.y + high / 2)


def labels(scene: s.Scene) -> list[s.Label]:
    return [x for x in scene.shapes if isinstance(x, s.Label)]


@pytest.mark.parametrize("c", CHARTS, ids=range(len(CHARTS)))
def test_no_words_lie_on_words_or_off_the_page(c: Chart) -> None:
    scene = page(c)
    for a, b in combinations(labels(scene), 2):
        assert not true_box(a).meets(true_box(b)), f"{a.words!r} on {b.words!r}"
    for shape in scene.shapes:
        box = true_box(shape) if isinstance(shape, s.Label) else shape.box
        assert scene.box.grown(0.1).holds(box), shape


@pytest.mark.parametrize("c", CHARTS[:20], ids=range(20))
def test_black_and_gray_alone_and_every_number_is_one(c: Chart) -> None:
    text = chart_svg(c)
    found = set(re.findall(r"#[0-9a-fA-F]{3,6}\b", text))
    assert all(len(set(color[1:])) == 1 or color[1:3] == color[3:5] == color[5:7] for color in found), found
    assert not re.search(r"\b(nan|inf|NaN|Infinity|None)\b", text)
    ElementTree.fromstring(text.encode())
    assert list(chart_screen(c))
    assert to_csv(c)


def test_a_job_that_does_not_pass_says_so_everywhere_and_why() -> None:
    c = CHARTS[0]
    stop = Stop("over-builders-plate", "more engine than the builder's plate allows", final=False)
    over = replace(c, own=replace(c.own, stops=(stop,)))
    for text in (
        plain(chart_svg(over)),
        squeezed("\n".join(chart_screen(over))),
        squeezed(to_csv(over)),
        squeezed(to_json(over)),
    ):
        assert "STOPover-builders-plate" in text
        assert "DOESNOTPASS" in text or '"passes":false' in text


def test_marks_tell_panels_apart_without_color() -> None:
    c = next(c for c in CHARTS if len(c.lines) == 3 and all(len(line.sized) > 1 for line in c.lines))
    found = {x.purpose for x in figure(c).shapes if isinstance(x, s.Path)}
    assert set(s.SERIES[:3]) <= found


def test_what_the_trade_builds_stands_where_it_builds_it(real: Chart) -> None:
    a = scale(real)
    two = next(box for box in trade_boxes(a) if box.x_lo <= a.x(40 * HP) <= box.x_hi)
    assert two.y_lo < a.y(36.5) < a.y(38.0) < two.y_hi
    assert two.height < a.y(45.0) - a.y(36.0)


@given(st.lists(st.floats(0.0, HIGH), max_size=12))
def test_boards_at_the_right_are_moved_apart_in_their_order(heights: list[float]) -> None:
    found = apart(sorted(heights), 4.0)
    assert all(b - a >= 4.0 - 1e-9 for a, b in pairwise(found))
    assert all(y <= HIGH for y in found)
