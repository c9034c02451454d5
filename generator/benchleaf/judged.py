"""What the rules find, and what pages keep of each performance: the part of a check that several processes share."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.checks import engine
from benchleaf.checks.rule import Used
from benchleaf.checks.rules import RULES
from benchleaf.derive.outcome import Outcome, outcome
from benchleaf.dryrun.performed import Bench
from benchleaf.processes import processes, shared, tally

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from benchleaf.checks.scope import Scope
    from benchleaf.findings import Finding
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.processes import Watcher


@dataclass(slots=True)
class Judged:
    """What was found, the exceptions that silenced something, and the outcomes by device and id of the procedure."""

    findings: list[Finding] = field(default_factory=list)
    used: Used = field(default_factory=Used)
    outcomes: dict[tuple[str, str], Outcome] = field(default_factory=dict)


def judged(base: KnowledgeBase, scope: Scope, watcher: Watcher | None = None, *, pages: bool) -> Judged:
    """
    Return what all rules find in *base*, but for those that conclude; and the outcomes, where *pages* are wanted.

    Only what may show something that *scope* asks about is performed; a *watcher* is told how far that is.
    """
    bench = Bench(base)
    live = (procedure for procedure in base.procedures.values() if procedure.status != "withdrawn")
    wanted = [procedure for procedure in live if scope.needs(base, procedure)]
    every = Judged()
    with tally(len(wanted), watcher) as counted:
        tasks = [
            partial(_whole, base),
            *(partial(_performed, bench, several, base, counted, pages=pages) for several in _by_device(wanted)),
        ]
        for one in shared(tasks, processes(len(wanted))):
            every.findings += one.findings
            every.used.places |= one.used.places
            every.outcomes |= one.outcomes
    return every


def _by_device(procedures: Iterable[Procedure]) -> list[list[Procedure]]:
    """Return *procedures*, those of one device together: much of what they ask is remembered."""
    return [list(several) for _, several in groupby(procedures, key=lambda procedure: procedure.device)]


def _whole(base: KnowledgeBase) -> Judged:
    found = Judged()
    found.findings += engine.run(base, RULES, found.used)
    return found


def _performed(
    bench: Bench, procedures: Sequence[Procedure], base: KnowledgeBase, counted: Callable[[], None], *, pages: bool
) -> Judged:
    found = Judged()
    watching = [rule for rule in RULES.values() if rule.watches]
    comparing = [rule for rule in RULES.values() if rule.compares]
    for procedure in procedures:
        traces = tuple(bench.perform(procedure))
        for trace in traces:
            found.findings += engine.watch(trace, watching, found.used)
        if traces:
            found.findings += engine.compare(traces, comparing, found.used)
            if pages:
                kept = outcome(traces, base.shop.units if base.shop else {})
                found.outcomes[procedure.device, procedure.id] = kept
        counted()
    return found
