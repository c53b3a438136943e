"""Quantities as the trade writes them: text with a unit, held as an exact number in one base unit."""

from precover.units.conductor_size import ConductorSize
from precover.units.dimensions import (
    Angle,
    Apparent,
    Area,
    ConductorArea,
    Current,
    Horsepower,
    Length,
    Mass,
    Power,
    Resistance,
    ResistancePerLength,
    Temperature,
    TemperatureDifference,
    Voltage,
    Volume,
)
from precover.units.quantity import Quantity, QuantityError, number, plain, total
from precover.units.supply_voltage import SupplyVoltage
from precover.units.trade_size import TradeSize

__all__ = [
    "Angle",
    "Apparent",
    "Area",
    "ConductorArea",
    "ConductorSize",
    "Current",
    "Horsepower",
    "Length",
    "Mass",
    "Power",
    "Quantity",
    "QuantityError",
    "Resistance",
    "ResistancePerLength",
    "SupplyVoltage",
    "Temperature",
    "TemperatureDifference",
    "TradeSize",
    "Voltage",
    "Volume",
    "number",
    "plain",
    "total",
]
