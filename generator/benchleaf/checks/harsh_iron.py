"""An iron on a joint of which nobody says what it bears: judged by the solder, or by what ceramic chips bear."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.reflow import is_ceramic_chip, preheated, touched
from benchleaf.checks.rule import Hit
from benchleaf.physics import profile

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.library.alloys import Alloy
    from benchleaf.model.action import Heat
    from benchleaf.model.device import Part


def iron(trace: Trace) -> Iterator[Hit]:
    """Yield each touch beyond what is usual; a `joint_limit` says it better, in temperature and in time."""
    for moment, action, part, alloys in touched(trace):
        limit = part.joint_limit
        if limit is None and is_ceramic_chip(trace, part):
            yield from _chip(moment, action, part)
        elif limit is None and alloys:
            yield from _tip(moment, action, part, alloys)
        if alloys and (limit is None or limit.lasts is None) and action.lasts.high > profile.LONGEST_TOUCH:
            yield Hit(
                action.place,
                f"A touch on the joints of `{part.id}` lasts {action.lasts.text}, and {profile.LONGEST_TOUCH:g} s is "
                "the most that is usual (common practice): the pad lifts",
                f"Write at most {profile.LONGEST_TOUCH:g} s, and more touches with a pause between; or give the joints "
                "a `joint_limit` with its time.",
                step=moment.step,
                about="touch",
            )


def _tip(moment: Moment, action: Heat, part: Part, alloys: tuple[Alloy, ...]) -> Iterator[Hit]:
    # Where two solders are in one joint, both must melt.
    most = max(profile.most_iron(alloy) for alloy in alloys)
    if action.at.high > most:
        names = listed(alloy.id for alloy in alloys)
        yield Hit(
            action.place,
            f"The iron is at {action.at.text}, more than {profile.MOST_OVER_LIQUIDUS:g} K above the liquidus of {names}"
            f", which is usual at the most (common practice), and nobody says what the joints of `{part.id}` bear: the "
            "pad lifts",
            f"Write at most {math.floor(most)} °C, or give the joints their `joint_limit`.",
            step=moment.step,
            about="tip",
        )


def _chip(moment: Moment, action: Heat, part: Part) -> Iterator[Hit]:
    """Yield a tip that cracks a ceramic chip; its size is not known, so it is judged as the largest."""
    warm = profile.chip_tip_limit(preheated=True)
    gap = action.at.high - profile.PREHEAT_GAP
    most = warm if preheated(moment, part, gap) else profile.chip_tip_limit(preheated=False)
    if action.at.high > most:
        cold = profile.chip_tip_limit(preheated=False)
        yield Hit(
            action.place,
            f"The iron is at {action.at.text}, and `{part.id}` is a ceramic chip: one maker's largest bear a tip of "
            f"{cold:g} °C on a cold board and {warm:g} °C on one that is preheated, and crack above",
            f"Write at most {cold:g} °C; or at most {warm:g} °C, right after a plate has brought the board to within "
            f"{profile.PREHEAT_GAP:g} K of that; or give the chip its maker's `joint_limit`.",
            step=moment.step,
            about="tip",
        )
