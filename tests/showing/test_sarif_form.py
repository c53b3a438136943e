"""The SARIF form against an independent model of the OASIS schema, and against the plan's text."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pydantic
import pytest
from barn_rules import PLAN, barn_review
from pydantic_sarif.model import StaticAnalysisResultsFormatSarifVersion210JsonSchema as SarifLog

from precover.reading import Located
from precover.showing.cautions import CAUTIONS
from precover.showing.sarif import sarif_log
from precover.showing.sarif_places import uri_of
from support.proved import unproved
from support.reviews import EXAMPLES, data_of, reviewed

UNREADABLE = ((Located("gone now.plan.yaml", 4, 2, "wrong", "put right"), Located("none", 0, 0, "gone", "look")),)


def run_of(text: str | None = None, **how: Any) -> Any:
    """The one run of the barn's log."""
    return json.loads(sarif_log(unproved(barn_review(text, failures=(("other", "broken"),))), UNREADABLE, **how))[
        "runs"
    ][0]


@pytest.mark.parametrize("ledger", [False, True])
@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.plan.yaml")), ids=lambda path: path.name.split(".")[0])
def test_logs_of_the_examples_are_valid(path: Path, ledger: bool) -> None:
    """Under the built-in rules."""
    SarifLog.model_validate(json.loads(sarif_log(unproved(reviewed(path.read_bytes())), UNREADABLE, ledger=ledger)))


def test_a_log_with_everything_is_valid_and_a_broken_one_is_not() -> None:
    """The independent model takes the barn's log, and would refuse a wrong one."""
    log = json.loads(sarif_log(unproved(barn_review(failures=(("other", "broken"),))), UNREADABLE, ledger=True))
    SarifLog.model_validate(log)
    for spoil in (
        lambda run: run["results"][0].update(level="severe"),
        lambda run: run["results"][0].update(finding=True),
        lambda run: run["results"][0]["locations"][0]["physicalLocation"]["region"].update(startLine=0),
        lambda run: run["tool"].pop("driver"),
    ):
        wrong = copy.deepcopy(log)
        spoil(wrong["runs"][0])
        with pytest.raises(pydantic.ValidationError):
            SarifLog.model_validate(wrong)


def test_a_log_says_that_it_is_no_approval() -> None:
    """Also one with nothing in it."""
    clean = json.loads(sarif_log(unproved(reviewed((EXAMPLES / "pottery-studio.plan.yaml").read_bytes())), ()))["runs"][
        0
    ]
    assert clean["results"] == []
    for run in (clean, run_of()):
        assert CAUTIONS[0] in run["tool"]["driver"]["fullDescription"]["text"]


def test_levels_by_severity() -> None:
    """Danger and correction are errors, a query a warning, advice a note."""
    found = [(result["properties"]["severity"], result["level"], result["kind"]) for result in run_of()["results"]]
    assert set(found) == {
        ("danger", "error", "fail"),
        ("correction", "error", "fail"),
        ("query", "warning", "fail"),
        ("advice", "note", "fail"),
    }


def test_the_ledger_as_results_that_are_no_findings() -> None:
    """Met checks and those that do not apply have the level `none`, as SARIF asks of what has not failed."""
    rest = [result for result in run_of(ledger=True)["results"] if result["kind"] != "fail"]
    assert sorted({(result["kind"], result["level"]) for result in rest}) == [
        ("notApplicable", "none"),
        ("pass", "none"),
    ]
    assert len(rest) == 4


def test_rules_carry_the_document_of_their_topic() -> None:
    """Help in both forms; every result points at its rule."""
    run = run_of()
    rules = run["tool"]["driver"]["rules"]
    document = (PLAN.parent / "trench.md").read_text(encoding="utf-8")
    assert all(rule["help"] == {"text": document, "markdown": document} for rule in rules)
    assert all(rules[result["ruleIndex"]]["id"] == result["ruleId"] for result in run["results"])
    assert {rule["id"]: rule["properties"]["lookUp"] for rule in rules}["ground/trench/deep-enough"] == ["Table 2"]


def test_regions_count_columns_as_declared() -> None:
    """In UTF-16 code units: a character beyond the basic plane ahead of a value, in the same line, counts twice."""
    data = data_of(PLAN.read_text(encoding="utf-8")) | {"title": "\U0001f50c\U0001f50c plugs"}
    text = json.dumps(data, ensure_ascii=False)
    run = json.loads(sarif_log(unproved(barn_review(text)), []))["runs"][0]
    assert run["columnKind"] == "utf16CodeUnits"
    region = run["results"][0]["locations"][0]["physicalLocation"]["region"]
    units = text.encode("utf-16-le")
    assert units[2 * region["startColumn"] - 2 : 2 * region["endColumn"] - 2].decode("utf-16-le") == '"14 in"'
    assert text[region["startColumn"] - 1 : region["endColumn"] - 1] != '"14 in"'


def test_steps_are_related_locations() -> None:
    """Steps with a place are; those without are not."""
    (related,) = run_of()["results"][0]["relatedLocations"]
    assert related["message"]["text"] == "a lawn is dug up now and then"
    assert related["physicalLocation"]["region"]["startLine"] == 23


def test_what_could_not_be_read_is_notified() -> None:
    """An unreadable file and a plugin that did not load: the run was no success."""
    run = run_of()
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    read, gone = invocation["toolExecutionNotifications"]
    assert read["locations"][0]["physicalLocation"] == {
        "artifactLocation": {"uri": "gone%20now.plan.yaml"},
        "region": {"startLine": 4},
    }
    assert "region" not in gone["locations"][0]["physicalLocation"]
    assert invocation["toolConfigurationNotifications"][0]["message"]["text"].startswith("rules of plugin other")
    assert [artifact["location"]["uri"] for artifact in run["artifacts"]] == [
        "barn.plan.yaml",
        "gone%20now.plan.yaml",
        "none",
    ]


def test_fingerprints_tell_findings_apart_and_stay() -> None:
    """One for each finding, the same when the plan's lines move."""
    first = [result["partialFingerprints"]["ruleAndPlace/v1"] for result in run_of()["results"]]
    moved = run_of("# a line more\n" + PLAN.read_text(encoding="utf-8"))["results"]
    assert len(set(first)) == len(first)
    assert [result["partialFingerprints"]["ruleAndPlace/v1"] for result in moved] == first


def test_file_names_as_uris() -> None:
    """Relative names stay relative; absolute ones become `file:`."""
    assert uri_of("plans/a b#1.plan.yaml") == "plans/a%20b%231.plan.yaml"
    assert uri_of("/plans/é.plan.yaml") == "file:///plans/%C3%A9.plan.yaml"


def test_the_same_reviews_are_the_same_bytes() -> None:
    """Pure ASCII too."""
    assert sarif_log(unproved(barn_review()), UNREADABLE) == sarif_log(unproved(barn_review()), UNREADABLE)
    assert sarif_log(unproved(barn_review()), UNREADABLE).isascii()
