"""What is found, on the page that it is about: which page that is, and how it reads there."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from benchleaf.source.folder import identify

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.findings import Finding

HOME = "index.html"
_MOST = 50  # on one page: beyond that a terminal is the better place
_SHARED = {
    "shop": HOME,
    "symptoms": HOME,
    "tools": "tools.html",
    "materials": "materials.html",
    "counts": "register.html",
}


def by_page(findings: Iterable[Finding], docs: str) -> dict[str, tuple[Finding, ...]]:
    """Return *findings* by the pages that they are about; the first page has them all. *docs* holds the files."""
    found: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.allowed is None:
            for page in {HOME, *pages_of(finding.place.path.removeprefix(f"{docs}/"))}:
                found.setdefault(page, []).append(finding)
    return {page: tuple(several) for page, several in found.items()}


def pages_of(path: str) -> Iterator[str]:
    """Yield the pages that are about the file *path*, given below the docs folder."""
    kind, device, name = identify(path)
    match kind:
        case "procedure":
            yield from (f"{folder}/{device}/{name}.html" for folder in ("repairs", "bench"))
        case "device":
            yield f"devices/{name}.html"
        case "diagnosis":
            yield from (f"diagnosis/{device}/{name}.html", f"symptoms/{name}.html")
        case "":
            yield HOME
        case _:
            yield _SHARED[kind]


def told(findings: Iterable[Finding], root: str, trouble: str = "") -> str:
    """Return what a page shows of *findings*, with links to their rules from *root*; *trouble* is what stops us all."""
    several = list(findings)
    if not (several or trouble):
        return ""
    head = f"<p>{escape(trouble)} The last good pages are shown.</p>" if trouble else ""
    if several:
        rows = "".join(_row(finding, root) for finding in several[:_MOST])
        more = len(several) - _MOST
        rows += f"<li>... and {more} more: the terminal has them all.</li>" if more > 0 else ""
        head += f"<p>{len(several)} found here</p><ul>{rows}</ul>"
    return f'<aside class="found" aria-label="What was found">{head}</aside>'


def _row(finding: Finding, root: str) -> str:
    rule = f'<a href="{root}rules/{escape(finding.rule)}.html">{escape(finding.rule)}</a>'
    on = f" ({escape(', '.join(finding.variants))})" if finding.variants else ""
    place, message = escape(str(finding.place)), escape(finding.message)
    return f"<li><code>{place}</code> {finding.level} {rule}: {message}{on}<br>{escape(finding.help)}</li>"
