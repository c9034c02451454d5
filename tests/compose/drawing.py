"""Pages of the small knowledge base with a change, parsed, and what stands in their columns."""

from __future__ import annotations

from bs4 import BeautifulSoup, Tag

from benchleaf.pages.compose.site import Options
from tests import make

EXAMPLE = "repairs/wader/example.html"
WADER = f"{make.DOCS}/devices/wader.yml"
SHOP = f"{make.DOCS}/shop.yml"


def drawn(changes: dict[str, str | bytes | None], *, drafts: bool = True, edit: str = "") -> dict[str, BeautifulSoup]:
    """
    Return the pages of the small knowledge base with *changes*, parsed; drafts are shown where nothing is said.

    Numbers stand before their units with a plain space, as a test writes them.
    """
    pages = make.pages(make.check(changes), Options(drafts=drafts, edit=edit))
    return {
        path: BeautifulSoup(text.replace("\N{NO-BREAK SPACE}", " "), "html.parser")
        for path, text in pages.items()
        if path.endswith(".html")
    }


def sheet(steps: str, head: str = "access: open", **changes: str) -> BeautifulSoup:
    """Return the page of a draft with *steps*; *changes* are the texts of device or shop."""
    others = {WADER if name == "device" else SHOP: text for name, text in changes.items()}
    return drawn({**others, make.EXAMPLE: f"title: Example\n{head}\nsteps:\n{steps}\n"})[EXAMPLE]


def column(page: BeautifulSoup, step: str, name: str) -> list[str]:
    """Return the paragraphs of one column (do, lim or after) of *step*, each in one line."""
    cells = page.select(f'[data-step="{step}"] td.{name} p')
    return [" ".join(cell.get_text(" ").split()) for cell in cells]


def need(page: BeautifulSoup, label: str) -> list[str]:
    """Return the lines of one column of the preliminary requirements."""
    heads = [head for head in page.select(".needs h3") if head.get_text() == label]
    lines = heads[0].parent.select("li") if isinstance(heads[0].parent, Tag) else []
    return [" ".join(line.get_text(" ").split()) for line in lines]
