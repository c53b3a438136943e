"""A snap switch against what it switches."""

from __future__ import annotations

from precover.plan import Luminaire, Motor, Switch
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover.units import Current
from precover_rules.circuits import devices_on
from precover_rules.loads.drawn import voltage_and_hots
from precover_rules.loads.motors import full_load


def _switches_nothing(switch: Switch, look: Look) -> str:
    power = look.trace.circuit_of(switch).kind != "low-voltage"
    return "" if power and any(_switched(switch, look)) else "no light or motor is known to be switched by it"


def _switched(switch: Switch, look: Look) -> tuple[list[Luminaire], list[Motor]]:
    """The lights and motors that a switch is known to switch."""
    box = look.trace.box_of(switch)
    devices = devices_on(look.trace.circuit_of(switch), look)
    name = f"{box.id}/{switch.id}"
    lights = [d for d in devices if isinstance(d, Luminaire) and d.switched_by == name]
    motors = [d for d in devices if isinstance(d, Motor) and look.trace.box_of(d) is box and d.hardwired is not False]
    return lights, motors


@rule(
    looks_at=Switch, unless=_switches_nothing, severity=Severity.CORRECTION, stage=Stage.PLAN, rows=("switch-rating",)
)
def switch_for_its_load(switch: Switch, look: Look) -> Answer:
    """A snap switch is rated for the lights it switches, and a motor takes no more than 80 % of its rating."""
    lights, motors = _switched(switch, look)
    volts, _ = voltage_and_hots(look.trace.circuit_of(switch), look)
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
