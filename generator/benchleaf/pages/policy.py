"""The Content-Security-Policy of pages that the theme draws: what stands inline in them, named by its hash."""

from __future__ import annotations

import base64
import hashlib
import re

MARKER = "__INLINE_HASHES__"
_INLINE = {
    "script-src": re.compile(r"<script(?![^>]*\bsrc=)(?![^>]*\btype=[\"']?application/json)[^>]*>(.*?)</script>", re.DOTALL),
    "style-src": re.compile(r"<style[^>]*>(.*?)</style>", re.DOTALL),
}


def with_hashes(html: str) -> str:
    """Return *html* with its policy's markers replaced by the hashes of its own inline scripts and styles."""
    for source, pattern in _INLINE.items():
        hashes = sorted({f"'sha256-{_digest(piece)}'" for piece in pattern.findall(html)})
        html = re.sub(rf"({source} [^;\"]*?) ?{MARKER}", lambda found: " ".join([found[1], *hashes]), html, count=1)  # noqa: B023
    return html


def _digest(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
