"""The close requirements: what is counted back before the device leaves the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.pages.compose.site import variant_titles
from benchleaf.pages.parts import Only
from benchleaf.pages.sheet import CloseRequirement

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.derive.ledger import Ledger
    from benchleaf.derive.outcome import Outcome
    from benchleaf.model.device import Device
    from benchleaf.pages.compose.limits import Limits


def close(device: Device | None, limits: Limits, outcome: Outcome) -> Iterator[CloseRequirement]:
    """Yield the lines of all variants, each once; those of some variants say so."""
    if device is None:
        return
    told: dict[tuple[str, str, str], list[str]] = {}
    for variant, counts in outcome.ledgers.items():
        for line in _lines(device, limits, counts):
            told.setdefault(line, []).append(variant)
    for (text, count, note), names in told.items():
        some = len(names) < len(outcome.ledgers)
        only = Only(" ".join(names), f"{variant_titles(device, names)} only") if some else None
        yield CloseRequirement(text, count, note, only)


def _lines(device: Device, limits: Limits, counts: Ledger) -> Iterator[tuple[str, str, str]]:
    for name, back, out in counts.screws:
        fastener = device.fasteners.get(name)
        if fastener:
            yield f"{fastener.title} back", f"{back} of {out}", limits.item(fastener)
    for part in counts.parts:
        yield f"{_title(device, part)} back", "1 of 1", ""
    for part in counts.renewed:
        yield f"{_title(device, part)} renewed", "1 of 1", ""
    for battery in counts.batteries:
        yield f"{_title(device, device.batteries[battery].part.text)} joined", "", ""


def _title(device: Device, name: str) -> str:
    part = device.parts.get(name)
    return part.title.text if part else name
