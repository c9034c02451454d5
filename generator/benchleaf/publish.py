"""Builds the site beside the old one and swaps the two: whatever goes wrong, the last good site stands."""

from __future__ import annotations

import ctypes
import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, cast

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import BuildError, MkDocsException

from benchleaf.findings import Refused
from benchleaf.plugin import objection
from benchleaf.source.folder import SETTINGS

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

    from benchleaf.build import Checked
    from benchleaf.pages.compose.site import Options
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
    # Where the site's folder is a link, what it leads to is changed and the link stays.
    site = Path(config.site_dir).resolve()
    if site.exists() and not site.is_dir():
        raise Refused(f"{site} is a file: name a folder as `site_dir` in {SETTINGS}")
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
        # MkDocs has logged what a plugin objects to; what it aborts for by itself stands in the error alone.
        why = "" if isinstance(error.__context__, BuildError) else f": {error}"
        raise Refused(f"The site was not built, the last one stands{why}") from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return site


@dataclass(frozen=True, slots=True)
class Framing:
    """What a preview needs of the settings: where to listen, and what they say of the site."""

    host: str
    port: int
    options: Options


def framing(root: Path, address: str | None) -> Framing:
    """Return what the settings in *root* say for a preview at *address*, or where they say."""
    config = _settings(root, address)
    config.plugins.on_startup(command="serve", dirty=False)
    return Framing(config.dev_addr.host, config.dev_addr.port, _plugin(config).options(config))


def frame(root: Path, checked: Checked, drawn: tuple[dict[str, str], dict[str, str]], into: Path) -> None:
    """Lay the whole site of *checked*, whose own pages and Markdown are *drawn*, into the folder *into*."""
    config = _settings(root)
    config.strict, config.site_dir = False, str(into)  # a warning must not end the preview of what one begins to write
    plugin = _plugin(config)
    plugin.ready, plugin.drawn = checked, drawn
    config.plugins.on_startup(command="serve", dirty=False)
    try:
        mkdocs_build(config)
    except MkDocsException as error:
        raise Refused(f"The Markdown pages cannot be drawn: {error}") from error


def _settings(root: Path, address: str | None = None) -> MkDocsConfig:
    os.environ.update(_QUIET)
    try:
        config = load_config(str(root / SETTINGS), dev_addr=address)
    except MkDocsException as error:
        raise Refused(f"The settings in {SETTINGS} cannot be used: {error}") from error
    if "benchleaf" not in config.plugins:
        raise Refused(f"{SETTINGS} does not name the plugin: write `plugins: [benchleaf]`")
    if unfit := objection(config):
        raise Refused(unfit)
    return config


def _plugin(config: MkDocsConfig) -> BenchleafPlugin:
    # MkDocs types all plugins alike.
    return cast("BenchleafPlugin", config.plugins["benchleaf"])


def _swap(fresh: Path, site: Path) -> None:
    """Put *fresh* where *site* is, at one stroke where the system can; what was there is gone, or all of it is back."""
    if not site.exists():
        fresh.rename(site)
        return
    if _exchange(fresh, site):
        old = fresh
    else:
        old = site.with_name(f"{site.name}.old-{fresh.name.rsplit('-', 1)[-1]}")
        site.rename(old)
        try:
            fresh.rename(site)
        except OSError:
            old.rename(site)
            raise
    # As MkDocs has it: what begins with a dot (`.git` of a branch that is served) is not the site's, and stays.
    for path in old.glob(".*"):
        path.rename(site / path.name)
    shutil.rmtree(old, ignore_errors=True)


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places with no moment between; false where the system has no way to."""
    here, exchange = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of renameat2(2)
    try:
        rename = ctypes.CDLL(None).renameat2
    except (AttributeError, OSError, TypeError):
        return False
    return int(rename(here, os.fsencode(one), here, os.fsencode(other), exchange)) == 0
