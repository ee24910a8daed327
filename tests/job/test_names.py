"""Names that a job takes from the tables: any spelling of one that is there, the nearest of one that is not."""

import pytest

from tests.job.orders import changed, faults
from transom.job.read import loads
from transom.job.schema import SECTIONS, SHOP_SECTIONS, keys

SHEET = '"douglas-fir-marine 3/4 in", grain = "across" }, {'
LIST = "`transom materials {}` lists what there is."

UNKNOWN = [
    (SHEET, '"douglas-fir-marin 3/4 in", grain = "across" }, {',
     '[mount.layers 1] sheet = "douglas-fir-marin 3/4 in": no such sheet in the tables. '
     'Did you mean "douglas-fir-marine 3/4 in"? ' + LIST.format("sheets")),
    ('thread = "1/2-13"', 'thread = "1/2-13 UNC"',
     '[mount.engine_bolts] thread = "1/2-13 UNC": no such thread in the tables. Did you mean "1/2-13"? '
     + LIST.format("threads")),
    ('grade = "F593C"', 'grade = "zinc"',
     '[mount.engine_bolts] grade = "zinc": no such bolt grade in the tables. ' + LIST.format("grades")),
    ('washer = "1/2 wide"', 'washer = "1/2 wides"',
     '[mount.engine_bolts.aft] washer = "1/2 wides": no such washer in the tables. Did you mean "1/2 wide"? '
     + LIST.format("washers")),
    ('plate = "6061-T6"', 'plate = "6061-T66"',
     '[mount.engine_bolts.forward] plate = "6061-T66": no such plate alloy in the tables. Did you mean "6061-T6"? '
     + LIST.format("plates")),
    ('panels = ["douglas-fir-marine"]', 'panels = ["okoume", "balsa"]',
     '[stock] panels = ["okoume", "balsa"]: no such panel in the tables. ' + LIST.format("panels")),
    ('sheets = ["1/2 in", "3/4 in"]', 'sheets = ["1/2 in", "9/10 ft"]',
     '[stock] sheets = ["1/2 in", "9/10 ft"]: no such sheet in the tables. ' + LIST.format("sheets")),
    ("most_sheets = 4", 'most_sheets = 4\n[stock.measured]\n"fir 3/4" = ".72 in"',
     '[stock.measured] fir 3/4 = ".72 in": no such sheet in the tables. ' + LIST.format("sheets")),
]  # fmt: skip


@pytest.mark.parametrize("old, new, line", UNKNOWN, ids=range(len(UNKNOWN)))
def test_an_unknown_name(old: str, new: str, line: str) -> None:
    assert faults(changed((old, new))) == (line,)


@pytest.mark.parametrize("spelled", ["Douglas-Fir Marine 3/4 in", "douglas_fir_marine  3/4 IN"])
def test_any_spelling(spelled: str) -> None:
    job = loads(
        changed(
            (SHEET, f'"{spelled}", grain = "across" }}, {{'),
            ("most_sheets = 4", f'[stock.measured]\n"{spelled}" = "18 mm"'),
        )
    )
    assert job.mount is not None
    assert job.mount.layers[0].sheet == "douglas-fir-marine 3/4 in"
    assert job.stock.measured == (("douglas-fir-marine 3/4 in", 18.0),)


@pytest.mark.parametrize(
    "typed, nominal",
    [("3/4 inch", "3/4 in"), ('3/4\\"', "3/4 in"), (".75 in", "3/4 in"), ("18mm", "18 mm"), ("okoume 18 mm", "okoume 18 mm")],
)  # fmt: skip
def test_sheets_by_their_length(typed: str, nominal: str) -> None:
    assert loads(changed(('sheets = ["1/2 in", "3/4 in"]', f'sheets = ["{typed}"]'))).stock.sheets == (nominal,)


def test_every_name_of_a_row_is_checked() -> None:
    """Text of the stock and the mount names rows, all of it."""
    unchecked = {
        path for path, key in keys(SECTIONS + SHOP_SECTIONS)
        if key.kind == "text" and path.startswith(("stock", "mount")) and not key.family
    }  # fmt: skip
    assert unchecked == set()
