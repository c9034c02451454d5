"""`benchleaf serve`: the site while one writes."""

from __future__ import annotations

import click

from benchleaf.cli.asked import sound_base
from benchleaf.cli.terminal import CLEAN, FOUND, tell


@click.command("serve")
@click.option("--address", metavar="HOST:PORT", help="Where to listen; 127.0.0.1:8000 where nothing is said.")
def command(address: str | None) -> int:
    """Show the site while you write; drafts are shown too."""
    checked = sound_base()
    if checked is None:
        tell("Mend this first. Once the preview runs, it outlives what you break: the last good pages stay.")
        return FOUND
    from benchleaf.publish import serve as preview  # noqa: PLC0415  (as in `build`)

    preview(checked.folder.root, address)
    return CLEAN
