"""Each link of the built site leads somewhere, and each page is led to."""

from __future__ import annotations

from pathlib import PurePosixPath
from posixpath import normpath
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

import pytest
from bs4 import BeautifulSoup

if TYPE_CHECKING:
    from pathlib import Path

# Where the browser is sent, and what it must fetch to show a page.
ATTRIBUTES = ("href", "src", "action", "poster")


class Site:
    """The built pages: what each links to, and the names that can be linked to in each."""

    def __init__(self, folder: Path) -> None:
        """Read every page below *folder*."""
        self.folder = folder
        self.links: list[tuple[str, str]] = []
        self.fetched: list[tuple[str, str]] = []
        self.anchors: dict[str, set[str]] = {}
        for path in sorted(folder.rglob("*.html")):
            page = path.relative_to(folder).as_posix()
            document = BeautifulSoup(path.read_bytes(), "html.parser")
            self.anchors[page] = {str(element["id"]) for element in document.select("[id]")}
            for name in ATTRIBUTES:
                self.links += [(page, str(element[name])) for element in document.select(f"[{name}]")]
                # What is not behind a link that a person may press, the browser asks for by itself.
                self.fetched += [(page, str(element[name])) for element in document.select(f"[{name}]:not(a)")]

    def target(self, page: str, link: str) -> tuple[str, str]:
        """Return the file that *link* on *page* names, below the site's folder, and the place in it."""
        parts = urlsplit(link)
        path = normpath(PurePosixPath(page).parent / unquote(parts.path)) if parts.path else page
        return path, unquote(parts.fragment)

    def inside(self) -> list[tuple[str, str]]:
        """Return the links that stay in the site: the page they stand on, and what they say."""
        return [(page, link) for page, link in self.links if not urlsplit(link).scheme]


@pytest.fixture(scope="session")
def site(demo_site: Path) -> Site:
    """Return the demonstration's pages, read."""
    return Site(demo_site)


def test_each_link_names_a_file(site: Site) -> None:
    """Every link and source within the site names a file that is there."""
    broken = [
        f"{page}: {link}" for page, link in site.inside() if not (site.folder / site.target(page, link)[0]).is_file()
    ]

    assert [] == sorted(set(broken))


def test_each_fragment_names_a_place(site: Site) -> None:
    """Every link to a place in a page names a place that is there."""
    targets = [(page, link, *site.target(page, link)) for page, link in site.inside()]

    broken = [
        f"{page}: {link}"
        for page, link, path, place in targets
        if place and path in site.anchors and place not in site.anchors[path]
    ]

    assert [] == sorted(set(broken))


def test_nothing_is_fetched_from_outside(site: Site) -> None:
    """Only links that a person presses lead out: to a source that is quoted, or to a page's own source."""
    outside = [f"{page}: {link}" for page, link in site.fetched if urlsplit(link).scheme or link.startswith("//")]

    assert [] == sorted(set(outside))


def test_no_link_begins_at_a_server(site: Site) -> None:
    """No link within the site begins at a server's root, so the site works in any folder."""
    rooted = [f"{page}: {link}" for page, link in site.links if link.startswith("/")]

    assert [] == sorted(set(rooted))


def test_each_page_is_led_to(site: Site) -> None:
    """Every page can be reached from the first by links."""
    leads: dict[str, set[str]] = {page: set() for page in site.anchors}
    for page, link in site.inside():
        leads[page].add(site.target(page, link)[0])
    reached, ahead = set[str](), {"index.html"}
    while ahead:
        reached |= ahead
        ahead = {target for page in ahead for target in leads[page] if target in leads} - reached

    assert [] == sorted(set(site.anchors) - reached)


def test_no_source_is_published(site: Site) -> None:
    """No YAML file is ever copied to the site."""
    assert [] == [path for pattern in ("*.yml", "*.yaml") for path in site.folder.rglob(pattern)]
