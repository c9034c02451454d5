"""`benchleaf check`: what is found in the knowledge base."""

from __future__ import annotations

import gc
import os
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchleaf import build
from benchleaf.cli.asked import DAY, knowledge_base, known_rule
from benchleaf.cli.terminal import CLEAN, FOUND, say, tell
from benchleaf.findings import Finding, Refused
from benchleaf.report import FORMATS

if TYPE_CHECKING:
    import datetime as dt

    from benchleaf.source.folder import Folder


@click.command("check")
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", help="How findings are written.")
@click.option("--select", multiple=True, metavar="RULE", help="Report this rule only; may be given several times.")
@click.option("--ignore", multiple=True, metavar="RULE", help="Leave this rule out; may be given several times.")
@click.option("--strict", is_flag=True, help="Let warnings stop publication too.")
@click.option("--show-allowed", is_flag=True, help="List what authors have allowed as well, each with its reason.")
@click.option("--today", type=DAY, metavar="DATE", help="Note the reviews that are overdue on that day (2027-01-31).")
def command(  # noqa: PLR0913  (one argument for each option that a person may give)
    paths: tuple[Path, ...],
    form: str,
    select: tuple[str, ...],
    ignore: tuple[str, ...],
    *,
    strict: bool,
    show_allowed: bool,
    today: dt.datetime | None,
) -> int:
    """Check the knowledge base, and report what is found in PATHS (everything, where none is given)."""
    gc.disable()  # A run that ends in seconds need not look for what it no longer needs; a sixth of its time.
    for name in (*select, *ignore):
        known_rule(name)
    folder = knowledge_base(paths[0] if paths else Path.cwd())
    wanted = _wanted(folder, paths)
    checked = build.check(folder, today=today.date() if today else None, pages=False)
    report = checked.report(strict=strict)
    kept = tuple(finding for finding in report.findings if _asked_for(finding, wanted, select, ignore))
    report = replace(report, findings=kept, show_allowed=show_allowed)
    say(FORMATS[form](report))
    tell(report.sentence)
    return FOUND if report.stopping else CLEAN


def _wanted(folder: Folder, paths: tuple[Path, ...]) -> tuple[str, ...]:
    """Return the paths to report on as findings write them; nothing means everything."""
    wanted = []
    for path in paths:
        if not path.exists():
            raise Refused(f"There is no {path}")
        # Not resolved: what is linked into the knowledge base is found under the name that it has there.
        whole = Path(os.path.abspath(path))  # noqa: PTH100  (Path.absolute leaves `..` in)
        root = next((above for above in (whole, *whole.parents) if above.samefile(folder.root)), None)
        if root is None:
            raise Refused(f"{path} is not in the knowledge base of {folder.root}")
        wanted.append(whole.relative_to(root).as_posix())
    return () if "." in wanted else tuple(wanted)


def _asked_for(finding: Finding, paths: tuple[str, ...], select: tuple[str, ...], ignore: tuple[str, ...]) -> bool:
    place = finding.place.path
    inside = not paths or any(place == path or place.startswith(path + "/") for path in paths)
    return inside and finding.rule not in ignore and (not select or finding.rule in select)
