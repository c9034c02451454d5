"""
Sentences, and how many words they have.

Words are counted as ASD-STE100 Issue 9 (15 January 2025) counts them, rules 8.4 to 8.7: a number, a number with its
unit, an abbreviation, an identifier, quoted text and text in brackets are one word each, and so is a word with hyphens;
what stands in brackets is a sentence of its own besides. (Two summaries by others, which agree; the standard itself was
not seen.)
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.checks.text.quantities import found

if TYPE_CHECKING:
    from collections.abc import Iterator

_SHORT = ("approx", "e.g", "i.e", "cf", "fig", "no", "nos", "incl", "max", "min", "vs", "a.m", "p.m", "ca", "dia")
_END = re.compile(r"[.!?]+[\"'”’)\]]*(?=\s)")
_QUOTED = re.compile(
    r"\"[^\"]*\"|“[^“”]*”|„[^„“”]*[“”]|«[^«»]*»|`[^`]*`|(?<!\w)'[^']*'(?!\w)|(?<!\w)\u2018[^\u2018\u2019]*\u2019(?!\w)"
)
_BRACKETS = re.compile(r"\(([^()]*)\)")
_OPENS = re.compile(r"[(\"'`“”„«\u2018\u2019]")
_WORD = re.compile(r"\S*\w\S*")


def sentences(text: str) -> tuple[str, ...]:
    """Return the sentences of *text*. A point after an abbreviation, or before a small letter, ends none."""
    ends = [match.end() for match in _END.finditer(text) if _is_end(text, match)]
    parts = [text[start:end].strip() for start, end in zip([0, *ends], [*ends, len(text)], strict=True)]
    return tuple(part for part in parts if part)


def _is_end(text: str, match: re.Match[str]) -> bool:
    rest = text[match.end() :].lstrip()
    if text[match.start()] != ".":
        return True
    before = text[: match.start()].rsplit(maxsplit=1)
    return not rest[:1].islower() and not (before and before[-1].lower().strip("(") in _SHORT and rest[:1].isdigit())


def words(sentence: str) -> int:
    """Return how many words *sentence* has; brackets are one."""
    return len(_WORD.findall(_joined(_BRACKETS.sub(" bracket ", _QUOTED.sub(" quotation ", sentence)))))


def _joined(text: str) -> str:
    """Return *text* with each quantity as one word."""
    for one in reversed(found(text)):
        text = f"{text[: one.start]} quantity {text[one.end :]}"
    return text


def may_be_over(text: str, most: int) -> bool:
    """Say whether a sentence of *text* can have more than *most* words: quick, and right where it says no."""
    # Brackets and quotations become words of their own, which can part what is one word between spaces.
    return len(text.split()) + 2 * len(_OPENS.findall(text)) > most


def longest(text: str) -> int:
    """Return the words of the longest sentence of *text*, those in brackets counted for themselves."""
    return max((words(sentence) for sentence in _all(text)), default=0)


def _all(text: str) -> Iterator[str]:
    for sentence in sentences(text):
        yield sentence
        yield from (match[1] for match in _BRACKETS.finditer(sentence))


def unquoted(text: str) -> str:
    """Return *text* with all quotations and brackets, which are no instruction, as one word each."""
    return _BRACKETS.sub(" so ", _QUOTED.sub(" name ", text)) if _OPENS.search(text) else text
