"""Individual wires, judged by the letters of their insulation."""

from precover.plan import Conductor, OverheadLeg, Unstated, Wires
from precover.rulebook import Effort, Look, Proposal
from precover.tracing import Lying


def unsuited(lying: Lying, wires: Wires, use: str, look: Look) -> dict[str, Conductor]:
    """The wires, by key, whose insulation is not made for a use (a key of the table `insulation-uses`).

    Neutral and grounding conductor are asked first: a hot that the plan leaves out matters only if both will do.
    """
    others = {"neutral": wires.neutral, "ground": wires.ground}
    listed = {key: wire for key, wire in others.items() if wire is not None}
    if not isinstance(wires.hot, Unstated):
        listed = {"hot": wires.hot, **listed}
    found = {key: wire for key, wire in listed.items() if not _made_for(lying, key, wire, use, look)}
    if found:
        return found
    hot = look.stated(wires.hot)
    return {} if _made_for(lying, "hot", hot, use, look) else {"hot": hot}


def rewired(wires: Wires, keys: dict[str, Conductor]) -> Proposal:
    """Other wires of the same size and metal, with the common insulation for wet places."""
    changes = []
    for key, wire in keys.items():
        letters = "THWN-2" if wire.material == "Cu" else "XHHW-2"
        changes.append((wires, key, f"{wire.text.rpartition(' ')[0]} {letters}"))
    return Proposal.state("pull wires with insulation for wet places", Effort.WIRE, *changes)


def in_words(wires: dict[str, Conductor]) -> str:
    """The wires as a finding names them: `hot THHN, neutral THHN`."""
    return ", ".join(f"{key} {wire.insulation}" for key, wire in wires.items())


def _made_for(lying: Lying, key: str, wire: Conductor, use: str, look: Look) -> bool:
    if wire.insulation == "bare":
        return key == "ground" or isinstance(lying.leg, OverheadLeg)
    return bool(look.cell("insulation-uses", wire.insulation, use).value)
