"""What a branch circuit draws, device by device."""

from fractions import Fraction

from precover.plan import Circuit, Device, Equipment, Heater, Luminaire, Motor, Receptacle, Transformer, Unstated
from precover.record import Record
from precover.rulebook import Look
from precover.units import Current, plain
from precover_rules.circuit_conductors import hots, is_multiwire
from precover_rules.circuits import devices_on
from precover_rules.loads.known import known
from precover_rules.loads.motors import full_load
from precover_rules.premises import DWELLINGS

LARGEST_GENERAL = "common receptacle current"


class Part(Record):
    """A part of a circuit's load, in volt-amperes."""

    name: str
    va: Fraction
    continuous: bool = False
    motor: bool = False


class Drawn(Record):
    """The load of a circuit: its parts, and in words where they come from."""

    circuit: Circuit
    volts: int
    hots: int
    parts: tuple[Part, ...]
    how: str

    @property
    def va(self) -> Fraction:
        """All of it, nothing counted more than once."""
        return sum((part.va for part in self.parts), Fraction(0))


def drawn_by(circuit: Circuit, look: Look, *, most: bool) -> Drawn:
    """What a branch circuit draws.

    A general receptacle counts with what the table of limits gives for it; lights, heaters, motors and equipment with
    their own rating. What an appliance receptacle or other equipment draws is either stated, or with `most` taken at the
    most it can be: all that the breaker lets through. Without `most` it is asked for.
    """
    volts, legs = voltage_and_hots(circuit, look)
    fixed, receptacles, unknown = _devices(circuit, volts, look, most=most)
    va = look.limit("load of a receptacle").value.amount * receptacles if receptacles else Fraction(0)
    counted = f"{receptacles} receptacles at {plain(va / receptacles)} VA" if receptacles else ""
    planned = known(circuit.load, look)
    if unknown is not None and planned is None:
        if not most:
            look.stated(unknown)
        rating = look.stated(circuit.breaker.rating)
        # Nothing is added for continuous loads: a circuit that is itself in order has that within its rating.
        whole = Part(circuit.id, max(rating.amount * volts, sum((part.va for part in fixed), Fraction(0))))
        return Drawn(circuit, volts, legs, (whole,), f"all that its {rating} breaker lets through")
    how = " and ".join(filter(None, (counted, ", ".join(part.name for part in fixed))))
    if planned is not None:
        rest = planned.amount * volts - sum((part.va for part in fixed), Fraction(0))
        va, how = max(va, rest), f"planned for {planned}"
    return Drawn(circuit, volts, legs, (*fixed, *((Part(circuit.id, va),) if va else ())), how or "nothing on it")


def voltage_and_hots(circuit: Circuit, look: Look) -> tuple[int, int]:
    """The voltage that its load is counted at, and how many hots carry it."""
    voltage, count = look.stated(circuit.voltage), hots(circuit, look)
    return (voltage.line_to_line if count == 2 else voltage.line_to_ground), count


def is_general(receptacle: Receptacle, circuit: Circuit, look: Look) -> bool:
    """A receptacle for whatever comes, not for one large appliance: up to 20 A, between a hot and the neutral."""
    return receptacle.receptacle <= look.limit(LARGEST_GENERAL).value and (
        hots(circuit, look) == 1 or is_multiwire(circuit, look)
    )


def device_load(device: Device, volts: int, look: Look, *, most: bool) -> Part | Unstated | None:
    """The load of a device of known rating, in VA; the fact that would tell; None for a device that draws nothing."""
    if isinstance(device, Luminaire):
        return Part(device.id, device.luminaire.amount, continuous=look.plan.site.premises not in DWELLINGS)
    if isinstance(device, Heater):
        return Part(device.id, device.heater.amount, continuous=True)
    if isinstance(device, Motor):
        return Part(device.id, full_load(device, volts, look).amount * volts, motor=True)
    if isinstance(device, Transformer):
        return Part(device.id, device.transformer.amount)
    if isinstance(device, Equipment):
        load = known(device.load, look)
        if load is None:
            return device.load if isinstance(device.load, Unstated) else None
        continuous = known(device.continuous, look) if most else look.stated(device.continuous)
        return Part(device.id, load.amount, continuous is not False)
    return None


def _devices(circuit: Circuit, volts: int, look: Look, *, most: bool) -> tuple[list[Part], int, Unstated | None]:
    """The parts of known load, how many general receptacles there are, and the first fact that would tell of others."""
    parts: list[Part] = []
    receptacles, unknown = 0, None
    for device in devices_on(circuit, look):
        if isinstance(device, Receptacle):
            if is_general(device, circuit, look):
                receptacles += 1
            elif isinstance(circuit.load, Unstated):
                unknown = circuit.load
            continue
        load = device_load(device, volts, look, most=most)
        if isinstance(load, Part):
            parts.append(load)
        elif load is not None:
            unknown = load
    return parts, receptacles, unknown


def amperes(amount: Fraction) -> Current:
    """A computed current, rounded up to a tenth of an ampere for people."""
    return Current.of(Fraction(-(-amount * 10 // 1)) / 10, "A")
