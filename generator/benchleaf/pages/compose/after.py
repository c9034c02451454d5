"""The third column: what a step changed, in the shop's words and short."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from benchleaf.derive.news import Air, News, Now, Tray
from benchleaf.pages.parts import words
from benchleaf.pages.sheet import State
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.device import Device

# By what is new: the words for it, and those for the device itself where it has no name.
_SAID = {
    "power on": "Power on", "power off": "Power off", "fed": "Fed from outside", "not fed": "No feed from outside",
    "isolated": "isolated", "joined": "joined", "unplugged": "out", "plugged": "in",
    "out": "out", "in": "in", "new": "new", "stored": "off the bench", "set aside": "off the bench",
    "spent": "spent", "hurt": "not to be used again", "discharged": "discharged",
    "free": "free", "setting": "setting", "holds": "firm", "renewed": "renewed",
    "wet": "wet", "dry": "dry", "fuming": "flammable vapour", "clear": "no vapour left", "hot": "hot", "cool": "cool",
    "photo": "Photographed", "note": "Noted", "reading": "Reading noted",
}  # fmt: skip
_ENDS = {"wet": "dry", "fuming": "clear", "hot": "cool", "setting": "firm"}
_FEW = 2  # More parts than these are counted.
_LITTLE = 0.01  # Less than this share of a limit is no news.


def said(device: Device | None, letters: Mapping[str, str], news: News) -> State | None:
    """Return *news* as one line of the column; None where it is not worth one."""
    match news:
        case Tray():
            return _tray(device, letters, news)
        case Air(share=share):
            percent = f"{show.digits(share * 100, 2, math.ceil)} %"
            return State(percent, "Bench air: ", " of the limit") if share >= _LITTLE else None
        case Now(what="level", names=(level,)):
            return State(level, "Level: ")
        case Now(what="isolated" | "joined", names=()):
            return State(f"Battery {news.what}")
        case Now(what="fuming" | "clear", names=()):
            return _now(device, replace(news, names=("",)))
        case Now():
            return _now(device, news)


def _now(device: Device | None, news: Now) -> State:
    strong = _SAID[news.what]
    lead = f"{_named(device, news.names)}: " if news.names else ""
    if news.what == "set aside":
        return State(strong, lead, ", not to be used again")
    if news.seconds is not None:
        return State(strong, lead, ", flammable" if news.burns else "", (words(_until(news.what, news.seconds)),))
    return State(strong, lead, _others(news))


def _until(what: str, seconds: float) -> str:
    if not math.isfinite(seconds):
        return f"nobody can say when it is {_ENDS[what]}"
    alone = "left alone, " if what in {"wet", "fuming"} else ""
    return f"{alone}{_ENDS[what]} in {show.at_most(seconds)} at the most"


def _others(news: Now) -> str:
    if news.out is None or (news.what == "out" and news.out == 1):
        return ""
    if news.what == "out":
        return f"; {news.out} out in all"
    return f"; {_counted(news.out)} still out" if news.out else "; all parts in"


def _counted(number: int) -> str:
    return f"{number} part" if number == 1 else f"{number} parts"


def _named(device: Device | None, names: tuple[str, ...]) -> str:
    titles = [_title(device, name) for name in names]
    if len(titles) <= _FEW:
        return " and ".join(titles)
    return f"{titles[0]} and {len(titles) - 1} more"


def _title(device: Device | None, name: str) -> str:
    if device is None or not name:
        return name or "Bench"
    known = device.parts.get(name) or device.bonds.get(name) or device.connectors.get(name)
    return known.title.text if known else name


def _tray(device: Device | None, letters: Mapping[str, str], tray: Tray) -> State:
    if not tray.in_all:
        return State("empty", "Tray ")
    known = device.fasteners.get(tray.fastener) if device else None
    kind = known.drive if known and known.drive else "screws"
    item = f", item {letters[tray.fastener]}" if tray.fastener in letters else ""
    in_all = f"; {tray.in_all} in all" if tray.in_all > tray.lying else ""
    return State(f"{tray.lying} of {tray.of} {kind}", "Tray: ", f"{item}{in_all}")
