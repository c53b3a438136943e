"""The JSON form against its schema, and against the review it was made of."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from barn_rules import barn_proved, barn_review, good_barn

import precover_schemas
from precover.reading import Located
from precover.rulebook import Outcome
from precover.showing.as_json import review_json
from support.proved import unproved
from support.reviews import EXAMPLES, reviewed

VALIDATOR = jsonschema.Draft202012Validator(precover_schemas.load("review"))
UNREADABLE = ((Located("gone.plan.yaml", 0, 0, "cannot be read", "check the name"),),)


def document(**how: Any) -> Any:
    """The barn's document."""
    return json.loads(review_json([barn_proved(failures=(("other", "broken"),))], UNREADABLE, **how))


def test_the_schema_is_one() -> None:
    """It is valid by its own meta-schema, and everything in it has a title and a description."""
    schema = precover_schemas.load("review")
    jsonschema.Draft202012Validator.check_schema(schema)
    for name, node in [*schema["properties"].items(), *schema["$defs"].items()]:
        assert "$ref" in node or (node.get("title") and node.get("description")), name
        for key, field in node.get("properties", {}).items():
            assert field.get("$ref") or (field.get("title") and field.get("description")), f"{name}/{key}"


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.plan.yaml")), ids=lambda path: path.name.split(".")[0])
def test_documents_of_the_examples_are_valid(path: Path) -> None:
    """Under the built-in rules, with the ledger."""
    made = json.loads(review_json(unproved(reviewed(path.read_bytes())), UNREADABLE, ledger=True))
    assert [error.message for error in VALIDATOR.iter_errors(made)] == []


def test_a_document_with_everything_is_valid() -> None:
    """Findings, queries, failures, unreadable files; and what the schema does not know is refused."""
    made = document(ledger=True)
    VALIDATOR.validate(made)
    made["reviews"][0]["findings"][0]["approved"] = True
    assert not VALIDATOR.is_valid(made)


def test_a_finding_has_its_numbers_and_where_they_come_from() -> None:
    """The first finding, whole."""
    finding = document()["reviews"][0]["findings"][0]
    assert finding == {
        "severity": "correction",
        "rule": "ground/trench/deep-enough",
        "topic": "ground/trench",
        "answer": "not met",
        "says": "cover: 14 in; needed: at least 18 in",
        "subject": "/routes/yard/legs/0",
        "place": {
            "pointer": "/routes/yard/legs/0/cover",
            "words": "route yard, leg 1 (buried, lawn)",
            "start": {"line": 23, "column": 46},
            "end": {"line": 23, "column": 51},
        },
        "of": "cover",
        "has": {"text": "14 in", "value": 355.6, "unit": "mm"},
        "needs": {"text": "18 in", "value": 457.2, "unit": "mm"},
        "relation": "at least",
        "why": "",
        "steps": [
            {
                "says": "a lawn is dug up now and then",
                "place": {
                    "pointer": "/routes/yard/legs/0",
                    "words": "route yard, leg 1 (buried, lawn)",
                    "start": {"line": 23, "column": 9},
                    "end": {"line": 23, "column": 52},
                },
            },
            {"says": "no concrete lies over the wiring", "place": None},
        ],
        "limits": [
            {
                "table": "limits",
                "key": ["depth in a lawn"],
                "value": "18 in",
                "metric": "450 mm",
                "set_by": "barn-2023",
                "source": "Invented handout - https://example.org/handout",
                "confidence": "high",
                "from_memory": False,
                "note": "",
                "was": None,
            }
        ],
        "stage": "open trench",
        "checks": "Wiring in the ground lies deep enough for what is above it.",
        "hazard": "damage to the wiring",
        "look_up": ["Table 2"],
        "proposals": [
            {
                "words": "bury it 18 in deep",
                "effort": "digging",
                "patch": [{"op": "add", "path": "/routes/yard/legs/0/cover", "value": "18 in"}],
            }
        ],
        "way_out": {
            "words": "bury it 18 in deep",
            "effort": "digging",
            "patch": [{"op": "add", "path": "/routes/yard/legs/0/cover", "value": "18 in"}],
            "brings": [],
        },
    }


def test_a_fact_is_asked_for_once() -> None:
    """With everything that waits for it."""
    queries = document()["reviews"][0]["queries"]
    assert [query["place"]["pointer"] for query in queries] == [
        "/routes/yard/legs/1/cover",
        "/structures/barn/detached",
        "/boxes/barn-box/devices/second/ground-fault",
    ]
    assert queries[0]["needed_by"] == ["ground/trench/deep-enough", "ground/trench/out-of-reach"]
    assert [query["severity"] for query in queries] == ["query", "advice", "query"]
    assert queries[0]["title"] == "Cover" and queries[0]["description"]


def test_the_counts_add_up() -> None:
    """The tally counts what the document lists."""
    made = document(ledger=True)["reviews"][0]
    assert sum(made["tally"]["answers"].values()) == len(made["ledger"])
    assert sum(made["tally"]["severities"].values()) == len(made["findings"])
    wanting = [line for line in made["ledger"] if line["answer"] in (Outcome.NOT_MET.value, Outcome.CANNOT_TELL.value)]
    assert len(wanting) == len(made["findings"])


def test_the_ledger_is_there_when_asked_for() -> None:
    """And only then."""
    assert "ledger" not in document()["reviews"][0]
    assert len(document(ledger=True)["reviews"][0]["ledger"]) == 10


def test_the_same_review_is_the_same_bytes() -> None:
    """Pure ASCII, and nothing in it depends on when or how often it is made."""
    first = review_json(unproved(barn_review(), barn_review(good_barn())), UNREADABLE, ledger=True)
    assert first == review_json(unproved(barn_review(), barn_review(good_barn())), UNREADABLE, ledger=True)
    assert first.isascii()
