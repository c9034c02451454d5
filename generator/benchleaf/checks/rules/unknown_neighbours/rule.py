"""What nobody named as near gets as hot as what was named, and no rule sees it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.hot_work import hot_work
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.beside import by_itself
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part that is heated where others are, and has no list of what is near."""
    for moment, _, part in hot_work(trace):
        if part.near is None and not by_itself(trace.world, moment.before, part.id):
            yield Hit(
                part.place,
                f"`{part.id}` is heated and nobody says what is beside it: a battery there would be warmed unseen",
                "Write what is beside it and how far, edge to edge: `near: {battery: 38 mm}`; `near: {}` where nothing "
                "is.",
            )


RULE = Rule("unknown-neighbours", Level.WARNING, watch=watch)
