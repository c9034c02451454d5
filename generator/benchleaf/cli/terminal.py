"""Exit codes, and the ways of speaking: results on stdout or in a file, everything else on stderr."""

from __future__ import annotations

import os
import sys
import tempfile
from contextlib import contextmanager
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, TextIO

import click

from benchleaf.findings import Refused

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.processes import Watcher

CLEAN, FOUND, REFUSED, BUG = 0, 1, 2, 3
"""Exit codes: all is well, findings that stop, bad usage or nothing there, a fault of ours."""
_PATIENCE, _BETWEEN = 1.0, 0.1
"""Seconds before one who waits is told how far it is, and between two such words."""


def colourful(stream: TextIO) -> bool:
    """Whether what goes to *stream* may be coloured: on a terminal, unless NO_COLOR, or where FORCE_COLOR is set."""
    if os.environ.get("NO_COLOR"):
        return False
    return bool(os.environ.get("FORCE_COLOR")) or (stream.isatty() and os.environ.get("TERM") != "dumb")


def say(text: str, *, coloured: bool = False) -> None:
    """Write *text* to stdout; where whoever read it has gone (`| head`), the exit code is still the right one."""
    try:
        click.echo(text, nl=False, color=coloured or None)
    except BrokenPipeError:
        _hush(sys.stdout)


def tell(text: str) -> None:
    """Say *text* to the person at the terminal, on stderr."""
    try:
        click.echo(text, err=True)
    except BrokenPipeError:
        _hush(sys.stderr)


@contextmanager
def progress(noun: str) -> Iterator[Watcher | None]:
    """Give what tells how many of how many *noun* are done, on one line that is wiped; None where nobody looks on."""
    if not sys.stderr.isatty() or os.environ.get("TERM") == "dumb":
        yield None
        return
    line, due = "", monotonic() + _PATIENCE

    def watcher(done: int, total: int) -> None:
        nonlocal line, due
        if done < total and monotonic() >= due:
            line, due = f"{done:,} of {total:,} {noun}", monotonic() + _BETWEEN
            click.echo(f"\r{line}", nl=False, err=True)

    try:
        yield watcher
    finally:
        if line:
            click.echo(f"\r{' ' * len(line)}\r", nl=False, err=True)


def must_be_writable(file: Path) -> None:
    """Refuse *file* where nothing can be written to it, before one has waited for what is to stand there."""
    if file.is_dir() or not file.parent.is_dir():
        raise Refused(
            f"{file} cannot be written: " + ("it is a folder" if file.is_dir() else "there is no such folder")
        )


def write_whole(file: Path, text: str) -> None:
    """Write *text* to *file*, whole or not at all: until all of it is on the disk, what was there stays."""
    file = file.resolve()
    if file.exists() and not file.is_file():  # A pipe, or /dev/null: nothing to swap.
        file.write_text(text, encoding="utf-8")
        return
    handle, name = tempfile.mkstemp(prefix=f".{file.name}.", dir=file.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        beside.chmod(file.stat().st_mode & 0o777 if file.exists() else 0o666 & ~_umask())
        beside.replace(file)
    finally:
        beside.unlink(missing_ok=True)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _hush(stream: TextIO) -> None:
    # What is left in the buffer must not complain at the end.
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
