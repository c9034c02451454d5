"""Words as a page wants them: capitals, hazards, numbers that stay with their units."""

from __future__ import annotations


def held(text: str) -> str:
    """Return *text* so that no line ends between a number and its unit."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def hazard_of(name: str) -> str:
    """Return a hazard as a page names it."""
    return {"esd": "Static"}.get(name, capital(name.replace("-", " ")))


def capital(text: str) -> str:
    """Return *text* with its first letter as a capital."""
    # Not `capitalize`, which would write °C and mV in small letters.
    return text[:1].upper() + text[1:]
