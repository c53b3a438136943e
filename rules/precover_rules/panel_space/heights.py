"""How high breakers and switches are."""

from precover.plan import DisconnectSwitch, Panel, Plan, Switch, Unstated
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_most,
    inspection,
    rule,
)
from precover.units import Length

ON_THE_LIST = "not stated: it is on the inspection list"


def _no_new_feeder_panel(panel: Panel, _look: Look) -> str:
    new = panel.duty == "feeder panel" and not panel.existing
    return "not a new feeder panel" if isinstance(panel.handle_height, Unstated) and not new else ""


def _not_said(switch: Switch | DisconnectSwitch, _look: Look) -> str:
    return ON_THE_LIST if isinstance(switch.height, Unstated) else ""


@rule(
    looks_at=Panel,
    unless=_no_new_feeder_panel,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("breaker-height",),
)
def height_of_breakers(panel: Panel, look: Look) -> Answer:
    """No breaker handle of a panel is higher than a person reaches."""
    return _reached(panel, "handle-height", look.stated(panel.handle_height), look)


@rule(
    looks_at=Switch,
    unless=_not_said,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("switch-accessible-height",),
)
def height_of_switches(switch: Switch, look: Look) -> Answer:
    """No switch is higher than a person reaches."""
    return _height(switch, look)


@rule(
    looks_at=DisconnectSwitch,
    unless=_not_said,
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("switch-accessible-height",),
)
def height_of_disconnects(switch: DisconnectSwitch, look: Look) -> Answer:
    """No disconnect switch is higher than a person reaches."""
    return _height(switch, look)


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("switch-accessible-height", "switch-up-on"))
def handles_within_reach(plan: Plan, look: Look) -> str | None:
    """All switches of a plan."""
    devices = (device for box in plan.boxes.values() for device in box.devices.values())
    if not any(isinstance(device, Switch | DisconnectSwitch) for device in devices):
        return None
    highest = look.limit("highest handle").text
    return f"Every switch is within reach, the middle of its handle not above {highest}; where the handle is upright, up is on."


def _height(switch: Switch | DisconnectSwitch, look: Look) -> Answer:
    return _reached(switch, "height", look.stated(switch.height), look)


def _reached(thing: Panel | Switch | DisconnectSwitch, key: str, height: Length, look: Look) -> Answer:
    limit = look.limit("highest handle")
    lower = Proposal.state("set it lower", Effort.PART, (thing, key, "5 ft"))
    return at_most("height of the handle", height, limit, at=f"{thing.place}/{key}", amend=(lower,))
