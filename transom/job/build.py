"""From what was read to the records; only called where nothing is at fault."""

import math
from dataclasses import replace
from typing import Any

from transom.job.reading import Reading
from transom.job.records import (
    Accept,
    Backing,
    Board,
    Boat,
    Built,
    Corners,
    Crossmembers,
    Engine,
    EngineBolts,
    EngineBracket,
    EngineClamps,
    Frame,
    FrameBolts,
    Head,
    Hole,
    Job,
    Kicker,
    Layer,
    Line,
    Mount,
    Offcut,
    Pad,
    Propeller,
    Quote,
    SeaTrial,
    Shop,
    ShopCase,
    Sign,
    Stock,
)
from transom.job.setback_records import BasePlate, EnginePlate, Fillet, Gusset, PlateBolts, Setback, SidePlates, Step


def job(r: Reading, shop: Shop | None, shop_reading: Reading, sha256: str) -> Job:
    """The job, with what the shop's file says where the job says nothing."""
    return Job(
        head=_head(r),
        boat=_boat(r),
        engine=_engine(r),
        board=_board(r),
        frame=_frame(r),
        stock=_stock(r, shop_reading),
        mount=_mount(r),
        cases=tuple(ShopCase(**row) for row in r.get("case") or ()),
        accepts=tuple(Accept(**row) for row in r.get("accept") or ()),
        sea_trial=_sea_trial(r),
        built=Built(**r.of("built")) if r.get("built") else None,
        sign=Sign(**r.of("sign")),
        quote=Quote(**r.of("quote")),
        sha256=sha256,
        unmeasured=tuple(r.unmeasured),
        second_look=_first(shop_reading.get("shop.second_look"), 0.85),
        shop_temperature=_first(r.get("job.temperature"), shop_reading.get("shop.temperature")),
        shop=shop,
        setback=_setback(r),
        crossmembers=_crossmembers(r),
        left_out=tuple(r.left_out),
        not_judged=tuple(r.not_judged),
    )


def _first(stated: Any, otherwise: Any) -> Any:
    return otherwise if stated is None else stated


def _head(r: Reading) -> Head:
    stated = r.of("job")
    return Head(**{k: v for k, v in stated.items() if k not in {"shop", "temperature"}})


def _boat(r: Reading) -> Boat:
    stated = r.of("boat")
    plate = stated.pop("plate_power", "not measured")
    if isinstance(plate, float):
        return Boat(**stated, plate="stated", plate_power=plate)
    return Boat(**stated, plate=plate)


def _engine(r: Reading) -> Engine:
    stated = r.of("engine")
    low, high = stated.pop("power", (None, None))
    return Engine(
        **stated,
        power=high,
        power_low=low,
        **r.of("engine.gravity"),
        propeller=Propeller(**r.of("engine.propeller")),
        bracket=_bracket(r),
        clamps=EngineClamps(**r.of("engine.clamps")),
        kicker=Kicker(**r.of("engine.kicker")) if r.get("engine.kicker") else None,
    )


def _bracket(r: Reading) -> EngineBracket:
    return EngineBracket(
        **r.of("engine.bracket"),
        bolts=_holes(r, "engine.bracket.bolts"),
        pads=tuple(Pad(**row) for row in r.get("engine.bracket.pads") or ()),
    )


def _holes(r: Reading, path: str) -> tuple[Hole, ...]:
    return tuple(Hole(**row) for row in r.get(path) or ())


def _board(r: Reading) -> Board:
    stated: dict[str, Any] = {"width": None, "height": None, "core": _core(r)} | r.of("board")
    pocket = stated.pop("pocket", None)
    return Board(
        **stated,
        pocket=pocket if isinstance(pocket, float) else None,
        pocket_stated=pocket is not None,
        openings=_holes(r, "board.openings"),
        obstructions=_holes(r, "board.obstructions"),
        notch_width=r.get("board.top_notch.width") or 0.0,
        notch_depth=r.get("board.top_notch.depth") or 0.0,
        top_corners=Corners(**r.of("board.top_corners")),
        bottom_corners=Corners(**r.of("board.bottom_corners")),
    )


def _core(r: Reading) -> str:
    """A glass hull's core is hidden until somebody says that there is none."""
    return "hidden" if r.get("boat.kind") == "glass hull" else "none"


def _frame(r: Reading) -> Frame:
    stated: dict[str, Any] = {"kind": None} | r.of("frame")
    flange = {f"flange_{name}": value for name, value in r.of("frame.flange").items()}
    if flange.get("flange_weld") == "none":
        flange["flange_weld"] = math.inf
    lines = tuple(Line(**row) for row in r.get("frame.lines") or ())
    return Frame(**stated, **flange, bolts=_bolts(r, "frame.bolts"), lines=lines)


def _bolts(r: Reading, path: str) -> FrameBolts | None:
    if not r.get(path):
        return None
    stated = r.of(path)
    size, diameter = stated.pop("size", ("", None))
    return FrameBolts(**stated, size=size, diameter=diameter)


def _settled(r: Reading, path: str) -> FrameBolts | None:
    """Bolts of a joint as the mount has them."""
    bolts = _bolts(r, path)
    return None if bolts is None else replace(bolts, chosen=True)


def _setback(r: Reading) -> Setback | None:
    if not r.get("bracket"):
        return None
    stated = r.of("bracket")
    size, diameter = r.get("bracket.bolts.size") or ("", None)
    bolts = {k: v for k, v in r.of("bracket.bolts").items() if k != "size"}
    steps = tuple(Step(**row) for row in r.get("bracket.side_plates.steps") or ())
    return Setback(
        distance=stated.get("setback"),
        kind=stated.get("kind") or ("plates" if r.get("bracket.side_plates") else ""),
        **{k: stated.get(k) for k in ("mass", "height", "alloy", "filler")},
        **{f"gravity_{k}": v for k, v in r.of("bracket.gravity").items()},
        base=BasePlate(**r.of("bracket.base")),
        side_plates=SidePlates(**r.of("bracket.side_plates"), steps=steps),
        gusset=Gusset(**r.of("bracket.gusset")) if r.get("bracket.gusset") else None,
        engine_plate=EnginePlate(**r.of("bracket.engine_plate")),
        base_weld=Fillet(**r.of("bracket.welds.base")),
        engine_weld=Fillet(**r.of("bracket.welds.engine")),
        bolts=PlateBolts(size, diameter, **bolts),
    )


def _crossmembers(r: Reading) -> Crossmembers:
    holes = tuple((row["y"], row["forward"]) for row in r.get("crossmembers.holes") or ())
    return Crossmembers(**r.of("crossmembers"), bolts=_bolts(r, "crossmembers.bolts"), holes=holes)


def _stock(r: Reading, shop: Reading) -> Stock:
    """The job's stock over the shop's, key by key; measured sheets sheet by sheet."""
    measured = dict(shop.get("stock.measured") or ()) | dict(r.get("stock.measured") or ())
    offcuts = tuple(Offcut(**row) for row in r.get("stock.offcuts") or shop.get("stock.offcuts") or ())
    return Stock(**(shop.of("stock") | r.of("stock")), measured=tuple(sorted(measured.items())), offcuts=offcuts)


def _mount(r: Reading) -> Mount | None:
    layers = tuple(Layer(**row) for row in r.get("mount.layers") or ())
    if not layers:
        return None
    return Mount(
        layers,
        _engine_bolts(r) if r.get("mount.engine_bolts") else None,
        _settled(r, "mount.frame_bolts"),
        _settled(r, "mount.pod_bolts"),
    )


def _engine_bolts(r: Reading) -> EngineBolts:
    path = "mount.engine_bolts"
    return EngineBolts(**r.of(path), aft=Backing(**r.of(f"{path}.aft")), forward=Backing(**r.of(f"{path}.forward")))


def _sea_trial(reading: Reading) -> SeaTrial | None:
    """What the trial found; an instrument that the boat lacks is a word in place of a figure."""
    if not reading.get("trial"):
        return None
    said = reading.of("trial")
    lacks = tuple(v for v in said.values() if isinstance(v, str))
    push = reading.of("trial.push")
    found = {k: v for k, v in said.items() if not isinstance(v, str)}
    return SeaTrial(**found, push_mass=push.get("weight"), moved=push.get("moved"), lacks=lacks)
