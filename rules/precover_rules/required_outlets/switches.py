"""What a switch opens, and what must be in its box."""

from precover.plan import Luminaire, Plan, Switch, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)


@rule(looks_at=Switch, severity=Severity.DANGER, stage=Stage.ROUGH, rows=("switch-only-hot",))
def switch_opens_the_hot(switch: Switch, _look: Look) -> Answer:
    """A switch opens hot conductors, never the neutral alone."""
    if switch.role == "disconnect":
        return does_not_apply("looked at as a disconnect")
    if isinstance(switch.opens, Unstated):
        return does_not_apply("not stated: it is on the inspection list")
    at = f"{switch.place}/opens"
    if switch.opens != "neutral":
        return met("opens", switch.opens, "the hot", at=at)
    hot = Proposal.state("switch the hot", Effort.PAPER, (switch, "opens", "all hots"))
    return not_met("opens", "the neutral", "the hot", why="the light stays live when it is off", at=at, amend=(hot,))


@inspection(looks_at=Plan, stage=Stage.ROUGH, rows=("switch-only-hot", "switch-neutral-present"))
def hot_and_neutral_at_a_switch(plan: Plan, _look: Look) -> str | None:
    """The wires in switch boxes."""
    devices = [device for box in plan.boxes.values() for device in box.devices.values()]
    switched = {device.switched_by for device in devices if isinstance(device, Luminaire)}
    boxes = [box for box in plan.boxes.values() if any(f"{box.id}/{name}" in switched for name in box.devices)]
    if not boxes:
        return None
    text = "Switches open the hot, not the neutral"
    lived_in = [
        box.id
        for box in boxes
        if plan.structures[box.at].use == "dwelling" or plan.structures[box.at].habitable is True
    ]
    if not lived_in:
        return f"{text}."
    return f"{text}; a neutral at the light switches of rooms to live in ({', '.join(lived_in)}), or a raceway that takes one."
