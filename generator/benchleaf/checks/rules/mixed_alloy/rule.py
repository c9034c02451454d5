"""Two solders in one joint make a third one that nobody chose: it melts where it should hold, or cracks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.joints import made_with, solders, takes_up, wicks
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Heat, Replace

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.step import Step

# Parts that are boards themselves: a new one comes with joints of its own.
_BOARDS = frozenset({"board"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each solder that comes to a joint in which another one is left."""
    if any(next(solders(trace.nature, moment.step), None) for moment, _ in trace.acts(Heat)):
        for path in trace.paths():
            yield from _on(trace, path)


def _on(trace: Trace, path: Sequence[Moment]) -> Iterator[Hit]:
    left: dict[str, frozenset[str]] = {}
    said: set[str] = set()
    for moment in path:
        action = moment.step.action
        if isinstance(action, Replace):
            for member in _new(trace, action.part.text):
                left.pop(member, None)
                said.discard(member)
        elif isinstance(action, Heat):
            if takes_up(trace.nature, moment.step):
                bare = _bare(trace, moment, action.on.text)
                left.update(dict.fromkeys(bare, frozenset()))
                said -= bare
            part = action.on.text
            before = left.get(part, _first(trace, part))
            after = before | {alloy for _, alloy, _ in solders(trace.nature, moment.step)}
            left[part] = after
            # What is lifted is not soldered: a solder that melts low may be put on to get it off.
            if len(after) > 1 and action.kind != "desolder" and part not in said:
                said.add(part)
                yield _hit(trace, moment.step, action, before)


def _first(trace: Trace, part: str) -> frozenset[str]:
    alloy = made_with(trace.world, part)
    return frozenset() if alloy is None else frozenset({alloy})


def _new(trace: Trace, part: str) -> frozenset[str]:
    """Return the parts whose joints are new with a new *part*; its own pads are those of what it is soldered to."""
    known = trace.world.parts.get(part)
    family = trace.world.family.get(part, frozenset())
    return family if known is not None and known.kind in _BOARDS else family - {part}


def _bare(trace: Trace, moment: Moment, part: str) -> frozenset[str]:
    """Return what a wick on *part* cleans: its joints, and the bare pads of what was lifted off it."""
    return frozenset({part}) | (trace.world.family.get(part, frozenset()) & moment.before.alone)


def _hit(trace: Trace, step: Step, action: Heat, before: frozenset[str]) -> Hit:
    put_on = list(solders(trace.nature, step))
    name, alloy, place = next((one for one in put_on if one[1] not in before), ("", "", action.place))
    others = sorted((before | {one for _, one, _ in put_on}) - {alloy})
    what = f"`{name}` is {alloy}" if name else "These joints are made again"
    fitting = [one for one, known in trace.nature.materials.items() if known.alloy and [known.alloy.text] == others]
    same = f", or use {listed((f'`{one}`' for one in fitting), 'or')}" if fitting else ""
    wick = next((f"`apply: {{{one}: ...}}`" for one in wicks(trace.nature)), "a material of `kind: wick`")
    return Hit(
        place,
        f"{what}, and the joints of `{action.on}` still hold {listed(others)}: the mixture melts and cracks where "
        "nobody expects it",
        f"Write a step before this one that heats the joints with {wick}{same}.",
        step=step,
        about=action.on.text,
    )


RULE = Rule("mixed-alloy", Level.WARNING, watch=watch)
