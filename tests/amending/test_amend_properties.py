"""Whatever is offered holds: on plans of many shapes, written as people write them, with comments."""

from __future__ import annotations

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from precover.amending import Amendment, Prover, Unwritable, amendments, mark, rewritten, ways_out
from precover.amending.scalars import flow
from precover.reading import PlanUnreadable
from precover.reviewing import OpenPlan, Review, open_plan, review
from precover.rulebook import Outcome
from support.changed_plans import changed_plans
from support.plans import Data, plans
from support.reviews import data_of, library

SHAPES = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


def by_hand(data: Data, chance: random.Random) -> str:
    """Plan data in block style down to a random depth, flow style below it, with comments between."""

    def block(value: object, indent: int) -> list[str]:
        pad = "  " * indent
        lines: list[str] = []
        entries = value.items() if isinstance(value, dict) else ((None, item) for item in value)  # type: ignore[attr-defined]
        for key, item in entries:
            head = f"{pad}-" if key is None else f"{pad}{flow(key)}:"
            if isinstance(item, dict | list) and item and key is not None and indent < chance.randint(1, 4):
                lines += [head, *block(item, indent + 1)]
            else:
                note = f"   # note {chance.randint(1, 99)}" if chance.random() < 0.2 else ""
                lines.append(f"{head} {flow(item)}{note}")
            if chance.random() < 0.1:
                lines.append(f"{pad}# between")
        return lines

    return "\n".join(["# a plan", *block(data, 0)]) + "\n"


def comments(text: str) -> list[str]:
    """The comments of a text, in order."""
    return [line[line.index("#") :] for line in text.splitlines() if "# " in line]


def not_met(of: Review) -> set[tuple[str, str]]:
    """What an edit could settle."""
    return {mark(finding) for finding in of.findings if finding.line.answer.outcome is Outcome.NOT_MET}


def opened(text: str) -> tuple[OpenPlan, Review]:
    """A plan with its review."""
    plan = open_plan("plan.yaml", text.encode())
    return plan, review(plan, library())


@SHAPES
@given(changed_plans() | plans(), st.integers(0, 2**32))
def test_what_is_offered_is_what_the_written_file_gives(data: Data, seed: int) -> None:
    """Reviewed from its text again, the amended plan has the findings that were said to be left, and no others; no comment
    is lost; a second search finds nothing more to do, or only what was left."""
    text = by_hand(data, random.Random(seed))  # noqa: S311 - layouts, not secrets
    assert data_of(text) == data
    plan, before = opened(text)
    prover = Prover(plan, before)
    for amendment in amendments(prover, most=2):
        try:
            after_text = rewritten(plan.document, amendment.patch)
        except Unwritable:
            continue
        again, after = opened(after_text)
        assert not_met(after) == {mark(left) for left in amendment.left}
        assert comments(after_text) == comments(text)
        assert not_met(after) < not_met(before)
        assert rewritten(again.document, amendment.patch) == after_text or _adds_to_a_list(amendment)


@SHAPES
@given(changed_plans() | plans())
def test_a_way_out_settles_its_finding_and_brings_none_as_bad(data: Data) -> None:
    """Each way out, in the written file and reviewed anew."""
    plan, before = opened(flow(data))
    known = {mark(finding) for finding in before.findings}
    severities = {mark(finding): finding.severity for finding in before.findings}
    for settled, way in list(ways_out(before, plan).items())[:5]:
        try:
            _, after = opened(rewritten(plan.document, way.patch))
        except Unwritable:
            continue
        except PlanUnreadable as problem:
            raise AssertionError(problem.problems) from None
        left = {mark(finding): finding.severity for finding in after.findings}
        assert settled not in left
        assert not [new for new, severity in left.items() if new not in known and severity >= severities[settled]]


def _adds_to_a_list(amendment: Amendment) -> bool:
    return any(step["path"].endswith("/-") for step in amendment.patch)
