"""What must be at hand before the first step: tools with their set points, materials, spares."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.usage import level_tools, used
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.units.quantity import Temperature, Torque


def equipment(base: KnowledgeBase, procedure: Procedure) -> tuple[str, ...]:
    """Return the tools of the levels and of the procedure, each once, in the order they are needed."""
    return tuple(dict.fromkeys([*level_tools(base, procedure), *(tool.text for tool in procedure.tools)]))


@dataclass(frozen=True, slots=True)
class Settings:
    """What tools are set to, each value once: temperatures by tool, torques by the drive of the screw."""

    temperatures: Mapping[str, tuple[Temperature, ...]]
    torques: Mapping[str, tuple[Torque, ...]]


def settings(device: Device | None, rows: Iterable[Numbered]) -> Settings:
    """Return what the tools are set to in *rows*."""
    heats: dict[str, dict[Temperature, None]] = defaultdict(dict)
    torques: dict[str, dict[Torque, None]] = defaultdict(dict)
    for row in rows:
        match row.step.action:
            case act.Heat(tool=tool, at=at):
                heats[tool.text][at] = None
            case act.Wait(tool=tool, at=at) | act.Bath(tool=tool, at=at) if tool is not None and at is not None:
                heats[tool.text][at] = None
            case act.Screw(screws=several):
                for drive, torque in _torques(device, several):
                    torques[drive][torque] = None
            case _:
                pass
    return Settings({tool: tuple(all_of) for tool, all_of in heats.items()},
                    {drive: tuple(all_of) for drive, all_of in torques.items()})  # fmt: skip


def _torques(device: Device | None, several: Iterable[act.Screws]) -> Iterator[tuple[str, Torque]]:
    for screws in several:
        fastener = device.fasteners.get(screws.fastener.text) if device else None
        torque = screws.torque or (fastener.torque if fastener else None)
        if fastener and torque and fastener.drive:
            yield fastener.drive, torque


def spares(rows: Iterable[Numbered], variants: Iterable[str]) -> dict[str, int]:
    """Return how many of each part are put in new, one straight pass, for the variant that takes most."""
    replaced = [(row, row.step.action.part.text) for row in rows if isinstance(row.step.action, act.Replace)]
    counts = dict.fromkeys((part for _, part in replaced), 0)
    for variant in variants:
        taken = Counter(part for row, part in replaced if row.exists_for(variant))
        counts = {part: max(most, taken[part]) for part, most in counts.items()}
    return {part: count for part, count in counts.items() if count}


def steps_that_use(rows: Iterable[Numbered], material: str) -> tuple[Numbered, ...]:
    """Return the steps that take *material*."""
    return tuple(row for row in rows if any(name == material for name, _ in used(row.step)))
