"""Serves what the preview shows, to whoever asks on this machine."""

from __future__ import annotations

import mimetypes
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import parse_qs, unquote, urlsplit

from benchleaf.findings import Refused

if TYPE_CHECKING:
    from benchleaf.preview.screens import Screens

_OWN = "/-preview/"
_PATIENCE = 20.0  # s that a page waits for news before it asks again
_HERE = Path(__file__).parent
_FILES = ("follow.js", "found.css")


class Server(ThreadingHTTPServer):
    """Listens at an address and answers from the screens."""

    daemon_threads = True

    def __init__(self, host: str, port: int, screens: Screens) -> None:
        """Take the address; refuses one that cannot be had."""
        self.screens = screens
        try:
            super().__init__((host, port), _Handler)
        except (OSError, OverflowError) as error:
            why = getattr(error, "strerror", None) or error
            raise Refused(f"{host}:{port} is no address to listen at: {why}") from error


class _Handler(BaseHTTPRequestHandler):
    """Answers one request."""

    server: Server

    def do_GET(self) -> None:
        """Answer with a page, a file, or news."""
        asked = urlsplit(self.path)
        path = unquote(asked.path)
        if path == f"{_OWN}news":
            query = parse_qs(asked.query)
            page, seen = (query.get(name, [""])[0] for name in ("page", "seen"))
            self._answer(self.server.screens.wait(page, seen, _PATIENCE).encode(), "text/plain")
            return
        if path.startswith(_OWN):
            name = path.removeprefix(_OWN)
            data = (_HERE / name).read_bytes() if name in _FILES else None
        else:
            path = path.lstrip("/") + ("index.html" if path.endswith("/") else "")
            data = self.server.screens.page(path)
        if data is None:
            self.send_error(HTTPStatus.NOT_FOUND, "There is no such page")
            return
        self._answer(data, mimetypes.guess_type(path)[0] or "application/octet-stream")

    def _answer(self, data: bytes, kind: str) -> None:
        self.send_response(HTTPStatus.OK)
        text = kind.startswith("text/") or kind.endswith("javascript")
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if text else kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        try:
            self.wfile.write(data)
        except ConnectionError:
            return  # Whoever asked has gone to another page.

    def log_message(self, *_: object) -> None:
        """Say nothing of each request: the terminal is for findings."""
