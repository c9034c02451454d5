"""Two knowledge bases in, one comparison out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from benchleaf.derive.compare import match, steps, told
from benchleaf.derive.compare.change import Change, Way, merged
from benchleaf.derive.compare.comparison import Compared, Comparison
from benchleaf.derive.compare.facts import Facts, facts
from benchleaf.derive.compare.procedures import differences
from benchleaf.derive.compare.state import State
from benchleaf.findings import Place
from benchleaf.model.times import Span
from benchleaf.units.show import interval

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.derive.compare.match import Pair
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure

LOOSER, OTHER = Way.LOOSER, Way.OTHER


def compared(against: str, old: KnowledgeBase, new: KnowledgeBase, differ: frozenset[str], docs: str) -> Comparison:
    """
    Return what the change from *old* to *new* did to safety, procedure by procedure.

    *differ* are the paths of files whose bytes are others: what depends on none of them is not looked at. *docs* is the
    folder of the knowledge base in the new state.
    """
    units = new.shop.units if new.shop else {}
    comparing = _Comparing(State(old, units), State(new, units), facts(old, new, f"{docs}/shop.yml"))
    same = match.procedures(comparing.still_read, new.procedures)
    found, seen = list(comparing.facts.everything()), []
    for here, there in (
        *same.items(),
        *((key, None) for key in sorted(old.procedures.keys() - same.keys())),
        *((None, key) for key in sorted(new.procedures.keys() - set(same.values()))),
    ):
        one, other = old.procedures[here] if here else None, new.procedures[there] if there else None
        if one and other and one.path == other.path and not differ & {one.path, *comparing.new.paths_of(other, docs)}:
            continue
        name = _name(other or one)
        if own := [replace(change, procedures=(name,)) for change in comparing.procedure(one, other)]:
            found += own
            seen.append(comparing.head(one, other, own))
    return Comparison(against, merged(found), tuple(sorted(seen, key=lambda one: one.name)))


def _name(procedure: Procedure | None) -> str:
    return f"{procedure.device}/{procedure.id}" if procedure else ""


class _Comparing:
    """Both states, and what they say once."""

    def __init__(self, old: State, new: State, known: Facts) -> None:
        self.old, self.new, self.facts = old, new, known

    @property
    def still_read(self) -> dict[tuple[str, str], Procedure]:
        """The old procedures but those whose file can no longer be read: none of another name is one of these."""
        new = self.new.base
        return {key: one for key, one in self.old.base.procedures.items() if not new.is_broken("procedure", *key)}

    def procedure(self, old: Procedure | None, new: Procedure | None) -> Iterator[Change]:
        """Yield what differs of one procedure, which a state may be without."""
        if old and new:
            yield from self._both(old, new)
        elif old:
            yield self._lost(old)
        elif new:
            broken = self.old.base.is_broken("procedure", new.device, new.id)
            why = "could not be read before" if broken else "is new"
            said = f"{_name(new)} {why}: there is nothing to compare it with"
            yield Change("procedure", OTHER, new.title.place, said, "", "", _name(new))

    def _lost(self, old: Procedure) -> Change:
        place, name = Place(old.path, 1, 1, 2), _name(old)
        if self.new.base.is_broken("procedure", old.device, old.id):
            said = f"{name} can no longer be performed: its file cannot be read, `benchleaf check` says why"
            return Change("performance", LOOSER, place, said, "", name)
        return Change("procedure", OTHER, place, f"{name} is gone", "", name)

    def _both(self, old: Procedure, new: Procedure) -> Iterator[Change]:
        own = list(differences(old, new))
        if new.status == "withdrawn":
            yield from own
            return
        start = new.title.place
        work, proofs = match.steps(old.steps, new.steps), match.steps(old.prove, new.prove)
        own += (*steps.changes(work, "work", start), *steps.changes(proofs, "prove", start))
        own += self.facts.bearing(new, self.old.touched(old) | self.new.touched(new))
        yield from own
        yield from self._performed(old, new, own, (*work, *proofs, *self.facts.pairs(new)))

    def _performed(self, old: Procedure, new: Procedure, own: list[Change], pairs: Iterable[Pair]) -> Iterator[Change]:
        before, after, start, name = self.old.told(old), self.new.told(new), new.title.place, _name(new)
        variants = [", ".join(one) for one in (self.old.base.variants_of(old), self.new.base.variants_of(new))]
        if after is None:
            if before is not None:
                yield Change("performance", LOOSER, start, f"{name} can no longer be performed: {self._why(new)}", "",
                             name)  # fmt: skip
            return
        if before is None:
            said = f"{name} can be performed, which it could not be before"
            yield Change("performance", OTHER, start, said, "", "", name)
            return
        both = [(one, other) for one, other in pairs if one and other]
        known = told.Known(
            {one.id: other.id for one, other in both},
            {step.id: step.place for _, step in pairs if step},
            frozenset(change.way for change in own),
            start,
        )
        messages = list(told.changes(before, after, known))
        yield from messages
        if variants[0] != variants[1]:
            said = f"{name} is for {variants[1]}; it was for {variants[0]}"
            yield Change("variants", OTHER, start, said, "", variants[0], variants[1])
        times = [interval(one.low, one.high) for one in (before, after)]
        # Where something else differs, that says why: the new time stands in the procedure's own line.
        if (before.low, before.high) != (after.low, after.high) and not (own or messages or variants[0] != variants[1]):
            yield Change("time", OTHER, start, f"{name} takes {times[1]}; it took {times[0]}", "",
                         times[0], times[1])  # fmt: skip

    def _why(self, new: Procedure) -> str:
        """Return why *new* cannot be performed, though its own file can be read."""
        base = self.new.base
        if new.device not in base.devices:
            broken = base.is_broken("device", new.device, new.device)
            return f"the device {new.device} {'cannot be read' if broken else 'is gone'}"
        if not base.variants_of(new):
            return "no variant is left that it is for"
        return f"{new.device} has no level {new.access} any more"

    def head(self, old: Procedure | None, new: Procedure | None, own: Iterable[Change]) -> Compared:
        """Return the line of a procedure: revision, status, time and variants in both states."""
        before, after = (self.old.told(old) if old else None), (self.new.told(new) if new else None)
        some = new or old
        return Compared(
            name=_name(some),
            was=_name(old) if old else None,
            title=some.title.text if some else "",
            revision=new.revision if new else None,
            was_revision=old.revision if old else None,
            status=new.status if new else "",
            was_status=old.status if old else "",
            time=Span(after.low, after.high) if after else None,
            was_time=Span(before.low, before.high) if before else None,
            variants=self.new.base.variants_of(new) if new else (),
            was_variants=self.old.base.variants_of(old) if old else (),
            loosened=any(change.way is LOOSER for change in own),
        )
