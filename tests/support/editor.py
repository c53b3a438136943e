"""A language client of the fewest means: messages to a real server over its pipe, and what comes back."""

from __future__ import annotations

import json
import os
import queue
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from itertools import count
from pathlib import Path
from typing import Any

import pytest

COMMAND = [sys.executable, "-m", "precover.app", "language-server"]
PATIENCE = 60.0
"""Seconds after which a server that does not answer counts as hanging."""


def program(name: str, package: str) -> str:
    """The path of a program from elsewhere that a test drives. Where it is not installed the test is passed over, and says
    so, unless `PRECOVER_CLIENTS=needed` is set."""
    found = shutil.which(name)
    if found is None:
        message = f"{name} is not installed, and this test drives it (Debian: apt-get install {package})"
        if os.environ.get("PRECOVER_CLIENTS") == "needed":
            pytest.fail(message)
        pytest.skip(message)
    return found


class Client:
    """A server process, and the messages that it has sent."""

    def __init__(self, *arguments: str, cwd: Path | None = None, **settings: Any) -> None:
        self.process = subprocess.Popen(
            [*COMMAND, *arguments], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=cwd
        )
        self.messages: queue.Queue[dict[str, Any] | None] = queue.Queue()
        self.shown: list[dict[str, Any]] = []
        self._ids = count(1)
        self._settings = settings
        threading.Thread(target=self._read, daemon=True).start()

    def __enter__(self) -> Client:
        return self

    def __exit__(self, *_: object) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout, self.process.stderr):
            try:
                if stream is not None:
                    stream.close()
            except BrokenPipeError:
                pass  # what was still to be written to a server that was killed

    def _read(self) -> None:
        stream = self.process.stdout
        assert stream is not None
        length = 0
        while line := stream.readline():
            if line.lower().startswith(b"content-length:"):
                length = int(line.partition(b":")[2])
            elif not line.strip():
                self.messages.put(json.loads(stream.read(length)))
        self.messages.put(None)

    def raw(self, data: bytes) -> None:
        """Bytes as they are."""
        assert self.process.stdin is not None
        self.process.stdin.write(data)
        self.process.stdin.flush()

    def send(self, message: dict[str, Any]) -> None:
        """One message."""
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.raw(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))

    def notify(self, method: str, params: Any = None) -> None:
        """A notification."""
        self.send({"method": method, "params": params})

    def ask(self, method: str, params: Any = None) -> int:
        """A request; its id."""
        asked = next(self._ids)
        self.send({"id": asked, "method": method, "params": params})
        return asked

    def next(self, wanted: Callable[[dict[str, Any]], bool], patience: float = PATIENCE) -> dict[str, Any]:
        """The next message of a kind; the others are kept in `shown`."""
        end = time.monotonic() + patience
        while True:
            message = self.messages.get(timeout=max(end - time.monotonic(), 0.001))
            assert message is not None, "the server ended"
            if wanted(message):
                return message
            self.shown.append(message)

    def answer(self, asked: int) -> dict[str, Any]:
        """The response to a request."""
        return self.next(lambda message: message.get("id") == asked and "method" not in message)

    def request(self, method: str, params: Any = None) -> Any:
        """The result of a request that must not fail."""
        response = self.answer(self.ask(method, params))
        assert "error" not in response, response
        return response["result"]

    def begin(self, capabilities: dict[str, Any] | None = None) -> Any:
        """Shake hands; what the server can do."""
        given = {"processId": None, "rootUri": None, "capabilities": capabilities or {}}
        result = self.request("initialize", {**given, "initializationOptions": self._settings})
        self.notify("initialized", {})
        return result["capabilities"]

    def open(self, uri: str, text: str, version: int = 1) -> list[dict[str, Any]]:
        """Open a text; its first diagnostics."""
        document = {"uri": uri, "languageId": "precover-plan", "version": version, "text": text}
        self.notify("textDocument/didOpen", {"textDocument": document})
        return self.diagnostics(uri, version)

    def change(self, uri: str, text: str, version: int) -> None:
        """Another version of a text."""
        document = {"uri": uri, "version": version}
        self.notify("textDocument/didChange", {"textDocument": document, "contentChanges": [{"text": text}]})

    def diagnostics(self, uri: str, version: int | None) -> list[dict[str, Any]]:
        """The diagnostics of a version of a text."""

        def wanted(message: dict[str, Any]) -> bool:
            told = message.get("params") if message.get("method") == "textDocument/publishDiagnostics" else None
            return told is not None and told["uri"] == uri and told.get("version") == version

        found: list[dict[str, Any]] = self.next(wanted)["params"]["diagnostics"]
        return found

    def end(self) -> tuple[int, str]:
        """Take leave; the exit status and what stands in the log."""
        self.request("shutdown")
        self.notify("exit")
        return self.over()

    def over(self) -> tuple[int, str]:
        """Wait for the process to end."""
        status = self.process.wait(PATIENCE)
        assert self.process.stderr is not None
        return status, self.process.stderr.read().decode()
