"""A quote worked by hand, every line, from the tables' figures and an invented price book (`tests/estimate/shop.py`).

The board is 24 x 18 in = 0.6096 x 0.4572 m = 0.27871 m2; its edge 2 (0.6096 + 0.4572) = 2.1336 m; two layers of 18.26 mm and
one glue line of 0.2 mm are 36.72 mm. Engine: 4 bolts; frame: 8 old bolts kept, 3/8 in; 40 hp = 29.83 kW; 12 holes; 2 plates.

Epoxy: glue 0.27871 m2 x 0.35 kg/m2 = 0.0975 kg. Coats: both faces 0.55742 and edges 2.1336 x 0.03672 = 0.07835, 0.63576 m2,
x 0.3 mm x 1150 kg/m3 = 0.2193 kg. Over-bores of the engine's bolts (the frame's holes are drilled, not plugged):
pi/4 x 25.4^2 x 36.72 x 4 = 74,425 mm3, 74.43 ml x 1.15 = 0.0856 kg. All 0.4024 kg = 0.3499 L, with 20 % waste 0.420 L:
less than a pint (0.473).

Materials, cost, mark-up rounded half up, charge:
    2 blanks of 24 x 18 in and allowance lie on half a sheet    82.50 + 25 % 20.63 = 103.13
    1 pint of epoxy                                             31.40 + 25 %  7.85 =  39.25
    plate 2 x 16 x 3 in = 0.061935 m2, + 10 % = 0.068129,
      up to 0.069 m2 = 0.74271 sq ft x 29.90                    22.21 + 25 %  5.55 =  27.76
    bolts 1/2-13 x 3-1/2: 4 and a spare, 5 x 4.35               21.75 + 50 % 10.88 =  32.63
    nuts 1/2-13: 4 and a spare, a packet of 10                  11.05 + 50 %  5.53 =  16.58
    washers 1/2 wide: 4 and a spare, a packet of 10             14.25 + 50 %  7.13 =  21.38
    nuts 3/8-16: 8 and a spare, a packet of 10                   6.95 + 50 %  3.48 =  10.43
    filler 0.15 x 0.3499 L x 1.1 = 0.058 kg, a bag of 0.5       14.50 + 25 %  3.63 =  18.13
    brushes 4 x 1.15                                             4.60 + 25 %  1.15 =   5.75
    gloves 8, a box of 50                                       15.99 + 25 %  4.00 =  19.99
    pots 6, a packet of 10                                      11.25 + 25 %  2.81 =  14.06
    discs 5 x 0.63576 x 1.2 = 3.8, 4 x 1.35                      5.40 + 25 %  1.35 =   6.75
    cleaner 0.5 L, a liter                                      15.40 + 25 %  3.85 =  19.25
    sealant 0.06 x 8 x 1.1 = 0.53, a tube                       18.95 + 25 %  4.74 =  23.69
    isolating tape 2.1336 x 1.1 = 2.35 m, a roll of 10          21.10 + 25 %  5.28 =  26.38
    materials: wood 103.13, epoxy 39.25, metal 27.76, fasteners 81.02, supplies 134.00 = 385.16

Hours, up to the quarter, at 90:
    inspect 1.00 = 90.00                  engine off 1.5 + 0.01 x 29.83 = 1.80 -> 2.00 = 180.00
    strip 0.75 + 0.06 x 8 = 1.23 -> 1.25 = 112.50       template 0.5 + 0.5 x 0.2787 = 0.64 -> 0.75 = 67.50
    cut 0.25 + 0.25 x 2 = 0.75 = 67.50    laminate 0.5 + 0.139 + 0.25 x 2 = 1.14 -> 1.25 = 112.50
    bore 0.5 + 0.1 x 12 = 1.70 -> 1.75 = 157.50         plates 0.5 + 0.2 x 2 = 0.90 -> 1.00 = 90.00
    coat 1.0 + 1.5 x 0.2787 = 1.42 -> 1.50 = 135.00     fit 1.0 + 0.06 x 8 = 1.48 -> 1.50 = 135.00
    engine on 1.75 + 0.298 = 2.05 -> 2.25 = 202.50      trial 1.00 = 90.00        second visit 0.50 = 45.00
    16.50 h = 1,485.00

Tax at 8.25 % on each class but labour: 8.51 + 3.24 + 2.29 + 6.68 + 11.06 = 31.78 (134.00 x 0.0825 = 11.055, a half up).
Total 385.16 + 1,485.00 + 31.78 = 1,901.94.

Edges eaten adds primer 0.1 x 2.1336 x 1.2 = 0.26 L, a can of 0.5: 36.45 + 9.11 = 45.56; discs 2.13 -> 3 x 6.35 = 19.05 + 4.76 =
23.81; hours 1.25 + 0.2787 = 1.53 -> 1.75 = 157.50 and 0.75 + 0.05 x 12 = 1.35 -> 1.50 = 135.00; tax on supplies
203.37 x 0.0825 = 16.78, 5.72 more. Total 2,269.53.
"""

from decimal import Decimal

from tests.estimate.shop import priced
from transom.estimate.lines import Line

MATERIALS = {
    "sheet douglas-fir-marine 3/4 in": ("82.50", "103.13"),
    "epoxy epoxy": ("31.40", "39.25"),
    "plate 6061-T6": ("22.21", "27.76"),
    "bolt 1/2-13 F593C": ("21.75", "32.63"),
    "nut 1/2-13": ("11.05", "16.58"),
    "washer 1/2 wide": ("14.25", "21.38"),
    "nut 3/8-16": ("6.95", "10.43"),
    "supply filler": ("14.50", "18.13"),
    "supply brushes": ("4.60", "5.75"),
    "supply gloves": ("15.99", "19.99"),
    "supply pots": ("11.25", "14.06"),
    "supply discs": ("5.40", "6.75"),
    "supply cleaner": ("15.40", "19.25"),
    "supply sealant": ("18.95", "23.69"),
    "supply isolating tape": ("21.10", "26.38"),
}
HOURS = {
    "inspect": ("1.00", "90.00"), "engine-off": ("2.00", "180.00"), "strip": ("1.25", "112.50"), "template": ("0.75", "67.50"),
    "cut": ("0.75", "67.50"), "laminate": ("1.25", "112.50"), "bore": ("1.75", "157.50"), "plates": ("1.00", "90.00"),
    "coat": ("1.50", "135.00"), "fit": ("1.50", "135.00"), "engine-on": ("2.25", "202.50"), "trial": ("1.00", "90.00"),
    "re-torque": ("0.50", "45.00"),
}  # fmt: skip
TAX = {"wood": "8.51", "epoxy": "3.24", "metal": "2.29", "fasteners": "6.68", "supplies": "11.06", "labour": "0.00"}


def said(line: Line) -> tuple[str, str]:
    assert line.cost is not None
    assert line.charge is not None
    return str(line.cost.likely), str(line.charge.likely)


def test_every_line_of_the_materials() -> None:
    lines = [x for x in priced().dry.lines if x.kind != "labour"]
    assert {f"{x.kind} {x.name}": said(x) for x in lines} == MATERIALS
    assert str(priced().dry.materials.likely) == "385.16"


def test_every_line_of_the_work() -> None:
    lines = [x for x in priced().dry.lines if x.kind == "labour"]
    found = {x.name: (str(x.quantity.likely), str(x.charge.likely)) for x in lines if x.charge is not None}
    assert found == HOURS
    assert str(priced().dry.hours.likely) == "16.50"
    assert str(priced().dry.labour.likely) == "1485.00"


def test_tax_and_total() -> None:
    dry = priced().dry
    assert {t.klass: str(t.amount.likely) for t in dry.taxes} == TAX
    assert str(dry.total.likely) == "1901.94"


def test_what_eaten_edges_add() -> None:
    wet = priced().case("wet")
    added = {x.name: str(x.charge.likely) for x in wet.lines if x.case == "wet" and x.charge is not None}
    assert added == {"barrier primer": "45.56", "abrasives": "23.81", "wet-cut": "157.50", "wet-dress": "135.00"}
    assert str(wet.total.likely) == "2269.53"


def test_engine_off_and_on_is_a_line_of_its_own() -> None:
    engine = priced().dry.engine
    assert [x.name for x in engine] == ["engine-off", "engine-on"]
    assert sum((x.quantity.likely for x in engine), Decimal(0)) == Decimal("4.25")


def test_the_shop_calls_before_the_high_end_of_what_is_quoted() -> None:
    e = priced()
    assert e.dry.total.high == Decimal("2330.49")
    assert e.call_before == Decimal("2350.00")
