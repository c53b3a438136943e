"""Cable in direct sunlight."""

from precover.plan import Carried, RiseLeg, SurfaceLeg
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.tracing import Lying
from precover_rules.along import along
from precover_rules.conditions import individual_wires
from precover_rules.raceway.fitting import fitting

_IN_THE_OPEN = (SurfaceLeg, RiseLeg)


def _nowhere_in_the_open(carried: Carried, look: Look) -> str:
    seen = any(isinstance(lying.leg, _IN_THE_OPEN) for lying in look.trace.lying(carried))
    return "" if seen else "no cable on a surface or rising out of the ground"


@rule(
    looks_at=Carried,
    unless=(individual_wires, _nowhere_in_the_open),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("sunlight-rating", "uf-not-uses"),
)
def cable_in_the_sun(carried: Carried, look: Look) -> Answer:
    """Cable that the sun shines on is of a type made for it, or marked as resistant to sunlight."""
    return along(carried, look, _cable_in_the_sun, among=_IN_THE_OPEN)


def _cable_in_the_sun(lying: Lying, look: Look) -> Answer:
    leg = lying.leg
    assert isinstance(leg, _IN_THE_OPEN)  # noqa: S101 - it is among these
    if not look.stated(look.trace.raceway_around(leg)).absent:
        return does_not_apply("inside a raceway")
    cable = look.stated(lying.carried.cable)
    if cable.type == "cord":
        return does_not_apply("flexible cord is no fixed wiring anywhere")
    use = look.cell("cable-uses", cable.type, "sunlight").value
    if use == "no":
        return does_not_apply("not a cable for outdoors at all: looked at where it is damp or wet")
    if not look.stated(leg.sunlight):
        return does_not_apply("out of the sun")
    needs = "a cable resistant to sunlight"
    if use == "yes":
        return met("cable", cable.text, needs)
    carried = lying.carried
    if look.stated(carried.sunlight_resistant):
        return met("cable", f"{cable.text}, marked", needs, at=f"{carried.place}/sunlight-resistant")
    ways = [
        Proposal.state("use cable marked as resistant to sunlight", Effort.WIRE, (carried, "sunlight-resistant", True))
    ]
    text = fitting("PVC-80", lying.route, look)
    if text is not None:
        ways.append(Proposal.state(f"run it in PVC conduit there ({text})", Effort.WIRE, (leg, "raceway", text)))
    return not_met("cable", f"{cable.text}, not marked", needs, amend=tuple(ways))
