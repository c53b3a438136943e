"""Voltage drop at the outlets: the two figures, the load that is taken, lengths, the ways out, what was published."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from precover.reviewing import Line, Review
from precover.rulebook import Severity
from support.reviews import asked, lines, outcome, reviewed_example

ALONE, TOGETHER = "/drop-of-one-circuit", "/drop-of-feeder-and-branch"
PUMP, FEEDER, BENCH = "/circuits/pump", "/circuits/workshop-feeder", "/circuits/bench-outlets"
WORKED = Path(__file__).parents[1] / "published" / "worked.jsonl"


def run(length: str | None, load: str | None, cable: str = "UF-B 12/2", **circuit: Any) -> Review:
    """The orchard's circuit over one buried leg."""
    leg: dict[str, Any] = {"buried": "field", "cover": "24 in"}
    if length is not None:
        leg["length"] = length
    return reviewed_example(
        "orchard-pump",
        {
            "circuits": {"pump": {"load": load} | circuit},
            "routes": {"to-pump": {"carries": {"pump": {"cable": cable}}, "legs": [leg]}},
        },
    )


def shop(**parts: Any) -> Review:
    """The joinery workshop with changes."""
    return reviewed_example("joinery-workshop", parts)


def bench(feet: int) -> dict[str, Any]:
    """The bench's wiring with another length."""
    leg = {"on": "inside wall", "length": f"{feet} ft", "location": "dry", "physical-damage": False}
    return {"routes": {"bench": {"legs": [leg]}}}


def the(review: Review, rule: str, place: str) -> Line:
    """The one line of a rule at a place."""
    (line,) = lines(review, rule, place)
    return line


def percent(line: Line) -> float:
    """The drop that a line says."""
    said = re.search(r"([0-9.]+) %", str(line.answer.has))
    assert said is not None
    return float(said[1])


@pytest.mark.parametrize(
    ("length", "expected"), [("74 ft", "met"), ("75 ft", "met"), ("75 ft 3 in", "not met"), ("200 ft", "not met")]
)
def test_three_percent_for_one_circuit(length: str, expected: str) -> None:
    """12 A over 12 AWG at 2.0 ohm for 1000 ft: 3.6 V, 3 % of 120 V, at 75 ft."""
    assert outcome(run(length, "12 A"), ALONE, PUMP) == expected


@pytest.mark.parametrize(("feet", "expected"), [(47, "met"), (48, "met"), (49, "not met")])
def test_five_percent_for_feeder_and_branch(feet: int, expected: str) -> None:
    """The planer draws 30 A, the bench 16 A: 46 A on the heavier leg and 16 A in the neutral lose 2.1 % over 83 ft of
    6 AWG; 54 ft of 12 AWG lose 2.9 %."""
    review = shop(circuits={"planer": {"load": "30 A"}}, **bench(feet))
    assert outcome(review, TOGETHER, FEEDER) == expected


def test_it_is_advice() -> None:
    """Never more."""
    findings = [one for one in run("200 ft", "12 A").findings if one.line.rule.topic.startswith("voltage-drop/")]
    assert [one.severity for one in findings] == [Severity.ADVICE]


def test_an_assumed_load_is_said() -> None:
    """80 % of 20 A at the receptacle, in the finding and in the derivation."""
    line = the(run("70 ft", None), ALONE, PUMP)
    assert line.answer.outcome.value == "not met"
    words = "no load is planned: 16 A assumed, 80 % of its 20 A breaker, at post-box"
    assert words in line.answer.why
    assert words in [step for step, _ in line.steps]
    met = the(run("50 ft", None), ALONE, PUMP)
    assert met.answer.outcome.value == "met"
    assert words in [step for step, _ in met.steps]


def test_the_longest_length_is_said() -> None:
    """With 16 A the 12 AWG wire reaches 56 ft."""
    assert "of 70 ft the same wire reaches about 56 ft" in the(run("70 ft", None), ALONE, PUMP).answer.why


def test_ways_out_of_an_assumed_load() -> None:
    """A smaller load that is planned, or the smallest wire that will do."""
    ways = the(run("70 ft", None), ALONE, PUMP).answer.proposals
    assert [way.patch[0]["value"] for way in ways] == ["12 A", "UF-B 10/2"]
    planned = the(run("90 ft", "12 A"), ALONE, PUMP).answer.proposals
    assert [way.patch[0]["value"] for way in planned] == ["UF-B 10/2"]


def test_a_fixed_load_counts_where_it_stands() -> None:
    """A heater of 1200 W draws 10 A at its box, and nothing else is assumed on the circuit."""
    heater = {"boxes": {"post-box": {"devices": {"outlet": None, "heater": {"heater": "1200 W"}}}}}
    review = reviewed_example("orchard-pump", {"circuits": {"pump": {"load": None}}} | heater)
    line = the(review, ALONE, PUMP)
    assert "10.0 A of fixed loads" in [step for step, _ in line.steps]
    assert percent(line) == pytest.approx(100 * 10 * 2 * 69 * 0.002 / 120, abs=0.06)


def test_a_motor_draws_its_current_by_table() -> None:
    """1/2 hp at 120 V: 9.8 A."""
    motor = {"boxes": {"post-box": {"devices": {"outlet": None, "pump": {"motor": "1/2 hp"}}}}}
    review = reviewed_example("orchard-pump", {"circuits": {"pump": {"load": None}}} | motor)
    assert "9.8 A of fixed loads" in [step for step, _ in the(review, ALONE, PUMP).steps]


def test_nothing_to_say_without_an_outlet() -> None:
    """No outlet, no drop."""
    review = reviewed_example("orchard-pump", {"boxes": {"post-box": {"devices": {"outlet": None}}}})
    assert outcome(review, ALONE, PUMP) == "does not apply"


def test_a_length_is_asked_for_where_it_decides() -> None:
    """A trench without a length; not, where the other legs are too long already, nor where nothing is drawn."""
    place = "/routes/to-pump/legs/0/length"
    assert place in asked(run(None, "12 A"))
    long = {"buried": "field", "cover": "24 in", "length": "300 ft"}
    legs = [long, {"buried": "field", "cover": "24 in"}]
    review = reviewed_example("orchard-pump", {"routes": {"to-pump": {"legs": legs}}})
    assert outcome(review, ALONE, PUMP) == "not met"


def test_a_length_inside_one_building_is_not_asked_for() -> None:
    """Nothing is said of the bench."""
    leg = {"on": "inside wall", "location": "dry", "physical-damage": False}
    review = shop(routes={"bench": {"legs": [leg]}})
    assert outcome(review, ALONE, BENCH) == "does not apply"
    assert not [place for place in asked(review) if place.endswith("/length")]


def test_wire_above_the_table() -> None:
    """No resistance is known: nothing is said, and the rule does not fail."""
    review = shop(
        routes={"bench": {"carries": {"bench-outlets": {"cable": None, "wires": {"hot": "600 kcmil Cu THWN-2"}}}}}
    )
    assert outcome(review, ALONE, BENCH) == "does not apply"
    assert review.failures == ()


def test_rises_and_passages_without_a_length() -> None:
    """A rise counts twice its height, a passage and a bend nothing."""
    legs = [
        {"rise": "3 ft"},
        {"buried": "field", "cover": "24 in", "length": "66 ft"},
        {"bend": "90°"},
        {"through": "wall"},
    ]

    def of(rise: str) -> float:
        patch = {"routes": {"to-pump": {"legs": [{"rise": rise}, *legs[1:]]}}}
        return percent(the(reviewed_example("orchard-pump", patch), ALONE, PUMP))

    assert of("3 ft") == pytest.approx(100 * 12 * 2 * 72 * 0.002 / 120, abs=0.06)
    assert of("2 ft") == pytest.approx(100 * 12 * 2 * 70 * 0.002 / 120, abs=0.06)


def test_loads_beyond_what_the_wire_can_deliver() -> None:
    """No solution is a finding, not a failure."""
    review = run("10000 ft", "20 A", "UF-B 14/2")
    assert outcome(review, ALONE, PUMP) == "not met"
    assert not review.failures


def test_a_feeder_carries_what_is_planned_for_it() -> None:
    """60 A across both legs: 2 × 60 A over about 82 ft of 6 AWG."""
    line = the(shop(circuits={"workshop-feeder": {"load": "48 A"}}), ALONE, FEEDER)
    assert "planned for 48 A" in [step for step, _ in line.steps]
    assert 1.5 < percent(line) < 1.8


def test_a_feeder_carries_no_more_than_the_assumed_part_of_its_breaker() -> None:
    """80 A of planer and 16 A of bench behind 60 A: 48 A on the heavier leg."""
    line = the(shop(circuits={"planer": {"load": "80 A"}}), ALONE, FEEDER)
    assert "48 A assumed on its heavier leg, 80 % of its 60 A breaker" in [step for step, _ in line.steps]


def test_the_sum_is_not_said_twice() -> None:
    """Where one circuit alone loses too much, that is the finding."""
    review = shop(**bench(120))
    assert outcome(review, ALONE, BENCH) == "not met"
    assert outcome(review, TOGETHER, FEEDER) != "not met"


def test_circuits_that_were_there_are_left_alone() -> None:
    """Their wire is in the wall."""
    assert outcome(run("300 ft", "12 A", existing=True), ALONE, PUMP) == "does not apply"


def test_a_shared_neutral_is_taken_with_one_hot_loaded() -> None:
    """The drop is that of a two-wire circuit."""
    shared = run("70 ft", "12 A", "UF-B 12/3", voltage="120/240 V", multiwire=True)
    single = run("70 ft", "12 A")
    assert percent(the(shared, ALONE, PUMP)) == percent(the(single, ALONE, PUMP))


CASES = {
    "vd-12awg-100ft": (0.05, "12"),
    "vd-240-24a-150ft-10": (0.15, "10"),
    "vd-120-16a-70ft-12": (0.1, "12"),
    "vd-120-20a-100ft-12": (0.15, "12"),
    "vd-120-20a-100ft-8": (0.1, "8"),
    "vd-120-5.6a-85ft-12": (0.11, "12"),
}
"""Published drops at 120 V and 240 V that a plan can express: how far ours may be off in percent of the voltage (the
table for alternating current has two digits), and the size."""

RECORDS = {
    record["id"]: record for text in WORKED.read_text(encoding="utf-8").splitlines() if (record := json.loads(text))
}


@pytest.mark.parametrize("name", CASES)
def test_published_drops(name: str) -> None:
    """Sources stand with the records."""
    record, (tolerance, size) = RECORDS[name], CASES[name]
    given, published = record["given"], record["published"]
    review = run(f"{given['ft']} ft", f"{given['amps']} A", f"UF-B {size}/2", voltage=f"{given['volts']} V")
    expected = published.get("percent", 100 * published.get("drop_v", 0) / given["volts"])
    assert percent(the(review, ALONE, PUMP)) == pytest.approx(expected, abs=tolerance + 0.05)


@pytest.mark.parametrize("name", ["vd-heatpump-xhhw", "vd-mullin-36"])
def test_published_smallest_wire(name: str) -> None:
    """The wire that is proposed is the published one."""
    record = RECORDS[name]
    given = record["given"]
    review = run(f"{given['ft']} ft", f"{given['amps']} A", "UF-B 14/2", voltage=f"{given['volts']} V")
    ways = the(review, ALONE, PUMP).answer.proposals
    assert [way.patch[0]["value"] for way in ways] == [f"UF-B {record['published']['size']}/2"]


def test_published_drop_in_series() -> None:
    """A receptacle circuit of two sizes, by the resistances of warm wire (see the record)."""
    record = RECORDS["vd-two-segment"]
    far = {"from": "post-box", "to": "end-box", "raceway": "none", "carries": {"pump": {"cable": "UF-B 12/2"}}}
    far["legs"] = [{"buried": "field", "length": "60 ft", "cover": "24 in"}]
    near = {"carries": {"pump": {"cable": "UF-B 10/2"}}, "legs": [{"buried": "field", "length": "100 ft"}]}
    outlet = {"receptacle": "20 A", "voltage": "125 V"}
    box = {"at": "pump-post", "area": "outdoors", "location": "wet", "box": {}, "devices": {"end": outlet}}
    review = reviewed_example(
        "orchard-pump",
        {
            "circuits": {"pump": {"load": "20 A"}},
            "boxes": {"end-box": box},
            "routes": {"to-pump": near, "to-end": far},
        },
    )
    line = the(review, ALONE, PUMP)
    assert percent(line) == pytest.approx(record["ours"]["percent"], abs=0.15)
    assert str(line.answer.has).endswith("at end-box")
