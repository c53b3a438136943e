"""The service: one editor, from its first message to its last."""

from __future__ import annotations

import asyncio
import gc
import json
import logging
import socket
import sys
from collections.abc import Callable
from concurrent.futures import Future
from contextlib import suppress
from typing import Any, BinaryIO, Final

from lsprotocol import types
from pygls.exceptions import FeatureRequestError, JsonRpcException
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol

from precover.editor.answers import register
from precover.editor.desk import Desk
from precover.editor.diagnostics import diagnostics
from precover.editor.settings import Settings
from precover.editor.texts import OpenText
from precover.editor.wire import BrokenWire, framed, pump
from precover.rulebook.book import Library
from precover.showing.tool import NAME, version

UNPARSABLE, NO_REQUEST, UNKNOWN_METHOD, WRONG_PARAMETERS, NOT_INITIALIZED = -32700, -32600, -32601, -32602, -32002
"""Error codes of JSON-RPC and of the Language Server Protocol."""

DEEPEST_STACK: Final = (RecursionError, ValueError)

_log = logging.getLogger(__name__)


class Service:
    """Takes messages of one editor, and sends answers and diagnostics."""

    def __init__(self, write: BinaryIO, library: Callable[[], Library], packs: tuple[str, ...]) -> None:
        self._write = write
        self._server = _Server(
            NAME,
            version(),
            text_document_sync_kind=types.TextDocumentSyncKind.Full,
            max_workers=1,
            protocol_cls=_Protocol,
        )
        self._server.protocol.set_writer(_Writer(write))
        self._begun = False
        self.desk = Desk(library, self._show)
        self.desk.settings = Settings(packs)
        register(self._server, self.desk, Settings(packs))

    def take(self, body: bytes) -> None:
        """Take one message; SystemExit when the editor is done."""
        try:
            data = json.loads(body)
        except DEEPEST_STACK as problem:
            _log.warning("a message that is no JSON: %s", problem)
            self._refuse(None, UNPARSABLE, "the message is not JSON")
            return
        if not isinstance(data, dict) or data.get("jsonrpc") != "2.0":
            _log.warning("a message that is no JSON-RPC 2.0: %r", body[:80])
            self._refuse(
                data.get("id") if isinstance(data, dict) else None, NO_REQUEST, "the message is not JSON-RPC 2.0"
            )
            return
        method, asked = data.get("method"), data.get("id")
        if not self._begun and method is not None and method not in (types.INITIALIZE, types.EXIT):
            _log.warning("%s came before initialize", method)
            if asked is not None:
                self._refuse(asked, NOT_INITIALIZED, "the server is not initialized yet")
            return
        protocol = self._server.protocol
        if method is not None:
            if not isinstance(method, str) or protocol.get_message_type(method) is None:
                _log.warning("a method that is not known: %r", method)
                if asked is not None:
                    self._refuse(asked, UNKNOWN_METHOD, "this method is not known")
                return
            data.setdefault("params", None)  # JSON-RPC lets it be left out
        try:
            message = protocol.structure_message(data)
        except Exception as problem:  # whatever it holds, it is not what the protocol says of this method
            _log.warning("parameters of %s that are not as they must be: %s", method, problem)
            if asked is not None and method is not None:
                self._refuse(asked, WRONG_PARAMETERS, f"the parameters of {method} are not as they must be")
            return
        self._begun = self._begun or method == types.INITIALIZE
        protocol.handle_message(message)

    @property
    def waiting(self) -> int:
        """How many messages are not done with."""
        return self._server.protocol.waiting if isinstance(self._server.protocol, _Protocol) else 0

    def _refuse(self, asked: Any, code: int, says: str) -> None:
        asked = asked if isinstance(asked, (int, str)) else None
        self._write.write(framed({"jsonrpc": "2.0", "id": asked, "error": {"code": code, "message": says}}))
        self._write.flush()

    def _show(self, text: OpenText) -> None:
        """Tell the editor what there is to say of a text, as it is now."""
        is_open = text.uri in self.desk.texts
        told = types.PublishDiagnosticsParams(
            text.uri, diagnostics(text) if is_open else [], text.version if is_open else None
        )
        with suppress(OSError):  # the editor is gone: the end of its stream says so, and ends the service
            self._server.text_document_publish_diagnostics(told)


def serve(read: BinaryIO, write: BinaryIO, library: Callable[[], Library], packs: tuple[str, ...]) -> int:
    """Serve the editor at the other end of two streams; 0 where it took its leave, 1 where it just went."""
    logging.getLogger("pygls.protocol.json_rpc").addFilter(_told)
    gc.enable()
    gc.set_threshold(100_000, 50, 100)
    aside, sys.stdout = sys.stdout, sys.stderr  # what a plugin prints must not come between the messages
    try:
        return asyncio.run(_serve(read, write, library, packs))
    finally:
        sys.stdout = aside


async def _serve(read: BinaryIO, write: BinaryIO, library: Callable[[], Library], packs: tuple[str, ...]) -> int:
    service = Service(write, library, packs)
    try:
        await pump(read, service.take)
    except SystemExit as done:
        return int(done.code or 0)
    except BrokenWire as problem:
        _log.error("the connection makes no sense any more: %s", problem)
        return 1
    except (OSError, ValueError) as problem:
        _log.error("the connection broke: %s", problem)
        return 1
    finally:
        service.desk.stop()
    _log.warning("the editor closed the connection without taking its leave")
    return 1


def serve_port(port: int, library: Callable[[], Library], packs: tuple[str, ...]) -> int:
    """Serve the first editor that connects to a port of the loopback address; OSError where the port cannot be used."""
    with socket.socket() as listening:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind(("127.0.0.1", port))
        listening.listen(1)
        sys.stderr.write(f"{NAME}: listening on 127.0.0.1 port {listening.getsockname()[1]}\n")
        sys.stderr.flush()
        connection, _ = listening.accept()
    with connection, connection.makefile("rb") as read, connection.makefile("wb") as write:
        return serve(read, write, library, packs)


class _Protocol(LanguageServerProtocol):
    """pygls' protocol, which would keep what became of every notification for as long as it runs."""

    def _check_handler_result(self, future: Future[Any]) -> None:
        super()._check_handler_result(future)
        self._request_futures = {key: one for key, one in self._request_futures.items() if one is not future}

    @property
    def waiting(self) -> int:
        """How many messages are not done with."""
        return len(self._request_futures)


class _Server(LanguageServer):
    """pygls' server; what goes wrong outside a request stands in the log, not in a window of the editor."""

    def report_server_error(self, error: Exception, source: Any) -> None:
        if source is not FeatureRequestError:  # those have their answer, and their cause is in the log
            _log.error("%s: %s", getattr(source, "__name__", source), error)


def _told(record: logging.LogRecord) -> bool:
    """Whether a record of pygls is worth writing: not the traces of what was refused, or could not be read, for that is
    noted in one line here."""
    trace = record.exc_info[1] if record.exc_info else None
    return not isinstance(trace, JsonRpcException) and not str(record.msg).startswith("Unable to deserialize")


class _Writer:
    """Messages out. The stream is closed by whoever opened it."""

    def __init__(self, stream: BinaryIO) -> None:
        self._stream = stream

    def write(self, data: bytes) -> None:
        """Write and send on."""
        self._stream.write(data)
        self._stream.flush()

    def close(self) -> None:
        """Nothing: the process ends after this."""
