"""Insulation of individual wires in damp and wet places."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan.conductors import INSULATIONS
from precover.reviewing import Review
from support.reviews import asked, library, lines, outcome, reviewed_example

RULE = "/wires-where-it-is-damp-or-wet"
LAWN = "/routes/yard/legs/2"
FEEDER = "/routes/yard/carries/workshop-feeder"
WET = ["MTW", "RHW", "RHW-2", "TW", "THW", "THW-2", "THHW", "THWN", "THWN-2", "XHHW", "XHHW-2", "ZW"]
"""Answer (b) of the published question in `test_published_list`."""


def yard(wires: dict[str, Any], legs: list[Any] | None = None) -> Review:
    """The joinery workshop with other wires in its underground raceway."""
    route: dict[str, Any] = {"carries": {"workshop-feeder": {"wires": wires}}}
    if legs is not None:
        route["legs"] = legs
    return reviewed_example("joinery-workshop", {"routes": {"yard": route}})


def hot(letters: str) -> dict[str, str]:
    """Other insulation on the hots."""
    return {"hot": f"2 × 6 AWG Cu {letters}"}


@pytest.mark.parametrize("letters", [*WET, "THHN/THWN-2", "RHH/RHW-2", "RHH/RHW-2/USE-2", "USE", "USE-2", "UF"])
def test_made_for_wet_places(letters: str) -> None:
    """In the earth and rising out of it."""
    of = yard(hot(letters))
    assert outcome(of, RULE, FEEDER) == "met"


@pytest.mark.parametrize("letters", ["THHN", "XHH", "RHH", "TBS", "SA", "bare"])
def test_not_made_for_wet_places(letters: str) -> None:
    """Nor is a bare hot."""
    of = yard(hot(letters))
    assert outcome(of, RULE, FEEDER) == "not met"


def test_published_list() -> None:
    """EC&M Code Q&A: insulated conductors and cables in wet locations (2025, on the 2023 edition):
    https://www.ecmweb.com/national-electrical-code/qa/article/55298684/code-qa-insulated-conductors-and-cables-in-wet-locations
    names these types; XHWN and XHWN-2 too, which the plan language does not know."""
    table = library().book().tables["insulation-uses"]
    assert all(table[letters, "wet"].value for letters in WET)
    assert not any(table[letters, "wet"].value for letters in ("THHN", "XHH", "RHH", "TBS", "SA"))


def test_published_class_of_the_inside_of_an_underground_raceway() -> None:
    """Code quiz on article 300, part 2: https://www.codebookcity.com/necquiz/necquiza/quizneca300-02.htm
    the inside of enclosures and raceways underground is a wet location."""
    (line,) = lines(yard(hot("THHN")), RULE, FEEDER)
    assert line.answer.needs == "insulation for wet places"
    assert ("the inside of an underground raceway is a wet place", LAWN) in line.steps


def test_letters_that_stand_for_90_degrees() -> None:
    """HH and the ending -2 say so (trade convention); four more types do without such letters (from memory)."""
    cells = library().book().tables["insulation-uses"].cells
    hot = {letters for (letters, use), cell in cells.items() if use == "90 °C in a dry place" and cell.value}
    said = {letters for letters in INSULATIONS if "HH" in letters or letters.endswith("-2")}
    assert hot == said | {"MTW", "TBS", "SA", "ZW"}


def test_every_insulation_has_every_use() -> None:
    """No lookup can miss."""
    keys = set(library().book().tables["insulation-uses"].cells)
    uses = {use for _, use in keys}
    assert keys == {(letters, use) for letters in INSULATIONS if letters != "bare" for use in uses}


@pytest.mark.parametrize(
    ("leg", "letters", "expected"),
    [
        ({"on": "outside wall", "location": "wet"}, "THHN", "not met"),
        ({"on": "outside wall", "location": "damp"}, "THHN", "met"),
        ({"on": "outside wall", "location": "damp"}, "TBS", "not met"),
        ({"on": "outside wall", "location": "dry"}, "TBS", "not met"),
        ({"on": "inside wall"}, "TBS", "does not apply"),
        ({"in": "crawl space", "location": "damp"}, "THHN", "met"),
        ({"through": "wall"}, "THHN", "does not apply"),
        ({"through": "foundation"}, "THHN", "not met"),
        ({"overhead": "yard"}, "THHN", "not met"),
        ({"overhead": "yard"}, "XHHW-2", "met"),
        ({"buried": "lawn", "raceway": "none"}, "THHN", "does not apply"),
        ({"buried": "lawn", "raceway": "plumbing pipe 1 in"}, "THHN", "not met"),
    ],
)
def test_other_places(leg: dict[str, Any], letters: str, expected: str) -> None:
    """Above grade it is what the leg says; what lies in the earth itself is looked at elsewhere."""
    assert outcome(yard(hot(letters), [leg]), RULE, FEEDER) == expected


@pytest.mark.parametrize("key", ["hot", "neutral", "ground"])
def test_each_wire_counts(key: str) -> None:
    """One unfit wire is enough, and only it is named and changed."""
    (line,) = lines(yard({key: "6 AWG Al THHN"}), RULE, FEEDER)
    assert (line.answer.outcome.value, line.answer.has) == ("not met", f"{key} THHN")
    (way,) = line.answer.proposals
    path = f"/routes/yard/carries/workshop-feeder/wires/{key}"
    assert way.patch == ({"op": "add", "path": path, "value": "6 AWG Al XHHW-2"},)


def test_copper_is_changed_for_copper() -> None:
    """The count, size and metal stay."""
    (line,) = lines(yard(hot("THHN")), RULE, FEEDER)
    assert line.answer.proposals[0].patch[0]["value"] == "2 × 6 AWG Cu THWN-2"


def test_a_bare_grounding_conductor_is_fine_and_a_bare_neutral_is_not() -> None:
    """In the air a bare neutral is the messenger."""
    assert outcome(yard({"ground": "10 AWG Cu bare"}), RULE, FEEDER) == "met"
    assert outcome(yard({"neutral": "6 AWG Cu bare"}), RULE, FEEDER) == "not met"
    assert outcome(yard({"neutral": "6 AWG Al bare"}, [{"overhead": "yard"}]), RULE, FEEDER) == "met"


def test_the_hot_is_asked_for() -> None:
    """Neutral and grounding conductor are not there unless they are listed."""
    (line,) = lines(yard({"hot": None}), RULE, FEEDER)
    assert line.place == "/routes/yard/carries/workshop-feeder/wires/hot"
    assert outcome(yard({"neutral": None, "ground": None}), RULE, FEEDER) == "met"


def test_nothing_is_asked_where_a_stated_wire_decides() -> None:
    """An unfit neutral is unfit whatever the hot is."""
    assert outcome(yard({"hot": None, "neutral": "6 AWG Cu THHN"}), RULE, FEEDER) == "not met"


def test_the_location_is_asked_for_only_where_it_matters() -> None:
    """THWN-2 may lie anywhere, THHN not where it is wet."""
    leg = [{"on": "floor"}]
    assert outcome(yard({}, leg), RULE, FEEDER) == "met"
    (line,) = lines(yard(hot("THHN"), leg), RULE, FEEDER)
    assert (line.answer.outcome.value, line.place) == ("cannot tell", "/routes/yard/legs/0/location")


def test_an_outside_wall_without_a_location() -> None:
    """Damp or wet: THHN is asked about, TBS is wrong either way."""
    leg = [{"on": "outside wall"}]
    assert "/routes/yard/legs/0/location" in asked(yard(hot("THHN"), leg))
    assert outcome(yard(hot("TBS"), leg), RULE, FEEDER) == "not met"


def test_cable_is_another_topic() -> None:
    """A passage takes after its neighbours, and cable has types, not letters."""
    assert outcome(reviewed_example("pottery-studio"), RULE, "/routes/yard/carries/studio") == "does not apply"


def test_one_finding_for_wires_that_are_pulled_once() -> None:
    """Legs 1, 3, 4 and 6 are wet; the passage and the bends are not looked at."""
    of = yard(hot("THHN"))
    found = [finding for finding in of.findings if finding.line.rule.id.endswith(RULE)]
    assert [(finding.line.subject, finding.line.answer.why) for finding in found] == [
        (FEEDER, "in legs 1, 3, 4 and 6"),
    ]


def test_wires_that_are_wrong_in_different_legs_are_changed_together() -> None:
    """TBS may not be damp, THHN may not be wet."""
    legs = [{"on": "outside wall", "location": "damp"}, {"on": "outside wall", "location": "wet"}]
    (line,) = lines(yard({"hot": "2 × 6 AWG Cu TBS", "neutral": "6 AWG Cu THHN"}, legs), RULE, FEEDER)
    assert (line.answer.has, line.answer.needs) == ("hot TBS, neutral THHN", "insulation for wet places")
    assert [step["value"] for step in line.answer.proposals[0].patch] == ["2 × 6 AWG Cu THWN-2", "6 AWG Cu THWN-2"]


def test_only_the_rows_that_decided_are_cited() -> None:
    """The letters, and the inside of this raceway."""
    (line,) = lines(yard(hot("THHN"), [{"buried": "lawn"}]), RULE, FEEDER)
    assert line.answer.rows == ("wet-insulation-letters", "wet-inside-underground")
