"""Ground-fault devices within reach, and their tests on site."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import example, outcome, reviewed, reviewed_example

DEVICE = "/a-device-within-reach"
BREAKER = "/a-breaker-within-reach"
TERRACE = "/boxes/terrace-box/devices/terrace-outlet"


def terrace(**facts: Any) -> Review:
    """The pottery studio with other facts of the receptacle that protects it."""
    return reviewed_example("pottery-studio", {"boxes": {"terrace-box": {"devices": {"terrace-outlet": facts}}}})


def pump(breaker: dict[str, Any], panel: bool | None = None) -> Review:
    """The orchard pump with other facts of its breaker and panel."""
    panels = {} if panel is None else {"farmhouse-panel": {"readily-accessible": panel}}
    return reviewed_example("orchard-pump", {"panels": panels, "circuits": {"pump": {"breaker": breaker}}})


@pytest.mark.parametrize(("reach", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_a_receptacle(reach: bool | None, expected: str) -> None:
    """Within reach, out of reach, and not said."""
    assert outcome(terrace(**{"readily-accessible": reach}), DEVICE, TERRACE) == expected


@pytest.mark.parametrize(("reach", "expected"), [(True, "met"), (False, "not met"), (None, "cannot tell")])
def test_a_device_without_a_receptacle(reach: bool | None, expected: str) -> None:
    """The same for a dead-front device; one for equipment is not looked at."""
    guard = {"ground-fault-device": "20 A", "trip": "class A", "readily-accessible": reach}
    place = "/boxes/terrace-box/devices/guard"
    for trip, answer in (("class A", expected), ("equipment", "does not apply"), (None, "does not apply")):
        device = {key: value for key, value in {**guard, "trip": trip}.items() if value is not None}
        of = reviewed_example("pottery-studio", {"boxes": {"terrace-box": {"devices": {"guard": device}}}})
        assert outcome(of, DEVICE, place) == answer


@pytest.mark.parametrize("ground_fault", [False, None])
def test_a_receptacle_not_said_to_be_class_a(ground_fault: bool | None) -> None:
    """Not asked here: where an outlet hangs on it, the rule on that outlet asks."""
    assert (
        outcome(terrace(**{"ground-fault": ground_fault, "readily-accessible": None}), DEVICE, TERRACE)
        == "does not apply"
    )


@pytest.mark.parametrize(("reach", "expected"), [(True, "does not apply"), (False, "not met"), (None, "not met")])
def test_another_device_ahead(reach: bool | None, expected: str) -> None:
    """A spare device may be out of reach where a class A breaker that protects the same can be reached."""
    patch = {
        "circuits": {"studio": {"breaker": {"ground-fault": "class A", "readily-accessible": reach}}},
        "boxes": {"terrace-box": {"devices": {"terrace-outlet": {"readily-accessible": False}}}},
    }
    assert outcome(reviewed_example("pottery-studio", patch), DEVICE, TERRACE) == expected


@pytest.mark.parametrize(
    ("own", "panel", "expected"),
    [
        (True, None, "met"),
        (False, None, "not met"),
        (None, None, "cannot tell"),
        (None, True, "met"),
        (False, True, "not met"),
        (True, False, "not met"),
        (None, False, "not met"),
    ],
)
def test_a_breaker(own: bool | None, panel: bool | None, expected: str) -> None:
    """What is said of a panel holds for its breakers; a panel out of reach has none within."""
    assert outcome(pump({"readily-accessible": own}, panel), BREAKER, "/circuits/pump") == expected


@pytest.mark.parametrize("level", ["none", "equipment", None])
def test_a_breaker_that_is_not_class_a(level: str | None) -> None:
    """Nothing to test for people."""
    assert (
        outcome(pump({"ground-fault": level, "readily-accessible": None}), BREAKER, "/circuits/pump")
        == "does not apply"
    )


class TestInspection:
    """The inspection list names what must go dead."""

    def says(self, of: Review) -> dict[str, str]:
        """The entries on ground-fault tests, by subject."""
        return {item.subject: item.says for item in of.inspect if "/test-of-a-" in item.item.id}

    def test_a_receptacle_ahead(self) -> None:
        """The outlets and lights behind it, not the switch, which no one uses power at."""
        says = self.says(reviewed_example("pottery-studio"))
        assert list(says) == [TERRACE]
        assert "these are dead: bench-outlet in entry-box." in says[TERRACE]
        assert "lights go out with it: lamp in ceiling-box." in says[TERRACE]

    def test_breakers(self) -> None:
        """Each class A breaker with its own outlets."""
        says = self.says(reviewed_example("joinery-workshop"))
        assert list(says) == ["/circuits/bench-outlets", "/circuits/planer"]
        assert "these are dead: bench-outlet in bench-box, porch-outlet in yard-box." in says["/circuits/bench-outlets"]

    def test_a_feeder(self) -> None:
        """Everything behind the panel, through its branch circuits."""
        of = reviewed_example(
            "joinery-workshop", {"circuits": {"workshop-feeder": {"breaker": {"ground-fault": "class A"}}}}
        )
        says = self.says(of)["/circuits/workshop-feeder"]
        assert "bench-outlet in bench-box, porch-outlet in yard-box, planer-outlet in planer-box" in says
        assert "porch-lamp in porch-light-box" in says

    def test_a_receptacle_that_does_not_feed_on(self) -> None:
        """Only itself."""
        says = self.says(terrace(**{"protects-downstream": False}))[TERRACE]
        assert "dead" not in says and "lights" not in says

    def test_what_another_device_protects(self) -> None:
        """What the breaker protects is not said to go dead by a receptacle that does not feed on."""
        data = example("pottery-studio", {"circuits": {"studio": {"breaker": {"ground-fault": "class A"}}}})
        data["boxes"]["terrace-box"]["devices"]["terrace-outlet"]["protects-downstream"] = False
        says = self.says(reviewed(data))
        assert "dead" not in says[TERRACE]
        assert "terrace-outlet in terrace-box, bench-outlet in entry-box" in says["/circuits/studio"]

    def test_what_is_not_said_to_be_class_a(self) -> None:
        """No test is invented for a device of which the plan does not say what it is."""
        assert not self.says(pump({"ground-fault": None}))
        assert not self.says(pump({"ground-fault": "equipment"}))
