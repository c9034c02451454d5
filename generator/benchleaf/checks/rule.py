"""All that a rule's author needs to know: a rule points and says; the engine does the rest."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Finding, Level, Place
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Step


@dataclass(frozen=True, slots=True)
class Hit:
    """
    What a rule saw: the place, what is there and why it matters, what to write; the variants it holds for.

    `step` is the step in which the place lies: an author may make an exception there. `about` names what the hit is
    about, where a place can have several: of hits alike in rule, place and `about`, a trace's first stands.
    """

    place: Place
    message: str
    help: str
    variants: tuple[str, ...] = ()
    level: Level | None = None
    step: Step | None = None
    about: str = ""


def _nothing(_: KnowledgeBase) -> Iterable[Hit]:
    return ()


def _unseen(_: Trace) -> Iterable[Hit]:
    return ()


class Used:
    """Which exceptions silenced something, as (rule, place of the exception)."""

    def __init__(self) -> None:
        """Begin with none."""
        self.places: set[tuple[str, Place]] = set()


@dataclass(frozen=True, slots=True)
class Run:
    """
    What can be said of a run when all else is done: the rules, the exceptions that they used, what they found.

    `today` is the day that the caller gave, if any: no rule looks at a clock.
    """

    base: KnowledgeBase
    rules: Mapping[str, Rule]
    used: Used
    found: tuple[Finding, ...]
    today: dt.date | None = None


def _silent(_: Run) -> Iterable[Hit]:
    return ()


def _uncompared(_: Sequence[Trace]) -> Iterable[Hit]:
    return ()


@dataclass(frozen=True, slots=True)
class Rule:
    """
    A rule: its name, its usual weight, and what looks for it.

    `check` reads the whole knowledge base, `watch` one procedure as it was performed on one variant, `compare` one as
    it was performed on all of them, `conclude` the whole run when all else is done. Rules of the reading and schema
    stages are found on the way in and have none of them; `never_allowed` says that no author can make an exception.
    """

    name: str
    level: Level
    check: Callable[[KnowledgeBase], Iterable[Hit]] = field(default=_nothing)
    never_allowed: bool = False
    watch: Callable[[Trace], Iterable[Hit]] = field(default=_unseen)
    conclude: Callable[[Run], Iterable[Hit]] = field(default=_silent)
    compare: Callable[[Sequence[Trace]], Iterable[Hit]] = field(default=_uncompared)

    @property
    def watches(self) -> bool:
        """Whether it looks at procedures as they are performed."""
        return self.watch is not _unseen

    @property
    def compares(self) -> bool:
        """Whether it looks at all performances of a procedure together."""
        return self.compare is not _uncompared

    @property
    def reaches_steps(self) -> bool:
        """Whether an exception in a step can reach it: none is allowed to some, others are found on the way in."""
        looks = self.check is not _nothing or self.watches or self.compares or self.conclude is not _silent
        return looks and not self.never_allowed
