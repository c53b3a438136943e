"""Edits of a plan that bring a neutral with a circuit, in every part of its way that lacks one."""

from collections.abc import Sequence

from precover.plan import Cable, Carried, Conductor
from precover.plan.thing import Thing
from precover.rulebook import Effort, Proposal


def with_a_neutral(without: Sequence[Carried]) -> tuple[Proposal, ...]:
    """A neutral like the hots, or a cable with one conductor more, in all of these parts; nothing where one of them is not
    known well enough."""
    changes = [_neutral_in(carried) for carried in without]
    known = [change for change in changes if change is not None]
    if len(known) < len(changes):
        return ()
    texts = ", ".join(dict.fromkeys(text for _, _, text in known))
    return (Proposal.state(f"bring a neutral: {texts}", Effort.WIRE, *known),)


def one_conductor_more(carried: Carried) -> tuple[Thing, str, str] | None:
    """The cable of two conductors exchanged for one of three; None where it is no such cable."""
    if isinstance(carried.cable, Cable) and "/2" in carried.cable.text:
        return carried, "cable", carried.cable.text.replace("/2", "/3")
    return None


def _neutral_in(carried: Carried) -> tuple[Thing, str, str] | None:
    if carried.wires is None:
        return one_conductor_more(carried)
    hot = carried.wires.hot
    return (
        (carried.wires, "neutral", f"{hot.size} {hot.material} {hot.insulation}")
        if isinstance(hot, Conductor)
        else None
    )
