"""The JSON Schemas (2020-12) of the languages that precover reads and writes."""

import json
from pathlib import Path
from typing import Any

_HERE = Path(__file__).parent


def text(name: str) -> str:
    """The text of the schema called `name`."""
    return (_HERE / f"{name}.schema.json").read_text(encoding="utf-8")


def load(name: str) -> dict[str, Any]:
    """The schema called `name`, as plain data of the caller's own."""
    schema: dict[str, Any] = json.loads(text(name))
    return schema
