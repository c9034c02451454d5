"""What a reader is told now, beside what was told: safety messages gained, lost or of another weight, and the time."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.callouts import Callout, callouts
from benchleaf.derive.compare.change import Change, Way

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.dryrun.performed import Bench
    from benchleaf.findings import Place
    from benchleaf.model.procedure import Procedure

LOOSER, STRICTER = Way.LOOSER, Way.STRICTER


@dataclass(frozen=True, slots=True)
class Told:
    """What the performances of a procedure tell: its messages by variant, and how long it takes on any, s."""

    messages: Mapping[str, tuple[Callout, ...]]
    low: float
    high: float


def told(bench: Bench, procedure: Procedure, units: Mapping[str, str]) -> Told | None:
    """Return what is told of *procedure*; None where it can be performed on no variant."""
    messages: dict[str, tuple[Callout, ...]] = {}
    low, high = [], []
    for trace in bench.perform(procedure):
        own = callouts(trace, units)
        messages.update(dict.fromkeys(trace.variants or ("any",), own))
        low.append(trace.end.low)
        high.append(trace.end.high)
    return Told(messages, min(low), max(high)) if messages else None


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of the steps of both states: new ids by old ones, places by new ids, which ways they changed."""

    ids: Mapping[str, str]
    places: Mapping[str, Place]
    ways: frozenset[Way]
    start: Place

    @property
    def stricter_alone(self) -> bool:
        """Whether the work, or what is known of the device, is stricter in something and looser in nothing."""
        return STRICTER in self.ways and LOOSER not in self.ways


def changes(old: Told, new: Told, known: Known) -> Iterator[Change]:
    """Yield which messages came, went, or changed their signal word; each once, with its variants where not on all."""
    both = [name for name in new.messages if name in old.messages]
    found: Counter[Change] = Counter()
    whose: dict[Change, list[str]] = {}
    for variant in both:
        for change in _on_one(old.messages[variant], new.messages[variant], known):
            found[change] += 1
            whose.setdefault(change, []).append(variant)
    for change, names in whose.items():
        on = "" if len(names) == len(both) else f" (on {', '.join(names)})"
        yield Change(change.kind, change.way, change.place, change.message + on, change.step, change.before,
                     change.after)  # fmt: skip


def _on_one(old: Iterable[Callout], new: Iterable[Callout], known: Known) -> Iterator[Change]:
    before, after = list(old), list(new)
    for exactly in (True, False):
        for one in list(before):
            match = next((other for other in after if other.hazard == one.hazard
                          and (not exactly or known.ids.get(one.step) == other.step)), None)  # fmt: skip
            if match:
                before.remove(one)
                after.remove(match)
                yield from _weight(one, match, known)
    for one in before:
        way = STRICTER if one.step not in known.ids or known.stricter_alone else LOOSER
        step = known.ids.get(one.step, "")
        said = f"{one.signal.upper()} of {one.hazard} is no longer said{f' before {step}' if step else ''}: {one.what}"
        yield Change("message", way, known.places.get(step, known.start), said, step, f"{one.signal} {one.hazard}")
    for one in after:
        kept = one.step in known.ids.values()
        way = STRICTER if kept and known.stricter_alone else LOOSER
        said = f"{one.signal.upper()} of {one.hazard} is said now before {one.step}: {one.what}"
        yield Change("message", way, known.places.get(one.step, known.start), said, one.step, "",
                     f"{one.signal} {one.hazard}")  # fmt: skip


def _weight(old: Callout, new: Callout, known: Known) -> Iterator[Change]:
    if old.signal == new.signal:
        return
    # A graver word: the work is more dangerous, or more is known of it. A milder one: the work is gentler, or less is.
    way = STRICTER if known.stricter_alone else LOOSER
    said = f"{new.hazard} before {new.step} is {new.signal.upper()}; it was {old.signal.upper()}: {new.what}"
    yield Change("message", way, known.places.get(new.step, known.start), said, new.step,
                 f"{old.signal} {old.hazard}", f"{new.signal} {new.hazard}")  # fmt: skip
