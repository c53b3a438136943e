"""What every part of the checker needs: the part of a node, and the fields of a thing."""

from __future__ import annotations

from precover.rulebook.cel.kinds import YES, Field, fields
from precover.rulebook.cel.syntax import Node, Refusal
from precover.rulebook.cel.typed import Comparison, Known, Typed, nearest


class Core:
    """Goes from node to node; each form of the grammar is a method by its name.

    `whole` is the comparison that the node just checked is, if it is one; `cells` are the limits and table cells named.
    """

    def __init__(self, known: Known) -> None:
        self.known = known
        self.names = dict(known.names)
        self.loops = 0
        self.whole: Comparison | None = None
        self.cells: list[tuple[str, tuple[str, ...]]] = []

    def of(self, node: Node) -> Typed:
        """The checked part of a node."""
        make = getattr(self, f"_{node.rule}", None)
        if make is None:
            raise Refusal(
                "this form is not offered here",
                "an expression compares, joins with && and ||, counts, and goes through lists",
                node.offset,
            )
        made: Typed = make(node)
        if node.rule != "relation":
            self.whole = None
        return made

    def yes(self, part: Typed, node: Node) -> None:
        """Refuse what does not say yes or no."""
        if part.kind != YES:
            raise Refusal(f"this is {part.kind}, not yes or no", "compare it with something", node.offset)

    def field(self, owner: Typed, name: str, node: Node) -> Field:
        """The field of that name of a thing; Refusal with the nearest where it has none."""
        if owner.kind.sort not in ("thing", "notation"):
            raise Refusal(f"{owner.kind} has no fields", f"`.{name}` follows a thing of the plan", node.offset)
        known = fields(owner.kind.of)
        field = known.get(name)
        if field is None:
            raise Refusal(f"{owner.kind} has no `{name}`", nearest(name, list(known)), node.offset)
        return field
