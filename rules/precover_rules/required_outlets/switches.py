"""What a switch opens, and what must be in its box."""

from precover.plan import Luminaire, Plan, Switch, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    inspection,
    met,
    not_met,
    rule,
)


def _a_disconnect_or_not_said(switch: Switch, _look: Look) -> str:
    if switch.role == "disconnect":
        return "looked at as a disconnect"
    return "not stated: it is on the inspection list" if isinstance(switch.opens, Unstated) else ""


@rule(
    looks_at=Switch,
    unless=_a_disconnect_or_not_said,
    severity=Severity.DANGER,
    stage=Stage.ROUGH,
    rows=("switch-only-hot",),
)
def switch_opens_the_hot(switch: Switch, look: Look) -> Answer:
    """A switch opens hot conductors, never the neutral alone."""
    at, opens = f"{switch.place}/opens", look.stated(switch.opens)
    if opens != "neutral":
        return met("opens", opens, "the hot", at=at)
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
