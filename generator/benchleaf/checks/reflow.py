"""What a heating by hand does to packages, by the limits that they are rated for, and to the joints of an iron."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.joints import carrier, made_with, solders
from benchleaf.dryrun.beside import LAID_ON
from benchleaf.dryrun.bodies import heated_with
from benchleaf.library.alloys import ALLOYS, LEAD_FREE, ProfileLimits
from benchleaf.model import action as act
from benchleaf.physics.hand_reflow import Held
from benchleaf.physics.types import Celsius, Metres, OutOfRange, Seconds

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.library.alloys import Alloy
    from benchleaf.model.action import Heat
    from benchleaf.model.device import Part
    from benchleaf.model.step import Step

# What the standard speaks of; a memory on a board is a package like another.
_PACKAGES = frozenset({"package", "array-package", "storage"})


@dataclass(frozen=True, slots=True)
class Pass:
    """
    Packages that a step heats, by the profile of their board's solder.

    `limits` are None where the solder is not known or the standard does not speak of it. The limit of the ramp is the
    same for all. `held` is None where nobody measured what they reach.
    """

    moment: Moment
    action: Heat
    parts: tuple[Part, ...]
    limits: ProfileLimits | None
    held: Held | None

    @property
    def ramp(self) -> float:
        """The fastest that they may warm, K/s."""
        return (self.limits or LEAD_FREE).ramp_up.value

    @property
    def lead_free(self) -> bool:
        """Whether they are rated for lead-free solder, as parts are where nobody says otherwise."""
        return self.limits is None or self.limits is LEAD_FREE


def passes(trace: Trace) -> Iterator[Pass]:
    """Yield each heating of packages, but of those that are lifted and not used again; an iron heats no body."""
    for moment, action in trace.acts(act.Heat):
        if trace.nature.kind(action.tool.text) == "iron":
            continue
        parts = tuple(part for part in _heated(trace, moment, action) if _is_package(trace, part))
        if parts and not (action.kind == "desolder" and _thrown_away(trace, moment, action.on.text)):
            limits = _limits(trace, parts[0].id)
            yield Pass(moment, action, parts, limits, held(trace, action, (limits or LEAD_FREE).ramp_up.value))


def _heated(trace: Trace, moment: Moment, action: Heat) -> Iterator[Part]:
    parts = trace.world.parts
    names = frozenset(heated_with(trace.world, trace.nature, moment.before, action))
    return (part for name, part in parts.items() if name in names)


def _is_package(trace: Trace, part: Part) -> bool:
    if part.kind not in _PACKAGES:
        return False
    return part.kind != "storage" or trace.world.parts[carrier(trace.world, part.id)].kind == "board"


def _thrown_away(trace: Trace, moment: Moment, part: str) -> bool:
    """Whether the *part* that is lifted in *moment* is not soldered, fitted or kept afterwards."""
    moments = list(trace.every())
    here = next(number for number, at in enumerate(moments) if at is moment)
    for later in moments[here + 1 :]:
        match later.step.action:
            case act.Replace(part=name) if part in trace.world.family.get(name.text, ()):
                return True
            case act.Fit(part=name) | act.Heat(kind="solder", on=name) if name.text == part:
                return False
            case act.Store(part=name, use_again=again) if name.text == part:
                return not again
            case _:
                pass
    return True


def _limits(trace: Trace, part: str) -> ProfileLimits | None:
    alloy = ALLOYS.get(made_with(trace.world, part) or "")
    return alloy.reflow if alloy else None


def held(trace: Trace, action: Heat, ramp: float) -> Held | None:
    """Return *action* as the profile that it may run, no faster than *ramp*; None where nobody measures the part."""
    board = trace.world.device.board if trace.world.device else None
    if action.reaches is None:
        return None
    try:
        return Held(
            room=Celsius(trace.nature.temperature),
            reaches=Celsius(action.reaches.high),
            shortest=Seconds(max(0.0, action.lasts.low)),
            longest=Seconds(action.lasts.high),
            times=action.times,
            pause=Seconds(max(0.0, action.pause.low) if action.pause else 0.0),
            fastest=action.ramp.high if action.ramp else ramp,
            thickness=Metres(board.thickness.high) if board and board.thickness else None,
        )
    except OutOfRange:
        return None


def touched(trace: Trace) -> Iterator[tuple[Moment, Heat, Part, tuple[Alloy, ...]]]:
    """Yield each step in which an iron is on joints, with the solders that are known to be there."""
    for moment, action in trace.acts(act.Heat):
        part = trace.world.parts.get(action.on.text)
        if part is None or trace.nature.kind(action.tool.text) != "iron":
            continue
        if action.kind != "heat" or trace.world.parts[carrier(trace.world, part.id)].kind == "board":
            yield moment, action, part, _alloys(trace, moment.step, part.id)


def _alloys(trace: Trace, step: Step, part: str) -> tuple[Alloy, ...]:
    names = [made_with(trace.world, part), *(alloy for _, alloy, _ in solders(trace.nature, step))]
    return tuple(ALLOYS[name] for name in dict.fromkeys(names) if name in ALLOYS)


def is_ceramic_chip(trace: Trace, part: Part) -> bool:
    """Whether *part* is a bare ceramic body on a board: no package, and made of ceramic."""
    ceramic = part.made_of is not None and part.made_of.text == "ceramic" and part.kind == "other"
    return ceramic and trace.world.parts[carrier(trace.world, part.id)].kind == "board"


def preheated(moment: Moment, part: Part, hot_enough: float) -> bool:
    """Whether the last thing done before *moment* was to heat *part*, or what it is on, to *hot_enough* all over."""
    last = moment.before.touches[-1] if moment.before.touches else None
    if last is None or last.tool_kind not in LAID_ON or last.source < hot_enough:
        return False
    hot = moment.before.hot.get(last.part)
    on = part.part_of.text if part.part_of else part.id
    return last.part in {part.id, on} and hot is not None and hot.elapsed == 0
