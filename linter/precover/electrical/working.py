"""Results that show their working."""

from typing import Generic, NamedTuple, TypeVar

T = TypeVar("T", covariant=True)


class Worked(NamedTuple, Generic[T]):
    """A result with the steps that led to it, in order: short sentences that a rule can note in its derivation."""

    value: T
    steps: tuple[str, ...]
