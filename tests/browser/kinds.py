"""The kinds of page that the site has: each must hold under every view of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

KINDS = {
    "home": "index.html",
    "symptom": "symptoms/*.html",
    "diagnosis": "diagnosis/*/*.html",
    "procedures": "procedures.html",
    "procedure": "repairs/*/*.html",
    "bench": "bench/*/*.html",
    "devices": "devices.html",
    "device": "devices/*.html",
    "materials": "materials.html",
    "material": "materials/*.html",
    "tools": "tools.html",
    "register": "register.html",
    "methods": "methods.html",
    "rule": "rules/*.html",
    "emergency": "stop-and-make-safe.html",
    "note": "house-rules.html",
}
# Written in Markdown, so the theme draws the frame around them.
FROM_MARKDOWN = ("rule", "emergency", "note")


def largest(site: Path, kind: str) -> str:
    """Return the path, below *site*, of the page of *kind* with the most to go wrong."""
    return max(site.glob(KINDS[kind]), key=lambda path: (path.stat().st_size, path)).relative_to(site).as_posix()
