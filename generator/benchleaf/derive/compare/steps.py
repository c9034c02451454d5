"""What is done in a procedure now, beside what was done: steps, checks, proofs, cautions, exceptions."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.derive.compare import acts, match
from benchleaf.derive.compare.change import Change, Spot, Way
from benchleaf.model.step import GoTo, Repeat, Stop
from benchleaf.units.quantity import Quantity
from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.derive.compare.match import Pair
    from benchleaf.findings import Place
    from benchleaf.model.step import Check, Step
    from benchleaf.model.step import Way as WayOn

LOOSER, STRICTER, OTHER = Way.LOOSER, Way.STRICTER, Way.OTHER


def changes(pairs: Sequence[Pair], kind: str, start: Place) -> Iterator[Change]:
    """
    Yield what differs in a list of steps; `kind` is opening, work, closing or prove.

    What is gone is placed where it was: at the step before, or at *start*.
    """
    place = start
    proof = "proof" if kind == "prove" else "check"
    for old, new in pairs:
        if new is None:
            yield from _gone(old, proof, place)
            continue
        place = new.place
        yield from _new(new, proof) if old is None else _kept(old, new, proof)
    yield from _order(pairs)


def _order(pairs: Sequence[Pair]) -> Iterator[Change]:
    """Yield each step that is done later than it was: looser where what guards and what endangers changed places."""
    kept = [(old, new) for old, new in pairs if old and new]
    for spot, (old, new) in enumerate(kept):
        passed = [other for other, _ in kept[:spot] if other.place > old.place]
        if passed:
            guards = any(acts.matters_before(old, other) or acts.matters_before(other, old) for other in passed)
            said = f"done later than it was, after “{passed[-1].do}”"
            yield Spot("order", new.place, new.id).say(LOOSER if guards else OTHER, said)


def _gone(old: Step | None, proof: str, place: Place) -> Iterator[Change]:
    """Yield what is lost with a step: its check, else what it did, else its words."""
    if old is None:
        return
    if old.check:
        yield _lost(old.check, proof, place, f"gone with the step “{old.do}”")
    if old.action:
        what = acts.named(old.action)
        said = f"{what} is gone with the step “{old.do}”"
        yield Change("wait" if what.startswith("the wait") else "step", acts.without(old.action), place, said, "", what)
    if not (old.check or old.action):
        yield Change("step", OTHER, place, f"a step is gone: “{old.do}”", "", old.do.text)


def _new(new: Step, proof: str) -> Iterator[Change]:
    if new.check:
        yield _won(new.check, proof, new)
    if new.action:
        yield from acts.changed_for(None, new.action, new)
    if not (new.check or new.action):
        yield Change("step", OTHER, new.place, f"{new.id} is new: “{new.do}”", new.id, "", new.do.text)
    yield from exceptions(None, new)


def _kept(old: Step, new: Step, proof: str) -> Iterator[Change]:
    yield from acts.action(old, new)
    yield from _check(old.check, new.check, proof, new)
    yield from _cautions(old, new)
    yield from exceptions(old, new)
    if old.irreversible != new.irreversible:
        way, word = (STRICTER, "now") if new.irreversible else (LOOSER, "no longer")
        yield Change("caution", way, new.place, f"{new.id} is {word} said to be irreversible", new.id)
    before, after = _only(old), _only(new)
    if before != after:
        yield from _for_fewer(before, after, new)


def _only(step: Step) -> frozenset[str] | None:
    return None if step.only is None else frozenset(name.text for name in step.only.names)


def _for_fewer(before: frozenset[str] | None, after: frozenset[str] | None, new: Step) -> Iterator[Change]:
    shrunk = before is None or (after is not None and not before <= after)
    lost = OTHER if new.action is None else acts.without(new.action)
    way = (LOOSER if new.check else lost) if shrunk else OTHER
    old, now = (", ".join(sorted(names)) if names is not None else "all variants" for names in (before, after))
    yield Change("variants", way, new.place, f"{new.id} is done on {now}; it was {old}", new.id, old, now)


def _check(old: Check | None, new: Check | None, proof: str, step: Step) -> Iterator[Change]:
    if old is not None and (new is None or not _same_check(old, new)):
        yield _lost(old, proof, step.place, f"gone from {step.id}")
        old = None
    if new is None:
        return
    if old is None:
        yield _won(new, proof, step)
        return
    if old.what.text != new.what.text and new.kind == "look":
        said = f"{step.id}: the look is “{new.what}”; it was “{old.what}”"
        yield Change(proof, OTHER, new.place, said, step.id, old.what.text, new.what.text)
    yield from _expected(old, new, proof, step.id)
    if old.shows != new.shows:
        way = LOOSER if old.shows is None else STRICTER if new.shows is None else OTHER
        said = f"{step.id}: the look shows {new.shows or 'no end of a state'}; it was {old.shows or 'none'}"
        yield Change(proof, way, new.place, said, step.id, old.shows or "", new.shows or "")
    before, after = _way_on(old.if_not), _way_on(new.if_not)
    if before != after:
        way = LOOSER if new.if_not is None else STRICTER if old.if_not is None else OTHER
        said = f"{step.id}: where the {proof} fails, {after}; it was: {before}"
        yield Change(proof, way, new.place, said, step.id, before, after)


def _same_check(old: Check, new: Check) -> bool:
    if old.kind != new.kind:
        return False
    # A leak is named by its limit alone, a look by its words.
    alike = old.kind == "look" and match.reads_alike(old.what.text, new.what.text)
    return alike or old.kind == "leak" or old.what.text == new.what.text


def _lost(check: Check, proof: str, place: Place, where: str) -> Change:
    what = worded(check)
    return Change(proof, LOOSER, place, f"the {proof} “{what}” is {where}", "", what)


def _won(check: Check, proof: str, step: Step) -> Change:
    what = worded(check)
    return Change(proof, STRICTER, check.place, f"{step.id}: the {proof} “{what}” is new", step.id, "", what)


def worded(check: Check) -> str:
    """Return what *check* asks for, in a few words."""
    expect = tidy(check.expect.text) if isinstance(check.expect, Quantity) else check.expect or ""
    match check.kind:
        case "look":
            return check.what.text
        case "gone":
            return f"{check.what} is gone"
        case "battery":
            return f"{check.what} of the battery {expect}".rstrip()
        case "leak":
            return f"leak {tidy(check.what.text)}"
    return f"{check.what} {expect}".rstrip()


def _expected(old: Check, new: Check, proof: str, step: str) -> Iterator[Change]:
    before, after = (
        tidy(one.expect.text) if isinstance(one.expect, Quantity) else one.expect or "" for one in (old, new)
    )
    if old.expect == new.expect:
        return
    way = OTHER
    if isinstance(old.expect, Quantity) and isinstance(new.expect, Quantity):
        way = _window(old.expect, new.expect)
    elif not (before and after):
        way = STRICTER if after else LOOSER
    what = "the leak" if new.kind == "leak" else new.what
    said = f"{step}: what is wanted of {what} is {after or 'no longer given'}; it was {before or 'not given'}"
    yield Change(proof, way, new.place, said, step, before, after)


def _window(old: Quantity, new: Quantity) -> Way:
    """Return looser where *new* lets through what *old* did not, on either side."""
    if old.dimension != new.dimension:
        return OTHER
    below = new.low < old.low and not math.isclose(new.low, old.low, rel_tol=1e-9)
    above = new.high > old.high and not math.isclose(new.high, old.high, rel_tol=1e-9)
    return LOOSER if below or above else STRICTER


def _way_on(way: WayOn | None) -> str:
    match way:
        case None:
            return "nothing is said"
        case Stop():
            return "the work stops"
        case GoTo(procedure=procedure):
            return f"go to {procedure}"
        case Repeat(step=step, times=times, then=then):
            return f"repeat {step} {times} times, then {_way_on(then) if then else 'the work stops'}"


def _cautions(old: Step, new: Step) -> Iterator[Change]:
    for one in old.cautions:
        if not any(one.hazard == other.hazard and match.reads_alike(one.text.text, other.text.text)
                   for other in new.cautions):  # fmt: skip
            said = f"{new.id}: the author's caution of {one.hazard} is gone: “{one.text}”"
            yield Change("caution", LOOSER, new.place, said, new.id, one.text.text)
    for other in new.cautions:
        if not any(one.hazard == other.hazard and match.reads_alike(one.text.text, other.text.text)
                   for one in old.cautions):  # fmt: skip
            said = f"{new.id}: a caution of {other.hazard} is new: “{other.text}”"
            yield Change("caution", STRICTER, other.text.place, said, new.id, "", other.text.text)


def exceptions(old: Step | None, new: Step) -> Iterator[Change]:
    """Yield which findings are allowed now, or no longer, in the step *new*."""
    before = {one.rule.text for one in old.allow} if old else set()
    for one in new.allow:
        if one.rule.text not in before:
            said = f"{new.id}: {one.rule} is allowed now, because: {one.because or 'no reason is given'}"
            yield Change("exception", LOOSER, one.place, said, new.id, "", one.rule.text)
    now = {one.rule.text for one in new.allow}
    for rule in sorted(before - now):
        yield Change("exception", STRICTER, new.place, f"{new.id}: {rule} is allowed no longer", new.id, rule)
