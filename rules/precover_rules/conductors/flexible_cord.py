"""Flexible cord in place of fixed wiring."""

from collections.abc import Sequence

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
    cords = [(carried, cable) for carried in cabled if (cable := look.stated(carried.cable)).type == "cord"]
    if not cords:
        return met("wiring", "cable", needs)
    carried, cable = cords[0]
    return not_met("wiring", cable.text, needs, at=f"{carried.place}/cable", amend=_fixed(cords))


def _fixed(cords: Sequence[tuple[Carried, Cable]]) -> tuple[Proposal, ...]:
    """Cables of the same sizes and counts, for any place or for dry ones; with fewer than two insulated conductors there is
    no circuit to exchange."""
    if any(len(cord.insulated) < 2 for _, cord in cords):
        return ()
    ways: list[Proposal] = []
    for kind in ("UF-B", "NM-B"):
        changes = [
            (carried, "cable", f"{kind} {cord.size.designation}/{len(cord.insulated)}") for carried, cord in cords
        ]
        texts = ", ".join(dict.fromkeys(text for _, _, text in changes))
        ways.append(Proposal.state(f"wire it with {texts}", Effort.WIRE, *changes))
    return tuple(ways)
