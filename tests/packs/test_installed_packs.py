"""A pack of an installed distribution that changes an edition, from a folder laid out as an edition's own."""

from __future__ import annotations

from pathlib import Path

import pytest

from precover.rulebook import Pack, PackUnreadable, gather
from precover.rulebook.book import Library
from precover.rulebook.hooks import hookimpl

HEADER = "limit,holds,value,metric,source,confidence,note\n"


def installed(folder: Path) -> Library:
    """The installed rules, and a plugin that brings the county's pack."""

    class County:
        """The plugin."""

        @hookimpl
        def precover_packs(self) -> list[Pack]:
            """Its pack."""
            return [Pack(id="county", title="County", edition="", changes="us-2023", folder=folder)]

    return gather((County(),))


def put(folder: Path, name: str, text: str) -> None:
    """A file of the folder."""
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")


def test_it_changes_what_its_folder_says(tmp_path: Path) -> None:
    """A value replaced, one added, a rule out of force; the edition is found by itself."""
    put(tmp_path, "replaced/limits.csv", f"{HEADER}spacing of rods,length,10 ft,3 m,County Code 7,high,Dry soil\n")
    put(tmp_path, "added/limits.csv", f"{HEADER}depth of snow,length,3 ft,,County Code 8,high,\n")
    put(tmp_path, "parts.csv", "part,becomes,reason,source,confidence\nloads/surge,off,Put off,County Code 9,high\n")
    book = installed(tmp_path).book(("county",))
    assert [pack.id for pack in book.packs] == ["us-2023", "county"]
    cell = book.tables["limits"][("spacing of rods",)]
    assert (cell.text, cell.set_by, cell.was and cell.was.text) == ("10 ft", "county", "6 ft")
    assert book.tables["limits"][("depth of snow",)].was is None
    assert {off.set_by for off in book.off} == {"county"}
    assert book.topics["loads/surge"].rules == ()
    assert {effect.what for effect in book.effects} == {"spacing of rods", "depth of snow", "loads/surge"}


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("replaced/limits.csv", f"{HEADER}spacing of rod,length,10 ft,,x,high,\n", "did you mean `spacing of rods`"),
        ("added/limits.csv", f"{HEADER}spacing of rods,length,10 ft,,x,high,\n", "is there already"),
        ("replaced/limits.csv", f"{HEADER}spacing of rods,current,10 A,,x,high,\n", "holds length, not current"),
        ("replaced/limits.csv", f"{HEADER}spacing of rods,length,10 A,,x,high,\n", "`10 A` is not a length"),
        ("replaced/limits.csv", "limit,value\n", "limits.csv:1: the columns after the keys"),
        ("parts.csv", "part,becomes\n", "parts.csv:1: the columns are"),
        ("parts.csv", "part,becomes,reason,source,confidence\nx,gone,y,z,high\n", "parts.csv:2: a part becomes"),
        ("parts.csv", "part,becomes,reason,source,confidence\nloads/surg,off,y,z,high\n", "did you mean `loads/surge`"),
    ],
)
def test_what_is_wrong_with_it_is_told(name: str, text: str, said: str, tmp_path: Path) -> None:
    """With the file and line, or the nearest name."""
    put(tmp_path, name, text)
    with pytest.raises(PackUnreadable) as raised:
        len(installed(tmp_path).book(("county",)).tables["limits"].cells)
    assert said in f"{raised.value.message}; {raised.value.hint}"
