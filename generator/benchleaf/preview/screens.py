"""What the preview shows at this moment: pages, what was found on them, and a number for each that tells news."""

from __future__ import annotations

import os
import re
from threading import Condition
from typing import TYPE_CHECKING

from benchleaf.preview import notes

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from benchleaf.findings import Finding

_BODY = re.compile(r"<body[^>]*>")
_HEAD = "</head>"
_NOTHING = ('<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Not drawn</title></head>'
            "<body><p>This page cannot be drawn yet.</p></body></html>")  # fmt: skip


class Screens:
    """Pages as they are served, changed by one thread and read by many."""

    def __init__(self, fixed: Path) -> None:
        """Show what lies in the folder *fixed*, until there are pages."""
        self.fixed = fixed
        self._pages: Mapping[str, str] = {}
        self._found: Mapping[str, tuple[Finding, ...]] = {}
        self._trouble = ""
        self._news: dict[str, int] = {}
        self._every = 0
        self._changed = Condition()

    def show(self, pages: Mapping[str, str], found: Mapping[str, tuple[Finding, ...]]) -> None:
        """Show *pages*, all there are, with what is *found* on each; those that differ are news."""
        with self._changed:
            for path in {*pages, *self._pages, *found, *self._found}:
                if pages.get(path) != self._pages.get(path) or found.get(path) != self._found.get(path):
                    self._news[path] = self._news.get(path, 0) + 1
            self._pages, self._found = pages, found
            if self._trouble:
                self._trouble, self._every = "", self._every + 1
            self._changed.notify_all()

    def show_first(self, pages: Mapping[str, str], found: Mapping[str, tuple[Finding, ...]]) -> None:
        """Show *pages* at once, of which the others wait."""
        self.show({**self._pages, **pages}, found)

    def show_trouble(self, text: str) -> None:
        """Say on every page why nothing can be drawn."""
        with self._changed:
            if text != self._trouble:
                self._trouble, self._every = text, self._every + 1
            self._changed.notify_all()

    def show_fixed(self, fixed: Path) -> None:
        """Show what lies in the folder *fixed* now."""
        with self._changed:
            self.fixed, self._every = fixed, self._every + 1
            self._changed.notify_all()

    def news(self, page: str) -> str:
        """Return what tells one drawing of *page* from the next, and from those of another preview."""
        return f"{os.getpid()}-{self._every}-{self._news.get(page, 0)}"

    def wait(self, page: str, seen: str, seconds: float) -> str:
        """Return the news of *page* as soon as they are not those *seen*, or after so many *seconds*."""
        with self._changed:
            self._changed.wait_for(lambda: self.news(page) != seen, seconds)
            return self.news(page)

    def page(self, path: str) -> bytes | None:
        """Return what is served as *path*; None where there is nothing."""
        with self._changed:
            text, found = self._pages.get(path), self._found.get(path, ())
            fixed, trouble, news = self.fixed, self._trouble, self.news(path)
        if text is None:
            # Resolved, so that no way leads out of the folder.
            file = (fixed / path).resolve()
            if file.is_relative_to(fixed.resolve()) and file.is_file():
                data = file.read_bytes()
                if not path.endswith(".html"):
                    return data
                text = data.decode("utf-8")
            elif found:
                text = _NOTHING
            else:
                return None
        return (followed(text, path, news, found, trouble) if path.endswith(".html") else text).encode()


def followed(text: str, path: str, news: str, found: tuple[Finding, ...], trouble: str) -> str:
    """Return the page *text* with what was *found* above it, and with what loads it anew."""
    own = (f'<link rel="stylesheet" href="/-preview/found.css">'
           f'<script src="/-preview/follow.js" data-page="{path}" data-seen="{news}" defer></script>')  # fmt: skip
    text = text.replace(_HEAD, own + _HEAD, 1)
    told = notes.told(found, "../" * path.count("/"), trouble)
    return _BODY.sub(lambda body: body[0] + told, text, count=1) if told else text
