"""Rules of the tests' own, so that whole outputs do not move when the built-in rules grow."""

from __future__ import annotations

from pathlib import Path

from precover.amending.prover import ways_out
from precover.amending.way import Proved
from precover.plan import BuriedLeg, Receptacle, Structure
from precover.reviewing import Review, open_plan, review
from precover.rulebook import (
    Answer,
    Effort,
    Look,
    Pack,
    Proposal,
    Severity,
    Stage,
    Topic,
    at_least,
    does_not_apply,
    inspection,
    met,
    not_met,
    rule,
)
from precover.rulebook.book import Library

HERE = Path(__file__).parent / "barn"
PLAN = HERE / "barn.plan.yaml"


@rule(looks_at=BuriedLeg, severity=Severity.CORRECTION, stage=Stage.TRENCH, rows=("depth",))
def deep_enough(leg: BuriedLeg, look: Look) -> Answer:
    """Wiring in the ground lies deep enough for what is above it."""
    if leg.buried != "lawn":
        return does_not_apply("not a lawn")
    cover = look.stated(leg.cover)
    look.because("a lawn is dug up now and then", leg.place)
    look.because("no concrete lies over the wiring")
    needed = look.limit("depth in a lawn")
    amend = Proposal.state(f"bury it {needed.text} deep", Effort.DIGGING, (leg, "cover", needed.text))
    return at_least("cover", cover, needed, at=f"{leg.place}/cover", amend=(amend,))


@rule(looks_at=BuriedLeg, severity=Severity.ADVICE, stage=Stage.TRENCH, rows=("depth",))
def out_of_reach(leg: BuriedLeg, look: Look) -> Answer:
    """Wiring in the ground lies out of reach of a spade."""
    return at_least("cover", look.stated(leg.cover), look.limit("depth out of reach of a spade"))


@rule(looks_at=Receptacle, severity=Severity.DANGER, stage=Stage.FINAL, rows=("outlet",))
def outlet_protected(outlet: Receptacle, look: Look) -> Answer:
    """Outlets of a barn have ground-fault protection."""
    if look.stated(outlet.ground_fault):
        return met("ground-fault protection", "of its own")
    return not_met("ground-fault protection", "none", "of its own or from ahead", why="a barn is a damp place")


@rule(looks_at=Structure, severity=Severity.ADVICE, stage=Stage.PLAN, look_up="Handbook, page 4", hazard="confusion")
def detached_said(structure: Structure, look: Look) -> Answer:
    """The plan says that a barn stands by itself."""
    if structure.use != "accessory":
        return does_not_apply("not a barn")
    return met("detached", "yes") if look.stated(structure.detached) else not_met("detached", "no", "yes")


@inspection(looks_at=BuriedLeg, stage=Stage.TRENCH, rows=("depth",))
def trench_open(leg: BuriedLeg, look: Look) -> str | None:
    """The trench is seen open."""
    return f"The trench is open, with {look.limit('depth in a lawn').text} above the wiring."


TRENCH = ("deep_enough", "out_of_reach", "trench_open")
OUTLETS = ("outlet_protected", "detached_said")


def _topic(name: str, parts: tuple[str, ...]) -> Topic:
    named = [globals()[part].named(name, part) for part in parts]
    rules = tuple(part for part in named if hasattr(part, "check"))
    return Topic(name, HERE / "trench.md", rules, tuple(part for part in named if part not in rules), "barn")


def barn_library(failures: tuple[tuple[str, str], ...] = ()) -> Library:
    """The tests' own rules and pack."""
    topics = [_topic("ground/trench", TRENCH), _topic("barn/outlets", OUTLETS)]
    pack = Pack("barn-2023", "Barn rules", "2023", HERE / "tables", HERE / "requirements.csv", "Invented.")
    return Library({topic.id: topic for topic in topics}, {pack.id: pack}, failures)


def barn_review(
    text: str | None = None, failures: tuple[tuple[str, str], ...] = (), name: str = "barn.plan.yaml"
) -> Review:
    """The review of the barn, or of another text, under the tests' own rules."""
    raw = PLAN.read_bytes() if text is None else text.encode()
    return review(open_plan(name, raw), barn_library(failures), ("barn-2023",))


def barn_proved(text: str | None = None, failures: tuple[tuple[str, str], ...] = ()) -> Proved:
    """The review with its proved ways out."""
    opened = open_plan("barn.plan.yaml", PLAN.read_bytes() if text is None else text.encode())
    library = barn_library(failures)
    made = review(opened, library, ("barn-2023",))
    return Proved(made, ways_out(made, opened))


def good_barn() -> str:
    """The text of a barn without findings."""
    return (
        PLAN.read_text(encoding="utf-8")
        .replace("cover: 14 in", "cover: 18 in")
        .replace("length: 10 ft}", "length: 10 ft, cover: 20 in}")
        .replace("ground-fault: false", "ground-fault: true")
        .replace("second: {receptacle: 20 A}", "second: {receptacle: 20 A, ground-fault: true}")
        .replace("use: accessory}", "use: accessory, detached: true}")
    )
