"""What the preview serves: findings on their pages, news for those that changed, nothing from outside its folder."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from benchleaf.findings import Finding, Level, Place
from benchleaf.preview import notes
from benchleaf.preview.screens import Screens

if TYPE_CHECKING:
    from pathlib import Path

PAGE = "<!doctype html><html><head><title>x</title></head><body class=bench><main>Text</main></body></html>"


def finding(path: str, message: str = "Too hot", allowed: str | None = None) -> Finding:
    """Return a finding in line 7 of *path*."""
    return Finding("overheated-part", Level.ERROR, Place(path, 7, 3, 9), message, "Write less.", ("g1",), allowed)


@pytest.mark.parametrize(
    ("path", "pages"),
    [
        ("repairs/godwit/look.yml", {"index.html", "repairs/godwit/look.html", "bench/godwit/look.html"}),
        ("devices/godwit.yml", {"index.html", "devices/godwit.html"}),
        ("diagnosis/godwit/no-charge.yml",
         {"index.html", "diagnosis/godwit/no-charge.html", "symptoms/no-charge.html"}),
        ("tools.yml", {"index.html", "tools.html"}),
        ("materials.yml", {"index.html", "materials.html"}),
        ("shop.yml", {"index.html"}),
        ("somewhere/else.yml", {"index.html"}),
    ],
)  # fmt: skip
def test_page_of_a_finding(path: str, pages: set[str]) -> None:
    """A finding stands on the page that its file is drawn as, and on the first page; an allowed one on none."""
    assert pages == set(notes.by_page([finding(f"procedures/{path}")], "procedures"))
    assert {} == notes.by_page([finding(f"procedures/{path}", allowed="So.")], "procedures")


def test_finding_with_its_line(tmp_path: Path) -> None:
    """The page shows the place with its line, the message and what to write; text stays text."""
    screens = Screens(tmp_path)
    screens.show({"repairs/godwit/look.html": PAGE}, {"repairs/godwit/look.html": (finding("a.yml", "<b>&"),)})

    page = (screens.page("repairs/godwit/look.html") or b"").decode()

    assert "<code>a.yml:7:3</code> error" in page
    assert '<a href="../../rules/overheated-part.html">overheated-part</a>: &lt;b&gt;&amp; (g1)<br>Write less.' in page
    assert page.index("Write less.") < page.index("<main>")


def test_page_that_was_never_drawn(tmp_path: Path) -> None:
    """A file that never fitted has no page; what was found in it stands there all the same."""
    screens = Screens(tmp_path)
    screens.show({}, {"repairs/godwit/look.html": (finding("a.yml"),)})

    assert b"Too hot" in (screens.page("repairs/godwit/look.html") or b"")
    assert screens.page("repairs/godwit/other.html") is None


def test_news(tmp_path: Path) -> None:
    """A page is news when it, or what is found on it, is another; trouble, and its end, is news for every page."""
    screens = Screens(tmp_path)
    seen = [[screens.news(page) for page in ("a.html", "b.html")]]
    for pages, found in (
        ({"a.html": "1", "b.html": "1"}, {}),
        ({"a.html": "2", "b.html": "1"}, {}),
        ({"a.html": "2", "b.html": "1"}, {"b.html": (finding("b.yml"),)}),
    ):
        screens.show(pages, found)
        seen.append([screens.news(page) for page in ("a.html", "b.html")])
    screens.show_trouble("No way.")
    seen.append([screens.news(page) for page in ("a.html", "b.html")])
    screens.show({"a.html": "2", "b.html": "1"}, {"b.html": (finding("b.yml"),)})
    seen.append([screens.news(page) for page in ("a.html", "b.html")])

    differs = [[a != b for a, b in zip(one, other, strict=True)] for one, other in pairwise(seen)]
    assert [[True, True], [True, False], [False, True], [True, True], [True, True]] == differs
    assert seen[-1][0] == screens.wait("a.html", "something older", 0.0)


def test_nothing_from_outside(tmp_path: Path) -> None:
    """What lies beside the folder is not served, whatever way is asked for."""
    (tmp_path / "site").mkdir()
    (tmp_path / "secret.txt").write_text("secret", encoding="utf-8")
    (tmp_path / "site" / "style.css").write_text("p {}", encoding="utf-8")
    screens = Screens(tmp_path / "site")

    assert b"p {}" == screens.page("style.css")
    assert screens.page("../secret.txt") is None
    assert screens.page(str(tmp_path / "secret.txt")) is None
