"""Whatever is offered holds: on plans of many shapes, written as people write them, with comments."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from difflib import SequenceMatcher

from hypothesis import given
from hypothesis import strategies as st

from precover.amending.amendment import Amendment, amendments
from precover.amending.prover import Prover, ways_out
from precover.amending.rewriting import Unwritable, rewritten
from precover.amending.scalars import flow
from precover.amending.way import Mark, mark
from precover.plan.thing import tokens_of
from precover.reading import PlanUnreadable
from precover.reviewing import OpenPlan, Review, open_plan, review
from precover.rulebook import Outcome, Severity
from support.changed_plans import changed_plans
from support.plans import Data, plans
from support.reviews import data_of, library
from support.tried import tried

SHAPES = changed_plans() | plans()


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


def gone(text: str, after: str) -> list[int]:
    """The numbers of the lines that are not as they were."""
    blocks = SequenceMatcher(None, text.splitlines(), after.splitlines(), autojunk=False).get_opcodes()
    return [number + 1 for tag, start, end, _, _ in blocks if tag != "equal" for number in range(start, end)]


def touched(plan: OpenPlan, amendment: Amendment) -> set[int]:
    """The numbers of the lines that an amendment has to change: those of the values it replaces or removes, with their
    keys, and those of what it puts something into that is written in one line."""
    lines: set[int] = set()
    for step in amendment.patch:
        pointer = step["path"]
        while not is_there(plan.document.data, tokens_of(pointer)):
            pointer = pointer.rpartition("/")[0]
        lines.add(plan.document.range(pointer, key=True).line)
        if pointer == step["path"]:
            at = plan.document.range(pointer)
            lines |= set(range(at.line, at.end_line + 1))
    return lines


def is_there(data: object, tokens: list[str]) -> bool:
    """Something stands at a place."""
    for token in tokens:
        if isinstance(data, list) and token.isdecimal() and int(token) < len(data):
            data = data[int(token)]
        elif isinstance(data, dict) and token in data:
            data = data[token]
        else:
            return False
    return True


def not_met(of: Review) -> set[tuple[str, str]]:
    """What an edit could settle."""
    return {mark(finding) for finding in of.findings if finding.line.answer.outcome is Outcome.NOT_MET}


def worst(of: Review) -> Severity:
    """The worst of them; an advice where there is none."""
    found = [one.severity for one in of.findings if one.line.answer.outcome is Outcome.NOT_MET]
    return max(found, default=Severity.ADVICE)


def opened(text: str) -> tuple[OpenPlan, Review]:
    """A plan with its review."""
    plan = open_plan("plan.yaml", text.encode())
    return plan, review(plan, library())


@tried(3)
@given(SHAPES, st.integers(0, 2**32))
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
        assert not [line for line in gone(text, after_text) if line not in touched(plan, amendment)]
        # What an edit brings is settled next. Where that turns out to be impossible it stays, and is among what is said to
        # be left: so another finding may stand where several stood, and none that is worse.
        assert len(not_met(after)) < len(not_met(before))
        assert worst(after) <= worst(before)
        assert rewritten(again.document, amendment.patch) == after_text or _adds_to_a_list(amendment)


@tried(8)
@given(SHAPES)
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


def test_another_process_finds_in_the_written_file_what_was_said_to_be_left() -> None:
    """Nothing of the search stays in memory that the file does not say."""
    said: list[tuple[str, list[Mark]]] = []

    @tried(2)
    @given(SHAPES)
    def collect(data: Data) -> None:
        plan, before = opened(flow(data))
        for amendment in amendments(Prover(plan, before), most=1):
            try:
                said.append((rewritten(plan.document, amendment.patch), sorted(map(mark, amendment.left))))
            except Unwritable:
                continue

    collect()
    assert said
    there = subprocess.run(
        [sys.executable, __file__],
        input=json.dumps([text for text, _ in said]),
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )
    assert json.loads(there.stdout) == [[list(one) for one in left] for _, left in said]


if __name__ == "__main__":
    print(json.dumps([sorted(not_met(opened(text)[1])) for text in json.load(sys.stdin)]))
