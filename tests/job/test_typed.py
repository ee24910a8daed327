"""What a shop types, inside a job; expected values from the exact units (NIST SP 811 (2008), appendix B)."""

import json
from collections.abc import Callable
from math import atan, radians

import pytest

from tests.job.orders import changed, faults
from transom.job.read import loads
from transom.job.records import Job

HP = 745.6998715822702
LB_FT = 1355.8179483314004
WIDTH = 'width = "24 in"'
HEIGHT = 'height = "18 in"'
LEAN = 'lean = "12 deg"'
WEIGHT = 'weight = "260 lb"'
POWER = 'power = "40 hp"'
TORQUE = 'torque = "40 lb-ft"'
EAR = 'ear = "3/4 in"'
NAME = 'number = "1042"'

Value = Callable[[Job], float | None]


def ear(job: Job) -> float | None:
    return job.engine.bracket.ear


TYPED: list[tuple[str, str, Value, float]] = [
    (WIDTH, "20 1/2 in", lambda j: j.board.width, 520.7),
    (WIDTH, '20-1/2"', lambda j: j.board.width, 520.7),
    (WIDTH, "3' 4\"", lambda j: j.board.width, 1016.0),
    (WIDTH, "3 ft 4-1/2 in", lambda j: j.board.width, 1028.7),
    (EAR, "½ in", ear, 12.7),
    (EAR, "1 ½ in", ear, 38.1),
    (EAR, ".72 in", ear, 18.288),
    (EAR, "18mm", ear, 18.0),
    (WEIGHT, "260 lbs", lambda j: j.engine.mass, 117.9340162),
    (WEIGHT, "118 kgs", lambda j: j.engine.mass, 118.0),
    (POWER, "40HP", lambda j: j.engine.power, 40 * HP),
    (POWER, "30 PS", lambda j: j.engine.power, 22064.9625),
    (POWER, "30 kw", lambda j: j.engine.power, 30000.0),
    (TORQUE, "55 lb-ft", lambda j: j.engine.torque, 55 * LB_FT),
    (TORQUE, "55 ft-lbs", lambda j: j.engine.torque, 55 * LB_FT),
    (TORQUE, "75 Nm", lambda j: j.engine.torque, 75000.0),
    (TORQUE, "75 N-m", lambda j: j.engine.torque, 75000.0),
    (NAME, "58 F", lambda j: j.shop_temperature, 130 / 9),
    (LEAN, "14°", lambda j: j.board.lean, radians(14)),
    (LEAN, "3-1/2 in on 14 in", lambda j: j.board.lean, atan(0.25)),
]


def typed(line: str, text: str) -> str:
    key = "temperature" if line is NAME else line.split(" ", maxsplit=1)[0]
    return changed((line, f"{key} = {json.dumps(text, ensure_ascii=False)}"))


@pytest.mark.parametrize("line, text, value, expected", TYPED, ids=[t[1] for t in TYPED])
def test_what_a_shop_types(line: str, text: str, value: Value, expected: float) -> None:
    assert value(loads(typed(line, text))) == pytest.approx(expected, rel=1e-11)


@pytest.mark.parametrize(
    "line, text, said",
    [
        (WIDTH, "20-1/2", 'a number alone is refused, it needs its unit. Write it like "20-1/2 in".'),
        (WIDTH, "20,5 mm", "no comma inside a number: 20.5 mm or 205 mm? Write the one you mean."),
        (WIDTH, "20 5 in", "two numbers side by side: 20.5 in or 205 in? Write the one you mean."),
        (POWER, "55 F", "F is a unit of temperature, and a power is due. Write it in one of: hp, PS, kW, W."),
        (WEIGHT, "?lb", "there is no number in it. Write a number and its unit."),
        (LEAN, "14", 'a number alone is refused, it needs its unit. Write it like "14 deg".'),
        (LEAN, "14 in", "in is a unit of length, and an angle is due. Write it in one of: deg, rad."),
        (WIDTH, "1e9 in", "no scientific notation. Write the number out in full."),
        (WIDTH, "nan in", "it is not a finite number. Write a number and its unit."),
        (WIDTH, "2 x 12 in", "one value is due: no sums, products or powers. Work it out and write the result."),
    ],
)  # fmt: skip
def test_what_is_refused(line: str, text: str, said: str) -> None:
    key = line.split(" ", maxsplit=1)[0]
    section = "engine" if line in {POWER, WEIGHT} else "board"
    assert faults(typed(line, text)) == (f'[{section}] {key} = "{text}": {said}',)


@pytest.mark.parametrize("bare", ["24", "24.5", "true", "[24]", "inf", "2026-05-04"])
def test_a_quantity_without_quotes_is_refused(bare: str) -> None:
    (line,) = faults(changed((WIDTH, f"width = {bare}")))
    assert line.startswith("[board] width = ")
    assert ' width = "' in line.split(": ", 1)[1]


@pytest.mark.parametrize("spelled", ["Full Turn", "full-turn", "FULL_TURN", "full turn"])
def test_words_in_any_spelling(spelled: str) -> None:
    assert loads(changed(('steering = "tiller"', f'steering = "{spelled}"'))).engine.steering == "full turn"


def test_aluminum_and_aluminium() -> None:
    for spelled in ("aluminum hull", "aluminium hull"):
        job = loads(changed(('kind = "pontoon"', f'kind = "{spelled}"')))
        assert job.boat.kind == "aluminium hull"
    stop = ('stop = "plate-power-unreadable"', 'stop = "copper-on-aluminum"')
    assert loads(changed(stop)).accepts[0].stop == "copper-on-aluminium"


@pytest.mark.parametrize(
    "size, diameter", [("M10", 10.0), ("m 10", 10.0), ("3/8 in", 9.525), ("10 mm", 10.0), ('3/8\\"', 9.525)]
)
def test_sizes_of_bolts(size: str, diameter: float) -> None:
    bolts = loads(changed(('size = "3/8 in"', f'size = "{size}"'))).frame.bolts
    assert bolts is not None
    assert bolts.diameter == diameter


@pytest.mark.parametrize(
    "said, class_mm", [("20 in", 508.0), ("508 mm", 508.0), ("15 in", 381.0), ("63.5 cm", 635.0), ("2.5 ft", 762.0)]
)
def test_shaft_classes(said: str, class_mm: float) -> None:
    assert loads(changed(('shaft = "20 in"', f'shaft = "{said}"'))).engine.shaft == class_mm
