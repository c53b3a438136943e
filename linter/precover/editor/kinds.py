"""What kind of text an editor has open: some send every YAML file."""

from __future__ import annotations

import re
from enum import Enum
from typing import Final


class Kind(Enum):
    """Plans are reviewed, rule packs are read, of anything else nothing is said."""

    PLAN = "plan"
    PACK = "pack"
    OTHER = "other"


_NAMED: Final = re.compile(r"\.(plan|pack)\.ya?ml$", re.IGNORECASE)
_LANGUAGE: Final = re.compile(r"(?:^|[.-])(plan|pack)$")
_FORMAT: Final = re.compile(r"^format:[ \t]*['\"]?precover-(plan|pack)/", re.MULTILINE)


def kind_of(uri: str, language: str, text: str) -> Kind:
    """The kind of a text, by its name, by the language that the editor takes it for, or by its first key."""
    found = _NAMED.search(uri) or _LANGUAGE.search(language) or _FORMAT.search(text)
    return Kind(found[1].lower()) if found is not None else Kind.OTHER
