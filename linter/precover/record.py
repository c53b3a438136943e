"""Small values with named parts."""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter
from typing import Any, ClassVar, NoReturn, Self, dataclass_transform


@dataclass_transform(frozen_default=True)
class Record:
    """A value made of named parts: a class lists them with their types, and defaults at the end, as for a `NamedTuple`.

    Making such a class costs a tenth of making a named tuple or a dataclass, and the command makes some sixty of them
    before it can review a plan. Where thousands of one are made for a plan, a named tuple is the quicker.
    """

    _parts: ClassVar[tuple[str, ...]] = ()
    _known: ClassVar[frozenset[str]] = frozenset()
    _needed: ClassVar[frozenset[str]] = frozenset()
    _values: ClassVar[Callable[[object], Any]]

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        cls._parts = tuple(vars(cls).get("__annotations__", ()))
        cls._known = frozenset(cls._parts)
        cls._needed = frozenset(part for part in cls._parts if not hasattr(cls, part))
        cls._values = attrgetter(*cls._parts)

    def __init__(self, *values: Any, **named: Any) -> None:
        held = vars(self)
        held.update(zip(self._parts, values, strict=False), **named)
        if len(held) != len(values) + len(named) or not self._needed <= held.keys() <= self._known:
            raise self._not_made()

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"a {type(self).__name__} is not changed once made")

    def _replace(self, **changed: Any) -> Self:
        """The same with other values for some of its parts, under the name that it has in a named tuple."""
        if not changed.keys() <= self._known:
            raise self._not_made()
        made = object.__new__(type(self))
        vars(made).update(vars(self), **changed)
        return made

    def _not_made(self) -> TypeError:
        return TypeError(f"{type(self).__name__} is made of {', '.join(self._parts)}")

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and type(self)._values(self) == type(self)._values(other)

    def __hash__(self) -> int:
        return hash(type(self)._values(self))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{part}={getattr(self, part)!r}' for part in self._parts)})"
