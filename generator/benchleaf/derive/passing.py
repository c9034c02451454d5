"""What a step changed of what ends by time: wet, hot, and bonds that set."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.news import Now
from benchleaf.model.action import Bath, Heat, Release, Renew, Replace, Solvent, Wait

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.derive.news import News, What
    from benchleaf.dryrun.state import Fume, State
    from benchleaf.dryrun.trace import Moment, Trace


def changes(trace: Trace, moment: Moment) -> Iterator[News]:
    """Yield what *moment* wetted, heated, freed or bonded, what ended in it, and how a wait leaves what has not."""
    before, after = moment.before, moment.after
    if not (before.wet or after.wet or before.hot or after.hot or before.fumes or after.fumes):
        yield from _bonds(moment)
        return
    if before.wet or after.wet:
        yield from _wet(trace, moment)
        yield from _ended("dry", trace, moment, before.wet, after.wet)
    if before.hot or after.hot:
        yield from _hot(trace, moment)
        yield from _ended("cool", trace, moment, before.hot, after.hot)
    if before.fumes or after.fumes:
        yield from _fumes(trace, moment)
    yield from _bonds(moment)


def _replaced(trace: Trace, moment: Moment) -> frozenset[str]:
    """Return the parts that have gone with what was wet or hot on them."""
    action = moment.step.action
    if not isinstance(action, Replace):
        return frozenset()
    return moment.before.moving(action.part.text, trace.world.family)


def _wet(trace: Trace, moment: Moment) -> Iterator[News]:
    nature, before, after = trace.nature, moment.before.wet, moment.after.wet
    fresh = [name for name, wet in after.items() if wet is not before.get(name) and wet.left == 1.0]
    if isinstance(moment.step.action, Wait):
        fresh = [name for name, wet in after.items() if wet is not before.get(name)]
    if fresh:
        longest = max(nature.drying(trace.world, name, after[name]) * after[name].left for name in fresh)
        burns = any(nature.flammable(after[name].liquid) for name in fresh)
        yield Now("wet", _in_order(trace, moment, fresh), longest, burns)


def _fumes(trace: Trace, moment: Moment) -> Iterator[News]:
    """Yield what burns and lies where no part is wet with it, as the carrier of a flux does."""
    before, after = unseen(moment.before), unseen(moment.after)
    fresh = {key: fume.wet for key, fume in after.items() if key not in before and fume.step == moment.step.id}
    for (part, _), wet in fresh.items():
        left = trace.nature.drying(trace.world, part, wet) * wet.left
        yield Now("fuming", (part,) if part else (), left)
    gone = _replaced(trace, moment)
    for part in dict.fromkeys(part for part, liquid in before if (part, liquid) not in moment.after.fumes):
        if part not in gone:
            yield Now("clear", (part,) if part else ())


def unseen(state: State) -> dict[tuple[str, str], Fume]:
    """Return the fumes that no wet part stands for."""
    return {
        (part, liquid): fume
        for (part, liquid), fume in state.fumes.items()
        if not fume.seen and (part not in state.wet or state.wet[part].liquid != liquid)
    }


def _hot(trace: Trace, moment: Moment) -> Iterator[News]:
    before, after = moment.before.hot, moment.after.hot
    fresh = [name for name, hot in after.items() if hot is not before.get(name) and hot.elapsed == 0.0]
    if isinstance(moment.step.action, Wait):
        fresh = [name for name, hot in after.items() if hot is not before.get(name)]
    if fresh:
        yield Now("hot", _in_order(trace, moment, fresh), max(after[name].cool - after[name].elapsed for name in fresh))


def _ended(
    what: What, trace: Trace, moment: Moment, before: Mapping[str, object], after: Mapping[str, object]
) -> Iterator[News]:
    gone = _replaced(trace, moment)
    names = [name for name in before if name not in after and name not in gone]
    if names:
        yield Now(what, _in_order(trace, moment, names))


def _bonds(moment: Moment) -> Iterator[News]:
    before, after, action = moment.before.setting, moment.after.setting, moment.step.action
    if isinstance(action, Release):
        yield Now("free", (action.bond.text,))
    if isinstance(action, Renew) and action.bond.text not in after:
        yield Now("renewed", (action.bond.text,))
    for name, left in after.items():
        if before.get(name) != left and isinstance(action, Renew | Wait):
            yield Now("setting", (name,), left)
    for name in before:
        if name not in after and not isinstance(action, Release):
            yield Now("holds", (name,))


def _in_order(trace: Trace, moment: Moment, names: Iterable[str]) -> tuple[str, ...]:
    """Return *names* with the one first that the step names, then as the device lists them."""
    action, wanted = moment.step.action, dict.fromkeys(names)
    first = action.on.text if isinstance(action, Heat | Solvent | Bath) else ""
    return tuple(name for name in dict.fromkeys([first, *trace.world.parts, *wanted]) if name in wanted)
