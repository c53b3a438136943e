"""What the packs in force change of the edition, in a review: what they loosen is said in full."""

from __future__ import annotations

from collections import Counter
from typing import Any

from precover.rulebook import Pack, Rule, Rulebook
from precover.rulebook.packs.change import Place
from precover.rulebook.packs.weighing import Direction, Effect
from precover.showing.sheet import Sheet

MOST_SAID = 12
"""Loosened values that a sheet lists before it says how many more there are."""
_COUNTED = {
    Direction.TIGHTENS: "asks more in {}",
    Direction.LOOSENS: "asks less in {}",
    Direction.CHANGES: "changes {} (whether to more or to less cannot be told from the value)",
    Direction.ADDS: "adds {}",
}


def put_changes(sheet: Sheet, book: Rulebook) -> None:
    """Put on the sheet what packs on top of the edition do to it, nothing where there are none."""
    effects = book.effects
    for pack in dict.fromkeys(effect.pack for effect in effects):
        own = [effect for effect in effects if effect.pack == pack]
        counted = Counter(effect.direction for effect in own)
        told = [words.format(counted[way]) for way, words in _COUNTED.items() if counted[way]]
        sheet.entry("", f"{pack} {', '.join(told) or 'changes no requirement'}", indent=0)
        loosened = [effect for effect in own if effect.direction is Direction.LOOSENS]
        for effect in loosened[:MOST_SAID]:
            sheet.entry("less asked", in_words(effect), indent=0, style="strong")
        if len(loosened) > MOST_SAID:
            sheet.entry("", f"and {len(loosened) - MOST_SAID} more; `precover packs show` lists them", indent=0)
    for conflict in book.conflicts:
        words = f"{conflict.what} is set by {conflict.first}, and again by {conflict.last}, which has its way"
        sheet.entry("set twice", words, indent=0, style="strong")


def in_words(effect: Effect) -> str:
    """A change: what it is about, what it becomes, what it was, and why."""
    because = f" ({effect.because})" if effect.because else ""
    if not effect.was:
        return f"{effect.what}: {effect.becomes}{because}"
    return f"{effect.what}: {effect.becomes}, was {effect.was}{because}"


def packs_record(book: Rulebook) -> list[dict[str, Any]]:
    """The packs in force as plain data, those on top of the edition with what they change."""
    return [
        {"id": pack.id, "title": pack.title, "edition": pack.edition, "notes": pack.notes, **_on_top(pack, book)}
        for pack in book.packs
    ]


def _on_top(pack: Pack, book: Rulebook) -> dict[str, Any]:
    if pack.is_edition or not pack.changes:
        return {}
    own = [effect_record(effect) for effect in book.effects if effect.pack == pack.id]
    return {"adopted_by": pack.adopted_by, "effective": pack.effective, "changes": own}


def effect_record(effect: Effect) -> dict[str, Any]:
    """A change as plain data."""
    return {
        "what": effect.what,
        "was": effect.was,
        "becomes": effect.becomes,
        "direction": effect.direction.value,
        "because": effect.because,
        "place": place_record(effect.place),
    }


def conflicts_record(book: Rulebook) -> list[dict[str, Any]]:
    """What two packs set, as plain data."""
    return [
        {
            "what": one.what,
            "first": {"pack": one.first, "place": place_record(one.first_place)},
            "last": {"pack": one.last, "place": place_record(one.last_place)},
        }
        for one in book.conflicts
    ]


def place_record(place: Place) -> dict[str, Any] | None:
    """Where a change is written, None where it is in no file of its own."""
    return {"file": place.file, "line": place.line, "column": place.column} if place.file else None


def required_by_record(rule: Rule) -> dict[str, Any]:
    """The pack that brought a rule or changed its severity; nothing for a rule as it is."""
    if not rule.set_by:
        return {}
    was = {"severity_was": rule.was.severity.word} if rule.was is not None else {}
    return {"required_by": rule.set_by, **was}
