"""The plans in a topic's document."""

from __future__ import annotations

import re

from precover.rulebook import Topic

SECTION = re.compile(r"^## (?P<kind>Fails|Passes)\n(?P<body>.*?)(?=^## )", re.MULTILINE | re.DOTALL)
PLAN = re.compile(r"```yaml plan=(?P<base>[a-z-]+)\n(?P<patch>.*?)```", re.DOTALL)


def plans_of(topic: Topic, kind: str) -> list[tuple[str, str]]:
    """The plans under `Fails` or `Passes`: bundled example, and the merge patch on it as YAML text."""
    body = next(section["body"] for section in SECTION.finditer(topic.text()) if section["kind"] == kind)
    return [(plan["base"], plan["patch"]) for plan in PLAN.finditer(body)]
