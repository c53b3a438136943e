"""Where a pack file may lie."""

from __future__ import annotations

from pathlib import Path

from precover.rulebook.pack import PackUnreadable


def found(name: str, at: Path | None) -> Path:
    """The file of a pack that is named by its path: from the folder `at`, and then inside it or below, links followed;
    without `at`, from anywhere. PackUnreadable where there is none or it lies outside."""
    try:
        path = Path(name) if at is None else at / name
        resolved = path.resolve()
        if at is not None and not resolved.is_relative_to(at.resolve()):
            raise PackUnreadable(
                f"the rule pack `{name}` lies outside the folder of the file that names it",
                "put it into that folder or below it, or name it on the command line",
            )
        if not resolved.is_file():
            what = "is no file" if resolved.exists() else "is not there"
            raise PackUnreadable(f"the rule pack `{name}` {what}", "check its path")
    except (OSError, ValueError, RuntimeError):  # a name no path can have, or a link that leads to itself
        raise PackUnreadable(f"`{name}` cannot be the path of a rule pack", "check its path") from None
    return resolved
