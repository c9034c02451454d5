"""The whole preview: looks, checks, says, draws and shows, until it is told to end."""

from __future__ import annotations

import gc
import os
import shutil
import tempfile
import threading
import time
from dataclasses import replace
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Protocol

from benchleaf.findings import Refused, bug
from benchleaf.pages.parts import POLICY_IN_PREVIEW
from benchleaf.preview import notes
from benchleaf.preview.screens import Screens
from benchleaf.preview.server import Server
from benchleaf.preview.session import Session
from benchleaf.preview.watch import changes
from benchleaf.publish import Framing, frame, framing
from benchleaf.source.folder import SETTINGS, YAML, Folder, docs_folder, scan

if TYPE_CHECKING:
    from benchleaf.build import Checked


class Voice(Protocol):
    """Says what was found, and how it goes."""

    def found(self, checked: Checked) -> None:
        """Say what was found."""

    def tell(self, text: str) -> None:
        """Say a sentence to the person at the terminal."""


def preview(root: Path, address: str | None, voice: Voice) -> None:
    """Show the knowledge base whose settings lie in *root* at *address*, and what changes in it, until interrupted."""
    top = Path(tempfile.mkdtemp(prefix="preview-"))
    try:
        _Preview(root, framing(root, address), top, voice).run()
    except KeyboardInterrupt:
        voice.tell("The preview has ended.")
    finally:
        shutil.rmtree(top, ignore_errors=True)


class _Preview:
    """One preview, from its first page to its end."""

    def __init__(self, root: Path, settings: Framing, top: Path, voice: Voice) -> None:
        self._root, self._settings, self._top, self._voice = root, settings, top, voice
        self._screens = Screens(top / "none")
        self._session = self._new_session(settings)
        self._frames = 0
        self._shop: object = None

    @staticmethod
    def _new_session(settings: Framing) -> Session:
        return Session(replace(settings.options, policy=POLICY_IN_PREVIEW))

    def run(self) -> None:
        """Draw all, serve it, then follow the files."""
        server = Server(self._settings.host, self._settings.port, self._screens)
        gc.disable()  # A sixth of the time of the first draw.
        self._update(self._folder(), everything=True)
        # What is remembered now need not be looked through again and again.
        gc.freeze()
        gc.enable()
        threading.Thread(target=server.serve_forever, daemon=True).start()
        self._voice.tell(f"Serving on http://{self._settings.host}:{server.server_port}/ (Ctrl-C ends it)")
        for changed in changes(self._root / docs_folder(self._root), self._root / SETTINGS):
            self._follow(changed)

    def _folder(self) -> Folder:
        return scan(self._root, docs_folder(self._root))

    def _follow(self, changed: frozenset[str]) -> None:
        """Draw what *changed*; whatever goes wrong, the last good pages stay and say why."""
        try:
            if any(PurePath(path).name == SETTINGS for path in changed):
                self._session = self._new_session(framing(self._root, None))
            other = any(PurePath(path).suffix.lower() not in YAML or path.endswith(SETTINGS) for path in changed)
            self._update(self._folder(), everything=other)
        except Refused as error:
            self._voice.tell(f"{error}\nThe last good pages are shown.")
            self._screens.show_trouble(str(error))
        except Exception as error:
            if os.environ.get("BENCHLEAF_DEBUG"):
                raise
            self._voice.tell(f"{bug(error)}\nThe last good pages are shown.")
            self._screens.show_trouble(bug(error))

    def _update(self, folder: Folder, *, everything: bool) -> None:
        begun = time.perf_counter()
        checked = self._session.check(folder)
        self._voice.found(checked)
        found = notes.by_page(checked.findings, folder.docs)
        drawing = self._session.draw(checked)
        self._screens.show_first(next(drawing), found)
        for pages in drawing:
            self._screens.show(pages, found)
        # The frame of Markdown pages names the shop; all else in them is of no YAML.
        if everything or (checked.base.shop and checked.base.shop.name != self._shop):
            self._shop = checked.base.shop.name if checked.base.shop else None
            self._frame(checked)
        self._voice.tell(f"Drawn in {time.perf_counter() - begun:.2f} s")

    def _frame(self, checked: Checked) -> None:
        """Have the Markdown pages and the assets drawn beside the old ones, then show them."""
        self._frames += 1
        fresh, old = self._top / str(self._frames), self._screens.fixed
        frame(self._root, checked, (self._session.pages, self._session.markdown), fresh)
        self._screens.show_fixed(fresh)
        shutil.rmtree(old, ignore_errors=True)
