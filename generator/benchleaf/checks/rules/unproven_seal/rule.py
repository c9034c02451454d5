"""A case that was opened keeps water out when somebody has tried it, not when it looks closed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.inside import is_open
from benchleaf.findings import Level
from benchleaf.model.action import Release, Replace

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

CONSENT = "seal-rating"


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield a procedure that opens what keeps water or dust out, and after which nobody tries whether it still does."""
    if CONSENT in trace.procedure.consent:
        return
    breaks = _breaks(trace.world)
    for path in trace.paths(whole=True) if breaks else ():
        broken = [(at, seal) for at, moment in enumerate(path) for seal in _broken(trace.world, breaks, moment)[:1]]
        if broken and not _proven(trace.world, breaks, path[broken[-1][0] + 1 :]):
            first, seal = broken[0]
            yield _unproven(trace, path[first], seal)
            return


def _breaks(world: World) -> Mapping[str, list[str]]:
    """Return, by part, the parts that keep something out no longer when it leaves: all lids where a seal names none."""
    found: dict[str, list[str]] = {}
    for name, part in world.parts.items():
        if part.keeps_out:
            sealed = [seal.text for seal in part.seals] or sorted(world.lids.parts)
            for other in dict.fromkeys((name, *sealed)):
                found.setdefault(other, []).append(name)
    return found


def _broken(world: World, breaks: Mapping[str, list[str]], moment: Moment) -> list[str]:
    """Return the parts that keep something out no longer after *moment*."""
    before, after, action = moment.before, moment.after, moment.step.action
    left = [] if after.away is before.away else [name for name in after.away if name not in before.away]
    match action:
        case Replace(part=part):
            left += sorted(name for name in before.moving(part.text, world.family) if before.is_in(name))
        case Release(bond=bond) if bond.text in world.bonds:
            left.append(world.bonds[bond.text].part.text)
        case _:
            pass
    return [seal for name in left for seal in breaks.get(name, ())]


def _proven(world: World, breaks: Mapping[str, list[str]], later: Sequence[Moment]) -> bool:
    """Whether a leak check follows when all is in its place; what was left out is said by another rule."""
    return any(
        moment.step.check is not None
        and moment.step.check.kind == "leak"
        and (
            moment.kind == "prove"
            or not (is_open(world, moment.before) or any(name in moment.before.away for name in breaks))
        )
        for moment in later
    )


def _unproven(trace: Trace, moment: Moment, seal: str) -> Hit:
    # Where a level opens it, the proof is missing in the procedure all the same.
    own = moment.kind not in {"opening", "closing"}
    place = moment.step.action.place if own and moment.step.action else trace.procedure.title.place
    tester = next((tool.id for tool in trace.nature.tools.values() if "pressure" in tool.measures), None)
    with_it = f", with: {tester}" if tester else ""
    rating = trace.world.parts[seal].keeps_out
    return Hit(
        place,
        f"`{seal}` ({rating}) is opened, and no leak check follows when all is closed: nobody knows if it still holds",
        f"Write a check with `leak: ...{with_it}` under `prove`, or `consent: [{CONSENT}]` where the customer agrees.",
        step=moment.step if own else None,
        about=seal,
    )


RULE = Rule("unproven-seal", Level.ERROR, watch=watch)
