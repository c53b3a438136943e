"""Snap switches where it is damp or wet."""

from precover.plan import Switch
from precover.plan.legs import Location
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, met, not_met, rule
from precover_rules.location import not_in_a_damp_place, not_in_a_wet_place


@rule(
    looks_at=Switch,
    unless=not_in_a_wet_place,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=("switch-weatherproof",),
)
def switch_kept_dry(switch: Switch, look: Look) -> Answer:
    """A switch in a wet place is in a weatherproof enclosure, or behind a weatherproof cover where set flush."""
    return _kept_dry(switch, "wet", look)


@rule(
    looks_at=Switch,
    unless=not_in_a_damp_place,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("switch-weatherproof",),
)
def switch_in_a_damp_place(switch: Switch, look: Look) -> Answer:
    """A switch in a damp place is in a weatherproof enclosure, or behind a weatherproof cover where set flush."""
    return _kept_dry(switch, "damp", look)


def _kept_dry(switch: Switch, location: Location, look: Look) -> Answer:
    needs = {"surface": "a weatherproof enclosure", "flush": "a weatherproof cover"}.get(
        str(switch.mounting), "a weatherproof enclosure or cover"
    )
    at = f"{switch.place}/weatherproof"
    look.because(f"the switch is in a {location} place", look.trace.box_of(switch).place)
    if look.stated(switch.weatherproof):
        return met("switch", "weatherproof", needs, at=at)
    kept = Proposal.state(
        f"put it in {needs}" if switch.mounting == "surface" else f"close it with {needs}",
        Effort.PART,
        (switch, "weatherproof", True),
    )
    return not_met("switch", "not weatherproof", needs, at=at, amend=(kept,))
