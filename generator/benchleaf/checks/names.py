"""The nearest name, and how a message offers it."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

FEW = 6  # More names than these are not listed in a message.


def nearest(name: str, names: Iterable[str]) -> str | None:
    """Return the one of *names* that *name* seems to mean, or None where none is like it."""
    written = name.strip().lower().replace("_", "-").replace(" ", "-")
    return next(iter(get_close_matches(written, list(names), n=1)), None)


def did_you_mean(name: str, names: Iterable[str], otherwise: str = "") -> str:
    """Return advice for *name*: the nearest of *names*, else all of them where they are few; then the other way out."""
    known = list(dict.fromkeys(names))
    near = nearest(name, known)
    if near:
        said = f"Did you mean `{near}`?"
    elif known and len(known) <= FEW:
        said = f"What there is: {listed([f'`{other}`' for other in known])}."
    else:
        return otherwise[:1].upper() + otherwise[1:]
    return f"{said} Or {otherwise}" if otherwise else said


def listed(words: Iterable[str], last: str = "and") -> str:
    """Return *words* as a sentence lists them."""
    several = list(words)
    return f"{', '.join(several[:-1])} {last} {several[-1]}" if len(several) > 1 else "".join(several)


def one(kind: str) -> str:
    """Return *kind* with its article."""
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"
