"""The keys of a setback or built bracket between board and engine, in the order a tape meets them."""

from transom.job.keys import Key, Section

BRACKETS = ("plates", "tube", "casting", "box", "bought")
SIDES = ("both", "one")

_BASE = Section("base", "Setback bracket: plate against the board, and its bolts through the board", (
    Key("thickness", "length", "of the plate; of a casting, the metal under the bolt heads", 1.0, 60.0),
    Key("width", "length", "of the plate, across", 50.0, 1500.0),
    Key("height", "length", "of the plate, up and down", 50.0, 1500.0),
    Key("top", "length", "board's top edge down to the plate's top edge", 0.0, 500.0),
    Key("upper_holes", "length", "upper pair through the board, center to center", 40.0, 1200.0),
    Key("lower_holes", "length", "lower pair, center to center", 40.0, 1200.0),
    Key("rows_apart", "length", "upper row to lower row", 20.0, 1000.0),
    Key("top_to_upper", "length", "board's top edge to the upper row", 5.0, 500.0),
    Key("edge", "length", "nearest edge of the plate to the middle of a hole", 2.0, 500.0),
    Key("pads_apart", "length", "not of plates: what bears on the board, middle to middle across", 40.0, 1200.0),
    Key("pad_width", "length", "not of plates: how wide each bears", 5.0, 600.0),
), blank="none")  # fmt: skip

_SIDE_PLATES = Section("side_plates", "Setback bracket: upright plates from base to engine plate", (
    Key("count", "count", "count them", 2, 8),
    Key("thickness", "length", "by caliper", 1.0, 60.0),
    Key("apart", "length", "outer two, middle to middle", 30.0, 1000.0),
    Key("top", "length", "board's top edge down to their top, at the base", -300.0, 800.0),
    Key("depth", "length", "top to bottom at the base", 20.0, 1200.0),
    Key("engine_top", "length", "engine plate's top edge down to their top, at the engine plate", -300.0, 800.0),
    Key("engine_depth", "length", "top to bottom at the engine plate", 20.0, 1200.0),
    Key("ties", "length", "plates or rods that tie them to each other near the lower and the upper edge: each one's "
        "distance aft of the board", 1.0, 2000.0, items=(1, 10), blank=""),
), (
    Section("steps", "where they are cut away between base and engine plate", (
        Key("aft", "length", "aft of the board", 1.0, 2000.0, required=True, unknown=False),
        Key("depth", "length", "metal left there, top to bottom, holes taken off", 5.0, 1200.0, required=True,
            unknown=False),
    ), many=True, blank="none"),
), blank="none")  # fmt: skip

_GUSSET = Section("gusset", "Setback bracket: level plate between the side plates, welded to them and to both end plates", (
    Key("thickness", "length", "by caliper", 1.0, 60.0),
    Key("down", "length", "board's top edge down to it, at the base", -300.0, 1500.0),
    Key("leg", "length", "leg of its fillets by weld gauge, the smallest found", 1.0, 40.0),
), blank="none")  # fmt: skip

_ENGINE_PLATE = Section("engine_plate", "Setback bracket: plate the engine is bolted to", (
    Key("thickness", "length", "by caliper", 1.0, 60.0),
    Key("width", "length", "across", 50.0, 1500.0),
    Key("height", "length", "up and down", 50.0, 1500.0),
    Key("edge", "length", "nearest edge of the plate to the middle of a hole", 2.0, 500.0),
), blank="none")  # fmt: skip

_FILLET = (
    Key("leg", "length", "leg of the fillet by weld gauge, the smallest found", 1.0, 40.0),
    Key("sides", "choice", "welded along both faces of each side plate, or one", choices=SIDES),
)
_WELDS = Section("welds", "Setback bracket: welds", (), (
    Section("base", "Setback bracket: side plates to base", _FILLET, blank="none"),
    Section("engine", "Setback bracket: side plates to engine plate", _FILLET, blank="none"),
), blank="none")  # fmt: skip

_BOLTS = Section("bolts", "Setback bracket: bolts, engine to engine plate", (
    Key("size", "size", "of the bolts"),
    Key("washer", "length", "across the washers under the nuts", 5.0, 150.0),
    Key("washer_t", "length", "thickness of those washers", 0.5, 30.0),
), blank="none")  # fmt: skip

SETBACK = Section("bracket", "Setback or built bracket between board and engine", (
    Key("kind", "choice", "welded of plates, which is judged; the others rest on their maker's paper",
        choices=BRACKETS),
    Key("setback", "length", "board's aft face to the engine's bracket face, level, at the top edges", 0.0, 2000.0,
        required=True),
    Key("height", "length", "engine plate's top edge above the board's, by level; minus if below", -1000.0, 1000.0),
    Key("weight", "mass", "of the bracket alone", 0.5, 500.0, field="mass"),
    Key("alloy", "text", 'stamp, drawing or builder; "?" takes the lowest listed'),
    Key("filler", "text", 'welding wire, such as "5356"; "?" takes the lowest listed'),
), (
    Section("gravity", "Setback bracket: its own center of gravity", (
        Key("aft", "length", "aft of the board; balance it on a bar", 0.0, 2000.0),
        Key("up", "length", "above the board's top edge; minus if below", -1500.0, 1000.0),
    ), blank="none"),
    _BASE, _SIDE_PLATES, _GUSSET, _ENGINE_PLATE, _WELDS, _BOLTS,
), blank="none")  # fmt: skip
