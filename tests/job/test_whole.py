"""A whole work order read: every value in working units.

Expected values are worked by hand from the exact inch, pound, pound-force, mile and horsepower (NIST SP 811 (2008),
appendix B), never by the reader under test.
"""

import datetime as dt
import hashlib
import tomllib
from math import radians
from pathlib import Path

import pytest

from tests.job.orders import WHOLE, changed
from transom.job.read import load, loads
from transom.job.reading import read_tables
from transom.job.records import (
    Accept,
    Backing,
    Boat,
    EngineBolts,
    FrameBolts,
    Head,
    Hole,
    Job,
    Layer,
    Mount,
    Quote,
    ShopCase,
    Sign,
)
from transom.job.schema import SECTIONS, keys
from transom.job.write import example_text

HP = 745.6998715822702  # 550 x 0.3048 x 4.4482216152605
LB = 0.45359237
LB_FT = 1355.8179483314004  # 304.8 x 4.4482216152605


@pytest.fixture(scope="module")
def job() -> Job:
    return loads(WHOLE)


def test_head_and_boat(job: Job) -> None:
    assert job.head == Head("river pontoon, 40 hp", "1042", "A", dt.date(2026, 5, 4), "us", "EN")
    assert job.boat == Boat(
        kind="pontoon", plate="stated", plate_power=pytest.approx(50 * HP), plate_engine_mass=None, water="fresh",
        service="calm", speed=pytest.approx(9.83488), trailer=True,
    )  # fmt: skip


def test_engine(job: Job) -> None:
    e = job.engine
    assert e.power == e.power_low == pytest.approx(40 * HP)
    assert e.mass == pytest.approx(260 * LB)
    assert e.torque == pytest.approx(40 * LB_FT)
    assert (e.count, e.shaft, e.steering, e.held_by, e.threads) == (1, 508.0, "tiller", "bolts", "oiled")
    assert e.takes == (31.75, 69.85)
    assert (e.gravity_aft, e.gravity_up) == (228.6, 152.4)
    assert (e.thrust, e.kicker, e.lift_plate) == (None, None, False)


def test_propeller_and_bracket(job: Job) -> None:
    p, b = job.engine.propeller, job.engine.bracket
    assert (p.diameter, p.pitch, p.blades, p.area_ratio, p.gear) == (279.4, 330.2, 3, 0.55, 2.0)
    assert p.speed == pytest.approx(5500 / 60)
    assert (b.upper_holes, b.lower_holes, b.rows_apart, b.top_to_upper, b.ear) == (
        327.025,
        250.825,
        203.2,
        47.625,
        19.05,
    )
    assert (b.bolts, b.pads) == ((), ())


def test_board_and_frame(job: Job) -> None:
    b, f = job.board, job.frame
    assert (b.width, b.height, b.lean) == (609.6, 457.2, pytest.approx(radians(12)))
    assert (b.pocket, b.pocket_stated, b.sealed, b.treatment, b.material, b.core) == (
        None, True, True, "none", "plywood", "none",
    )  # fmt: skip
    assert b.openings == (Hole(0.0, 406.4, 25.4, "drain"),)
    assert (b.obstructions, b.notch_width, b.notch_depth) == ((), 0.0, 0.0)
    assert (f.kind, f.flange_width, f.flange_thickness, f.flange_alloy) == ("pod", 38.1, 4.7625, "5052-H32")
    assert f.bolts == FrameBolts(size="3/8 in", count=8, keep=True, diameter=9.525)


def test_stock_mount_case_and_accept(job: Job) -> None:
    assert (job.stock.panels, job.stock.sheets, job.stock.most_sheets) == (
        ("douglas-fir-marine",), ("1/2 in", "3/4 in"), 4,
    )  # fmt: skip
    plate = Backing(plate="6061-T6", thickness=6.35, width=381.0, height=76.2, per="pair")
    assert job.mount == Mount(
        (Layer("douglas-fir-marine 3/4 in", "across"),) * 2,
        EngineBolts("1/2-13", "F593C", 88.9, aft=Backing(washer="1/2 wide"), forward=plate),
    )
    assert job.cases == (ShopCase("beach launch", "ahead", 1.2, "launched on a slope"),)
    assert job.accepts == (Accept("plate-power-unreadable", "name", dt.date(2026, 5, 4), "builder's letter"),)
    assert job.sign == Sign("A. Draws", "B. Looks", "C. Owns")
    assert job.quote == Quote("D. Pays", "firm", 2775.0, 30, ("the old board taken away",), ("storage",))


def test_the_rest_of_the_record(job: Job) -> None:
    assert job.sha256 == hashlib.sha256(WHOLE.encode()).hexdigest()
    assert job.unmeasured == ("boat.plate_engine_weight",)
    assert (job.second_look, job.shop, job.setback, job.not_judged) == (0.85, None, None, ())


def test_the_shipped_example_loads_with_a_question_mark_or_two() -> None:
    job = loads(example_text())
    assert job.boat.kind == "pontoon"
    assert job.engine.power == pytest.approx(40 * HP)
    assert job.mount is None
    assert {"engine.gravity.aft", "crossmembers.wall"} <= set(job.unmeasured)


def test_a_file_is_its_bytes(tmp_path: Path) -> None:
    data = b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").replace('shop = "shop.toml"', "").encode()
    (tmp_path / "a job.toml").write_bytes(data)
    job = load(tmp_path / "a job.toml")
    assert job.sha256 == hashlib.sha256(data).hexdigest()
    assert job.board == loads(WHOLE).board


PRESET = ("boat.plate_power", "engine.power", "board.width", "board.height", "frame.kind")


def test_question_marks_where_presets_stand_in() -> None:
    job = loads(
        changed(('power = "40 hp"', 'power = "?"'), ('width = "24 in"', 'width = "?"'), ('height = "18 in"', 'height = "?"'),
                ('kind = "pod"', 'kind = "?"'))
    )  # fmt: skip
    assert (job.engine.power, job.board.width, job.board.height, job.frame.kind) == (None, None, None, None)
    assert set(job.unmeasured) == {*PRESET[1:], "boat.plate_engine_weight"}
    unread = loads(changed(('plate_power = "50 hp"', 'plate_power = "?"')))
    assert (unread.boat.plate, unread.boat.plate_power) == ("not measured", None)
    assert "boat.plate_power" in unread.unmeasured


@pytest.mark.parametrize(
    "said, plate", [("none", "none"), ("cannot read", "cannot read"), ("Cannot-Read", "cannot read")]
)
def test_a_plate_that_says_nothing(said: str, plate: str) -> None:
    boat = loads(changed(('plate_power = "50 hp"', f'plate_power = "{said}"'))).boat
    assert (boat.plate, boat.plate_power) == (plate, None)


MAY_BE_UNKNOWN = [path for path, key in keys() if key.unknown and not path.startswith(("mount", "frame.lines"))]


@pytest.mark.parametrize("path", MAY_BE_UNKNOWN)
def test_every_key_that_may_be_a_question_mark_is_listed_when_it_is(path: str) -> None:
    document = tomllib.loads(MINIMAL)
    *sections, name = path.split(".")
    table = document
    for section in sections:
        table = table.setdefault(section, {})
    table[name] = "?"
    assert read_tables(document, SECTIONS).unmeasured == [path]


MINIMAL = """
[job]
[boat]
kind = "pontoon"
plate_power = "50 hp"
[engine]
power = "40 hp"
[board]
width = "24 in"
height = "18 in"
[frame]
kind = "pod"
"""


def test_left_out_is_told_apart_from_not_measured() -> None:
    job = loads(MINIMAL)
    assert job.unmeasured == ()
    assert {"engine.weight", "board.lean", "engine.bracket.ear", "crossmembers.wall"} <= set(job.left_out)
    assert "board.width" not in job.left_out


def test_bracket_trial_and_what_was_built_are_read() -> None:
    text = (
        MINIMAL
        + '[bracket]\nsetback = "10 in"\n[bracket.welds.base]\nleg = "3 mm"\n[trial]\nspeed = "22 mph"\n[built]\n'
    )
    job = loads(text)
    assert job.not_judged == ("trial", "built")
    assert job.sea_trial is not None
    assert job.sea_trial.speed == pytest.approx(9.835, abs=1e-3)
    assert job.built is not None
    assert job.setback is not None
    assert job.setback.distance == 254.0
    assert job.setback.base_weld.leg == 3.0
    assert not job.setback.judged


def test_a_glass_hull_hides_a_core_until_somebody_looked() -> None:
    glass = MINIMAL.replace('"pontoon"', '"glass hull"')
    assert loads(glass).board.core == "hidden"
    assert loads(glass.replace("[board]", '[board]\ncore = "none"')).board.core == "none"
    assert loads(MINIMAL).board.core == "none"


def test_a_range_of_power_is_sized_for_its_top() -> None:
    engine = loads(MINIMAL.replace('power = "40 hp"', 'power = "40 to 60 hp"')).engine
    assert (engine.power_low, engine.power) == (pytest.approx(40 * HP), pytest.approx(60 * HP))


def test_odd_patterns_pads_uprights_and_lines() -> None:
    text = (
        MINIMAL.replace("[board]", '[engine.bracket]\nbolts = [{ y = "-6 in", down = "2 in" }, { y = "6 in", down = "9 in" }]\n'
                        'pads = [{ y = "5 in", down = "0 in", width = "3 in", height = "12 in" }]\n[board]')
        .replace('kind = "pod"', 'kind = "uprights"\nat = ["-8 in", "8 in"]\nlines = [{ from = ["-8 in", "0 in"], '
                 'to = ["-8 in", "18 in"] }, { from = ["8 in", "0 in"], to = ["8 in", "18 in"], fixed = true }]')
    )  # fmt: skip
    job = loads(text)
    assert [(b.y, b.down) for b in job.engine.bracket.bolts] == [(-152.4, 50.8), (152.4, 228.6)]
    assert [(p.y, p.down, p.width, p.height) for p in job.engine.bracket.pads] == [(127.0, 0.0, 76.2, 304.8)]
    assert job.frame.at == (-203.2, 203.2)
    assert [(line.start, line.end, line.fixed) for line in job.frame.lines] == [
        ((-203.2, 0.0), (-203.2, 457.2), False), ((203.2, 0.0), (203.2, 457.2), True),
    ]  # fmt: skip
