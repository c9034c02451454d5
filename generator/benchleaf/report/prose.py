"""A rule's page, which is Markdown, as plain sentences."""

from __future__ import annotations

import re

_FENCE = re.compile(r"^```[a-z]*\n", re.MULTILINE)
_MARKS = re.compile(r"^#+ |\*\*|`", re.MULTILINE)
_STRESSED = re.compile(r"\*(\w[^*`\n]*)\*")
_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z`])")


def first_section(markdown: str) -> str:
    """Return what stands under the first heading of the second rank, without marks."""
    _, _, after = markdown.partition("\n## ")
    return without_marks(after.partition("\n")[2].partition("\n## ")[0])


def first_sentence(markdown: str) -> str:
    """Return the first sentence under the first heading of the second rank, on one line; what leads to a list ends."""
    paragraph = first_section(markdown).split("\n\n")[0]
    sentence = _SENTENCE.split(" ".join(paragraph.split()))[0]
    if sentence.endswith((".", "!", "?")):
        return sentence
    return f"{sentence[:-1]}." if sentence.endswith(":") else f"{sentence} …"


def without_marks(markdown: str) -> str:
    """Return *markdown* without the signs of headings, of emphasis and of code."""
    return _MARKS.sub("", _STRESSED.sub(r"\1", _FENCE.sub("", markdown))).strip()
