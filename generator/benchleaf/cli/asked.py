"""What several commands ask: the knowledge base around here, a rule by its name, a day."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchleaf import build
from benchleaf.checks.rules import RULES
from benchleaf.cli.terminal import colourful, progress, say, tell
from benchleaf.findings import Refused
from benchleaf.report import text
from benchleaf.source.folder import Folder, docs_folder, find_root, scan

if TYPE_CHECKING:
    from benchleaf.report.summary import Report

DAY = click.DateTime(formats=["%Y-%m-%d"])


def knowledge_base(start: Path) -> Folder:
    """Return the knowledge base at or above *start*; refuses where there is none."""
    root = find_root(start)
    return scan(root, docs_folder(root))


def sound_base(*, strict: bool = False) -> build.Checked | None:
    """Say what is found in the knowledge base around here, and return it where nothing of that stops publication."""
    folder = knowledge_base(Path.cwd())
    with progress("procedures performed") as watcher:
        checked = build.check(folder, watcher=watcher)
    report = checked.report(strict=strict)
    say_findings(report)
    tell(report.sentence)
    return None if report.stopping else checked


def say_findings(report: Report) -> None:
    """Write the findings of *report* to stdout as text, coloured where that is wanted."""
    coloured = colourful(sys.stdout)
    say(text.render(report, coloured=coloured), coloured=coloured)


def known_rule(name: str) -> str:
    """Return *name*; refuses, with the nearest name, where no rule has it."""
    if name in RULES:
        return name
    from benchleaf.checks.names import nearest  # noqa: PLC0415  (only where a name was mistyped)

    close = nearest(name, RULES)
    raise Refused(
        f"There is no rule {name}" + (f"; did you mean {close}?" if close else ": `benchleaf explain` lists them")
    )
