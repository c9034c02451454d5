"""The book with one file changed: what it becomes, how it is performed, and what is found in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from benchleaf import build
from benchleaf.checks import engine
from benchleaf.checks.rules import RULES
from benchleaf.checks.walk import go_tos
from benchleaf.dryrun.performed import nature
from benchleaf.dryrun.walk import Opened, walk
from benchleaf.findings import Finding, Level
from tests.mutants.book import DOCS, Book
from tests.mutants.tree import Pointer, Tree, places, written

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.checks.rule import Rule
    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Fault
    from benchleaf.model.build import Document
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.source.folder import File


@dataclass(frozen=True)
class Changed:
    """The book with one file changed to *tree*."""

    book: Book
    path: str
    tree: Tree

    @cached_property
    def file(self) -> File:
        """The changed file."""
        return replace(self.book.files[self.path], data=written(self.tree))

    @cached_property
    def document(self) -> tuple[Document, tuple[Fault, ...]]:
        """What the changed file became."""
        return build._document(self.file)

    @property
    def device(self) -> str:
        """The device that the file belongs to."""
        return self.file.device

    @cached_property
    def base(self) -> KnowledgeBase:
        """The base of the device alone, with the changed file; where it does not fit the file is broken in it."""
        document, _ = self.document
        base = self.book.alone(self.device)
        one = self.book._base([document])
        if one.broken:
            return replace(base, broken=one.broken)
        return replace(
            base,
            devices={**base.devices, **one.devices},
            procedures={**base.procedures, **one.procedures},
        )

    @cached_property
    def concerned(self) -> tuple[Procedure, ...]:
        """The procedures whose performance the change may change, the changed one first."""
        name = self.file.id
        own = [each for each in self.base.procedures.values() if each.device == self.device]
        if self.file.kind == "device":
            return tuple(own)
        changed = self.base.procedures[self.device, name]
        return (changed, *(each for each in own if each is not changed and self._leads(each, name)))

    def _leads(self, procedure: Procedure, name: str) -> bool:
        """Whether a failed check of *procedure*, or of a level on its way, leads to the procedure *name*."""
        device = self.base.devices.get(procedure.device)
        levels = device.way_to(procedure.access.text) if device else ()
        on_the_way = [step for level in levels for step in (*level.opening, *level.closing)]
        return any(
            target.text == name
            for step in (*on_the_way, *procedure.steps, *procedure.prove)
            for target in go_tos(step.check)
        )

    def traces(self) -> Iterator[Trace]:
        """Yield the concerned procedures, performed one after the other as they are asked for."""
        here, opened = nature(self.base), Opened()
        for procedure in self.concerned:
            if procedure.status == "withdrawn":
                continue
            device = self.base.devices.get(procedure.device)
            for variant in self.base.variants_of(procedure) if device else ("any",):
                yield walk(self.base, procedure, self.book.world(device, variant), here, (), opened)

    def findings(self, rules: frozenset[str] | None = None) -> Iterator[Finding]:
        """
        Yield what is found now and was not before, as it is found; with *rules*, by these alone.

        A file that does not fit is not performed: then only its own faults are yielded. What stands in the files of the
        whole shop is left out, because the other devices are not looked at.
        """
        chosen = {name: rule for name, rule in RULES.items() if rules is None or name in rules}
        document, faults = self.document
        yield from engine.weigh((fault for fault in faults if fault.rule in chosen), RULES)
        if document.root is None:
            return
        for finding in self._found(chosen):
            if finding.level is not Level.NOTE and finding.allowed is None:
                yield finding

    def _found(self, chosen: dict[str, Rule]) -> Iterator[Finding]:
        single = f"{DOCS}/{self.file.kind}"
        for finding in engine.run(self.base, chosen):
            known = (finding.rule, finding.place.path, finding.message) in self.book.usual
            if not known and (finding.place.path.count("/") > 1 or single in finding.place.path):
                yield finding
        watching = [rule for rule in chosen.values() if rule.watches]
        for trace in self.traces() if watching else ():
            yield from engine.watch(trace, watching)

    @cached_property
    def _pointers(self) -> Mapping[tuple[int, int], Pointer]:
        root = self.document[0].root
        return places(root) if root else {}

    def pointer(self, finding: Finding) -> Pointer:
        """Return the way to the value at which *finding* stands, in its file; () for the whole file."""
        at = finding.place
        known = self._pointers if at.path == self.path else self.book.pointers.get(at.path, {})
        return known.get((at.line, at.column), ())

    def tree_of(self, path: str) -> Tree:
        """Return what the file at *path* holds, with the change."""
        return self.tree if path == self.path else self.book.trees[path]
