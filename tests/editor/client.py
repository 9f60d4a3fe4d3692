"""An editor as the server sees it: requests and notices over pipes (JSON-RPC 2.0, as LSP 3.17 has it)."""

from __future__ import annotations

import json
import queue
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

PATIENCE = 20  # seconds until a test gives up


class Client:
    """Starts `plainseam editor` and speaks with it."""

    def __init__(self, settings: dict[str, Any] | None = None) -> None:
        command = [sys.executable, "-m", "draft", "editor"]
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        self._answers: dict[int, queue.Queue[dict[str, Any]]] = {}
        self._notices: queue.Queue[dict[str, Any]] = queue.Queue()
        self._count = 0
        self._versions: dict[str, int] = {}
        threading.Thread(target=self._listen, daemon=True).start()
        begun = {"processId": None, "rootUri": None, "capabilities": {}, "initializationOptions": settings}
        self.capabilities = self.ask("initialize", begun)["capabilities"]
        self.tell("initialized", {})

    # ---- the wire

    def ask(self, method: str, params: Any) -> Any:
        """The result of a request; a refusal is raised as RuntimeError with its message."""
        self._count += 1
        number = self._count
        self._answers[number] = queue.Queue()
        self._send({"id": number, "method": method, "params": params})
        answer = self._answers[number].get(timeout=PATIENCE)
        if "error" in answer:
            raise RuntimeError(answer["error"]["message"])
        return answer["result"]

    def tell(self, method: str, params: Any) -> None:
        """Send a notice."""
        self._send({"method": method, "params": params})

    def _send(self, message: dict[str, Any]) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self.process.stdin
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.process.stdin.flush()

    def _listen(self) -> None:
        out = self.process.stdout
        assert out
        while header := out.readline():
            length = int(header.split(b":")[1]) if header.lower().startswith(b"content-length") else 0
            while header.strip():
                header = out.readline()
                if header.lower().startswith(b"content-length"):
                    length = int(header.split(b":")[1])
            message = json.loads(out.read(length))
            if "id" in message and "method" not in message:
                self._answers[message["id"]].put(message)
            else:
                self._notices.put(message)

    def close(self) -> int:
        """End as the protocol asks for; the exit code."""
        self.ask("shutdown", None)
        self.tell("exit", None)
        return self.process.wait(timeout=PATIENCE)

    # ---- files

    def open(self, path: Path, text: str) -> list[dict[str, Any]]:
        """Open a file with a text; its diagnostics."""
        return self.open_at(path.as_uri(), text)

    def open_at(self, uri: str, text: str) -> list[dict[str, Any]]:
        """Open a text that an editor has at some address; its diagnostics."""
        self._versions[uri] = 1
        document = {"uri": uri, "languageId": "piece", "version": 1, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": document})
        return self.diagnostics(uri)

    def change(self, path: Path, text: str) -> list[dict[str, Any]]:
        """Replace the whole text; the diagnostics after that."""
        return self.edit(path, {"text": text})

    def edit(self, path: Path, *changes: dict[str, Any]) -> list[dict[str, Any]]:
        """Change stretches of the text; the diagnostics after that."""
        self.edit_and_go_on(path, *changes)
        return self.diagnostics(path.as_uri())

    def edit_and_go_on(self, path: Path, *changes: dict[str, Any]) -> None:
        """Change stretches of the text, and wait for nothing."""
        uri = path.as_uri()
        self._versions[uri] += 1
        document = {"uri": uri, "version": self._versions[uri]}
        self.tell("textDocument/didChange", {"textDocument": document, "contentChanges": list(changes)})

    def close_file(self, path: Path) -> None:
        """Close a file."""
        self.tell("textDocument/didClose", {"textDocument": {"uri": path.as_uri()}})

    def diagnostics(self, uri: str) -> list[dict[str, Any]]:
        """The next diagnostics of a file as it stands now; those of an earlier text that come late are left aside."""
        while True:
            notice = self._notices.get(timeout=PATIENCE)
            said = notice.get("params", {})
            if notice["method"] != "textDocument/publishDiagnostics" or said["uri"] != uri:
                continue
            if said.get("version") in (None, self._versions.get(uri)):
                return list(said["diagnostics"])

    def at(self, path: Path, text: str, words: str, into: int = 0, nth: int = 0) -> dict[str, Any]:
        """The parameters of a question about a place: so many letters into the nth appearance of some words."""
        offset = -1
        for _ in range(nth + 1):
            offset = text.index(words, offset + 1)
        before = text[: offset + into]
        line = before.count("\n")
        letter = len(before[before.rfind("\n") + 1 :].encode("utf-16-le")) // 2
        return {"textDocument": {"uri": path.as_uri()}, "position": {"line": line, "character": letter}}


def applied(text: str, edits: list[dict[str, Any]]) -> str:
    """A text with edits made in it."""
    rows = text.split("\n")
    starts = [0]
    for row in rows:
        starts.append(starts[-1] + len(row) + 1)

    def place(position: dict[str, int]) -> int:
        return starts[position["line"]] + position["character"]

    for edit in sorted(edits, key=lambda e: place(e["range"]["start"]), reverse=True):
        start, end = (place(edit["range"][end]) for end in ("start", "end"))
        text = text[:start] + edit["newText"] + text[end:]
    return text
