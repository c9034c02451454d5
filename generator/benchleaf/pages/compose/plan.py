"""The fastener plan: where each screw is, its kind by letter and line style, so that it prints in black."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.pages.device import PlanHole, PlanLeader, PlanOutline, PlanView

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.device import Device

LINES = ("thin", "dashed", "heavy", "dotted", "double")

# In units of 0.1 mm: room for the letters at the right, the size of a hole, of a letter, and the least gap of two.
_UNIT, _MARGIN, _COLUMN, _HOLE, _TEXT, _GAP = 1e-4, 40, 330, 17, 44, 62


def plan(device: Device, letters: Mapping[str, str], lines: Mapping[str, str]) -> PlanView | None:
    """Return the plan of *device*, or None where its screws' places are not given."""
    given = device.plan
    if given is None:
        return None
    width, height = (round(side.high / _UNIT) for side in given.size)
    holes, leaders, counts = [], [], []
    column = _MARGIN + width + _MARGIN
    last = _MARGIN - _GAP
    for name, points in sorted(given.at.items(), key=lambda item: min((y for _, y in item[1]), default=0.0)):
        if name not in letters or not points:
            continue
        fastener, letter = device.fasteners[name], letters[name]
        placed = [(_MARGIN + round(x * 10), _MARGIN + round(y * 10)) for x, y in points]
        holes += [PlanHole(str(x), str(y), str(_HOLE), lines[name], letter) for x, y in placed]
        # The letter stands level with the rightmost hole where there is room, else below the one before.
        x, y = max(placed, key=lambda point: (point[0], -point[1]))
        last = max(y, last + _GAP)
        note = f"over the {fastener.under}" if fastener.under else ""
        leaders.append(PlanLeader(str(x + _HOLE), str(y), str(column), str(last), letter, str(column + 14),
                                  str(last + _TEXT // 3), note))  # fmt: skip
        counts.append((letter, len(points), lines[name]))
    if not holes:
        return None
    counts.sort()
    tall = max(_MARGIN + height + _MARGIN, last + _GAP)
    return PlanView(
        view_box=f"0 0 {column + _COLUMN} {tall}",
        text_size=str(_TEXT),
        label="Screws seen from the opened side: "
        + ", ".join(f"{count} of item {letter}" for letter, count, _ in counts),
        caption="Seen from the opened side. " + ", ".join(f"{letter} {line}" for letter, _, line in counts) + ".",
        outlines=(PlanOutline(str(_MARGIN), str(_MARGIN), str(width), str(height)),),
        holes=tuple(holes),
        leaders=tuple(leaders),
    )
