"""Where failed checks lead: from procedure to procedure, for one variant of one device."""

from __future__ import annotations

from collections import defaultdict, deque
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.walk import go_tos
from benchleaf.model import action as act
from benchleaf.model.knowledge import phases
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step
    from benchleaf.model.words import Said

# These leave the device as it was: time, handling, and a supply from outside that is taken away again.
_LEAVES_AS_IT_WAS = (act.Wait, act.Work, act.Supply)


@dataclass(frozen=True, slots=True)
class Road:
    """A check of `source` whose failing leads to `target`; `idle` says that the procedure changed nothing before it."""

    source: Procedure
    target: Procedure
    name: Said
    step: Step
    idle: bool


def roads(base: KnowledgeBase, procedure: Procedure, variant: str | None = None) -> Iterator[Road]:
    """Yield each way out of *procedure*, from its first opening to its proof; with *variant*, on that alone."""
    device = base.devices.get(procedure.device)
    changed = False
    for phase in phases(device, procedure, variant):
        own = phase.kind in {"work", "prove"}
        for step in phase.steps:
            # What an opening changes, the closing undoes: only the procedure's own steps count as done.
            changed = changed or (own and changes(step))
            for name in go_tos(step.check):
                target = base.target(procedure, name.text)
                if target and not _stands_still(procedure, step, target, own=own):
                    yield Road(procedure, target, name, step, not changed)


def changes(step: Step) -> bool:
    """Whether *step* leaves the device in another state than it found it in."""
    return bool(step.apply) or (step.action is not None and not isinstance(step.action, _LEAVES_AS_IT_WAS))


def _stands_still(procedure: Procedure, step: Step, target: Procedure, *, own: bool) -> bool:
    """Whether the way is none: the answer is known before, or a level's check leads to what is being done already."""
    check = step.check
    known = check and check.kind == "battery" and check.what.text == "shape" and procedure.arrives.battery == "swollen"
    return bool(known) or (not own and target is procedure)


def by_source(several: Iterable[Road]) -> Mapping[tuple[str, str], list[Road]]:
    """Return *several* roads by the procedure that they leave."""
    found: dict[tuple[str, str], list[Road]] = defaultdict(list)
    for road in several:
        found[key(road.source)].append(road)
    return found


def way_back(road: Road, out_of: Mapping[tuple[str, str], list[Road]]) -> tuple[Procedure, ...] | None:
    """Return the procedures from the target of *road* to its source, by the shortest way, or None where none leads."""
    start, goal = road.target, key(road.source)
    ways: deque[tuple[Procedure, ...]] = deque([(start,)])
    seen = {key(start)}
    while ways:
        way = ways.popleft()
        if key(way[-1]) == goal:
            return way
        for onward in out_of.get(key(way[-1]), ()):
            if key(onward.target) not in seen:
                seen.add(key(onward.target))
                ways.append((*way, onward.target))
    return None


def key(procedure: Procedure) -> tuple[str, str]:
    """Return what a procedure is known by."""
    return procedure.device, procedure.id


def written_for(procedure: Procedure, variant: str | None) -> bool:
    """Whether *procedure* is performed on *variant*; one for any device is, on all."""
    return variant is None or applies(procedure.variants, variant)
