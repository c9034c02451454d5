"""`benchleaf init`: a small knowledge base to begin with."""

from __future__ import annotations

import shutil
from pathlib import Path

import click

from benchleaf.cli.editors import tell_editors
from benchleaf.cli.terminal import CLEAN, tell
from benchleaf.findings import Refused
from benchleaf.source import packaged
from benchleaf.source.folder import docs_folder


@click.command("init")
@click.argument("folder", type=click.Path(path_type=Path))
def command(folder: Path) -> int:
    """Make a small knowledge base in FOLDER that checks and builds, with settings for editors, CI and pre-commit."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refused(f"{folder} is there already and is not empty: name a new folder")
    shutil.copytree(packaged.starter(), folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
    for line in tell_editors(folder, docs_folder(folder)):
        tell(line)
    tell(f"A knowledge base is in {folder}: go there, then `benchleaf check` and `benchleaf build`.")
    tell("`benchleaf new device NAME` and `benchleaf new procedure DEVICE/NAME` go on from there.")
    return CLEAN
