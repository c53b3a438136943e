"""Rating and handles of a structure's disconnect: below, at and above each limit."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Review
from support.reviews import asked, example, library, lines, merged, outcome, reviewed, reviewed_example

STUDIO, WORKSHOP = "/structures/studio", "/structures/workshop"
RATING, AHEAD, HANDLES = "/rating-for-the-structure", "/rating-for-the-breaker-ahead", "/six-handles-at-most"
SPARE = {
    "kind": "branch circuit",
    "from": "workshop-panel",
    "voltage": "120 V",
    "multiwire": False,
    "breaker": {"rating": "15 A", "poles": 1},
}


def studio(rating: str, **circuit: Any) -> Review:
    """The pottery studio with a switch of that rating on its one circuit."""
    box = {"entry-box": {"devices": {"main-switch": {"switch": rating}}}}
    return reviewed_example("pottery-studio", {"boxes": box, "circuits": {"studio": circuit}})


def workshop(main: str, *gone: str, use: str = "accessory", more: int = 0, **circuits: Any) -> Review:
    """The joinery workshop with that main, without some circuits and with others. What goes with a circuit goes too."""
    runs = {"bench-outlets": ("bench", "porch"), "lights": ("lighting", "porch-lighting"), "planer": ("planer-run",)}
    boxes = {
        "bench-outlets": ("bench-box", "yard-box"),
        "lights": ("switch-box", "porch-light-box"),
        "planer": ("planer-box",),
    }
    patch: dict[str, Any] = {
        "structures": {"workshop": {"use": use}},
        "panels": {"workshop-panel": {"main": main}},
        "circuits": {**dict.fromkeys(gone), **{f"spare-{n}": SPARE for n in range(more)}, **circuits},
        "routes": {run: None for name in gone for run in runs[name]},
        "boxes": {box: None for name in gone for box in boxes[name]},
    }
    return reviewed_example("joinery-workshop", patch)


def test_the_four_least_ratings() -> None:
    """60 A for anything else was published (forum thread named in the table); the others are from memory, and say so."""
    table = library().book().tables["building-disconnect-rating"]
    assert {key[0]: (cell.text, cell.from_memory) for key, cell in table.cells.items()} == {
        "limited load on one branch circuit": ("15 A", True),
        "not more than two 2-wire circuits": ("30 A", True),
        "one-family dwelling": ("100 A", True),
        "any other": ("60 A", False),
    }


@pytest.mark.parametrize(
    ("rating", "limited", "expected"),
    [
        ("14 A", True, "not met"),
        ("15 A", True, "met"),
        ("20 A", True, "met"),
        ("29 A", False, "not met"),
        ("30 A", False, "met"),
        ("31 A", False, "met"),
        ("14 A", None, "not met"),
        ("20 A", None, "cannot tell"),
        ("30 A", None, "met"),
    ],
)
def test_one_branch_circuit(rating: str, limited: bool | None, expected: str) -> None:
    """15 A for a limited load, else 30 A; the load is asked about between the two only."""
    of = studio(rating, **{"limited-load": limited})
    assert outcome(of, RATING, STUDIO) == expected
    assert ("/circuits/studio/limited-load" in asked(of)) is (expected == "cannot tell")


@pytest.mark.parametrize(
    ("circuit", "at_least"),
    [
        ({"voltage": "240 V", "multiwire": False}, "30 A"),
        ({"voltage": "120/240 V", "multiwire": True}, "30 A"),
        ({"voltage": "120/240 V", "multiwire": False}, "60 A"),
    ],
)
def test_a_branch_circuit_without_limited_load(circuit: dict[str, Any], at_least: str) -> None:
    """240 V is one 2-wire circuit, a multiwire circuit counts as two; three wires for one load are of another kind."""
    (line,) = lines(studio("20 A", **{"limited-load": False}, **circuit), RATING, STUDIO)
    assert str(line.answer.needs) == at_least


@pytest.mark.parametrize(
    ("main", "gone", "expected"),
    [
        ("59 A", (), "not met"),
        ("60 A", (), "met"),
        ("61 A", (), "met"),
        ("29 A", ("planer",), "not met"),
        ("30 A", ("planer",), "met"),
        ("31 A", ("planer",), "met"),
        ("30 A", ("planer", "lights"), "met"),
        ("59 A", ("planer", "lights", "bench-outlets"), "not met"),
    ],
)
def test_a_panel_by_its_circuits(main: str, gone: tuple[str, ...], expected: str) -> None:
    """Three circuits 60 A, two or one 30 A; none planned yet is not taken for two."""
    of = workshop(main, *gone)
    assert outcome(of, RATING, WORKSHOP) == expected
    (line,) = lines(of, RATING, WORKSHOP)
    assert ("the main of workshop-panel" in line.steps[0][0]) and line.place == "/panels/workshop-panel/main"


def test_a_multiwire_circuit_counts_as_two() -> None:
    """Beside another circuit it makes three."""
    shared = {"multiwire": True, "voltage": "120/240 V"}
    assert outcome(workshop("30 A", "planer", lights=shared), RATING, WORKSHOP) == "not met"
    assert outcome(workshop("30 A", "planer", "bench-outlets", lights=shared), RATING, WORKSHOP) == "met"


def test_a_feeder_onward_is_of_another_kind() -> None:
    """One circuit, but not a 2-wire one."""
    onward = {"onward": {"kind": "feeder", "from": "workshop-panel", "voltage": "120/240 V"}}
    assert outcome(workshop("30 A", "planer", "bench-outlets", "lights", **onward), RATING, WORKSHOP) == "not met"


@pytest.mark.parametrize(
    ("main", "expected"), [("99 A", "not met"), ("100 A", "met"), ("125 A", "met"), ("60 A", "not met")]
)
def test_a_dwelling(main: str, expected: str) -> None:
    """100 A, however few circuits."""
    assert outcome(workshop(main, "planer", use="dwelling"), RATING, WORKSHOP) == expected


@pytest.mark.parametrize(("bench", "expected"), [("14 A", "not met"), ("15 A", "met"), ("20 A", "met")])
def test_breakers_together(bench: str, expected: str) -> None:
    """Without a main their ratings are added: 15 A and 30 A are there besides."""
    of = workshop("none", **{"bench-outlets": {"breaker": {"rating": bench}}})
    (line,) = lines(of, RATING, WORKSHOP)
    assert line.answer.outcome.value == expected
    assert str(line.answer.has) == f"{int(bench.split()[0]) + 45} A"
    assert any("added (from memory)" in step for step, _ in line.steps)


@pytest.mark.parametrize(
    ("switch", "breaker", "expected"),
    [
        ("19 A", "20 A", "not met"),
        ("20 A", "20 A", "met"),
        ("30 A", "20 A", "met"),
        ("20 A", None, "cannot tell"),
    ],
)
def test_a_switch_and_the_breaker_ahead(switch: str, breaker: str | None, expected: str) -> None:
    """A snap switch has no protection of its own."""
    assert outcome(studio(switch, breaker={"rating": breaker}), AHEAD, STUDIO) == expected


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("breaker", "does not apply"),
        ("fused switch", "does not apply"),
        ("general-use switch", "not met"),
        ("molded-case switch", "not met"),
        ("pull-out", "not met"),
        (None, "cannot tell"),
    ],
)
def test_an_enclosed_switch_and_the_breaker_ahead(kind: str | None, expected: str) -> None:
    """A breaker or fuse in it protects it."""
    cut_off = {"disconnect": "15 A", "opens": "all hots", **({"type": kind} if kind else {})}
    of = reviewed_example(
        "pottery-studio",
        {
            "boxes": {
                "entry-box": {"devices": {"main-switch": None, "cut-off": cut_off}},
                "ceiling-box": {"devices": {"lamp": {"switched-by": None}}},
            }
        },
    )
    assert outcome(of, AHEAD, STUDIO) == expected
    assert outcome(workshop("60 A"), AHEAD, WORKSHOP) == "does not apply"


LOAD = "/rating-for-the-load"


PLANER = {"planer": {"load": "30 A"}}


def by_a_breaker(rating: str, kind: str | None = "breaker", **feeder: Any) -> Review:
    """The joinery workshop, its feeder through a disconnect inside."""
    cut_off = {"disconnect": rating, "opens": "all hots", **({"type": kind} if kind else {})}
    box = {
        "at": "workshop",
        "area": "indoors",
        "location": "dry",
        "box": {"kind": "box"},
        "devices": {"cut-off": cut_off},
    }
    inside = {
        "from": "entry",
        "to": "workshop-panel",
        "raceway": "none",
        "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}},
        "legs": [{"in": "wall framing", "length": "2 ft", "location": "dry"}],
    }
    return reviewed_example(
        "joinery-workshop",
        {
            "circuits": {"workshop-feeder": feeder, **PLANER},
            "boxes": {"entry": box},
            "routes": {"yard": {"to": "entry"}, "inside": inside},
        },
    )


@pytest.mark.parametrize(
    ("rating", "kind", "expected"),
    [
        ("54 A", "breaker", "not met"),
        ("55 A", "breaker", "met"),
        ("54 A", "fused switch", "not met"),
        ("59 A", "fused switch", "met"),
        ("60 A", "general-use switch", "met"),
        ("54 A", "general-use switch", "does not apply"),
        ("54 A", None, "cannot tell"),
        ("60 A", None, "met"),
    ],
)
def test_a_disconnect_with_protection_of_its_own_carries_the_load(rating: str, kind: str | None, expected: str) -> None:
    """Of 55 A behind a feeder of 60 A; a switch without protection is compared with the breaker ahead."""
    assert outcome(by_a_breaker(rating, kind, load="55 A"), LOAD, WORKSHOP) == expected


def test_the_load_behind_a_disconnect_is_that_of_the_panel() -> None:
    """30 A at 240 V, two receptacles and a lamp, where that is more than what the feeder is planned for; the way out is not below the breaker ahead either."""
    for planned in ({}, {"load": "1 A"}):
        (line,) = lines(by_a_breaker("15 A", **planned), LOAD, WORKSHOP)
        assert line.answer.outcome.value == "not met"
        assert str(line.answer.needs) == "at least 31.6 A, the calculated load"
        assert any("planer" in step for step, _ in line.steps)
        assert [way.words for way in line.answer.proposals] == ["use an enclosed breaker of 60 A"]


@pytest.mark.parametrize(("planned", "expected"), [("50 A", "met"), ("51 A", "not met"), (None, "does not apply")])
def test_what_a_feeder_is_planned_for_counts_where_nothing_is_behind_it(planned: str | None, expected: str) -> None:
    """Through a breaker of 50 A."""
    data = example("joinery-workshop", "")
    gone = dict.fromkeys(("bench-outlets", "lights", "planer"))
    boxes = ("bench-box", "switch-box", "planer-box", "yard-box", "porch-light-box")
    routes = ("bench", "porch", "lighting", "porch-lighting", "planer-run")
    cut_off = {"disconnect": "50 A", "opens": "all hots", "type": "breaker"}
    entry = {
        "at": "workshop",
        "area": "indoors",
        "location": "dry",
        "box": {"kind": "box"},
        "devices": {"cut-off": cut_off},
    }
    inside = {"from": "entry", "to": "workshop-panel", "raceway": "none",
              "carries": {"workshop-feeder": {"cable": "NM-B 6/3"}}, "legs": [{"in": "wall framing"}]}  # fmt: skip
    patch = {
        "circuits": {**gone, "workshop-feeder": {"load": planned}},
        "boxes": {**dict.fromkeys(boxes), "entry": entry},
        "routes": {**dict.fromkeys(routes), "yard": {"to": "entry"}, "inside": inside},
    }
    assert outcome(reviewed(merged(data, patch)), LOAD, WORKSHOP) == expected


@pytest.mark.parametrize(
    ("bench", "planned", "expected"), [("15 A", "50 A", "met"), ("1 A", "50 A", "not met"), ("15 A", None, "met")]
)
def test_breakers_together_carry_the_load(bench: str, planned: str | None, expected: str) -> None:
    """15 A and 30 A are there besides, behind a feeder of 100 A."""
    feeder = {"load": planned, "breaker": {"rating": "100 A"}}
    of = workshop("none", **PLANER, **{"workshop-feeder": feeder, "bench-outlets": {"breaker": {"rating": bench}}})
    assert outcome(of, LOAD, WORKSHOP) == expected


def test_the_main_of_a_panel_is_compared_with_its_load_elsewhere() -> None:
    """Not twice."""
    assert outcome(workshop("15 A", **PLANER), LOAD, WORKSHOP) == "does not apply"
    assert outcome(workshop("15 A", **PLANER), "/panel-carries-the-load", "/panels/workshop-panel") == "not met"


@pytest.mark.parametrize(
    ("load", "at", "expected"),
    [("15 A", "studio", "met"), ("16 A", "studio", "not met"), ("16 A", "house", "does not apply")],
)
def test_a_breaker_on_a_branch_circuit_carries_its_load(load: str, at: str, expected: str) -> None:
    """As far as all of it is at the structure."""
    cut_off = {"disconnect": "15 A", "type": "breaker", "opens": "all hots"}
    boxes = {
        "entry-box": {"devices": {"main-switch": None, "cut-off": cut_off}},
        "ceiling-box": {"devices": {"lamp": {"switched-by": None}}},
        "terrace-box": {"at": at},
    }
    of = reviewed_example("pottery-studio", {"boxes": boxes, "circuits": {"studio": {"load": load}}})
    assert outcome(of, LOAD, STUDIO) == expected


@pytest.mark.parametrize(
    ("main", "more", "expected", "count"),
    [
        ("60 A", 9, "met", 1),
        ("none", 2, "met", 5),
        ("none", 3, "met", 6),
        ("none", 4, "not met", 7),
    ],
)
def test_six_handles(main: str, more: int, expected: str, count: int) -> None:
    """Five, six and seven breakers; a main makes one of any number."""
    (line,) = lines(workshop(main, more=more), HANDLES, WORKSHOP)
    assert (line.answer.outcome.value, line.answer.has) == (expected, count)


@pytest.mark.parametrize(
    ("breaker", "expected"),
    [
        ({"poles": 2, "common-trip": True}, "met"),
        ({"poles": 2, "common-trip": False}, "not met"),
        ({"poles": 1}, "not met"),
        ({"common-trip": None}, "cannot tell"),
    ],
)
def test_two_poles_that_are_not_tied_are_two_handles(breaker: dict[str, Any], expected: str) -> None:
    """The 240 V planer is the sixth breaker."""
    assert outcome(workshop("none", more=3, planer={"breaker": breaker}), HANDLES, WORKSHOP) == expected


def test_far_from_the_limit_nothing_is_asked_about_poles() -> None:
    """Three breakers are six handles at most, and seven are too many anyhow."""
    unknown = {"breaker": {"poles": None, "common-trip": None}}
    assert outcome(workshop("none", planer=unknown), HANDLES, WORKSHOP) == "met"
    assert outcome(workshop("none", more=4, planer=unknown), HANDLES, WORKSHOP) == "not met"


def test_whether_there_is_a_main_is_asked_only_with_many_breakers() -> None:
    """Three would do without."""
    of = reviewed_example("joinery-workshop", {"panels": {"workshop-panel": {"main": None}}})
    assert outcome(of, HANDLES, WORKSHOP) == "met"
    many = {"panels": {"workshop-panel": {"main": None}}, "circuits": {f"spare-{n}": SPARE for n in range(4)}}
    assert outcome(reviewed_example("joinery-workshop", many), HANDLES, WORKSHOP) == "cannot tell"


@pytest.mark.parametrize(
    ("limited", "rows"),
    [(True, ("disconnect-rating-one-circuit",)), (False, ("disconnect-rating-two-circuit",))],
)
def test_the_requirement_that_decides_on_one_circuit_is_cited(limited: bool, rows: tuple[str, ...]) -> None:
    """Each least rating has one of its own."""
    (line,) = lines(studio("20 A", **{"limited-load": limited}), RATING, STUDIO)
    assert line.answer.rows == rows


@pytest.mark.parametrize(
    ("gone", "use", "rows"),
    [
        (("planer",), "accessory", ("disconnect-rating-two-circuit",)),
        ((), "accessory", ("disconnect-rating-other",)),
        ((), "dwelling", ("disconnect-rating-dwelling",)),
    ],
)
def test_the_requirement_that_decides_on_a_panel_is_cited(
    gone: tuple[str, ...], use: str, rows: tuple[str, ...]
) -> None:
    """By what it feeds, and what the building is."""
    (line,) = lines(workshop("60 A", *gone, use=use), RATING, WORKSHOP)
    assert line.answer.rows == rows


def test_a_circuit_of_three_wires_is_no_two_wire_circuit() -> None:
    """Alone behind the panel, or on its way to the structure."""
    lights = {"voltage": "120/240 V", "breaker": {"poles": 2, "common-trip": True}}
    (line,) = lines(workshop("60 A", "planer", "bench-outlets", lights=lights), RATING, WORKSHOP)
    assert str(line.answer.needs) == "60 A"
    (line,) = lines(workshop("60 A", "planer", "bench-outlets"), RATING, WORKSHOP)
    assert str(line.answer.needs) == "30 A"
