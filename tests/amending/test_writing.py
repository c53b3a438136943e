"""A plan file is replaced whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from precover.amending.writing import FileChanged, write


def test_the_file_has_the_new_text_and_its_mode(tmp_path: Path) -> None:
    """Nothing else is left in the folder."""
    plan = tmp_path / "a.plan.yaml"
    plan.write_bytes(b"old")
    plan.chmod(0o640)

    assert write(plan, b"old", "new") is None
    assert plan.read_bytes() == b"new"
    assert plan.stat().st_mode & 0o777 == 0o640
    assert [path.name for path in tmp_path.iterdir()] == ["a.plan.yaml"]


def test_a_byte_order_mark_stays(tmp_path: Path) -> None:
    """The reader drops it from the text; the writer puts it back."""
    plan = tmp_path / "a.plan.yaml"
    plan.write_bytes(b"\xef\xbb\xbfold")
    write(plan, b"\xef\xbb\xbfold", "new")

    assert plan.read_bytes() == b"\xef\xbb\xbfnew"


def test_a_file_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    """Somebody saved between the review and the writing."""
    plan = tmp_path / "a.plan.yaml"
    plan.write_bytes(b"newer")

    with pytest.raises(FileChanged):
        write(plan, b"old", "new")
    assert plan.read_bytes() == b"newer"
    assert [path.name for path in tmp_path.iterdir()] == ["a.plan.yaml"]


def test_the_previous_file_is_kept_and_no_other_lost(tmp_path: Path) -> None:
    """A second kept file gets a name of its own."""
    plan = tmp_path / "a.plan.yaml"
    plan.write_bytes(b"one")
    first = write(plan, b"one", "two", keep=True)
    second = write(plan, b"two", "three", keep=True)

    assert first is not None
    assert second is not None
    assert (first.read_bytes(), second.read_bytes(), plan.read_bytes()) == (b"one", b"two", b"three")


def test_what_is_kept_is_for_the_same_eyes(tmp_path: Path) -> None:
    plan = tmp_path / "a.plan.yaml"
    plan.write_bytes(b"one")
    plan.chmod(0o600)
    kept = write(plan, b"one", "two", keep=True)
    assert kept is not None
    assert [path.stat().st_mode & 0o777 for path in (plan, kept)] == [0o600, 0o600]


def test_half_a_copy_is_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the previous file cannot be kept whole nothing is written, and nothing is left of it."""
    plan = tmp_path / "a.plan.yaml"
    plan.write_bytes(b"one")
    chmod = Path.chmod

    def full(self: Path, mode: int) -> None:
        if "previous" in self.name:
            raise OSError(28, "no space left on device")
        chmod(self, mode)

    monkeypatch.setattr(Path, "chmod", full)
    with pytest.raises(OSError, match="no space"):
        write(plan, b"one", "two", keep=True)
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("a.plan.yaml", b"one")]


def test_a_link_keeps_pointing(tmp_path: Path) -> None:
    """The file behind a symbolic link is replaced, not the link."""
    plan = tmp_path / "real.plan.yaml"
    plan.write_bytes(b"old")
    link = tmp_path / "link.plan.yaml"
    link.symlink_to(plan)
    write(link, b"old", "new")

    assert link.is_symlink()
    assert plan.read_bytes() == b"new"
