"""What a tool, or the air of a cabinet, brings to its own temperature, and what those parts bear."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.hot import in_the_air
from benchleaf.model.action import Heat, Wait

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Limit

# What lies on these is at their temperature with all that is part of it; a stream of hot air is aimed.
_ALL_OVER = frozenset({"heat-mat", "oven", "plate"})


@dataclass(frozen=True, slots=True)
class Body:
    """A part whose body is heated in a step: how hot it becomes, °C, and what it bears."""

    moment: Moment
    action: Heat | Wait
    part: str
    reached: float
    limit: Limit

    @property
    def too_hot(self) -> bool:
        """Whether it becomes hotter than it bears."""
        return self.reached > self.limit.at.low


def bodies(world: World, nature: Nature, moments: Iterable[Moment]) -> Iterator[Body]:
    """Yield each part with a limit that is heated in *moments*; an iron is judged at the joint and heats no body."""
    for moment in moments:
        action = moment.step.action
        if isinstance(action, Heat) and nature.kind(action.tool.text) != "iron":
            names, reached = heated_with(world, nature, moment.before, action), nature.source(action)
        elif isinstance(action, Wait) and action.at is not None:
            names, reached = in_the_air(world, moment.before), action.at.high
        else:
            continue
        for name in names:
            limit = world.parts[name].heat_limit if name in world.parts else None
            if limit is not None:
                yield Body(moment, action, name, reached, limit)


def heated_with(world: World, nature: Nature, state: State, action: Heat) -> tuple[str, ...]:
    """Return what *action* brings to its own temperature: its part, and on a mat all that is with it."""
    own = action.on.text
    if nature.kind(action.tool.text) not in _ALL_OVER:
        return (own,)
    return tuple(sorted({own, *state.moving(own, world.family)}))
