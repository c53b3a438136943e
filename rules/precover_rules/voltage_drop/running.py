"""What runs on a circuit when its drop is worked out, and where it stands."""

from precover.plan import Box, Circuit, Receptacle
from precover.record import Record
from precover.rulebook import Look, once
from precover.units import plain
from precover_rules.circuit_conductors import hots, is_multiwire
from precover_rules.circuits import devices_on
from precover_rules.loads.drawn import Part, device_load
from precover_rules.loads.known import known

ASSUMED = "load assumed where none is planned"


class Running(Record):
    """The current in each hot at every box that draws some, in amperes; the voltage of the loads; and in words how the
    load was come by. `assumed` where the plan does not say what is planned."""

    at: dict[str, float]
    volts: int
    across_hots: bool
    how: str
    assumed: bool

    @property
    def amps(self) -> float:
        """All of it."""
        return sum(self.at.values())


@once
def running_on(circuit: Circuit, look: Look) -> Running | None:
    """The load of a branch circuit where it stands; None where it has no outlet.

    Lights, heaters, motors and equipment draw what they are rated for, at their boxes. What is planned for the circuit
    beyond them, or with nothing planned the assumed part of the breaker's rating, is drawn at its farthest receptacle
    (or equipment of unknown load). A shared neutral is taken with one of its hots loaded, which is the worst.
    """
    voltage = look.stated(circuit.voltage)
    across = hots(circuit, look) == 2 and not is_multiwire(circuit, look)
    volts = voltage.line_to_line if across else voltage.line_to_ground
    at: dict[str, float] = {}
    farthest: Box | None = None
    for device in devices_on(circuit, look):  # those nearer the origin first
        box = look.trace.box_of(device)
        load = None if isinstance(device, Receptacle) else device_load(device, volts, look, most=True)
        if isinstance(load, Part):
            at[box.id] = at.get(box.id, 0.0) + float(load.va / volts)
        elif isinstance(device, Receptacle) or load is not None:
            farthest = box
    fixed = sum(at.values())
    planned = known(circuit.load, look)
    if planned is None and farthest is None:
        return Running(at, volts, across, f"{fixed:.1f} A of fixed loads", assumed=False) if at else None
    if planned is not None:
        whole, how = float(planned.amount), f"planned for {planned}"
    else:
        share, rating = look.limit(ASSUMED).value, look.stated(circuit.breaker.rating)
        whole = float(rating.amount * share)
        how = f"no load is planned: {plain(rating.amount * share)} A assumed, {plain(share * 100)} % of its {rating} breaker"
    last = farthest.id if farthest is not None else max(at, key=lambda name: at[name], default=None)
    if last is None:
        return None
    at[last] = at.get(last, 0.0) + max(0.0, whole - fixed)
    return Running(at, volts, across, f"{how}, at {last}", assumed=planned is None)
