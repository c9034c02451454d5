"""What can be found besides procedures and complaints: tools, methods, rules, lists, and pages written as Markdown."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.pages.compose.methods.view import PATH as METHODS
from benchleaf.pages.compose.methods.view import methods
from benchleaf.pages.compose.rules import finds
from benchleaf.pages.search import SearchEntry

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.pages.compose.site import Site

_RULES = "rules/"
_HEADING = re.compile(r"^(#{1,3}) +(.+?)[ #]*$", re.MULTILINE)
_RULES_LIST = f"{_RULES}index.html"
_HOME = "index.html"
# What one looks for in the lists that stand in the head of every page.
_HOLDS = {
    "devices.html": "all devices, variants and models",
    "procedures.html": "all procedures with their levels and times",
    "materials.html": "all materials and supplies",
    "tools.html": "all tools and instruments",
    METHODS: "how each number is computed, formula and source",
    _RULES_LIST: "all rules, what is checked and found",
    "register.html": "number, revision, status, next review, overdue, due, allowed findings",
}


def tools(site: Site) -> Iterator[SearchEntry]:
    """Yield the tools, each by its title and what it is for."""
    for tool in site.base.tools.values():
        told = " ".join([tool.kind, "range" if tool.range else "", *tool.drives, *tool.measures])
        yield SearchEntry("tool", tool.title.text, f"tools.html#tool-{tool.id}",
                          words=(("part", told), ("step", tool.notes or "")))  # fmt: skip


def references(site: Site) -> Iterator[SearchEntry]:
    """Yield the lists of the site and its methods."""
    for item in site.shell(_HOME, "").nav:
        if item.href != _HOME:
            yield SearchEntry("page", item.text, item.href, words=(("part", _HOLDS.get(item.href, "")),))
    for method in methods():
        yield SearchEntry("method", method.title, f"{METHODS}#{method.anchor}", words=(("part", method.gives),))


def written(markdown: Mapping[str, str]) -> Iterator[SearchEntry]:
    """Yield the pages that are written as *markdown*, by path below the docs folder: rules, and those of the house."""
    for path, text in markdown.items():
        title, *headings = [found[2].strip() for found in _HEADING.finditer(text)] or [_named(path)]
        href = f"{path.removesuffix('.md')}.html"
        if not path.startswith(_RULES):
            yield SearchEntry("page", title, href, says=tuple(headings), words=(("step", text),))
        elif href != _RULES_LIST:
            yield SearchEntry("rule", title, href, words=(("part", "rule"), ("step", finds(text))))


def _named(path: str) -> str:
    """Return the title of a page without a heading: its name."""
    return path.removesuffix(".md").rpartition("/")[2].replace("-", " ").capitalize()
