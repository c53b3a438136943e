"""A second client that no one here wrote: pytest-lsp's, which checks what it is sent against the protocol."""

from __future__ import annotations

from collections.abc import AsyncIterator

import pytest
import pytest_lsp
from lsprotocol import types
from pytest_lsp import ClientServerConfig, LanguageClient

from support.editor import COMMAND
from support.open_texts import FAILING, text_of

PLAN = text_of(FAILING)
URI = "file:///studio.plan.yaml"
DOCUMENT = types.TextDocumentIdentifier(URI)


@pytest_lsp.fixture(config=ClientServerConfig(server_command=COMMAND))
async def client(lsp_client: LanguageClient) -> AsyncIterator[None]:
    """A session as Visual Studio Code begins and ends one."""

    @lsp_client.feature(types.CLIENT_REGISTER_CAPABILITY)
    def registered(params: types.RegistrationParams) -> None:
        assert {one.method for one in params.registrations} == {types.WORKSPACE_DID_CHANGE_WATCHED_FILES}

    capabilities = pytest_lsp.client_capabilities("visual-studio-code")
    await lsp_client.initialize_session(types.InitializeParams(capabilities=capabilities))
    yield
    await lsp_client.shutdown_session()


@pytest.mark.filterwarnings("error::pytest_lsp.LspSpecificationWarning")
@pytest.mark.asyncio
async def test_from_diagnostics_to_a_settled_finding(client: LanguageClient) -> None:
    """The diagnostics come, an action is taken, and what it resolves is gone."""
    item = types.TextDocumentItem(URI, "precover-plan", 1, PLAN)
    client.text_document_did_open(types.DidOpenTextDocumentParams(item))
    await client.wait_for_notification(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
    found = list(client.diagnostics[URI])
    assert len(found) > 5 and all(one.code_description for one in found)
    whole = types.Range(types.Position(0, 0), types.Position(999, 0))
    asked = types.CodeActionParams(DOCUMENT, whole, types.CodeActionContext(found))
    actions = await client.text_document_code_action_async(asked)
    assert actions
    action = actions[0]
    assert isinstance(action, types.CodeAction) and action.edit and action.edit.document_changes and action.diagnostics
    (change,) = action.edit.document_changes
    assert isinstance(change, types.TextDocumentEdit)
    (edit,) = change.edits
    lines = PLAN.splitlines(keepends=True)
    line = lines[edit.range.start.line]
    lines[edit.range.start.line] = line[: edit.range.start.character] + edit.new_text + line[edit.range.end.character :]
    versioned = types.VersionedTextDocumentIdentifier(2, URI)
    whole_text = types.TextDocumentContentChangeWholeDocument("".join(lines))
    client.text_document_did_change(types.DidChangeTextDocumentParams(versioned, [whole_text]))
    await client.wait_for_notification(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
    resolved = {(one.code, one.message) for one in action.diagnostics}
    assert not resolved & {(one.code, one.message) for one in client.diagnostics[URI]}


@pytest.mark.filterwarnings("error::pytest_lsp.LspSpecificationWarning")
@pytest.mark.asyncio
async def test_every_answer_is_as_the_protocol_says(client: LanguageClient) -> None:
    """Hover, completion, outline, folding, hints and names."""
    item = types.TextDocumentItem(URI, "precover-plan", 1, PLAN)
    client.text_document_did_open(types.DidOpenTextDocumentParams(item))
    line = next(number for number, text in enumerate(PLAN.splitlines()) if "to: entry-box" in text)
    at = types.Position(line, 10)
    hover = await client.text_document_hover_async(types.HoverParams(DOCUMENT, at))
    assert hover is not None
    items = await client.text_document_completion_async(types.CompletionParams(DOCUMENT, at))
    assert isinstance(items, list) and "terrace-box" in {item.label for item in items}
    assert await client.text_document_document_symbol_async(types.DocumentSymbolParams(DOCUMENT))
    assert await client.text_document_folding_range_async(types.FoldingRangeParams(DOCUMENT))
    whole = types.Range(types.Position(0, 0), types.Position(999, 0))
    assert await client.text_document_inlay_hint_async(types.InlayHintParams(DOCUMENT, whole))
    places = await client.text_document_definition_async(types.DefinitionParams(DOCUMENT, at))
    assert isinstance(places, list) and len(places) == 1
    edit = await client.text_document_rename_async(types.RenameParams(DOCUMENT, at, "door"))
    assert edit is not None and edit.document_changes
