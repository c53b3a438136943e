"""Messages in and out: a header with the length, then so many bytes of JSON. What is not that is answered, or left out."""

from __future__ import annotations

import asyncio
import json
import logging
import re
import threading
from collections.abc import Callable, Iterator
from typing import Any, BinaryIO, Final

_LENGTH: Final = re.compile(rb"content-length:\s*([0-9]{1,12})\s*", re.IGNORECASE)
LONGEST_HEADER: Final = 4096
LONGEST_MESSAGE: Final = 64 * 1024 * 1024
"""Bytes; an editor that sends more in one message is broken, and is not followed any further."""

_log = logging.getLogger(__name__)


class BrokenWire(Exception):
    """What comes in has no message boundaries any more."""


def bodies(stream: BinaryIO) -> Iterator[bytes]:
    """The bodies of the messages, until the stream ends; lines that are no header are left out. BrokenWire where a body
    is longer than any can be."""
    length = 0
    while True:
        line = stream.readline(LONGEST_HEADER)
        if not line:
            return
        header = _LENGTH.fullmatch(line)
        if header is not None:
            length = int(header[1])
            if length > LONGEST_MESSAGE:
                raise BrokenWire(f"a message of {length:,} bytes is announced")
        elif line in (b"\r\n", b"\n"):
            if length:
                body = stream.read(length)
                if len(body) < length:
                    return
                yield body
            length = 0
        elif b":" not in line:
            _log.warning("left out what is no message: %r", line[:80])


def framed(message: dict[str, Any]) -> bytes:
    """A message as it goes out."""
    body = json.dumps(message).encode()
    return b"Content-Length: %d\r\n\r\n%b" % (len(body), body)


async def pump(stream: BinaryIO, take: Callable[[bytes], None]) -> None:
    """Hand every message to `take` on the event loop, until the stream ends or `take` raises."""
    loop = asyncio.get_running_loop()
    waiting: asyncio.Queue[bytes | Exception | None] = asyncio.Queue()

    def put(item: bytes | Exception | None) -> None:
        try:
            loop.call_soon_threadsafe(waiting.put_nowait, item)
        except RuntimeError:
            _log.debug("the loop has ended; nobody takes what still comes in")

    def read() -> None:
        try:
            for body in bodies(stream):
                put(body)
        except (OSError, ValueError, BrokenWire) as problem:
            put(problem)
        else:
            put(None)

    threading.Thread(target=read, name="wire", daemon=True).start()
    while (item := await waiting.get()) is not None:
        if isinstance(item, Exception):
            raise item
        take(item)
