"""What is wrong, where, and what to write: the values that every stage hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Level(StrEnum):
    """How much a finding weighs: an error stops publication."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something is written: lines and columns from 1, in code points; `end` is the first column after it."""

    path: str
    line: int
    column: int
    end: int

    def __str__(self) -> str:
        """Return the place as editors and terminals make it clickable."""
        return f"{self.path}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Fault:
    """What a stage saw: the rule's name, the place, what is there and what to write. Its weight is the engine's."""

    rule: str
    place: Place
    message: str
    help: str
    variants: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault with its weight, as reports show it; `allowed` is the reason that an author gave for it, if any."""

    rule: str
    level: Level
    place: Place
    message: str
    help: str
    variants: tuple[str, ...] = ()
    allowed: str | None = None

    @property
    def stops(self) -> bool:
        """Whether this finding keeps the site from being published."""
        return self.level is Level.ERROR and self.allowed is None


def reading_order(finding: Finding) -> tuple[str, int, int, str, str]:
    """Return the key that sorts findings as a reader meets them: path, line, column, rule."""
    place = finding.place
    return (place.path, place.line, place.column, finding.rule, finding.message)


class Refused(Exception):  # noqa: N818  (a refusal is not an error of ours: the caller asked for what cannot be had)
    """The caller is wrong: one line says what cannot be done and what to do instead."""


def bug(error: Exception) -> str:
    """Return the one line that says of *error* that the fault is ours, and how to see where."""
    return f"a fault of ours, nothing was published: {error!r}. Set BENCHLEAF_DEBUG=1 to see where."
