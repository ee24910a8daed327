"""Another engine in the place of the job's own: what is stated of the own one is not taken for it."""

from dataclasses import replace

from transom.job.records import Engine, Propeller


def as_usual(engine: Engine) -> Engine:
    """The engine with nothing stated that is its own alone, so that it falls back to what is usual at its power.

    That is weight, center of gravity, propeller, measured thrust and the torque in its manual. Shaft, steering, holes
    and what its bracket takes stay.
    """
    return replace(
        engine, mass=None, gravity_aft=None, gravity_up=None, propeller=Propeller(), thrust=None, torque=None
    )
