"""What each kind of wire and cable takes of a raceway, the bounds where its maker decides, and what is said of it."""

from __future__ import annotations

from typing import Any

import pytest

from precover.plan import Cable
from precover.reviewing import Line, open_plan
from precover.rulebook import Look
from precover.units import TradeSize
from precover_rules.raceway.contents import taken_by_cable
from precover_rules.raceway.fitting import fitting
from support.reviews import example, library, reviewed, written
from support.trenches import after_each_proposal, answer_at, line_at

FILL, YARD, PLANER = "fill-of-a-raceway", "/routes/yard", "/routes/planer-run"
GUARD = "guarded-where-it-can-be-hit"


def planer(hot: str, raceway: str, ground: str | None = None, **route: Any) -> dict[str, Any]:
    """The joinery workshop with other wires in the raceway to its planer."""
    carries = {"planer": {"wires": {"hot": hot, "ground": ground}}}
    return example("joinery-workshop", {"routes": {"planer-run": {"raceway": raceway, "carries": carries, **route}}})


def wired(hot: str, raceway: str, ground: str | None = None, **route: Any) -> Line:
    """What the fill of that raceway is said to be."""
    return line_at(reviewed(planer(hot, raceway, ground, **route)), FILL, PLANER)


def cabled(cable: str, raceway: str) -> Line:
    """The same of a cable in the raceway of the pottery studio's yard."""
    route = {"raceway": raceway, "carries": {"studio": {"cable": cable}}}
    return line_at(reviewed(example("pottery-studio", {"routes": {"yard": route}})), FILL, YARD)


def told(line: Line) -> tuple[str, str]:
    """The answer, and how much is taken."""
    return line.answer.outcome.value, str(line.answer.has)


@pytest.mark.parametrize(
    ("insulations", "least", "most"),
    [
        (("THHN", "THWN", "THWN-2", "THHN/THWN-2"), "0.304", "0.304"),  # six of 0.0507 in²
        (("TW", "THW", "THW-2", "THHW"), "0.436", "0.436"),  # 0.0726
        (("XHHW", "XHHW-2", "XHH"), "0.354", "0.354"),  # 0.0590
        (("RHH", "RHW", "RHW-2", "RHH/RHW-2"), "0.436", "0.625"),  # 0.0726 without covering, 0.1041 with
        (("MTW", "USE-2", "ZW"), "0.162", "0.625"),  # no dimensions published: the bare wire is 0.027
    ],
)
def test_room_by_insulation(insulations: tuple[str, ...], least: str, most: str) -> None:
    """Six 6 AWG: the most where they fit for sure, the least where they never do."""
    alike = least == most
    for insulation in insulations:
        hot = f"6 × 6 AWG Cu {insulation}"
        roomy, tight = wired(hot, "EMT 1-1/2 in"), wired(hot, "EMT 1/2 in")
        assert told(roomy) == ("met", f"{most} in²")
        assert told(tight) == ("not met", f"{least} in²")
        assert f"{hot}: {'' if alike else 'at most '}{most} in²" in [words for words, _ in roomy.steps]
        assert f"{hot}: {'' if alike else 'at least '}{least} in²" in [words for words, _ in tight.steps]


@pytest.mark.parametrize(
    ("hot", "least", "most"),
    [
        ("10 × 8 AWG Cu bare", "0.130", "0.170"),  # solid 0.013, stranded 0.017
        ("6 × 6 AWG Cu bare", "0.162", "0.162"),  # stranded only
        ("50 × 16 AWG Cu THHN", "0.150", "0.485"),  # the bare wire, and the 14 AWG that the table begins with
        ("50 x 14 AWG Cu THHN", "0.485", "0.485"),
        ("6 × 6 AWG Al XHHW-2", "0.283", "0.354"),  # compact: four fifths at the least
    ],
)
def test_room_of_bare_small_and_aluminum_wire(hot: str, least: str, most: str) -> None:
    """What the table does not say lies between bounds."""
    assert told(wired(hot, "EMT 1-1/2 in")) == ("met", f"{most} in²")
    assert told(wired(hot, "EMT 1/2 in")) == ("not met", f"{least} in²")


@pytest.mark.parametrize(
    ("cable", "least", "most"),
    [
        ("NM-B 12/2", "0.113", "0.169"),  # published: 0.422 in wide, a tenth less or more
        (
            "UF-B 6/3",
            "0.130",
            "1.142",
        ),  # two of 0.254 in by four fifths; all four side by side, five webs, a tenth more
        ("UF-B 6/3 no ground", "0.130", "0.739"),  # three, four webs
        ("NM-B 6/3", "0.130", "1.142"),
        ("MC 6/3", "0.130", "2.127"),  # three of 0.304 in, and a quarter inch of covering
        ("SER 2-2-2-4 Al", "0.296", "3.316"),
        ("MHF 2-2-4-6 Al", "0.296", "2.944"),
    ],
)
def test_room_of_a_cable(cable: str, least: str, most: str) -> None:
    """A circle over its width, which lies between bounds where no maker is named."""
    assert told(cabled(cable, "EMT 3 in")) == ("met", f"{most} in²")
    assert told(cabled(cable, "FMC 3/8 in")) == ("not met", f"{least} in²")


def test_between_the_bounds_the_width_of_a_cable_is_asked_for() -> None:
    """By name."""
    answer = cabled("UF-B 12/2", "PVC-80 1/2 in").answer
    assert answer.asks is not None
    assert answer.asks.place == f"{YARD}/carries/studio/width"


def test_cable_beyond_the_dimension_table() -> None:
    """Like wires: 500 kcmil is the last size."""
    assert told(cabled("SER 500-500-500-4 Al", "EMT 1/2 in")) == ("not met", "1.811 in²")
    assert told(cabled("SER 600-600-600-4 Al", "EMT 1/2 in")) == ("cannot tell", "not known")


@pytest.mark.parametrize("cable", ["low-voltage 16/2", "low-voltage 14/2"])
def test_small_cable_counts_as_14_awg(cable: str) -> None:
    """With which the dimension table begins: two of 0.163 in, three webs, a quarter inch of covering, a tenth more."""
    assert told(cabled(cable, "EMT 3 in")) == ("met", "0.422 in²")


@pytest.mark.parametrize(
    ("hot", "ground", "expected"),
    [
        ("3 × 500 kcmil Cu THHN", None, "met"),
        ("3 × 600 kcmil Cu THHN", None, "cannot tell"),
        ("3 × 600 kcmil Cu THHN", "1 AWG Cu THHN", "cannot tell"),
    ],
)
def test_wires_beyond_the_dimension_table(hot: str, ground: str | None, expected: str) -> None:
    """It ends at 500 kcmil."""
    line = wired(hot, "EMT 4 in", ground)
    assert line.answer.outcome.value == expected
    if expected == "cannot tell":
        assert line.answer.why == "dimensions of conductors over 500 kcmil are for the maker to give"


@pytest.mark.parametrize("hot", ["2 × 10 AWG Cu THHN", "2 x 10 AWG Cu THHN", "2×10 AWG Cu THHN"])
def test_wires_are_counted_once_in_words(hot: str) -> None:
    """However the plan writes their number."""
    assert wired(hot, "EMT 1/2 in").steps[0][0] == "2 × 10 AWG Cu THHN: 0.042 in²"


def test_raceway_without_published_dimensions() -> None:
    """Wherever on the way it is."""
    legs = [{"on": "inside wall", "length": "9 ft"}, {"on": "ceiling", "length": "9 ft", "raceway": "RTRC 4 in"}]
    line = wired("3 × 10 AWG Cu THHN", "EMT 1/2 in", legs=legs)
    assert told(line) == ("cannot tell", "not known")
    assert line.answer.why == "dimensions of RTRC 4 in are for the maker to give"


def test_liquidtight_nonmetallic_raceway_may_be_of_either_kind() -> None:
    """The narrower counts, which is one of them at 1 in (0.342 in² of 0.349) and the other at 1-1/2 in (0.792 of 0.807)."""
    assert told(wired("16 × 10 AWG Cu THHN", "LFNC 1 in", "14 AWG Cu THHN")) == ("not met", "0.347 in²")
    assert told(wired("16 × 10 AWG Cu THHN", "LFNC 1 in")) == ("met", "0.338 in²")
    assert told(wired("38 × 10 AWG Cu THHN", "LFNC 1-1/2 in")) == ("not met", "0.802 in²")
    assert told(wired("37 × 10 AWG Cu THHN", "LFNC 1-1/2 in")) == ("met", "0.781 in²")


@pytest.mark.parametrize(
    ("hot", "ground", "raceway", "expected", "case"),
    [
        ("1 AWG Cu THHN", None, "EMT 1/2 in", "met", "53 %: one conductor or cable"),
        ("1/0 AWG Cu THHN", None, "EMT 1/2 in", "not met", "53 %: one conductor or cable"),  # none is rounded up to one
        ("8 AWG Cu THHN", "8 AWG Cu THHN", "EMT 1/2 in", "met", "31 %: two conductors or cables"),
        ("6 AWG Cu THHN", "8 AWG Cu bare", "PVC-80 1/2 in", "cannot tell", ""),
        ("6 × 12 AWG Cu THHN", "2 × 10 AWG Cu THHN", "EMT 1/2 in", "met", "40 %: more than two"),  # 0.122 of 0.122 in²
        ("6 × 12 AWG Cu THHN", "2 × 10 AWG Cu TW", "EMT 1/2 in", "not met", "40 %: more than two"),
    ],
)
def test_share_by_number(hot: str, ground: str | None, raceway: str, expected: str, case: str) -> None:
    """Of one, of two, of more."""
    line = wired(hot, raceway, ground)
    assert line.answer.outcome.value == expected
    if case:
        assert f"{raceway} may be filled to {case}" in [words for words, _ in line.steps]


def test_rounding_up_says_so() -> None:
    """Of equal conductors alone, whose size is known."""
    line = wired("6 × 10 AWG Cu THHN", "RMC 1/2 in")
    assert (line.answer.has, line.answer.needs, line.place) == (
        "6 equal conductors", "6 by rounding up", f"{PLANER}/raceway",
    )  # fmt: skip
    assert "6 × 0.021 in² equal conductors, the last by 0.8 of it or more" in [words for words, _ in line.steps]
    # Four of 0.0333 in² at the least: 3.75 go into 0.125 in². Five of 0.0260: 4.81 go, of the thicker ones 3.54.
    assert told(wired("4 × 10 AWG Cu RHW-2", "RMC 1/2 in")) == ("not met", "0.133 in²")
    line = wired("5 × 12 AWG Cu RHW-2", "RMC 1/2 in")
    assert (*told(line), line.answer.needs) == ("cannot tell", "up to 0.176 in²", "at most 0.125 in²")
    assert [way.words for way in line.answer.proposals] == ["use RMC 3/4 in"]
    assert told(wired("5 × 12 AWG Cu RHW-2", "RMC 1/2 in", "12 AWG Cu bare")) == ("not met", "0.135 in²")
    assert told(wired("4 × 12 AWG Cu RHW-2", "RMC 1/2 in", "12 AWG Cu THHN"))[0] == "cannot tell"


@pytest.mark.parametrize(
    ("lengths", "expected"),
    [
        (("12 in", "12 in"), "met"),
        (("12 in", "12.1 in"), "not met"),
        (("300 mm", "300 mm"), "met"),
        (("300 mm", "301 mm"), "not met"),
        (("12 in", None), "not met"),
        ((), "not met"),
    ],
)
def test_a_nipple_is_short_all_in_all(lengths: tuple[str | None, ...], expected: str) -> None:
    """Its bend takes no length; one that is nowhere measured is none."""
    legs: list[dict[str, Any]] = [{"bend": "45°"}]
    legs += [{"on": "inside wall"} | ({} if length is None else {"length": length}) for length in lengths]
    line = wired("13 × 12 AWG Cu THHN", "EMT 1/2 in", legs=legs)
    assert line.answer.outcome.value == expected
    case = "60 %: nipple" if expected == "met" else "40 %: more than two"
    assert f"EMT 1/2 in may be filled to {case}" in [words for words, _ in line.steps]


def test_where_the_tight_raceway_is_named() -> None:
    """The mark is on the leg that names it, and the way out changes it wherever it is named."""
    wall = {"on": "inside wall", "length": "9 ft"}
    line = wired("3 × 6 AWG Cu THHN", "EMT 3/4 in", legs=[wall, {**wall, "raceway": "EMT 1/2 in"}])
    assert line.place == f"{PLANER}/legs/1/raceway"
    line = wired("3 × 6 AWG Cu THHN", "EMT 1/2 in", legs=[wall, {**wall, "raceway": "EMT 1/2 in"}])
    assert line.place == f"{PLANER}/raceway"
    (way,) = line.answer.proposals
    assert [(edit["path"], edit["value"]) for edit in way.patch] == [
        (f"{PLANER}/raceway", "EMT 3/4 in"),
        (f"{PLANER}/legs/1/raceway", "EMT 3/4 in"),
    ]


def test_between_the_bounds_it_is_for_the_maker() -> None:
    """A raceway that is roomy for the thickest is offered."""
    line = wired("3 × 10 AWG Cu RHW-2", "EMT 1/2 in")
    assert (*told(line), line.answer.needs) == ("cannot tell", "up to 0.131 in²", "at most 0.122 in²")
    assert "that the maker gives" in line.answer.why
    wires = {"hot": "9 × 8 AWG Cu bare", "neutral": "10 AWG Cu bare", "ground": "12 AWG Cu bare"}
    nipple = {"legs": [{"on": "inside wall", "length": "24 in"}], "carries": {"planer": {"wires": wires}}}
    at_the_least = line_at(
        reviewed(example("joinery-workshop", {"routes": {"planer-run": {"raceway": "PVC-80 1/2 in", **nipple}}})),
        FILL,
        PLANER,
    )
    assert (*told(at_the_least), at_the_least.answer.needs) == ("cannot tell", "up to 0.170 in²", "at most 0.130 in²")
    data = planer("3 × 10 AWG Cu RHW-2", "EMT 1/2 in")
    assert after_each_proposal(data, FILL, PLANER) == {"use EMT 3/4 in": "met"}


@pytest.mark.parametrize(
    ("route", "why"),
    [
        ({"carries": {"planer": None}}, "nothing is pulled in yet"),
        ({"raceway": "none"}, "no raceway"),
        (
            {"legs": [{"on": "inside wall"}, {"on": "ceiling", "raceway": "none"}]},
            "no raceway from end to end: a sleeve that guards cable is not held to the fill table",
        ),
    ],
)
def test_what_the_fill_table_is_not_for(route: dict[str, Any], why: str) -> None:
    """Each with its reason."""
    patch = {"boxes": {"planer-box": {"devices": None}}, "routes": {"planer-run": route}}
    line = line_at(reviewed(example("joinery-workshop", patch)), FILL, PLANER)
    assert (line.answer.outcome.value, line.answer.why) == ("does not apply", why)


# The raceway that a way out offers

DEVICES = (("terrace-box", "terrace-outlet"), ("entry-box", "main-switch"))


def offered(*cables: str | None) -> list[str]:
    """What is offered to guard cables that run along a wall where they can be hit."""
    names = [f"more-{number}" for number in range(1, len(cables))]
    more = {"kind": "branch circuit", "from": "house-panel", "breaker": {"rating": "20 A"}}
    carries = {name: {"cable": cable} for name, cable in zip(("studio", *names), cables, strict=True)}
    leg = {"on": "inside wall", "location": "dry", "length": "9 ft", "physical-damage": True}
    devices = {name: {"devices": {device: {"circuit": "studio"}}} for name, device in DEVICES}
    devices["entry-box"]["devices"]["bench-outlet"] = {"circuit": "studio"}
    data = example(
        "pottery-studio",
        {
            "boxes": devices,
            "circuits": dict.fromkeys(names, more),
            "routes": {"garage-wall": {"carries": carries, "legs": [leg]}, "yard": {"carries": carries}},
        },
    )
    line = line_at(reviewed(data), GUARD, "/routes/garage-wall/legs/0")
    return [way.words.removeprefix("run this leg in ") for way in line.answer.proposals]


@pytest.mark.parametrize(
    ("cables", "expected"),
    [
        (("NM-B 12/2",), ["PVC-80 3/4 in", "EMT 3/4 in"]),  # 0.169 in² of 53 %
        (("NM-B 12/2", "NM-B 12/2"), ["PVC-80 1-1/4 in", "EMT 1-1/4 in"]),  # 0.338 in² of 31 %
        (("NM-B 12/2",) * 3, ["PVC-80 1-1/2 in", "EMT 1-1/4 in"]),  # 0.508 in² of 40 %
        (("NM-B 12/2", None), []),
    ],
)
def test_what_is_offered_is_large_enough(cables: tuple[str | None, ...], expected: list[str]) -> None:
    """The smallest that holds what is in it whoever made it; nothing where that is not known."""
    assert offered(*cables) == expected


def fitted(kind: str, least: str | None, patch: dict[str, Any], instead: dict[str, str] | None = None) -> str | None:
    """The raceway that fits the yard of the pottery studio."""
    bare: dict[str, Any] = {"boxes": {name: {"devices": None} for name in ("entry-box", "ceiling-box")}}
    bare["routes"] = {"yard": patch, "ceiling": {"carries": {"studio": None}}}
    opened = open_plan("test.plan.yaml", written(example("pottery-studio", bare)))
    look = Look(opened.trace, library().book().tables)
    cables = {name: Cable.parse(text) for name, text in (instead or {}).items()}
    size = None if least is None else TradeSize.parse(least)
    return fitting(kind, opened.plan.routes["yard"], look, size, instead=cables)


JUST = {"hot": "3 × 12 AWG Cu THHN", "neutral": "3 × 10 AWG Cu THHN", "ground": "3 × 8 AWG Cu THHN"}
"""0.213 in², which is 40 % of EMT 3/4 in."""


def test_a_raceway_that_is_just_large_enough_is_offered() -> None:
    """The table's own area is enough."""
    data = example(
        "joinery-workshop",
        {"routes": {"planer-run": {"raceway": "EMT 1/2 in", "carries": {"planer": {"wires": JUST}}}}},
    )
    assert after_each_proposal(data, FILL, PLANER) == {"use EMT 3/4 in": "met"}


WIRES_UNSTATED = {"carries": {"studio": {"cable": None, "wires": {"neutral": "12 AWG Cu THWN-2"}}}}
LARGE = {"carries": {"studio": {"cable": None, "wires": {"hot": "3 × 600 kcmil Cu THWN-2"}}}}


@pytest.mark.parametrize(
    ("kind", "least", "patch", "instead", "expected"),
    [
        ("PVC-80", None, {}, {}, "PVC-80 3/4 in"),  # UF-B 12/2: 0.212 of 0.217 in²
        ("PVC-80", "1/2", {}, {}, "PVC-80 3/4 in"),
        ("PVC-80", "1", {}, {}, "PVC-80 1 in"),
        ("RMC", "2", {}, {}, "RMC 2 in"),
        ("PVC-80", None, {}, {"studio": "UF-B 6/3"}, "PVC-80 2 in"),  # 1.142 of 1.523 in²
        ("PVC-80", None, {}, {"another": "UF-B 6/3"}, "PVC-80 3/4 in"),
        ("PVC-80", "1", {"carries": {"studio": {"cable": None}}}, {}, "PVC-80 1 in"),
        ("PVC-80", None, {"carries": {"studio": {"cable": None}}}, {}, None),
        ("PVC-80", None, {"carries": {"studio": {"cable": None}}}, {"studio": "UF-B 6/3"}, "PVC-80 2 in"),
        ("PVC-80", "1", WIRES_UNSTATED, {}, "PVC-80 1 in"),
        ("PVC-80", "1", LARGE, {}, "PVC-80 1 in"),
        ("PVC-80", None, LARGE, {}, None),
        ("PVC-80", "1-1/4", {"carries": {"studio": None}}, {}, "PVC-80 1-1/4 in"),
        ("PVC-80", None, {"carries": {"studio": None}}, {}, None),
        ("RTRC", None, {}, {}, None),
        ("EMT", None, {"carries": {"studio": {"cable": None, "wires": JUST}}}, {}, "EMT 3/4 in"),
        (
            "FMC",
            None,
            {"carries": {"studio": {"cable": None, "wires": {"hot": "2 × 14 AWG Cu THHN"}}}},
            {},
            "FMC 1/2 in",
        ),
    ],
)
def test_the_raceway_that_fits(
    kind: str, least: str | None, patch: dict[str, Any], instead: dict[str, str], expected: str | None
) -> None:
    """Not smaller than asked for; as asked for, or none, where nobody knows what is in it."""
    assert fitted(kind, least, patch, instead) == expected


def test_what_a_way_out_looks_up_is_no_ground_for_the_answer() -> None:
    """Its cells are not noted."""
    opened = open_plan("test.plan.yaml", written(example("pottery-studio")))
    look = Look(opened.trace, library().book().tables)
    limit = look.limit("nipple length")
    assert fitting("PVC-80", opened.plan.routes["yard"], look) == "PVC-80 3/4 in"
    assert look.cells == [limit]


def test_the_sizes_of_a_cable_are_looked_up_in_the_order_of_its_name() -> None:
    """So that what is read is the same in every run."""
    opened = open_plan("test.plan.yaml", written(example("pottery-studio")))
    for sizes in ("1-2-3-4", "4-3-2-1"):
        look = Look(opened.trace, library().book().tables)
        taken_by_cable(Cable.parse(f"MHF {sizes} Al"), look)
        rows = [cell.key[1] for cell in look.cells if cell.key[0] == "THHN/THWN-2"]
        assert rows == sizes.split("-")[:3]


def test_the_answer_is_for_the_example_as_it_is() -> None:
    """Nothing of the above is a finding there."""
    assert answer_at(example("joinery-workshop"), FILL, PLANER) == "met"
