"""Which step, and which procedure, is the same one in another state: by name, by what it does, by its words."""

from __future__ import annotations

from difflib import SequenceMatcher
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from benchleaf.model.action import Screw, Unscrew

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from benchleaf.model.action import Action
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step

# From what likeness on two of them are taken for one: common sense, tried on the demonstration.
_ALIKE = 0.6
_TARGETS = ("connector", "part", "bond", "on", "into", "until")


class Pair(NamedTuple):
    """A step of the old state and the same one of the new; None where it is gone, or is new."""

    old: Step | None
    new: Step | None


def similar(one: str, other: str) -> float:
    """Return how alike two texts are: 1 the same, 0 nothing in common."""
    return 1.0 if one == other else SequenceMatcher(None, one, other, autojunk=False).ratio()


def reads_alike(one: str, other: str) -> bool:
    """Whether *other* is *one* in other words."""
    return similar(one, other) >= _ALIKE


def steps(old: Sequence[Step], new: Sequence[Step]) -> list[Pair]:
    """
    Return the steps of two lists in pairs, in the order of the new list; one that is gone stands where it was.

    Those that kept their order are found first, together as alike as can be; a step that moved is found after them.
    """
    likeness = [[_likeness(one, other) for other in new] for one in old]
    found = _in_order(likeness)
    _moved(likeness, found)
    theirs = {here: there for there, here in found.items()}
    pairs = [Pair(old[theirs[place]] if place in theirs else None, step) for place, step in enumerate(new)]
    for place, step in enumerate(old):
        if place not in found:
            before = next((found[earlier] for earlier in range(place - 1, -1, -1) if earlier in found), -1)
            at = next((spot for spot, pair in enumerate(pairs) if before >= 0 and pair.new is new[before]), -1)
            # After others that are gone from there too.
            while at + 1 < len(pairs) and pairs[at + 1].new is None:
                at += 1
            pairs.insert(at + 1, Pair(step, None))
    return pairs


def _in_order(likeness: list[list[float]]) -> dict[int, int]:
    """Return new places by old ones: the pairs, none crossing another, whose likeness sums to the most."""
    rows, columns = len(likeness), len(likeness[0]) if likeness else 0
    best = [[0.0] * (columns + 1) for _ in range(rows + 1)]
    for row in range(rows - 1, -1, -1):
        for column in range(columns - 1, -1, -1):
            own = likeness[row][column]
            paired = own + best[row + 1][column + 1] if own >= _ALIKE else 0.0
            best[row][column] = max(best[row + 1][column], best[row][column + 1], paired)
    found = {}
    row = column = 0
    while row < rows and column < columns:
        own = likeness[row][column]
        if own >= _ALIKE and best[row][column] == own + best[row + 1][column + 1]:
            found[row] = column
            row, column = row + 1, column + 1
        elif best[row][column] == best[row + 1][column]:
            row += 1
        else:
            column += 1
    return found


def _moved(likeness: list[list[float]], found: dict[int, int]) -> None:
    """Add to *found* what is left on both sides and alike, the likest first."""
    taken = set(found.values())
    left = [
        (-own, row, column)
        for row, line in enumerate(likeness) if row not in found
        for column, own in enumerate(line) if column not in taken and own >= _ALIKE
    ]  # fmt: skip
    for _, row, column in sorted(left):
        if row not in found and column not in taken:
            found[row] = column
            taken.add(column)


def _likeness(old: Step, new: Step) -> float:
    words = similar(old.do.text, new.do.text)
    if old.named and new.named and old.id == new.id:
        return 1.0 + words
    return (2.0 * words + _same_act(old.action, new.action)) / 3.0


def _same_act(old: Action | None, new: Action | None) -> float:
    if type(old) is not type(new):
        return 0.0
    # That two steps do nothing says little of whether they are one.
    return 1.0 if old is not None and target(old) == target(new) else 0.5


def target(action: Action | None) -> tuple[str, ...]:
    """Return the names of what *action* is done to."""
    if isinstance(action, Screw | Unscrew):
        return tuple(one.fastener.text for one in action.screws)
    names = [getattr(action, name, None) for name in _TARGETS]
    return tuple(str(name) for name in names if name is not None)


_Procedures: TypeAlias = "Mapping[tuple[str, str], Procedure]"


def procedures(old: _Procedures, new: _Procedures) -> dict[tuple[str, str], tuple[str, str]]:
    """Return the key in the new state of each old procedure that is there still, wherever its file lies now."""
    found = {key: key for key in old if key in new}
    lost, fresh = [key for key in old if key not in new], [key for key in new if key not in old]
    alike = sorted(
        (-own, before, after)
        for before in lost for after in fresh
        if (own := _same_work(old[before], new[after])) >= _ALIKE
    )  # fmt: skip
    for _, before, after in alike:
        if before not in found and after not in found.values():
            found[before] = after
    return found


def _same_work(old: Procedure, new: Procedure) -> float:
    """Return the share of instructions that both have, and how alike their titles are."""
    ours, theirs = ({step.do.text for step in (*one.steps, *one.prove)} for one in (old, new))
    shared = len(ours & theirs) / max(1, len(ours | theirs))
    return (2.0 * shared + similar(old.title.text, new.title.text)) / 3.0
