"""A solvent washes away what a fault has left behind, and with it the only way to tell where it came from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Bath, Replace, Solvent

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

# What lies under one of these is seen when it has left, not before (common practice, no source).
_COVERS = frozenset({"shell", "cover", "window", "display", "shield", "board"})
_KEEPS = frozenset({"photo", "note"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield the first solvent or bath on each part that was not inspected and recorded before."""
    world = trace.world
    looked: frozenset[str] = frozenset()
    recorded: frozenset[str] = frozenset()
    washed: frozenset[str] = frozenset()
    # On a fail route nothing is washed for the first time: it goes back over what was performed.
    for moment in trace.straight:
        action = moment.step.action
        if isinstance(action, Solvent | Bath):
            part = action.on.text
            if part in world.parts and part not in washed | (looked & recorded):
                yield _hit(moment, action, looked=part in looked, new=part in moment.before.renewed)
            bathed = moment.before.moving(part, world.family) if isinstance(action, Bath) else frozenset({part})
            washed |= bathed
        if isinstance(action, Replace):
            new = moment.before.moving(action.part.text, world.family)
            looked, recorded, washed = looked - new, recorded - new, washed - new
        uncovered = _lifted(world, moment)
        if uncovered is not None:
            looked, recorded = looked & uncovered, recorded & uncovered
        if moment.step.check and moment.step.check.kind == "look":
            looked = frozenset(world.parts)
        if moment.step.record in _KEEPS:
            recorded = frozenset(world.parts)


def _lifted(world: World, moment: Moment) -> frozenset[str] | None:
    """Return what leaves in *moment*, where something lies under it that nobody could see; None where nothing does."""
    before, after = moment.before.away, moment.after.away
    if after is before:
        return None
    left = frozenset(name for name in after if name not in before)
    covers = any(name in world.lids.parts or world.parts[name].kind in _COVERS for name in left if name in world.parts)
    return left if covers else None


def _hit(moment: Moment, action: Solvent | Bath, *, looked: bool, new: bool) -> Hit:
    if looked:
        lacks, cure = "nobody has kept what was seen on it", "Write `record: photo` in the step that looks at it."
    else:
        lacks = f"nobody has looked at {'the new one' if new else 'it as it lies open now'}"
        cure = "Write a step with `check: {look: ..., if_not: ...}` and `record: photo` before this one."
    lost = "what it came with" if new else "what the fault left behind"
    return Hit(
        action.place,
        f"`{action.on}` is washed here for the first time, and {lacks}: {lost} is gone",
        cure,
        step=moment.step,
        about=action.on.text,
    )


RULE = Rule("washed-evidence", Level.WARNING, watch=watch)
