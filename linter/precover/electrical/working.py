"""Results that show their working."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T", covariant=True)


@dataclass(frozen=True, slots=True)
class Worked(Generic[T]):
    """A result with the steps that led to it, in order: short sentences that a rule can note in its derivation."""

    value: T
    steps: tuple[str, ...]
