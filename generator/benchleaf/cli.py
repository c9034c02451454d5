"""The command line: arguments in, exit codes out. Findings on stdout, everything else on stderr."""

from __future__ import annotations

import gc
import io
import os
import shutil
import signal
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import click

from benchleaf import __version__, build
from benchleaf.checks.asked import (
    diagnosis_named,
    must_have_variant,
    outcomes_given,
    procedure_named,
    states_arrived,
    stopping,
    variant_named,
)
from benchleaf.checks.rules import RULES
from benchleaf.decisions.diagnose import diagnose as answer
from benchleaf.decisions.diagnose import possible
from benchleaf.findings import Finding, Refused, bug
from benchleaf.report import DIAGNOSES, FACTS, FORMATS
from benchleaf.source import packaged
from benchleaf.source.folder import Folder, docs_folder, find_root, scan

if TYPE_CHECKING:
    import datetime as dt

CLEAN, FOUND, REFUSED, BUG = 0, 1, 2, 3
DAY = click.DateTime(formats=["%Y-%m-%d"])


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="benchleaf")
def commands() -> None:
    """Check repair procedures, and publish them as a site that opens from a folder."""


def main() -> None:
    """Run a command; bad input ends in one line, never in a traceback, unless BENCHLEAF_DEBUG is set."""
    for stream in (sys.stdout, sys.stderr):
        # Findings quote what authors write: °, Ω and all. A terminal or pipe that knows less must not end the check.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    try:
        code = commands.main(standalone_mode=False)
    except (click.exceptions.Exit, click.ClickException, click.Abort) as error:
        code = _refused_by_click(error)
    except Refused as error:
        _tell(f"benchleaf: {error}")
        code = REFUSED
    except OSError as error:
        # The disk is full, a folder may not be written, a port is taken: nothing that the knowledge base can help.
        where = f" {error.filename}" if isinstance(error.filename, str) else ""
        _tell(f"benchleaf: This cannot be done{where and ' with'}{where}: {error.strerror or error}")
        code = REFUSED
    except Exception as error:
        if os.environ.get("BENCHLEAF_DEBUG"):
            raise
        _tell(f"benchleaf: {bug(error)}")
        code = BUG
    sys.exit(code if isinstance(code, int) else CLEAN)


def _refused_by_click(error: Exception) -> int:
    if isinstance(error, click.exceptions.Exit):
        return error.exit_code
    if isinstance(error, click.ClickException):
        error.show()
    return REFUSED


def _print(text: str) -> None:
    """Write *text* to stdout; where whoever read it has gone (`| head`), the exit code is still the right one."""
    try:
        click.echo(text, nl=False)
    except BrokenPipeError:
        _hush(sys.stdout)


def _tell(text: str) -> None:
    """Say *text* to the person at the terminal, on stderr."""
    try:
        click.echo(text, err=True)
    except BrokenPipeError:
        _hush(sys.stderr)


def _hush(stream: TextIO) -> None:
    # What is left in the buffer must not complain at the end.
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


@commands.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", help="How findings are written.")
@click.option("--select", multiple=True, metavar="RULE", help="Report this rule only; may be given several times.")
@click.option("--ignore", multiple=True, metavar="RULE", help="Leave this rule out; may be given several times.")
@click.option("--strict", is_flag=True, help="Let warnings stop publication too.")
@click.option("--show-allowed", is_flag=True, help="List what authors have allowed as well, each with its reason.")
@click.option("--today", type=DAY, metavar="DATE", help="Note the reviews that are overdue on that day (2027-01-31).")
def check(  # noqa: PLR0913  (one argument for each option that a person may give)
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
        _known_rule(name)
    folder = _folder(paths[0] if paths else Path.cwd())
    wanted = _wanted(folder, paths)
    checked = build.check(folder, today=today.date() if today else None, pages=False)
    report = checked.report(strict=strict)
    kept = tuple(finding for finding in report.findings if _asked_for(finding, wanted, select, ignore))
    report = replace(report, findings=kept, show_allowed=show_allowed)
    _print(FORMATS[form](report))
    _tell(report.sentence)
    return FOUND if report.stopping else CLEAN


@commands.command()
@click.argument("rule", required=False)
@click.option("--all", "everything", is_flag=True, help="Explain every rule.")
def explain(rule: str | None, *, everything: bool) -> int:
    """Say what RULE finds, why it matters, and what to write."""
    if rule is None and not everything:
        _print("".join(f"{known.name:24} {known.level}\n" for known in RULES.values()))
        return CLEAN
    names = list(RULES) if everything else [_known_rule(rule or "")]
    _print("\n\n".join(packaged.rule_texts()[name].rstrip() for name in names) + "\n")
    return CLEAN


@commands.command()
@click.argument("procedure", metavar="DEVICE/PROCEDURE")
@click.option("--variant", metavar="VARIANT", help="Facts of this variant alone.")
@click.option("--format", "form", type=click.Choice(list(FACTS)), default="text", help="How facts are written.")
def facts(procedure: str, variant: str | None, form: str) -> int:
    """Say what is known of DEVICE/PROCEDURE once it was performed: times, limits, what must dry, cool and come back."""
    gc.disable()  # As above.
    checked = build.check(_folder(Path.cwd()), pages=False)
    asked = procedure_named(checked.base, procedure)
    if asked is not None and variant is not None:
        must_have_variant(checked.base, asked, variant)
    found = build.facts_of(checked, asked, variant) if asked else None
    if asked is None or found is None:
        _tell(f"{procedure} cannot be performed as it is written: `benchleaf check` says what is wrong.")
        return FOUND
    _print(FACTS[form](found))
    if asked.status == "withdrawn":
        _tell(f"{procedure} is withdrawn: nobody works by it, and nothing checks it.")
    if stops := stopping(checked.findings, checked.base, asked):
        findings = "1 finding keeps" if stops == 1 else f"{stops} findings keep"
        _tell(f"{findings} {procedure} from being published; these facts are of what is written.")
    return CLEAN


@commands.command()
@click.argument("device")
@click.argument("symptom")
@click.option("--given", multiple=True, metavar="TEST=OUTCOME", help="What a test has shown; several in their order.")
@click.option("--arrived", multiple=True, metavar="WHAT=HOW", help="How the device came: liquid=water, power=dead ...")
@click.option("--variant", metavar="VARIANT", help="Plan for this variant; for the first where none is named.")
@click.option("--format", "form", type=click.Choice(list(DIAGNOSES)), default="text", help="How the answer is written.")
def diagnose(  # noqa: PLR0913  (one argument for each option that a person may give)
    device: str,
    symptom: str,
    *,
    given: tuple[str, ...],
    arrived: tuple[str, ...],
    variant: str | None,
    form: str,
) -> int:
    """Say what is behind SYMPTOM on DEVICE, how likely each cause is, and the cheapest way to find and cure it."""
    gc.disable()  # As above.
    base = build.read_base(_folder(Path.cwd()))
    asked = diagnosis_named(base, device, symptom)
    if asked is None:
        _tell(f"The diagnosis of {symptom} on {device} cannot be read: `benchleaf check` says what is wrong.")
        return FOUND
    seen, came, own = outcomes_given(asked, given), states_arrived(arrived), variant_named(base, device, variant)
    if not possible(asked, seen):
        raise Refused("No cause of this diagnosis shows these outcomes together: read them again")
    found = answer(base, asked, own, seen, came)
    _print(DIAGNOSES[form](found))
    return CLEAN


@commands.command("build")
@click.option("--strict", is_flag=True, help="Let warnings stop publication too.")
def build_site(*, strict: bool) -> int:
    """Check the knowledge base and build its site; the last good site stands until the new one is whole."""
    gc.disable()  # As above.
    checked = _sound(strict=strict)
    if checked is None:
        _tell("The site was not touched.")
        return FOUND
    from benchleaf.publish import publish  # noqa: PLC0415  (MkDocs is slow to load, and two commands alone need it)

    # A build that is told to end must take its half-made site away, as one that fails does.
    signal.signal(signal.SIGTERM, lambda number, _: sys.exit(128 + number))
    site = publish(checked.folder.root, checked, strict=strict)
    _tell(f"The site is in {os.path.relpath(site)}: open {os.path.relpath(site / 'index.html')}")
    return CLEAN


@commands.command()
@click.option("--address", metavar="HOST:PORT", help="Where to listen; 127.0.0.1:8000 where nothing is said.")
def serve(address: str | None) -> int:
    """Show the site while you write; drafts are shown too."""
    checked = _sound()
    if checked is None:
        _tell("Mend this first. Once the preview runs, it outlives what you break: the last good pages stay.")
        return FOUND
    from benchleaf.publish import serve as preview  # noqa: PLC0415  (as in `build`)

    preview(checked.folder.root, address)
    return CLEAN


@commands.command()
@click.argument("folder", type=click.Path(path_type=Path))
def init(folder: Path) -> int:
    """Make a small knowledge base in FOLDER that checks and builds."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refused(f"{folder} is there already and is not empty: name a new folder")
    shutil.copytree(packaged.starter(), folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
    _tell(f"A knowledge base is in {folder}: go there, then `benchleaf check` and `benchleaf build`.")
    return CLEAN


def _sound(*, strict: bool = False) -> build.Checked | None:
    """Say what is found in the knowledge base around here, and return it where nothing of that stops publication."""
    checked = build.check(_folder(Path.cwd()))
    report = checked.report(strict=strict)
    _print(FORMATS["text"](report))
    _tell(report.sentence)
    return None if report.stopping else checked


def _folder(start: Path) -> Folder:
    root = find_root(start)
    return scan(root, docs_folder(root))


def _known_rule(name: str) -> str:
    if name in RULES:
        return name
    from benchleaf.checks.names import nearest  # noqa: PLC0415  (only where a name was mistyped)

    close = nearest(name, RULES)
    raise Refused(
        f"There is no rule {name}" + (f"; did you mean {close}?" if close else ": `benchleaf explain` lists them")
    )


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
