"""What must be at hand before the first step: tools with their set points, materials, spares."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from benchleaf.derive.usage import level_tools, used
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.units.quantity import Quantity


def equipment(base: KnowledgeBase, procedure: Procedure) -> tuple[str, ...]:
    """Return the tools of the levels and of the procedure, each once, in the order they are needed."""
    return tuple(dict.fromkeys([*level_tools(base, procedure), *(tool.text for tool in procedure.tools)]))


def settings(device: Device | None, rows: Iterable[Numbered]) -> dict[str, tuple[Quantity, ...]]:
    """Return, by tool, the temperatures and torques that it is set to, each once."""
    found: dict[str, dict[str, Quantity]] = defaultdict(dict)
    for row in rows:
        for tool, quantity in _settings(device, row):
            found[tool].setdefault(quantity.text, quantity)
    return {tool: tuple(quantities.values()) for tool, quantities in found.items()}


def _settings(device: Device | None, row: Numbered) -> Iterator[tuple[str, Quantity]]:
    match row.step.action:
        case act.Heat(tool=tool, at=at):
            yield tool.text, at
        case act.Wait(tool=tool, at=at) | act.Bath(tool=tool, at=at) if tool is not None and at is not None:
            yield tool.text, at
        case act.Screw(screws=several):
            for screws in several:
                fastener = device.fasteners.get(screws.fastener.text) if device else None
                torque = screws.torque or (fastener.torque if fastener else None)
                if fastener and torque and fastener.drive:
                    yield f"drive:{fastener.drive}", torque
        case _:
            return


def spares(device: Device | None, rows: Iterable[Numbered]) -> dict[str, int]:
    """Return how many of each part are put in new, one straight pass."""
    counts: dict[str, int] = defaultdict(int)
    for row in rows:
        if isinstance(row.step.action, act.Replace) and device:
            counts[row.step.action.part.text] += 1
    return dict(counts)


def steps_that_use(rows: Iterable[Numbered], material: str) -> tuple[Numbered, ...]:
    """Return the steps that take *material*."""
    return tuple(row for row in rows if any(name == material for name, _ in used(row.step)))
