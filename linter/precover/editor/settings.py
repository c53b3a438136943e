"""What a user of the server can set."""

from __future__ import annotations

from typing import Any, NamedTuple


class Settings(NamedTuple):
    """`packs`: rule packs in force instead of the plan's own, base first; `hints`: computed values beside the lines."""

    packs: tuple[str, ...] = ()
    hints: bool = True

    @classmethod
    def of(cls, given: Any, start: Settings) -> Settings:
        """The settings in what an editor sends, under `precover` or bare; `start` for what is not there, or of another
        kind."""
        own = given.get("precover", given) if isinstance(given, dict) else {}
        own = own if isinstance(own, dict) else {}
        packs, hints = own.get("packs"), own.get("hints")
        return cls(
            tuple(str(name) for name in packs) if isinstance(packs, list) and packs else start.packs,
            hints if isinstance(hints, bool) else start.hints,
        )
