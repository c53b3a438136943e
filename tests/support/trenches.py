"""Plans with one buried leg, for checks of what lies in the ground."""

from __future__ import annotations

from typing import Any

from precover.amending.patch import applied, complete
from precover.reviewing import Line, Review
from support.reviews import example, merged, reviewed

SLEEVE = {
    "raceway": "PVC-80 3/4 in",
    "sleeve-below": "18 in",
    "to-entry": True,
    "physical-damage": True,
    "sunlight": True,
    "bushing": True,
    "slip-fitting": True,
}
"""A rise of direct-burial cable as it should be."""

LEG = "/routes/to-pump/legs/1"
"""The buried leg of these plans."""

GARDEN: dict[str, Any] = {
    "boxes": {
        "post-box": {"devices": {"outlet": None, "power-pack": {"transformer": "300 VA", "listed-system": True}}},
        "lamp-box": {"at": "pump-post", "area": "outdoors", "location": "wet"},
    },
    "circuits": {"garden": {"kind": "low-voltage", "from": "post-box/power-pack", "voltage": "12 V"}},
}
"""A low-voltage circuit that begins at the post of the orchard pump."""


def trench(leg: dict[str, Any], *, carries: dict[str, Any] | None = None, **patch: Any) -> dict[str, Any]:
    """The data of the orchard pump with another buried leg: UF cable without raceway unless the leg brings one, and
    no ground-fault protection unless the patch does."""
    legs = [{"rise": "3 ft", **SLEEVE}, leg, {"rise": "2 ft", **SLEEVE}]
    route = {"legs": legs, **({"carries": carries} if carries is not None else {})}
    made = example("orchard-pump", {"routes": {"to-pump": route}})
    bare = {"circuits": {"pump": {"breaker": {"ground-fault": "none"}}}}
    result = merged(merged(made, bare), patch)
    assert isinstance(result, dict)
    return result


def protected(leg: dict[str, Any], **patch: Any) -> dict[str, Any]:
    """The same with ground-fault protection at the breaker."""
    return merged_plan(trench(leg), {"circuits": {"pump": {"breaker": {"ground-fault": "class A"}}}}, patch)


def garden(leg: dict[str, Any], use: str = "landscape lighting", **circuit: Any) -> dict[str, Any]:
    """The same leg as part of a low-voltage circuit, in the same place of the plan."""
    change = {
        "circuits": {"garden": {"use": use, **circuit}},
        "routes": {
            "feed": {
                "from": "farmhouse-panel",
                "to": "post-box",
                "raceway": "none",
                "carries": {"pump": {"cable": "UF-B 12/2"}},
                "legs": [{"through": "wall"}],
            },
            "to-pump": {
                "from": "post-box",
                "to": "lamp-box",
                "carries": {"pump": None, "garden": {"cable": "low-voltage 12/2"}},
            },
        },
    }
    return merged_plan(trench(leg), GARDEN, change)


def merged_plan(data: dict[str, Any], *patches: dict[str, Any]) -> dict[str, Any]:
    """Plan data with merge patches, one after the other."""
    for patch in patches:
        data = merged(data, patch)
    return data


def line_at(of: Review, rule: str, place: str = LEG) -> Line:
    """The ledger line of one rule on the subject at a place, where it does apply if there are several."""
    found = [line for line in of.ran if line.rule.id.endswith(rule) and line.subject == place]
    applying = [line for line in found if line.answer.outcome.value != "does not apply"]
    return (applying or found)[0]


def answer_at(data: dict[str, Any], rule: str, place: str = LEG) -> str:
    """The answer of one rule on the subject at a place."""
    return line_at(reviewed(data), rule, place).answer.outcome.value


def after_each_proposal(data: dict[str, Any], rule: str, place: str = LEG) -> dict[str, str]:
    """What the rule answers after each way out that it offers, by its words."""
    line = line_at(reviewed(data), rule, place)
    return {
        way.words: answer_at(applied(data, complete(data, way.patch)), rule, place) for way in line.answer.proposals
    }


def steps_at(data: dict[str, Any], rule: str, place: str = LEG) -> list[str]:
    """The steps of the derivation."""
    return [words for words, _ in line_at(reviewed(data), rule, place).steps]


YARD = "/routes/yard/legs/0"
"""The buried leg of the plans of `terrace`."""


def lawn(cover: str, **more: Any) -> dict[str, Any]:
    """A leg in open ground."""
    return {"buried": "lawn", "length": "30 ft", "cover": cover, **more}


def terrace(outlet: dict[str, Any], breaker: str = "none", **bench: Any) -> dict[str, Any]:
    """The pottery studio with its yard cable 12 in deep, behind a terrace outlet as given."""
    devices = {
        "terrace-box": {"devices": {"terrace-outlet": outlet}},
        "entry-box": {"devices": {"bench-outlet": bench}},
    }
    change = {
        "circuits": {"studio": {"breaker": {"ground-fault": breaker}}},
        "boxes": devices,
        "routes": {"yard": {"legs": [lawn("12 in")]}},
    }
    return merged_plan(example("pottery-studio"), change)
