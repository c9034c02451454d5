"""How deep things lie in one variant: read off its openings, and off its closings for what no opening moves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from benchleaf.dryrun.reach import CONNECTOR, INSIDE, PART, Under, above, reached
from benchleaf.model.action import Fit, Remove
from benchleaf.model.device import CLOSED
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from benchleaf.model.action import Action
    from benchleaf.model.device import Access, Device, Part
    from benchleaf.model.step import Step
    from benchleaf.model.words import Said

Key: TypeAlias = tuple[str, str]
Found: TypeAlias = "list[tuple[Key, Under | None]]"
# What hides what lies under it; a pack, a plug or a speaker that comes out first only lies in the way.
_COVERS = frozenset({"shell", "cover", "shield", "window", "display", "board"})
# A pack may clip on from outside, and a card may be drawn from its slot.
_NEVER_OUTSIDE = INSIDE - {"battery", "storage"}


def depths(device: Device, parts: Mapping[str, Part], variant: str) -> Mapping[Key, tuple[Under, ...]]:
    """
    Return, by kind and name of a thing, the covers of which one has to be off: none for what is reached from outside.

    Of a thing that is not among them nobody knows how deep it lies.
    """
    levels = [level for level in device.access.values() if applies(level.only, variant)]
    ways = [[each for each in device.way_to(level.id) if applies(each.only, variant)] for level in levels]
    read = _Reading(parts, variant)
    found = _told(read.opening(way) for way in ways)
    found = {**_told(read.closing(way) for way in ways), **found}
    for battery in device.batteries.values():
        plug = (CONNECTOR, battery.plug.text) if battery.plug and applies(battery.only, variant) else None
        if plug in found:
            found.setdefault((PART, battery.part.text), found[plug])
    found = {**_shut_in(read, [way for way in ways if len(way) == 1]), **found}
    carried = {(PART, name): _carried(parts, name, found) for name in parts}
    return {**{key: covers for key, covers in carried.items() if covers is not None}, **found}


def _told(lists: Iterable[Found]) -> dict[Key, tuple[Under, ...]]:
    """Return what *lists* say of each thing; the first word in a list counts, and one that needs no cover wins."""
    told: dict[Key, list[Under | None]] = {}
    for each in lists:
        own: dict[Key, Under | None] = {}
        for key, under in each:
            own.setdefault(key, under)
        for key, under in own.items():
            told.setdefault(key, []).append(under)
    return {
        key: () if None in covers else tuple(dict.fromkeys(cover for cover in covers if cover is not None))
        for key, covers in told.items()
    }


def _carried(parts: Mapping[str, Part], name: str, found: Mapping[Key, tuple[Under, ...]]) -> tuple[Under, ...] | None:
    """Return where that lies which *name* is part of; None where nobody knows."""
    return next((found[PART, carrier] for carrier in above(parts, name) if (PART, carrier) in found), None)


def _shut_in(read: _Reading, roots: Sequence[list[Access]]) -> dict[Key, tuple[Under, ...]]:
    """Return the boards and what sits on them under the first cover that any opening takes off."""
    first = [next(iter(read.covers(way)), None) for way in roots]
    covers = tuple(dict.fromkeys(cover for cover in first if cover is not None))
    if not covers or None in first:
        return {}
    return {(PART, name): covers for name, part in read.parts.items() if part.kind in _NEVER_OUTSIDE}


@dataclass(frozen=True, slots=True)
class _Reading:
    """The openings and closings of a device as one variant has them."""

    parts: Mapping[str, Part]
    variant: str

    def opening(self, way: Sequence[Access]) -> Found:
        """Return what the last opening of *way* comes to, each under the cover that was taken off last before."""
        found: Found = []
        under = next(reversed([*self.covers(way[:-1])]), None)
        for action in self._actions(way[-1].opening):
            found += [((kind, name.text), under) for kind, name in reached(self.parts, action)]
            if isinstance(action, Remove) and self._hides(action.part, way[-1]):
                under = Under(action.part.text, way[-1].id)
        return found

    def closing(self, way: Sequence[Access]) -> Found:
        """Return what the last closing of *way* comes to, each under the cover that is put on first after it."""
        found: Found = []
        under = next(reversed([*self.covers(way[:-1])]), None)
        for action in reversed([*self._actions(way[-1].closing)]):
            found += [((kind, name.text), under) for kind, name in reached(self.parts, action)]
            if isinstance(action, Fit) and self._hides(action.part, way[-1]):
                under = Under(action.part.text, way[-1].id)
        return found

    def covers(self, way: Iterable[Access]) -> Iterator[Under]:
        """Yield the covers that the openings of *way* take off, the first first."""
        for level in way:
            for action in self._actions(level.opening):
                if isinstance(action, Remove) and self._hides(action.part, level):
                    yield Under(action.part.text, level.id)

    def _actions(self, steps: Iterable[Step]) -> Iterator[Action]:
        return (step.action for step in steps if step.action and applies(step.only, self.variant))

    def _hides(self, part: Said, level: Access) -> bool:
        # What comes off a closed device hides what is inside, even where nobody says what kind of part it is.
        kinds = _COVERS | {"other"} if level.parent.text == CLOSED else _COVERS
        return part.text in self.parts and self.parts[part.text].kind in kinds
