"""What is taken off and comes back, and so what must be counted at the end."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.device import Device


@dataclass(frozen=True, slots=True)
class Ledger:
    """
    Counts of one variant.

    `screws` gives, by fastener, how many are back and the most that were out at one time; `parts` those that came off
    and are in again, `renewed` those that are new, `batteries` those that were isolated and are joined again.
    """

    screws: tuple[tuple[str, int, int], ...]
    parts: tuple[str, ...]
    renewed: tuple[str, ...]
    batteries: tuple[str, ...]


@dataclass(slots=True)
class _Tray:
    """What lies beside the device while one variant is followed through the steps."""

    plugs: Mapping[str, str]
    screws: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    most: dict[str, int] = field(default_factory=dict)
    off: dict[str, bool] = field(default_factory=dict)
    renewed: dict[str, None] = field(default_factory=dict)
    isolated: dict[str, bool] = field(default_factory=dict)

    def follow(self, action: act.Action | None) -> None:
        match action:
            case act.Unscrew(screws=several):
                for taken in several:
                    name = taken.fastener.text
                    self.screws[name] += taken.count
                    self.most[name] = max(self.most.get(name, 0), self.screws[name])
            case act.Screw(screws=several):
                for driven in several:
                    self.screws[driven.fastener.text] -= driven.count
            case act.Unplug(connector=plug) if plug.text in self.plugs:
                self.isolated[self.plugs[plug.text]] = True
            case act.Plug(connector=plug) if self.plugs.get(plug.text) in self.isolated:
                self.isolated[self.plugs[plug.text]] = False
            case _:
                self._follow_part(action)

    def _follow_part(self, action: act.Action | None) -> None:
        match action:
            case act.Remove(part=part) | act.Heat(kind="desolder", on=part):
                self.off[part.text] = True
            case act.Fit(part=part) | act.Heat(kind="solder", on=part) if part.text in self.off:
                self.off[part.text] = False
            case act.Replace(part=part):
                self.off[part.text] = False
                self.renewed[part.text] = None
            case _:
                pass


def ledger(device: Device, rows: Iterable[Numbered], variant: str) -> Ledger:
    """Return what the steps of *variant* bring back. What stays out is no line: it is handed back without, or found."""
    tray = _Tray({battery.plug.text: name for name, battery in device.batteries.items() if battery.plug})
    for row in rows:
        if row.exists_for(variant):
            tray.follow(row.step.action)
    return Ledger(
        screws=tuple((name, most - max(tray.screws[name], 0), most) for name, most in tray.most.items()),
        parts=tuple(name for name, away in tray.off.items() if not away and name not in tray.renewed),
        renewed=tuple(name for name in tray.renewed if not tray.off[name]),
        batteries=tuple(name for name, apart in tray.isolated.items() if not apart),
    )
