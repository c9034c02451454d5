"""A browser that looks at the built site, from a folder and from a server, and tells of all that goes wrong."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import sync_playwright

from tests.conftest import tool

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Request, Response

# The sandbox needs rights that root in a container lacks; the rest keeps Chromium from calling home.
ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark each test of this folder as one that needs a browser."""
    here = Path(__file__).parent
    for item in items:
        if item.path.is_relative_to(here):
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return the distribution's Chromium, headless."""
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=tool("chromium", "chromium"), args=ARGUMENTS, chromium_sandbox=False
        )
        yield chromium
        chromium.close()


class Silent(SimpleHTTPRequestHandler):
    """A server of files that does not tell what it serves."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the name is the base class's
        """Say nothing: a test speaks when it fails."""


@pytest.fixture(scope="session")
def server(demo_site: Path) -> Iterator[str]:
    """Return the address of a small server of the demonstration on this machine."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Silent, directory=str(demo_site))) as http:
        thread = threading.Thread(target=http.serve_forever, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{http.server_port}/"
        http.shutdown()
        thread.join()


@pytest.fixture(params=["file", "http"])
def address(request: pytest.FixtureRequest, demo_site: Path) -> str:
    """Return where the site's folder is found: once in the file system, once on a server."""
    if request.param == "file":
        return f"{demo_site.as_uri()}/"
    found: str = request.getfixturevalue("server")
    return found


@dataclass
class Watch:
    """All that went wrong while pages were open, as sentences."""

    site: str
    trouble: list[str] = field(default_factory=list)

    def over(self, context: BrowserContext) -> None:
        """Listen to each page of *context*, now and later."""
        context.on("request", self._request)
        context.on("requestfailed", self._failed)
        context.on("response", self._response)
        context.on("console", self._console)
        context.on("weberror", lambda error: self.trouble.append(f"script error: {error.error}"))

    def _request(self, request: Request) -> None:
        if not request.url.startswith((self.site, "data:")):
            self.trouble.append(f"request that leaves the site: {request.url}")

    def _failed(self, request: Request) -> None:
        # A page that is left while its icon is still on the way gives the icon up: nothing is wrong with that.
        if request.failure != "net::ERR_ABORTED":
            self.trouble.append(f"not loaded: {request.url}: {request.failure}")

    def _response(self, response: Response) -> None:
        if response.status >= 400:
            self.trouble.append(f"{response.status}: {response.url}")

    def _console(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"}:
            self.trouble.append(f"console {message.type}: {message.text}")


@pytest.fixture
def watched(browser: Browser) -> Iterator[Callable[..., tuple[Page, Watch]]]:
    """Return a way to open an empty page under watch, with options of a browser context; nothing may go wrong."""
    opened: list[tuple[BrowserContext, Watch]] = []

    def open_page(site: str, **options: object) -> tuple[Page, Watch]:
        context = browser.new_context(**options)  # type: ignore[arg-type]  # the options are Playwright's own
        context.set_default_timeout(10_000)
        watch = Watch(site)
        watch.over(context)
        opened.append((context, watch))
        return context.new_page(), watch

    yield open_page
    for context, _ in opened:
        context.close()
    assert [] == [line for _, watch in opened for line in watch.trouble]


@pytest.fixture
def page(watched: Callable[..., tuple[Page, Watch]], address: str) -> Page:
    """Return an empty page, 1280 wide, that may go to the site at `address` and nowhere else."""
    return watched(address, viewport={"width": 1280, "height": 900})[0]
