"""A comparison as Markdown, to be posted under a merge request."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Way
from benchleaf.report.compare_text import head, sentence

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.derive.compare.change import Change
    from benchleaf.derive.compare.comparison import Comparison

_HEADINGS = {Way.LOOSER: "Looser", Way.STRICTER: "Stricter", Way.OTHER: "Changed otherwise"}
_SPECIAL = re.compile(r"([\\`*_{}\[\]<>()#+!|~&@-])")


def render(comparison: Comparison) -> str:
    """Return a heading, the sentence, the changes under which way they go, and the procedures with their revisions."""
    return "\n".join(_lines(comparison)) + "\n"


def _lines(comparison: Comparison) -> Iterator[str]:
    yield from ("## What this change does to safety", "", f"{escaped(sentence(comparison))}.")
    for way, heading in _HEADINGS.items():
        changes = comparison.of(way)
        if changes:
            yield from ("", f"### {heading}", "", "| Where | What | Procedures |", "| --- | --- | --- |")
            yield from (_row(change) for change in changes)
    if comparison.procedures:
        yield from ("", "### Procedures", "")
        for one in comparison.procedures:
            yield f"- {escaped(head(one))}" + (" **Raise its revision.**" if one.unraised else "")


def _row(change: Change) -> str:
    where = f"{escaped(change.place.path)}:{change.place.line}"
    return f"| {where} | {escaped(change.message)} | {', '.join(map(escaped, change.procedures))} |"


def escaped(text: str) -> str:
    """Return *text* so that Markdown shows it as it is: nothing that an author wrote may become markup or a mention."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))
