"""The equipment grounding conductor that comes with the supply."""

from precover.plan import Carried, Circuit, Unstated
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
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
from precover_rules.separate_structures import leaves_its_structure
from precover_rules.worst import worst

TABLE = "equipment-grounding-conductor"
ALL_THE_WAY = "an equipment grounding conductor all the way: a wire, or metal raceway of a kind that counts"


@rule(
    looks_at=Circuit,
    severity=Severity.DANGER,
    stage=Stage.TRENCH,
    rows=("feeder-four-wire", "feeder-egc-earth-not-path", "feeder-egc-kind"),
)
def equipment_ground_all_the_way(circuit: Circuit, look: Look) -> Answer:
    """An equipment grounding conductor goes with every feeder, and every circuit to another structure; earth is no path."""
    if circuit.kind == "low-voltage":
        return does_not_apply("low voltage")
    if circuit.kind != "feeder" and not leaves_its_structure(circuit, look):
        return does_not_apply("it stays in its structure")
    if circuit.kind == "feeder" and kept_three_wire(circuit, look):
        return does_not_apply("a three-wire feeder that was there before: its neutral is bonded at the structure")
    way = look.trace.tree.routes[circuit.id]
    if not way:
        return does_not_apply("it goes nowhere")
    path, route = grounding_path(way, circuit, look)
    if route is None:
        return met("fault path", "with the circuit, all the way", ALL_THE_WAY)
    if path == "within limits":
        why = "flexible metal raceway counts only within limits of length and current"
        return authority_decides(
            "fault path", f"flexible metal raceway on {route.id}", ALL_THE_WAY, why=why, at=route.place
        )
    carried = route.carries[circuit.id]
    return not_met(
        "fault path", f"none on {route.id}", ALL_THE_WAY, at=carried.place, amend=_ways(circuit, carried, look)
    )


@rule(looks_at=Circuit, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("feeder-egc-size",))
def size_of_the_equipment_ground(circuit: Circuit, look: Look) -> Answer:
    """An equipment grounding wire is not smaller than the table asks for the overcurrent device ahead."""
    if circuit.kind == "low-voltage":
        return does_not_apply("low voltage")
    parts = [
        (carried, *wire) for _, carried in carried_on(circuit, look) if (wire := ground_wire(carried, look)) is not None
    ]
    if not parts:
        return does_not_apply("no equipment grounding wire")
    rating = look.stated(circuit.breaker.rating)
    look.because(f"behind {rating}", f"{circuit.breaker.place}/rating")
    return worst([_large_enough(carried, size, metal, rating, look) for carried, size, metal in parts])


def _large_enough(carried: Carried, size: ConductorSize, metal: str, rating: Current, look: Look) -> Answer:
    of, has = "equipment grounding wire", f"{size} {metal}"
    at = f"{carried.place}/{'cable' if carried.wires is None else 'wires/ground'}"
    least = _cell_for(rating, metal, look)
    if least is None:
        return authority_decides(of, has, "a size by the table", why=f"the table ends below {rating}", at=at)
    needs = f"at least {least.text} {metal}"
    if size >= least.value:
        return met(of, has, needs, at=at)
    hot, hot_metal, _ = hot_wire(carried, look)
    if hot_metal == metal and size >= hot:
        return met(of, has, f"no larger than the hot conductors, {hot} {metal}", at=at)
    return not_met(of, has, needs, at=at, amend=_larger(carried, least, metal))


def _cell_for(rating: Current, metal: str, look: Look) -> Cell | None:
    for key in look.keys(TABLE):
        if key[1] == metal and rating <= Current.parse(key[0]):
            return look.cell(TABLE, *key)
    return None


def _ways(circuit: Circuit, carried: Carried, look: Look) -> tuple[Proposal, ...]:
    if carried.wires is None:
        cable = look.stated(carried.cable)
        text = cable.text.removesuffix(" no ground")
        if text == cable.text:
            return ()
        return (Proposal.state(f"use {text}, with its ground", Effort.WIRE, (carried, "cable", text)),)
    rating = circuit.breaker.rating
    least = None if isinstance(rating, Unstated) else _cell_for(rating, "Cu", look)
    if least is None:
        return ()
    text = f"{least.text} Cu THWN-2"
    return (Proposal.state(f"pull {text} as the equipment ground", Effort.WIRE, (carried.wires, "ground", text)),)


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
