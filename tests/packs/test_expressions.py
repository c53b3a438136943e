"""Requirements in CEL: what an expression means, what it may not say, and how it asks for what a plan leaves out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precover.reviewing import Line, Review
from precover.rulebook import PackUnreadable
from precover.rulebook.cel.kinds import fields, subjects
from precover.rulebook.cel.syntax import DEEPEST, LONGEST
from support.reviews import asked, example, library, reviewed

OUTLET = "/boxes/post-box/devices/outlet"
HEAD = "format: precover-pack/1\nid: town\ntitle: Town\nextends: us-2023\n"


def pack(folder: Path, about: str, require: str, when: str = "", more: str = "") -> str:
    """A pack file with one requirement."""
    path = folder / "town.pack.yaml"
    lines = [f"    about: {about}", f"    require: >-\n      {require}", "    says: It is so."]
    lines += [f"    when: >-\n      {when}"] if when else []
    body = "\n".join(["requirements:", "  one:", *lines])
    path.write_text(f"{HEAD}{more}{body}\n", encoding="utf-8")
    return str(path)


def judged(
    folder: Path, about: str, require: str, at: str, patch: Any = "", base: str = "orchard-pump", **more: str
) -> Line:
    """What a requirement answers on one thing."""
    (found,) = [
        line for line in of(folder, about, require, patch, base, **more).ran if line.subject == at and line.rule.set_by
    ]
    return found


def of(folder: Path, about: str, require: str, patch: Any = "", base: str = "orchard-pump", **more: str) -> Review:
    """The review under a pack of one requirement; no rule of it may fail."""
    made = reviewed(example(base, patch), (pack(folder, about, require, **more),))
    assert made.failures == ()
    return made


def outlet(**facts: Any) -> dict[str, Any]:
    """The pump's post receptacle with other facts."""
    return {"boxes": {"post-box": {"devices": {"outlet": facts}}}}


MEANINGS = {
    "a length at the limit": ('receptacle.height >= "24 in"', outlet(height="24 in"), "met"),
    "a length in other units": ('receptacle.height >= "24 in"', outlet(height="610 mm"), "met"),
    "a length below it": ('receptacle.height >= "24 in"', outlet(height="23 in"), "not met"),
    "the limit on the left": ('"24 in" <= receptacle.height', outlet(height="23 in"), "not met"),
    "equal in another unit": ('receptacle.height == "2 ft"', outlet(height="24 in"), "met"),
    "more than": ('receptacle.height > "24 in"', outlet(height="24 in"), "not met"),
    "less than": ('receptacle.height < "24 in"', outlet(height="24 in"), "not met"),
    "a sum": ('receptacle.height + "6 in" <= "30 in"', outlet(height="24 in"), "met"),
    "a difference": ('receptacle.height - "6 in" >= "19 in"', outlet(height="24 in"), "not met"),
    "a product": ('receptacle.height * 1.5 == "3 ft"', outlet(height="24 in"), "met"),
    "a word": ('receptacle.cover == "in-use"', "", "met"),
    "another word": ('receptacle.cover != "in-use"', "", "not met"),
    "a list of words": ('receptacle.cover in ["closed", "in-use"]', "", "met"),
    "a fact of another thing": ('receptacle.circuit.breaker.rating == "20 A"', "", "met"),
    "an option that is not there": ("receptacle.locking", "", "not met"),
    "not an option that is not there": ("!receptacle.locking", "", "met"),
    "compared with what is not there": ('receptacle.sink_distance >= "6 ft"', "", "not met"),
    "other than what is not there": ('receptacle.serves != "pump"', "", "met"),
    "beyond what is not there": ('receptacle.sink_distance < "6 ft"', "", "not met"),
    "has": ("has(receptacle.sink_distance)", outlet(**{"sink-distance": "3 ft"}), "met"),
    "has not": ("has(receptacle.sink_distance)", "", "not met"),
    "and": ('receptacle.cover == "in-use" && receptacle.locking', "", "not met"),
    "or": ('receptacle.cover == "in-use" || receptacle.locking', "", "met"),
    "if": ('receptacle.locking ? receptacle.cover == "none" : receptacle.cover == "in-use"', "", "met"),
    "a number": ("receptacle.circuit.breaker.poles == 1", "", "met"),
    "a count": ("receptacle.box.devices.size() == 2", "", "met"),
    "exists": ('receptacle.box.devices.exists(d, d.kind == "switch")', "", "met"),
    "all": ('receptacle.box.devices.all(d, d.kind == "switch")', "", "not met"),
    "exactly one": ('receptacle.box.devices.exists_one(d, d.kind == "switch")', "", "met"),
    "filter": ('receptacle.box.devices.filter(d, d.kind == "switch").size() == 1', "", "met"),
    "map": ('"switch" in receptacle.box.devices.map(d, d.kind)', "", "met"),
    "what a device of another kind has not": ('receptacle.box.devices.exists(d, d.cover == "in-use")', "", "met"),
    "a text": (
        'receptacle.id.startsWith("out") && receptacle.id.contains("tl") && receptacle.id.endsWith("et")',
        "",
        "met",
    ),
    "a limit": ('receptacle.height <= limit("height that needs no tamper resistance")', outlet(height="5.5 ft"), "met"),
    "a limit in metric": (
        'receptacle.height <= limit("height that needs no tamper resistance")',
        outlet(height="1.7 m"),
        "met",
    ),
    "a cell": ('cell("ground-fault-places", "garage")', "", "met"),
    "the plan": ("plan.circuits.size() == 1 && site.frost", "", "met"),
    "the structure": ('receptacle.structure.use == "post"', "", "met"),
    "brackets": ('!(receptacle.cover == "in-use" && (receptacle.locking || receptacle.deicing))', "", "met"),
    "a voltage": (
        'receptacle.circuit.voltage == "120 V" && receptacle.circuit.voltage.line_to_ground == 120',
        "",
        "met",
    ),
}


@pytest.mark.parametrize(("require", "patch", "expected"), MEANINGS.values(), ids=MEANINGS)
def test_what_an_expression_means(require: str, patch: Any, expected: str, tmp_path: Path) -> None:
    """True is met, false is not met."""
    assert judged(tmp_path, "receptacle", require, OUTLET, patch).answer.outcome.value == expected


THINGS = {
    "conductors": ('conductors.carried.cable.type == "UF-B" && conductors.leg.kind == "buried-leg"', "/routes/to-pump/legs/1"),
    "buried-leg": ('buried_leg.raceway_around.absent && buried_leg.circuits.all(c, c.kind == "branch circuit")', "/routes/to-pump/legs/1"),
    "leg": ('leg.kind != "bend" && leg.route.raceway.absent', "/routes/to-pump/legs/0"),
    "route": ('route.length == "69 ft" && route.from_structure.use == "dwelling" && route.to_structure.use == "post"', "/routes/to-pump"),
    "carried": ('carried.cable.size == "12 AWG" && carried.cable.size >= "14 AWG" && carried.circuit.length == "69 ft"', "/routes/to-pump/carries/pump"),
    "circuit": ('circuit.routes.size() == 1 && circuit.devices.size() == 2 && has(circuit.panel)', "/circuits/pump"),
    "panel": ('panel.circuits.size() == 1 && panel.main.rating == "200 A" && !has(panel.feeder)', "/panels/farmhouse-panel"),
    "structure": ("structure.supplies.size() == 1 && structure.circuits.size() == 1 && structure.boxes.size() == 1", "/structures/pump-post"),
    "box": ('box.structure.use == "post" && box.box.volume >= "32 in3" && box.devices.size() == 2', "/boxes/post-box"),
    "switch": ("switch.protectors.exists(p, p.class_a && p.kind == 'breaker' && p.structure.use == 'dwelling')", "/boxes/post-box/devices/main-switch"),
    "grounding": ("grounding.electrodes.size() == 0", "/structures/pump-post/grounding"),
    "plan": ('plan.site.premises == "one-family dwelling"', ""),
    "site": ('site.design_high <= "90 °F"', "/site"),
    "rise-leg": ('rise_leg.rise >= "2 ft" && rise_leg.protectors.exists(p, p.class_a)', "/routes/to-pump/legs/2"),
}  # fmt: skip


@pytest.mark.parametrize(("about", "require", "at"), [(about, *one) for about, one in THINGS.items()], ids=THINGS)
def test_what_a_requirement_can_be_about(about: str, require: str, at: str, tmp_path: Path) -> None:
    """A thing of each kind, with what it belongs to and what is worked out."""
    assert judged(tmp_path, about, require, at).answer.outcome.value == "met"


def test_every_field_of_every_thing_has_a_kind() -> None:
    """What can be asked of a thing can be followed to its end."""
    seen: set[type] = set()
    waiting = list(subjects().values())
    while waiting:
        of_ = waiting.pop()
        if of_ in seen:
            continue
        seen.add(of_)
        for field in fields(of_).values():
            kind = field.kind.of if field.kind.sort == "list" else field.kind
            assert str(field.kind)
            if kind.sort in ("thing", "notation"):
                waiting.append(kind.of)
    assert len(seen) > 30


# What the plan leaves out


def test_an_unstated_fact_that_matters_becomes_a_query(tmp_path: Path) -> None:
    """As with a rule of the engine."""
    made = of(tmp_path, "receptacle", 'receptacle.height >= "24 in"')
    assert f"{OUTLET}/height" in asked(made)


@pytest.mark.parametrize(
    "require",
    [
        'receptacle.cover == "in-use" || receptacle.height >= "24 in"',
        'receptacle.height >= "24 in" || receptacle.cover == "in-use"',
        'receptacle.height >= "0 in"',
        "receptacle.height >= '24 in' ? receptacle.cover == 'in-use' : receptacle.cover != 'none'",
    ],
)
def test_one_that_does_not_matter_is_not_asked_for(require: str, tmp_path: Path) -> None:
    """On whichever side of an `or` it stands, and whatever it may be."""
    line = judged(tmp_path, "receptacle", require, OUTLET)
    assert line.answer.outcome.value == "met"


def test_a_condition_that_is_not_stated(tmp_path: Path) -> None:
    """It is asked for where the requirement would not be met."""
    when = "receptacle.single"
    line = judged(tmp_path, "receptacle", 'receptacle.cover == "closed"', OUTLET, when=when)
    assert (line.answer.outcome.value, line.place) == ("cannot tell", f"{OUTLET}/single")
    assert (
        judged(tmp_path, "receptacle", 'receptacle.cover == "in-use"', OUTLET, when=when).answer.outcome.value == "met"
    )


def test_whether_something_is_stated_is_no_question(tmp_path: Path) -> None:
    """`has` of a fact asks whether the plan states it."""
    assert judged(tmp_path, "receptacle", "has(receptacle.height)", OUTLET).answer.outcome.value == "not met"
    assert judged(tmp_path, "receptacle", "has(receptacle.cover)", OUTLET).answer.outcome.value == "met"


def test_an_answer_says_what_was_measured(tmp_path: Path) -> None:
    """Fact, value, limit, steps, place, and the cell that it was compared with."""
    limit = 'receptacle.height <= limit("height that needs no tamper resistance")'
    line = judged(tmp_path, "receptacle", limit, OUTLET, outlet(height="7 ft"))
    assert (line.answer.of, str(line.answer.has), str(line.answer.needs), line.answer.relation) == (
        "height",
        "7 ft",
        "5.5 ft",
        "at most",
    )
    assert line.place == f"{OUTLET}/height"
    assert line.steps == (("height: 7 ft", f"{OUTLET}/height"),)
    assert line.answer.limit is not None and line.answer.limit in line.cells
    line = judged(tmp_path, "receptacle", 'receptacle.cover == "closed" && site.frost', OUTLET)
    assert (line.answer.has, line.answer.needs) == ("cover in-use", "It is so")


# What an expression may not say


REFUSED = {
    "an unknown name": ("outlet.cover == 'x'", "`outlet` is nothing known here", "receptacle"),
    "an unknown field": ("receptacle.colour == 'x'", "a receptacle has no `colour`", "did you mean `cover`?"),
    "a field of a text": ("receptacle.id.length > 2", "text has no fields", ""),
    "an unknown call": ("matches(receptacle.id, '(a+)+$')", "`matches()` is nothing known here", "known here: "),
    "an unknown test": ("receptacle.id.matches('(a+)+$')", "`matches()` is nothing known here", ""),
    "no yes or no": ("receptacle.cover", "this is text, not yes or no", "compare it"),
    "a length beside a current": ("receptacle.height >= receptacle.receptacle", "a length beside a current", "alike"),
    "a number beside a length": ("receptacle.height >= 24", "a length beside a number", "alike"),
    "an order of words": ("receptacle.cover > 'closed'", "text is neither more nor less", "`==`"),
    "a thing compared": ("receptacle.box == receptacle.box", "a box cannot be compared", "one of its fields"),
    "yes and a number": ("receptacle.locking && 1", "this is a number, not yes or no", ""),
    "a loop over no list": ("receptacle.box.exists(d, true)", "a box is no list", ""),
    "a loop without a name": ("plan.boxes.exists(true, true)", "`exists()` takes a name and an expression", ""),
    "a loop under a name that is taken": ("plan.boxes.exists(receptacle, true)", "`receptacle` is something already", ""),
    "a limit that is not there": ("receptacle.height > limit('height')", "there is no limit `height`", ""),
    "a limit that is worked out": ("receptacle.height > limit(receptacle.id)", "takes names in quotes", ""),
    "a limit of another kind": ("receptacle.height > limit('handles of a disconnecting means')", "a length beside a number", ""),
    "a cell that is not there": ("cell('ground-fault-places', 'garages')", "has no cell `garages`", "did you mean `garage`?"),
    "a statement that nobody asks for": ("statements.flood", "no pack asks for the statement `flood`", "declare it"),
    "a division": ("receptacle.box.devices.size() / 2 == 1", "division is not offered here", "multiply"),
    "a list index": ("receptacle.box.devices[0].locking", "this form is not offered here", ""),
    "a map": ("{'a': true}.a", "this form is not offered here", ""),
    "null": ("receptacle.serves == null", "this kind of value is not offered here", ""),
    "bytes": ("receptacle.id == b'x'", "this kind of value is not offered here", ""),
    "a huge number": (f"plan.boxes.size() < {'9' * 30}", "is not a number offered here", ""),
    "no expression": ("receptacle..id", "this cannot stand here", "check operators"),
    "too long": ("true || " * (LONGEST // 8) + "true", "this has 2,0", "at most 2,000"),
    "too deep": ("(" * (DEEPEST + 1) + "true" + ")" * (DEEPEST + 1), f"nested more than {DEEPEST} levels", ""),
    "too many signs": ("!" * (DEEPEST + 1) + "true", f"nested more than {DEEPEST} levels", ""),
    "too many terms": ("true" + " || true" * 130, "too many terms", ""),
    "loops within loops": (
        "plan.boxes.all(a, plan.boxes.all(b, plan.boxes.all(c, plan.boxes.all(d, true))))",
        "more than 3 loops within each other",
        "",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("require", "message", "hint"), REFUSED.values(), ids=REFUSED)
def test_what_an_expression_may_not_say(require: str, message: str, hint: str, tmp_path: Path) -> None:
    """It is told when the pack is read, with what to write instead."""
    with pytest.raises(PackUnreadable) as raised:
        library().book((pack(tmp_path, "receptacle", require),))
    (problem,) = raised.value.problems
    assert message in problem.message
    assert hint in problem.hint
    assert problem.line == 8


def test_a_statement_is_a_fact_of_the_plan(tmp_path: Path) -> None:
    """Stated, unstated, and stated with something that is no answer."""
    more = "statements:\n  in-flood: {asks: Whether it is in the flood., answer: yes or no}\n"
    answers = {}
    for given in (True, False, None, "perhaps"):
        patch = {} if given is None else {"statements": {"in-flood": given}}
        line = judged(tmp_path, "plan", "!statements.in_flood", "", patch, more=more)
        answers[given] = (line.answer.outcome.value, line.place)
    place = "/statements/in-flood"
    assert answers == {
        True: ("not met", place),
        False: ("met", place),
        None: ("cannot tell", place),
        "perhaps": ("not met", place),
    }
