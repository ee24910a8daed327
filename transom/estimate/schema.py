"""What a price book may say: the sections and keys of a file, or of [prices] in the shop's own."""

from transom.catalogue.schema import plan
from transom.catalogue.shopwork import CLASSES, Operation
from transom.job.schema import Key, Section

PRICE = 1.0e6
PLATE_BY = ("m2", "sq ft", "sq in")
SHARE_CLASSES = (*CLASSES, "other")


def _price(what: str) -> Key:
    return Key("price", "ratio", f'{what}, in your money; "?" while not asked', 0.001, PRICE, required=True)


_SALE = (
    Key("date", "date", "when this price was asked; left out, the book's", unknown=False),
    Key("supplier", "text", "kind of shop that sells it", unknown=False),
    Key("in_stock", "flag", "on your rack", unknown=False, field="stocked"),
)
_PACK = Key("pack", "ratio", "how many a packet holds", 0.01, 10000.0, unknown=False)
_HOURS = (
    "base_h", "per_area_h_m2", "per_layer_h", "per_hole_h", "per_bolt_h", "per_plate_h", "per_power_h_kW", "aluminium",
    "glass", "low", "high",
)  # fmt: skip


def _bounds(column: str) -> tuple[float, float]:
    """What a column of the table of operations may hold; no operation takes no time."""
    rule = plan(Operation).rules[column]
    return max(rule.low, 0.01) if column == "base_h" else rule.low, rule.high


def _shares(name: str, title: str, most: float) -> Section:
    keys = tuple(Key(c, "ratio", f"share on {c}: 0.25 is 25 %", 0.0, most) for c in SHARE_CLASSES)
    return Section(name, title, keys)


BOOK = (
    Section("book", "Price book", (
        Key("says", "text", "what this book is", unknown=False),
        Key("invented", "flag", "true: for trying out, never for a customer", unknown=False),
        Key("date", "date", "the day these prices were asked", unknown=False),
        Key("currency", "text", "sign in front of an amount", unknown=False),
        Key("words", "text", "the money's name in words", unknown=False),
        Key("old_after", "count", "days until a price is called old", 1, 3650, unknown=False),
        Key("file", "text", "only in shop.toml: the file beside it that holds the book", unknown=False),
    )),
    Section("labour", "Work", (
        Key("rate", "ratio", "an hour of work", 0.01, 1.0e6),
        Key("hours_a_day", "ratio", "hours one person works in a day", 1.0, 16.0, unknown=False),
    )),
    _shares("markup", "Mark-up by class", 5.0),
    _shares("tax", "Tax by class", 1.0),
    Section("hours", "Your own hours of an operation", (
        Key("operation", "text", "its name: `transom materials labour`", required=True, unknown=False, family="labour"),
        *(Key(h, "ratio", "as in the table of operations", *_bounds(h), unknown=False) for h in _HOURS),
    ), many=True),
    Section("sheet", "Sheets", (
        Key("name", "text", "panel and thickness", required=True, unknown=False, family="sheets"),
        _price("a whole sheet"),
        Key("half", "ratio", "half a sheet, where the yard sells it", 0.001, PRICE),
        *_SALE,
    ), many=True),
    Section("plate", "Plate, cut to size", (
        Key("alloy", "text", "its name in the tables", required=True, unknown=False, family="plates"),
        Key("thickness", "length", "of the plate", 0.5, 60.0, required=True, unknown=False),
        _price("for one of `per`"),
        Key("per", "choice", "area it is priced by", choices=PLATE_BY, required=True, unknown=False),
        *_SALE,
    ), many=True),
    Section("bolt", "Bolts", (
        Key("thread", "text", "thread", required=True, unknown=False, family="threads"),
        Key("grade", "text", "grade", required=True, unknown=False, family="grades"),
        Key("length", "length", "under the head", 10.0, 600.0, required=True, unknown=False),
        _price("a packet"), _PACK, *_SALE,
    ), many=True),
    Section("nut", "Lock nuts", (
        Key("thread", "text", "thread", required=True, unknown=False, family="threads"),
        _price("a packet"), _PACK, *_SALE,
    ), many=True),
    Section("washer", "Washers", (
        Key("name", "text", "its name in the tables", required=True, unknown=False, family="washers"),
        _price("a packet"), _PACK, *_SALE,
    ), many=True),
    Section("plate_washer", "Plate washers, square", (
        Key("side", "length", "of the square", 10.0, 300.0, required=True, unknown=False),
        Key("thickness", "length", "of the plate", 0.5, 60.0, required=True, unknown=False),
        _price("a packet"), _PACK, *_SALE,
    ), many=True),
    Section("epoxy", "Epoxy kits, resin with hardener", (
        Key("holds", "text", 'resin and hardener together: "1 gal", "900 ml"', required=True, unknown=False),
        _price("a kit"), *_SALE,
    ), many=True),
    Section("supply", "What is used up", (
        Key("name", "text", "its name in the tables", required=True, unknown=False, family="supplies"),
        _price("a packet"), _PACK, *_SALE,
    ), many=True),
)  # fmt: skip
HOURS = _HOURS
