"""What the rules find, and what pages keep of each performance: the part of a check that several processes share."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from itertools import groupby
from typing import TYPE_CHECKING, TypeAlias

from benchleaf.checks import engine
from benchleaf.checks.rule import Used
from benchleaf.checks.rules import RULES
from benchleaf.derive.hanging import hangs_on, unchanged
from benchleaf.derive.outcome import Outcome, outcome
from benchleaf.dryrun.performed import Bench
from benchleaf.processes import processes, shared, tally

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from benchleaf.checks.scope import Scope
    from benchleaf.findings import Finding
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.processes import Watcher

_Key: TypeAlias = "tuple[str, str]"  # device and id of a procedure


@dataclass(slots=True)
class Judged:
    """What was found, the exceptions that silenced something, and the outcomes by device and id of the procedure."""

    findings: list[Finding] = field(default_factory=list)
    used: Used = field(default_factory=Used)
    outcomes: dict[tuple[str, str], Outcome] = field(default_factory=dict)


class Memory:
    """What was found in each procedure when it was judged last, for as long as nothing that it hangs on is another."""

    def __init__(self) -> None:
        """Remember nothing yet."""
        self._known: dict[_Key, tuple[tuple[object, ...], Judged]] = {}

    def still(self, base: KnowledgeBase) -> dict[_Key, Judged]:
        """Return what is still so of the procedures of *base*."""
        return {
            key: known[1]
            for key, procedure in base.procedures.items()
            if (known := self._known.get(key)) and unchanged(known[0], hangs_on(base, procedure))
        }

    def keep(self, base: KnowledgeBase, found: Mapping[_Key, Judged]) -> None:
        """Remember what was *found* in the procedures of *base*, and nothing of others."""
        self._known = {key: (hangs_on(base, base.procedures[key]), one) for key, one in found.items()}


def judged(
    base: KnowledgeBase, scope: Scope, watcher: Watcher | None = None, memory: Memory | None = None, *, pages: bool
) -> Judged:
    """
    Return what all rules find in *base*, but for those that conclude; and the outcomes, where *pages* are wanted.

    Only what may show something that *scope* asks about is performed, and nothing that *memory* knows and that is still
    so; a *watcher* is told how far that is.
    """
    bench = Bench(base)
    live = (procedure for procedure in base.procedures.values() if procedure.status != "withdrawn")
    found = memory.still(base) if memory else {}
    wanted = [one for one in live if (one.device, one.id) not in found and scope.needs(base, one)]
    with tally(len(wanted), watcher) as counted:
        tasks = [
            partial(_whole, base),
            *(partial(_performed, bench, several, base, counted, pages=pages) for several in _by_device(wanted)),
        ]
        whole, *performed = shared(tasks, processes(len(wanted)))
    for several in performed:
        found |= {key: one for key, one in several.items() if key}
    if memory:
        memory.keep(base, found)
    every = whole[None]
    for one in found.values():
        every.findings += one.findings
        every.used.places |= one.used.places
        every.outcomes |= one.outcomes
    return every


def _by_device(procedures: Iterable[Procedure]) -> list[list[Procedure]]:
    """Return *procedures*, those of one device together: much of what they ask is remembered."""
    return [list(several) for _, several in groupby(procedures, key=lambda procedure: procedure.device)]


def _whole(base: KnowledgeBase) -> dict[_Key | None, Judged]:
    found = Judged()
    found.findings += engine.run(base, RULES, found.used)
    return {None: found}


def _performed(
    bench: Bench, procedures: Sequence[Procedure], base: KnowledgeBase, counted: Callable[[], None], *, pages: bool
) -> dict[_Key | None, Judged]:
    watching = [rule for rule in RULES.values() if rule.watches]
    comparing = [rule for rule in RULES.values() if rule.compares]
    every: dict[_Key | None, Judged] = {}
    for procedure in procedures:
        key = (procedure.device, procedure.id)
        every[key] = found = Judged()
        traces = tuple(bench.perform(procedure))
        for trace in traces:
            found.findings += engine.watch(trace, watching, found.used)
        if traces:
            found.findings += engine.compare(traces, comparing, found.used)
            if pages:
                found.outcomes[key] = outcome(traces, base.shop.units if base.shop else {})
        counted()
    return every
