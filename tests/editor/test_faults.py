"""What can go wrong between editor and server: it answers or ends, never hangs, and its log names the cause."""

from __future__ import annotations

import asyncio
import io
import json
import os
import random
import signal
from pathlib import Path

import pytest

from precover.editor.server import Service
from support.editor import PATIENCE, Client
from support.open_texts import FAILING, text_of
from support.reviews import library

PLAN = text_of(FAILING)
URI = "file:///studio.plan.yaml"
DOCUMENT = {"textDocument": {"uri": URI}}
START = {"line": 0, "character": 0}
REQUESTS = [
    ("textDocument/hover", {}),
    ("textDocument/completion", {}),
    ("textDocument/definition", {}),
    ("textDocument/references", {"context": {"includeDeclaration": True}}),
    ("textDocument/documentSymbol", {}),
    ("textDocument/foldingRange", {}),
    ("textDocument/inlayHint", {"range": {"start": START, "end": {"line": 300, "character": 0}}}),
    ("textDocument/codeAction", {"range": {"start": START, "end": START}, "context": {"diagnostics": []}}),
    ("textDocument/rename", {"newName": "x"}),
]


@pytest.mark.parametrize("seed", range(3))
def test_random_edits_and_requests(seed: int) -> None:
    """Every request has its answer at every position of every broken text, none of them a fault of ours; put back as it
    was, the plan is told as at first."""
    chance = random.Random(seed)  # noqa: S311 - the same edits every time
    pieces = [
        "\n",
        " ",
        ":",
        "- ",
        "{",
        "}",
        "'",
        '"',
        "&a",
        "*a",
        "\t",
        "\U0001f4a1",
        "\x85",
        "\r",
        "]",
        "# ",
        "é",
        "\ue000",
    ]
    with Client() as client:
        client.begin()
        first = client.open(URI, PLAN)
        text, version = PLAN, 1
        for _ in range(40):
            version += 1
            at = chance.randrange(len(text) + 1)
            text = text[:at] + chance.choice([*pieces, ""]) + text[at + chance.choice([0, 0, 1, 30]) :]
            client.change(URI, text, version)
            method, more = chance.choice(REQUESTS)
            position = {"line": chance.randrange(120), "character": chance.randrange(60)}
            response = client.answer(client.ask(method, {**DOCUMENT, "position": position, **more}))
            assert "fault of precover" not in response.get("error", {}).get("message", ""), (text, method, position)
        client.change(URI, PLAN, version + 1)
        assert client.diagnostics(URI, version + 1) == first
        status, log = client.end()
        assert status == 0 and "Traceback" not in log, log


def test_half_typed_line_by_line() -> None:
    """Always an answer for the newest version, and at the end what the whole plan has."""
    with Client() as client:
        client.begin()
        client.open(URI, "")
        for version, end in enumerate(range(0, len(PLAN), 211), 2):
            client.change(URI, PLAN[:end], version)
            assert client.diagnostics(URI, version)
        client.change(URI, PLAN, 1000)
        assert len(client.diagnostics(URI, 1000)) > 5


def test_a_burst_of_changes() -> None:
    """The last version is told; not every one before it is."""
    with Client() as client:
        client.begin()
        client.open(URI, PLAN)
        for version in range(2, 202):
            client.change(URI, PLAN.replace("cover: 10 in", f"cover: {10 + version / 1000} in"), version)
        told = client.diagnostics(URI, 201)
        assert any("cover: 10.201 in" in one["message"] for one in told)
        passed = [one for one in client.shown if one.get("method") == "textDocument/publishDiagnostics"]
        assert len(passed) < 150


def test_cancelled_requests() -> None:
    """Answered as cancelled, or already answered; the next request as ever."""
    with Client() as client:
        client.begin()
        client.open(URI, PLAN)
        for version in range(2, 12):
            client.change(URI, PLAN + f"# {version}\n", version)
            asked = client.ask(*REQUESTS[7][:1], {**DOCUMENT, **REQUESTS[7][1]})
            client.notify("$/cancelRequest", {"id": asked})
            response = client.answer(asked)
            assert "result" in response or response["error"]["code"] in (-32800, -32801)
        client.notify("$/cancelRequest", {"id": 4711})
        assert client.request("textDocument/documentSymbol", DOCUMENT)
        assert client.end()[0] == 0


def test_two_documents_at_once() -> None:
    """Each with its own diagnostics, whichever is edited."""
    other = "file:///pump.plan.yaml"
    with Client() as client:
        client.begin()
        mine = len(client.open(URI, PLAN))
        theirs = len(client.open(other, text_of("joinery-workshop-uncorrected")))
        assert mine != theirs
        for version in range(2, 12):
            client.change(URI, PLAN + f"# {version}\n", version)
            client.change(other, text_of("joinery-workshop-uncorrected") + f"# {version}\n", version)
        assert len(client.diagnostics(URI, 11)) == mine
        found = [one["params"] for one in client.shown if one.get("method") == "textDocument/publishDiagnostics"]
        last = [one for one in found if one["uri"] == other and one["version"] == 11]
        assert len(last[0]["diagnostics"] if last else client.diagnostics(other, 11)) == theirs
        client.notify("textDocument/didClose", DOCUMENT)
        client.change(other, "format: precover-plan/1\nnew: 1\n", 12)
        assert client.diagnostics(other, 12)


@pytest.mark.parametrize(
    ("garbage", "code"),
    [
        (b"Content-Length: 9\r\n\r\nnot json!", -32700),
        (b"Content-Length: 2\r\n\r\n[]", -32600),
        (b'Content-Length: 16\r\n\r\n{"jsonrpc":"1"} ', -32600),
        (b"Content-Length: 4\r\n\r\n\xff\xfe\x00\x01", -32700),
        (b"Content-Length: 200000\r\n\r\n" + b"[" * 200_000, -32700),
        (b'Content-Length: 61\r\n\r\n{"jsonrpc":"2.0","id":7,"method":"textDocument/hover","a":1 }', -32602),
        (b'Content-Length: 51\r\n\r\n{"jsonrpc":"2.0","id":7,"method":"no/such","a":1}  ', -32601),
    ],
)
def test_garbage_in_a_message(garbage: bytes, code: int) -> None:
    """Is answered with an error, and the next message as ever."""
    with Client() as client:
        client.begin()
        client.raw(garbage)
        assert client.next(lambda message: "error" in message)["error"]["code"] == code
        assert client.open(URI, PLAN)
        status, log = client.end()
        assert status == 0 and log.strip()


def test_garbage_between_messages() -> None:
    """Is left out: lines that are no header, headers without end."""
    with Client() as client:
        client.begin()
        client.raw(b"GET / HTTP/1.1\r\n\r\n\x00\x01\x02\n" + b"x" * 20_000 + b"\r\n\r\nContent-Type: a\r\n\r\n")
        assert client.open(URI, PLAN)
        status, log = client.end()
        assert status == 0 and "left out what is no message" in log


def test_a_message_longer_than_any_can_be() -> None:
    """Nothing after it makes sense: the server ends, and says why."""
    with Client() as client:
        client.begin()
        client.raw(b"Content-Length: 99999999999\r\n\r\n")
        status, log = client.over()
        assert status == 1 and "99,999,999,999 bytes" in log and "Traceback" not in log


def test_before_it_is_initialized() -> None:
    """Requests are refused, notifications left out."""
    with Client() as client:
        client.notify("textDocument/didOpen", {"textDocument": {"uri": URI}})
        response = client.answer(client.ask("textDocument/hover", {**DOCUMENT, "position": START}))
        assert response["error"]["code"] == -32002
        client.begin()
        assert client.open(URI, PLAN)


def test_parameters_that_are_not_as_they_must_be() -> None:
    """Also of notifications, and for documents that are not open."""
    with Client() as client:
        client.begin()
        client.notify("textDocument/didChange", {"textDocument": 5})
        client.notify(
            "textDocument/didChange", {"textDocument": {"uri": URI, "version": 1}, "contentChanges": [{"text": "a"}]}
        )
        client.notify("textDocument/didClose", DOCUMENT)
        for method, more in REQUESTS:
            response = client.answer(client.ask(method, {**DOCUMENT, "position": START, **more}))
            assert not response.get("result") and "fault" not in str(response.get("error")), method
        assert client.open(URI, PLAN)


def test_an_editor_that_dies() -> None:
    """The server ends with it, and says so."""
    with Client() as client:
        client.begin()
        client.open(URI, PLAN)
        client.change(URI, PLAN + "# more\n", 2)
        assert client.process.stdin is not None
        client.process.stdin.close()
        status, log = client.over()
        assert status == 1 and "without taking its leave" in log and "Traceback" not in log


def test_an_editor_that_dies_within_a_message() -> None:
    """Half a message is none."""
    with Client() as client:
        client.begin()
        assert client.process.stdin is not None
        client.raw(b"Content-Length: 500\r\n\r\n{")
        client.process.stdin.close()
        assert client.over()[0] == 1


def test_an_editor_that_asks_it_to_go() -> None:
    """With leave: 0; without: 1; by an interrupt: 130 and no traceback."""
    with Client() as client:
        client.begin()
        client.notify("exit")
        assert client.over()[0] == 1
    with Client() as client:
        client.begin()
        client.process.send_signal(signal.SIGINT)
        status, log = client.over()
        assert status == 130 and "Traceback" not in log


def test_exit_does_not_wait_for_the_pipe() -> None:
    """The process is gone although its standard input stays open."""
    with Client() as client:
        client.begin()
        client.request("shutdown")
        client.notify("exit")
        assert client.process.wait(PATIENCE) == 0


def test_a_fault_of_ours_is_told_in_one_line(tmp_path: Path) -> None:
    """The editor gets a sentence, the log the cause, and the service goes on."""
    (tmp_path / "sitecustomize.py").write_text(
        "import precover.editor.outline as outline\n"
        "def broken(text): raise ZeroDivisionError('made to fail')\n"
        "outline.outline = broken\n"
    )
    path = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = str(tmp_path)
    try:
        client = Client()
    finally:
        os.environ.pop("PYTHONPATH") if path is None else os.environ.update(PYTHONPATH=path)
    with client:
        client.begin()
        client.open(URI, PLAN)
        response = client.answer(client.ask("textDocument/documentSymbol", DOCUMENT))
        assert "fault of precover" in response["error"]["message"] and "Traceback" not in json.dumps(response)
        assert client.request("textDocument/hover", {**DOCUMENT, "position": START})
        status, log = client.end()
        assert status == 0 and "ZeroDivisionError: made to fail" in log


def test_memory_stays() -> None:
    """A few hundred edits of a plan leave hardly anything behind (the benchmark makes ten thousand)."""

    def resident() -> int:
        status = Path(f"/proc/{client.process.pid}/status").read_text(encoding="ascii")
        return int(next(line for line in status.splitlines() if line.startswith("VmRSS")).split()[1])

    with Client() as client:
        client.begin()
        client.open(URI, PLAN)
        for version in range(2, 402):
            client.change(URI, PLAN.replace("cover: 10 in", f"cover: {10 + version / 1000} in"), version)
            client.diagnostics(URI, version)
            client.shown.clear()
            if version == 101:
                before = resident()
        assert resident() - before < 8_000  # kB


def test_nothing_is_kept_of_what_is_done() -> None:
    """Neither of notifications nor of requests."""

    async def session() -> int:
        service = Service(io.BytesIO(), library, ())

        def take(message: dict[str, object]) -> None:
            service.take(json.dumps({"jsonrpc": "2.0", **message}).encode())

        take({"id": 1, "method": "initialize", "params": {"processId": None, "rootUri": None, "capabilities": {}}})
        document = {"uri": URI, "languageId": "precover-plan", "version": 1, "text": PLAN}
        take({"method": "textDocument/didOpen", "params": {"textDocument": document}})
        for version in range(2, 50):
            change = {"textDocument": {"uri": URI, "version": version}, "contentChanges": [{"text": PLAN}]}
            take({"method": "textDocument/didChange", "params": change})
            take({"id": version, "method": "textDocument/foldingRange", "params": DOCUMENT})
        await service.desk.settled(URI)
        await asyncio.sleep(0.1)
        service.desk.stop()
        return service.waiting

    assert asyncio.run(session()) == 0
