"""Whatever text an author writes, in whatever field: it is shown as text, and no page's structure changes by it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from benchleaf import build
from benchleaf.model.build import Document
from benchleaf.model.build import build as model
from benchleaf.pages.compose.site import Options, Site
from benchleaf.pages.whole import whole
from benchleaf.source.nodes import Entry, Scalar, Sequence, Table
from tests.shape.reading import EXAMPLES, document

if TYPE_CHECKING:
    from benchleaf.source.nodes import Node

KINDS = ("device", "diagnosis", "materials", "procedure", "shop", "symptoms", "tools")
# The fields of the format that hold plain text which a page shows.
TEXTS = frozenset({
    "aftercare", "ask", "because", "customers_say", "do", "drive", "grade", "keeps_out", "look", "name", "paired",
    "shield", "stop", "tell_by", "text", "thread", "title", "why",
})  # fmt: skip
SENTINEL = "Sentinel"
TEXTS_TO_TRY = {
    "markup": "<b onclick=x>&amp;\"'</p></td></script>{{ 7*7 }}{% x %}",
    "end of a comment": "--> <!-- ]]>",
    "emoji": "\U0001f525\U0001f469\u200d\U0001f527",
    "right to left": "\u05d0\u05d1\u05d2 \u0627\u0644",
    "a very long word": "x" * 5000,
    "Markdown": "*stop* [a](b) # no\n\n- list",
}


def written(node: Node, text: str, key: str = "") -> Node:
    """Return *node* with *text* in every field that holds plain text."""
    if isinstance(node, Scalar):
        return Scalar(text, text, plain=False, place=node.place) if key in TEXTS else node
    if isinstance(node, Sequence):
        return Sequence(tuple(written(item, text, key) for item in node.items), node.place)
    # `paired` and the like hold their texts by variant.
    entries = ((entry, key if key in TEXTS else entry.key.text) for entry in node.entries)
    return Table(tuple(Entry(entry.key, written(entry.value, text, name)) for entry, name in entries), node.place)


def drawn(text: str) -> dict[str, str]:
    """Return the pages of a base that uses every field, with *text* wherever text may stand."""
    documents = []
    for kind in KINDS:
        root = written(document((EXAMPLES / kind / "good-every-field.yml").read_text("utf-8")), text)
        assert isinstance(root, Table)
        name = {"device": "godwit", "diagnosis": "no-charge"}.get(kind, "example")
        documents.append(Document(kind, "godwit", name, f"procedures/{kind}.yml", root))
    site = Site(model(documents, (), frozenset()), Options(drafts=True))
    return pages_of(site)


def pages_of(site: Site) -> dict[str, str]:
    """Return the text of each page of *site* by its path."""
    kept: dict[str, str] = {}
    whole(site, build.page_drawer(), {}, kept.__setitem__)
    return kept


def skeleton(page: str) -> list[str]:
    """Return the elements of *page* in their order, with the names of their attributes."""
    found = BeautifulSoup(page, "html.parser").find_all(name=True)
    return [f"{element.name} {' '.join(sorted(element.attrs))}" for element in found]


def showing(pages: dict[str, str], word: str) -> list[str]:
    """Return the paths of the pages that show *word* to a reader."""
    texts = {path: BeautifulSoup(page, "html.parser").get_text() for path, page in pages.items()}
    return [path for path, text in texts.items() if path.endswith(".html") and word in text]


@pytest.fixture(scope="module")
def plain() -> dict[str, str]:
    """Return the pages with an ordinary word for every text."""
    return drawn(SENTINEL)


@pytest.mark.parametrize("text", TEXTS_TO_TRY.values(), ids=list(TEXTS_TO_TRY))
def test_structure_is_the_same(plain: dict[str, str], text: str) -> None:
    """The pages have the same elements and attributes, whatever their texts say."""
    pages = drawn(text)

    assert set(plain) == set(pages)
    assert [] == [path for path in pages if path.endswith(".html") and skeleton(plain[path]) != skeleton(pages[path])]


@pytest.mark.parametrize("text", TEXTS_TO_TRY.values(), ids=list(TEXTS_TO_TRY))
def test_text_is_shown_as_written(plain: dict[str, str], text: str) -> None:
    """Every text stands, letter by letter, on the pages on which an ordinary word would."""
    assert showing(plain, SENTINEL) == showing(drawn(text), text)


@pytest.mark.parametrize("text", TEXTS_TO_TRY.values(), ids=list(TEXTS_TO_TRY))
def test_search_index_holds(text: str) -> None:
    """The index of the search stays one line of data that no text can end or run."""
    script = drawn(text)["assets/search-index.js"]

    data = json.loads(script.removeprefix("window.benchleafIndex=").removesuffix(";\n"))
    assert data["count"] > 0
    assert "<" not in script


def test_names_at_their_limits() -> None:
    """A name of one letter and one of two hundred make pages and anchors like any other."""
    long = "-".join(["a1"] * 67)
    texts = {
        ("device", long, long): f"title: Long\naccess: {{{long}: {{opening: [{{do: Open it.}}], closing: []}}}}\n",
        (
            "procedure",
            long,
            "a",
        ): f"title: Short\nstatus: approved\naccess: {long}\nsteps: [{{id: {long}, do: Look on.}}]\n",
    }
    documents = [
        Document(kind, device, name, "procedures/x.yml", document(text)) for (kind, device, name), text in texts.items()
    ]

    pages = pages_of(Site(model(documents, (), frozenset())))

    page = BeautifulSoup(pages[f"repairs/{long}/a.html"], "html.parser")
    assert [long] == [step["data-step"] for step in page.select(f"#step-{long}")]
    assert f"devices/{long}.html" in pages
