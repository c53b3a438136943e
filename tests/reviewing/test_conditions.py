"""Conditions of rules: asked once of a subject for all rules that share them, and told as each rule's own answer."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from precover.plan import Receptacle
from precover.reviewing import Review
from precover.rulebook import Answer, Look, Outcome, Rule, Rulebook, Severity, Stage, Topic, met, not_met, rule
from support.narrowed import Shelf, review_with
from support.reviews import example, library

OUTLET = "/boxes/post-box/devices/outlet"


def made(condition: Any, *, wants: bool = True) -> Rule:
    """A rule of receptacles under conditions that is met where they let it run and `wants` is so."""

    @rule(looks_at=Receptacle, severity=Severity.ADVICE, stage=Stage.FINAL, look_up="here", unless=condition)
    def runs(receptacle: Receptacle, look: Look) -> Answer:
        """It runs."""
        look.because("it ran")
        return met("outlet", "so") if wants else not_met("outlet", "not so", "so")

    return runs


def reviewed(*rules: Rule, **outlet: object) -> Review:
    """The review of a plan with one receptacle by these rules alone."""
    named = tuple(one.named("trial/conditions", f"rule-{number}") for number, one in enumerate(rules))
    topic = Topic("trial/conditions", Path(__file__), named, ())
    book = library().book()
    data = example("orchard-pump")
    data["boxes"]["post-box"]["devices"] = {"outlet": {"receptacle": "20 A", **outlet}}
    return review_with(Shelf(Rulebook(book.packs, {topic.id: topic}, book.tables)), data)


class Counted:
    """A condition that counts how often it is asked."""

    def __init__(self, why: str) -> None:
        self.why = why
        self.asked = 0

    def __call__(self, _receptacle: Receptacle, look: Look) -> str:
        self.asked += 1
        look.because(f"asked {self.why}")
        return self.why


def test_a_condition_is_asked_once_for_all_its_rules() -> None:
    """Each of them has its own line in the ledger and in the tally."""
    never = Counted("never")
    review = reviewed(made(never), made(never), made(()))
    assert never.asked == 1
    assert [(line.rule.id[-1], line.answer.outcome, line.answer.why, line.steps) for line in review.ledger] == [
        ("0", Outcome.DOES_NOT_APPLY, "never", ()),
        ("1", Outcome.DOES_NOT_APPLY, "never", ()),
        ("2", Outcome.MET, "", (("it ran", None),)),
    ]
    assert review.tally == {**dict.fromkeys(Outcome, 0), Outcome.DOES_NOT_APPLY: 2, Outcome.MET: 1}
    assert review.findings == ()


def test_the_first_condition_that_says_why_is_the_answer() -> None:
    """Those after it are not asked; one that rules with other conditions share is not asked again."""
    always, first, second = Counted(""), Counted("first"), Counted("second")
    review = reviewed(made((always, first, second)), made((always, second)), made(always, wants=False))
    assert (always.asked, first.asked, second.asked) == (1, 1, 1)
    assert [line.answer.why for line in review.ledger] == ["first", "second", ""]
    assert [finding.line.rule.id[-1] for finding in review.findings] == ["2"]


def test_what_conditions_note_begins_the_derivation_of_each_rule() -> None:
    """In the order of the conditions, and in that of no other rule."""
    one, other = Noting("one"), Noting("other")
    review = reviewed(made((one, other)), made((one, other)), made(other), made(()))
    ran = ("it ran", None)
    assert [line.steps for line in review.ledger] == [
        (("one", None), ("other", None), ran),
        (("one", None), ("other", None), ran),
        (("other", None), ran),
        (ran,),
    ]
    assert [len(line.cells) for line in review.ledger] == [1, 1, 1, 0]


def test_what_is_noted_twice_is_told_once() -> None:
    """By a condition, and by the rule that asks the same."""
    (line,) = reviewed(made((Noting("it ran"), Noting("it ran")))).ledger
    assert line.steps == (("it ran", None),)


class Noting:
    """A condition that lets every rule run, and notes a step and a limit."""

    def __init__(self, step: str) -> None:
        self.step = step

    def __call__(self, _receptacle: Receptacle, look: Look) -> str:
        look.because(self.step)
        if self.step != "one":
            look.limit("lights on a branch circuit")
        return ""


def silent(_receptacle: Receptacle, _look: Look) -> str:
    """A condition that notes nothing."""
    return ""


def test_the_derivation_of_a_rule_is_not_that_of_the_rule_before() -> None:
    """Though they share a condition."""
    review = reviewed(made(silent), made((silent,)), made((silent, silent)))
    assert [line.steps for line in review.ledger] == [(("it ran", None),)] * 3


def unprotected(receptacle: Receptacle, look: Look) -> str:
    """A condition that hangs on a fact."""
    return "" if look.stated(receptacle.ground_fault) else "no ground-fault receptacle"


def test_a_condition_can_hang_on_a_fact_that_is_not_stated() -> None:
    """Then each rule is asked by itself: the fact matters to one that is not met, and not to one that is."""
    review = reviewed(made(unprotected), made(unprotected, wants=False), made((), wants=False))
    fine, asking, found = sorted(review.ledger, key=lambda line: line.rule.id)
    assert fine.answer.outcome is Outcome.MET
    assert ("ground-fault is not stated, and could not change the answer", f"{OUTLET}/ground-fault") in fine.steps
    assert asking.answer.outcome is Outcome.CANNOT_TELL
    assert asking.answer.asks is not None
    assert asking.answer.asks.place == f"{OUTLET}/ground-fault"
    assert found.answer.outcome is Outcome.NOT_MET
    stated = reviewed(made(unprotected), made(unprotected, wants=False), **{"ground-fault": False})
    assert [line.answer.why for line in stated.ledger] == ["no ground-fault receptacle"] * 2


def failing(_receptacle: Receptacle, _look: Look) -> str:
    """A condition with a fault."""
    raise ZeroDivisionError("of a condition")


def test_a_condition_that_fails_costs_its_rules_only() -> None:
    """Each is noted as a rule that failed."""
    never = Counted("never")
    review = reviewed(made(failing), made((never, failing)), made((failing, never)), made(()))
    told = "failed on /boxes/post-box/devices/outlet: ZeroDivisionError: of a condition"
    assert review.failures == (("trial/conditions/rule-0", told), ("trial/conditions/rule-2", told))
    assert [line.rule.id[-1] for line in review.ledger] == ["1", "3"]


def test_conditions_stand_among_what_a_topic_reads() -> None:
    """A limit that only a condition looks up is shown with the topic."""
    from precover.showing.reads import cells_read

    def small(_receptacle: Receptacle, look: Look) -> str:
        """Reads a limit."""
        return "" if look.limit("lights on a branch circuit").value else "small"

    book = library().book()
    topic = Topic("trial/conditions", Path(__file__), (made(small).named("trial/conditions", "reads"),), ())
    assert book.tables["limits"][("lights on a branch circuit",)] in cells_read(topic, book)
