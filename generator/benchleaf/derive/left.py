"""What a piece of work leaves behind that the work after it was not performed with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.state import OUT, STORED

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World


def left(world: World, before: State, after: State) -> Iterator[str]:
    """
    Yield, as parts of a sentence, how *after* is worse to go on from than *before*.

    What is only better is not said: a part that has become dry, a capacitor that is empty, a pack that was renewed,
    a removed part that was put in its safe place.
    """
    yield from _moved(before, after)
    yield from _on_parts(before, after)
    for bond in _changed(before.freed, after.freed):
        yield f"the bond `{bond}` {'held' if bond in before.freed else 'open or not cured'}"
    for name in sorted(after.spent - before.spent):
        yield f"`{name}` spent"
    for name in _changed(before.damaged, after.damaged):
        if name in after.damaged:
            yield f"the pack `{name}` damaged"
    for name in sorted(after.charged - before.charged):
        yield f"`{name}` charged"
    for name in sorted({*after.unread} - before.charged - {*before.unread}):
        yield f"`{name}` emptied and not read"
    for name in sorted(after.old - before.old):
        yield f"the old `{name}` on the bench"
    if after.live and not before.live:
        yield "the device on"
    if len(world.batteries) > 1 and before.battery_seen - after.battery_seen:
        yield "a second pack that counts as unchecked"


def _moved(before: State, after: State) -> Iterator[str]:
    for name in _changed(before.away, after.away):
        if (before.away.get(name), after.away.get(name)) != (OUT, STORED):
            yield f"`{name}` {'out' if name in after.away else 'in'}"
    for name in sorted(before.alone ^ after.alone):
        if (name in before.away) == (name in after.away):
            yield f"`{name}` off what it is part of"
    for name in _changed(before.tray, after.tray):
        yield f"{after.tray.get(name, 0)} of `{name}` in the tray"
    for name in sorted(before.unplugged ^ after.unplugged):
        yield f"`{name}` {'unplugged' if name in after.unplugged else 'plugged'}"
    for name in sorted(before.isolated ^ after.isolated):
        yield f"the pack `{name}` {'isolated' if name in after.isolated else 'joined'}"
    if after.supplied is not None and after.supplied != before.supplied:
        yield "the device fed from outside"


def _on_parts(before: State, after: State) -> Iterator[str]:
    for name, wet in sorted(after.wet.items()):
        was = before.wet.get(name)
        if was is None or was.liquid != wet.liquid or was.left < wet.left:
            yield f"`{name}` wet"
    for (name, liquid), fume in sorted(after.fumes.items()):
        old = before.fumes.get((name, liquid))
        if old is None or old.wet.left < fume.wet.left:
            yield f"`{liquid}`{f' on `{name}`' if name else ''} that can still burn"
    for name, hot in sorted(after.hot.items()):
        known = before.hot.get(name)
        if known is None or known.cool - known.elapsed < hot.cool - hot.elapsed:
            yield f"`{name}` hot"


def _changed(before: Mapping[str, object], after: Mapping[str, object]) -> list[str]:
    return sorted(name for name in {*before, *after} if before.get(name) != after.get(name))
