"""A charged capacitor looks like an empty one, and throws the hand that touches it into whatever is near."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.charges import READING, hand_on, is_on_its_board, is_unsure, much, risky
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Stores
    from benchleaf.model.words import Said


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield the first step of each way that handles a part before it is known to be empty."""
    kept = risky(trace.world)
    for path in trace.paths() if kept else ():
        said: set[str] = set()
        for moment in path:
            for name, stores in kept.items():
                unsure = is_unsure(moment.before, name) and name not in said
                hand = hand_on(trace.world, moment, name) if unsure else None
                if hand is not None:
                    said.add(name)
                    yield _hit(trace.world, moment, name, stores, hand)
            said = {name for name in said if is_unsure(moment.after, name)}


def _hit(world: World, moment: Moment, name: str, stores: Stores, hand: Said) -> Hit:
    beside = "" if hand.text == name else f" beside `{name}`"
    if beside and is_on_its_board(world, moment, hand.text, name):
        beside = f" with `{name}` on the same board"
    if name in moment.before.unread:
        known = f"nobody has read that it is empty: a bleed lead that makes no contact leaves {much(stores)} in it"
        cure = f"Write a step with {READING} after the one that discharges it and before this one."
    else:
        known = f"it may still hold {much(stores)}: enough to burn a hand and to throw it into the next sharp edge"
        off = (
            "Switch the device off: while it is on it fills the part again. Then write"
            if moment.before.live
            else "Write"
        )
        cure = f"{off} `discharge: {name}` and, after it, {READING} before this step."
    return Hit(hand.place, f"`{hand}` is handled{beside}, and {known}", cure, step=moment.step, about=name)


RULE = Rule("charged-capacitor", Level.ERROR, never_allowed=True, watch=watch)
