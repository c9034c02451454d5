"""The MkDocs plugin: each hook is one call to what is tested elsewhere."""

from __future__ import annotations

import logging
import os
import shutil
import weakref
from pathlib import Path, PurePosixPath
from tempfile import mkdtemp
from typing import TYPE_CHECKING, Any, Literal
from urllib.parse import urljoin

from mkdocs.config import base, config_options
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files

from benchleaf import build
from benchleaf.findings import Level, Refused, bug
from benchleaf.pages.compose.site import Options, Site
from benchleaf.pages.parts import POLICY, POLICY_WHILE_SERVING
from benchleaf.report import text
from benchleaf.source import packaged
from benchleaf.source.folder import YAML, docs_name, scan

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page
    from mkdocs.utils.templates import TemplateContext

log = get_plugin_logger("benchleaf")

# What the theme writes for sites with an address and a server of their own. Ours opens from a folder.
_NOT_OURS = frozenset({"sitemap.xml", "404.html"})
_THEME_SCRIPTS = "assets/javascripts/"


class Settings(base.Config):  # type: ignore[no-untyped-call]  # MkDocs leaves __init_subclass__ untyped
    """What `plugins: - benchleaf:` in mkdocs.yml may say."""

    notice = config_options.Type(str, default="")
    """One line at the foot of every page."""


class BenchleafPlugin(BasePlugin[Settings]):  # type: ignore[no-untyped-call]  # as above
    """Draws every page that comes from YAML, and refuses to publish what would hurt someone."""

    def __init__(self) -> None:
        """Begin with nothing checked."""
        super().__init__()
        self.ready: build.Checked | None = None
        self.drawn: tuple[dict[str, str], dict[str, str]] | None = None  # pages and Markdown, where a preview has them
        self._cache = build.Cache()
        self._serving = False
        self._pages: dict[str, str | Path] = {}
        self._folder: _Folder | None = None  # where they lie until MkDocs has taken them
        self._markdown: dict[str, str] = {}
        self._site: Site | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether this is a preview; a partial build is refused, for lists and search would be stale."""
        if dirty:
            raise PluginError("Benchleaf does not build with --dirty: lists and search would keep what is gone.")
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Put our templates before the theme's."""
        if unfit := objection(config):
            raise PluginError(unfit)
        config.theme.dirs.insert(0, str(packaged.overrides()))
        config.theme.static_templates -= _NOT_OURS
        return config

    # Not later: after this hook MkDocs empties the site folder, and a failing check would take the old site down.
    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Check the knowledge base and draw its pages; a finding that stops leaves the site as it is."""
        try:
            self._draw(self._checked(config), config)
        except PluginError as error:
            if not (self._serving and self._pages):
                raise
            # One who writes sees what is wrong and goes on; the pages of the last sound state stay.
            log.error("%s\nThe last good pages are shown.", error)  # noqa: TRY400  (no traceback for a person)
        except Exception as error:
            if not (self._serving and self._pages) or os.environ.get("BENCHLEAF_DEBUG"):
                raise
            log.critical("%s\nThe last good pages are shown.", bug(error))

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Hand our pages to MkDocs as they are; no YAML is ever copied to the site."""
        for file in list(files):
            if PurePosixPath(file.src_uri.lower()).suffix in YAML or file.src_uri == "index.md":
                files.remove(file)
        for path, content in {**self._pages, **self._markdown}.items():
            made = (
                File.generated(config, path, content=content)
                if isinstance(content, str)
                else File.generated(config, path, abs_src_path=str(content))
            )
            made.edit_uri = None
            files.append(made)
        return files

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:  # noqa: ANN401  (MkDocs' own type)
        """Leave out the theme's scripts, of which no page loads any, and what it writes for a site with an address."""
        for file in list(files):
            if file.src_uri.startswith(_THEME_SCRIPTS) or file.src_uri in _NOT_OURS:
                files.remove(file)
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Give a Markdown page the same shell as ours."""
        if self._site is not None:
            source = f"{self._site.options.docs}/{page.file.src_uri}" if page.edit_url else ""
            shell = self._site.shell(page.url, str(page.title), source=source)
            context["benchleaf"] = shell  # type: ignore[typeddict-unknown-key]  # a name of our own
        return context

    def _checked(self, config: MkDocsConfig) -> build.Checked:
        """Return the knowledge base, sound; say what is found in it, unless our own command has said so already."""
        if self.ready:
            checked, self.ready = self.ready, None
            return checked
        checked = self._check(config)
        report = checked.report(strict=bool(config.strict))
        found = f"\n{text.render(report)}{report.sentence}"
        if report.stopping:
            raise PluginError(found)
        warned = any(finding.level is Level.WARNING for finding in report.shown)
        log.log(logging.WARNING if warned else logging.INFO, found)
        return checked

    def _draw(self, checked: build.Checked, config: MkDocsConfig) -> None:
        options = self.options(config)
        pages: dict[str, str | Path]
        folder: _Folder | None
        if self.drawn:
            pages, markdown = {**self.drawn[0]}, self.drawn[1]
            folder = None
        else:
            folder = _Folder()
            paths, markdown = build.draw(checked, options, folder.write)
            pages = {path: folder.path / path for path in paths}
        ours = {*pages, *(_page(name, config) for name in markdown)}
        for name in sorted(checked.folder.others - {"index.md"}):
            if (page := _page(name, config)) in ours:
                raise PluginError(f"{checked.folder.docs_path(name)} would take the place of the page {page}, which is "
                                  "drawn from the YAML: give it another name.")  # fmt: skip
        self._pages, self._markdown, self._site = pages, markdown, Site(checked.base, options)
        self._folder = folder

    def _check(self, config: MkDocsConfig) -> build.Checked:
        try:
            root = Path(config.config_file_path).parent
            return build.check(scan(root, docs_name(root, Path(config.docs_dir))), self._cache)
        except Refused as error:
            raise PluginError(str(error)) from error

    def options(self, config: MkDocsConfig) -> Options:
        """Return what the settings say of the site."""
        return Options(
            notice=self.config.notice,
            edit=_edit(config),
            address=config.site_url or "",
            docs=docs_name(Path(config.config_file_path).parent, Path(config.docs_dir)),
            drafts=self._serving,
            policy=POLICY_WHILE_SERVING if self._serving else POLICY,
        )


def objection(config: MkDocsConfig) -> str:
    """Return why no site can be made with these settings, and what to write; "" where one can."""
    if config.use_directory_urls:
        return "Write `use_directory_urls: false` in mkdocs.yml: the site must open from a folder."
    if config.theme.name != "material":
        return (
            "Write `theme: {name: material}` in mkdocs.yml: Markdown pages stand in that frame, and no other is ready."
        )
    return ""


class _Folder:
    """
    Where pages lie from when they are drawn until MkDocs takes them; it goes when nothing holds this any more.

    They are not held in memory: those of a thousand procedures are 90 MB, drawn in several processes.
    """

    def __init__(self) -> None:
        self.path = Path(mkdtemp(prefix="benchleaf-"))
        weakref.finalize(self, shutil.rmtree, self.path, ignore_errors=True)

    def write(self, path: str, text: str) -> None:
        file = self.path / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8", newline="")


def _page(name: str, config: MkDocsConfig) -> str:
    """Return the path in the site of what *name*, below the docs folder, becomes."""
    return str(File(name, config.docs_dir, config.site_dir, use_directory_urls=False).dest_uri)


def _edit(config: MkDocsConfig) -> str:
    """Return the address of a source with MkDocs' blanks in it, such as `{path}`; "" where none is given."""
    uri = str(config.edit_uri_template or "") or (f"{config.edit_uri}{{path}}" if config.edit_uri else "")
    repository = config.repo_url or ""
    if not uri or not (repository or "://" in uri):
        return ""
    # As MkDocs does: a query or an anchor belongs to the repository's own address, all else stands below it.
    return urljoin(repository if uri.startswith(("?", "#")) else f"{repository.rstrip('/')}/", uri)
