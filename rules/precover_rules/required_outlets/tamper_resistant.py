"""Receptacles with shutters."""

from precover.plan import Receptacle
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, does_not_apply, met, not_met, rule
from precover.units import Length
from precover_rules.premises import is_dwelling

OTHER_USES = ("agricultural", "commercial")


@rule(looks_at=Receptacle, severity=Severity.CORRECTION, stage=Stage.FINAL, rows=("receptacle-tamper-resistant",))
def shutters_at_a_dwelling(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle of 15 or 20 A and up to 250 V at a dwelling and its outbuildings is tamper-resistant."""
    if receptacle.receptacle > look.limit("common receptacle current").value:
        return does_not_apply("of another rating")
    if receptacle.locking:
        return does_not_apply("it takes a locking plug")
    if not is_dwelling(look) or look.trace.structure_of(receptacle).use in OTHER_USES:
        return does_not_apply("not at a dwelling or what belongs to it")
    if look.stated(receptacle.voltage) > look.limit("common receptacle voltage").value:
        return does_not_apply("of another rating")
    height = receptacle.height
    if isinstance(height, Length):
        highest = look.limit("height that needs no tamper resistance")
        if height > highest.like(height):
            return does_not_apply(f"more than {highest.text} above the floor")
    at = f"{receptacle.place}/tamper-resistant"
    if look.stated(receptacle.tamper_resistant):
        return met("receptacle", "tamper-resistant", "tamper-resistant", at=at)
    other = Proposal.state("use a tamper-resistant receptacle", Effort.PART, (receptacle, "tamper-resistant", True))
    return not_met("receptacle", "not tamper-resistant", "tamper-resistant", at=at, amend=(other,))
