"""What a procedure hangs on: where all of that is the very same as before, so is what is found in it."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.model.step import GoTo, Repeat

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def hangs_on(base: KnowledgeBase, procedure: Procedure) -> tuple[object, ...]:
    """
    Return all that the performances of *procedure* hang on: itself, its device, what the shop has, where it may lead.

    Rules that watch and compare see traces alone, so nothing else can bear on what they find.
    """
    device = base.devices.get(procedure.device)
    return (procedure, device, base.shop, base.tools, base.materials, *led_to(base, procedure))


def led_to(base: KnowledgeBase, procedure: Procedure) -> tuple[Procedure | None, ...]:
    """Return every procedure that failing checks may lead to from *procedure*, on and on; None for one that is not."""
    found: dict[str, Procedure | None] = {}
    ahead = list(_ways_out(base, procedure))
    while ahead:
        name = ahead.pop()
        if name not in found:
            found[name] = target = base.target(procedure, name)
            ahead += _ways_out(base, target) if target else ()
    return tuple(found[name] for name in sorted(found))


def _ways_out(base: KnowledgeBase, procedure: Procedure) -> Iterator[str]:
    device = base.devices.get(procedure.device)
    levels = device.access.values() if device else ()
    for step in chain(procedure.steps, procedure.prove, *((*level.opening, *level.closing) for level in levels)):
        way = step.check.if_not if step.check else None
        way = way.then if isinstance(way, Repeat) else way
        if isinstance(way, GoTo):
            yield way.procedure.text


def unchanged(old: Sequence[object], new: Sequence[object]) -> bool:
    """Whether both are the very same things: equal ones may stand in other lines."""
    return len(old) == len(new) and all(one is other or not (one or other) for one, other in zip(old, new, strict=True))
