"""A snap switch against what it switches."""

from __future__ import annotations

from precover.plan import Luminaire, Motor, Switch
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Current
from precover_rules.circuits import devices_on
from precover_rules.loads.drawn import voltage_and_hots
from precover_rules.loads.motors import full_load


@rule(looks_at=Switch, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("switch-rating",))
def switch_for_its_load(switch: Switch, look: Look) -> Answer:
    """A snap switch is rated for the lights it switches, and a motor takes no more than 80 % of its rating."""
    circuit, box = look.trace.circuit_of(switch), look.trace.box_of(switch)
    name = f"{box.id}/{switch.id}"
    devices = devices_on(circuit, look)
    lights = [d for d in devices if isinstance(d, Luminaire) and d.switched_by == name]
    motors = [d for d in devices if isinstance(d, Motor) and look.trace.box_of(d) is box and d.hardwired is not False]
    if circuit.kind == "low-voltage" or not (lights or motors):
        return does_not_apply("no light or motor is known to be switched by it")
    volts, _ = voltage_and_hots(circuit, look)
    has = switch.switch
    if motors:
        share = look.limit("motor on a snap switch")
        amps = sum((full_load(motor, volts, look).amount for motor in motors), has.amount * 0)
        least = Current.of(amps / share.value, "A")
        needs = f"at least {least}, for a motor load of {Current.of(amps, 'A')} at {share.text}"
    else:
        least = Current.of(sum((light.luminaire.amount for light in lights), has.amount * 0) / volts, "A")
        needs = f"at least {least} for its lights"
    if has >= least:
        return met("rating of the switch", has, needs)
    return not_met("rating of the switch", has, needs, amend=_ways(switch, least))


def _ways(switch: Switch, least: Current) -> tuple[Proposal, ...]:
    made = next((rating for rating in ("15 A", "20 A", "30 A") if Current.parse(rating) >= least), None)
    if made is None:
        return ()
    return (Proposal.state(f"use a switch of {made}", Effort.PART, (switch, "switch", made)),)
