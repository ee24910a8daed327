"""Keys of a setback bracket: read in any unit, every fault of two measures in one run."""

import pytest

from transom.errors import JobError
from transom.job.read import loads

JOB = """
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
[bracket]
setback = "10 in"
"""


def faults(more: str) -> tuple[str, ...]:
    with pytest.raises(JobError) as error:
        loads(JOB + more)
    return error.value.faults


def test_everything_is_read() -> None:
    text = JOB + (
        'height = "25 mm"\nweight = "30 lb"\nalloy = "5083-H116"\nfiller = "?"\n[bracket.gravity]\naft = "5 in"\nup = "-6 in"\n'
        '[bracket.base]\nthickness = "1/2 in"\nwidth = "16 in"\nedge = "1-1/2 in"\n[bracket.side_plates]\ncount = 3\n'
        'apart = "10 in"\nties = ["4 in"]\nsteps = [{ aft = "5 in", depth = "6 in" }]\ndepth = "12 in"\n'
        '[bracket.gusset]\nthickness = "1/4 in"\n[bracket.welds.base]\nleg = "6 mm"\nsides = "one"\n[bracket.bolts]\nsize = "1/2 in"\n'
    )
    b = loads(text).setback
    assert b is not None
    assert (b.kind, b.judged, b.height, b.filler) == ("plates", True, 25.0, None)
    assert (b.gravity_aft, b.gravity_up) == pytest.approx((127.0, -152.4))
    assert (b.base.thickness, b.base.edge, b.side_plates.count) == pytest.approx((12.7, 38.1, 3))
    assert [(s.aft, s.depth) for s in b.side_plates.steps] == [pytest.approx((127.0, 152.4))]
    assert b.gusset is not None
    assert (b.gusset.thickness, b.gusset.leg) == (pytest.approx(6.35), None)
    assert (b.base_weld.leg, b.base_weld.sides, b.engine_weld.sides) == (6.0, "one", None)
    assert b.bolts.diameter == pytest.approx(12.7)


def test_without_plates_it_is_nobodys_to_judge() -> None:
    b = loads(JOB).setback
    assert b is not None
    assert not b.judged


@pytest.mark.parametrize("more, words", [
    ('[bracket.base]\nupper_holes = "25 in"\n', '[bracket.base] upper_holes = "25 in (635 mm)": is as wide as the board, 24 in (610 mm). '),
    ('[bracket.base]\nwidth = "12 in"\nlower_holes = "13 in"\n', "is as wide as the base plate, 12 in (305 mm). "),
    ('[bracket.base]\ntop_to_upper = "4 in"\nrows_apart = "15 in"\n', "puts the lower row 19 in (483 mm) down, off a board that ends 18 in (457 mm) down. "),
    ('[bracket.base]\ntop = "3 in"\ntop_to_upper = "2 in"\n', "lies above the base plate's top edge, 3 in (76.2 mm) down. "),
    ('[bracket.side_plates]\napart = "1-1/4 in"\nthickness = "1-1/2 in"\n', "leaves nothing between 2 plates 1.5 in (38.1 mm) thick. "),
    ('[bracket.base]\nwidth = "9 in"\n[bracket.side_plates]\napart = "9 in"\n', "is as wide as the base plate, 9 in (229 mm). "),
    ('[bracket.side_plates]\nties = ["12 in"]\n', "lies past a setback of 10 in (254 mm). "),
    ('[bracket.side_plates]\nsteps = [{ aft = "11 in", depth = "4 in" }]\n', "lies past a setback of 10 in (254 mm). "),
    ('[bracket.side_plates]\ndepth = "8 in"\nengine_depth = "7 in"\nsteps = [{ aft = "5 in", depth = "9 in" }]\n',
     "is more than the plates have, 8 in (203 mm). "),
    ('kind = "wood"\n', "[bracket] kind"),
    ('[bracket.welds.base]\nsides = "three"\n', "[bracket.welds.base] sides"),
    ('[bracket.side_plates]\ncount = 1\n', "[bracket.side_plates] count"),
])  # fmt: skip
def test_one_fault_one_line(more: str, words: str) -> None:
    (line,) = faults(more)
    assert words in line


def test_holes_of_the_engine_lie_on_its_plate_not_on_the_board() -> None:
    """Without a bracket the same holes are off the board."""
    wide = JOB.replace("[board]", '[engine.bracket]\nupper_holes = "25 in"\n[board]')
    assert loads(wide).setback is not None
    with pytest.raises(JobError, match="is as wide as the board"):
        loads(wide.replace('[bracket]\nsetback = "10 in"\n', ""))
