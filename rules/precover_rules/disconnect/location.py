"""Where the disconnecting means of a structure is."""

from precover.plan import Structure
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
from precover_rules.disconnect.means import Means, for_each_means, no_means, panel_on
from precover_rules.separate_structures import supplies_to


def _on_a_post(structure: Structure, _look: Look) -> str:
    return "on a post everything is where the supply enters" if structure.use in ("post", "lighting pole") else ""


@rule(
    looks_at=Structure, unless=no_means, severity=Severity.CORRECTION, stage=Stage.ROUGH, rows=("disconnect-location",)
)
def disconnect_readily_accessible(structure: Structure, look: Look) -> Answer:
    """The disconnecting means can be reached at once."""
    return for_each_means(structure, look, lambda means: _reached_at_once(means, look))


@rule(
    looks_at=Structure,
    unless=(_on_a_post, no_means),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("disconnect-location",),
)
def disconnect_where_the_supply_enters(structure: Structure, look: Look) -> Answer:
    """The disconnecting means, inside or outside, is at the nearest point where the supply enters."""
    return for_each_means(structure, look, lambda means: _at_entry(means, look))


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("disconnect-occupant-access",))
def every_occupant_can_reach_it(structure: Structure, look: Look) -> str | None:
    """Premises with more than one occupant."""
    if not supplies_to(structure, look) or look.stated(look.plan.site.premises) == "one-family dwelling":
        return None
    return f"Each occupant of {structure.id} can reach the disconnect of what supplies them."


@inspection(looks_at=Structure, stage=Stage.FINAL, rows=("disconnect-ocpd-access",))
def branch_breakers_within_reach(structure: Structure, look: Look) -> str | None:
    """A feeder whose breaker cannot be reached at once."""
    for supply in supplies_to(structure, look):
        panel = panel_on(structure, supply, look)
        if panel is not None and not look.stated(supply.circuit.breaker.readily_accessible):
            return (
                f"The breaker of {supply.circuit.id} cannot be reached at once; the branch breakers behind it, in"
                f" {panel.id}, can."
            )
    return None


def _reached_at_once(means: Means, look: Look) -> Answer:
    at = f"{means.thing.place}/readily-accessible"
    if look.stated(means.thing.readily_accessible):
        return met(means.name, "readily accessible", "readily accessible", at=at)
    words = "move it to where it can be reached without a ladder or moving things"
    return not_met(
        means.name,
        "not readily accessible",
        "readily accessible",
        at=at,
        amend=(Proposal.state(words, Effort.WIRE, (means.thing, "readily-accessible", True)),),
    )


def _at_entry(means: Means, look: Look) -> Answer:
    at = f"{means.thing.place}/at-entry"
    needs = "at the nearest point where the supply enters"
    if look.stated(means.thing.at_entry):
        return met(means.name, "there", needs, at=at)
    return not_met(
        means.name,
        "farther on",
        needs,
        at=at,
        amend=(Proposal.state("move it to where the supply enters", Effort.WIRE, (means.thing, "at-entry", True)),),
    )
