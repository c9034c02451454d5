"""What is left on the bench when a case is closed comes to light when the device fails, or rattles."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from benchleaf.checks.handed import handovers
from benchleaf.checks.ledger import (
    BOND,
    PART,
    brings_in,
    misspelt,
    named,
    never_left,
    owed,
    takes_out,
    too_much,
    way_back,
)
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Fit, Heat, Replace

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.checks.handed import Handover
    from benchleaf.checks.ledger import Owed
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.words import Said


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield what the steps leave out, and what they put in that the opening took out or that was not out."""
    unclear = misspelt(trace.world, trace.straight)
    for handed in handovers(trace):
        yield from _left_out(trace, handed, unclear)
        yield from _put_in_early(trace, handed, unclear)
        yield from _unsoldered(handed)
    for moment in trace.every():
        if moment.kind == "work":
            for action, thing in never_left(trace.world, moment):
                if thing.kind not in unclear:
                    yield Hit(
                        action.place,
                        f"{named(thing)} is put back here and never left: a step that takes it out is missing, or this "
                        "one is too much",
                        "Write the step that takes it out before this one, or take this step away.",
                        step=moment.step,
                        about=thing.name,
                    )


def _left_out(trace: Trace, handed: Handover, unclear: frozenset[str]) -> Iterator[Hit]:
    back = trace.procedure.hands_back
    without = {name for part in back.without for name in trace.world.family.get(part.text, ())} if back else set()
    for thing in owed(trace.world, handed.entry, handed.end):
        moment = handed.last(partial(_in_work, takes_out, thing))
        on = trace.world.bonds[thing.name].part.text if thing.kind == BOND else thing.name
        if on in without or thing.kind in unclear or moment is None or moment.step.action is None:
            continue
        or_else = f", or name it under `hands_back: {{without: [{thing.name}]}}`" if thing.kind == PART else ""
        yield Hit(
            moment.step.action.place,
            f"{named(thing)} {_out(thing)} here and not back at the end of the steps: the device is closed without it",
            f"Write {way_back(thing)} in a later step{or_else}.",
            step=moment.step,
            about=thing.name,
        )


def _put_in_early(trace: Trace, handed: Handover, unclear: frozenset[str]) -> Iterator[Hit]:
    for thing in too_much(trace.world, handed.entry, handed.end):
        if thing.name in trace.world.plugs:
            continue  # A battery that is joined again is unfinished-handover's.
        moment = handed.last(partial(_in_work, brings_in, thing))
        if moment is not None and moment.step.action is not None and thing.kind not in unclear:
            yield Hit(
                moment.step.action.place,
                f"{named(thing)} {'are' if thing.count > 1 else 'is'} put in here beyond what the steps took out: the "
                "closing puts back what the opening took, and finds it in its place",
                "Leave it to the closing, or write the step that takes it out before this one.",
                step=moment.step,
                about=thing.name,
            )


def _unsoldered(handed: Handover) -> Iterator[Hit]:
    """Yield each part that hangs by its joints, as its rework shows, and comes in with none made after that."""
    jointed: set[str] = set()
    loose: dict[str, tuple[Moment, Said]] = {}
    for moment in handed.moments:
        match moment.step.action:
            case Heat(kind="desolder" | "solder", on=part):
                jointed.add(part.text)
                loose.pop(part.text, None)
            case Replace(part=part) | Fit(part=part) if part.text in jointed:
                loose[part.text] = (moment, part)
    for name, (moment, part) in loose.items():
        # What comes back with its board is in its place, though the board is still out.
        if name not in handed.end.alone:
            yield Hit(
                part.place,
                f"`{name}` is held by its joints, is put in here and not soldered by the end of the steps: it lies "
                "loose on its pads",
                f"Write `solder: {{part: {name}, ...}}` in a later step.",
                step=moment.step,
                about=f"{name} soldered",
            )


def _in_work(moves: Callable[[Moment, Owed], bool], thing: Owed, moment: Moment) -> bool:
    return moment.kind == "work" and moves(moment, thing)


def _out(thing: Owed) -> str:
    if thing.kind == BOND:
        return "is freed"
    return "are taken out" if thing.count > 1 else "is taken out"


RULE = Rule("part-left-out", Level.ERROR, watch=watch)
