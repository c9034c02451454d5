"""What a check is for: which of them guard a person or the device, found without asking a rule."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from tests.mutants.tree import Tree, value

if TYPE_CHECKING:
    from tests.mutants.case import Case
    from tests.mutants.tree import Pointer

LOOK = "a look at workmanship that no later step's safety hangs on"
NOTHING_PROVED = "it fixes nothing, opens no seal and unplugs nothing: there is nothing to prove"
ANOTHER = "another check of the same kind still stands"


def check_matters(case: Case) -> str:
    """Return why a check that is gone hurts nobody, or "" where it guarded something."""
    mutant, book = case.mutant, case.book
    if case.worse:
        return ""
    tree = book.trees[mutant.path]
    step = value(tree, _step(mutant.at))
    check = step["check"]
    if mutant.at[0] == "prove":
        return _proof(case, tree, check)
    if check.get("battery") == "temperature":
        return ""
    alone = mutant.at[-1] != "check"
    if _reads_after_liquid(tree, check) or (alone and pairs(case, step)):
        return ""
    return LOOK


def proof_matters(case: Case) -> str:
    """Return why a proof that is gone as a whole hurts nobody: there is nothing that it has to show."""
    tree = case.book.trees[case.mutant.path]
    opens = "seal-rating" not in tree.get("consent", ()) and _opens(case)
    return "" if tree.get("fixes") or opens or _unplugged_functions(case) else NOTHING_PROVED


def _step(pointer: Pointer) -> Pointer:
    """Return the way to the step, for a check that is gone alone as for one that is gone with its step."""
    return pointer[:-1] if pointer[-1] == "check" else pointer


def _proof(case: Case, tree: Tree, check: Tree) -> str:
    """Return why a proof is no loss; it is where it alone shows the complaint gone, the seal tight or a plug home."""
    left = [step for step in case.changed.tree.get("prove", ()) if "check" in step]
    shows = {"gone", "measure"}
    if tree.get("fixes") and shows & set(check) and not any(shows & set(step["check"]) for step in left):
        return ""
    if "leak" in check and "seal-rating" not in tree.get("consent", ()) and _opens(case):
        return "" if not any("leak" in step["check"] for step in left) else ANOTHER
    served = _unplugged_functions(case)
    for function in served:
        if _named(function, value(tree, _step(case.mutant.at))) and not any(_named(function, step) for step in left):
            return ""
    return LOOK if "look" in check else ANOTHER


def _opens(case: Case) -> bool:
    """Whether something that keeps water out is renewed or removed on the way."""
    return any(
        part.keeps_out and (name in trace.end.renewed or name in trace.end.spent)
        for trace in case.own
        for name, part in trace.world.parts.items()
    )


def _unplugged_functions(case: Case) -> set[str]:
    return {
        function
        for trace in case.own
        for moment in trace.straight
        for name in moment.after.unplugged
        for function in trace.world.connectors[name].serves
        if name in trace.world.connectors
    }


def _named(function: str, step: Tree) -> bool:
    text = f"{step['do']} {' '.join(str(each) for each in step['check'].values())}".lower().replace("-", " ")
    return all(re.search(rf"\b{re.escape(word)}", text) for word in function.lower().replace("-", " ").split())


def _reads_after_liquid(tree: Tree, check: Tree) -> bool:
    """Whether it is the one reading of a rail that was wet, before a battery is joined to it."""
    arrives = tree.get("arrives", {})
    wet = arrives.get("liquid", "none") != "none" if isinstance(arrives, dict) else False
    return wet and check.get("measure") == "resistance"


def pairs(case: Case, step: Tree) -> bool:
    """Whether *step* is the one that ties a new part to the device."""
    renewed = {name for trace in case.own for name in trace.end.renewed if trace.world.parts[name].paired}
    return bool(renewed) and "pair" in str(step["do"]).lower()
