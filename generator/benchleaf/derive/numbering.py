"""One numbering for every page: O open up, W work, C close up, P prove."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.knowledge import phases
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from benchleaf.model.device import Access, Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step

LETTERS = {"opening": "O", "work": "W", "closing": "C", "prove": "P"}


@dataclass(frozen=True, slots=True)
class Numbered:
    """A step with its number, and the level that it opens or closes."""

    number: str
    kind: str
    level: Access | None
    step: Step

    def exists_for(self, variant: str) -> bool:
        """Whether this step is performed for *variant*."""
        return applies(self.step.only, variant) and (self.level is None or applies(self.level.only, variant))


def numbered(device: Device | None, procedure: Procedure) -> tuple[Numbered, ...]:
    """Return all that is performed for *procedure*, of all its variants, in order, each step with its number."""
    counts = dict.fromkeys(LETTERS, 0)
    found = []
    for phase in phases(device, procedure):
        for step in phase.steps:
            counts[phase.kind] += 1
            found.append(Numbered(f"{LETTERS[phase.kind]}{counts[phase.kind]}", phase.kind, phase.access, step))
    return tuple(found)


def items(device: Device) -> dict[str, str]:
    """Return the item letter of each fastener of *device*, in the order written: A to Z, then AA and on."""
    return {name: _letter(index) for index, name in enumerate(device.fasteners)}


def _letter(index: int) -> str:
    whole, rest = divmod(index, 26)
    return ("" if whole == 0 else _letter(whole - 1)) + chr(ord("A") + rest)
