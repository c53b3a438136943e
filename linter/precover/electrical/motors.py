"""The circuit of one motor."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from precover.electrical.overcurrent import next_rating
from precover.electrical.working import Worked
from precover.record import Record
from precover.units import Current, plain


class MotorCircuit(Record):
    """What a motor asks of its circuit: the conductors' ampacity, and the largest device against short circuits."""

    ampacity: Current
    device: Current | None


def motor_circuit(
    full_load: Current, conductor: Fraction, device: Fraction, ratings: Iterable[Current]
) -> Worked[MotorCircuit]:
    """The circuit of one motor from its full-load current by table, not by nameplate.

    `conductor` is the factor on the conductors (125 %), `device` that of the kind of device (250 % for an inverse-time
    breaker, 175 % for a time-delay fuse); a device that falls between standard ratings may be the next larger one, as
    430.52(C)(1) allows. A motor's overload protection is a separate matter.
    """
    ampacity = Current.of(full_load.amount * conductor, "A")
    limit = Current.of(full_load.amount * device, "A")
    chosen = next_rating(limit, ratings)
    steps = (
        f"conductors: {full_load} × {plain(conductor)} = {ampacity}",
        f"short-circuit device: {full_load} × {plain(device)} = {limit}, next standard {chosen or 'none'}",
    )
    return Worked(MotorCircuit(ampacity, chosen), steps)
