"""Mistakes that people make in a plan: each told once, at its place, in words that say what to write instead."""

from __future__ import annotations

import pytest

from support.refusals import STUDIO, at, refusal, refusals, studio

LENGTH = "write it like `12 ft 6 in`; units: in, ft, mm, cm, m"
COVER = "write it like `18 in`; units: in, ft, mm, cm, m"
LEG_HEADS = "it needs one of: buried, rise, on, in, through, bend, overhead"
KNOWN = "true or false"
BREAKER = "breaker: {rating: 20 A, poles: 1, ground-fault: none, arc-fault: false, readily-accessible: true}"
LAMP = "{luminaire: 40 W, listed-for: dry, switched-by: entry-box/main-switch}"

MISTAKES: dict[str, tuple[str, str, str, str, str]] = {
    # What is wrong -> what stands in the plan, what is written instead, the text marked, the message, the hint
    "a length without unit": (
        "cover: 18 in",
        "cover: 18",
        "18",
        "`18` has no unit",
        "write `18 in`, or with the unit that is meant: in, ft, mm, cm, m",
    ),
    "a unit misspelt": ("cover: 18 in", "cover: 18 inn", "18 inn", "`18 inn` is not a length", LENGTH),
    "a word for a length": ("cover: 18 in", "cover: deep", "deep", "`deep` is not a length", LENGTH),
    "a list for a length": ("cover: 18 in", "cover: [18 in]", "[18", "text belongs here, not a list", COVER),
    "true for a length": ("cover: 18 in", "cover: true", "true}", "text belongs here, not true or false", COVER),
    "no length at all": ("cover: 18 in", 'cover: ""', '""', "a length is missing here", "12 ft 6 in"),
    "a negative length": ("cover: 18 in", "cover: -18 in", "-18 in", "`-18 in` is not a length", LENGTH),
    "a decimal comma": ("cover: 18 in", 'cover: "1,5 ft"', '"1,5 ft"', "`1,5 ft` is not a length", LENGTH),
    "inches ahead of feet": (
        "cover: 18 in",
        "cover: 6 in 1 ft",
        "6 in 1 ft",
        "a smaller unit first",
        "larger unit first",
    ),
    "inches twice": ("cover: 18 in", "cover: 6 in 6 in", "6 in 6 in", "puts a unit twice", "larger unit first"),
    "a zero below the stroke": ("cover: 18 in", "cover: 1/0 in", "1/0 in", "divides by zero", "12 ft 6 in"),
    "a very long length": ("cover: 18 in", f"cover: {'1 in ' * 2000}", "1 in 1 in", "9,999 characters", "at most 40"),
    "a current without unit": ("rating: 20 A", "rating: 20", "20, poles", "`20` has no unit", "`20 A`"),
    "a current in other words": ("rating: 20 A", "rating: 20 ampere", "20 ampere", "not a current", "`20 A`"),
    "a temperature without unit": (
        "92 °F",
        "92",
        "92",
        "`92` has no unit",
        "write `92 °F`, or with the unit that is meant: °F, °C",
    ),
    "a volume without unit": ("32 in³", "32", "32, listed", "`32` has no unit", "write `32 in³`"),
    "a voltage the wrong way round": (
        "voltage: 120 V",
        "voltage: 240/120 V",
        "240/120 V",
        "higher voltage first",
        "120/240 V",
    ),
    "no voltage": ("voltage: 120 V", "voltage: 0 V", "0 V", "no voltage at all", "120 V"),
    "alternating current spelt out": (
        "voltage: 120 V",
        "voltage: 120V AC",
        "120V AC",
        "not a circuit voltage",
        "120/240 V",
    ),
    "a main without unit": ("main: 200 A", "main: 200", "200\n", "`200` has no unit", "write `200 A`"),
    "a main that is no rating": (
        "main: 200 A",
        "main: yes",
        "yes",
        "`yes` is not a current",
        "`none` for main lugs only",
    ),
    "a main with a letter that folds to s": ("main: 200 A", "main: 200 ampſ", "200 ampſ", "not a current", "100 A"),
    "a load in another unit": (
        LAMP,
        "{equipment: kiln, load: 40 X}",
        "40 X",
        "`40 X` is not an apparent power",
        "VA, kVA or: write it like `1500 W`; units: W, kW",
    ),
    "a load without unit": (LAMP, "{equipment: kiln, load: 40}", "40}", "`40` has no unit", "VA, kVA, W, kW"),
    "a load that is a mapping": (LAMP, "{equipment: kiln, load: {a: 1}}", "{a: 1}", "not a mapping", "VA, kVA, W, kW"),
    # Notations
    "a cable type cut short": ("cable: NM-B 12/2", "cable: NM 12/2", "NM 12/2", "`NM` is not a cable type", "NM-B"),
    "a cable with a hyphen": ("cable: NM-B 12/2", "cable: NM-B 12-2", "NM-B 12-2", "can be read in two ways", "12/2"),
    "a cable the wrong way round": ("cable: NM-B 12/2", "cable: 12/2 UF", "12/2 UF", "not a cable", "`UF-B 12/2`"),
    "a cable as a mapping": ("cable: NM-B 12/2", "cable: {type: NM-B}", "{type", "not a mapping", "`UF-B 12/2`"),
    "a raceway without schedule": (
        "PVC-80 3/4 in",
        "PVC 3/4 in",
        "PVC 3/4",
        "`PVC` is not a raceway type",
        "PVC-40, PVC-80",
    ),
    "a raceway size not made": ("PVC-80 3/4 in", "PVC-80 5/8 in", "PVC-80 5/8", "not a trade size", "1/2, 3/4"),
    "no raceway in YAML 1.1": ("raceway: none", "raceway: no", "no\n", "`no` is not a raceway", "`none`"),
    # Words
    "a word misspelt": (
        "use: accessory",
        "use: acessory",
        "acessory",
        "`acessory` is not one",
        "did you mean `accessory`?",
    ),
    "a word with a capital": ("location: wet", "location: Wet", "Wet", "`Wet` is not one", "did you mean `wet`?"),
    "a word with a hyphen": (
        "kind: branch circuit",
        "kind: branch-circuit",
        "branch-circuit",
        "not one",
        "`branch circuit`?",
    ),
    "an unknown word": ("use: accessory", "use: spaceship", "spaceship", "`spaceship` is not one", "one of: dwelling"),
    "a very long word": (
        "location: wet",
        f"location: {'x' * 5000}",
        "xxx",
        "...` is not one",
        "one of: dry, damp, wet",
    ),
    "a number for a word": (
        "location: wet",
        "location: 3",
        "3",
        "text belongs here, not `3`",
        "one of: dry, damp, wet",
    ),
    "a list of words": ("location: wet", "location: [wet, dry]", "[wet", "not a list", "one of: dry, damp, wet"),
    "yes for true": ("detached: true", "detached: yes", "yes", f"{KNOWN} belongs here", "write `true`"),
    "off for false": ("habitable: false", "habitable: off", "off", f"{KNOWN} belongs here", "write `false`"),
    "a quoted true": ("detached: true", 'detached: "true"', '"true"', f"{KNOWN} belongs here", "write `true`"),
    "one for true": ("detached: true", "detached: 1", "1,", f"{KNOWN} belongs here, not `1`", "or leave the key out"),
    "unknown for a fact": (
        "detached: true",
        "detached: unknown",
        "unknown",
        f"{KNOWN} belongs here",
        "or leave the key out",
    ),
    "three poles": ("poles: 1", "poles: 3", "3", "`3` is not one of the values", "one of: 1, 2"),
    "poles in words": ("poles: 1", "poles: one", "one", "a whole number belongs here, not text", "one of: 1, 2"),
    "a pole and a half": ("poles: 1", "poles: 1.5", "1.5", "not `1.5`", "one of: 1, 2"),
    "true poles": ("poles: 1", "poles: true", "true", "not true or false", "one of: 1, 2"),
    "another format": ("precover-plan/1", "precover-plan/2", "precover-plan/2", "not known here", "`precover-plan/1`"),
    "a format that is a number": ("precover-plan/1", "1", "1\n", "`1` is not known here", "`precover-plan/1`"),
    # Nothing
    "a key without value": ("cover: 18 in", "cover: ", "}", "nothing is stated", "counts as unknown"),
    "a word left out": ("location: wet", "location:", "\n", "nothing is stated", "counts as unknown"),
    "null for a raceway": ("raceway: none", "raceway: null", "null", "nothing is stated", "counts as unknown"),
    "a device without anything": (LAMP, "", "\n", "nothing is stated", "counts as unknown"),
    "a leg without anything": ("- {bend: 90°}", "-", "\n", "nothing is stated", "counts as unknown"),
    # Shapes
    "a breaker that is a rating": (
        BREAKER,
        "breaker: 20 A",
        "20 A",
        "a mapping",
        "write `{rating: 20 A}`; it may have: rating, poles",
    ),
    "a structure that is a word": (
        "house: {use: dwelling, floor: at or below grade}",
        "house: dwelling",
        "dwelling\n",
        "a mapping",
        "{use",
    ),
    "a carried circuit that is a cable": (
        "studio: {cable: NM-B 12/2}",
        "studio: NM-B 12/2",
        "NM-B",
        "a mapping",
        "{cable",
    ),
    "carried circuits in a list": (
        "carries:\n      studio: {cable: NM-B 12/2}",
        "carries: [studio]",
        "[studio]",
        "a mapping",
        "{pump: {cable: UF-B 12/2}}",
    ),
    "rules that are a word": ("rules: [us-2023]", "rules: us-2023", "us-2023", "a list belongs here", "`[us-2023]`"),
    "a rule pack that is a year": (
        "rules: [us-2023]",
        "rules: [2023]",
        "2023",
        "text belongs here",
        "put it in quotes",
    ),
    "a title that is a year": (
        "title: One 20 A circuit to a detached pottery studio",
        "title: 2024",
        "2024",
        "text",
        "in quotes",
    ),
    "an empty title": (
        "title: One 20 A circuit to a detached pottery studio",
        'title: ""',
        '""',
        "empty",
        "remove the key",
    ),
    "a long title": ("title: One", f"title: {'x' * 600} One", "xxx", "characters", "at most 500 belong here"),
    "a leg that is a word": ("- {bend: 90°}", "- bend", "bend", "a mapping", "{buried: lawn"),
    "bays without end": (
        "floor: at or below grade}",
        "vehicle-bays: 5000}",
        "5000",
        "`5000` is out of range",
        "to 1000",
    ),
    # Kinds
    "a leg that does not say what it is": ("{bend: 90°}", "{length: 4 ft}", "{length", "does not say what", LEG_HEADS),
    "an empty leg": ("{bend: 90°}", "{}", "{}", "this leg does not say what", LEG_HEADS),
    "a leg misspelt": ("{buried: lawn,", "{burried: lawn,", "{burried", "does not say what", "did you mean `buried`?"),
    "a leg of two kinds": (
        "{bend: 90°}",
        "{bend: 90°, buried: lawn}",
        "{bend",
        "`buried` and `bend` exclude",
        "keep the one",
    ),
    "a device misspelt": (
        "receptacle: 20 A",
        "recepticle: 20 A",
        "recepticle",
        "does not say what",
        "did you mean `receptacle`?",
    ),
    "a device of two kinds": (
        "receptacle: 20 A",
        "receptacle: 20 A\n        switch: 20 A",
        "receptacle",
        "`receptacle` and `switch` exclude each other",
        "keep the one",
    ),
    "a cable and wires": (
        "{cable: NM-B 12/2}",
        "{cable: NM-B 12/2, wires: {hot: 12 AWG Cu THWN}}",
        "{cable",
        "`cable` and `wires` exclude each other",
        "keep one",
    ),
    # Keys
    "a key with an underscore": (
        "ground-fault: none",
        "ground_fault: none",
        "ground_fault",
        "not a key",
        "`ground-fault`?",
    ),
    "a key with a space": ("ground-fault: none", "ground fault: none", "ground fault", "not a key", "`ground-fault`?"),
    "a key with a capital": (
        "ground-fault: none",
        "Ground-fault: none",
        "Ground-fault",
        "not a key",
        "`ground-fault`?",
    ),
    "a key misspelt": ("cover: 18 in", "cvoer: 18 in", "cvoer", "`cvoer` is not a key", "did you mean `cover`?"),
    "a key of another thing": (
        "{bend: 90°}",
        "{bend: 90°, cover: 4 in}",
        "cover: 4",
        "not a key",
        "keys known here: length",
    ),
    "a list misspelt": ("boxes:\n", "boxs:\n", "boxs", "`boxs` is not a key", "did you mean `boxes`?"),
    "a very long key": (
        "{bend: 90°}",
        "{bend: 90°, ? " + "k" * 5000 + " : 1}",
        "kkk",
        "...` is not a key",
        "keys known here",
    ),
    "a key left out": (
        "  house-panel:\n    at: house\n",
        "  house-panel:\n",
        "house-panel:",
        "`at` is missing",
        "`at: house`",
    ),
    "a kind left out": (
        "    kind: branch circuit\n",
        "",
        "studio:\n    from",
        "`kind` is missing",
        "add `kind`, one of: branch circuit, feeder",
    ),
    # Ids
    "an id with a space": ("  house: {use", "  my house: {use", "my house", "cannot be an id", "starts with a letter"),
    "an id with a digit ahead": (
        "  house: {use",
        "  1st: {use",
        "1st",
        "`1st` cannot be an id",
        "starts with a letter",
    ),
    "an id with a stroke": ("  house: {use", "  a/b~c: {use", "a/b~c", "`a/b~c` cannot be an id", "letters, digits"),
    "an empty id": ("  house: {use", '  "": {use', '"":', "`` cannot be an id", "starts with a letter"),
    "an id of another alphabet": (
        "  house: {use",
        "  häuschen: {use",
        "häuschen",
        "cannot be an id",
        "letters, digits",
    ),
    "a very long id": ("  house: {use", f"  ? {'h' * 5000}\n  : {{use", "hhh", "...` cannot be an id", "at most 64"),
    "an id with an escape": ("  house: {use", '  "h\\e[31m": {use', '"h\\e', "cannot be an id", "letters, digits"),
    # References
    "a structure misspelt": (
        "at: house\n    area: garage",
        "at: hous\n    area: garage",
        "hous\n",
        "no structure `hous`",
        "`house`?",
    ),
    "a panel misspelt": (
        "from: house-panel\n    voltage",
        "from: house-panl\n    voltage",
        "house-panl",
        "no panel",
        "`house-panel`?",
    ),
    "a box misspelt": (
        "to: entry-box",
        "to: enty-box",
        "enty-box",
        "no panel or box `enty-box`",
        "did you mean `entry-box`?",
    ),
    "an end unlike any": ("to: entry-box", "to: moon", "moon", "no panel or box `moon`", "there are: house-panel"),
    "a very long end": ("to: entry-box", f"to: {'m' * 400}", "mmm", "...`", "there are: house-panel"),
    "a circuit misspelt": ("studio: {cable: NM-B", "studo: {cable: NM-B", "studo", "no circuit `studo`", "`studio`?"),
    "a route to itself": (
        "to: terrace-box",
        "to: house-panel",
        "house-panel\n    raceway",
        "ends where it begins",
        "leads to",
    ),
    "a circuit of a device": (
        "{receptacle: 20 A, ",
        "{receptacle: 20 A, circuit: x, ",
        "x,",
        "no circuit `x`",
        "there are: studio",
    ),
    "fed by nothing": (
        "{receptacle: 20 A, ",
        "{receptacle: 20 A, after: x, ",
        "x,",
        "no other ground-fault device",
        "none",
    ),
    "fed by itself": (
        "{receptacle: 20 A, ",
        "{receptacle: 20 A, after: bench-outlet, ",
        "bench-outlet,",
        "no other",
        "none",
    ),
    "fed by a switch": (
        "{receptacle: 20 A, ",
        "{receptacle: 20 A, after: main-switch, ",
        "main-switch,",
        "no other",
        "none",
    ),
    "a switch misspelt": (
        "entry-box/main-switch",
        "entry-box/main",
        "entry-box/main}",
        "no switch",
        "`entry-box/main-switch`?",
    ),
    "switched by a lamp": (
        "entry-box/main-switch",
        "ceiling-box/lamp",
        "ceiling-box/lamp",
        "no switch",
        "entry-box/main-switch",
    ),
    "from a switch": (
        "from: house-panel\n    voltage",
        "from: entry-box/main-switch\n    voltage",
        "entry-box/main",
        "no transformer",
        "none",
    ),
    "a box named like a panel": (
        "  ceiling-box:\n",
        "  house-panel:\n",
        "house-panel:\n    at: studio",
        "a panel too",
        "of its own",
    ),
}


@pytest.mark.parametrize(("old", "new", "marked", "message", "hint"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_told_once_at_its_place(old: str, new: str, marked: str, message: str, hint: str) -> None:
    """One mistake, one message; its line and column are those of the first `marked` at or after the change."""
    text = studio(old, new)
    if old == "  ceiling-box:\n":
        text = text.replace("to: ceiling-box", "to: house-panel")
        text = text[: text.index("  ceiling:\n")]
    begin = text.index(marked, STUDIO.index(old) - (0 if new else len(marked)))
    told = [problem for problem in refusals(text) if message in problem.message]
    assert len(told) == 1, refusals(text)
    assert hint in told[0].hint
    line = text.count("\n", 0, begin) + 1
    column = begin - text.rfind("\n", 0, begin)
    assert at(told[0]) == (line, column) or marked in ("\n", "}")
    assert told[0].line == line
    if old not in ("  house: {use", "    kind: branch circuit\n", "boxes:\n"):
        assert len(refusals(text)) == 1


def test_what_every_plan_needs_is_asked_for() -> None:
    """A plan with nothing but its format is told all that is missing."""
    problems = refusals("format: precover-plan/1\n")
    assert [problem.message for problem in problems] == [
        f"`{key}` is missing" for key in ("circuits", "panels", "routes", "structures")
    ]
    assert all(at(problem) == (1, 1) for problem in problems)


def test_devices_that_feed_each_other_in_a_loop() -> None:
    """Two receptacles, each after the other."""
    text = studio(
        "{receptacle: 20 A, voltage: 125 V, ground-fault: false, tamper-resistant: true}",
        "{receptacle: 20 A, after: wall-outlet}\n      wall-outlet: {receptacle: 20 A, after: bench-outlet}",
    )
    problems = refusals(text)
    assert len(problems) == 2
    assert all("in a loop" in problem.message for problem in problems)


def test_whole_numbers_may_have_a_point() -> None:
    """`1.0` is a whole number, as JSON Schema has it."""
    assert refusals(studio("poles: 1", "poles: 1.0")) == ()


def test_numbers_of_inches_may_be_written_in_many_ways() -> None:
    """Spaces of any kind, marks, and any case."""
    for written in ("18\u00a0in", '"18\\tin"', "18IN", "'18\"'", '"1 1/2\\tft"', "1\u202fft 6\u202fin", "0.4572 m"):
        assert refusals(studio("cover: 18 in", f"cover: {written}")) == (), written


def test_a_problem_says_where_it_is_in_the_file() -> None:
    """Also where many lines are ahead of it."""
    text = "# remark\n" * 500 + studio("cover: 18 in", "cover: deep")
    assert refusal(text).line == 500 + studio("cover: 18 in", "cover: deep").split("cover: deep")[0].count("\n") + 1
