"""The equipment grounding conductor that comes with the supply."""

from precover.plan import Carried, Circuit, Receptacle, Route, Unstated
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Missing,
    Outcome,
    Proposal,
    Severity,
    Stage,
    authority_decides,
    does_not_apply,
    met,
    not_met,
    rule,
)
from precover.units import ConductorSize, Current
from precover_rules.circuit_conductors import carried_on, ground_wire, grounding_path, hot_wire, kept_three_wire
from precover_rules.circuits import devices_on
from precover_rules.conditions import low_voltage, no_branch_circuit
from precover_rules.grounding.bringing_a_ground import least_ground, with_a_ground
from precover_rules.separate_structures import leaves_its_structure
from precover_rules.worst import worst

ALL_THE_WAY = "an equipment grounding conductor all the way: a wire, or metal raceway of a kind that counts"
LIMITS = "flexible metal raceway counts only within limits of length and current"


def _stays(circuit: Circuit, look: Look) -> str:
    stays = circuit.kind != "feeder" and not leaves_its_structure(circuit, look)
    return "it stays in its structure" if stays else ""


def _leaves(circuit: Circuit, look: Look) -> str:
    return "it goes to another structure" if leaves_its_structure(circuit, look) else ""


def _kept(circuit: Circuit, look: Look) -> str:
    kept = circuit.kind == "feeder" and kept_three_wire(circuit, look)
    return "a three-wire feeder that was there before: its neutral is bonded at the structure" if kept else ""


@rule(
    looks_at=Circuit,
    unless=(low_voltage, _stays, _kept),
    severity=Severity.DANGER,
    stage=Stage.TRENCH,
    rows=("feeder-four-wire", "feeder-egc-earth-not-path", "feeder-egc-kind"),
)
def equipment_ground_all_the_way(circuit: Circuit, look: Look) -> Answer:
    """An equipment grounding conductor goes with every feeder, and every circuit to another structure; earth is no path."""
    way = look.trace.tree.routes[circuit.id]
    if not way:
        return does_not_apply("it goes nowhere")
    path, route = grounding_path(way, circuit, look)
    if route is None:
        return met("fault path", "with the circuit, all the way", ALL_THE_WAY)
    if path == "within limits":
        return authority_decides(
            "fault path", f"flexible metal raceway on {route.id}", ALL_THE_WAY, why=LIMITS, at=route.place
        )
    carried = route.carries[circuit.id]
    return not_met(
        "fault path", f"none on {route.id}", ALL_THE_WAY, at=carried.place, amend=with_a_ground(circuit, look)
    )


@rule(
    looks_at=Circuit,
    unless=(no_branch_circuit, _leaves),
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("receptacle-grounding-type", "feeder-egc-kind"),
)
def equipment_ground_within_a_structure(circuit: Circuit, look: Look) -> Answer:
    """An equipment grounding conductor goes with a branch circuit that stays in its structure too."""
    way = look.trace.tree.routes[circuit.id]
    if not way:
        return does_not_apply("it goes nowhere")
    rows = ["feeder-egc-kind"]
    if any(isinstance(device, Receptacle) for device in devices_on(circuit, look)):
        rows.insert(0, "receptacle-grounding-type")
    told = [_told_path(route, circuit, look) for route in way]
    if "no" in told:
        route = way[told.index("no")]
        has, at = f"none on {route.id}", route.carries[circuit.id].place
        if circuit.existing:
            why = "old wiring without one may stay as it is, but is not extended and feeds no new grounding receptacle"
            return authority_decides("fault path", has, ALL_THE_WAY, why=why, at=at).citing(*rows)
        why = "a fault leaves metal boxes and whatever is plugged in live"
        return not_met("fault path", has, ALL_THE_WAY, why=why, at=at, amend=with_a_ground(circuit, look)).citing(*rows)
    if "within limits" in told:
        route = way[told.index("within limits")]
        has = f"flexible metal raceway on {route.id}"
        return authority_decides("fault path", has, ALL_THE_WAY, why=LIMITS, at=route.place).citing(*rows)
    if set(told) != {"yes"}:
        return does_not_apply("the plan shows no part without one, nor one all the way")
    return met("fault path", "with the circuit, all the way", ALL_THE_WAY)


@rule(looks_at=Circuit, unless=low_voltage, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("feeder-egc-size",))
def size_of_the_equipment_ground(circuit: Circuit, look: Look) -> Answer:
    """An equipment grounding wire is not smaller than the table asks for the overcurrent device ahead."""
    parts = [
        (carried, *wire) for _, carried in carried_on(circuit, look) if (wire := ground_wire(carried, look)) is not None
    ]
    if not parts:
        return does_not_apply("no equipment grounding wire")
    rating = look.stated(circuit.breaker.rating)
    look.because(f"behind {rating}", f"{circuit.breaker.place}/rating")
    return _all_too_small([_large_enough(carried, size, metal, rating, look) for carried, size, metal in parts], look)


def _all_too_small(answers: list[Answer], look: Look) -> Answer:
    """The worst answer; where several parts are too small, all are named, and one way out enlarges them all."""
    short = [answer for answer in answers if answer.outcome is Outcome.NOT_MET]
    if len(short) < 2:
        return worst(answers)
    first, *others = short
    places = {carried.place: route.id for route in look.plan.routes.values() for carried in route.carries.values()}
    where = ", ".join(f"{answer.has} on {_route_at(answer.at, places)}" for answer in others)
    ways: tuple[Proposal, ...] = ()
    if all(answer.proposals for answer in short):
        each = [answer.proposals[0] for answer in short]
        words = "; ".join(
            f"{way.words} on {_route_at(answer.at, places)}" for way, answer in zip(each, short, strict=True)
        )
        ways = (Proposal(words, Effort.WIRE, tuple(edit for way in each for edit in way.patch)),)
    return first._replace(why=f"too small as well: {where}", proposals=ways)


def _route_at(at: str | None, places: dict[str, str]) -> str:
    return next(route for place, route in places.items() if at is not None and at.startswith(f"{place}/"))


def _told_path(route: Route, circuit: Circuit, look: Look) -> str:
    try:
        return grounding_path([route], circuit, look)[0]
    except Missing:
        return "not stated"


def _large_enough(carried: Carried, size: ConductorSize, metal: str, rating: Current, look: Look) -> Answer:
    of, has = "equipment grounding wire", f"{size} {metal}"
    at = f"{carried.place}/{'cable' if carried.wires is None else 'wires/ground'}"
    least = least_ground(rating, metal, look)
    if least is None:
        return authority_decides(of, has, "a size by the table", why=f"the table ends below {rating}", at=at)
    needs = f"at least {least.text} {metal}"
    if size >= least.value:
        return met(of, has, needs, at=at)
    hot, hot_metal, _ = hot_wire(carried, look)
    if hot_metal == metal and size >= hot:
        return met(of, has, f"no larger than the hot conductors, {hot} {metal}", at=at)
    return not_met(of, has, needs, at=at, amend=_larger(carried, least, metal))


def _larger(carried: Carried, least: Cell, metal: str) -> tuple[Proposal, ...]:
    if carried.wires is None:
        cable = carried.cable
        if isinstance(cable, Unstated):
            return ()
        sizes = "-".join(size.designation for size in (*cable.insulated, least.value))
        text = f"{cable.type} {sizes} {metal}"
        return (Proposal.state(f"use {text}", Effort.WIRE, (carried, "cable", text)),)
    insulation = carried.wires.ground.insulation if carried.wires.ground is not None else "THWN-2"
    text = f"{least.text} {metal} {insulation}"
    return (Proposal.state(f"use {text}", Effort.WIRE, (carried.wires, "ground", text)),)
