"""Conductors where they lie: one circuit's cable or wires in one leg."""

from __future__ import annotations

from precover.plan import Carried, Circuit, Leg, Route


class Lying:
    """A circuit's conductors in one leg of a route; a subject for rules about what may lie where."""

    __slots__ = ("carried", "circuit", "leg", "place", "route")

    def __init__(self, leg: Leg, route: Route, circuit: Circuit, carried: Carried) -> None:
        self.leg = leg
        self.route = route
        self.circuit = circuit
        self.carried = carried
        self.place = leg.place

    def __repr__(self) -> str:
        return f"<Lying {self.carried.id} in {self.place}>"
