"""The real server over its pipe, with a client of our own: what it answers, and that it ends as it should."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from support.editor import COMMAND, PATIENCE, Client
from support.open_texts import FAILING, text_of

PLAN = text_of(FAILING)
URI = "file:///studio.plan.yaml"
DOCUMENT = {"textDocument": {"uri": URI}}
EVERYWHERE = {"start": {"line": 0, "character": 0}, "end": {"line": 9999, "character": 0}}


def place(needle: str, offset: int = 1) -> dict[str, int]:
    """The position of a needle in the plan, which has no wide marks ahead of any."""
    index = PLAN.index(needle) + offset
    return {"line": PLAN.count("\n", 0, index), "character": index - PLAN.rfind("\n", 0, index) - 1}


def test_everything_that_it_says_it_can(tmp_path: Path) -> None:
    """One session through every request, to a clean end with nothing in the log."""
    with Client() as client:
        can = client.begin({"workspace": {"workspaceEdit": {"documentChanges": True}}})
        assert can["textDocumentSync"]["change"] == 1 and can["positionEncoding"] == "utf-16"
        found = client.open(URI, PLAN)
        assert len(found) > 5 and {one["source"] for one in found} == {"precover"}
        cover = {**DOCUMENT, "position": place("cover: 10")}
        assert "needed: at least 18 in" in client.request("textDocument/hover", cover)["contents"]["value"]
        items = client.request("textDocument/completion", {**DOCUMENT, "position": place("buried: lawn", 8)})
        assert "gravel path" in {item["label"] for item in items}
        name = {**DOCUMENT, "position": place("to: entry-box", 6)}
        assert client.request("textDocument/definition", name)[0]["range"]["start"] == place("  entry-box:", 2)
        used = client.request("textDocument/references", {**name, "context": {"includeDeclaration": True}})
        assert len(used) == 4
        assert client.request("textDocument/prepareRename", name)["start"] == place("to: entry-box", 4)
        edit = client.request("textDocument/rename", {**name, "newName": "door"})["documentChanges"][0]
        assert edit["textDocument"] == {"uri": URI, "version": 1} and len(edit["edits"]) == 4
        refused = client.answer(client.ask("textDocument/rename", {**name, "newName": "house-panel"}))
        assert "name of another thing" in refused["error"]["message"]
        assert [one["name"] for one in client.request("textDocument/documentSymbol", DOCUMENT)][-1] == "routes"
        assert client.request("textDocument/foldingRange", DOCUMENT)
        assert client.request("textDocument/inlayHint", {**DOCUMENT, "range": EVERYWHERE})
        asked = {**DOCUMENT, "range": EVERYWHERE, "context": {"diagnostics": found}}
        (first, *_) = client.request("textDocument/codeAction", asked)
        assert first["kind"] == "quickfix" and first["diagnostics"][0] in found
        assert first["edit"]["documentChanges"][0]["textDocument"]["version"] == 1
        elsewhere = {**asked, "context": {"diagnostics": [], "only": ["source.organizeImports"]}}
        assert client.request("textDocument/codeAction", elsewhere) == []
        client.notify("textDocument/didClose", DOCUMENT)
        assert client.diagnostics(URI, None) == []
        assert client.end() == (0, "")


def test_settings() -> None:
    """Hints go, packs replace the plan's own; both change while a plan lies open."""
    with Client(hints=False, packs=["nowhere"]) as client:
        client.begin()
        assert "no rule pack `nowhere`" in client.open(URI, PLAN)[0]["message"]
        client.notify(
            "workspace/didChangeConfiguration", {"settings": {"precover": {"packs": ["us-2023"], "hints": False}}}
        )
        assert len(client.diagnostics(URI, 1)) > 5
        assert client.request("textDocument/inlayHint", {**DOCUMENT, "range": EVERYWHERE}) == []
        client.notify("workspace/didChangeConfiguration", {"settings": {"precover": {"packs": ["us-2023"]}}})
        assert client.request("textDocument/inlayHint", {**DOCUMENT, "range": EVERYWHERE}) != []


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-32"])
def test_the_encoding_that_the_editor_wants(encoding: str) -> None:
    """A lamp ahead in the line counts as it is agreed."""
    plan = PLAN.replace("bench-outlet: {", '"bench-\U0001f4a1": {', 1)
    with Client() as client:
        can = client.begin({"general": {"positionEncodings": [encoding]}})
        assert can["positionEncoding"] == encoding
        (problem,) = client.open(URI, plan)
        assert "cannot be an id" in problem["message"]
        fixed = PLAN.replace("{buried: lawn,", "{buried: 'la\U0001f4a1wn',", 1)
        client.change(URI, fixed, 2)
        (_, *before) = client.diagnostics(URI, 2) or [None]
        assert before == []
        titled = PLAN.replace("{buried: lawn, length", "{buried: lawn, length", 1)
        client.change(URI, titled, 3)
        client.diagnostics(URI, 3)
        word = {**DOCUMENT, "position": place("cover: 10")}
        assert client.request("textDocument/hover", word)["range"]["start"] == place("cover: 10", 0)


def test_over_a_loopback_port() -> None:
    """The same, for one editor."""
    server = subprocess.Popen([*COMMAND, "--tcp", "0"], stderr=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    try:
        assert server.stderr is not None
        told = re.search(r"127\.0\.0\.1 port (\d+)", server.stderr.readline())
        assert told is not None
        with (
            socket.create_connection(("127.0.0.1", int(told[1])), PATIENCE) as editor,
            editor.makefile("rwb") as stream,
        ):
            body = b'{"jsonrpc":"2.0","id":1,"method":"shutdown"}'
            stream.write(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))
            stream.flush()
            assert stream.readline().startswith(b"Content-Length")
        assert server.wait(PATIENCE) == 1
        assert "without taking its leave" in server.stderr.read()
    finally:
        server.kill()
        server.wait()


def command(*arguments: str, **more: Any) -> subprocess.CompletedProcess[str]:
    """The command, to its end."""
    return subprocess.run([*COMMAND, *arguments], capture_output=True, text=True, timeout=PATIENCE, check=False, **more)


def test_what_the_command_refuses(tmp_path: Path) -> None:
    """In one line, with status 2."""
    taken = socket.socket()
    taken.bind(("127.0.0.1", 0))
    taken.listen()
    with taken:
        for arguments, says in (
            (["--tcp", "70000"], "70000 is not a port"),
            (["--tcp", "1", "--stdio"], "exclude each other"),
            (["--pack", "nowhere"], "no rule pack `nowhere`"),
            (["--log", str(tmp_path)], "cannot be written"),
            (["--tcp", str(taken.getsockname()[1])], "cannot be used"),
        ):
            ran = command(*arguments, input="")
            assert ran.returncode == 2 and says in ran.stderr and ran.stderr.count("\n") == 1, ran.stderr


def test_without_pygls() -> None:
    """What to install is said; and no other command needs it or loads it."""
    hidden = (
        "import sys; sys.modules['pygls'] = None; from precover.app.__main__ import main; sys.exit(main(sys.argv[1:]))"
    )
    ran = subprocess.run([sys.executable, "-c", hidden, "language-server"], capture_output=True, text=True, check=False)
    assert ran.returncode == 2 and "pip install 'precover[editor]'" in ran.stderr and "Traceback" not in ran.stderr
    looked = (
        "import sys; from precover.app.__main__ import main; main(['schema', 'plan']); main(['review', sys.argv[1]]);"
        "print([name for name in sys.modules if name.partition('.')[0] in ('pygls', 'lsprotocol', 'asyncio', 'cattrs')])"
    )
    plan = Path(__file__).parents[2] / "linter/precover/examples/orchard-pump.plan.yaml"
    ran = subprocess.run([sys.executable, "-c", looked, str(plan)], capture_output=True, text=True, check=True)
    assert ran.stdout.rstrip().endswith("[]")
