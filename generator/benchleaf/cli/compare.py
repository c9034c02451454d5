"""`benchleaf compare`: what a change did to safety."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from benchleaf import build
from benchleaf.cli.asked import knowledge_base
from benchleaf.cli.terminal import CLEAN, FOUND, say, tell
from benchleaf.report import COMPARISONS
from benchleaf.report.compare_text import head, sentence
from benchleaf.source.history import earlier


@click.command("compare")
@click.argument("revision", metavar="REV")
@click.option(
    "--format", "form", type=click.Choice(list(COMPARISONS)), default="text", help="How the comparison is written."
)
def command(revision: str, form: str) -> int:
    """
    Say what changed in safety since the commit, branch or tag REV, procedure by procedure.

    Ends with 1 when safety was loosened in a procedure whose revision was not raised.
    """
    gc.disable()  # A run that ends in seconds need not look for what it no longer needs.
    now = knowledge_base(Path.cwd())
    found = build.compare(earlier(now.root, revision), now, revision)
    say(COMPARISONS[form](found))
    if form == "text":
        for one in found.procedures:
            tell(head(one))
    tell(sentence(found))
    if found.unraised:
        names = ", ".join(one.name for one in found.unraised)
        tell(f"Raise the revision of {names}, or take back what makes it less safe.")
    return FOUND if found.unraised else CLEAN
