"""Whether a finding stands where it leads its reader to the fault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.mutants.fault import Where
from tests.mutants.sites import PHASES, list_of, things_in
from tests.mutants.tree import value

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from tests.mutants.changed import Changed
    from tests.mutants.fault import Mutant
    from tests.mutants.tree import Pointer

_HEADS = {"title", "consent", "fixes", "prove", "access", "arrives", "hands_back", "purpose", "reviewed"}


def stands(changed: Changed, mutant: Mutant, finding: Finding) -> Where:
    """Return all that is true of the place of *finding*, seen from *mutant*."""
    pointer, path = changed.pointer(finding), finding.place.path
    found = Where(0)
    if path == mutant.path and any(pointer[: len(here)] == here for here in mutant.here):
        found |= Where.HERE
    if _later(changed, mutant, path, pointer):
        found |= Where.LATER
    elif list_of(pointer):
        found |= Where.BEFORE
    if _partner(changed, mutant, path, pointer):
        found |= Where.PARTNER
    if not list_of(pointer) and (not pointer or pointer[0] in _HEADS or pointer[-1] == "title"):
        found |= Where.HEAD
    return found


def _partner(changed: Changed, mutant: Mutant, path: str, pointer: Pointer) -> bool:
    tree = changed.tree_of(path)
    names = mutant.things | mutant.listed
    here = value(tree, pointer)
    if pointer and (str(pointer[-1]) in names or (isinstance(here, str) and here in names)):
        return True
    steps = list_of(pointer)
    if steps:
        return bool(things_in(value(tree, pointer[: len(steps) + 1])) & mutant.things)
    # The entry of a thing of the device: parts.battery.heat_limit.
    return any(str(key) in mutant.things for key in pointer)


def _later(changed: Changed, mutant: Mutant, path: str, pointer: Pointer) -> bool:
    steps = list_of(pointer)
    if not steps or mutant.after is None:
        return False
    start = list_of(mutant.after)
    first, number = mutant.after[len(start)], pointer[len(steps)]
    mine, its = PHASES[str(start[-1])], PHASES[str(steps[-1])]
    if path == mutant.path and steps == start:
        return int(number) >= int(first)
    if mine != its:
        return its > mine
    if mine in {0, 2} and path == mutant.path:
        device = changed.base.devices.get(changed.device)
        if device is None:
            return False
        ours, theirs = str(start[1]), str(steps[1])
        deeper, outer = (theirs, ours) if mine == 0 else (ours, theirs)
        return any(level.id == outer for level in device.way_to(deeper))
    # The steps of another procedure: performed from here when a check fails.
    return path != mutant.path
