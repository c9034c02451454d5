"""The command line: arguments in, exit codes out. One file for each command, named in two lists here."""

from __future__ import annotations

import io
import os
import sys

import click

from benchleaf import __version__
from benchleaf.cli import (
    build,
    check,
    compare,
    diagnose,
    explain,
    facts,
    init,
    new,
    serve,
)
from benchleaf.cli.terminal import BUG, CLEAN, REFUSED, tell
from benchleaf.findings import Refused, bug

COMMANDS = (
    check.command,
    explain.command,
    facts.command,
    diagnose.command,
    build.command,
    serve.command,
    init.command,
    new.command,
    compare.command,
)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="benchleaf")
def commands() -> None:
    """Check repair procedures, and publish them as a site that opens from a folder."""


for command in COMMANDS:
    commands.add_command(command)


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
        tell(f"benchleaf: {error}")
        code = REFUSED
    except OSError as error:
        # The disk is full, a folder may not be written, a port is taken: nothing that the knowledge base can help.
        where = f" {error.filename}" if isinstance(error.filename, str) else ""
        tell(f"benchleaf: This cannot be done{where and ' with'}{where}: {error.strerror or error}")
        code = REFUSED
    except Exception as error:
        if os.environ.get("BENCHLEAF_DEBUG"):
            raise
        tell(f"benchleaf: {bug(error)}")
        code = BUG
    sys.exit(code if isinstance(code, int) else CLEAN)


def _refused_by_click(error: Exception) -> int:
    if isinstance(error, click.exceptions.Exit):
        return error.exit_code
    if isinstance(error, click.ClickException):
        error.show()
    return REFUSED
