"""Small values that every part of the model shares: names and texts that remember where they stand."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.findings import Place


@dataclass(frozen=True, slots=True)
class Said:
    """A text as written, or the name of something, with its place. The place takes no part in equality."""

    text: str
    place: Place = field(compare=False)

    def __str__(self) -> str:
        """Return the text alone."""
        return self.text


@dataclass(frozen=True, slots=True)
class OnlyFor:
    """The variants that an `only` names, as written."""

    names: tuple[Said, ...]

    def holds(self, variant: str) -> bool:
        """Whether *variant* is among them."""
        return any(name.text == variant for name in self.names)


def applies(only: OnlyFor | None, variant: str) -> bool:
    """Whether a thing with *only* exists for *variant*: without an `only` it does."""
    return only is None or only.holds(variant)
