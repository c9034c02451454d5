"""What each step changed, as the dry run found it: the state after it, less the state before."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive import passing
from benchleaf.derive.news import Air, Now, Tray
from benchleaf.dryrun.state import DISCARDED, OUT
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.model.action import Replace, Store

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.derive.news import News, What
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

_RECORDS: dict[str, What] = {"photo": "photo", "note": "note", "reading": "reading"}


def after(traces: Sequence[Trace]) -> dict[str, tuple[tuple[News, tuple[str, ...]], ...]]:
    """
    Return, by step id, what each step changed in one procedure's straight passes, each with the variants it holds for.

    The variants are empty where it holds for all that the step is performed for.
    """
    told: dict[str, dict[News, list[str]]] = {}
    performed: dict[str, list[str]] = {}
    for trace in traces:
        for moment, news in changes(trace):
            performed.setdefault(moment.step.id, []).extend(trace.variants)
            here = told.setdefault(moment.step.id, {})
            for one in dict.fromkeys(news):
                here.setdefault(one, []).extend(trace.variants)
    return {
        step: tuple((one, () if names == performed[step] else tuple(names)) for one, names in several.items())
        for step, several in told.items()
    }


def changes(trace: Trace) -> Iterator[tuple[Moment, list[News]]]:
    """Yield each moment of the straight pass with what it changed."""
    releases = {id(air.moment): air.of_limits for air in at_the_bench(trace.nature, trace.straight)}
    for number, moment in enumerate(trace.straight):
        news = list(_device(trace.world, moment))
        news += passing.changes(trace, moment)
        if id(moment) in releases:
            news.append(Air(releases[id(moment)]))
        if moment.step.record:
            news.append(Now(_RECORDS[moment.step.record]))
        news += _level(trace.straight, number)
        yield moment, news


def _device(world: World, moment: Moment) -> Iterator[News]:
    before, after = moment.before, moment.after
    if before.power != after.power:
        yield Now("power on" if after.power else "power off")
    if before.supplied is not after.supplied and (before.supplied is None) != (after.supplied is None):
        yield Now("fed" if after.supplied else "not fed")
    if before.isolated != after.isolated or before.unplugged != after.unplugged:
        yield from _connections(world, before, after)
    if before.tray != after.tray:
        yield from _tray(world, before, after)
    if before.away != after.away or before.alone != after.alone or isinstance(moment.step.action, Replace):
        yield from _parts(moment)
    for name in sorted(after.spent - before.spent):
        yield Now("spent", (name,))
    if before.charged != after.charged:
        yield Now("discharged", tuple(sorted(before.charged - after.charged)))
    if len(after.damaged) > len(before.damaged) and not isinstance(moment.step.action, Store):
        hurt = [world.batteries[name].part.text for name in after.damaged if name not in before.damaged]
        yield Now("hurt", tuple(hurt))


def _connections(world: World, before: State, after: State) -> Iterator[News]:
    turned = before.isolated ^ after.isolated
    for name in sorted(turned):
        # Where there are several, the others are still as they were.
        part = () if len(world.batteries) == 1 else (world.batteries[name].part.text,)
        yield Now("isolated" if name in after.isolated else "joined", part)
    for name in sorted(before.unplugged ^ after.unplugged):
        if world.plugs.get(name) not in turned:
            yield Now("unplugged" if name in after.unplugged else "plugged", (name,))


def _tray(world: World, before: State, after: State) -> Iterator[News]:
    lying = {name: count for name, count in after.tray.items() if count > 0}
    for name in sorted({*before.tray, *after.tray}):
        if before.tray.get(name, 0) != after.tray.get(name, 0):
            own = lying.get(name, 0)
            known = world.fasteners.get(name)
            yield Tray(name, own, known.count if known else own, sum(lying.values()))


def _parts(moment: Moment) -> Iterator[News]:
    before, after, action = moment.before, moment.after, moment.step.action
    out: int | None = sum(1 for name in after.alone if after.away.get(name) == OUT)
    if not out and after.away:
        out = None  # What is put away is not in either.
    if isinstance(action, Replace):
        yield Now("new", (action.part.text,), out=out)
        return
    if isinstance(action, Store):
        yield Now("stored" if action.use_again else "set aside", (action.part.text,))
        return
    for name in sorted(after.alone ^ before.alone):
        what: What = "in" if name not in after.away else "set aside" if after.away[name] == DISCARDED else "out"
        yield Now(what, (name,), out=out)


def _level(moments: Sequence[Moment], number: int) -> Iterator[News]:
    """Yield the level that is reached with the last step of its opening, or of the closing of the one above."""
    moment = moments[number]
    following = moments[number + 1] if number + 1 < len(moments) else None
    if moment.level is None or (following and (following.kind, following.level) == (moment.kind, moment.level)):
        return
    yield Now("level", (moment.level.id if moment.kind == "opening" else moment.level.parent.text,))
