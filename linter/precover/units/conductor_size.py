"""Conductor sizes: AWG and kcmil on one scale."""

from __future__ import annotations

from functools import lru_cache
from typing import ClassVar

from precover.units.quantity import QuantityError

AWG = ("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")
KCMIL = ("250", "300", "350", "400", "500", "600", "700", "750", "800", "900", "1000", "1250", "1500", "1750", "2000")
SCALE = AWG + KCMIL
"""Every size building wire is made in, small to large."""

_RANK = {designation: rank for rank, designation in enumerate(SCALE)}


class ConductorSize:
    """A size on the AWG / kcmil scale; larger wire compares greater. There is one object of each size, so that sizes are
    equal, and alike as keys, without a look inside."""

    __slots__ = ("designation", "rank", "text")
    designation: str
    rank: int
    text: str
    """The size with its scale, as people write it."""

    _made: ClassVar[dict[str, ConductorSize]] = {}

    def __new__(cls, designation: str) -> ConductorSize:
        size = cls._made.get(designation)
        if size is None:
            size = super().__new__(cls)
            size.designation = designation
            size.rank = _RANK[designation]
            size.text = f"{designation} {'AWG' if designation in AWG else 'kcmil'}"
            cls._made[designation] = size
        return size

    @classmethod
    def parse(cls, text: str) -> ConductorSize:
        """`12 AWG`, `1/0 AWG`, `250 kcmil`, or the bare designation; QuantityError for a size not made."""
        return _parse(text)

    def __lt__(self, other: ConductorSize) -> bool:
        return self.rank < other.rank

    def __le__(self, other: ConductorSize) -> bool:
        return self.rank <= other.rank

    def __gt__(self, other: ConductorSize) -> bool:
        return self.rank > other.rank

    def __ge__(self, other: ConductorSize) -> bool:
        return self.rank >= other.rank

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"ConductorSize({self.designation!r})"


@lru_cache(maxsize=256)
def _parse(text: str) -> ConductorSize:
    bare = " ".join(text.split())
    stem = bare.removesuffix("AWG").removesuffix("kcmil").removesuffix("MCM").strip().removeprefix("#")
    scale = AWG if bare.endswith("AWG") else KCMIL if bare.endswith(("kcmil", "MCM")) else SCALE
    if stem not in scale:
        raise QuantityError(
            f"`{text[:40]}` is not a conductor size", "write it like `12 AWG`, `1/0 AWG` or `250 kcmil`"
        )
    return ConductorSize(stem)
