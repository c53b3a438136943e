"""Results that show their working."""

from __future__ import annotations

from typing import Generic, TypeVar

from precover.record import Record

T = TypeVar("T", covariant=True)


class Worked(Record, Generic[T]):
    """A result with the steps that led to it, in order: short sentences that a rule can note in its derivation."""

    value: T
    steps: tuple[str, ...]
