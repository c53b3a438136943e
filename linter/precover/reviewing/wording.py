"""Places of a plan in words."""

from __future__ import annotations

from precover.plan import BuriedLeg, FramingLeg, Leg, OverheadLeg, PassageLeg, Plan, RiseLeg, SurfaceLeg
from precover.plan.devices import Device


def place_in_words(plan: Plan, pointer: str) -> str:
    """The thing at a JSON Pointer as a person would point at it: `route yard, leg 3 (buried, lawn)`."""
    tokens = [token.replace("~1", "/").replace("~0", "~") for token in pointer.split("/")[1:]]
    if len(tokens) < 2:
        return "the site" if tokens == ["site"] else "the plan"
    kind, name = tokens[0], tokens[1]
    noun = _NOUNS.get(kind)
    if noun is None:
        return "the site" if kind == "site" else "the plan"
    words = f"{noun} {name}"
    if kind == "routes" and len(tokens) > 3 and tokens[2] == "legs" and tokens[3].isdecimal() and name in plan.routes:
        return f"{words}, {_leg(plan.routes[name].legs[int(tokens[3])])}"
    if kind == "routes" and len(tokens) > 3 and tokens[2] == "carries":
        return f"{words}, circuit {tokens[3]}"
    if kind == "boxes" and len(tokens) > 3 and tokens[2] == "devices" and name in plan.boxes:
        device = plan.boxes[name].devices.get(tokens[3])
        return f"{words}, {_device(device, tokens[3])}" if device is not None else words
    if kind == "circuits" and len(tokens) > 2 and tokens[2] == "breaker":
        return f"{words}, breaker"
    if kind == "structures" and len(tokens) > 2 and tokens[2] == "grounding":
        return (
            f"{words}, electrode {tokens[4]}"
            if len(tokens) > 4 and tokens[3] == "electrodes"
            else f"{words}, grounding"
        )
    return words


_NOUNS = {"structures": "structure", "panels": "panel", "circuits": "circuit", "boxes": "box", "routes": "route"}


def _leg(leg: Leg) -> str:
    if isinstance(leg, BuriedLeg):
        what = f"buried, {leg.buried}"
    elif isinstance(leg, RiseLeg):
        what = "rising out of the ground"
    elif isinstance(leg, SurfaceLeg):
        what = f"on {leg.on}"
    elif isinstance(leg, FramingLeg):
        what = f"in {leg.in_}"
    elif isinstance(leg, PassageLeg):
        what = f"through {leg.through}"
    elif isinstance(leg, OverheadLeg):
        what = f"overhead, {leg.overhead}"
    else:
        what = "bend"
    return f"leg {leg.number} ({what})"


def _device(device: Device, name: str) -> str:
    words = "".join(f" {mark.lower()}" if mark.isupper() else mark for mark in type(device).__name__).strip()
    return words if words == name else f"{words} {name}"
