"""The MkDocs plugin: each hook is one call to what is tested elsewhere."""

from __future__ import annotations

from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, Literal

from mkdocs.config import base, config_options
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files

from benchleaf import build
from benchleaf.findings import Refused
from benchleaf.pages.compose.site import Options, Site
from benchleaf.pages.parts import POLICY, POLICY_WHILE_SERVING
from benchleaf.report import text
from benchleaf.source import packaged
from benchleaf.source.folder import YAML, docs_name, scan

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
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
        self._cache = build.Cache()
        self._serving = False
        self._pages: dict[str, str] = {}
        self._markdown: dict[str, str] = {}
        self._site: Site | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether this is a preview; a partial build is refused, for lists and search would be stale."""
        if dirty:
            raise PluginError("Benchleaf does not build with --dirty: lists and search would keep what is gone.")
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Put our templates before the theme's."""
        if config.use_directory_urls:
            raise PluginError("Write `use_directory_urls: false` in mkdocs.yml: the site must open from a folder.")
        config.theme.dirs.insert(0, str(packaged.overrides()))
        config.theme.static_templates -= _NOT_OURS
        return config

    # Not later: after this hook MkDocs empties the site folder, and a failing check would take the old site down.
    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Check the knowledge base and draw its pages; a finding that stops leaves the site as it is."""
        checked, self.ready = self.ready or self._check(config), None
        options = self._options(config)
        if checked.stops:
            report = checked.report()
            found = f"\n{text.render(report)}{report.sentence}"
            if not (self._serving and self._pages):
                raise PluginError(found)
            # One who writes sees what is wrong and goes on; the pages of the last sound state stay.
            log.error("%s\nThe last good pages are shown.", found)
            return
        self._pages, self._markdown = build.draw(checked, options)
        self._site = Site(checked.base, options)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Hand our pages to MkDocs as they are; no YAML is ever copied to the site."""
        for file in list(files):
            if PurePosixPath(file.src_uri.lower()).suffix in YAML or file.src_uri == "index.md":
                files.remove(file)
        for path, content in {**self._pages, **self._markdown}.items():
            made = File.generated(config, path, content=content)
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
            context["benchleaf"] = shell  # type: ignore[typeddict-unknown-key]
        return context

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Any) -> LiveReloadServer:  # noqa: ANN401
        """Draw anew when a template or a schema changes too."""
        server.watch(str(packaged.overrides()))
        server.watch(str(packaged.schema_folder()))
        return server

    def _check(self, config: MkDocsConfig) -> build.Checked:
        try:
            root = Path(config.config_file_path).parent
            return build.check(scan(root, docs_name(root, Path(config.docs_dir))), self._cache)
        except Refused as error:
            raise PluginError(str(error)) from error

    def _options(self, config: MkDocsConfig) -> Options:
        return Options(
            notice=self.config.notice,
            edit=_edit(config),
            docs=docs_name(Path(config.config_file_path).parent, Path(config.docs_dir)),
            drafts=self._serving,
            policy=POLICY_WHILE_SERVING if self._serving else POLICY,
        )


def _edit(config: MkDocsConfig) -> str:
    """Return the address of a source in which `{path}` is its path below the docs folder; "" where none is given."""
    if config.edit_uri_template:
        return str(config.edit_uri_template)
    uri = config.edit_uri or ""
    if "://" not in uri:
        if not config.repo_url:
            return ""
        uri = f"{config.repo_url.rstrip('/')}/{uri}"
    return uri.rstrip("/") + "/{path}"
