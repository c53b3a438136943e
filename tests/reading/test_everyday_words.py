"""Everyday words and bare numbers: the hint leads to what the plan language writes, and what it leads to can be read."""

from __future__ import annotations

import csv
import re
from importlib.resources import files

import pytest

import precover_schemas
from precover.plan.conductors import CABLE_TYPES, RACEWAY_TYPES
from precover.reading.everyday import meant
from support.refusals import refusal, refusals, studio

DEFS = precover_schemas.load("plan")["$defs"]
KEYS = {key for owner in (precover_schemas.load("plan"), *DEFS.values()) for key in owner.get("properties", {})}
WORDS = {
    word
    for owner in DEFS.values()
    for field in owner.get("properties", {}).values()
    for word in field.get("enum", ())
    if isinstance(word, str)
}
KNOWN = {"key": KEYS, "word": WORDS, "cable": set(CABLE_TYPES), "raceway": set(RACEWAY_TYPES)}
with files("precover.reading").joinpath("everyday.csv").open(encoding="utf-8") as lines:
    ROWS = list(csv.DictReader(lines))


def test_every_word_leads_to_something_that_a_plan_knows() -> None:
    """None is listed twice, and none of an other kind."""
    assert {row["kind"] for row in ROWS} == set(KNOWN)
    assert [row for row in ROWS if not set(row["meant"].split("|")) <= KNOWN[row["kind"]]] == []
    assert len({(row["kind"], row["said"]) for row in ROWS}) == len(ROWS)


def test_words_are_found_however_they_are_written() -> None:
    """In any case, with a space, a hyphen or an underscore."""
    assert meant("key", "Ground Rods") == meant("key", "ground_rods") == meant("key", "ground-rods") == ("electrodes",)
    assert meant("word", "Main  Panel") == ("service equipment",)
    assert meant("key", "spaceship") == ()


CARRIED = "studio: {cable: UF-B 12/2}"
YARD = "raceway: PVC-80 3/4 in"
BREAKER = "breaker: {rating: 20 A, poles: 1, ground-fault: none, arc-fault: false, readily-accessible: true}"

SAID: dict[str, tuple[str, str, str]] = {
    # What stands in the plan, what is written instead -> what the hint says
    "a number for inches": ("cover: 18 in", "cover: 18", "write `18 in`, or with the unit that is meant: in, ft"),
    "a quoted number": ("cover: 18 in", 'cover: "18"', "write `18 in`, or with the unit"),
    "a number for feet": ("length: 46 ft", "length: 46", "write `46 ft`"),
    "a mixed number": ("cover: 18 in", 'cover: "18 1/2"', "write `18 1/2 in`"),
    "a number for amperes": ("main: 200 A", "main: 200", "write `200 A`"),
    "a number for volts": ("voltage: 120 V", "voltage: 120", "write `120 V`"),
    "a number below zero": ("design-low: 5 °F", "design-low: 5", "write `5 °F`"),
    "a breaker that is a number": (BREAKER, "breaker: 30", "write `{rating: 30 A}`; it may have: rating, poles"),
    "a breaker in the panel": ("main: 200 A", "breaker: 200 A", "did you mean `main`?"),
    "gfci in the circuit": ("multiwire: false", "gfci: true", "inside `breaker`: `breaker: {ground-fault: ...}`"),
    "poles in the circuit": ("multiwire: false", "poles: 1", "inside `breaker`: `breaker: {poles: ...}`"),
    "gfci of an outlet": ("        ground-fault: true", "        gfci: true", "did you mean `ground-fault`?"),
    "gfci of a breaker": ("ground-fault: none", "ground-fault: gfci", "did you mean `class A`?"),
    "a depth of a route": (
        "    complete-before-pull: true",
        "    depth: 12 in",
        "`cover` belongs to an entry of `legs`",
    ),
    "a length of a route": (
        "    complete-before-pull: true",
        "    length: 9 ft",
        "`length` belongs to an entry of `legs`",
    ),
    "a cable of a route": (
        "    complete-before-pull: true",
        "    cable: NM 12/2",
        "`cable` belongs to an entry of `carr",
    ),
    "a cable of a circuit": (
        "multiwire: false",
        "cable: UF-B 12/2",
        "it belongs to: circuit on a route; keys known here: kind",
    ),
    "an outlet of a box": ("    area: outdoors", "    outlet: 20 A", "`receptacle` belongs to an entry of `devices`"),
    "rods in a panel": (
        "    duty: service equipment",
        "    duty: service equipment\n    ground-rods: 2",
        "to: grounding; keys",
    ),
    "conduit": ("    raceway: PVC-80", "    conduit: PVC-80", "did you mean `raceway`?"),
    "depth": ("cover: 18 in", "depth: 18 in", "did you mean `cover`?"),
    "wire": (CARRIED, "studio: {wire: UF-B 12/2}", "did you mean `cable`?"),
    "outlet": ("{receptacle: 20 A", "{outlet: 20 A", "did you mean `receptacle`?"),
    "light": ("{luminaire: 40 W", "{light: 40 W", "did you mean `luminaire`?"),
    "grass": ("buried: lawn", "buried: grass", "did you mean `lawn`?"),
    "underground": ("{buried: lawn", "{underground: lawn", "did you mean `buried`?"),
    "a shed": ("use: accessory", "use: shed", "did you mean `accessory`?"),
    "the use of a site": ("premises: one-family dwelling", "use: dwelling", "did you mean `premises`?"),
    "a dwelling for premises": (
        "premises: one-family dwelling",
        "premises: dwelling",
        "did you mean `one-family dwelling`?",
    ),
    "a cable without its mapping": (CARRIED, "studio: UF 12-2", "write `{cable: UF-B 12/2}`"),
    "UF 12-2": (CARRIED, "studio: {cable: UF 12-2}", "did you mean `UF-B 12/2`?"),
    "NM 12/2": (CARRIED, "studio: {cable: NM 12/2}", "did you mean `NM-B 12/2`?"),
    "12/2 UF no ground": (CARRIED, "studio: {cable: 12/2 UF no ground}", "did you mean `UF-B 12/2 no ground`?"),
    "3/4 for a raceway": (YARD, "raceway: 3/4", "did you mean `PVC-40 3/4 in` or `PVC-80 3/4 in`?"),
    "PVC 1 1/4": (YARD, "raceway: PVC 1 1/4", "did you mean `PVC-40 1-1/4 in` or `PVC-80 1-1/4 in`?"),
    "schedule 80": (YARD, "raceway: schedule 80 PVC 1 in", "did you mean `PVC-80 1 in`?"),
    "the size ahead": (YARD, 'raceway: 3/4" EMT', "did you mean `EMT 3/4 in`?"),
    "PVC": (YARD, "raceway: PVC", "like `PVC-40 3/4 in`"),
    "EMT without size": (YARD, "raceway: EMT", "add it, like `EMT 3/4 in`"),
    "wire without metal": (
        CARRIED,
        "studio: {wires: {hot: 12 THWN-2}}",
        "did you mean `12 AWG Cu THWN-2` or `12 AWG Al",
    ),
    "copper": (CARRIED, "studio: {wires: {hot: 12 copper THWN-2}}", "did you mean `12 AWG Cu THWN-2`?"),
    "a missing end": ("    from: terrace-box\n", "", "add it, like `from: house-panel`"),
    "an enclosure by number": (
        "    duty: service equipment",
        "    duty: service equipment\n    enclosure: 4",
        'quotes: `"4"`',
    ),
}


@pytest.mark.parametrize("said", SAID)
def test_a_hint_uses_what_was_written(said: str) -> None:
    """One problem, one hint; and with what the hint offers for a value the plan can be read."""
    old, new, hint = SAID[said]
    told = refusal(studio(old, new))
    assert hint in told.hint
    key, _, value = new.partition(": ")
    offered = re.match(r"(?:write|did you mean) `([^`]+)`", told.hint)
    if offered and old.startswith(f"{key}: ") and "{" not in value:
        assert refusals(studio(old, f"{key}: {offered[1]}")) == ()


def test_an_offer_never_turns_no_ground_into_a_ground() -> None:
    """What was said of the ground stays said."""
    hint = refusal(studio(CARRIED, "studio: {cable: romex 12-2 no ground}")).hint
    assert "`NM-B 12/2 no ground`" in hint and "`NM-B 12/2`?" not in hint


def test_a_key_that_is_misspelt_is_not_told_as_missing_too() -> None:
    """One mistake, one line."""
    for old, new in (
        ("    carries:\n", "    caries:\n"),
        ("    from: terrace-box", "    source: terrace-box"),
        ("    from: house-panel\n    voltage", "    frm: house-panel\n    voltage"),
        ("    at: house\n", "    att: house\n"),
        ("    at: studio\n", "    att: studio\n"),
    ):
        assert "did you mean" in refusal(studio(old, new)).hint


@pytest.mark.parametrize("legs", ["", "    legs: []\n", "    legs:\n"])
def test_a_route_says_what_it_passes(legs: str) -> None:
    """Wiring that lies nowhere would be looked at by no rule."""
    text = studio(
        "    legs:\n      - {in: wall framing, length: 14 ft, location: dry, edge-distance: 1 1/2 in}\n", legs
    )
    assert "`legs: [{buried: lawn, cover: 18 in}]`" in refusal(text).hint.replace("`[{", "`legs: [{")


def test_a_part_left_out_is_shown_whole() -> None:
    """In one line that can be copied."""
    text = studio("routes:\n", "boats:\n")
    hints = {problem.message: problem.hint for problem in refusals(text)}
    assert hints["`routes` is missing"].startswith("add it, like `routes: {orchard: {from: house-panel, to: post-box,")
    assert hints["`routes` is missing"].endswith("}}`")
