"""All that a rule's author needs to know: a rule points and says; the engine does the rest."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from benchleaf.findings import Level, Place
    from benchleaf.model.knowledge import KnowledgeBase


@dataclass(frozen=True, slots=True)
class Hit:
    """What a rule saw: the place, what is there and why it matters, what to write; the variants it holds for."""

    place: Place
    message: str
    help: str
    variants: tuple[str, ...] = ()
    level: Level | None = None


def _nothing(_: KnowledgeBase) -> Iterable[Hit]:
    return ()


@dataclass(frozen=True, slots=True)
class Rule:
    """
    A rule: its name, its usual weight, and what looks for it.

    `check` reads the whole knowledge base. Rules of the reading and schema stages are found on the way in and have no
    check of their own; `never_allowed` says that no author can make an exception to it.
    """

    name: str
    level: Level
    check: Callable[[KnowledgeBase], Iterable[Hit]] = field(default=_nothing)
    never_allowed: bool = False
