"""YAML text to a positioned tree, in the core meaning of YAML 1.2 (yaml.org/spec/1.2.2, section 10.3).

The C parser of PyYAML composes the nodes; what a plain scalar means is decided here, because PyYAML decides by YAML 1.1
(`yes` a boolean, `1:30` a number in base 60).
"""

from __future__ import annotations

import re
from functools import lru_cache
from types import NoneType
from typing import Any, Final

import yaml
from yaml.cyaml import CParser  # type: ignore[attr-defined]

from precover.reading.collecting import nothing_is_garbage
from precover.reading.document import Document
from precover.reading.errors import Located, PlanUnreadable
from precover.reading.source import Source, after

_CORE = re.compile(
    r"(?P<null>null|Null|NULL|~|)"
    r"|(?P<bool>true|True|TRUE|false|False|FALSE)"
    r"|(?P<int>[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)"
    r"|(?P<float>[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))"
)
_TYPES: Final[dict[str, type]] = {"null": NoneType, "bool": bool, "int": int, "float": float}
_MAY_BE_TYPED = frozenset("nN~tTfF0123456789+-.")


@lru_cache(8192)
def _resolved(kind: type[yaml.Node], value: str, implicit: tuple[bool, bool]) -> type:
    """What an untagged node is. The same few words stand in all plans, so that most are looked up."""
    if kind is yaml.ScalarNode:
        if implicit[0] and (not value or value[0] in _MAY_BE_TYPED):
            form = _CORE.fullmatch(value)
            if form is not None:
                return _TYPES[form.lastgroup or "null"]
        return str
    return dict if kind is yaml.MappingNode else list


class _CoreParser(CParser):
    """The C parser with the core schema's resolution. A tag resolved here is the type of the node's plain data, so that
    no tag written in the text, which is a string, can be taken for it."""

    resolve = staticmethod(_resolved)

    def descend_resolver(self, parent: Any, index: Any) -> None:
        """Path resolvers are not used."""

    def ascend_resolver(self) -> None:
        """Path resolvers are not used."""


def parse(source: Source) -> Document:
    """The document of a text; PlanUnreadable where it is not one YAML document of plain mappings, lists and values."""
    with nothing_is_garbage():
        try:
            root = compose(source.text)
        except yaml.MarkedYAMLError as problem:
            raise PlanUnreadable([_marked(source, problem)]) from None
        except yaml.reader.ReaderError:
            raise PlanUnreadable([_unprintable(source)]) from None
        tag: Any = root.tag if root is not None else NoneType
        if root is None or tag is NoneType:
            empty = Located(source.name, 1, 1, "the plan is empty", "start with `format: precover-plan/1`")
            raise PlanUnreadable([empty])
        return Document(source, root)


def compose(text: str) -> yaml.Node | None:
    """The node tree of a text, None where it has no content; yaml.YAMLError where it is not one YAML document."""
    root: yaml.Node | None = _CoreParser(text).get_single_node()
    return root


_SAID = {
    "found character that cannot start any token": (
        "a value cannot start with this character",
        "indent with spaces, not tabs; put text that starts with a mark like @ or % in quotes",
    ),
    "but found another document": (
        "a second document starts here",
        "a file holds one plan; remove the `---` and what follows, or make it a file of its own",
    ),
    "did not find expected <document start>": (
        "there is more text after the end of the document",
        "a file holds one plan; check quotes and indentation, and remove a `...`",
    ),
    "mapping values are not allowed": (
        "a `:` cannot stand here",
        "a value with `: ` in it needs quotes; check the indentation too",
    ),
    "could not find expected ':'": ("a key without its `:`", "write `key: value`; check indentation and quotes above"),
    "found undefined alias": ("`*` refers to nothing", "write the value out; a plan does not use `*` references"),
    "found duplicate anchor": ("this `&` anchor is there already", "remove it; a plan does not use `&` anchors"),
    "exceeded maximum nesting depth": ("nested far too deep", "a plan is at most a dozen levels deep"),
    "found unexpected end of stream": ("the text ends within quotes", "close the quotes that are opened here"),
    "found unknown escape character": (
        "a backslash escape that does not exist",
        "write `\\\\` for a backslash, or use single quotes",
    ),
    "incompatible YAML document": ("this version of YAML is not known", "remove the `%YAML` line"),
    "directive": ("a directive that is not known", "remove the line that starts with `%`"),
    "did not find expected ',' or": (
        "a comma or a closing bracket is missing",
        "write a comma between two values, and close every `{` with `}`, every `[` with `]`",
    ),
    "did not find expected": ("", "check indentation, and that every bracket and quote is closed"),
}
"""What libyaml says -> what is told, and what to do about it."""


def _marked(source: Source, problem: yaml.MarkedYAMLError) -> Located:
    from precover.reading.indentation import misplaced  # only for a text with mistakes

    said = str(problem.problem or problem.context or "cannot be parsed")
    begun, mark = problem.context_mark, problem.problem_mark or problem.context_mark
    if begun is not None and "end of stream" in said:
        mark = begun
    line, column = (mark.line + 1, mark.column + 1) if mark is not None else (0, 0)
    found = misplaced(source.text, line, said)
    if found is not None:
        return Located(source.name, line, column, *found)
    all_said = f"{problem.context or ''} {said}"
    told, hint = next(
        (pair for start, pair in _SAID.items() if start in all_said), ("", "check indentation and quotes here")
    )
    told = told or f"this is not YAML: {said}"
    if begun is not None and begun.line + 1 < line and str(problem.context).startswith("while"):
        told += f" (in what begins in line {begun.line + 1})"
    return Located(source.name, line, column, told, hint)


def _unprintable(source: Source) -> Located:
    allowed = re.match(_ALLOWED, source.text)
    at = allowed.end() if allowed else 0
    line, column = after(source.text[:at])
    code = ord(source.text[at]) if at < len(source.text) else 0
    return Located(
        source.name, line, column, f"control character U+{code:04X} in the text", "remove it; a plan is plain text"
    )


_ALLOWED: Final = r"[\t\n\r\x85\x20-\x7e\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]*"
"""The printable characters of YAML 1.2.2, section 5.1; compiled only for a text that has others."""
