"""`precover language-server`: reviews in an editor, over standard input and output or a loopback port."""

from __future__ import annotations

import argparse
import logging
import sys
from typing import Final

from precover.app.output import reason
from precover.app.packs import checked, library
from precover.app.refused import Refused

LEVELS: Final = {"debug": logging.DEBUG, "info": logging.INFO, "warning": logging.WARNING}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("--stdio", action="store_true", help="talk over standard input and output (the default)")
    parser.add_argument(
        "--tcp", type=int, metavar="PORT", help="listen on this port of 127.0.0.1 for one editor (0: any)"
    )
    parser.add_argument("--log", metavar="FILE", help="write the log to a file instead of standard error")
    parser.add_argument(
        "--log-level", choices=tuple(LEVELS), default="warning", help="what the log notes (default: warning)"
    )
    parser.add_argument(
        "--pack",
        action="append",
        default=[],
        metavar="PACK",
        help="rule pack in force, by name or path of its file, base first, instead of the plan's own (repeatable)",
    )


def run(chosen: argparse.Namespace) -> int:
    """Serve one editor until it is done: 0 if it said so, else 1."""
    if chosen.stdio and chosen.tcp is not None:
        raise Refused("--stdio and --tcp exclude each other; leave one of them out")
    if chosen.tcp is not None and not 0 <= chosen.tcp <= 65535:
        raise Refused(f"{chosen.tcp} is not a port; name one from 0 to 65535")
    packs = checked(tuple(chosen.pack))
    try:
        from precover.editor import server
    except ModuleNotFoundError as missing:
        if missing.name is None or missing.name.partition(".")[0] not in (
            "pygls",
            "lsprotocol",
            "cattrs",
            "attrs",
            "attr",
        ):
            raise
        raise Refused(
            "the language server needs pygls, which is not installed; run pip install 'precover[editor]'"
        ) from None
    _log_to(chosen.log, LEVELS[chosen.log_level])
    if chosen.tcp is not None:
        try:
            return server.serve_port(chosen.tcp, library, packs)
        except OSError as problem:
            raise Refused(f"port {chosen.tcp} cannot be used: {reason(problem)}; name another") from None
    return server.serve(sys.stdin.buffer, sys.stdout.buffer, library, packs)


def _log_to(file: str | None, level: int) -> None:
    try:
        handler = logging.StreamHandler() if file is None else logging.FileHandler(file, encoding="utf-8")
    except OSError as problem:
        raise Refused(f"{file} cannot be written: {reason(problem)}; name another file") from None
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    logging.basicConfig(level=level, handlers=[handler], force=True)
