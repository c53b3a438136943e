"""The structure of a plan: what an editor lists and folds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from lsprotocol import types

from precover.editor.diagnostics import range_of
from precover.editor.texts import OpenText, Reviewed
from precover.plan.thing import escaped
from precover.reviewing import place_in_words

_KINDS: Final = {
    "structures": types.SymbolKind.Namespace,
    "panels": types.SymbolKind.Module,
    "circuits": types.SymbolKind.Event,
    "boxes": types.SymbolKind.Object,
    "routes": types.SymbolKind.Interface,
}


def outline(text: OpenText) -> list[types.DocumentSymbol]:
    """The sections of the plan with their things, the legs of routes and the devices of boxes; of the last version that
    could be reviewed."""
    made = text.last
    if made is None:
        return []
    data = made.opened.document.data
    found = []
    for section, kind in _KINDS.items():
        entries = data.get(section)
        if isinstance(entries, dict) and entries:
            things = [_thing(made, f"/{section}/{escaped(name)}", name, kind, entry) for name, entry in entries.items()]
            found.append(_symbol(made, f"/{section}", section, types.SymbolKind.Package, things))
    return sorted(found, key=lambda symbol: symbol.range.start.line)


def folding(text: OpenText) -> list[types.FoldingRange]:
    """Sections and things that go over several lines."""

    def below(symbols: list[types.DocumentSymbol]) -> Iterator[types.FoldingRange]:
        for symbol in symbols:
            if symbol.range.end.line > symbol.range.start.line:
                yield types.FoldingRange(symbol.range.start.line, symbol.range.end.line)
            yield from below(list(symbol.children or ()))

    return list(below(outline(text))) if text.now is not None else []


def _thing(made: Reviewed, place: str, name: str, kind: types.SymbolKind, entry: Any) -> types.DocumentSymbol:
    inner = []
    if isinstance(entry, dict) and isinstance(entry.get("legs"), list):
        plan = made.review.trace.plan
        for number in range(len(entry["legs"])):
            leg = f"{place}/legs/{number}"
            words = place_in_words(plan, leg).rpartition(", leg ")[2]
            inner.append(_symbol(made, leg, f"leg {words}", types.SymbolKind.Field, []))
    if isinstance(entry, dict) and isinstance(entry.get("devices"), dict):
        for device in entry["devices"]:
            inner.append(_symbol(made, f"{place}/devices/{escaped(device)}", device, types.SymbolKind.Field, []))
    return _symbol(made, place, name, kind, inner)


def _symbol(
    made: Reviewed, place: str, name: str, kind: types.SymbolKind, inner: list[types.DocumentSymbol]
) -> types.DocumentSymbol:
    document, positions = made.opened.document, made.positions
    key, value = document.range(place, key=True), document.range(place)
    whole = types.Range(positions.range(key).start, positions.range(value).end)
    chosen = range_of(made.review, place, positions)
    if not (whole.start <= chosen.start and chosen.end <= whole.end):
        chosen = types.Range(whole.start, whole.start)
    return types.DocumentSymbol(name, kind, whole, chosen, children=inner)
