"""Boxes, covers, switches, panels, equipment and fittings where it is damp or wet, and locations that contradict."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, lines, outcome, reviewed_example

PLACES = [("dry", "does not apply"), ("damp", "not met"), ("wet", "not met")]


def pull_box(facts: dict[str, Any] | None = None, **enclosure: Any) -> Review:
    """The joinery workshop with another pull box, which holds no device."""
    box = {key.replace("_", "-"): value for key, value in enclosure.items()}
    return reviewed_example("joinery-workshop", {"boxes": {"pull-box": {**(facts or {}), "box": box}}})


PULL = "/boxes/pull-box"
LISTED = "/box-listed-for-its-place"
COVER = "/cover-of-a-box-without-devices"
WET_COVER = "/cover-of-a-box-in-a-wet-place"
HANDHOLE = "/handhole-cover"


# Boxes


@pytest.mark.parametrize(
    ("listed", "damp", "wet"),
    [
        ("dry", "not met", "not met"),
        ("damp", "met", "not met"),
        ("wet", "met", "met"),
        (None, "cannot tell", "cannot tell"),
    ],
)
def test_listed_for_its_place(listed: str | None, damp: str, wet: str) -> None:
    """A listing for a wetter place is enough."""
    assert outcome(pull_box({"location": "damp"}, listed_for=listed), LISTED, PULL) == damp
    assert outcome(pull_box(listed_for=listed), LISTED, PULL) == wet
    dry = pull_box({"area": "garage", "location": "dry"}, listed_for=listed)
    assert outcome(dry, LISTED, PULL) == "does not apply"


def test_a_box_in_the_ground_is_in_a_wet_place() -> None:
    """Whatever its location is said to be."""
    assert outcome(pull_box({"area": "ground", "location": "damp"}, listed_for="damp"), LISTED, PULL) == "not met"
    assert outcome(pull_box({"location": "damp"}, kind="handhole", listed_for="damp"), LISTED, PULL) == "not met"


def test_outdoors_without_a_location() -> None:
    """Damp or wet: a dry box is wrong in both, a wet one right in both, a damp one is asked about."""
    assert outcome(pull_box({"location": None}, listed_for="dry"), LISTED, PULL) == "not met"
    assert outcome(pull_box({"location": None}, listed_for="wet"), LISTED, PULL) == "met"
    assert f"{PULL}/location" in asked(pull_box({"location": None}, listed_for="damp"))


@pytest.mark.parametrize(
    ("cover", "dry", "damp", "wet"),
    [
        ("none", "not met", "not met", "not met"),
        ("plain", "does not apply", "not met", "not met"),
        ("closed", "does not apply", "met", "met"),
        (None, "does not apply", "cannot tell", "cannot tell"),
    ],
)
def test_covers(cover: str | None, dry: str, damp: str, wet: str) -> None:
    """Open is wrong anywhere; a plain cover is wrong where it is damp or wet, and a danger in the rain only."""
    for location, area, expected in (("dry", "garage", dry), ("damp", "outdoors", damp), ("wet", "outdoors", wet)):
        of = pull_box({"location": location, "area": area}, cover=cover)
        rule, other = (WET_COVER, COVER) if location == "wet" else (COVER, WET_COVER)
        assert outcome(of, rule, PULL) == expected
        assert outcome(of, other, PULL) == "does not apply"
        severities = {
            f.severity.word for f in of.findings if "cover-of-a-box" in f.line.rule.id and expected == "not met"
        }
        assert severities <= {"danger" if location == "wet" else "correction"}


def test_a_box_listed_for_a_drier_place_is_a_correction() -> None:
    """It leaks slowly; it is open to nobody's hand."""
    of = pull_box(listed_for="dry")
    assert [f.severity.word for f in of.findings if f.line.rule.id.endswith(LISTED)] == ["correction"]


def test_covers_that_are_looked_at_elsewhere() -> None:
    """Devices close a box, and a handhole has a cover of its own."""
    of = reviewed_example("pottery-studio", {"boxes": {"terrace-box": {"box": {"cover": "none"}}}})
    assert outcome(of, COVER, "/boxes/terrace-box") == "does not apply"
    assert outcome(pull_box(kind="handhole", cover="none"), COVER, PULL) == "does not apply"


@pytest.mark.parametrize(
    ("marked", "tool", "expected", "at"),
    [
        (True, True, "met", "cover-needs-tool"),
        (True, False, "not met", "cover-needs-tool"),
        (False, True, "not met", "cover-marked"),
        (False, None, "not met", "cover-marked"),
        (None, True, "cannot tell", "cover-marked"),
        (True, None, "cannot tell", "cover-needs-tool"),
    ],
)
def test_handholes(marked: bool | None, tool: bool | None, expected: str, at: str) -> None:
    """Marked, and not to be opened by hand."""
    of = pull_box({"area": "ground"}, kind="handhole", cover_marked=marked, cover_needs_tool=tool)
    (line,) = lines(of, HANDHOLE, PULL)
    assert (line.answer.outcome.value, line.place) == (expected, f"{PULL}/box/{at}")


@pytest.mark.parametrize(
    ("area", "kind", "expected"),
    [
        ("outdoors", "box", "does not apply"),
        ("outdoors", None, "does not apply"),
        ("outdoors", "handhole", "not met"),
        ("ground", "box", "does not apply"),
        ("ground", None, "cannot tell"),
    ],
)
def test_what_may_be_a_handhole(area: str, kind: str | None, expected: str) -> None:
    """A box set in the ground that does not say what it is."""
    assert outcome(pull_box({"area": area}, kind=kind, cover_marked=False), HANDHOLE, PULL) == expected


@pytest.mark.parametrize(
    ("cover", "expected"),
    [("none", "not met"), ("plain", "not met"), ("closed", "met"), ("in-use", "met"), (None, "cannot tell")],
)
def test_ground_fault_devices(cover: str | None, expected: str) -> None:
    """Weatherproof where it is damp or wet."""
    device = {"ground-fault-device": "20 A"} | ({"cover": cover} if cover else {})
    for location in ("damp", "wet"):
        of = reviewed_example(
            "pottery-studio", {"boxes": {"terrace-box": {"location": location, "devices": {"gf": device}}}}
        )
        rule = "/cover-over-a-ground-fault-device" + ("-in-a-damp-place" if location == "damp" else "")
        assert outcome(of, rule, "/boxes/terrace-box/devices/gf") == expected
    of = reviewed_example("pottery-studio", {"boxes": {"entry-box": {"devices": {"gf": device}}}})
    assert outcome(of, "/cover-over-a-ground-fault-device", "/boxes/entry-box/devices/gf") == "does not apply"


def test_boxes_are_looked_at_on_site() -> None:
    """How many there are to look at."""
    says = [item.says for item in reviewed_example("pottery-studio").inspect if "boxes of the plan" in item.says]
    assert [text.partition(" is ")[0] for text in says] == ["Each of the 3 boxes of the plan"]
    (one,) = [item.says for item in reviewed_example("orchard-pump").inspect if "of the plan is closed" in item.says]
    assert one.startswith("The box of the plan is closed")


# Switches


@pytest.mark.parametrize(("location", "unprotected"), PLACES)
def test_switches(location: str, unprotected: str) -> None:
    """Kept dry where it is damp or wet."""
    switch = "/boxes/switch-box/devices/light-switch"

    def answer(weatherproof: bool | None) -> str:
        device = {"light-switch": {"weatherproof": weatherproof}}
        patch = {"boxes": {"switch-box": {"location": location, "devices": device}}}
        rule = "/switch-in-a-damp-place" if location == "damp" else "/switch-kept-dry"
        return outcome(reviewed_example("joinery-workshop", patch), rule, switch)

    assert answer(False) == unprotected
    assert answer(True) == ("does not apply" if location == "dry" else "met")
    assert answer(None) == ("does not apply" if location == "dry" else "cannot tell")


@pytest.mark.parametrize(
    ("mounting", "needs"),
    [
        ("flush", "a weatherproof cover"),
        ("surface", "a weatherproof enclosure"),
        (None, "a weatherproof enclosure or cover"),
    ],
)
def test_what_a_switch_needs(mounting: str | None, needs: str) -> None:
    """By how it is mounted, where that is stated; it is never asked for."""
    device = {"light-switch": {"weatherproof": False, "mounting": mounting}}
    of = reviewed_example("joinery-workshop", {"boxes": {"switch-box": {"location": "wet", "devices": device}}})
    (line,) = lines(of, "/switch-kept-dry", "/boxes/switch-box")
    assert line.answer.needs == needs


# Panels and disconnects


@pytest.mark.parametrize(
    ("area", "location", "enclosure", "expected"),
    [
        ("indoors", "dry", "1", "does not apply"),
        ("outdoors", "wet", "1", "not met"),
        ("outdoors", "damp", "1", "not met"),
        ("outdoors", None, "1", "not met"),
        ("ground", None, "1", "not met"),
        ("outdoors", "wet", "3R", "met"),
        ("outdoors", "wet", "4", "met"),
        ("outdoors", "wet", "4X", "met"),
        ("outdoors", "wet", None, "cannot tell"),
        ("basement", "damp", "1", "cannot tell"),
        ("basement", "damp", "3R", "met"),
        ("basement", "wet", "1", "not met"),
        (None, "damp", "1", "cannot tell"),
    ],
)
def test_enclosure_types(area: str | None, location: str | None, enclosure: str | None, expected: str) -> None:
    """Type 3R or better; type 1 in a damp place indoors is for the authority."""
    panel = {"area": area, "location": location, "enclosure": enclosure}
    of = reviewed_example("joinery-workshop", {"panels": {"workshop-panel": panel}})
    assert outcome(of, "/panel-enclosure", "/panels/workshop-panel") == expected
    shutoff = {"disconnect": "60 A"} | ({"enclosure": enclosure} if enclosure else {})
    box = {"area": area, "location": location, "devices": {"shutoff": shutoff}}
    of = reviewed_example("pottery-studio", {"boxes": {"entry-box": box}})
    assert outcome(of, "/disconnect-enclosure", "/boxes/entry-box/devices/shutoff") == expected


def test_what_the_authority_is_asked() -> None:
    """Nothing that the plan could state would tell."""
    panel = {"area": "basement", "location": "damp", "enclosure": "1"}
    of = reviewed_example("joinery-workshop", {"panels": {"workshop-panel": panel}})
    (line,) = lines(of, "/panel-enclosure", "/panels/workshop-panel")
    assert line.answer.asks is None
    assert line.answer.why.startswith("ask whether")


@pytest.mark.parametrize(("location", "expected"), [("dry", 0), ("damp", 1), ("wet", 1), (None, 1)])
def test_air_behind_an_enclosure(location: str | None, expected: int) -> None:
    """Looked at on site where it is damp or wet, or where the plan does not say."""
    patch = {"panels": {"workshop-panel": {"area": "basement", "location": location}}}
    says = [item.says for item in reviewed_example("joinery-workshop", patch).inspect if "air behind" in item.says]
    assert len(says) == expected
    assert all("panel workshop-panel" in text and "1/4 in" in text for text in says)


def test_air_behind_a_disconnect() -> None:
    """As behind a panel."""
    devices = {"shutoff": {"disconnect": "60 A", "enclosure": "3R"}}
    of = reviewed_example("pottery-studio", {"boxes": {"terrace-box": {"devices": devices}}})
    assert len([item for item in of.inspect if "disconnect shutoff" in item.says and "1/4 in" in item.says]) == 1
    of = reviewed_example("pottery-studio", {"boxes": {"entry-box": {"devices": devices}}})
    assert not [item for item in of.inspect if "disconnect shutoff" in item.says and "1/4 in" in item.says]


# Equipment


@pytest.mark.parametrize(
    ("device", "rule"),
    [
        ({"luminaire": "9 W"}, "/luminaire-listed-for-its-place"),
        ({"motor": "1/2 hp"}, "/equipment-listed-for-its-place"),
        ({"heater": "1 kW"}, "/equipment-listed-for-its-place"),
        ({"equipment": "gate opener"}, "/equipment-listed-for-its-place"),
        ({"transformer": "300 VA"}, "/equipment-listed-for-its-place"),
    ],
)
@pytest.mark.parametrize(
    ("listed", "damp", "wet"),
    [
        ("dry", "not met", "not met"),
        ("damp", "met", "not met"),
        ("wet", "met", "met"),
        (None, "cannot tell", "cannot tell"),
    ],
)
def test_equipment(device: dict[str, Any], rule: str, listed: str | None, damp: str, wet: str) -> None:
    """Listed for its place or a wetter one."""
    thing = device | ({"listed-for": listed} if listed else {})
    for location, expected in (("dry", "does not apply"), ("damp", damp), ("wet", wet)):
        box = {"area": "garage", "location": location, "devices": {"thing": thing}}
        of = reviewed_example("orchard-pump", {"boxes": {"post-box": box}})
        assert outcome(of, rule, "/boxes/post-box/devices/thing") == expected


def test_devices_that_are_no_equipment() -> None:
    """Receptacles and switches have rules of their own."""
    of = reviewed_example("orchard-pump")
    assert lines(of, "/equipment-listed-for-its-place", "/boxes/post-box/devices/outlet") == []


# Fittings


@pytest.mark.parametrize(
    ("raceway", "location", "fittings", "expected"),
    [
        ("EMT 1 in", "wet", True, "met"),
        ("EMT 1 in", "wet", False, "not met"),
        ("EMT 1 in", "wet", None, "cannot tell"),
        ("RMC 1 in", "wet", False, "not met"),
        ("IMC 1 in", "wet", False, "not met"),
        ("PVC-80 1 in", "wet", False, "does not apply"),
        ("none", "wet", False, "does not apply"),
        ("EMT 1 in", "damp", False, "does not apply"),
        ("EMT 1 in", "dry", False, "does not apply"),
        ("EMT 1 in", None, True, "met"),
        ("EMT 1 in", None, False, "cannot tell"),
        (None, "wet", True, "met"),
        (None, "wet", False, "cannot tell"),
    ],
)
def test_fittings(raceway: str | None, location: str | None, fittings: bool | None, expected: str) -> None:
    """Metal raceway in a wet place."""
    facts = {"location": location, "wet-fittings": fittings}
    leg = {"on": "outside wall"} | {key: value for key, value in facts.items() if value is not None}
    of = reviewed_example("joinery-workshop", {"routes": {"garage-run": {"raceway": raceway, "legs": [leg]}}})
    assert outcome(of, "/fittings-for-wet-places", "/routes/garage-run/legs/0") == expected


@pytest.mark.parametrize(
    ("raceway", "fittings", "expected"),
    [
        ("EMT 1 in", True, "met"),
        ("RMC 1 in", False, "not met"),
        ("RMC 1 in", None, "cannot tell"),
        ("PVC-80 1 in", False, "does not apply"),
    ],
)
def test_fittings_of_a_rise(raceway: str, fittings: bool | None, expected: str) -> None:
    """Out of the ground it is always wet."""
    leg = {"rise": "2 ft"} | ({} if fittings is None else {"wet-fittings": fittings})
    of = reviewed_example("joinery-workshop", {"routes": {"yard": {"raceway": raceway, "legs": [leg]}}})
    assert outcome(of, "/fittings-of-a-rising-raceway", "/routes/yard/legs/0") == expected


# Locations that contradict their place


def test_a_dry_box_outdoors_is_called_wet_and_nothing_else() -> None:
    """A word that spares a hood is no way out."""
    (line,) = lines(pull_box({"location": "dry"}), "/location-of-a-box", PULL)
    assert [way.patch[0]["value"] for way in line.answer.proposals] == ["wet"]


@pytest.mark.parametrize(
    ("area", "location", "expected"),
    [
        ("outdoors", "dry", "not met"),
        ("outdoors", "damp", "met"),
        ("outdoors", "wet", "met"),
        ("outdoors", None, "does not apply"),
        ("ground", "dry", "not met"),
        ("ground", "damp", "not met"),
        ("ground", "wet", "met"),
        ("basement", "dry", "does not apply"),
        (None, "dry", "does not apply"),
    ],
)
def test_stated_locations(area: str | None, location: str | None, expected: str) -> None:
    """Outdoors is never dry, and the ground is wet."""
    of = pull_box({"area": area, "location": location})
    assert outcome(of, "/location-of-a-box", PULL) == expected
    panel = {"workshop-panel": {"area": area, "location": location}}
    of = reviewed_example("joinery-workshop", {"panels": panel})
    assert outcome(of, "/location-of-a-panel", "/panels/workshop-panel") == expected


def test_a_handhole_is_in_the_ground() -> None:
    """Whatever its area is said to be."""
    of = pull_box({"area": "outdoors", "location": "damp"}, kind="handhole")
    assert outcome(of, "/location-of-a-box", PULL) == "not met"


@pytest.mark.parametrize(
    ("on", "location", "expected"),
    [
        ("outside wall", "dry", "not met"),
        ("deck", "dry", "not met"),
        ("fence", "damp", "met"),
        ("tree", "wet", "met"),
        ("outside wall", None, "does not apply"),
        ("post", "dry", "does not apply"),
        ("inside wall", "dry", "does not apply"),
        ("floor", "dry", "does not apply"),
    ],
)
def test_stated_locations_of_legs(on: str, location: str | None, expected: str) -> None:
    """A post may stand under a roof."""
    leg = {"on": on} | ({"location": location} if location else {})
    of = reviewed_example("joinery-workshop", {"routes": {"garage-run": {"legs": [leg]}}})
    assert outcome(of, "/location-of-a-leg", "/routes/garage-run/legs/0") == expected
