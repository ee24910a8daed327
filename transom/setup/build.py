"""From facts to a setup: loads, place, holding and factors, floats or arrays (n,) alike."""

from collections.abc import Mapping
from functools import partial

import numpy as np

from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.job.faults import shown
from transom.job.records import Corners, Job
from transom.loads.crossing import length_in_m, torque_in_n_mm
from transom.loads.inputs import BracketLoads, EngineLoads, LoadInputs, OwnCase
from transom.loads.thrust import Bollard, bollard, propeller_speed, rated_torque, thrust_under_way
from transom.maths import scalar
from transom.setup import steps
from transom.setup.facts import Facts
from transom.setup.holding import column
from transom.setup.records import Factors, Place, Setup
from transom.setup.setback import bracket_hold, holding, offset
from transom.setup.support import frame_hold, pod_hold
from transom.units import Value

Values = Mapping[str, Value]


def values_of(facts: Facts) -> dict[str, Value]:
    """The numbers of the facts by key."""
    return {key: fact.value for key, fact in facts.items()}


def build(job: Job, tables: Catalogue, values: Values) -> Setup:
    """Everything the checks read, from the numbers of the facts; any of them may be an array (n,).

    Raises:
        JobError: numbers that no mount can be judged by, one line each.
    """
    factor = partial(_factor, tables)
    place = place_of(job, tables, values)
    return Setup(
        job=job,
        tables=tables,
        loads=_loads(job, tables, values),
        place=place,
        holding=holding(job, tables, values),
        factors=Factors(
            k_mod_short=factor("k_mod.short"),
            k_mod_instantaneous=factor("k_mod.instantaneous"),
            gamma_M_plywood=factor("gamma_M.plywood"),
            gamma_M_connection=factor("gamma_M.connection"),
            gamma_M_accidental=factor("gamma_M.accidental"),
            gamma_M2=factor("gamma_M2"),
            gamma_M1=factor("gamma_M1.aluminium"),
            prying_thickness=factor("bolt.prying_mm"),
            glue_line=factor("board.glue_line_mm"),
            coat=factor("board.coat_mm"),
            over_bore=factor("board.over_bore_mm"),
            pocket_clearance=factor("board.pocket_clearance_mm"),
            threads_beyond_nut=factor("bolt.threads_beyond_nut"),
            side_plate=factor("joint.plate_default_mm"),
        ),
        power=values["engine.power"],
        wood_share=column(values.get("panel.strength", 1.0)),
        crush_share=column(values.get("panel.face_bearing", 1.0)),
        frame=frame_hold(place, tables, values, job.frame.bolts),
        pod=pod_hold(place, tables, values, job.crossmembers),
        bracket=bracket_hold(job, tables, values),
    )


def _factor(tables: Catalogue, name: str) -> float:
    return float(tables.factor(name).value)


def _refuse(values: Values) -> None:
    faults = [f"{k}: {v} is not a finite number" for k, v in values.items() if not np.all(np.isfinite(v))]
    span = _span(values)
    if np.any(np.asarray(span) <= 0):
        faults.append(
            f"board.width {values['board.width']:g} mm: nothing is left between the side lines, {values['frame.inset']:g}"
            " mm in from each edge; measure both again"
        )
    faults += _too_high(values)
    if faults:
        raise JobError(*faults)


def _too_high(values: Values) -> list[str]:
    """A setback bracket that lifts the propeller over the board; only where nothing is varied."""
    up, down = values.get("bracket.height", 0.0), (values["engine.shaft"], values["engine.propeller.below_plate"])
    if any(np.ndim(v) for v in (up, *down)) or up < sum(down):
        return []
    return [
        f"bracket.height {up:g} mm: lifts the propeller's shaft over the board's top edge, {sum(down):g} mm above it;"
        " measure from one top edge to the other, by level"
    ]


def _span(values: Values) -> Value:
    if "frame.apart" in values:
        return values["frame.apart"]
    return steps.span_between(values["board.width"], values["frame.inset"])


def place_of(job: Job, tables: Catalogue, values: Values) -> Place:
    """The board's place alone.

    Raises:
        JobError: numbers that no mount can be judged by, one line each.
    """
    _refuse(values)
    kind = job.frame.kind or tables.preset(job.boat.kind).frame
    bottom = steps.depth_of_bottom(values["board.height"], values["frame.inset"])
    return Place(
        kind=kind,
        width=column(values["board.width"]),
        height=column(values["board.height"]),
        span=column(_span(values)),
        z_bottom=column(bottom if kind != "uprights" else values["board.height"]),
        lean=column(values["board.lean"]),
        notch_width=job.board.notch_width,
        notch_depth=job.board.notch_depth,
        top_cut=_cut(job.board.top_corners),
        bottom_cut=_cut(job.board.bottom_corners),
        inset=column(values["frame.inset"]),
    )


def _cut(corners: Corners) -> tuple[Value, Value]:
    """What corners are taken to lose: the rectangle about a cut, whatever its shape."""
    return (corners.width, corners.height) if corners else (0.0, 0.0)


def steering_stop(job: Job, tables: Catalogue) -> float:
    """The steering angle at the stop, rad."""
    name = {
        "wheel": "steering.wheel_deg",
        "tiller": "steering.tiller_deg",
        "full turn": "steering.full_turn_deg",
    }
    return float(steps.angle_of(_factor(tables, name[job.engine.steering])))


def _moved(x: Value, offset: Value) -> Value:
    """A point moved by what a setback bracket moves it; without one it stays the number it is."""
    return x if np.ndim(offset) == 0 and offset == 0.0 else steps.moved(x, offset)


def _refuse_beyond_bound(stated: Value | None, bound: Value) -> None:
    """A stated thrust that no propeller can give. What another propeller could give says nothing against what was measured
    with this one, so that many at once, as a sweep asks, are not refused."""
    if stated is None or np.ndim(stated) or np.ndim(bound) or scalar(stated) <= scalar(bound) * 1.000001:
        return
    most, much = (shown(scalar(F), "force") for F in (bound, stated))
    raise JobError(
        f"[engine] thrust = {much}: more than an ideal propeller of that diameter can give at that power, {most}"
        " (actuator disc). Measure again, state the propeller, or leave it out."
    )


def _loads(job: Job, tables: Catalogue, v: Values) -> LoadInputs:
    factor = partial(_factor, tables)
    full = job.engine.steering == "full turn"
    aft, up = offset(v)
    P = v["engine.power"]
    n = propeller_speed(v["engine.propeller.speed"], v["engine.propeller.gear"])
    usual = bollard(
        P=P, D=length_in_m(v["engine.propeller.diameter"]), pitch=length_in_m(steps.pitch_in_series(v["engine.propeller.pitch"], v["engine.propeller.diameter"])),
        Z=v["engine.propeller.blades"], AeA0=v["engine.propeller.area_ratio"], gear=v["engine.propeller.gear"],
        n_e=v["engine.propeller.speed"], rho=factor("water.density_kg_m3"), FM=factor("thrust.FM"),
        peak=factor("thrust.torque_peak"),
    )  # fmt: skip
    _refuse_beyond_bound(v.get("engine.thrust"), usual.bound)
    thrust = v.get("engine.thrust", usual.characteristic)
    return LoadInputs(
        power_W=P,
        thrust_N=thrust,
        thrust_under_way_N=thrust_under_way(P, v["boat.speed"], factor("thrust.efficiency"), thrust),
        astern_ratio=factor("thrust.astern_full_turn" if full else "thrust.astern"),
        steer_rad=steering_stop(job, tables),
        torque_Nmm=torque_in_n_mm(rated_torque(P, n)),
        mass_kg=v["engine.weight"],
        mass_light_kg=v["engine.weight_light"],
        x_cg=_moved(v["engine.gravity.aft"], aft),
        z_cg=_moved(v["engine.gravity.up"], up),
        dz_cg=0.0 if job.engine.gravity_up is not None else factor("gravity.up_spread_mm"),
        z_prop=steps.propeller_height(up, v["engine.shaft"], v["engine.propeller.below_plate"]),
        x_steer=_moved(v["engine.steering_axis.aft"], aft),
        x_tilt=_moved(v["engine.tilt_axis.aft"], aft),
        z_tilt=_moved(v["engine.tilt_axis.up"], up),
        lean_rad=v["board.lean"],
        service_g=factor("inertia.open" if job.boat.service == "open" else "inertia.calm"),
        turn_g=factor("inertia.turn"),
        road_down_g=factor("road.down"),
        road_up_g=factor("road.up"),
        road_forward_g=factor("road.forward"),
        road_rearward_g=factor("road.rearward"),
        road_sideways_g=factor("road.sideways"),
        tilt_from_rad=float(steps.angle_of(factor("road.tilt_from_deg"))),
        tilt_to_rad=float(steps.angle_of(factor("road.tilt_to_deg"))),
        strut=job.boat.road_support == "strut",
        trailer=job.boat.trailer,
        strike_ratio=factor("strike.thrust"),
        gamma_F=factor("gamma_F.action"),
        gamma_weight=factor("gamma_F.weight_adds"),
        gamma_weight_light=factor("gamma_F.weight_relieves"),
        gamma_strike=factor("gamma_F.strike"),
        gamma_strike_weight_light=factor("gamma_F.strike_weight_relieves"),
        full_turn=full,
        own=tuple(OwnCase(c.name, c.like, c.times, c.reason) for c in job.cases),
        kicker=_kicker(job, tables, aft, up),
        bracket=_bracket(v),
    )


def _bracket(v: Values) -> BracketLoads | None:
    if "bracket.setback" not in v:
        return None
    return BracketLoads(
        mass_kg=v["bracket.weight"],
        mass_light_kg=v["bracket.weight_light"],
        x_cg=v["bracket.gravity.aft"],
        z_cg=v["bracket.gravity.up"],
    )


def usual_thrust(P: float, tables: Catalogue) -> Bollard:
    """What an engine of this power, W, pulls tied to a post with the usual propeller, gear and speed."""
    row, factor = tables.propeller(P), partial(_factor, tables)
    return bollard(
        P=P, D=length_in_m(row.diameter_mm), pitch=length_in_m(row.pitch_mm), Z=row.blades, AeA0=row.area_ratio,
        gear=row.gear, n_e=row.speed_1_s, rho=factor("water.density_kg_m3"), FM=factor("thrust.FM"),
        peak=factor("thrust.torque_peak"),
    )  # fmt: skip


def _kicker(job: Job, tables: Catalogue, aft: Value, up: Value) -> EngineLoads | None:
    """The kicker as its own engine, on the setback bracket where there is one; everything but power, weight and place from the tables."""
    k = job.engine.kicker
    if k is None:
        return None
    factor = partial(_factor, tables)
    row, band, cg = tables.propeller(k.power), tables.engine_weight(k.power), tables.gravity(k.power)
    usual = usual_thrust(k.power, tables)
    mass = k.mass if k.mass is not None else band.running_kg
    return EngineLoads(
        thrust_N=usual.characteristic,
        astern_ratio=factor("thrust.astern"),
        steer_rad=float(steps.angle_of(factor("steering.tiller_deg"))),
        torque_Nmm=torque_in_n_mm(usual.Q),
        mass_kg=mass,
        mass_light_kg=steps.light_mass(mass, factor("weight.light_share")),
        x_cg=_moved(cg.x_cg_mm, aft),
        z_cg=_moved(factor("gravity.up_mm"), up),
        z_prop=steps.propeller_height(up, factor("shaft.small_mm"), row.below_plate_mm),
        x_steer=_moved(factor("steering_axis.aft_mm"), aft),
        x_tilt=_moved(factor("tilt_axis.aft_mm"), aft),
        z_tilt=_moved(factor("tilt_axis.up_mm"), up),
        y=k.y if k.y is not None else factor("kicker.y_mm"),
        full_turn=False,
    )
