"""Where each type of cable may lie."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan.conductors import CABLE_TYPES
from precover.reviewing import Review
from support.reviews import asked, library, lines, outcome, reviewed_example

WET = "/cable-where-it-is-damp-or-wet"
INSIDE = "/underground-types-inside-a-building"
NM = "/nm-cable-by-building"
SPAN = "/uf-cable-overhead"
LEG = "/routes/yard/legs/0"
PVC = "PVC-80 1 in"
CABLE = "/routes/yard/carries/studio"


def laid(cable: str | None, leg: dict[str, Any], raceway: str | None = "none", listed: str | None = None) -> Review:
    """The pottery studio with one cable in one leg between house and studio."""
    carried = {"cable": cable, **({"listed-for": listed} if listed else {})}
    patch = {"routes": {"yard": {"raceway": raceway, "carries": {"studio": carried}, "legs": [leg]}}}
    return reviewed_example("pottery-studio", patch)


ON_WALL = {"on": "outside wall", "location": "wet"}
UNDER_ROOF = {"on": "outside wall", "location": "damp"}
BURIED = {"buried": "lawn", "cover": "24 in"}


@pytest.mark.parametrize(
    ("cable", "damp", "wet", "underground"),
    [
        ("NM-B 12/2", "not met", "not met", "not met"),
        ("AC 12/2", "not met", "not met", "not met"),
        ("UF-B 12/2", "met", "met", "met"),
        ("MI 12/2", "met", "met", "met"),
        ("USE-2 2-2-4 Al", "met", "met", "met"),
        ("USE 2-2-4 Al", "met", "met", "met"),
        ("MHF 2-2-4-6 Al", "met", "met", "met"),
        ("SER 2-2-2-4 Al", "met", "met", "does not apply"),
        ("SEU 2-2-4 Al", "met", "met", "does not apply"),
        ("SE 2-2-4 Al", "met", "met", "does not apply"),
        ("MC 12/2", "cannot tell", "cannot tell", "cannot tell"),
        ("TC-ER 12/2", "met", "cannot tell", "cannot tell"),
        ("low-voltage 12/2", "cannot tell", "cannot tell", "cannot tell"),
        ("cord 12/3", "does not apply", "does not apply", "does not apply"),
    ],
)
def test_by_type(cable: str, damp: str, wet: str, underground: str) -> None:
    """Each type in a damp place, a wet one, and a raceway underground."""
    assert outcome(laid(cable, UNDER_ROOF), WET, CABLE) == damp
    assert outcome(laid(cable, ON_WALL), WET, CABLE) == wet
    assert outcome(laid(cable, BURIED, PVC), WET, CABLE) == underground


@pytest.mark.parametrize("cable", ["MC 12/2", "low-voltage 12/2"])
@pytest.mark.parametrize(
    ("listed", "damp", "wet"), [("dry", "not met", "not met"), ("damp", "met", "not met"), ("wet", "met", "met")]
)
def test_marking(cable: str, listed: str, damp: str, wet: str) -> None:
    """A listing for a wetter place is enough, one for a drier place is not."""
    assert outcome(laid(cable, UNDER_ROOF, listed=listed), WET, CABLE) == damp
    assert outcome(laid(cable, ON_WALL, listed=listed), WET, CABLE) == wet
    assert outcome(laid(cable, BURIED, PVC, listed), WET, CABLE) == wet


def test_the_marking_is_what_is_asked_for() -> None:
    """By its place in the plan."""
    assert "/routes/yard/carries/studio/listed-for" in asked(laid("MC 12/2", ON_WALL))


def test_published_nm_in_a_slab_sleeve() -> None:
    """EC&M Code Q&A, NM cable rules: http://ecmweb.com/qampa/code-qa-nm-cable-rules
    NM may not be pulled through PVC in the ground-floor slab."""
    (line,) = lines(laid("NM-B 12/2", {"buried": "building"}, PVC), WET, CABLE)
    assert line.answer.outcome.value == "not met"
    assert ("the inside of an underground raceway is a wet place", LEG) in line.steps


def test_published_nm_in_outdoor_conduit() -> None:
    """Q&A page, indoor wire outside in conduit: https://answersmeta.com/56553-can-you-run-indoor-wire-outside-in-conduit
    NM may not; UF or wires for wet places may."""
    (line,) = lines(laid("NM-B 12/2", ON_WALL, PVC), WET, CABLE)
    assert line.answer.outcome.value == "not met"
    assert [way.patch[0]["value"] for way in line.answer.proposals] == ["UF-B 12/2"]
    assert outcome(laid("UF-B 12/2", ON_WALL, PVC), WET, CABLE) == "met"


def test_published_question_on_the_depth_of_buried_nm() -> None:
    """Exam-preparation document, 2026 (its own answer, a depth of 18 in, looks wrong: NM may not be buried at any depth):
    https://www.stuvia.com/es-us/doc/10153341/nyc-electrician-nyc-hh-exam-practice-questions-and-correct-answers-verified-answers-plus-rationales-2026-q-en-a-instant-download-pdf"""
    for depth in ("6 in", "12 in", "18 in", "24 in", "48 in"):
        leg = {"buried": "lawn", "cover": depth}
        bare, piped = laid("NM-B 12/2", leg), laid("NM-B 12/2", leg, PVC)
        assert _who_writes_up(bare, "NM-B 12/2") == ["burial/cable-types/cable-in-the-earth"]
        assert _who_writes_up(piped, "NM-B 12/2") == ["conductors/cable-uses/cable-where-it-is-damp-or-wet"]
        assert outcome(bare, WET, CABLE) == "does not apply"


def _who_writes_up(of: Review, cable: str) -> list[str]:
    return [finding.line.rule.id for finding in of.findings if finding.line.answer.has == cable]


def test_published_emt_in_a_stall_barn() -> None:
    """Western Section IAEI, panel questions 2006: https://www.scribd.com/document/160135201/2005-Nec-Code-Questions
    EMT may be used there; only what lies in it is looked at here."""
    patch: dict[str, Any] = {"structures": {"workshop": {"use": "agricultural", "farm-conditions": True}}}
    of = reviewed_example("joinery-workshop", patch)
    assert not [f for f in of.findings if f.line.rule.id.startswith("conductors/") and "/bench/" in f.line.place]


def test_one_finding_for_a_leg() -> None:
    """NM cable in a wet leg is written up once."""
    of = laid("NM-B 12/2", ON_WALL | {"sunlight": True})
    assert len([f for f in of.findings if "/yard/" in f.line.subject and f.line.rule.id.startswith("conductors/")]) == 1


def test_the_cable_offered_for_a_sunny_wall_is_marked_for_it() -> None:
    """Else it would bring another finding."""
    (line,) = lines(laid("NM-B 12/2", ON_WALL | {"sunlight": True}), WET, CABLE)
    assert [step["path"].rpartition("/")[2] for step in line.answer.proposals[0].patch] == [
        "cable",
        "sunlight-resistant",
    ]
    (line,) = lines(laid("NM-B 12/2", ON_WALL | {"sunlight": False}), WET, CABLE)
    assert len(line.answer.proposals[0].patch) == 1


@pytest.mark.parametrize(
    ("cable", "leg", "raceway", "rows"),
    [
        ("NM-B 12/2", ON_WALL, "none", ("nm-not-wet-damp", "outside-wiring-on-building")),
        ("NM-B 12/2", BURIED, PVC, ("nm-not-wet-damp", "wet-inside-underground")),
        ("AC 12/2", ON_WALL, "none", ("outside-wiring-on-building",)),
    ],
)
def test_only_the_rows_of_the_type_and_the_place_are_cited(
    cable: str, leg: dict[str, Any], raceway: str, rows: tuple[str, ...]
) -> None:
    """NM is no matter of the MC or UF articles."""
    (line,) = lines(laid(cable, leg, raceway), WET, CABLE)
    assert line.answer.rows == rows


@pytest.mark.parametrize(("marked", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_a_burial_assembly_inside_needs_a_second_marking(marked: bool | None, expected: str) -> None:
    """As building wire: usual, not certain."""
    more = {} if marked is None else {"building-wire": marked}
    patch = {"carries": {"studio": {"cable": "MHF 2-2-4-6 Al", **more}}, "legs": [{"on": "inside wall"}]}
    assert outcome(reviewed_example("pottery-studio", {"routes": {"yard": patch}}), INSIDE, CABLE) == expected


def test_an_underground_raceway_is_named_as_people_say_it() -> None:
    """With the article that its first letter takes."""
    (line,) = lines(laid("NM-B 12/2", BURIED, PVC), WET, CABLE)
    assert line.answer.needs == "a type for an underground raceway"


@pytest.mark.parametrize(
    "leg", [{"in": "joist bays"}, {"on": "inside wall"}, {"through": "wall"}, {"in": "garage", "location": "dry"}]
)
def test_dry_places(leg: dict[str, Any]) -> None:
    """Nothing is asked where it is dry."""
    assert outcome(laid("NM-B 12/2", leg), WET, CABLE) == "does not apply"


@pytest.mark.parametrize(
    "leg", [{"in": "attic", "location": "damp"}, {"through": "foundation"}, {"rise": "2 ft"}, {"overhead": "yard"}]
)
def test_damp_and_wet_places(leg: dict[str, Any]) -> None:
    """NM has no business in any of them."""
    assert outcome(laid("NM-B 12/2", leg), WET, CABLE) == "not met"


def test_the_location_is_asked_for_only_where_it_matters() -> None:
    """UF may lie anywhere; an outside wall is wrong for NM whether damp or wet; a basement may be dry."""
    assert outcome(laid("UF-B 12/2", {"in": "basement"}), WET, CABLE) == "met"
    assert outcome(laid("NM-B 12/2", {"on": "outside wall"}), WET, CABLE) == "not met"
    assert f"{LEG}/location" in asked(laid("NM-B 12/2", {"in": "basement"}))


def test_an_unstated_cable_or_raceway() -> None:
    """What may be cable of any type is asked for; so is a raceway that decides who looks."""
    assert "/routes/yard/carries/studio/cable" in asked(laid(None, ON_WALL))
    assert outcome(laid("UF-B 12/2", BURIED, None), WET, CABLE) == "met"
    (line,) = lines(laid("NM-B 12/2", BURIED, None), WET, CABLE)
    assert (line.answer.outcome.value, line.place) == ("cannot tell", "/routes/yard/raceway")


def test_service_cable_is_exchanged_for_an_assembly() -> None:
    """Cables written size by size are not offered as UF."""
    (line,) = lines(laid("USE-2 2-2-4 Al", {"in": "joist bays"}), INSIDE, CABLE)
    assert [way.patch[0]["value"] for way in line.answer.proposals] == ["SER 2-2-4 Al"]


@pytest.mark.parametrize(
    ("cable", "expected"),
    [
        ("USE 2-2-4 Al", "not met"),
        ("USE-2 2-2-4 Al", "not met"),
        ("SER 2-2-2-4 Al", "met"),
        ("UF-B 12/2", "met"),
        ("NM-B 12/2", "met"),
        ("cord 12/3", "does not apply"),
        (None, "cannot tell"),
    ],
)
@pytest.mark.parametrize("leg", [{"in": "crawl space", "location": "dry"}, {"on": "ceiling"}, {"on": "inside wall"}])
def test_cable_inside(cable: str | None, expected: str, leg: dict[str, Any]) -> None:
    """USE is for the ground."""
    assert outcome(laid(cable, leg), INSIDE, CABLE) == expected


@pytest.mark.parametrize("leg", [ON_WALL, BURIED, {"rise": "2 ft"}, {"through": "wall"}])
def test_cable_not_inside(leg: dict[str, Any]) -> None:
    """Outdoors and through a wall USE is no matter of this rule."""
    assert outcome(laid("USE-2 2-2-4 Al", leg), INSIDE, CABLE) == "does not apply"


@pytest.mark.parametrize(
    ("letters", "expected"),
    [("USE-2", "not met"), ("USE", "not met"), ("RHH/RHW-2/USE-2", "met"), ("THHN", "met"), (None, "cannot tell")],
)
def test_wires_inside(letters: str | None, expected: str) -> None:
    """A second marking as building wire makes USE wire fit for use inside."""
    wires = {"hot": f"12 AWG Cu {letters}" if letters else None}
    of = reviewed_example("joinery-workshop", {"routes": {"bench": {"carries": {"bench-outlets": {"wires": wires}}}}})
    assert outcome(of, INSIDE, "/routes/bench/carries/bench-outlets") == expected


def workshop(use: str, farm: bool | None = None, premises: str | None = "one-family dwelling") -> Review:
    """The joinery workshop as another building."""
    conditions = {} if farm is None else {"farm-conditions": farm}
    patch = {"site": {"premises": premises}, "structures": {"workshop": {"use": use, **conditions}}}
    return reviewed_example("joinery-workshop", patch)


@pytest.mark.parametrize(
    ("use", "farm", "premises", "expected"),
    [
        ("accessory", None, "one-family dwelling", "met"),
        ("garage", None, "two-family dwelling", "met"),
        ("accessory", True, "one-family dwelling", "met"),
        ("agricultural", True, "one-family dwelling", "not met"),
        ("agricultural", True, "agricultural", "not met"),
        ("agricultural", False, "one-family dwelling", "met"),
        ("agricultural", False, "agricultural", "cannot tell"),
        ("agricultural", None, "one-family dwelling", "cannot tell"),
        ("commercial", None, "one-family dwelling", "cannot tell"),
        ("accessory", None, "multifamily dwelling", "cannot tell"),
        ("accessory", None, "commercial", "cannot tell"),
        ("accessory", None, None, "cannot tell"),
    ],
)
def test_nm_by_building(use: str, farm: bool | None, premises: str | None, expected: str) -> None:
    """At home it may be, in a farm building it may not, elsewhere the authority is asked."""
    assert outcome(workshop(use, farm, premises), NM, "/routes/lighting/carries/lights") == expected


def test_what_is_asked_of_an_agricultural_building() -> None:
    """Whether the farm article holds there."""
    assert "/structures/workshop/farm-conditions" in asked(workshop("agricultural"))


def test_nm_only() -> None:
    """Other cable, wires and places outside are no matter of this rule."""
    assert outcome(laid("UF-B 12/2", {"in": "joist bays"}), NM, CABLE) == "does not apply"
    assert outcome(laid("NM-B 12/2", ON_WALL), NM, CABLE) == "does not apply"
    assert outcome(reviewed_example("joinery-workshop"), NM, "/routes/bench/carries/bench-outlets") == "does not apply"


@pytest.mark.parametrize(
    ("cable", "messenger", "expected"),
    [
        ("UF-B 12/2", True, "met"),
        ("UF-B 12/2", False, "not met"),
        ("UF-B 12/2", None, "cannot tell"),
        ("SER 2-2-2-4 Al", False, "does not apply"),
        (None, True, "met"),
        (None, False, "cannot tell"),
    ],
)
def test_a_span(cable: str | None, messenger: bool | None, expected: str) -> None:
    """UF hangs on a messenger wire."""
    leg = {"overhead": "yard"} | ({} if messenger is None else {"messenger": messenger})
    assert outcome(laid(cable, leg), SPAN, LEG) == expected


def test_every_cable_has_every_place() -> None:
    """No lookup can miss: cord has a topic of its own, and service-entrance cable below ground too."""
    keys = set(library().book().tables["cable-uses"].cells)
    places = {place for _, place in keys}
    assert keys == {
        (cable, place)
        for cable in CABLE_TYPES
        if cable != "cord"
        for place in places
        if not (cable in ("SE", "SER", "SEU") and place == "underground raceway")
    }
