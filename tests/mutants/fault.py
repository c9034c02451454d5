"""A fault that a tired author commits, where it lies, and what ought to see it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Flag, auto
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from tests.mutants.book import Book
    from tests.mutants.case import Case
    from tests.mutants.tree import Pointer, Tree


class Where(Flag):
    """
    Where a finding leads its reader to the fault.

    `HERE`: in the changed step or field. `LATER`: in a step that is performed after it, the first place where it
    matters. `PARTNER`: in a step, an entry or a list that names the same thing (what takes out a part that is not put
    back; the list that still holds a tool). `BEFORE`: in the step that left behind what the changed one should have
    ended. `HEAD`: at the title of the file or the level, for what its whole lacks.
    """

    HERE = auto()
    LATER = auto()
    PARTNER = auto()
    BEFORE = auto()
    HEAD = auto()


Expected: TypeAlias = "Mapping[str, Where]"
"""The rules that may catch a fault, each with where."""


@dataclass(frozen=True)
class Mutant:
    """
    One change to one file.

    `at` is the step or value in the file as it was, `says` the instruction or name that an author finds it by. `here`
    are the places of the fault in the changed file; none where something was taken out. What is performed `after` it
    begins at that step of the changed file. `things` are the parts, connectors, screws and bonds that it is about,
    `listed` the tools and materials.
    """

    path: str
    at: Pointer
    says: str
    what: str
    change: Callable[[Tree], None]
    here: tuple[Pointer, ...] = ()
    after: Pointer | None = None
    things: frozenset[str] = frozenset()
    listed: frozenset[str] = frozenset()
    harmless: str = ""

    def key(self, operator: str) -> str:
        """Return what this mutant is known by in lists: it holds no line, so that it outlives changes elsewhere."""
        place = ".".join(str(each) for each in self.at)
        return f"{self.path.removeprefix('procedures/')} {place} {operator}: {self.what}"


@dataclass(frozen=True)
class Operator:
    """
    One kind of slip: what it changes, what may see it, and when it hurts nobody.

    `harmless` returns the reason why one of its mutants is no danger, or "" where it is one; None where it always is.
    """

    name: str
    why: str
    expected: Expected
    make: Callable[[Book], Iterator[Mutant]]
    harmless: Callable[[Case], str] | None = None
