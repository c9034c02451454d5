"""One mutant, made: whether it is dangerous, and whether a right rule sees it in a right place."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from tests.mutants.changed import Changed
from tests.mutants.hazards import Hazard, hazards
from tests.mutants.limits import passed
from tests.mutants.where import stands

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Finding
    from tests.mutants.book import Book
    from tests.mutants.fault import Mutant, Operator


@dataclass(frozen=True)
class Verdict:
    """
    What became of a mutant: why it hurts nobody ("" where it is dangerous), the rule that caught it, or None.

    `besides` is what else was found where nothing caught it: rules that are not the right ones, or stand elsewhere.
    """

    operator: str
    key: str
    harmless: str
    rule: str | None
    besides: tuple[str, ...] = ()

    @property
    def survives(self) -> bool:
        """Whether it is dangerous and nothing right was said."""
        return not self.harmless and self.rule is None


class Case:
    """A mutant with the knowledge base that it makes."""

    def __init__(self, book: Book, operator: Operator, mutant: Mutant) -> None:
        """Make *mutant*."""
        self.book, self.operator, self.mutant = book, operator, mutant
        tree = copy.deepcopy(book.trees[mutant.path])
        mutant.change(tree)
        self.changed = Changed(book, mutant.path, tree)

    @cached_property
    def performed(self) -> dict[tuple[str, str], Trace]:
        """The concerned procedures as they are performed now, by procedure and variant."""
        if self.changed.document[0].root is None:
            return {}
        return {(trace.procedure.id, trace.world.variant): trace for trace in self.changed.traces()}

    @cached_property
    def was(self) -> dict[tuple[str, str], Trace]:
        """The same procedures as they were performed before."""
        device = self.changed.device
        return {key: trace for key in self.performed if (trace := self.book.trace(device, *key))}

    @property
    def own(self) -> list[Trace]:
        """The changed procedure as it was performed, without those that lead to it."""
        return [trace for (name, _), trace in self.was.items() if name == self.changed.file.id]

    @cached_property
    def worse(self) -> frozenset[Hazard]:
        """The hazards that are there now and were not before, on any variant of any concerned procedure."""
        return frozenset(
            hazard
            for key, trace in self.performed.items()
            for hazard in hazards(trace) - self.book.hazards(self.changed.device, *key)
        )

    @cached_property
    def passed(self) -> frozenset[str]:
        """The limits that are passed now and were not before."""
        return frozenset(
            what
            for key, trace in self.performed.items()
            for what in passed(trace) - self.book.passed(self.changed.device, *key)
        )

    def verdict(self) -> Verdict:
        """Return what becomes of it."""
        key = self.mutant.key(self.operator.name)
        harmless = self.mutant.harmless or (self.operator.harmless(self) if self.operator.harmless else "")
        if harmless:
            return Verdict(self.operator.name, key, harmless, None)
        expected = self.operator.expected
        for finding in self.changed.findings(frozenset(expected)):
            if stands(self.changed, self.mutant, finding) & expected[finding.rule]:
                return Verdict(self.operator.name, key, "", finding.rule)
        return Verdict(self.operator.name, key, "", None, tuple(sorted(map(self._besides, self.changed.findings()))))

    def _besides(self, finding: Finding) -> str:
        return f"{finding.rule} at {finding.place.path.removeprefix('procedures/')} {self.changed.pointer(finding)}"
