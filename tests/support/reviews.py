"""Plans for tests: a bundled example with a merge patch (RFC 7396), reviewed."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import precover
from precover.reading import Source, parse
from precover.reviewing import Line, Review, open_plan, review
from precover.rulebook import gather
from precover.rulebook.book import Library

EXAMPLES = Path(precover.__file__).parent / "examples"


@cache
def library() -> Library:
    """The installed rules and packs, gathered once."""
    return gather()


def merged(target: Any, patch: Any) -> Any:
    """`patch` merged into `target` as RFC 7396 says: null removes, lists are replaced whole."""
    if not isinstance(patch, dict):
        return patch
    result = dict(target) if isinstance(target, dict) else {}
    for key, value in patch.items():
        if value is None:
            result.pop(key, None)
        else:
            result[key] = merged(result.get(key), value)
    return result


def data_of(text: str) -> Any:
    """The plain data of YAML text, in the meaning that plans have."""
    return parse(Source("test", text)).data


def example(name: str, patch: str | dict[str, Any] = "") -> dict[str, Any]:
    """The data of a bundled example, with a merge patch given as YAML text or data."""
    base = data_of((EXAMPLES / f"{name}.plan.yaml").read_text(encoding="utf-8"))
    change = data_of(patch) if isinstance(patch, str) and patch.strip() else patch
    made = merged(base, change) if change else base
    assert isinstance(made, dict)
    return made


def written(data: dict[str, Any]) -> bytes:
    """Plan data as the bytes of a plan file."""
    return json.dumps(data, ensure_ascii=False, indent=1).encode()


def reviewed(data: dict[str, Any] | bytes, packs: tuple[str, ...] = ()) -> Review:
    """The review of plan data, through its written form. A review goes on without what fails, so without packs of a test's
    own nothing may fail in it: a test would take it for a rule that has nothing to say."""
    raw = data if isinstance(data, bytes) else written(data)
    made = review(open_plan("test.plan.yaml", raw), library(), packs)
    assert packs or not made.failures, made.failures
    return made


def reviewed_example(name: str, patch: str | dict[str, Any] = "") -> Review:
    """The review of a bundled example with a merge patch."""
    return reviewed(example(name, patch))


def lines(of: Review, rule: str, place: str = "") -> list[Line]:
    """Ledger lines of one rule (by the end of its id), at places that start with `place`."""
    return [line for line in of.ledger if line.rule.id.endswith(rule) and line.subject.startswith(place)]


def line_of(of: Review, rule: str, place: str) -> Line:
    """The one line of a rule on the subject at a place."""
    (found,) = [one for one in lines(of, rule, place) if one.subject == place]
    return found


def outcome(of: Review, rule: str, place: str) -> str:
    """The answer of one rule on the one subject at a place: `met`, `not met`, `does not apply` or `cannot tell`."""
    (found,) = [line for line in of.ran if line.rule.id.endswith(rule) and line.subject == place]
    return found.answer.outcome.value


def asked(of: Review) -> list[str]:
    """Places of the facts that the review asks for."""
    return sorted({finding.line.place for finding in of.findings if finding.line.answer.asks is not None})
