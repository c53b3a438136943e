"""The calculated load of a panel: what its circuits draw, put together and spread over its legs."""

from collections.abc import Iterable
from fractions import Fraction

from precover.electrical.loads import CalculatedLoad, Connected, Legs, feeder_load
from precover.plan import Circuit, Panel
from precover.rulebook import Look, once
from precover.units import Apparent, Current, plain
from precover_rules.loads.drawn import Drawn, Part, drawn_by, voltage_and_hots
from precover_rules.loads.known import known


def calculated_load(panel: Panel, look: Look, allowed: Current) -> CalculatedLoad | None:
    """The load of what begins in a panel; None where nothing of known kind does.

    What the plan leaves out is taken at the most it can be, as long as the load stays within `allowed`; only a load that
    does not is worked out again from facts, and asks for them.
    """
    if not look.trace.circuits_from(panel):
        return None
    steps, cells = len(look.steps), len(look.cells)
    load = _calculated(panel, True, look)
    if load.amps > allowed:
        del look.steps[steps:], look.cells[cells:]
        load = _calculated(panel, False, look)
    return load


def drawn_from(panel: Panel, look: Look, *, most: bool) -> list[Drawn]:
    """What each circuit that begins in a panel draws; of two that cannot run together, the larger."""
    found = {}
    for circuit in look.trace.circuits_from(panel):
        if circuit.kind == "branch circuit":
            found[circuit.id] = drawn_by(circuit, look, most=most)
        elif circuit.kind == "feeder":
            found[circuit.id] = _drawn_by_feeder(circuit, look, most=most)
    for circuit in look.trace.circuits_from(panel):
        other = circuit.not_with
        if other is not None and other in found and circuit.id in found and other != circuit.id:
            less = min(circuit.id, other, key=lambda name: found[name].va)
            look.because(f"{circuit.id} and {other} cannot run together: {less} is left out", circuit.place)
            del found[less]
    return list(found.values())


def _drawn_by_feeder(feeder: Circuit, look: Look, *, most: bool) -> Drawn:
    """A feeder onward draws what its own panel calls for, or what it is planned for where that is more."""
    volts, legs = voltage_and_hots(feeder, look)
    panel = look.trace.panel_fed_by(feeder)
    behind = drawn_from(panel, look, most=most) if panel is not None else []
    parts = tuple(part for one in behind for part in one.parts)
    planned = known(feeder.load, look)
    rest = (
        planned.amount * volts - sum((part.va for part in parts), Fraction(0)) if planned is not None else Fraction(0)
    )
    if rest > 0:
        parts = (*parts, Part(feeder.id, rest))
    return Drawn(feeder, volts, legs, parts, f"planned for {planned}" if rest > 0 else "what stands behind it")


def placed(drawn: Iterable[Drawn], look: Look) -> list[tuple[Drawn, Legs]]:
    """Each circuit with its leg: the plan's, else the one that carries less so far, the largest circuits first."""
    amps = {"L1": Fraction(0), "L2": Fraction(0)}
    result: list[tuple[Drawn, Legs]] = []
    for one in sorted(drawn, key=lambda one: (known(one.circuit.leg, look) is None, -one.va)):
        leg: Legs = "both"
        if one.hots == 1:
            leg = known(one.circuit.leg, look) or ("L1" if amps["L1"] <= amps["L2"] else "L2")
            amps[leg] += one.va
        result.append((one, leg))
    return result


def spread(panel: Panel, look: Look) -> list[tuple[Circuit, Legs]]:
    """The circuits of a panel that are on another leg than they would be, were they spread as evenly as can be."""
    amps = {"L1": Fraction(0), "L2": Fraction(0)}
    moved: list[tuple[Circuit, Legs]] = []
    for one in sorted(drawn_from(panel, look, most=True), key=lambda one: -one.va):
        if one.hots == 1:
            stated = known(one.circuit.leg, look)
            leg: Legs = "L1" if amps["L1"] < amps["L2"] or (amps["L1"] == amps["L2"] and stated != "L2") else "L2"
            amps[leg] += one.va
            if stated is not None and stated != leg:
                moved.append((one.circuit, leg))
    return moved


@once
def _calculated(panel: Panel, most: bool, look: Look) -> CalculatedLoad:
    """The load with its derivation."""
    drawn = drawn_from(panel, look, most=most)
    for one in drawn:
        look.because(f"{one.circuit.id}: {plain(one.va)} VA, {one.how}", one.circuit.place)
    two_legs = any(one.hots == 2 for one in drawn) or _has_two_legs(panel, look)
    volts = max((one.volts * (1 if one.hots == 2 or not two_legs else 2) for one in drawn), default=1)
    loads = [
        Connected(part.name, Apparent.of(part.va, "VA"), leg if two_legs else "both", part.continuous, part.motor)
        for one, leg in placed(drawn, look)
        for part in one.parts
    ]
    continuous = look.limit("continuous load factor").value
    worked = feeder_load(loads, Fraction(volts), continuous, look.limit("largest motor factor").value)
    for step in worked.steps:
        look.because(step, panel.place)
    load = worked.value
    placed_by_plan = two_legs and any(known(one.circuit.leg, look) is not None for one in drawn)
    heavier = _on_the_heavier_leg(drawn, continuous, look) if placed_by_plan else Fraction(0)
    if heavier <= load.amps.amount:
        return load
    look.because(f"not spread evenly, as planned: {plain(heavier)} A on the heavier leg", panel.place)
    return load._replace(amps=Current.of(heavier, "A"))


def _on_the_heavier_leg(drawn: Iterable[Drawn], continuous: Fraction, look: Look) -> Fraction:
    """What the heavier leg of a panel carries, in amperes, of the circuits that the plan puts on a leg and those on both:
    the others are taken to be spread."""
    legs = {"L1": Fraction(0), "L2": Fraction(0)}
    for one in drawn:
        amps = sum((part.va * (continuous if part.continuous else 1) for part in one.parts), Fraction(0)) / one.volts
        for leg in legs if one.hots == 2 else (known(one.circuit.leg, look),):
            if leg is not None:
                legs[leg] += amps
    return max(legs.values())


def _has_two_legs(panel: Panel, look: Look) -> bool:
    """A panel of two legs and a neutral, by its own voltage or that of its feeder."""
    feeder = look.trace.tree.fed_by.get(panel.id)
    system = known(panel.system, look)
    voltage = system if system is not None else look.stated(feeder.voltage if feeder is not None else panel.system)
    return voltage.line_to_line > voltage.line_to_ground
