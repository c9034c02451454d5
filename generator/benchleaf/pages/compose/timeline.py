"""The picture of how a procedure goes: a lane for each state, a column for each step; drawn in black alone."""

from __future__ import annotations

import math
from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.pages.compose.site import variant_titles
from benchleaf.pages.parts import Only
from benchleaf.pages.sheet import Bar, Lane, Mark, TimelineView

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from benchleaf.derive.outcome import Outcome
    from benchleaf.derive.timeline import Stage
    from benchleaf.model.device import Device

# In units of the picture: the column of labels, a step, a lane, a bar in it, the head with the letters of the phases.
_LEFT, _STEP, _LANE, _BAR, _HEAD = 150, 24, 26, 14, 20
# A long procedure has narrower steps, so that its letters stay legible on a small monitor.
_WIDEST = 1000
_FULL = 1.0  # of a limit
_LANES: tuple[tuple[str, Callable[[Stage], float]], ...] = (
    ("Battery joined", lambda stage: float(bool(stage.joined))),
    ("Powered", lambda stage: float(stage.live)),
    ("Wet", lambda stage: float(stage.wet > 0)),
    ("Hot", lambda stage: float(stage.hot > 0)),
    ("Vapour, of its limit", lambda stage: min(stage.air or 0.0, _FULL)),
)


def timelines(device: Device | None, outcome: Outcome, numbers: Mapping[str, str]) -> tuple[TimelineView, ...]:
    """Return a picture for each group of variants that goes alike; *numbers* gives the number of each step."""
    several = len(outcome.timelines) > 1
    return tuple(
        _picture(stages, numbers, Only(" ".join(names), f"{variant_titles(device, names)} only") if several else None)
        for names, stages in outcome.timelines
        if stages
    )


def _picture(stages: Sequence[Stage], numbers: Mapping[str, str], only: Only | None) -> TimelineView:
    shown = [
        lane for lane in _LANES if lane[0] != "Battery joined" or any(stage.joined is not None for stage in stages)
    ]
    lanes = tuple(_lane(row, label, read, stages, numbers) for row, (label, read) in enumerate(shown))
    right, bottom = _LEFT + _step(stages) * len(stages), _HEAD + _LANE * len(lanes)
    said = "; ".join(f"{lane.label}: {lane.words}" for lane in lanes)
    return TimelineView(
        view_box=f"0 0 {right + 4} {bottom + 4}", left=str(_LEFT), right=str(right), bottom=str(bottom),
        label=f"How the procedure goes, step by step. {said}.", lanes=lanes, marks=tuple(_marks(stages, numbers)),
        only=only,
    )  # fmt: skip


def _lane(
    row: int, label: str, read: Callable[[Stage], float], stages: Sequence[Stage], numbers: Mapping[str, str]
) -> Lane:
    base, step = _HEAD + _LANE * row + _LANE - 5, _step(stages)
    bars, words = [], []
    for level, run in groupby(enumerate(stages), key=lambda at: read(at[1])):
        where = [number for number, _ in run]
        if level <= 0:
            continue
        height = max(2, round(_BAR * level))
        bars.append(Bar(str(_LEFT + step * where[0]), str(base - height), str(step * len(where)), str(height)))
        first, last = (numbers.get(stages[at].step, "") for at in (where[0], where[-1]))
        much = f" {max(1, math.ceil(100 * level - 1e-9))} %" if level < _FULL else ""
        words.append(f"{first if first == last else f'{first}–{last}'}{much}")
    of_a_limit = label.startswith("Vapour")
    return Lane(
        label, str(base), str(base), tuple(bars), ", ".join(words) or "never", str(base - _BAR) if of_a_limit else ""
    )


def _marks(stages: Sequence[Stage], numbers: Mapping[str, str]) -> Iterator[Mark]:
    for letter, run in groupby(enumerate(stages), key=lambda at: numbers.get(at[1].step, " ")[:1]):
        x = _LEFT + _step(stages) * next(run)[0]
        yield Mark(letter, str(x + 6), str(x))


def _step(stages: Sequence[Stage]) -> int:
    return max(4, min(_STEP, _WIDEST // len(stages)))
