"""What is said once and holds for many: devices and their levels, the shop, its materials and tools, in both states."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.compare import devices, match, shared, steps
from benchleaf.derive.compare.bearing import VAPOUR, warmed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.derive.compare.change import Change
    from benchleaf.derive.compare.match import Pair
    from benchleaf.model.device import Access, Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


@dataclass(frozen=True, slots=True)
class Fact:
    """A change of what is said once: of which device, "" where of none, and about what in it, "" for all of it."""

    device: str
    about: str
    change: Change


@dataclass(frozen=True, slots=True)
class Level:
    """What differs in the opening and closing of a level, and which step is which."""

    changes: tuple[Change, ...]
    pairs: tuple[Pair, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """All changes of what is said once, and the levels of the devices in the new state."""

    single: tuple[Fact, ...]
    by_level: dict[tuple[str, str], Level]
    devices: dict[str, Device]

    def bearing(self, procedure: Procedure, names: frozenset[str]) -> Iterator[Change]:
        """Yield the changes that bear on *procedure*, which touches, warms or uses *names*."""
        for one in self.single:
            if one.device in {"", procedure.device} and (one.about in names or not one.about):
                yield one.change
        for level in self._way(procedure):
            yield from level.changes

    def pairs(self, procedure: Procedure) -> Iterator[Pair]:
        """Yield which step is which on the way in and out of *procedure*."""
        for level in self._way(procedure):
            yield from level.pairs

    def _way(self, procedure: Procedure) -> Iterator[Level]:
        device = self.devices.get(procedure.device)
        for level in device.way_to(procedure.access.text) if device else ():
            if known := self.by_level.get((procedure.device, level.id)):
                yield known

    def everything(self) -> Iterator[Change]:
        """Yield all of it: what bears on no procedure today is a change as well."""
        yield from (one.change for one in self.single)
        for level in self.by_level.values():
            yield from level.changes


def facts(old: KnowledgeBase, new: KnowledgeBase, shop: str) -> Facts:
    """Return what differs of what is said once; the shop's file stands at *shop*."""
    both = [(old.devices[name], device) for name, device in new.devices.items() if name in old.devices]
    levels = {
        (device.id, name): _level(before.access[name], level)
        for before, device in both for name, level in device.access.items() if name in before.access
    }  # fmt: skip
    return Facts((*_single(old, new, shop), *_of_devices(both)), levels, dict(new.devices))


def _of_devices(both: list[tuple[Device, Device]]) -> Iterator[Fact]:
    for before, device in both:
        for about, change in devices.changes(before, device):
            # How much heat a part bears matters where it gets warm, not wherever it is moved.
            about_heat = about in device.parts and change.kind in {"limit", "neighbour"}
            yield Fact(device.id, warmed(about) if about_heat else about, change)


def _single(old: KnowledgeBase, new: KnowledgeBase, shop: str) -> Iterator[Fact]:
    if old.shop and new.shop:
        for change in shared.of_shop(old.shop, new.shop, shop):
            yield Fact("", VAPOUR if change.kind == "limit" else "", change)
    for about, change in (*shared.of_materials(old, new), *shared.of_tools(old, new)):
        yield Fact("", about, change)


def _level(old: Access, new: Access) -> Level:
    opening, closing = match.steps(old.opening, new.opening), match.steps(old.closing, new.closing)
    found = (*steps.changes(opening, "opening", new.place), *steps.changes(closing, "closing", new.place))
    return Level(found, (*opening, *closing))
