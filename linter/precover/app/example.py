"""`precover example`: the bundled plans, to read and to start from."""

from __future__ import annotations

import argparse
import difflib
from pathlib import Path

import precover
from precover.app.output import put
from precover.app.refused import Refused
from precover.reading import decode, parse

_FOLDER = Path(precover.__file__).parent / "examples"
_ENDING = ".plan.yaml"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("name", nargs="?", metavar="NAME", help="the example to print; without it, all are listed")


def run(chosen: argparse.Namespace) -> int:
    """List the examples with their titles, or print one."""
    names = sorted(path.name.removesuffix(_ENDING) for path in _FOLDER.glob(f"*{_ENDING}"))
    if chosen.name is None:
        room = max(map(len, names)) + 2
        put("".join(f"{name.ljust(room)}{_title(name)}\n" for name in names))
        return 0
    if chosen.name not in names:
        near = difflib.get_close_matches(chosen.name, names, n=1, cutoff=0.4)
        raise Refused(f"there is no example {chosen.name}; {f'did you mean {near[0]}?' if near else ', '.join(names)}")
    put(_text(chosen.name))
    return 0


def _text(name: str) -> str:
    return (_FOLDER / f"{name}{_ENDING}").read_text(encoding="utf-8")


def _title(name: str) -> str:
    return str(parse(decode(name, _text(name).encode())).data["title"])
