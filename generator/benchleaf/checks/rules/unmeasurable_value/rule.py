"""A value that no instrument reads is made up at the bench, and the check is passed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.readings import CHARGE, can_read, in_range, is_read, reaches, readings
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level
from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.checks.readings import Reading
    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.shop import Tool


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each value that no instrument named for it can read."""
    for spot in every_step(base):
        for reading in readings(spot.step):
            if not _shown(reading, base.tools):
                yield from _unread(reading, base.tools)


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each charge that is to be read with no instrument while the device is off and shows none."""
    tools = trace.nature.tools
    for moment in trace.every():
        if moment.step.check and not moment.before.live:
            for reading in readings(moment.step):
                if _shown(reading, tools):
                    yield from _unread(reading, tools)


def _shown(reading: Reading, tools: Mapping[str, Tool]) -> bool:
    """Whether a device that is on shows it by itself: its charge, where no instrument is named that reads one."""
    others = [tools[name.text] for name in reading.instruments if name.text in tools]
    return reading.what == CHARGE and reading.named is None and not any(reaches(tool, reading) for tool in others)


def _unread(reading: Reading, tools: Mapping[str, Tool]) -> Iterator[Hit]:
    # A list of tools that is missing, or cannot be read, has not said what they read; nor has a name that means none.
    names = [name.text for name in reading.instruments]
    if not tools or not set(names) <= set(tools) or is_read(reading, tools):
        return
    place = reading.named.place if reading.named else reading.place
    yield Hit(place, _message(reading, [tools[name] for name in names]), _help(reading, tools), step=reading.step)


def _message(reading: Reading, named: list[Tool]) -> str:
    what, wanted = f"`{reading.what}`", tidy(reading.expect.text)
    measuring = [tool for tool in named if reaches(tool, reading)]
    if not measuring:
        if reading.named:
            return f"`{reading.named}` does not measure {what}: the value would be made up"
        return f"{what} is read here, and no instrument is named that measures it: the value would be made up"
    near = next((tool for tool in measuring if in_range(tool, reading)), None)
    if near and near.resolution:
        step = tidy(near.resolution.text)
        return f"`{near.id}` shows steps of {step}, and {wanted} is looked for: right and wrong read alike"
    spans = listed(tidy(reach.text) for reach in reaches(measuring[0], reading))
    return (
        f"`{measuring[0].id}` measures {what} in a range of {spans}, and {wanted} is looked for: it cannot tell right "
        "from wrong"
    )


def _help(reading: Reading, tools: Mapping[str, Tool]) -> str:
    able = [f"`{reading.write.format(tool.id)}`" for tool in tools.values() if can_read(tool, reading)]
    if able:
        return f"Write {listed(able, 'or')}."
    widths = [
        f"{tidy(tool.resolution.text)} (`{tool.id}`)"
        for tool in tools.values()
        if tool.resolution and in_range(tool, reading)
    ]
    wide = f"Look for a range at least as wide as {listed(widths, 'or')}, or give" if widths else "Give"
    return f"{wide} the instrument that reads it an entry in tools.yml."


RULE = Rule("unmeasurable-value", Level.ERROR, check, watch=watch)
