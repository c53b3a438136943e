"""Edits of a plan that bring a neutral with a circuit, in every part of its way that lacks one."""

from collections.abc import Sequence

from precover.plan import Cable, Carried, Conductor
from precover.plan.thing import Thing
from precover.rulebook import Look, Proposal
from precover_rules.sizing.rewiring import with_room


def with_a_neutral(without: Sequence[Carried], look: Look) -> tuple[Proposal, ...]:
    """A neutral like the hots, or a cable with one conductor more, in all of these parts, in raceway that has room for it;
    nothing where one of them is not known well enough."""
    changes = [one_conductor_more(carried, "neutral") for carried in without]
    known = [change for change in changes if change is not None]
    if len(known) < len(changes):
        return ()
    texts = ", ".join(dict.fromkeys(text for _, _, text in known))
    return (with_room(f"bring a neutral: {texts}", known, {}, look),)


def one_conductor_more(carried: Carried, key: str, number: str = "") -> tuple[Thing, str, str] | None:
    """The cable of two conductors exchanged for one of three, or so many wires like the hot under the key of its wires;
    None where it is no such cable, or the hot is not stated."""
    if carried.wires is not None:
        hot = carried.wires.hot
        if not isinstance(hot, Conductor):
            return None
        return carried.wires, key, f"{number}{hot.size} {hot.material} {hot.insulation}"
    if isinstance(carried.cable, Cable) and "/2" in carried.cable.text:
        return carried, "cable", carried.cable.text.replace("/2", "/3")
    return None
