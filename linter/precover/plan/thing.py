"""What every object of a plan has: its place, and an answer to "and what if the plan does not say?"."""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from types import MappingProxyType, NoneType, UnionType
from typing import Any, ClassVar, Final, NoReturn

BY_READER: Final = frozenset({"place", "id", "number"})
"""Attributes that the reader works out from where an object stands, not from a key."""


class Unstated:
    """A fact the plan leaves out.

    `place` is the JSON Pointer it would have, `field` its key in the plan, `fact` how its value is typed. It is neither
    true nor false: using it as a truth value raises TypeError, so that no rule takes an unknown for an answer.
    """

    __slots__ = ("_owner", "fact")

    def __init__(self, owner: str, fact: Fact) -> None:
        self._owner = owner
        self.fact = fact

    @property
    def place(self) -> str:
        """JSON Pointer of the fact."""
        return f"{self._owner}/{self.fact.key}"

    @property
    def field(self) -> str:
        """Its key in the plan."""
        return self.fact.key

    def __bool__(self) -> NoReturn:
        raise TypeError(f"{self.place} is not stated; read it through `stated`")

    def __repr__(self) -> str:
        return f"<unstated {self.place}>"


class Fact:
    """How one attribute is written in a plan: its key, and the type (or the words) of its value.

    `kind` is "fact" (unknown where it is left out), "option" (not there where it is left out: something extra that a plan
    must claim, such as concrete over a cable), "needed" (the schema asks for it), "part" (an object, there even if
    nothing of it is said), "things" (a mapping by id) or "list".
    """

    __slots__ = ("attribute", "key", "kind", "type", "words")

    def __init__(self, attribute: str, key: str, kind: str, type_: Any, words: tuple[Any, ...]) -> None:
        self.attribute = attribute
        self.key = key
        self.kind = kind
        self.type = type_
        self.words = words

    def probes(self) -> tuple[Any, ...]:
        """Values that show whether the fact matters: every word of a closed list, else values at both ends."""
        if self.words:
            return self.words
        if self.type is bool:
            return (False, True)
        if self.type is int:
            return (0, 1_000_000)
        kinds = self.type if isinstance(self.type, tuple) else (self.type,)
        return tuple(value for kind in kinds if hasattr(kind, "probes") for value in kind.probes())


class _LeftOut:
    """Stands in a class for a fact, for the objects that do not state it: each gets its `Unstated` when first asked for it."""

    __slots__ = ("_fact",)

    def __init__(self, fact: Fact) -> None:
        self._fact = fact

    def __get__(self, thing: Thing, _: type[Thing]) -> Unstated:
        left_out = Unstated(thing.place, self._fact)
        _set(thing, self._fact.attribute, left_out)
        return left_out


class _Blank:
    """Stands in a class for a part, for the objects of which the plan says nothing of it."""

    __slots__ = ("_fact",)

    def __init__(self, fact: Fact) -> None:
        self._fact = fact

    def __get__(self, thing: Thing, _: type[Thing]) -> Thing:
        part = blank(self._fact.type, f"{thing.place}/{self._fact.key}")
        _set(thing, self._fact.attribute, part)
        return part


_set = object.__setattr__
_NOTHING: Final[dict[str, Callable[[Fact], Any]]] = {
    "fact": _LeftOut,
    "part": _Blank,
    "option": lambda _: None,
    "list": lambda _: (),
    "things": lambda _: MappingProxyType({}),
    "needed": lambda _: MappingProxyType({}),  # to look at the rest of a plan in which it was refused
}
"""Kind of a fact -> what a class has for it, for the objects that leave it out."""


class _Facts:
    """Stands for the facts of a class until they are first asked for: most plans have things of few classes."""

    def __get__(self, _: Thing | None, kind: type[Thing]) -> dict[str, Fact]:
        facts = {key: fact for base in reversed(kind.__bases__) for key, fact in getattr(base, "facts", {}).items()}
        own = vars(kind).get("__annotations__", {})
        facts |= {key: _fact(key, type_) for key, type_ in own.items() if key not in BY_READER}
        kind.facts = facts
        for key in own.keys() & facts.keys():
            setattr(kind, key, _NOTHING[facts[key].kind](facts[key]))
        return facts


class Thing:
    """An object of the plan: frozen, built by the reading floor only, which sets what the plan states.

    A class notes in `facts` how its annotated attributes are written in a plan (without a metaclass, which would make
    every `isinstance` several times as slow). A fact that was not set is no attribute of the object, and reading it gives
    its `Unstated`, by its class: nothing is made for the many facts that a plan leaves out until a rule asks for one. An
    extra that was not claimed is None. (A `__getattr__` would do the same, and slow down every attribute.)
    """

    place: str
    """JSON Pointer of the object in the plan."""
    facts: ClassVar[dict[str, Fact]] = {}

    def __init_subclass__(cls) -> None:
        cls.facts = _Facts()  # type: ignore[assignment]  # it gives what it stands for

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"a plan is not changed once read ({type(self).__name__}.{name})")

    def __repr__(self) -> str:
        return f"<{type(self).__name__} {self.place}>"


def blank(kind: type[Thing], place: str) -> Thing:
    """An object of which the plan says nothing."""
    kind.facts  # noqa: B018 - its class knows from here on what to give for what is left out
    thing = kind.__new__(kind)
    _set(thing, "place", place)
    return thing


def key_of(attribute: str) -> str:
    """The plan's key for an attribute: words joined by hyphens, as the plan language writes them."""
    return attribute.rstrip("_").replace("_", "-")


def escaped(token: str) -> str:
    """A token of a JSON Pointer, escaped (RFC 6901, section 3)."""
    return token.replace("~", "~0").replace("/", "~1")


def tokens_of(pointer: str) -> list[str]:
    """The tokens of a JSON Pointer, without their escapes."""
    return [token.replace("~1", "/").replace("~0", "~") for token in pointer.split("/")[1:]]


def _fact(attribute: str, kind: Any) -> Fact:
    options = kind.__args__ if isinstance(kind, UnionType) or _origin(kind) is typing.Union else (kind,)
    inner = [option for option in options if option is not Unstated and option is not NoneType]
    words = tuple(word for option in inner if _origin(option) is typing.Literal for word in option.__args__)
    origin = _origin(inner[0])
    if Unstated in options:
        role = "fact"
    elif NoneType in options:
        role = "option"
    elif origin is Mapping:
        role, inner = "things", [inner[0].__args__[1]]
    elif origin is tuple:
        role, inner = "list", [inner[0].__args__[0]]
    elif isinstance(inner[0], type) and issubclass(inner[0], Thing):
        role = "part"
    else:
        role = "needed"
    return Fact(attribute, key_of(attribute), role, inner[0] if len(inner) == 1 else tuple(inner), words)


def _origin(kind: Any) -> Any:
    """What a type is a form of: `Literal`, `Mapping`, `tuple`; None for a plain class."""
    return getattr(kind, "__origin__", None)
