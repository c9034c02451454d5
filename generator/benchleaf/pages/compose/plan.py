"""The fastener plan: where each screw is, its kind by letter and line style, so that it prints in black."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.pages.device import PlanHole, PlanLeader, PlanOutline, PlanView

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.device import Device, Fastener
    from benchleaf.pages.compose.limits import Limits

LINES = ("thin", "dashed", "heavy", "dotted", "double")

# In units of 0.1 mm: the edge around, the size of a hole, and of a letter of a small device.
_UNIT, _EDGE, _HOLE, _TEXT = 1e-4, 40, 17, 44
# A letter is no smaller than these shares of the plan's width and height, so that it can be read on a phone.
_ACROSS, _DOWN = 28, 48
# In letters: how wide one of them is on average, the line to the first one, the least gap of two, the longest note.
_LETTER, _LEAD, _GAP, _LONGEST = 0.58, 0.35, 1.4, 20


def plan(device: Device, letters: Mapping[str, str], lines: Mapping[str, str], limits: Limits) -> PlanView | None:
    """Return the plan of *device*, or None where its screws' places are not given."""
    given = device.plan
    at = {name: points for name, points in given.at.items() if name in letters and points} if given else {}
    if given is None or not at:
        return None
    width, height = (round(side.high / _UNIT) for side in given.size)
    notes = {name: _note(device.fasteners[name]) for name in at}
    # The letters go by the width of the plan, which they are part of.
    words = _LEAD + _LETTER * max(2 + len(note) for note in notes.values())
    text = max(_TEXT, math.ceil((3 * _EDGE + width) / (_ACROSS - words)), math.ceil((2 * _EDGE + height) / _DOWN))
    hole, gap = max(_HOLE, round(text * 0.36)), round(_GAP * text)
    shared = [line for line in lines.values() if list(lines.values()).count(line) > 1]
    holes, leaders = [], []
    column = _EDGE + width + _EDGE
    last = _EDGE - gap
    for name, points in sorted(at.items(), key=lambda item: min(y for _, y in item[1])):
        placed = [(_EDGE + round(x * 10), _EDGE + round(y * 10)) for x, y in points]
        for x, y in placed:
            beside = (str(x + hole + text // 6), str(y + text // 3)) if lines[name] in shared else ("", "")
            holes.append(PlanHole(str(x), str(y), str(hole), lines[name], letters[name], *beside))
        # The letter stands level with the rightmost hole where there is room, else below the one before.
        x, y = max(placed, key=lambda point: (point[0], -point[1]))
        last = max(y, last + gap)
        leaders.append(PlanLeader(str(x + hole), str(y), str(column), str(last), letters[name],
                                  str(column + round(_LEAD * text)), str(last + text // 3), notes[name]))  # fmt: skip
    named = sorted((letters[name], name) for name in at)
    return PlanView(
        view_box=f"0 0 {column + math.ceil(words * text)} {max(_EDGE + height + _EDGE, last + gap)}",
        text_size=str(text),
        label="Screws seen from the opened side: "
        + ", ".join(f"{len(at[name])} of item {letter}" for letter, name in named),
        caption="Seen from the opened side. "
        + "; ".join(f"{letter}: {', '.join(filter(None, (limits.size(device.fasteners[name]), lines[name])))}"
                    for letter, name in named)
        + ".",
        outlines=(PlanOutline(str(_EDGE), str(_EDGE), str(width), str(height)),),
        holes=tuple(holes),
        leaders=tuple(leaders),
    )  # fmt: skip


def _note(fastener: Fastener) -> str:
    note = f"over the {fastener.under}" if fastener.under else ""
    return note if len(note) <= _LONGEST else f"{note[: _LONGEST - 1]}…"
