"""The plugins that installed distributions name, as the packaging standard has it (entry points specification).

Importing `importlib.metadata` takes longer than a review, so the folders of installed packages are read here; wherever
anything but such folders is on the path, that library is asked.
"""

import os
import sys
from collections.abc import Iterator
from importlib import import_module
from importlib.machinery import PathFinder
from operator import attrgetter
from typing import Any, Final, NamedTuple

_FOLDERS: Final = (".dist-info", ".egg-info")


class Installed(NamedTuple):
    """An entry point: its name, and the module (`package.module`, or `package.module:object`) that it stands for."""

    name: str
    value: str

    def load(self) -> Any:
        """What it stands for; whatever importing it raises."""
        module, _, inside = self.value.partition("[")[0].strip().partition(":")
        found = import_module(module.strip())
        return attrgetter(inside.strip())(found) if inside else found


def installed(group: str) -> list[Installed]:
    """The entry points of a group; of two distributions of one name, the first on the path counts."""
    listed = [(place, _listed(place)) for place in sys.path]
    if not _only_folders(listed):
        from importlib.metadata import entry_points  # only for what is installed in another way

        return [Installed(entry.name, entry.value) for entry in entry_points(group=group)]
    found: dict[str, list[Installed]] = {}
    for place, names in listed:
        for name in names or ():
            if name.endswith(_FOLDERS):
                distribution = name.partition("-")[0].lower().replace(".", "_")
                if distribution not in found:
                    found[distribution] = list(_named_in(f"{place or '.'}/{name}/entry_points.txt", group))
    return [entry for entries in found.values() for entry in entries]


def _only_folders(listed: list[tuple[str, list[str] | None]]) -> bool:
    finders = [finder for finder in sys.meta_path if hasattr(finder, "find_distributions")]
    elsewhere = (names is None or any(name.endswith(".egg") for name in names) for _, names in listed)
    return finders == [PathFinder] and not any(elsewhere)


def _listed(place: str) -> list[str] | None:
    """The names in a place on the path; None where it is a file, such as an archive."""
    try:
        with os.scandir(place or ".") as entries:
            return [entry.name for entry in entries]
    except NotADirectoryError:
        return None
    except OSError:
        return []  # on the path, but not there: nothing is imported from it either


def _named_in(file: str, group: str) -> Iterator[Installed]:
    """Lines `name = value` below `[group]`."""
    try:
        with open(file, "rb", buffering=0) as opened:  # noqa: PTH123  # a Path for each distribution takes longer than the rest
            text = opened.read().decode()
    except OSError:
        return  # most distributions have no entry points
    if group not in text:
        return
    inside = False
    for line in map(str.strip, text.splitlines()):
        if line.startswith("["):
            inside = line == f"[{group}]"
        elif inside and "=" in line and not line.startswith(("#", ";")):
            name, _, value = line.partition("=")
            yield Installed(name.strip(), value.strip())
