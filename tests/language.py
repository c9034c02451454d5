"""A client of the YAML language server, as an editor is one: over stdio, one message after the other."""

from __future__ import annotations

import json
import subprocess
from typing import TYPE_CHECKING, Any, Self

if TYPE_CHECKING:
    from pathlib import Path
    from types import TracebackType

Json = dict[str, Any]


class Editor:
    """An editor with the folder *root* open and these *settings*."""

    def __init__(self, server: Path, root: Path, settings: Json) -> None:
        """Start the server."""
        self._settings, self._number = settings, 0
        self._found: dict[str, list[Json]] = {}
        self._process = subprocess.Popen(
            ["node", server, "--stdio"],  # noqa: S607 (the machine's own)
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        abilities = {
            "workspace": {"configuration": True, "workspaceFolders": True},
            "textDocument": {"completion": {"completionItem": {"snippetSupport": True}}, "publishDiagnostics": {}},
        }
        folders = [{"uri": root.as_uri(), "name": root.name}]
        self.ask("initialize", {"processId": None, "rootUri": root.as_uri(), "capabilities": abilities,
                                "workspaceFolders": folders})  # fmt: skip
        self._tell("initialized", {})

    def __enter__(self) -> Self:
        """Return the editor."""
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        """End the server."""
        self._process.kill()
        self._process.communicate()

    def open(self, file: Path, text: str) -> list[Json]:
        """Open *file* with *text*; return what the server finds in it."""
        uri = file.as_uri()
        self._found.pop(uri, None)
        self._tell(
            "textDocument/didOpen", {"textDocument": {"uri": uri, "languageId": "yaml", "version": 1, "text": text}}
        )
        while uri not in self._found:
            self._read()
        return self._found[uri]

    def ask(self, method: str, about: Json) -> Any:  # noqa: ANN401  (each method has an answer of its own)
        """Return the answer to a request."""
        self._number += 1
        self._write({"jsonrpc": "2.0", "id": self._number, "method": method, "params": about})
        while True:
            message = self._read()
            if message.get("id") == self._number and "method" not in message:
                return message.get("result")

    def at(self, file: Path, line: int, character: int) -> Json:
        """Return a place in *file*, both counted from 0."""
        return {"textDocument": {"uri": file.as_uri()}, "position": {"line": line, "character": character}}

    def _tell(self, method: str, about: Json) -> None:
        self._write({"jsonrpc": "2.0", "method": method, "params": about})

    def _write(self, message: Json) -> None:
        data = json.dumps(message).encode()
        assert self._process.stdin
        self._process.stdin.write(b"Content-Length: %d\r\n\r\n%b" % (len(data), data))
        self._process.stdin.flush()

    def _read(self) -> Json:
        """Return the next message; what the server asks of an editor is answered, what it finds is kept."""
        assert self._process.stdout
        length = 0
        while (line := self._process.stdout.readline()) not in {b"\r\n", b""}:
            if line.lower().startswith(b"content-length:"):
                length = int(line.split(b":")[1])
        if not length:
            raise EOFError("The language server has ended")
        message: Json = json.loads(self._process.stdout.read(length))
        if message.get("method") == "workspace/configuration":
            asked = [item.get("section", "") for item in message["params"]["items"]]
            self._write({"jsonrpc": "2.0", "id": message["id"], "result": [self._settings.get(name) for name in asked]})
        elif "id" in message and "method" in message:
            self._write({"jsonrpc": "2.0", "id": message["id"], "result": None})
        elif message.get("method") == "textDocument/publishDiagnostics":
            self._found[message["params"]["uri"]] = message["params"]["diagnostics"]
        return message
