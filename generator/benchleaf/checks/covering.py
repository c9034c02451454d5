"""What disappears from sight when a part comes back: the whole inside under a shell, what is near under a shield."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.inside import in_place
from benchleaf.model.action import Fit, Heat, Replace

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.world import World

_CLOSES_IN = frozenset({"shell", "cover"})
_STANDS_OVER = frozenset({"shield"})


def cover(moment: Moment) -> str | None:
    """Return the part that comes back in *moment*, or None where none does."""
    match moment.step.action:
        case Fit(part=part) | Replace(part=part) | Heat(kind="solder", on=part):
            return part.text
        case _:
            return None


def covers(world: World, moment: Moment, over: str, part: str) -> bool:
    """Whether *over*, which comes back in *moment*, hides *part*: as a shell what is inside, as a shield its `near`."""
    known = world.parts.get(over)
    if known is None or part in world.family[over]:
        return False
    if known.kind in _STANDS_OVER:
        return any(near.part == part for near in world.near[over])
    return known.kind in _CLOSES_IN and in_place(world, moment.before, part)
