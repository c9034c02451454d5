"""An author's Markdown: what it may become, and what it may not."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup

from benchleaf.pages.prose import prose


def test_paragraphs_lists_and_links() -> None:
    """Ordinary Markdown becomes ordinary HTML."""
    html = prose("Keep it *closed*.\n\n* one\n* two\n\n[methods](methods.html)")

    found = [element.name for element in BeautifulSoup(html, "html.parser").select("*")]
    assert ["p", "em", "ul", "li", "li", "p", "a"] == found


def test_nothing_written_is_nothing() -> None:
    """An empty note is empty, so that a page can leave its section out."""
    assert not prose("")


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "<p style='color:red'>x</p>",
        "<a href='javascript:alert(1)'>x</a>",
        "[x](javascript:alert(1))",
        "<iframe src='https://example.org'></iframe>",
        "<style>p{}</style>",
        "![x](https://example.org/spy.png)",
        "<svg><script>alert(1)</script></svg>",
        "<form action='https://example.org'><input></form>",
    ],
)
def test_nothing_that_runs_loads_or_styles(text: str) -> None:
    """What would run, load or style is dropped, however it is written."""
    page = BeautifulSoup(prose(text), "html.parser")

    assert {"p", "a"} >= {element.name for element in page.select("*")}
    assert {"rel", "title"} >= {name for element in page.select("*") for name in element.attrs}


def test_headings_stand_below_the_section() -> None:
    """A heading in a note never ranks with the page's own."""
    page = BeautifulSoup(prose("# First\n\n## Second"), "html.parser")

    assert ["h3", "h4"] == [heading.name for heading in page.select("*")]


def test_table_has_no_style() -> None:
    """A table with an aligned column comes out without a style, which the policy would refuse."""
    page = BeautifulSoup(prose("| a |\n|--:|\n| 1 |"), "html.parser")

    assert [] == page.select("[style], [align]")
    assert ["1"] == [cell.get_text() for cell in page.select("td")]


def test_outside_link_carries_nothing() -> None:
    """A link to elsewhere hands over neither the window nor where it was pressed."""
    (link,) = BeautifulSoup(prose("[x](https://example.org)"), "html.parser").select("a")

    assert ["noopener", "noreferrer"] == link["rel"]


def test_less_than_sign_stays() -> None:
    """A sign that HTML would take for its own is shown as written."""
    assert "<p>&lt;2 N·m &amp; more</p>" == prose("<2 N·m & more")
