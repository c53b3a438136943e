"""Ratings of circuits, receptacles, switches and poles, motors' disconnects, fault currents, and wire too small."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, lines, outcome, reviewed_example

PLANER, BENCH, LIGHTS, STUDIO = "/circuits/planer", "/circuits/bench-outlets", "/circuits/lights", "/circuits/studio"


def workshop(circuits: dict[str, Any] | None = None, **boxes: Any) -> Review:
    """The workshop with other facts of circuits, and of devices by box."""
    devices = {name.replace("_", "-"): {"devices": of} for name, of in boxes.items()}
    return reviewed_example("joinery-workshop", {"circuits": circuits or {}, "boxes": devices})


def machine(device: dict[str, Any], **breaker: Any) -> Review:
    """The planer's box with one device of another kind, and no receptacle."""
    return workshop({"planer": {"breaker": breaker}}, planer_box={"planer-outlet": None, "machine": device})


def inspected(of: Review, name: str) -> list[str]:
    """What the inspection list says under one name."""
    return [entry.says for entry in of.inspect if entry.item.id.endswith(name)]


@pytest.mark.parametrize(
    ("poles", "tied", "expected"),
    [
        (2, True, "met"),
        (2, False, "not met"),
        (1, True, "not met"),
        (None, True, "cannot tell"),
        (2, None, "cannot tell"),
    ],
)
def test_two_poles(poles: int | None, tied: bool | None, expected: str) -> None:
    """For the planer; the lights have one hot."""
    of = workshop({"planer": {"breaker": {"poles": poles, "common-trip": tied}}})
    assert outcome(of, "poles/two-poles-for-two-hots", PLANER) == expected
    assert outcome(of, "poles/two-poles-for-two-hots", LIGHTS) == "does not apply"


@pytest.mark.parametrize(
    ("cable", "expected"),
    [
        ("NM-B 16/2", "not met"),
        ("NM-B 14/2", "met"),
        ("SER 14-14-14 Al", "not met"),
        ("SER 12-12-12 Al", "met"),
        (None, "met"),
    ],
)
def test_smallest_wire(cable: str | None, expected: str) -> None:
    """14 AWG copper, 12 AWG aluminum; one cable of three not stated leaves the others to look at."""
    of = reviewed_example("pottery-studio", {"routes": {"ceiling": {"carries": {"studio": {"cable": cable}}}}})
    assert outcome(of, "wire-kinds/smallest-wire", STUDIO) == expected


def test_a_thin_neutral() -> None:
    """It carries current too."""
    wires = {"wires": {"neutral": "16 AWG Cu THHN"}}
    of = reviewed_example("joinery-workshop", {"routes": {"bench": {"carries": {"bench-outlets": wires}}}})
    (line,) = lines(of, "wire-kinds/smallest-wire", BENCH)
    assert (line.answer.outcome.value, line.place) == ("not met", "/routes/bench/carries/bench-outlets/wires/neutral")


def test_aluminum_and_copper_are_for_the_inspector() -> None:
    """With the words for branch circuits and for feeders."""
    of = reviewed_example(
        "pottery-studio", {"routes": {"ceiling": {"carries": {"studio": {"cable": "SER 10-10-10 Al"}}}}}
    )
    assert "CO/ALR" in inspected(of, "aluminum-terminals")[0]
    assert inspected(of, "copper-meets-aluminum")
    assert not inspected(reviewed_example("pottery-studio"), "copper-meets-aluminum")
    assert inspected(reviewed_example("joinery-workshop"), "stranded-wire") == [
        "Wires of 8 AWG and larger are stranded (garage-run, yard)."
    ]


@pytest.mark.parametrize(
    ("rating", "expected"),
    [("10 A", "not met"), ("15 A", "met"), ("20 A", "met"), ("25 A", "does not apply"), (None, "cannot tell")],
)
def test_ratings_with_receptacles(rating: str | None, expected: str) -> None:
    """10 A has none; at 25 A the breaker is too large for the 12 AWG, which is told elsewhere."""
    of = workshop({"bench-outlets": {"breaker": {"rating": rating}}})
    assert outcome(of, "branch-ratings/rating-of-a-branch-circuit", BENCH) == expected


@pytest.mark.parametrize(("rating", "expected"), [("10 A", "met"), ("12 A", "not met"), ("15 A", "met")])
def test_ratings_with_lights(rating: str, expected: str) -> None:
    """Two lamps on 10 A may be."""
    of = workshop({"lights": {"breaker": {"rating": rating}}}, switch_box={"lamp": {"luminaire": "9 W"}})
    assert outcome(of, "branch-ratings/rating-of-a-branch-circuit", LIGHTS) == expected


def test_a_single_outlet_may_have_any_rating() -> None:
    """A kiln on 45 A."""
    kiln = {"equipment": "kiln", "load": "5 kW", "continuous": False, "hardwired": True}
    assert (
        outcome(machine(kiln, rating="45 A"), "branch-ratings/rating-of-a-branch-circuit", PLANER) == "does not apply"
    )


@pytest.mark.parametrize(("power", "expected"), [("1200 W", "met"), ("1201 W", "not met")])
def test_fixed_equipment_takes_half(power: str, expected: str) -> None:
    """10 A of 20 A beside receptacles."""
    of = workshop(bench_box={"warmer": {"heater": power, "hardwired": True}})
    assert outcome(of, "branch-ratings/fixed-equipment-beside-other-outlets", BENCH) == expected


def test_only_what_is_fastened_in_place_counts_there() -> None:
    """What is plugged in does not, and unknown equipment is asked about."""
    rule = "branch-ratings/fixed-equipment-beside-other-outlets"
    assert (
        outcome(workshop(bench_box={"glue": {"equipment": "press", "hardwired": False}}), rule, BENCH)
        == "does not apply"
    )
    of = workshop(bench_box={"glue": {"equipment": "press", "hardwired": True}})
    assert outcome(of, rule, BENCH) == "cannot tell"


@pytest.mark.parametrize(
    ("receptacle", "single", "expected"),
    [
        ("30 A", None, "met"),
        ("50 A", None, "met"),
        ("20 A", True, "not met"),
        ("20 A", False, "not met"),
        ("20 A", None, "not met"),
    ],
)
def test_a_lone_receptacle_on_30_a(receptacle: str, single: bool | None, expected: str) -> None:
    """Whether it is single does not matter here, and is not asked."""
    of = workshop(planer_box={"planer-outlet": {"receptacle": receptacle, "single": single}})
    assert (
        outcome(of, "receptacle-ratings/receptacle-for-its-circuit", "/boxes/planer-box/devices/planer-outlet")
        == expected
    )


@pytest.mark.parametrize(("single", "expected"), [(True, "not met"), (False, "met"), (None, "cannot tell")])
def test_a_lone_15_a_receptacle_on_20_a(single: bool | None, expected: str) -> None:
    """A duplex counts as two, and 15 A is enough for it."""
    patch = {"boxes": {"post-box": {"devices": {"outlet": {"receptacle": "15 A", "single": single}}}}}
    of = reviewed_example("orchard-pump", patch)
    assert outcome(of, "receptacle-ratings/receptacle-for-its-circuit", "/boxes/post-box/devices/outlet") == expected
    assert ("/boxes/post-box/devices/outlet/single" in asked(of)) == (expected == "cannot tell")


@pytest.mark.parametrize(("receptacle", "expected"), [("15 A", "met"), ("20 A", "met"), ("30 A", "not met")])
def test_several_receptacles_on_20_a(receptacle: str, expected: str) -> None:
    """15 or 20 A."""
    of = workshop(bench_box={"bench-outlet": {"receptacle": receptacle}})
    assert (
        outcome(of, "receptacle-ratings/receptacle-for-its-circuit", "/boxes/bench-box/devices/bench-outlet")
        == expected
    )


@pytest.mark.parametrize(
    ("load", "outlet", "expected"),
    [
        ("1920 VA", "20 A", "met"),
        ("1921 VA", "20 A", "not met"),
        ("1440 VA", "15 A", "met"),
        ("1500 VA", "15 A", "not met"),
    ],
)
def test_one_plugged_in_load(load: str, outlet: str, expected: str) -> None:
    """16 A on 20 A, 12 A at a receptacle of 15 A."""
    press = {"equipment": "press", "load": load, "hardwired": False, "continuous": False}
    of = workshop(bench_box={"bench-outlet": {"receptacle": outlet}, "press": press})
    place = "/boxes/bench-box/devices/press"
    assert outcome(of, "receptacle-ratings/load-plugged-into-a-shared-circuit", place) == expected


@pytest.mark.parametrize(
    ("use", "voltage", "expected"),
    [
        ("dwelling", "240 V", "not met"),
        ("dwelling", "120 V", "met"),
        ("dwelling", "120/240 V", "does not apply"),
        ("accessory", "240 V", "does not apply"),
    ],
)
def test_lights_in_a_dwelling(use: str, voltage: str, expected: str) -> None:
    """120 V."""
    patch = {"structures": {"studio": {"use": use}}, "circuits": {"studio": {"voltage": voltage}}}
    assert (
        outcome(reviewed_example("pottery-studio", patch), "dwelling-voltage/small-loads-in-a-dwelling", STUDIO)
        == expected
    )


@pytest.mark.parametrize(
    ("load", "expected"), [("1440 VA", "not met"), ("1441 VA", "does not apply"), (None, "cannot tell")]
)
def test_plugged_in_loads_in_a_dwelling(load: str | None, expected: str) -> None:
    """Up to 1440 VA."""
    tool = {"equipment": "tool", "load": load, "hardwired": False, "continuous": False}
    patch = {
        "structures": {"studio": {"use": "dwelling"}},
        "circuits": {"studio": {"voltage": "240 V"}},
        "boxes": {"entry-box": {"devices": {"tool": tool}}, "ceiling-box": {"devices": {"lamp": None}}},
    }
    assert (
        outcome(reviewed_example("pottery-studio", patch), "dwelling-voltage/small-loads-in-a-dwelling", STUDIO)
        == expected
    )
