"""Parts of the engine that a job may state, in working units. None means not measured."""

from transom.frozen import dataclass


@dataclass(frozen=True)
class Propeller:
    """The propeller and what turns it."""

    diameter: float | None = None  # mm
    pitch: float | None = None  # mm
    blades: int | None = None
    area_ratio: float | None = None
    gear: float | None = None
    speed: float | None = None  # rated engine speed, 1/s
    below_plate: float | None = None  # mm, shaft below the anti-ventilation plate


@dataclass(frozen=True)
class EngineClamps:
    """Where clamp screws press on the board, mm; None while nobody measured it."""

    screw_down: float | None = None  # below the board's top edge
    screw_y: float | None = None  # from the center line
    pad: float | None = None  # across the swivel pad
