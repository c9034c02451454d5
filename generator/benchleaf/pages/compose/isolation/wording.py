"""Money, minutes, shares and states as the fault isolation sheet writes them; assets/isolation.js writes them alike."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.decisions.reason import percent, reason
from benchleaf.pages.compose.wording import held
from benchleaf.pages.parts import Share

if TYPE_CHECKING:
    from benchleaf.decisions import shares
    from benchleaf.decisions.diagnose import Answer

ARRIVED_AS = {
    "power": ("Power", {"on": "Switches on", "off": "Switched off", "dead": "Dead", "unknown": "Not known"}),
    "liquid": ("Liquid", {"none": "Dry", "water": "Fresh water", "sea-water": "Sea water", "unknown": "Not known"}),
    "battery": ("Battery", {"sound": "Sound", "swollen": "Swollen", "unknown": "Not known"}),
    "glass": ("Glass", {"whole": "Whole", "broken": "Broken"}),
}
"""How a device may arrive, in words, by what the format calls it."""


def money(value: float, currency: str) -> str:
    """Return a price or a cost."""
    return held(f"{value:.2f} {currency}")


def minutes(seconds: float) -> str:
    """Return whole minutes, rounded up: who plans by them is not late."""
    return held(f"{whole_minutes(seconds)} min")


def whole_minutes(seconds: float) -> int:
    """Return minutes rounded up, but for what floating point adds to a whole one."""
    return math.ceil(seconds / 60 - 1e-9)


def ends(share: shares.Share) -> str:
    """Return the interval of a share, rounded outward so that it only ever gets wider."""
    return held(f"{math.floor(100 * share.low)}–{math.ceil(100 * share.high)} %")


def drawn(share: shares.Share) -> Share:
    """Return a share as a bar with its interval below it."""
    return Share(
        held(percent(share.value)), f"{100 * share.value:.1f}", ends(share), f"{100 * share.low:.1f}",
        f"{100 * share.high:.1f}",
    )  # fmt: skip


def reason_of(answer: Answer) -> str:
    """Return why the plan begins as it does."""
    return reason(answer.plan, answer.titles, answer.currency) if answer.plan else ""
