"""Plain data in one line of YAML, as a message shows it."""

from __future__ import annotations

from typing import Any


def as_yaml(value: Any) -> str:
    """The value in flow style."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {as_yaml(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(as_yaml(item) for item in value) + "]"
    return str(value)
