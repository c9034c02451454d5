"""Words as a page wants them: capitals, hazards, numbers that stay with their units."""

from __future__ import annotations

import re

_BEFORE_UNIT = re.compile(r"(?<=[0-9]) (?=[°%A-Zµ]|[a-z]{1,3}\b)")


def held(text: str) -> str:
    """Return *text* so that no line ends between a number and its unit."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def tied(text: str) -> str:
    """Return a sentence in which no line ends between a number and its unit."""
    return _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text)


def hazard_of(name: str) -> str:
    """Return a hazard as a page names it."""
    return {"esd": "Static"}.get(name, capital(name.replace("-", " ")))


def capital(text: str) -> str:
    """Return *text* with its first letter as a capital."""
    # Not `capitalize`, which would write °C and mV in small letters.
    return text[:1].upper() + text[1:]
