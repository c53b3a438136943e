"""The typed plan: what the plan file says, frozen, with what it leaves unsaid as a value of its own."""

from precover.plan.boxes import Box, Enclosure
from precover.plan.circuits import Breaker, Circuit
from precover.plan.conductors import Cable, Conductor, Raceway, Wires
from precover.plan.devices import (
    Device,
    DisconnectSwitch,
    Equipment,
    GroundFaultDevice,
    Heater,
    Luminaire,
    Motor,
    Receptacle,
    Switch,
    Transformer,
)
from precover.plan.legs import Bend, BuriedLeg, FramingLeg, Leg, OverheadLeg, PassageLeg, RiseLeg, SlabOver, SurfaceLeg
from precover.plan.panels import MainBreaker, Panel, WorkingSpace
from precover.plan.plan import Plan, Site
from precover.plan.problem import Problem
from precover.plan.routes import Carried, Route
from precover.plan.structures import Electrode, ElectrodeConductor, Grounding, Structure
from precover.plan.thing import Thing, Unstated

__all__ = [
    "Bend",
    "Box",
    "Breaker",
    "BuriedLeg",
    "Cable",
    "Carried",
    "Circuit",
    "Conductor",
    "Device",
    "DisconnectSwitch",
    "Electrode",
    "ElectrodeConductor",
    "Enclosure",
    "Equipment",
    "FramingLeg",
    "GroundFaultDevice",
    "Grounding",
    "Heater",
    "Leg",
    "Luminaire",
    "MainBreaker",
    "Motor",
    "OverheadLeg",
    "Panel",
    "PassageLeg",
    "Plan",
    "Problem",
    "Raceway",
    "Receptacle",
    "RiseLeg",
    "Route",
    "Site",
    "SlabOver",
    "Structure",
    "SurfaceLeg",
    "Switch",
    "Thing",
    "Transformer",
    "Unstated",
    "Wires",
    "WorkingSpace",
]
