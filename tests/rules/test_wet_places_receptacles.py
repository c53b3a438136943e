"""Receptacles where it is damp or wet, and what covers them."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, lines, outcome, reviewed_example

BOX = "/boxes/terrace-box"
OUTLET = f"{BOX}/devices/terrace-outlet"


def terrace(box: dict[str, Any] | None = None, enclosure: dict[str, Any] | None = None, **device: Any) -> Review:
    """The pottery studio with another receptacle on the terrace; keys are written with underscores here."""
    outlet = {key.replace("_", "-"): value for key, value in device.items()}
    patch = {"terrace-box": {**(box or {}), "box": enclosure or {}, "devices": {"terrace-outlet": outlet}}}
    return reviewed_example("pottery-studio", {"boxes": patch})


WR = "/weather-resistant"
DAMP = "/cover-in-a-damp-place"
IN_USE = "receptacles/cover-in-a-wet-place"
NONE = "/no-weatherproof-cover-in-a-wet-place"
HOOD = "/extra-duty-hood"
OTHER = "/cover-of-another-rating-in-a-wet-place"
SEAL = "/plate-seals-to-the-wall"


@pytest.mark.parametrize(
    ("location", "marked", "expected"),
    [
        ("dry", False, "does not apply"),
        ("damp", False, "not met"),
        ("damp", True, "met"),
        ("wet", False, "not met"),
        ("wet", True, "met"),
        ("wet", None, "cannot tell"),
    ],
)
def test_weather_resistant(location: str, marked: bool | None, expected: str) -> None:
    """Damp and wet alike."""
    of = terrace({"area": "garage", "location": location}, weather_resistant=marked)
    assert outcome(of, WR, OUTLET) == expected


@pytest.mark.parametrize(
    ("amperes", "volts", "expected"),
    [
        ("15 A", "125 V", "not met"),
        ("20 A", "125 V", "not met"),
        ("20 A", "250 V", "not met"),
        ("21 A", "125 V", "does not apply"),
        ("30 A", "250 V", "does not apply"),
        ("20 A", "251 V", "does not apply"),
        ("20 A", "277 V", "does not apply"),
        ("20 A", None, "cannot tell"),
    ],
)
def test_ratings_that_are_weather_resistant(amperes: str, volts: str | None, expected: str) -> None:
    """Up to 20 A and up to 250 V."""
    assert outcome(terrace(receptacle=amperes, voltage=volts, weather_resistant=False), WR, OUTLET) == expected


def test_locking_receptacles_are_exempt() -> None:
    """From the marking, not from the cover."""
    of = terrace(locking=True, weather_resistant=False, cover="closed")
    assert outcome(of, WR, OUTLET) == "does not apply"
    assert outcome(of, IN_USE, OUTLET) == "not met"
    assert outcome(terrace(locking=False, weather_resistant=False), WR, OUTLET) == "not met"


def test_published_needs_of_an_outdoor_receptacle() -> None:
    """Exam-preparation page, residential inspections:
    https://performresidentialelecinspec.passetra.com/question/what-are-the-code-requirements-3d18532a042f1eeb
    ground-fault protection, and a weather-resistant receptacle; the first is another subject's rule."""
    for location in ("damp", "wet"):
        of = terrace({"location": location}, weather_resistant=False, ground_fault=False)
        wanting = {finding.line.rule.id for finding in of.findings if finding.line.subject == OUTLET}
        assert "wet-places/receptacles/weather-resistant" in wanting
        assert any(rule.startswith("ground-fault/") for rule in wanting)


@pytest.mark.parametrize(
    ("cover", "damp", "wet"),
    [
        ("none", "not met", "does not apply"),
        ("plain", "not met", "does not apply"),
        ("closed", "met", "not met"),
        ("in-use", "met", "met"),
        (None, "cannot tell", "cannot tell"),
    ],
)
def test_covers(cover: str | None, damp: str, wet: str) -> None:
    """Weatherproof while closed will do where it is damp; where it is wet, with a plug in as well."""
    assert outcome(terrace({"location": "damp"}, cover=cover), DAMP, OUTLET) == damp
    assert outcome(terrace(cover=cover), IN_USE, OUTLET) == wet


def test_published_cover_for_a_damp_place() -> None:
    """IEC year 4 study question: https://iecyear4studyguide.examzify.com/question/a-receptacle-installed-outdoors-in-e1728b910dc3b00d
    outdoors and protected from the weather: weatherproof when the receptacle is covered."""
    of = terrace({"location": "damp"}, cover="closed")
    assert outcome(of, DAMP, OUTLET) == "met"
    assert outcome(of, IN_USE, OUTLET) == "does not apply"


def test_each_cover_rule_keeps_to_its_place() -> None:
    """A cover is written up once."""
    rules = (DAMP, NONE, IN_USE, OTHER)
    dry = terrace({"area": "garage", "location": "dry"}, cover="none")
    assert [outcome(dry, rule, OUTLET) for rule in rules] == ["does not apply"] * 4
    wet = terrace(cover="plain")
    assert [outcome(wet, rule, OUTLET) for rule in rules] == ["does not apply", "not met", *["does not apply"] * 2]
    large = terrace(receptacle="30 A", voltage="250 V", cover="plain")
    assert [outcome(large, rule, OUTLET) for rule in rules] == ["does not apply", "not met", *["does not apply"] * 2]
    closed = terrace(receptacle="30 A", voltage="250 V", cover="closed", attended=False)
    assert [outcome(closed, rule, OUTLET) for rule in rules] == ["does not apply", "met", "does not apply", "not met"]


@pytest.mark.parametrize(
    ("cover", "severity"), [("none", "danger"), ("plain", "danger"), ("closed", "correction"), ("in-use", None)]
)
@pytest.mark.parametrize("amperes", ["20 A", "30 A"])
def test_only_a_receptacle_open_to_rain_is_a_danger(cover: str, severity: str | None, amperes: str) -> None:
    """A cover that closes but not over a plug is written up, no more."""
    of = terrace(receptacle=amperes, cover=cover, attended=False)
    found = [f.severity.word for f in of.findings if "cover" in f.line.rule.id and f.line.subject == OUTLET]
    assert found == ([severity] if severity else [])


def test_a_damp_place_needs_no_hood() -> None:
    """A cover that closes will do."""
    (line,) = lines(terrace({"location": "damp"}, cover="plain"), DAMP, OUTLET)
    assert [step["value"] for step in line.answer.proposals[0].patch] == ["closed"]


def test_outdoors_without_a_location() -> None:
    """Damp or wet: a plain plate is wrong in both, a closed cover in one; a dry place is not tried."""
    outdoors = {"location": None}
    assert outcome(terrace(outdoors, weather_resistant=False), WR, OUTLET) == "not met"
    (line,) = lines(terrace(outdoors, cover="closed"), IN_USE, OUTLET)
    assert (line.answer.outcome.value, line.place) == ("cannot tell", f"{BOX}/location")
    assert asked(terrace(outdoors)) == []


@pytest.mark.parametrize(
    ("amperes", "cover", "extra", "expected"),
    [
        ("20 A", "in-use", True, "met"),
        ("20 A", "in-use", False, "not met"),
        ("20 A", "in-use", None, "cannot tell"),
        ("20 A", "closed", False, "does not apply"),
        ("21 A", "in-use", False, "does not apply"),
    ],
)
def test_hoods(amperes: str, cover: str, extra: bool | None, expected: str) -> None:
    """An in-use hood over a common receptacle is extra-duty; a cover that is wrong anyway is written up once."""
    assert outcome(terrace(receptacle=amperes, cover=cover, extra_duty=extra), HOOD, OUTLET) == expected
    damp = terrace({"location": "damp"}, receptacle=amperes, cover=cover, extra_duty=extra)
    assert outcome(damp, HOOD, OUTLET) == "does not apply"


@pytest.mark.parametrize(
    ("cover", "attended", "expected"),
    [
        ("in-use", False, "met"),
        ("in-use", None, "met"),
        ("closed", True, "met"),
        ("closed", False, "not met"),
        ("closed", None, "cannot tell"),
        ("plain", True, "does not apply"),
        ("none", None, "does not apply"),
        (None, True, "cannot tell"),
    ],
)
def test_other_ratings(cover: str | None, attended: bool | None, expected: str) -> None:
    """Weatherproof while closed only where somebody stays with the load."""
    of = terrace(receptacle="30 A", voltage="250 V", cover=cover, attended=attended)
    assert outcome(of, OTHER, OUTLET) == expected


@pytest.mark.parametrize(
    ("amperes", "volts", "expected"),
    [("20 A", "250 V", "does not apply"), ("21 A", "250 V", "not met"), ("20 A", "251 V", "not met")],
)
def test_what_counts_as_another_rating(amperes: str, volts: str, expected: str) -> None:
    """Over 20 A or over 250 V."""
    of = terrace(receptacle=amperes, voltage=volts, cover="closed", attended=False)
    assert outcome(of, OTHER, OUTLET) == expected


@pytest.mark.parametrize(
    ("mounting", "gasket", "expected"),
    [
        ("surface", False, "does not apply"),
        ("flush", True, "met"),
        ("flush", False, "not met"),
        ("flush", None, "cannot tell"),
        (None, True, "met"),
        (None, False, "cannot tell"),
    ],
)
def test_flush_boxes(mounting: str | None, gasket: bool | None, expected: str) -> None:
    """Where a flush box is in a wet place, its cover seals to the wall."""
    assert outcome(terrace(enclosure={"mounting": mounting, "gasket": gasket}), SEAL, BOX) == expected
    damp = terrace({"location": "damp"}, {"mounting": mounting, "gasket": gasket})
    assert outcome(damp, SEAL, BOX) == "does not apply"


def test_only_boxes_with_receptacles_seal_to_the_wall() -> None:
    """Of a switch or a light this rule says nothing."""
    of = reviewed_example("joinery-workshop", {"boxes": {"porch-light-box": {"location": "wet"}}})
    assert outcome(of, SEAL, "/boxes/porch-light-box") == "does not apply"


def test_what_is_looked_at_on_site() -> None:
    """How many receptacles there are to look at."""
    says = [item.says for item in reviewed_example("joinery-workshop").inspect if "faces" in item.says]
    assert says == [
        "None of the 3 receptacles faces up on a bench, a counter or where water can lie, unless it is listed for that."
    ]
    one = [item.says for item in reviewed_example("orchard-pump").inspect if "face up" in item.says]
    assert len(one) == 1
    lamp_only = {"boxes": {"post-box": {"devices": {"outlet": None, "lamp": {"luminaire": "9 W"}}}}}
    none = reviewed_example("orchard-pump", lamp_only).inspect
    assert not [item for item in none if "face up" in item.says]
