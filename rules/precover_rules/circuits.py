"""What a circuit leads to."""

from collections.abc import Iterator

from precover.plan import Breaker, Circuit, Device, Panel
from precover.rulebook import Look


def devices_on(circuit: Circuit, look: Look) -> tuple[Device, ...]:
    """The devices on a circuit, those nearer its origin first."""
    return look.trace.devices_on(circuit)


def panel_behind(feeder: Circuit, look: Look) -> Panel:
    """The panel at the end of a feeder that ends in one, as rules look at under `no_feeder_to_a_panel`."""
    panel = look.trace.panel_fed_by(feeder)
    assert panel is not None  # noqa: S101 - their condition
    return panel


def circuits_behind(circuit: Circuit, look: Look) -> Iterator[Circuit]:
    """The circuit, and what begins in the panel that it feeds, and so on to the last branch circuit."""
    yield circuit
    panel = look.trace.panel_fed_by(circuit)
    if panel is not None:
        for further in look.trace.circuits_from(panel):
            yield from circuits_behind(further, look)


def circuit_with(breaker: Breaker, look: Look) -> Circuit:
    """The circuit that a breaker starts."""
    return next(
        circuit for circuit in look.plan.circuits.values() if breaker.place.removesuffix("/breaker") == circuit.place
    )
