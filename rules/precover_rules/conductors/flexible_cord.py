"""Flexible cord in place of fixed wiring."""

from precover.plan import BuriedLeg, Cable, Carried, Route
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule


@rule(looks_at=Route, severity=Severity.DANGER, stage=Stage.ROUGH, rows=("flexible-cord-not-permanent",))
def cord_as_fixed_wiring(route: Route, look: Look) -> Answer:
    """No route is wired with flexible cord, extension cords included."""
    if any(isinstance(leg, BuriedLeg) for leg in route.legs):
        return does_not_apply("buried: looked at as a buried wiring method")
    cabled = [carried for carried in route.carries.values() if carried.wires is None]
    if not cabled:
        return does_not_apply("no cable")
    needs = "a fixed wiring method"
    for carried in cabled:
        cable = look.stated(carried.cable)
        if cable.type == "cord":
            return not_met("wiring", cable.text, needs, at=f"{carried.place}/cable", amend=_fixed(carried, cable))
    return met("wiring", "cable", needs)


def _fixed(carried: Carried, cord: Cable) -> tuple[Proposal, ...]:
    """Cable of the same size and count, for any place or for dry ones; with fewer than two insulated conductors there is
    no circuit to exchange."""
    insulated = len(cord.insulated)
    if insulated < 2:
        return ()
    others = (f"{kind} {str(cord.size).split()[0]}/{insulated}" for kind in ("UF-B", "NM-B"))
    return tuple(Proposal.state(f"wire it with {other}", Effort.WIRE, (carried, "cable", other)) for other in others)
