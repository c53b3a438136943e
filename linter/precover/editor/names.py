"""The names that a plan gives its things: where each is given, and where each is used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from precover.plan.thing import escaped, tokens_of
from precover.reading.references import FEEDS_THROUGH, SWITCHES

NODES, PANELS, STRUCTURES, CIRCUITS, TRANSFORMERS, FEEDERS, SWITCH = range(7)
"""What a name can stand for: a panel or box, a panel (or a transformer, as `box/device`), a structure, a circuit; a
transformer, a device of the same box that feeds others, a switch (as `box/device`)."""

_KEYS = {
    ("panels", "at"): STRUCTURES,
    ("boxes", "at"): STRUCTURES,
    ("circuits", "from"): PANELS,
    ("circuits", "not-with"): CIRCUITS,
    ("routes", "from"): NODES,
    ("routes", "to"): NODES,
}
_DEVICE_KEYS = {"circuit": CIRCUITS, "after": FEEDERS, "switched-by": SWITCH}
_SECTIONS = ("structures", "panels", "circuits", "boxes", "routes")


class Use(NamedTuple):
    """A name where it stands: the thing it is of, and the value (or key) that it is in, from one character to another."""

    thing: str
    """JSON Pointer of the thing."""
    place: str
    key: bool
    first: int
    last: int


def kind_of(pointer: str) -> int | None:
    """What the value at a place names; None where it names nothing."""
    tokens = tokens_of(pointer)
    if len(tokens) == 3:
        return _KEYS.get((tokens[0], tokens[2]))
    if len(tokens) == 5 and tokens[0] == "boxes" and tokens[2] == "devices":
        return _DEVICE_KEYS.get(tokens[4])
    return None


def known(data: Any, kind: int, pointer: str) -> list[str]:
    """The names that a plan has for a kind of thing, as the value at a place would write them."""
    if kind == STRUCTURES:
        return [*_part(data, "structures")]
    if kind == CIRCUITS:
        return [*_part(data, "circuits")]
    if kind == NODES:
        return [*_part(data, "panels"), *_part(data, "boxes")]
    if kind == PANELS:
        return [*_part(data, "panels"), *known(data, TRANSFORMERS, pointer)]
    wanted = {TRANSFORMERS: ("transformer",), FEEDERS: _heads(FEEDS_THROUGH), SWITCH: _heads(SWITCHES)}[kind]
    own = tokens_of(pointer)[1:4:2]
    return [
        device if kind == FEEDERS else f"{box}/{device}"
        for box, device, entry in _devices(data)
        if any(head in entry for head in wanted) and (kind != FEEDERS or (box == own[0] and device != own[1]))
    ]


def uses(data: Any) -> Iterator[Use]:
    """Every name of a plan, where it is given and where it is used."""
    for section in _SECTIONS:
        for name, entry in _part(data, section).items():
            place = f"/{section}/{escaped(name)}"
            yield Use(place, place, True, 0, len(name))
            for key, value in _part(entry).items():
                kind = _KEYS.get((section, key))
                if kind is not None and isinstance(value, str):
                    yield from _used(data, kind, f"{place}/{key}", value)
            if section == "routes":
                for circuit in _part(entry, "carries"):
                    yield Use(
                        f"/circuits/{escaped(circuit)}", f"{place}/carries/{escaped(circuit)}", True, 0, len(circuit)
                    )
    for box, device, entry in _devices(data):
        place = f"/boxes/{escaped(box)}/devices/{escaped(device)}"
        yield Use(place, place, True, 0, len(device))
        for key, value in entry.items():
            kind = _DEVICE_KEYS.get(key)
            if kind is not None and isinstance(value, str):
                yield from _used(data, kind, f"{place}/{key}", value)


def _used(data: Any, kind: int, place: str, value: str) -> Iterator[Use]:
    box, stroke, device = value.partition("/")
    if stroke:
        yield Use(f"/boxes/{escaped(box)}", place, False, 0, len(box))
        yield Use(f"/boxes/{escaped(box)}/devices/{escaped(device)}", place, False, len(box) + 1, len(value))
    elif kind == FEEDERS:
        yield Use(f"{place.rsplit('/', 2)[0]}/{escaped(value)}", place, False, 0, len(value))
    else:
        section = {STRUCTURES: "structures", CIRCUITS: "circuits", PANELS: "panels"}.get(kind, "panels")
        if kind == NODES and value not in _part(data, "panels"):
            section = "boxes"
        yield Use(f"/{section}/{escaped(value)}", place, False, 0, len(value))


def _devices(data: Any) -> Iterator[tuple[str, str, Mapping[str, Any]]]:
    for box, entry in _part(data, "boxes").items():
        for device, facts in _part(entry, "devices").items():
            yield box, device, _part(facts)


def _part(data: Any, key: str | None = None) -> Mapping[str, Any]:
    """A mapping (or the one behind a key of it), empty for anything else: the plan may be half written."""
    found = data.get(key) if key is not None and isinstance(data, dict) else data
    return found if isinstance(found, dict) else {}


def _heads(kinds: tuple[type, ...]) -> tuple[str, ...]:
    """The keys that only devices of these kinds have."""
    from precover.reading.build import heads_of

    return heads_of(kinds)
