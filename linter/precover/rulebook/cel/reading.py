"""How the parts of an expression are run: fields of things, lists, loops."""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterator
from typing import Any, Final

from precover.rulebook.cel.kinds import Field
from precover.rulebook.cel.running import Scope
from precover.rulebook.cel.typed import Run, Typed


class Listed:
    """A list that is written out; what it holds can be compared one by one."""

    def __init__(self, items: tuple[Typed, ...]) -> None:
        self.items = items

    def __call__(self, scope: Scope) -> list[Any]:
        return [item.run(scope) for item in self.items]


def reading(owner: Typed, name: str, field: Field) -> Run:
    """How a field of a thing is read: a fact of the plan through the look, which stops where it is not stated."""
    of, work, fact = owner.run, field.work, field.fact
    if work is not None:

        def worked(scope: Scope) -> Any:
            one = of(scope)
            return None if one is None else work(one, scope.look)

        return worked
    if fact is None:
        return lambda scope: getattr(of(scope), name, None)
    attribute, key, plain = fact.attribute, fact.key, field.kind.sort not in ("thing", "list")

    def read(scope: Scope) -> Any:
        one = of(scope)
        if one is None or attribute not in type(one).facts:
            return None
        value = getattr(one, attribute)
        if not plain:
            return list(value.values()) if hasattr(value, "values") else value
        return scope.stated(one.place, key, value)

    return read


def each(items: Any, name: str, scope: Scope) -> Iterator[Any]:
    """Each of a list in turn, under its name."""
    for item in items:
        scope.step()
        scope.names[name] = item
        yield item
    scope.names.pop(name, None)


def count(value: Any, scope: Scope) -> int:
    """How many there are in a list, or how long a text is."""
    if value is None:
        return 0
    if isinstance(value, str):
        return len(value)
    found = 0
    for _ in value:
        scope.step()
        found += 1
    return found


LOOPS: Final[dict[str, Callable[[Any, Run, Scope], Any]]] = {
    "exists": lambda items, body, scope: any(body(scope) for _ in items),
    "all": lambda items, body, scope: all(body(scope) for _ in items),
    "exists_one": lambda items, body, scope: sum(bool(body(scope)) for _ in items) == 1,
    "filter": lambda items, body, scope: [item for item in items if body(scope)],
    "map": lambda items, body, scope: [body(scope) for _ in items],
}
TEXT_TESTS: Final[dict[str, Callable[[str, str], bool]]] = {
    "startsWith": str.startswith,
    "endsWith": str.endswith,
    "contains": operator.contains,
}
