"""`benchleaf build`: the knowledge base as a site in a folder."""

from __future__ import annotations

import gc
import os
import signal
import sys

import click

from benchleaf.cli.asked import sound_base
from benchleaf.cli.terminal import CLEAN, FOUND, tell


@click.command("build")
@click.option("--strict", is_flag=True, help="Let warnings stop publication too.")
def command(*, strict: bool) -> int:
    """Check the knowledge base and build its site; the last good site stands until the new one is whole."""
    gc.disable()  # As above.
    checked = sound_base(strict=strict)
    if checked is None:
        tell("The site was not touched.")
        return FOUND
    from benchleaf.publish import publish  # noqa: PLC0415  (MkDocs is slow to load, and two commands alone need it)

    # A build that is told to end must take its half-made site away, as one that fails does.
    signal.signal(signal.SIGTERM, lambda number, _: sys.exit(128 + number))
    site = publish(checked.folder.root, checked, strict=strict)
    tell(f"The site is in {os.path.relpath(site)}: open {os.path.relpath(site / 'index.html')}")
    return CLEAN
