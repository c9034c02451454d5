"""Builds the site beside the old one and swaps the two: whatever goes wrong, the last good site stands."""

from __future__ import annotations

import os
import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, cast

from mkdocs.commands import serve as mkdocs_serve
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from benchleaf.findings import Refused
from benchleaf.source.folder import SETTINGS

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

    from benchleaf.build import Checked
    from benchleaf.plugin import BenchleafPlugin

# The theme prints at each build when its own upkeep ends; its user is told in the guide for developers instead.
_QUIET = {"NO_MKDOCS_2_WARNING": "1"}


def publish(root: Path, checked: Checked, *, strict: bool = False) -> Path:
    """
    Build the site of the sound knowledge base *checked*, whose settings lie in *root*; return its folder.

    With *strict*, what MkDocs finds wrong with a Markdown page or a link stops it too.
    """
    config = _settings(root)
    config.strict = config.strict or strict
    site = Path(config.site_dir)
    site.parent.mkdir(parents=True, exist_ok=True)
    beside = Path(tempfile.mkdtemp(prefix=f"{site.name}.new-", dir=site.parent))
    try:
        config.site_dir = str(beside)
        _plugin(config).ready = checked
        config.plugins.on_startup(command="build", dirty=False)
        mkdocs_build(config)
        beside.chmod(0o755)
        _swap(beside, site)
    except MkDocsException as error:
        raise Refused(f"The site was not built, the last one stands: {error}") from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return site


def serve(root: Path, address: str | None) -> None:
    """Show the site at *address* and draw it anew at each change."""
    os.environ.update(_QUIET)
    try:
        mkdocs_serve.serve(str(root / SETTINGS), dev_addr=address)
    except MkDocsException as error:
        raise Refused(str(error)) from error


def _settings(root: Path) -> MkDocsConfig:
    os.environ.update(_QUIET)
    try:
        config = load_config(str(root / SETTINGS))
    except MkDocsException as error:
        raise Refused(f"The settings in {SETTINGS} cannot be used: {error}") from error
    if "benchleaf" not in config.plugins:
        raise Refused(f"{SETTINGS} does not name the plugin: write `plugins: [benchleaf]`")
    return config


def _plugin(config: MkDocsConfig) -> BenchleafPlugin:
    # MkDocs types all plugins alike.
    return cast("BenchleafPlugin", config.plugins["benchleaf"])


def _swap(fresh: Path, site: Path) -> None:
    """Put *fresh* where *site* is. The old site is moved aside first, and comes back if that fails."""
    aside = site.with_name(f"{site.name}.old-{fresh.name.rsplit('-', 1)[-1]}")
    if site.exists():
        site.rename(aside)
    try:
        fresh.rename(site)
    except OSError:
        if aside.exists():
            aside.rename(site)
        raise
    shutil.rmtree(aside, ignore_errors=True)
