"""Panels."""

from typing import Literal

from precover.plan.boxes import BoxArea
from precover.plan.legs import Location
from precover.plan.thing import Thing, Unstated
from precover.record import Record
from precover.units import Current, Length, QuantityError, SupplyVoltage


class MainBreaker(Record):
    """The panel's main: its rating, or None for main lugs only (`none` in the plan)."""

    rating: Current | None
    text: str

    @classmethod
    def parse(cls, text: str) -> "MainBreaker":
        """`100 A`, or `none`; QuantityError otherwise."""
        if text.strip() == "none":
            return cls(None, "main lugs only")
        try:
            rating = Current.parse(text)
        except QuantityError as problem:
            raise QuantityError(
                problem.message, "a main breaker's rating, like `100 A`, or `none` for main lugs only"
            ) from None
        return cls(rating, rating.text)

    @classmethod
    def probes(cls) -> tuple["MainBreaker", ...]:
        """No main, a small one and a large one."""
        return tuple(cls.parse(text) for text in ("none", Current.lowest, Current.highest))

    def __str__(self) -> str:
        return self.text


class WorkingSpace(Thing):
    """The clear space in front of a panel."""

    depth: Length | Unstated
    """From the front of the panel to what is opposite."""
    width: Length | Unstated
    height: Length | Unstated
    """Headroom over its whole depth."""
    opposite: Literal["nothing live or grounded", "grounded parts", "live parts"] | Unstated
    """What stands opposite the panel; concrete, brick and tile count as grounded."""


class Panel(Thing):
    """A panelboard with its main and bars."""

    id: str
    at: str
    duty: Literal["service equipment", "feeder panel"]
    area: BoxArea | Unstated
    location: Location | Unstated
    system: SupplyVoltage | Unstated
    main: MainBreaker | Unstated
    bus: Current | Unstated
    spaces: int | Unstated
    enclosure: Literal["1", "3R", "4", "4X"] | Unstated
    """Enclosure type number."""
    service_rated: bool | Unstated
    """Marked suitable for use as service equipment."""
    neutral: Literal["isolated", "bonded"] | Unstated
    """Whether the neutral bar is kept apart from the enclosure and the grounding bar."""
    ground_bar: bool | Unstated
    """An equipment grounding bar bonded to the enclosure."""
    identified: bool | Unstated
    """Its main, or its group of breakers, is marked as the building's disconnect."""
    readily_accessible: bool | Unstated
    at_entry: bool | Unstated
    """At the nearest point where the supply enters the building."""
    handle_height: Length | Unstated
    """Centre of the highest breaker handle above the floor."""
    working_space: WorkingSpace
    existing: bool | None
    fault_current: Current | None
    """The fault current available at it, by the utility or a calculation."""
    replaced: bool | None
    """Service equipment that is replaced for this project; not so unless stated."""
    surge_protection: bool | Unstated
    """A type 1 or type 2 surge-protective device is in it or beside it."""
    emergency_disconnect: bool | Unstated
    """The service has a readily accessible disconnect outdoors, marked as its emergency disconnect."""
