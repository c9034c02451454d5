"""What the head of a procedure says now, beside what it said: how the device may arrive, consents, what comes after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Change, Spot, Way
from benchleaf.derive.compare.match import reads_alike

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.model.procedure import Procedure

LOOSER, STRICTER, OTHER = Way.LOOSER, Way.STRICTER, Way.OTHER
# How a device may arrive that asks for more care than the other ways.
_WORSE = {"liquid": ("unknown", "sea-water", "water"), "battery": ("unknown", "swollen"), "glass": ("broken",)}


def differences(old: Procedure, new: Procedure) -> Iterator[Change]:
    """Yield how the head of *new* differs from that of *old*."""
    place = new.title.place
    if (old.device, old.id) != (new.device, new.id):
        before, after = f"{old.device}/{old.id}", f"{new.device}/{new.id}"
        yield Spot("moved", place).say(OTHER, f"{after} was {before}", before, after)
    for what in ("status", "purpose", "access"):
        yield from Spot(what, place).words(f"the {what}", getattr(old, what), getattr(new, what))
    if new.revision < old.revision:
        yield from Spot("revision", place).words("the revision", old.revision, new.revision)
    yield from _arrives(old, new)
    yield from _listed(Spot("consent", place), old.consent, new.consent,
                       "nobody is asked any more for consent to {}", "consent to {} is asked for")  # fmt: skip
    was, now = ([str(part) for part in one.hands_back.without] if one.hands_back else [] for one in (old, new))
    yield from _listed(Spot("part", place), now, was, "the device is handed back without {}",
                       "the device is no longer handed back without {}")  # fmt: skip
    yield from _listed(Spot("aftercare", place), old.aftercare, new.aftercare,
                       "the customer is no longer told: “{}”", "the customer is told: “{}”")  # fmt: skip


def _listed(spot: Spot, old: Sequence[str], new: Sequence[str], lost: str, won: str) -> Iterator[Change]:
    """Yield what a list lost, which is looser, and what it won; a sentence in other words is neither."""
    for one in old:
        if not any(one == other or (" " in one and reads_alike(one, other)) for other in new):
            yield spot.say(LOOSER, lost.format(one), one)
    for one in new:
        if not any(one == other or (" " in one and reads_alike(one, other)) for other in old):
            yield spot.say(STRICTER, won.format(one), "", one)


def _arrives(old: Procedure, new: Procedure) -> Iterator[Change]:
    for what in ("power", "liquid", "battery", "glass"):
        before, after = getattr(old.arrives, what), getattr(new.arrives, what)
        if before != after:
            worse = _WORSE.get(what, ())
            # Care is taken of what may be: to expect a sound device is to take less of it.
            way = OTHER if (before in worse) == (after in worse) else LOOSER if before in worse else STRICTER
            said = f"the device arrives with {what} {after}; it was {before}"
            yield Spot("arrival", new.title.place).say(way, said, before, after)
