"""What a whole change did: every difference once, and of each procedure whether its revision was raised for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.derive.compare.change import Change, Way
    from benchleaf.model.times import Span


@dataclass(frozen=True, slots=True)
class Compared:
    """
    One procedure in both states: its name now, and its name, revision, status, time and variants then and now.

    What it has not, or did not have, is None: a procedure that is new, gone, or cannot be performed as it is written.
    """

    name: str
    was: str | None
    title: str
    revision: int | None
    was_revision: int | None
    status: str
    was_status: str
    time: Span | None
    was_time: Span | None
    variants: tuple[str, ...]
    was_variants: tuple[str, ...]
    loosened: bool

    @property
    def raised(self) -> bool:
        """Whether its revision is a higher one."""
        return (self.revision or 0) > (self.was_revision or 0)

    @property
    def unraised(self) -> bool:
        """Whether safety was loosened in it and its revision does not say so."""
        return self.loosened and not self.raised


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two states of a knowledge base beside each other; `against` is the older one's name."""

    against: str
    changes: tuple[Change, ...]
    procedures: tuple[Compared, ...]

    @property
    def unraised(self) -> tuple[Compared, ...]:
        """The procedures in which safety was loosened and the revision was not raised."""
        return tuple(one for one in self.procedures if one.unraised)

    def of(self, way: Way) -> tuple[Change, ...]:
        """Return the changes that go one *way*."""
        return tuple(change for change in self.changes if change.way is way)
