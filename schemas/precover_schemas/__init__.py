"""The JSON Schemas (2020-12) of the languages that precover reads and writes."""

from pathlib import Path
from typing import Any

_HERE = Path(__file__).parent


def text(name: str) -> str:
    """The text of the schema called `name`."""
    return (_HERE / f"{name}.schema.json").read_text(encoding="utf-8")


def load(name: str) -> dict[str, Any]:
    """The schema called `name`, as plain data of the caller's own."""
    import json  # a good plan is checked against the text

    schema: dict[str, Any] = json.loads(text(name))
    return schema
