"""Ground-fault protection of receptacles: every place, every limit, every way to be protected."""

from __future__ import annotations

from typing import Any, ClassVar

import pytest

from precover.reviewing import Review
from precover.rulebook import Severity
from support.receptacles import BENCH, PLANER, POST, RULE, line, studio
from support.reviews import example, merged, outcome, reviewed, reviewed_example


@pytest.mark.parametrize(
    ("area", "location", "expected"),
    [
        ("outdoors", "wet", "not met"),
        ("ground", "wet", "not met"),
        ("garage", "dry", "not met"),
        ("basement", "dry", "not met"),
        ("crawl space", "dry", "not met"),
        ("kitchen", "dry", "not met"),
        ("laundry", "dry", "not met"),
        ("bathroom", "dry", "not met"),
        ("indoors", "damp", "not met"),
        ("indoors", "wet", "not met"),
        ("indoors", "dry", "does not apply"),
        ("closet", "dry", "does not apply"),
        ("attic", "dry", "does not apply"),
    ],
)
def test_places_in_a_building_to_live_in(area: str, location: str, expected: str) -> None:
    """In a habitable building only the listed places count."""
    of = studio(structure={"habitable": True}, box={"area": area, "location": location})
    assert outcome(of, RULE, BENCH) == expected


@pytest.mark.parametrize("area", ["indoors", "closet", "attic", "garage"])
@pytest.mark.parametrize("use", ["accessory", "garage"])
def test_the_whole_of_an_outbuilding_counts(use: str, area: str) -> None:
    """A dry corner of a shed or garage at grade is a storage or work place."""
    assert outcome(studio(structure={"use": use}, box={"area": area}), RULE, BENCH) == "not met"


def test_a_danger_that_names_place_and_hazard() -> None:
    """No protection in a listed place is a danger, and the derivation has the place."""
    of = studio()
    found = next(
        finding for finding in of.findings if finding.line.subject == BENCH and finding.line.rule.id.endswith(RULE)
    )
    assert found.severity is Severity.DANGER
    assert found.line.answer.has == "none"
    assert found.line.steps == (("accessory building, floor at or below grade", "/boxes/entry-box"),)
    assert [(cell.table, cell.text) for cell in found.line.cells if cell.table == "ground-fault-places"] == [
        ("ground-fault-places", "yes")
    ]
    assert of.book.hazard(found.line.rule) == "shock"


@pytest.mark.parametrize(
    ("distance", "expected"),
    [
        ("0 in", "not met"),
        ("5 ft 11 in", "not met"),
        ("6 ft", "not met"),
        ("6 ft 1 in", "does not apply"),
        ("1.79 m", "not met"),
        ("1.8 m", "not met"),
        ("1.81 m", "does not apply"),
    ],
)
def test_distance_to_a_sink(distance: str, expected: str) -> None:
    """A utility sink within 6 ft (1.8 m) counts anywhere."""
    of = studio(structure={"habitable": True}, bench={"sink-distance": distance})
    assert outcome(of, RULE, BENCH) == expected


@pytest.mark.parametrize(
    ("volts", "expected"),
    [
        ("120 V", "not met"),
        ("125 V", "not met"),
        ("250 V", "not met"),
        ("251 V", "does not apply"),
        ("277 V", "does not apply"),
    ],
)
def test_rating_of_the_receptacle(volts: str, expected: str) -> None:
    """Up to 250 V; a rating written as the nominal 120 V is no loophole."""
    assert outcome(studio(bench={"voltage": volts}), RULE, BENCH) == expected


@pytest.mark.parametrize(
    ("circuit", "expected"),
    [
        ("120 V", "not met"),
        ("120/240 V", "not met"),
        ("150 V", "not met"),
        ("151 V", "does not apply"),
        ("277/480 V", "does not apply"),
    ],
)
def test_voltage_of_the_circuit_to_ground(circuit: str, expected: str) -> None:
    """Up to 150 V to ground."""
    patch = {
        "circuits": {"studio": {"voltage": circuit}},
        "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"ground-fault": False}}}},
    }
    assert outcome(reviewed_example("pottery-studio", patch), RULE, BENCH) == expected


def test_a_rating_left_out_is_taken_from_the_circuit() -> None:
    """The circuit's voltage settles what the receptacle is made for; only if that is missing too is it asked for."""
    assert outcome(studio(bench={"voltage": None}), RULE, BENCH) == "not met"
    above = {
        "circuits": {"studio": {"voltage": "277/480 V"}},
        "boxes": {"entry-box": {"devices": {"bench-outlet": {"voltage": None}}}},
    }
    assert outcome(reviewed_example("pottery-studio", above), RULE, BENCH) == "does not apply"


@pytest.mark.parametrize("amps", ["15 A", "30 A", "50 A", "60 A"])
def test_no_limit_of_current(amps: str) -> None:
    """Since 2020 the rating in amperes makes no difference."""
    patch = {
        "circuits": {"planer": {"breaker": {"ground-fault": "none"}}},
        "boxes": {"planer-box": {"devices": {"planer-outlet": {"receptacle": amps}}}},
    }
    assert outcome(reviewed_example("joinery-workshop", patch), RULE, PLANER) == "not met"


@pytest.mark.parametrize("serves", ["freezer", "door opener", "battery charger"])
def test_no_appliance_is_excepted(serves: str) -> None:
    """What plugs in makes no difference, and neither does a locking receptacle."""
    assert outcome(studio(bench={"serves": serves, "locking": True}), RULE, BENCH) == "not met"


@pytest.mark.parametrize("premises", ["commercial", "agricultural"])
def test_other_premises_are_left_to_the_authority(premises: str) -> None:
    """The list for dwellings says nothing about them, so no protection is a question, never silence."""
    bare = {
        "site": {"premises": premises},
        "circuits": {"pump": {"breaker": {"ground-fault": "none"}}},
        "boxes": {"post-box": {"devices": {"outlet": {"ground-fault": False}}}},
    }
    of = reviewed_example("orchard-pump", bare)
    assert outcome(of, RULE, POST) == "cannot tell"
    assert "authority" in line(of, POST).answer.why or "list of their own" in line(of, POST).answer.why
    at_the_house = merged(bare, {"boxes": {"post-box": {"at": "farmhouse"}}})
    assert outcome(reviewed_example("orchard-pump", at_the_house), RULE, POST) == "not met"
    assert outcome(reviewed_example("orchard-pump", {"site": {"premises": premises}}), RULE, POST) == "met"


@pytest.mark.parametrize("premises", ["one-family dwelling", "two-family dwelling", "multifamily dwelling"])
def test_a_barn_of_a_dwelling_is_left_to_the_authority(premises: str) -> None:
    """Whether a farm building is one of the dwelling's is not for a plan to say."""
    data = example(
        "pottery-studio", {"site": {"premises": premises}, "structures": {"studio": {"use": "agricultural"}}}
    )
    data["boxes"]["terrace-box"]["devices"]["terrace-outlet"]["protects-downstream"] = False
    assert outcome(reviewed(data), RULE, BENCH) == "cannot tell"
    data["structures"]["studio"]["use"] = "accessory"
    assert outcome(reviewed(data), RULE, BENCH) == "not met"


class TestDeicing:
    """The one exception outdoors, which a plan must claim."""

    HEAT: ClassVar[dict[str, Any]] = {"deicing": True, "ground-fault": False, "readily-accessible": False}

    def post(
        self, *, circuit: dict[str, Any] | None = None, other: dict[str, Any] | None = None, **heat: Any
    ) -> Review:
        """The orchard post with a de-icing receptacle on a circuit without protection."""
        devices = {"outlet": {**self.HEAT, **heat}, **({"other": other} if other else {})}
        return reviewed_example(
            "orchard-pump",
            {
                "circuits": {"pump": {"breaker": {"ground-fault": "none"}, **(circuit or {})}},
                "boxes": {"post-box": {"devices": devices}},
            },
        )

    def test_all_conditions_hold(self) -> None:
        """Out of reach, alone on its circuit."""
        of = self.post()
        assert outcome(of, RULE, POST) == "does not apply"
        assert "de-icing" in line(of, POST).answer.why

    def test_not_claimed(self) -> None:
        """The plan must say so."""
        assert outcome(self.post(deicing=False), RULE, POST) == "not met"
        assert outcome(self.post(deicing=None), RULE, POST) == "not met"

    def test_within_reach(self) -> None:
        """Within reach anything can be plugged in."""
        assert outcome(self.post(**{"readily-accessible": True}), RULE, POST) == "not met"
        assert line(self.post(**{"readily-accessible": None}), POST).place == f"{POST}/readily-accessible"

    def test_not_alone_on_the_circuit(self) -> None:
        """A lamp on the circuit ends the exception; another such receptacle does not."""
        assert outcome(self.post(other={"luminaire": "20 W"}), RULE, POST) == "not met"
        assert outcome(self.post(other={"receptacle": "20 A", **self.HEAT}), RULE, POST) == "does not apply"
        assert outcome(self.post(other={"switch": "20 A"}), RULE, POST) == "does not apply"
        guard = {"ground-fault-device": "20 A", "trip": "equipment"}
        assert outcome(self.post(other=guard), RULE, POST) == "does not apply"


def test_a_low_voltage_circuit() -> None:
    """A receptacle on a low-voltage circuit is not in the list."""
    data = example("orchard-pump", {"circuits": {"pump": {"kind": "low-voltage", "voltage": "12 V"}}})
    assert outcome(reviewed(data), RULE, POST) == "does not apply"
