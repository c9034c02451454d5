"""Characters that a reader cannot see but that change what is read."""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

from benchleaf.findings import Fault, Place

if TYPE_CHECKING:
    from collections.abc import Iterator

# Controls but tab and line ends, the line ends that only some readers know, and all characters that turn or
# hide the order of the text on the screen.
HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb\ufffe\uffff]"
)


def _name(character: str) -> str:
    return f"U+{ord(character):04X} {unicodedata.name(character, 'a control character').lower()}"


def _fault(place: Place, character: str) -> Fault:
    return Fault(
        "hidden-character",
        place,
        f"There is a character here that nobody sees: {_name(character)}",
        "Delete it and type the text again: what is shown and what is read must be the same.",
    )


def hidden_in_text(text: str, path: str) -> Iterator[Fault]:
    """Yield a fault for each hidden character that stands in *text* itself."""
    for number, line in enumerate(re.split(r"\r\n|\r|\n", text), start=1):
        for match in HIDDEN.finditer(line):
            column = match.start() + 1
            yield _fault(Place(path, number, column, column + 1), match.group())


def hidden_in_value(value: str, place: Place) -> Iterator[Fault]:
    """Yield one fault where *value*, written with escapes, holds hidden characters."""
    match = HIDDEN.search(value)
    if match:
        yield _fault(place, match.group())


def without_hidden(text: str) -> str:
    """Return *text* with each hidden character as a space, so that the rest can be read at the same places."""
    return HIDDEN.sub(" ", text)
