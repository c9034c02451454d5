"""A screw that is too long for its hole goes on, with the force of the driver behind it, into what lies below."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Unscrew
from benchleaf.units.show import digits, tidy

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.device import Fastener

_INTO = {
    "battery": "a pierced pack burns",
    "display": "it breaks from behind",
    "board": "its tracks are cut or joined",
}
_SAME = 1e-6  # m: lengths in two units that differ by less are one length


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each step that brings out a second length of a thread while a hole of the shorter one lies over a part."""
    fasteners = trace.world.fasteners
    for moment, action in trace.acts(Unscrew):
        before, after = _loose(fasteners, moment.before.tray), _loose(fasteners, moment.after.tray)
        for short in (fastener for name, fastener in after.items() if fastener.under):
            longer = [other for other in after.values() if _fits_too_deep(other, short)]
            if not longer or (short.id in before and all(other.id in before for other in longer)):
                continue
            yield Hit(
                action.place,
                _message(short, longer),
                "Put one length back before the other comes out, have screws of one length, or allow it and say what "
                "keeps the lengths apart.",
                step=moment.step,
                about=short.id,
            )


def _loose(fasteners: Mapping[str, Fastener], tray: Mapping[str, int]) -> dict[str, Fastener]:
    """Return what lies in the tray: a captive screw stays in its own hole."""
    return {
        name: fasteners[name] for name in sorted(tray)
        if tray[name] > 0 and name in fasteners and not fasteners[name].captive
    }  # fmt: skip


def _fits_too_deep(one: Fastener, short: Fastener) -> bool:
    """Whether *one* has the thread of *short* and is longer."""
    if one.length is None or short.length is None or one.thread is None or short.thread is None:
        return False
    return _thread(one.thread) == _thread(short.thread) and one.length.middle > short.length.middle + _SAME


def _thread(written: str) -> str:
    return written.replace(" ", "").upper()


def _message(short: Fastener, longer: list[Fastener]) -> str:
    others = listed(_with_length(other) for other in longer)
    lie = "lies" if len(longer) == 1 else "lie"
    over = max(other.length.middle for other in longer if other.length) - (short.length.middle if short.length else 0.0)
    return (
        f"{others} {lie} in the tray with {_with_length(short)}, all {short.thread}, and the holes of `{short.id}` lie "
        f"over the {short.under}: a longer one goes {digits(over * 1e3, 2, math.ceil)} mm too deep there, and "
        f"{_INTO.get(short.under or '', 'what is there breaks')}"
    )


def _with_length(fastener: Fastener) -> str:
    return f"`{fastener.id}` ({tidy(fastener.length.text) if fastener.length else '?'})"


RULE = Rule("long-screw", Level.WARNING, watch=watch)
