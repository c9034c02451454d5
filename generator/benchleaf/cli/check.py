"""`benchleaf check`: what is found in the knowledge base."""

from __future__ import annotations

import gc
import os
import re
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchleaf import build
from benchleaf.checks.scope import Scope, shard
from benchleaf.cli.asked import DAY, knowledge_base, known_rule, say_findings
from benchleaf.cli.terminal import CLEAN, FOUND, must_be_writable, progress, say, tell, write_whole
from benchleaf.findings import Refused
from benchleaf.report import FORMATS
from benchleaf.report.github import summary
from benchleaf.source.folder import from_checkout, placed

if TYPE_CHECKING:
    import datetime as dt

    from benchleaf.report.summary import Report
    from benchleaf.source.folder import Folder

_PATH = click.Path(path_type=Path)
_SHARD = re.compile(r"([0-9]{1,4})/([0-9]{1,4})", re.ASCII)


@click.command("check")
@click.argument("paths", nargs=-1, type=_PATH)
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", help="How findings are written.")
@click.option("--output", type=_PATH, metavar="FILE", help="Write findings to FILE, whole or not at all.")
@click.option("--select", multiple=True, metavar="RULE", help="Report this rule only; may be given several times.")
@click.option("--ignore", multiple=True, metavar="RULE", help="Leave this rule out; may be given several times.")
@click.option("--strict", is_flag=True, help="Let warnings stop publication too.")
@click.option("--show-allowed", is_flag=True, help="List what authors have allowed as well, each with its reason.")
@click.option("--today", type=DAY, metavar="DATE", help="Note the reviews that are overdue on that day (2027-01-31).")
@click.option("--shard", "part", metavar="N/M", help="Check part N of M; all parts together find what one check finds.")
@click.option("--stdin-filename", "stdin", type=_PATH, metavar="PATH", help="Check the text on stdin as the file PATH.")
def command(  # noqa: PLR0913  (one argument for each option that a person may give)
    paths: tuple[Path, ...],
    form: str,
    output: Path | None,
    select: tuple[str, ...],
    ignore: tuple[str, ...],
    *,
    strict: bool,
    show_allowed: bool,
    today: dt.datetime | None,
    part: str | None,
    stdin: Path | None,
) -> int:
    """Check the knowledge base, and report what is found in PATHS (everything, where none is given)."""
    gc.disable()  # A run that ends in seconds need not look for what it no longer needs; a sixth of its time.
    for name in (*select, *ignore):
        known_rule(name)
    if output:
        must_be_writable(output)
    folder, scope = _asked(paths, part, stdin)
    with progress("procedures performed") as watcher:
        day = today.date() if today else None
        checked = build.check(folder, today=day, pages=False, scope=scope, watcher=watcher)
    report = checked.report(strict=strict)
    kept = tuple(one for one in report.findings if one.rule not in ignore and (not select or one.rule in select))
    above = from_checkout(folder.root)
    report = replace(report, findings=kept, show_allowed=show_allowed, above=above, part=part or "")
    _hand_over(report, form, output)
    tell(report.sentence)
    return FOUND if report.stopping else CLEAN


def _hand_over(report: Report, form: str, output: Path | None) -> None:
    """Write *report* where it is wanted; for GitHub, add its summary to the file that a workflow's step may name."""
    if output:
        write_whole(output, FORMATS[form](report))
    elif form == "text":
        say_findings(report)
    else:
        say(FORMATS[form](report))
    step_summary = os.environ.get("GITHUB_STEP_SUMMARY")
    if form == "github" and step_summary:
        with Path(step_summary).open("a", encoding="utf-8") as stream:
            stream.write(summary(report))


def _asked(paths: tuple[Path, ...], part: str | None, stdin: Path | None) -> tuple[Folder, Scope]:
    """Return the knowledge base that is meant, and what of it is asked about."""
    if stdin is None:
        folder = knowledge_base(paths[0] if paths else Path.cwd())
    elif paths or part:
        raise Refused("--stdin-filename names the one file to check: leave PATH and --shard out")
    else:
        # The file itself need not be there yet, nor its folder.
        whole = _absolute(stdin)
        folder = knowledge_base(next(above for above in whole.parents if above.is_dir()))
        folder = placed(folder, _within(folder, stdin), sys.stdin.buffer.read())
    wanted = tuple(_within(folder, _existing(path)) for path in paths) if stdin is None else (_within(folder, stdin),)
    return folder, Scope(() if "." in wanted else wanted, shard(folder.files, *_numbers(part)) if part else None)


def _numbers(part: str) -> tuple[int, int]:
    match = _SHARD.fullmatch(part)
    number, count = (int(match[1]), int(match[2])) if match else (0, 0)
    if not 1 <= number <= count:
        raise Refused(f"--shard is {part}: write which part of how many, 2/4 for the second of four")
    return number, count


def _existing(path: Path) -> Path:
    if not path.exists():
        raise Refused(f"There is no {path}")
    return path


def _within(folder: Folder, path: Path) -> str:
    """Return *path* as findings write it; refuses where it is not in the knowledge base."""
    whole = _absolute(path)
    above = (one for one in (whole, *whole.parents) if one.exists() and one.samefile(folder.root))
    root = next(above, None)
    if root is None:
        raise Refused(f"{path} is not in the knowledge base of {folder.root}")
    return whole.relative_to(root).as_posix()


def _absolute(path: Path) -> Path:
    # Not resolved: what is linked into the knowledge base is found under the name that it has there.
    return Path(os.path.abspath(path))  # noqa: PTH100  (Path.absolute leaves `..` in)
