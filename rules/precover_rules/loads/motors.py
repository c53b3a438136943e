"""The current of a motor, as its circuit counts it."""

from fractions import Fraction

from precover.plan import Motor
from precover.rulebook import Look
from precover.units import Current

TABLE = "motor-current"
MOTOR_VOLTS = {120: "115 V", 208: "208 V", 240: "230 V"}
"""Nominal voltage of a circuit -> that of the motors made for it."""


def full_load(motor: Motor, volts: int, look: Look) -> Current:
    """The full-load current of a single-phase motor: by table from its horsepower, else as the plan states it."""
    key = (_mixed(motor.motor.amount), MOTOR_VOLTS.get(volts, ""))
    if look.has(TABLE, *key):
        current: Current = look.cell(TABLE, *key).value
        return current
    return look.stated(motor.full_load_current)


def _mixed(amount: Fraction) -> str:
    whole, rest = divmod(amount, 1)
    parts = ([str(whole)] if whole else []) + ([str(rest)] if rest else [])
    return f"{' '.join(parts)} hp"
