"""What comes to a part that is still hot: a hand, a liquid, or the cover that closes it in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.covering import cover, covers
from benchleaf.checks.put_on import put_on
from benchleaf.checks.readiness import HOT, joins, with_left_over
from benchleaf.dryrun.inside import in_place
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.state import Hot, State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

HAND, LIQUID, COVER = "hand", "liquid", "cover"
# These are between the hand and the part.
_BETWEEN = frozenset({"grip", "pry", "brush", "cutter"})
# Nobody brushes, scrapes or trims with the bare hand.
_WITH_A_TOOL = frozenset({"brush", "scrape", "trim"})
_BEFORE_CLOSING = frozenset({"opening", "work"})


def met(trace: Trace, path: Sequence[Moment]) -> Iterator[tuple[Moment, str, tuple[str, ...]]]:
    """
    Yield each moment of *path* in which something comes to parts that are too hot for it, with what and the parts.

    What was said of a part is not said again while it cools, and what was handed over hot is not said of the closing.
    """
    said: dict[tuple[str, str], float] = {}
    for number, (moment, left) in enumerate(with_left_over(trace.world, path)):
        hot = moment.before.hot
        if not hot:
            continue
        known = {trouble.name for trouble in left if trouble.how == HOT}
        for how, names in _meetings(trace, moment):
            new = tuple(
                name for name in names
                if name not in known and not _cools_on(said.get((how, name)), hot[name])
                and not (how == COVER and _said_by_others(trace.world, path, number, name))
            )  # fmt: skip
            if new:
                said.update({(how, name): hot[name].elapsed for name in new})
                yield moment, how, new


def _cools_on(since: float | None, hot: Hot) -> bool:
    """Whether a part goes on cooling *since* something was said of it: the clock of one heated again starts anew."""
    return since is not None and hot.elapsed >= since


def _meetings(trace: Trace, moment: Moment) -> Iterator[tuple[str, list[str]]]:
    world, before = trace.world, moment.before
    burns = _held(trace, moment)
    yield HAND, sorted(
        name for name, hot in before.hot.items()
        if name in burns and hot.elapsed < hot.hand and not (name in world.packs and _by_its_lead(before, name))
    )  # fmt: skip
    wets = _wetted(trace, moment)
    yield LIQUID, sorted(wets & before.hot.keys())
    over = None if isinstance(moment.step.action, act.Heat) else cover(moment)
    if over is not None:
        yield COVER, sorted(name for name in before.hot if covers(world, moment, over, name))


def _by_its_lead(state: State, pack: str) -> bool:
    """Whether an iron heated *pack*: it touches the lead, and the hand takes the cell."""
    kinds = {touch.tool_kind for touch in state.touches if touch.part == pack}
    return kinds == {"iron"}


def _held(trace: Trace, moment: Moment) -> frozenset[str]:
    """Return what a hand takes in *moment*, each part with all that comes along; nothing where a tool does."""
    world, before = trace.world, moment.before
    match moment.step.action:
        case act.Remove(part=part) | act.Fit(part=part) | act.Store(part=part):
            name = part.text
        case act.Replace(part=part) if before.is_in(part.text):
            name = part.text
        case act.Renew(bond=bond) if bond.text in world.bonds:
            name = world.bonds[bond.text].part.text
        case act.Work(kind=kind, on=on) if on is not None and kind not in _WITH_A_TOOL:
            name = on.text
        case _:
            return frozenset()
    if any(trace.nature.kind(tool.text) in _BETWEEN for tool in moment.step.use):
        return frozenset()
    return before.moving(name, world.family)


def _wetted(trace: Trace, moment: Moment) -> frozenset[str]:
    """Return what a liquid comes to: the part, what is on it, and what it is on; flux belongs on a hot joint."""
    if isinstance(moment.step.action, act.Heat):
        return frozenset()
    world = trace.world
    found: set[str] = set()
    for liquid in put_on(moment.step):
        known = world.parts.get(liquid.part)
        if known is None or trace.nature.is_flux(liquid.material) or not trace.nature.components(liquid.material):
            continue
        found |= moment.before.moving(liquid.part, world.family)
        if known.part_of is not None:
            found.add(known.part_of.text)
    return frozenset(found)


def _said_by_others(world: World, path: Sequence[Moment], number: int, part: str) -> bool:
    """
    Whether other rules say that *part* is hot while it cools: on handing over, or on joining or feeding the device.

    One wait that is too short is one fault.
    """
    if _powers(world, path[number], part):
        return True
    for earlier in reversed(path[:number]):
        if part not in earlier.before.hot or earlier.before.hot[part].elapsed > path[number].before.hot[part].elapsed:
            break
        if _powers(world, earlier, part):
            return True
    return _later(world, path, number, part)


def _later(world: World, path: Sequence[Moment], number: int, part: str) -> bool:
    at_work = path[number].kind in _BEFORE_CLOSING
    for later in path[number + 1 :]:
        if part not in later.before.hot:
            return False
        if (at_work and later.kind not in _BEFORE_CLOSING) or _powers(world, later, part):
            return True
    return at_work and part in path[-1].after.hot


def _powers(world: World, moment: Moment, part: str) -> bool:
    """Whether *moment* joins or feeds a device that *part* is in."""
    action = moment.step.action
    on = (isinstance(action, act.Power) and action.on) or (isinstance(action, act.Supply) and bool(action.source))
    return (on or bool(joins(moment, world))) and in_place(world, moment.before, part)
