"""How the disconnecting means of a structure is marked."""

from precover.plan import DisconnectSwitch, Structure
from precover.rulebook import Answer, Effort, Look, Proposal, Severity, Stage, inspection, met, not_met, rule
from precover_rules.disconnect.means import Means, for_each_means, means_of, no_means
from precover_rules.separate_structures import supplies_to


@rule(
    looks_at=Structure,
    unless=no_means,
    severity=Severity.CORRECTION,
    stage=Stage.FINAL,
    rows=("disconnect-identified",),
)
def disconnect_identified(structure: Structure, look: Look) -> Answer:
    """The disconnecting means is marked for what it opens."""
    return for_each_means(structure, look, lambda means: _identified(means, structure, look))


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("disconnect-identified",))
def marking_lasts(structure: Structure, look: Look) -> str | None:
    """The marking itself."""
    for supply in supplies_to(structure, look):
        means = means_of(structure, supply, look)
        if means is not None:
            return (
                f"{means.name} is marked legibly as the disconnect of {structure.id}, with a marking that lasts there."
            )
    return None


@inspection(looks_at=DisconnectSwitch, stage=Stage.FINAL, rows=("disconnect-lockable",))
def lock_provision_stays(device: DisconnectSwitch, look: Look) -> str | None:
    """A disconnect that can be locked open."""
    if not look.stated(device.lockable):
        return None
    return f"The provision for locking {device.id} open stays in place with and without the lock."


def _identified(means: Means, structure: Structure, look: Look) -> Answer:
    at = f"{means.thing.place}/identified"
    needs = f"marked as the disconnect of {structure.id}"
    if look.stated(means.thing.identified):
        return met(means.name, "marked", needs, at=at)
    words = f"mark {means.name} as the disconnect of {structure.id}"
    return not_met(
        means.name,
        "not marked",
        needs,
        at=at,
        amend=(Proposal.state(words, Effort.PAPER, (means.thing, "identified", True)),),
    )
