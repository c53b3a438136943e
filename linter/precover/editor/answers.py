"""Which part of the editor floor answers which message."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable
from functools import wraps
from typing import Any, TypeVar

from lsprotocol import types
from pygls.exceptions import JsonRpcException
from pygls.lsp.server import LanguageServer

from precover.editor import links
from precover.editor.actions import Action, actions
from precover.editor.completion import completion
from precover.editor.desk import Desk
from precover.editor.hints import hints
from precover.editor.hover import hover
from precover.editor.outline import folding, outline
from precover.editor.settings import Settings
from precover.editor.texts import OpenText, Stale

P = TypeVar("P")
R = TypeVar("R")

CONTENT_MODIFIED, REQUEST_FAILED, INTERNAL = -32801, -32803, -32603
"""Error codes of the Language Server Protocol and of JSON-RPC."""

_log = logging.getLogger(__name__)


def register(server: LanguageServer, desk: Desk, start: Settings) -> None:
    """Make a server answer from a desk; `start` are the settings where the editor has none."""
    _lifecycle(server, desk, start)
    _documents(server, desk)
    _reading(server, desk)
    _changing(server, desk)


def _guarded(answer: Callable[[P], Awaitable[R]]) -> Callable[[P], Awaitable[R]]:
    """An answer that fails tells the editor so in one line; the cause is in the log."""

    @wraps(answer)
    async def guarded(params: P) -> R:
        try:
            return await answer(params)
        except (JsonRpcException, asyncio.CancelledError):
            raise
        except Stale:
            raise JsonRpcException("the plan has changed meanwhile", CONTENT_MODIFIED) from None
        except Exception:
            _log.exception("%s failed", answer.__name__)
            raise JsonRpcException("this is a fault of precover; the log of the server says more", INTERNAL) from None

    return guarded


def _lifecycle(server: LanguageServer, desk: Desk, start: Settings) -> None:
    @server.feature(types.INITIALIZE)
    def begin(params: types.InitializeParams) -> None:
        desk.settings = Settings.of(params.initialization_options, start)
        desk.encoding = _value(server.workspace.position_encoding)

    preparing: list[asyncio.Task[None]] = []  # held, or it could be collected while it runs

    @server.feature(types.INITIALIZED)
    def begun(_: types.InitializedParams) -> None:
        preparing.append(asyncio.get_running_loop().create_task(_prepare(server, desk)))

    @server.feature(types.WORKSPACE_DID_CHANGE_CONFIGURATION)
    def changed(params: types.DidChangeConfigurationParams) -> None:
        desk.settings = Settings.of(params.settings, start)
        desk.again()
        workspace = server.client_capabilities.workspace
        if workspace and workspace.inlay_hint and workspace.inlay_hint.refresh_support:
            server.workspace_inlay_hint_refresh(None)

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def on_disk(_: types.DidChangeWatchedFilesParams) -> None:
        desk.again()


async def _prepare(server: LanguageServer, desk: Desk) -> None:
    """Read the rules before the first plan needs them, and ask to be told of pack files that change."""
    await desk.beside(desk.library)
    workspace = server.client_capabilities.workspace
    watched = workspace.did_change_watched_files if workspace else None
    if watched is None or not watched.dynamic_registration:
        return
    globs = [types.FileSystemWatcher(glob_pattern=glob) for glob in ("**/*.pack.yaml", "**/*.pack.yml")]
    options = types.DidChangeWatchedFilesRegistrationOptions(globs)
    wish = types.Registration("packs", types.WORKSPACE_DID_CHANGE_WATCHED_FILES, options)
    try:
        await server.client_register_capability_async(types.RegistrationParams([wish]))
    except JsonRpcException as problem:
        _log.warning("the editor does not watch pack files: %s", problem)


def _documents(server: LanguageServer, desk: Desk) -> None:
    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    def opened(params: types.DidOpenTextDocumentParams) -> None:
        document = params.text_document
        desk.open(document.uri, document.text, document.version, _value(document.language_id))

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    def changed(params: types.DidChangeTextDocumentParams) -> None:
        if params.content_changes and params.text_document.uri in desk.texts:
            desk.change(params.text_document.uri, params.content_changes[-1].text, params.text_document.version)

    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    def saved(_: types.DidSaveTextDocumentParams) -> None:
        desk.again()  # a pack may have been saved, or written beside

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def closed(params: types.DidCloseTextDocumentParams) -> None:
        desk.close(params.text_document.uri)


def _reading(server: LanguageServer, desk: Desk) -> None:
    @server.feature(types.TEXT_DOCUMENT_HOVER)
    @_guarded
    async def on_hover(params: types.HoverParams) -> types.Hover | None:
        text = await desk.settled(params.text_document.uri)
        return hover(text, params.position) if text is not None else None

    @server.feature(
        types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=[" ", "{", ",", "/", "-"])
    )
    @_guarded
    async def on_completion(params: types.CompletionParams) -> list[types.CompletionItem]:
        text = desk.texts.get(params.text_document.uri)
        return completion(text, params.position, desk.library().packs) if text is not None else []

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    @_guarded
    async def on_definition(params: types.DefinitionParams) -> list[types.Location]:
        text = await desk.settled(params.text_document.uri)
        return links.definition(text, params.position) if text is not None else []

    @server.feature(types.TEXT_DOCUMENT_REFERENCES)
    @_guarded
    async def on_references(params: types.ReferenceParams) -> list[types.Location]:
        text = await desk.settled(params.text_document.uri)
        if text is None:
            return []
        return links.references(text, params.position, with_definition=params.context.include_declaration)

    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    @_guarded
    async def on_outline(params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        text = await desk.settled(params.text_document.uri)
        return outline(text) if text is not None else []

    @server.feature(types.TEXT_DOCUMENT_FOLDING_RANGE)
    @_guarded
    async def on_folding(params: types.FoldingRangeParams) -> list[types.FoldingRange]:
        text = await desk.settled(params.text_document.uri)
        return folding(text) if text is not None else []

    @server.feature(types.TEXT_DOCUMENT_INLAY_HINT)
    @_guarded
    async def on_hints(params: types.InlayHintParams) -> list[types.InlayHint]:
        text = await desk.settled(params.text_document.uri) if desk.settings.hints else None
        return hints(text, params.range) if text is not None else []


def _changing(server: LanguageServer, desk: Desk) -> None:
    @server.feature(types.TEXT_DOCUMENT_PREPARE_RENAME)
    @_guarded
    async def on_prepare(params: types.PrepareRenameParams) -> types.Range | None:
        text = await desk.settled(params.text_document.uri)
        return links.name_range(text, params.position) if text is not None else None

    @server.feature(types.TEXT_DOCUMENT_RENAME, types.RenameOptions(prepare_provider=True))
    @_guarded
    async def on_rename(params: types.RenameParams) -> types.WorkspaceEdit | None:
        text = await desk.settled(params.text_document.uri)
        if text is None:
            return None
        try:
            return _edit(server, text, links.renamed(text, params.position, params.new_name))
        except links.CannotRename as problem:
            raise JsonRpcException(str(problem), REQUEST_FAILED) from None

    @server.feature(
        types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])
    )
    @_guarded
    async def on_actions(params: types.CodeActionParams) -> list[types.CodeAction]:
        only = params.context.only
        if only is not None and not any(types.CodeActionKind.QuickFix.value.startswith(_value(kind)) for kind in only):
            return []
        text = await desk.settled(params.text_document.uri)
        made = text.now if text is not None else None
        if text is None or made is None:
            return []
        turn, asked = text.turn, [True]
        try:
            found = await desk.beside(
                lambda: actions(made, text.uri, params.range, lambda: asked[0] and text.turn == turn)
            )
        finally:
            asked[0] = False
        return [_code_action(server, text, action) for action in found]


def _code_action(server: LanguageServer, text: OpenText, action: Action) -> types.CodeAction:
    return types.CodeAction(
        title=action.words,
        kind=types.CodeActionKind.QuickFix,
        diagnostics=list(action.resolves),
        edit=_edit(server, text, [action.edit]),
    )


def _edit(server: LanguageServer, text: OpenText, edits: list[types.TextEdit]) -> types.WorkspaceEdit:
    """Edits of the version that the editor shows, in the form that it can take."""
    workspace = server.client_capabilities.workspace
    if workspace and workspace.workspace_edit and workspace.workspace_edit.document_changes:
        of_version = types.OptionalVersionedTextDocumentIdentifier(text.uri, text.version)
        return types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(of_version, list(edits))])
    return types.WorkspaceEdit(changes={text.uri: edits})


def _value(kind: Any) -> str:
    return str(getattr(kind, "value", kind))
