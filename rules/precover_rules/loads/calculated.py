"""The calculated load of a panel: what its circuits draw, put together and spread over its legs."""

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Literal

from precover.electrical.loads import CalculatedLoad, Connected, feeder_load
from precover.plan import Circuit, Panel
from precover.rulebook import Look, once
from precover.units import Apparent, Current, plain
from precover_rules.loads.drawn import Drawn, Part, drawn_by, voltage_and_hots
from precover_rules.loads.known import known

Leg = Literal["L1", "L2"]


def calculated_load(panel: Panel, look: Look, allowed: Current) -> Current | None:
    """The load of what begins in a panel, or what its feeder is planned for where that is more; None where nothing of known
    kind begins there, and nothing is planned.

    What the plan leaves out is taken at the most it can be, as long as the load stays within `allowed`; only a load that
    does not is worked out again from facts, and asks for them.
    """
    feeder = look.trace.tree.fed_by.get(panel.id)
    planned = None if feeder is None else known(feeder.load, look)
    load = None
    if look.trace.circuits_from(panel):
        load = _within(allowed, lambda most: _calculated(panel, most, look), look).amps
    if feeder is None or planned is None or (load is not None and planned <= load):
        return load
    look.because(f"{feeder.id}: planned for {planned}", f"{feeder.place}/load")
    return planned


def branch_circuit_load(circuit: Circuit, look: Look, allowed: Current) -> Current:
    """The load of all that is on a branch circuit; what the plan leaves out is read as for a panel."""
    return _within(allowed, lambda most: _of_one_circuit(circuit, most, look), look).amps


def _within(allowed: Current, reckoned: Callable[[bool], CalculatedLoad], look: Look) -> CalculatedLoad:
    steps, cells = len(look.steps), len(look.cells)
    load = reckoned(True)
    if load.amps > allowed:
        del look.steps[steps:], look.cells[cells:]
        load = reckoned(False)
    return load


def _of_one_circuit(circuit: Circuit, most: bool, look: Look) -> CalculatedLoad:
    drawn = drawn_by(circuit, look, most=most)
    look.because(f"{circuit.id}: {plain(drawn.va)} VA, {drawn.how}", circuit.place)
    loads = [
        Connected(part.name, Apparent.of(part.va, "VA"), "both", part.continuous, part.motor) for part in drawn.parts
    ]
    continuous, motor = look.limit("continuous load factor").value, look.limit("largest motor factor").value
    worked = feeder_load(loads, Fraction(drawn.volts), continuous, motor)
    for step in worked.steps:
        look.because(step, circuit.place)
    return worked.value


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


def placed(drawn: Iterable[Drawn], look: Look) -> list[tuple[Drawn, Leg]]:
    """Each circuit of one hot with its leg: the plan's, else the one that carries less so far, the largest circuits first."""
    amps: dict[Leg, Fraction] = {"L1": Fraction(0), "L2": Fraction(0)}
    result: list[tuple[Drawn, Leg]] = []
    for one in sorted(drawn, key=lambda one: (known(one.circuit.leg, look) is None, -one.va)):
        leg: Leg = known(one.circuit.leg, look) or ("L1" if amps["L1"] <= amps["L2"] else "L2")
        amps[leg] += one.va
        result.append((one, leg))
    return result


def spread(panel: Panel, look: Look) -> list[tuple[Circuit, Leg]]:
    """The circuits of a panel that are on another leg than they would be, were they spread as evenly as can be."""
    amps = {"L1": Fraction(0), "L2": Fraction(0)}
    moved: list[tuple[Circuit, Leg]] = []
    for one in sorted(drawn_from(panel, look, most=True), key=lambda one: -one.va):
        if one.hots == 1:
            stated = known(one.circuit.leg, look)
            leg: Leg = "L1" if amps["L1"] < amps["L2"] or (amps["L1"] == amps["L2"] and stated != "L2") else "L2"
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
    across = [one.volts if one.hots == 2 or not two_legs else 2 * one.volts for one in drawn]
    volts = max(across, default=1)
    loads = [
        # What is between two legs of a wye has less than twice the voltage to neutral: each counts by its current.
        Connected(part.name, Apparent.of(part.va * volts / own, "VA"), "both", part.continuous, part.motor)
        for one, own in zip(drawn, across, strict=True)
        for part in one.parts
    ]
    continuous, motor = look.limit("continuous load factor").value, look.limit("largest motor factor").value
    worked = feeder_load(loads, Fraction(volts), continuous, motor)
    for step in worked.steps:
        look.because(step, panel.place)
    load = worked.value
    if not any(one.hots == 1 and known(one.circuit.leg, look) for one in drawn):
        return load  # all of it is taken to be spread
    heavier = _on_the_heavier_leg(drawn, continuous, motor, look)
    if heavier <= load.amps.amount:
        return load
    look.because(f"not spread evenly, as planned: {plain(heavier)} A on the heavier leg", panel.place)
    return load._replace(amps=Current.of(heavier, "A"))


def _on_the_heavier_leg(drawn: Iterable[Drawn], continuous: Fraction, motor: Fraction, look: Look) -> Fraction:
    """What the heavier leg of a panel carries, in amperes, of the circuits that the plan puts on a leg and those on both:
    the others are taken to be spread. The largest motor on it counts as the largest of the panel does."""
    legs: dict[str, list[tuple[Part, Fraction]]] = {"L1": [], "L2": []}
    for one in drawn:
        for leg in legs if one.hots == 2 else (known(one.circuit.leg, look),):
            if leg is not None:
                legs[leg] += [(part, part.va / one.volts) for part in one.parts]
    return max(_counted(parts, continuous, motor) for parts in legs.values())


def _counted(parts: list[tuple[Part, Fraction]], continuous: Fraction, motor: Fraction) -> Fraction:
    largest = max((amps for part, amps in parts if part.motor), default=Fraction(0))
    amps = sum((amps * (continuous if part.continuous else 1) for part, amps in parts), Fraction(0))
    return amps + largest * (motor - 1)


def _has_two_legs(panel: Panel, look: Look) -> bool:
    """A panel of two legs and a neutral, by its own voltage or that of its feeder."""
    feeder = look.trace.tree.fed_by.get(panel.id)
    system = known(panel.system, look)
    voltage = system if system is not None else look.stated(feeder.voltage if feeder is not None else panel.system)
    return voltage.line_to_line > voltage.line_to_ground
