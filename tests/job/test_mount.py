"""A mount written into a job that stands: it reads back, and nothing else has moved."""

import dataclasses
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.job.orders import WHOLE, changed
from transom.errors import JobError
from transom.job.read import loads
from transom.job.records import Backing, EngineBolts, Job, Layer, Mount
from transom.job.statements import statements
from transom.job.write import blank, example_text, length, with_mount
from transom.quantity import read

PLATE = Backing(plate="6061-T6", thickness=6.35, width=381.0, height=76.2, per="pair")
PICKED = Mount(
    (Layer("douglas-fir-marine 3/4 in", "across"), Layer("douglas-fir-marine 1/2 in", "along")),
    EngineBolts("1/2-13", "F593C", 101.6, aft=Backing(washer="1/2 wide"), forward=PLATE),
)
BARE = Mount((Layer("okoume 18 mm", "across"),))


def apart_from_the_mount(job: Job) -> Job:
    return dataclasses.replace(job, mount=None, sha256="")


def texts() -> dict[str, str]:
    example = example_text()
    return {
        "example": example,
        "whole": WHOLE,
        "crlf": WHOLE.replace("\n", "\r\n"),
        "mark": "\ufeff" + example,
        "mark and crlf": "\ufeff" + WHOLE.replace("\n", "\r\n"),
        "no line end": example.rstrip("\n"),
        "blank": blank({"boat.kind": "pontoon", "engine.power": "40 hp"}),
    }


@pytest.mark.parametrize("mount", [PICKED, BARE], ids=["picked", "bare"])
@pytest.mark.parametrize("name", texts())
def test_the_same_job_and_the_mount(name: str, mount: Mount) -> None:
    text = texts()[name]
    written = with_mount(text, mount)
    assert loads(written).mount == mount
    assert apart_from_the_mount(loads(written)) == apart_from_the_mount(loads(text))
    assert with_mount(written, mount) == written
    assert with_mount(with_mount(text, BARE), mount) == written


@pytest.mark.parametrize("name", ["example", "blank", "mark"])
def test_where_there_was_none_all_that_stood_stands_before_it(name: str) -> None:
    text = texts()[name]
    assert with_mount(text, PICKED).startswith(text)


def test_as_it_looks() -> None:
    assert with_mount("", PICKED) == (
        "[mount]\n"
        "layers = [\n"
        '    { sheet = "douglas-fir-marine 3/4 in", grain = "across" },\n'
        '    { sheet = "douglas-fir-marine 1/2 in", grain = "along" },\n'
        "]\n"
        "\n"
        "[mount.engine_bolts]\n"
        'thread = "1/2-13"\n'
        'grade = "F593C"\n'
        'length = "4 in"\n'
        'aft = { washer = "1/2 wide" }\n'
        'forward = { plate = "6061-T6", thickness = "1/4 in", width = "15 in", height = "3 in", per = "pair" }\n'
    )


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_all_around_the_old_one_stays_byte_for_byte(end: str) -> None:
    before, rest = WHOLE.replace("\n", end).split("[mount]", 1)
    after = "[[case]]" + rest.split("[[case]]", 1)[1]
    written = with_mount(WHOLE.replace("\n", end), PICKED)
    assert written.startswith(before + "[mount]" + end)
    assert written.endswith(end + end + after)
    assert written.count("\n") == written.count(end)
    assert WHOLE.count("beach launch") == written.count("beach launch")


def test_comments_on_lines_of_their_own_are_kept() -> None:
    text = changed(
        ("[mount]", "# above\n[mount]"),
        ("[mount.engine_bolts]", "# between\n\n[mount.engine_bolts]"),
        ('grade = "F593C"', '# within\ngrade = "F593C"  # beside'),
        ("[[case]]", "# below\n[[case]]"),
    )
    written = with_mount(text, PICKED)
    kept = [written.index(f"# {where}\n") for where in ("above", "between", "within", "below")]
    assert kept == sorted(kept)
    assert kept[2] < written.index("[mount]") < kept[3]
    assert "# beside" not in written


OTHER_WAYS = [
    'mount = { layers = [{ sheet = "a", grain = "along" }] }\n[boat]\nkind = "pontoon"\n',
    'mount.layers = [{ sheet = "a", grain = "along" }]\nmount.engine_bolts.thread = "x"\n[boat]\nkind = "pontoon"\n',
    '[boat]\nkind = "pontoon"\n[[mount.layers]]\nsheet = "a"\ngrain = "along"\n[[mount.layers]]\nsheet = "b"\n[engine]\nx = 1\n',
    '["mount"]\nlayers = [\n  # note [\n  { sheet = "]", grain = "along" },\n]\n[ boat ]\nkind = "pontoon"\n',
    '[mount]\n[boat]\nkind = "pontoon"\n[mount.engine_bolts]\nthread = "x"\n[engine]\nx = """\n[mount]\n"""\ny = \'\'\'\n[mount]\'\'\'\n',
    '[boat]\nkind = "pontoon"  # [mount]\nlist = [\n[1],\n[2]]\n[mount]',
    '[boat.mount]\nx = 1\n[mountain]\ny = 2\n',
]  # fmt: skip


@pytest.mark.parametrize("text", OTHER_WAYS, ids=range(len(OTHER_WAYS)))
def test_however_the_old_one_was_written(text: str) -> None:
    old, new = tomllib.loads(text), tomllib.loads(with_mount(text, PICKED))
    written = new.pop("mount")
    old.pop("mount", None)
    assert new == old
    assert [layer["sheet"] for layer in written["layers"]] == [layer.sheet for layer in PICKED.layers]
    assert written["engine_bolts"]["thread"] == "1/2-13"


def test_what_is_not_toml_is_a_fault() -> None:
    with pytest.raises(JobError, match=r"line 1: width = 24 in  <- quotes are missing"):
        with_mount("width = 24 in", PICKED)


def test_statements_joined_are_the_text() -> None:
    for text in [*OTHER_WAYS, *texts().values()]:
        assert "".join(s.text for s in statements(text.removeprefix("\ufeff"))) == text.removeprefix("\ufeff")


def test_lengths_in_the_jobs_own_units() -> None:
    us = {88.9: "3-1/2 in", 4.7625: "3/16 in", 25.4: "1 in", 18.288: "0.72 in", 100.0: "100 mm", 3.175: "1/8 in",
          37.3062: "37.3062 mm", 0.0: "0 in"}  # fmt: skip
    assert {mm: length(mm, us=True) for mm in us} == us
    si = {88.9: "88.9 mm", 4.7625: "4.7625 mm", 100.0: "100 mm", 6.35: "6.35 mm"}
    assert {mm: length(mm, us=False) for mm in si} == si
    metric = with_mount(changed(('units = "us"', 'units = "si"')), PICKED)
    assert 'length = "101.6 mm"' in metric
    assert loads(metric).mount == PICKED


@settings(max_examples=300, deadline=None)
@given(st.floats(0.5, 3000.0) | st.integers(1, 4000).map(lambda n: n * 25.4 / 64), st.booleans())
def test_a_length_reads_back(mm: float, us: bool) -> None:
    assert abs(read(length(mm, us=us), "length") - mm) < 1e-6
