"""From the packs that are named to the list in force: the base first, each pack after what it changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from precover.rulebook.pack import Pack, PackUnreadable
from precover.rulebook.packs.change import NOTHING, Changes
from precover.rulebook.packs.folder import FolderChanges
from precover.rulebook.packs.tables import Layer

MOST_PACKS = 32
"""Packs in one list, with those that they change."""

Finder = Callable[[str, Pack | None], Pack]
"""The pack of a name; the second is the pack whose file names it, or None."""


def layers_of(named: Sequence[Pack], find: Finder) -> tuple[Layer, ...]:
    """The packs named, each after what it changes, each once; PackUnreadable where they do not fit together."""
    ordered: dict[str, Pack] = {}
    edition = ""
    for pack in named:
        chain = _chain(pack, find)
        for one in chain:
            if ordered.setdefault(one.id, one) is not one:
                raise PackUnreadable(f"two of the rule packs are called `{one.id}`", "give one of them another id")
        own = next((one.id for one in reversed(chain) if one.is_edition), "")
        if own and edition and own != edition:
            raise PackUnreadable(
                f"`{pack.id}` stands on `{own}`, and another pack of the list on `{edition}`",
                "name packs of one edition",
            )
        edition = own or edition
    if len(ordered) > MOST_PACKS:
        raise PackUnreadable(f"{len(ordered)} rule packs in one list", f"at most {MOST_PACKS} can be in force together")
    below = {one.id for one in _chain(ordered[edition], find)} if edition else set()
    first = [pack for pack in ordered.values() if pack.id in below]
    rest = [pack for pack in ordered.values() if pack.id not in below]
    return (
        *(Layer(one, _changes(one), edition) for one in first),
        *(Layer(one, _changes(one), "", find(one.changes, one).id if one.changes else "") for one in rest),
    )


def shown(layers: Sequence[Layer]) -> tuple[Pack, ...]:
    """The packs as people name them: an edition stands for the editions that it builds on."""
    return tuple(layer.pack for layer in layers if layer.edition in ("", layer.pack.id))


def _chain(pack: Pack, find: Finder) -> list[Pack]:
    """A pack behind all that it changes."""
    chain = [pack]
    while chain[0].changes:
        below = find(chain[0].changes, chain[0])
        if any(below.id == one.id for one in chain):
            raise PackUnreadable(f"the rule pack `{below.id}` changes itself in the end", "let it extend an edition")
        chain.insert(0, below)
        if len(chain) > MOST_PACKS:
            raise PackUnreadable(f"`{pack.id}` stands on more than {MOST_PACKS} packs", "put some of them together")
    return chain


def _changes(pack: Pack) -> Changes:
    if pack.read is not None:
        return pack.read
    if pack.folder is None:
        return NOTHING
    try:
        return FolderChanges(pack.folder)
    except ValueError as problem:
        raise PackUnreadable(f"pack `{pack.id}`: {problem}", "correct the file") from None
