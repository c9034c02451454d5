"""An author's Markdown in, safe HTML out: the only HTML that templates take as it is."""

from __future__ import annotations

from functools import cache, lru_cache

import markdown
import nh3
from markupsafe import Markup

from benchleaf.pages.parts import NO_PROSE

# Headings of a note stand below the section's own <h2>; pictures have a field of their own, where they are checked.
TAGS = {
    *("p", "br", "ul", "ol", "li", "em", "strong", "code", "pre", "blockquote", "a", "hr", "sub", "sup"),
    *("h3", "h4", "h5", "h6", "table", "thead", "tbody", "tr", "th", "td"),
}
ATTRIBUTES = {"a": {"href", "title"}, "ol": {"start"}, "th": {"scope"}}
SCHEMES = {"http", "https", "mailto"}
FIRST_HEADING = "3"


@cache
def _converter() -> markdown.Markdown:
    """Return what converts: making one costs more than using it."""
    return markdown.Markdown(
        extensions=["sane_lists", "tables", "toc"],
        extension_configs={"toc": {"baselevel": FIRST_HEADING, "marker": ""}},
    )


# The same text stands on many pages: what the shop says for the bench is on each of them.
@lru_cache(maxsize=512)
def prose(text: str) -> Markup:
    """Return the HTML of a note: lists, tables and links, and nothing that runs, loads or styles."""
    if not text.strip():
        return NO_PROSE
    html = _converter().reset().convert(text)
    # What goes past the allow-list is dropped, not escaped; only then may templates take it as it is.
    clean = nh3.clean(html, tags=TAGS, attributes=ATTRIBUTES, url_schemes=SCHEMES, link_rel="noopener noreferrer")
    return Markup(clean)  # noqa: S704  (cleaned in the line above)
