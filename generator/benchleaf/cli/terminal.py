"""Exit codes, and the two ways of speaking: results on stdout, everything else on stderr."""

from __future__ import annotations

import os
import sys
from typing import TextIO

import click

CLEAN, FOUND, REFUSED, BUG = 0, 1, 2, 3
"""Exit codes: all is well, findings that stop, bad usage or nothing there, a fault of ours."""


def say(text: str) -> None:
    """Write *text* to stdout; where whoever read it has gone (`| head`), the exit code is still the right one."""
    try:
        click.echo(text, nl=False)
    except BrokenPipeError:
        _hush(sys.stdout)


def tell(text: str) -> None:
    """Say *text* to the person at the terminal, on stderr."""
    try:
        click.echo(text, err=True)
    except BrokenPipeError:
        _hush(sys.stderr)


def _hush(stream: TextIO) -> None:
    # What is left in the buffer must not complain at the end.
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
