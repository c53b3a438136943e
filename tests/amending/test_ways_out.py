"""Ways out and amendments: what is offered as proved holds when the written file is reviewed by a fresh process."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from precover.amending.amendment import _branches, _Draft, amendments
from precover.amending.prover import Prover, ways_out
from precover.amending.rewriting import rewritten
from precover.amending.way import mark
from precover.reviewing import OpenPlan, Review, open_plan, review
from precover.rulebook import Outcome, Topic
from support.documents import plans_of
from support.reviews import EXAMPLES, data_of, example, library, reviewed, written

TOPICS = [topic for topic in library().topics.values() if topic.rules]
BEFORE = sorted(EXAMPLES.glob("*-uncorrected.plan.yaml"))


def opened_and_reviewed(raw: bytes) -> tuple[OpenPlan, Review]:
    """A plan with its review."""
    opened = open_plan("plan.yaml", raw)
    return opened, review(opened, library())


def not_met(of: Review) -> set[tuple[str, str]]:
    """Findings that an edit could settle."""
    return {(line.rule.id, line.subject) for line in of.ran if line.answer.outcome is Outcome.NOT_MET}


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_proposed_ways_out_are_proved(topic: Topic) -> None:
    """In the failing plans of its document, each finding of a topic that has proposals has one that holds."""
    for base, patch in plans_of(topic, "Fails"):
        opened, before = opened_and_reviewed(written(example(base, patch)))
        ways = ways_out(before, opened)
        for finding in before.findings:
            wanted = finding.line.answer.outcome is Outcome.NOT_MET and finding.line.answer.proposals
            if finding.line.rule.topic == topic.id and wanted:
                assert mark(finding) in ways, f"{finding.line.rule.id} at {finding.line.subject}"


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_a_failing_plan_comes_clean_by_an_amendment(topic: Topic) -> None:
    """The first failing plan of each topic: what is offered leaves no finding of the topic that has a proposal."""
    base, patch = plans_of(topic, "Fails")[0]
    opened, before = opened_and_reviewed(written(example(base, patch)))
    offered = amendments(Prover(opened, before))

    assert offered or not any(finding.line.answer.proposals for finding in before.findings)
    for amendment in offered:
        after = reviewed(rewritten(opened.document, amendment.patch).encode())
        assert not_met(after) == {(left.line.rule.id, left.line.subject) for left in amendment.left}
        assert not [left for left in amendment.left if left.line.rule.topic == topic.id and left.line.answer.proposals]


def test_a_search_takes_no_edit_twice() -> None:
    """What was taken and undone since would be undone again."""
    raw = written(example("joinery-workshop", {"circuits": {"lights": {"breaker": {"rating": "20 A"}}}}))
    opened, before = opened_and_reviewed(raw)
    prover = Prover(opened, before)
    todo = next(finding for finding in before.findings if finding.line.answer.proposals)
    fresh = [proposals for proposals, _ in _branches(todo, _Draft((), before, frozenset(), 0), prover)]
    assert fresh
    taken = _Draft(fresh[0], before, frozenset(), 0)
    again = [one for proposals, _ in _branches(todo, taken, prover) for one in proposals]
    assert not set(map(repr, fresh[0])) & set(map(repr, again))


@pytest.mark.parametrize("path", BEFORE, ids=lambda path: path.name.split(".")[0])
def test_the_examples_before_corrections_come_clean(path: Path) -> None:
    """The least amendment leaves nothing not met; its edits touch no comment and no other value."""
    raw = path.read_bytes()
    opened, before = opened_and_reviewed(raw)
    offered = amendments(Prover(opened, before))

    assert offered
    text = rewritten(opened.document, offered[0].patch)
    assert not not_met(reviewed(text.encode()))
    assert data_of(text) != data_of(raw.decode())


def test_the_written_file_is_clean_in_a_fresh_process(tmp_path: Path) -> None:
    """Amend by the command, review by the command, amend again: the second time changes nothing."""
    plan = tmp_path / "studio.plan.yaml"
    plan.write_bytes((EXAMPLES / "pottery-studio-uncorrected.plan.yaml").read_bytes())

    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "precover.app", *arguments], capture_output=True, text=True, check=False, timeout=120
        )

    assert run("review", str(plan)).returncode == 1
    assert run("amend", str(plan), "--write", "--least").returncode == 0
    once = plan.read_bytes()
    assert run("review", str(plan)).returncode == 0
    assert run("amend", str(plan), "--write", "--least").returncode == 0
    assert plan.read_bytes() == once
    assert json.loads(run("amend", str(plan), "--form", "json").stdout)
