"""A setback bracket of plates: more metal is never worse for what it serves, and a missing number never passes."""

from dataclasses import fields, replace

import numpy as np
import pytest

from tests.checks.setbacks import GUSSET, PLATES, all_of, job, spoilt, whole
from transom.checks import setback
from transom.checks.trial import Trial
from transom.setup.setback_records import Metal, Plate, Sides, Weld

MORE = {
    "side_plates__thickness": (8.0, 10.0, 12.0),
    "side_plates__depth": (240.0, 300.0, 340.0),
    "base__thickness": (8.0, 10.0, 14.0),
    "engine_plate__thickness": (8.0, 10.0, 14.0),
    "base__edge": (15.0, 25.0, 50.0),
    "engine_plate__edge": (15.0, 25.0, 45.0),
    "base_weld": tuple(replace(PLATES.base_weld, leg=leg) for leg in (4.0, 6.0, 9.0)),
    "engine_weld": tuple(replace(PLATES.engine_weld, leg=leg) for leg in (4.0, 6.0, 9.0)),
    "side_plates__count": (2, 3, 4),
}
# A thicker plate is stiffer beside its weld and nearer to a bolt; a deeper one turns about its own middle, which may lie
# farther from the thrust. Only what a measure serves is asked.
SERVES = {
    "side_plates__thickness": ("side-plate",),
    "side_plates__depth": ("side-plate-bending-base", "weld-base", "metal-beside-weld-base"),
    "base__thickness": ("base-plate", "base-bolt"),
    "engine_plate__thickness": ("engine-plate", "engine-bolt"),
    "base__edge": ("base-plate", "base-bolt-shear"),
    "engine_plate__edge": ("engine-plate",),
    "base_weld": ("",),
    "engine_weld": ("",),
    "side_plates__count": ("side-plate", "weld"),
}


@pytest.mark.parametrize("name", MORE)
def test_more_metal_is_never_worse_for_what_it_serves(name: str) -> None:
    last: dict[str, float] = {}
    for value in MORE[name]:
        now = all_of(whole(job(**{name: value})))
        for check, u in now.items():
            if check.removeprefix("bracket.").startswith(SERVES[name]) and check in last:
                assert u <= last[check] * (1 + 1e-9) + 1e-12, check
        last = now


SPOIL = [
    (part, f.name)
    for part, kind in (("base", Plate), ("engine_plate", Plate), ("sides", Sides), ("base_weld", Weld),
                       ("engine_weld", Weld), ("metal", Metal))
    for f in fields(kind)
    if f.name not in {"steps", "ties", "y", "width", "z_top", "gusset"} and (part, f.name) not in {("base", "height"), ("metal", "f_u_w")}
]  # fmt: skip


@pytest.fixture(scope="module")
def good() -> Trial:
    of = whole(job(side_plates__thickness=14.0, base__thickness=14.0, engine_plate__thickness=16.0,
                   base_weld__leg=9.0, engine_weld__leg=9.0))  # fmt: skip
    assert max(all_of(of).values()) <= 1.0
    return of


@pytest.mark.parametrize("part, name", SPOIL)
def test_a_missing_number_never_passes(good: Trial, part: str, name: str) -> None:
    bad = spoilt(good, part, name, float("nan"))
    try:
        with np.errstate(all="ignore"):
            values = all_of(bad)
    except ValueError:
        return  # no weld, or one without length
    assert not max(values.values()) <= 1.0


def test_nan_loads_never_pass(good: Trial) -> None:
    for i in range(6):
        design = good.cases.design.copy()
        design[0, i] = np.nan
        bad = replace(good, cases=replace(good.cases, design=design))
        with np.errstate(all="ignore"):
            assert not max(float(c.worst[0]) for c in setback.checks(bad)) <= 1.0


def test_no_room_for_side_plates_never_passes() -> None:
    assert all_of(whole(job(distance=15.0)))["bracket.weld-base.lines"] == np.inf


@pytest.mark.parametrize("name", ["t", "z", "leg"])
def test_a_missing_number_of_a_gusset_never_passes(name: str) -> None:
    of = whole(job(gusset=GUSSET))
    b = of.setup.bracket.plates  # type: ignore[union-attr]
    bad = replace(b.sides.gusset, **{name: float("nan")})  # type: ignore[union-attr,type-var]
    with np.errstate(all="ignore"):
        assert not max(all_of(spoilt(of, "sides", "gusset", bad)).values()) <= 1.0  # type: ignore[arg-type]
