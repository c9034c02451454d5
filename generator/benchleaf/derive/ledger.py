"""What an opening takes off, and so what must be counted back at the end."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model import action as act
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.device import Device


@dataclass(frozen=True, slots=True)
class Ledger:
    """Counts of one variant: screws taken out by fastener, parts taken off, parts renewed, batteries isolated."""

    screws: tuple[tuple[str, int], ...]
    parts: tuple[str, ...]
    renewed: tuple[str, ...]
    batteries: tuple[str, ...]


def ledger(device: Device, rows: Iterable[Numbered], variant: str) -> Ledger:
    """Return what the steps of *variant* take off or renew."""
    screws: dict[str, int] = defaultdict(int)
    parts: dict[str, None] = {}
    renewed: dict[str, None] = {}
    batteries: dict[str, None] = {}
    plugs = {battery.plug.text: name for name, battery in device.batteries.items() if battery.plug}
    for row in rows:
        if not applies(row.step.only, variant) or (row.level and not applies(row.level.only, variant)):
            continue
        match row.step.action:
            case act.Unscrew(screws=several):
                for taken in several:
                    screws[taken.fastener.text] += taken.count
            case act.Remove(part=part):
                parts[part.text] = None
            case act.Replace(part=part):
                renewed[part.text] = None
            case act.Unplug(connector=connector) if connector.text in plugs:
                batteries[plugs[connector.text]] = None
            case _:
                pass
    return Ledger(tuple(screws.items()), tuple(part for part in parts if part not in renewed), tuple(renewed),
                  tuple(batteries))  # fmt: skip
