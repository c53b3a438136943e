"""Entry points are found as the standard library's `importlib.metadata` finds them."""

from __future__ import annotations

import sys
import zipfile
from importlib.metadata import entry_points
from pathlib import Path

import pytest

from precover.rulebook.installed import Installed, installed

GROUP = "precover-test"


def distribution(folder: Path, name: str, text: str, kind: str = "dist-info") -> None:
    """An installed distribution with a file of entry points."""
    info = folder / f"{name}.{kind}"
    info.mkdir(parents=True)
    described = "METADATA" if kind == "dist-info" else "PKG-INFO"
    (info / described).write_text(
        f"Metadata-Version: 2.1\nName: {name.partition('-')[0]}\nVersion: 1\n", encoding="utf-8"
    )
    (info / "entry_points.txt").write_text(text, encoding="utf-8")


def both(group: str) -> tuple[list[Installed], list[Installed]]:
    """What is found, and what the standard library finds."""
    library = [Installed(entry.name, entry.value) for entry in entry_points(group=group)]
    return sorted(installed(group)), sorted(library)


@pytest.mark.parametrize("group", ["precover", "pytest11", "console_scripts", "nobody"])
def test_this_environment(group: str) -> None:
    """The groups of what is installed here."""
    ours, library = both(group)
    assert ours == library
    assert ours or group == "nobody"


@pytest.mark.parametrize("kind", ["dist-info", "egg-info"])
def test_what_a_file_of_entry_points_can_hold(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str) -> None:
    """Comments, other groups, spaces, objects in modules; of two of one name the first on the path."""
    text = f"""
# a comment
[other]
one = other.module
[{GROUP}]

  two  =  some.module:thing.part
three=some.module
four = some.module:thing [extra]
[more]
five = more.module
"""
    distribution(tmp_path / "one", "Hill.County-1.0", text, kind)
    distribution(tmp_path / "other", "hill_county-2.0", f"[{GROUP}]\nsix = later.module\n", kind)
    (tmp_path / "other" / "plain-1.0.dist-info").mkdir()
    first = [str(tmp_path / name) for name in ("one", "missing", "other")]
    monkeypatch.setattr(sys, "path", [*first, *sys.path])
    ours, library = both(GROUP)
    assert ours == library
    assert [entry.name for entry in ours] == ["four", "three", "two"]


def test_an_archive_on_the_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What lies in no plain folder is left to the standard library."""
    archive = tmp_path / "county.whl"
    with zipfile.ZipFile(archive, "w") as out:
        out.writestr("county-1.dist-info/METADATA", "Metadata-Version: 2.1\nName: county\nVersion: 1\n")
        out.writestr("county-1.dist-info/entry_points.txt", f"[{GROUP}]\none = county.module\n")
    monkeypatch.syspath_prepend(str(archive))
    assert installed(GROUP) == [Installed("one", "county.module")]


@pytest.mark.parametrize(
    ("value", "expected"),
    [("json", "json"), ("json : JSONDecoder.decode [extra]", "decode"), ("json.decoder:JSONDecoder", "JSONDecoder")],
)
def test_what_an_entry_stands_for(value: str, expected: str) -> None:
    """A module, or something in it."""
    assert Installed("x", value).load().__name__ == expected


@pytest.mark.parametrize("value", ["no.such.module", "json:nothing"])
def test_an_entry_that_stands_for_nothing(value: str) -> None:
    """It fails when it is loaded, and only then."""
    with pytest.raises((ImportError, AttributeError)):
        Installed("x", value).load()
