"""The tables of materials, parts and factors: rows as frozen, checked records in working units.

`panel`, `sheet`, `thread`, ... find a row of the shipped tables; `stocked(rows)` gives a `Catalogue` with
the same methods over the shop's own rows.
"""

from transom.catalogue.lookup import Catalogue, stocked
from transom.catalogue.tables import families, load, provisional, rows

SHIPPED = Catalogue()

panel = SHIPPED.panel
sheet = SHIPPED.sheet
sheets_of = SHIPPED.sheets_of
adhesive = SHIPPED.adhesive
thread = SHIPPED.thread
grade = SHIPPED.grade
grades_for = SHIPPED.grades_for
washer = SHIPPED.washer
washers_for = SHIPPED.washers_for
nut = SHIPPED.nut
head = SHIPPED.head
bolt_lengths = SHIPPED.bolt_lengths
plate = SHIPPED.plate
plate_thicknesses = SHIPPED.plate_thicknesses
welded = SHIPPED.welded
engine_weight = SHIPPED.engine_weight
propeller = SHIPPED.propeller
gravity = SHIPPED.gravity
bracket = SHIPPED.bracket
preset = SHIPPED.preset
factor = SHIPPED.factor
b_series = SHIPPED.b_series

__all__ = [
    "SHIPPED",
    "Catalogue",
    "adhesive",
    "b_series",
    "bolt_lengths",
    "bracket",
    "engine_weight",
    "factor",
    "families",
    "grade",
    "grades_for",
    "gravity",
    "head",
    "load",
    "nut",
    "panel",
    "plate",
    "plate_thicknesses",
    "preset",
    "propeller",
    "provisional",
    "rows",
    "sheet",
    "sheets_of",
    "stocked",
    "thread",
    "washer",
    "washers_for",
    "welded",
]
