"""`benchleaf serve`: the site while one writes."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchleaf.cli.asked import knowledge_base
from benchleaf.cli.terminal import CLEAN, say, tell
from benchleaf.report import FORMATS

if TYPE_CHECKING:
    from benchleaf.build import Checked


@click.command("serve")
@click.option("--address", metavar="HOST:PORT", help="Where to listen; 127.0.0.1:8000 where nothing is said.")
def command(address: str | None) -> int:
    """
    Show the site while you write, drafts too, with what is found on the page that it is about.

    What you break does not end it: the last good page stays, with the finding on it.
    """
    from benchleaf.preview.run import preview  # noqa: PLC0415  (MkDocs is slow to load, and two commands alone need it)

    # A preview that is told to end must take its pages away, as one that is interrupted does.
    signal.signal(signal.SIGTERM, lambda number, _: sys.exit(128 + number))
    preview(knowledge_base(Path.cwd()).root, address, Terminal())
    return CLEAN


class Terminal:
    """Says what the preview has to say, as `check` does."""

    def found(self, checked: Checked) -> None:
        """Say each finding, then how many there are."""
        report = checked.report()
        say(FORMATS["text"](report))
        tell(report.sentence)

    def tell(self, text: str) -> None:
        """Say a sentence on stderr."""
        tell(text)
