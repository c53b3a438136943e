"""Plan data as YAML on one line."""

from __future__ import annotations

import json
import re
from typing import Any

from precover.reading import PlanUnreadable, Source, parse

_PLAIN = re.compile(r"[A-Za-z0-9.°][A-Za-z0-9 ./×²³°+()\"'-]*")
"""Texts that can stand without quotes, if they also read back as the same text."""


def flow(value: Any) -> str:
    """A value in flow style, with quotes only where its meaning would change without them."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{flow(key)}: {flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(item) for item in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return value if _reads_back(value) else _quoted(value)
    return json.dumps(value)


def _quoted(text: str) -> str:
    marks = (mark if mark.isprintable() else f"\\U{ord(mark):08X}" for mark in text)
    return '"' + "".join("\\" + mark if mark in '"\\' and len(mark) == 1 else mark for mark in marks) + '"'


def _reads_back(text: str) -> bool:
    if _PLAIN.fullmatch(text) is None or text != text.strip():
        return False
    if text.lower() in _TRAPS:
        return False
    try:
        return bool(parse(Source("", f"[{text}]")).data == [text])
    except PlanUnreadable:
        return False


_TRAPS = frozenset({"yes", "no", "on", "off", "y", "n"})
"""Words that other YAML readers take for booleans."""
