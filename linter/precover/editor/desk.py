"""The texts that lie open, each looked at again as soon as nothing newer has come."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Final, TypeVar

from precover.editor.settings import Settings
from precover.editor.texts import Examined, OpenText, Stale
from precover.rulebook.book import Library

T = TypeVar("T")

PAUSE: Final = 0.001
"""Seconds before a version is looked at: changes that come in one go are one version."""

_log = logging.getLogger(__name__)


class Desk:
    """Every open text, and the one thread that reviews them in turn, beside the thread that talks to the editor.

    `show` is called with a text when there is something new to say of it.
    """

    def __init__(self, library: Callable[[], Library], show: Callable[[OpenText], None]) -> None:
        self.settings = Settings()
        self.encoding = "utf-16"
        self.texts: dict[str, OpenText] = {}
        self.library = library
        self._show = show
        self._thread = ThreadPoolExecutor(1, "review")
        self._working: dict[str, asyncio.Task[None]] = {}

    def open(self, uri: str, text: str, version: int | None, language: str) -> None:
        """The editor has opened a text."""
        self.texts[uri] = OpenText(uri, text, version, self.encoding, language)
        self._work(self.texts[uri])

    def change(self, uri: str, text: str, version: int | None) -> None:
        """The editor has another version of a text."""
        self.texts[uri].take(text, version)
        self._work(self.texts[uri])

    def close(self, uri: str) -> None:
        """The editor has closed a text."""
        text = self.texts.pop(uri, None)
        if text is not None:
            text.turn += 1  # what is being worked out is stale
            text.problems, text.last = (), None
            self._show(text)

    def again(self) -> None:
        """What the texts are reviewed by has changed."""
        for text in self.texts.values():
            text.turn += 1
            self._work(text)

    async def settled(self, uri: str) -> OpenText | None:
        """A text when its version has been looked at; None for one that is not open."""
        while (text := self.texts.get(uri)) is not None and text.seen != text.turn:
            await asyncio.shield(self._work(text))
        return text

    async def beside(self, work: Callable[[], T]) -> T:
        """The outcome of work on the reviewing thread."""
        return await asyncio.get_running_loop().run_in_executor(self._thread, work)

    def stop(self) -> None:
        """Nothing is looked at any more."""
        for text in self.texts.values():
            text.turn += 1
        for task in self._working.values():
            task.cancel()
        self._thread.shutdown(wait=False, cancel_futures=True)

    def _work(self, text: OpenText) -> asyncio.Task[None]:
        task = self._working.get(text.uri)
        if task is None or task.done():
            task = self._working[text.uri] = asyncio.get_running_loop().create_task(self._look(text))
        return task

    async def _look(self, text: OpenText) -> None:
        """Look at a text until its newest version has been looked at."""
        while self.texts.get(text.uri) is text and text.seen != text.turn:
            await asyncio.sleep(PAUSE)
            turn = text.turn
            try:
                made, problems = await self.beside(self._examining(text, turn))
            except Stale:
                continue
            except Exception:  # a fault of ours must not end the service: it is written down, and the text stays open
                _log.exception("%s could not be looked at", text.name)
                text.seen = turn
                continue
            if text.turn == turn:
                text.seen = turn
                text.problems = problems
                text.last = made or text.last
                self._show(text)

    def _examining(self, text: OpenText, turn: int) -> Callable[[], Examined]:
        packs = self.settings.packs
        return lambda: text.examined(self.library(), packs, lambda: text.turn == turn)
