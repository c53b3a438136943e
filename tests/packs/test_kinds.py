"""Every kind of local amendment has a pack that says it, and the pack's own tests come out as it expects."""

from __future__ import annotations

from pathlib import Path

import pytest

from precover.reviewing.pack_tests import try_pack
from precover.rulebook.packs.file_changes import FileChanges
from precover.rulebook.packs.local_file import read_pack
from precover.rulebook.packs.weighing import Direction
from support.reviews import library

KINDS = sorted((Path(__file__).parent / "kinds").glob("*.pack.yaml"))
BAD = {"not met", "cannot tell", "out of force", "listed"}


@pytest.mark.parametrize("file", KINDS, ids=lambda file: file.name.partition(".")[0])
def test_a_kind_does_what_its_tests_say(file: Path) -> None:
    """Each test of the pack; and one of them at least is about something that the pack makes of the plan."""
    pack = read_pack(str(file))
    tried = list(try_pack(pack, str(file), library()))
    assert [failed for one in tried for failed in one.failed] == []
    assert isinstance(pack.read, FileChanges)
    expected = {one["answer"] for test in pack.read.data["tests"].values() for one in test["expect"]}
    assert expected & BAD or "does not apply" in expected or file.name.startswith("03-county")


def test_there_is_a_pack_for_every_kind() -> None:
    """Thirty-five, and the settings that no ordinance was found for."""
    assert {int(file.name[:2]) for file in KINDS} == set(range(1, 37))


@pytest.mark.parametrize("file", KINDS, ids=lambda file: file.name.partition(".")[0])
def test_what_a_kind_changes_is_told(file: Path) -> None:
    """Each change of a value or of what is in force is an effect with its place in the file."""
    book = library().book((str(file),))
    pack = read_pack(str(file))
    own = [effect for effect in book.effects if effect.pack == pack.id]
    assert isinstance(pack.read, FileChanges)
    said = sum(len(pack.read.data.get(key, ())) for key in ("limits", "cells", "off", "on", "exceptions"))
    assert sum(effect.direction is not Direction.ADDS and effect.place.line > 0 for effect in own) >= said - sum(
        bool(change.get("adds")) for change in pack.read.data.get("limits", {}).values()
    )


@pytest.mark.parametrize(
    ("file", "loosens", "tightens"),
    [
        ("04-postponed-section", 1, 0),
        ("06-narrower-ground-fault", 2, 0),
        ("08-deleted-topics", 2, 0),
        ("13-smallest-wire", 1, 1),
        ("15-wired-ground", 0, 3),
        ("16-deeper-cover", 0, 1),
        ("22-voltage-drop", 0, 2),
        ("36-settings", 1, 0),
    ],
)
def test_whether_it_asks_more_or_less(file: str, loosens: int, tightens: int) -> None:
    """As the edition has it; requirements of its own only add."""
    (path,) = [one for one in KINDS if one.name.startswith(file)]
    ways = [effect.direction for effect in library().book((str(path),)).effects]
    assert (ways.count(Direction.LOOSENS), ways.count(Direction.TIGHTENS)) == (loosens, tightens)
