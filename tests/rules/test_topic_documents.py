"""Every topic has a document that says what it must, and whose plans do what it says."""

from __future__ import annotations

import re

import pytest

from precover.rulebook import Outcome, Topic
from support.documents import plans_of
from support.reviews import data_of, library, reviewed_example

TOPICS = list(library().topics.values())
HEADINGS = ["Why it matters", "Hazard", "Looked at", "Where to look", "Fails", "Passes", "Exceptions", "Sources"]


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_a_document_has_every_heading_in_order(topic: Topic) -> None:
    """The headings are the same in every document, in the same order."""
    assert re.findall(r"^## (.+)$", topic.text(), re.MULTILINE) == HEADINGS


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_each_failing_plan_fails_this_topic(topic: Topic) -> None:
    """Every rule of the topic is failed by one of its failing plans, and each of these plans fails one of its rules."""
    plans = plans_of(topic, "Fails")
    failed: set[str] = set()
    for base, patch in plans:
        review = reviewed_example(base, patch)
        here = {
            line.rule.id
            for line in review.ran
            if line.rule.topic == topic.id and line.answer.outcome is Outcome.NOT_MET
        }
        assert all(set(line.answer.rows) <= set(line.rule.rows) for line in review.ran)
        assert here, f"no rule of {topic.id} fails {patch}"
        failed |= here
    assert {rule.id for rule in topic.rules} == failed


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_each_passing_plan_passes_this_topic(topic: Topic) -> None:
    """The passing plans have no finding of the topic, and every rule of the topic is met in one of them."""
    passed: set[str] = set()
    for base, patch in plans_of(topic, "Passes"):
        review = reviewed_example(base, patch)
        assert not [finding for finding in review.findings if finding.line.rule.topic == topic.id]
        passed |= {
            line.rule.id for line in review.ran if line.answer.outcome is Outcome.MET and line.rule.topic == topic.id
        }
    assert {rule.id for rule in topic.rules} == passed


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_every_row_named_is_in_the_requirement_map(topic: Topic) -> None:
    """A rule gets its locators and hazard from the map, so each row it names must be there."""
    known = library().book().requirements
    assert not [row for row in topic.rows if row not in known]
    assert all(rule.rows or rule.look_up for rule in topic.rules)


def test_patches_of_the_documents_are_yaml_mappings() -> None:
    """A patch that does not parse would test nothing."""
    for topic in TOPICS:
        for kind in ("Fails", "Passes"):
            for _, patch in plans_of(topic, kind):
                assert patch.strip() == "" or isinstance(data_of(patch), dict)
