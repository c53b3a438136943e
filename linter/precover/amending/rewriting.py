"""Edits the text of a plan by position: comments, order and layout outside the edited values stay as they are.

A value is replaced where it stands; a new key goes behind the last one of its mapping, in that mapping's own style. What
would take a comment with it is not written. The result is parsed again and must hold exactly the data that the patch gives:
else nothing is returned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import yaml

from precover.amending.patch import END, applied
from precover.amending.scalars import flow
from precover.amending.smallest import smallest
from precover.plan.thing import tokens_of
from precover.reading import Document, PlanUnreadable, Source, parse


class Unwritable(Exception):
    """An edit that cannot be made in the text without touching more than it should."""


def rewritten(document: Document, patch: Sequence[dict[str, Any]]) -> str:
    """The document's text with a patch applied; Unwritable where it cannot be."""
    text = document.source.text
    now = document
    for step in _folded(patch):
        for part in list(smallest(now.data, step)):
            text = _edited(text, now, part)
            try:
                now = parse(Source(document.source.name, text))
            except PlanUnreadable as problem:
                raise Unwritable(f"{part['path']} cannot be edited in place: {problem.problems[0].message}") from None
    if now.data != applied(document.data, patch):
        raise Unwritable("the edited text would not say what the edit says")
    return text


def why_not(document: Document, patch: Sequence[dict[str, Any]]) -> str:
    """Why a patch cannot be written into a document's text; empty where it can."""
    try:
        rewritten(document, patch)
    except Unwritable as problem:
        return str(problem)
    return ""


def changed_stretch(before: str, after: str) -> tuple[int, int, str]:
    """Start and end of the stretch of `before` that is not in `after`, and what stands there instead."""
    start, most = 0, min(len(before), len(after))
    while start < most and before[start] == after[start]:
        start += 1
    tail = 0
    while tail < most - start and before[-1 - tail] == after[-1 - tail]:
        tail += 1
    return start, len(before) - tail, after[start : len(after) - tail]


def _folded(patch: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """A parent that is opened empty, with the values that follow folded into it, so that each is written once."""
    made: list[dict[str, Any]] = []
    for step in patch:
        last = made[-1] if made else None
        if last is not None and last["op"] == step["op"] == "add" and step["path"].startswith(f"{last['path']}/"):
            inner = {"op": "add", "path": step["path"][len(last["path"]) :], "value": step["value"]}
            made[-1] = {**last, "value": applied(last["value"], (inner,))}
        else:
            made.append(dict(step))
    return made


def _edited(text: str, document: Document, step: dict[str, Any]) -> str:
    *above, last = tokens_of(step["path"])
    parent = _node(document.root, above)
    if isinstance(parent, yaml.MappingNode):
        entry = next(((key, value) for key, value in parent.value if key.value == last), None)
        if step["op"] == "remove":
            return _without_key(text, parent, entry)
        if entry is not None:
            return _replaced(text, entry[1], step["value"])
        return _with_key(text, parent, last, step["value"])
    assert isinstance(parent, yaml.SequenceNode)  # noqa: S101 - nothing else has anything in it
    if step["op"] == "replace":
        return _replaced(text, parent.value[int(last)], step["value"])
    if step["op"] == "remove" and int(last) == len(parent.value) - 1:
        return _without_last_item(text, parent)
    if step["op"] == "add" and last in (END, str(len(parent.value))):
        return _with_item(text, parent, step["value"])
    raise Unwritable("an item in the middle of a list is not written in place; edit it by hand")


def _node(root: yaml.Node, tokens: list[str]) -> yaml.Node:
    for token in tokens:
        if isinstance(root, yaml.MappingNode):
            root = next(value for key, value in root.value if key.value == token)
        else:
            root = root.value[int(token)]
    return root


def _end(node: yaml.Node, text: str) -> int:
    """Index just after the last character of a node's own text. The end marks of block collections and of texts over
    several lines lie at the next token, so these end with the last of their own."""
    if isinstance(node, yaml.ScalarNode):
        return len(text[: node.end_mark.index].rstrip()) if node.style in ("|", ">") else int(node.end_mark.index)
    if _in_flow(node):
        return int(node.end_mark.index)
    last = node.value[-1]
    return _end(last[1] if isinstance(last, tuple) else last, text)


def _in_flow(node: yaml.Node) -> bool:
    return isinstance(node, yaml.CollectionNode) and bool(node.flow_style)


def _replaced(text: str, node: yaml.Node, value: Any) -> str:
    if isinstance(node, yaml.ScalarNode) and node.style in ("|", ">"):
        raise Unwritable("a text over several lines is not replaced in place; edit it by hand")
    if not isinstance(node, yaml.ScalarNode) and not _in_flow(node):
        raise Unwritable("a block of keys is not replaced in place; edit it by hand")
    return _cut(text, node.start_mark.index, _end(node, text), [node], flow(value))


def _cut(text: str, start: int, end: int, gone: Sequence[yaml.Node], instead: str = "") -> str:
    """A text without a stretch, which holds these nodes and the marks and space around them; Unwritable where a comment stands there."""
    at = start
    between = []
    for scalar in (scalar for node in gone for scalar in _scalars(node)):
        between.append(text[at : scalar.start_mark.index])
        at = _end(scalar, text)
    between.append(text[at:end])
    if any("#" in stretch for stretch in between):
        raise Unwritable("a comment would be lost; edit it by hand")
    return text[:start] + instead + text[end:]


def _scalars(node: yaml.Node) -> Iterator[yaml.ScalarNode]:
    if isinstance(node, yaml.ScalarNode):
        yield node
    elif isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            yield from _scalars(key)
            yield from _scalars(value)
    else:
        for item in node.value:
            yield from _scalars(item)


def _with_key(text: str, parent: yaml.MappingNode, key: str, value: Any) -> str:
    entry = f"{flow(key)}: {flow(value)}"
    if _in_flow(parent):
        if not parent.value:
            return text[: parent.start_mark.index] + "{" + entry + "}" + text[parent.end_mark.index :]
        at = _end(parent.value[-1][1], text)
        return f"{text[:at]}, {entry}{text[at:]}"
    return _new_line(text, _end(parent.value[-1][1], text), parent.value[0][0].start_mark.column, entry)


def _with_item(text: str, parent: yaml.SequenceNode, value: Any) -> str:
    if _in_flow(parent):
        if not parent.value:
            return text[: parent.start_mark.index] + "[" + flow(value) + "]" + text[parent.end_mark.index :]
        at = _end(parent.value[-1], text)
        return f"{text[:at]}, {flow(value)}{text[at:]}"
    return _new_line(text, _end(parent.value[-1], text), parent.start_mark.column, f"- {flow(value)}")


def _new_line(text: str, after: int, column: int, entry: str) -> str:
    """`entry` on a line of its own behind the line that `after` is on, so that a comment there stays with its value."""
    end = text.find("\n", after)
    ending = "\r\n" if end > 0 and text[end - 1] == "\r" else "\n"
    if end < 0:
        return f"{text}{ending if not text.endswith(ending) else ''}{' ' * column}{entry}{ending}"
    return f"{text[: end + 1]}{' ' * column}{entry}{ending}{text[end + 1 :]}"


def _without_key(text: str, parent: yaml.MappingNode, entry: tuple[yaml.Node, yaml.Node] | None) -> str:
    if entry is None or len(parent.value) == 1:
        raise Unwritable("the last key of a mapping is not removed in place; edit it by hand")
    key, value = entry
    if not _in_flow(parent):
        return _without_lines(text, key.start_mark.index, "", entry)
    index = parent.value.index(entry)
    if index + 1 < len(parent.value):
        return _cut(text, key.start_mark.index, parent.value[index + 1][0].start_mark.index, entry)
    return _cut(text, _end(parent.value[index - 1][1], text), _end(value, text), entry)


def _without_last_item(text: str, parent: yaml.SequenceNode) -> str:
    if len(parent.value) == 1:
        raise Unwritable("the last item of a list is not removed in place; edit it by hand")
    *_, before, item = parent.value
    if _in_flow(parent):
        return _cut(text, _end(before, text), _end(item, text), [item])
    return _without_lines(text, item.start_mark.index, "-", [item])


def _without_lines(text: str, begins: int, behind: str, gone: Sequence[yaml.Node]) -> str:
    """A text without the lines of an entry of a block; ahead of where it begins only `behind` stands on its line."""
    start = text.rfind("\n", 0, begins) + 1
    if text[start:begins].strip() != behind:
        raise Unwritable("a key behind a list mark is not removed in place; edit it by hand")
    end = text.find("\n", _end(gone[-1], text))
    return _cut(text, start, len(text) if end < 0 else end + 1, gone)
