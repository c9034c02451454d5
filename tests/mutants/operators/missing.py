"""A word of a step, or of a procedure, that is missing though its step is there."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from benchleaf.model.action import Bath, Heat, Replace
from tests.mutants.fault import Mutant, Operator, Where
from tests.mutants.operators.dropping import EVERYWHERE, GUARDED, UNFINISHED
from tests.mutants.operators.edits import at_step, device_of, leave_out, without
from tests.mutants.operators.numbers import HEAT, within
from tests.mutants.proofs import check_matters, proof_matters
from tests.mutants.sites import HEATS, procedures, sites
from tests.mutants.tree import Pointer, Tree, drop, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace
    from tests.mutants.book import Book
    from tests.mutants.case import Case

_HERE = Where.HERE | EVERYWHERE

UNASKED = "no step of it puts stored data at risk: what holds them has left before"
UNLIT = "no limit, reading or hand hangs on the tool that is not named"


def _consent(book: Book) -> Iterator[Mutant]:
    for path, tree in procedures(book):
        for number, given in enumerate(tree.get("consent", ())):
            pointer: Pointer = ("consent", number)
            change = partial(drop, pointer=pointer)
            yield Mutant(path, pointer, "consent", f"{given} left out", change, after=("steps", 0))


def _unasked(case: Case) -> str:
    """Return why a consent is not needed: no data, no rating and no irreversible step hangs on it."""
    given = value(case.book.trees[case.mutant.path], case.mutant.at)
    risks = any(_risks_data(trace) for trace in case.own)
    return UNASKED if given == "data-loss" and not risks else ""


def _risks_data(trace: Trace) -> bool:
    """Whether storage, or what carries it, is heated by more than an iron, wetted through or renewed."""
    world = trace.world
    for moment in trace.straight:
        action = moment.step.action
        iron = isinstance(action, Heat) and trace.nature.kind(action.tool.text) == "iron"
        part = (
            action.on.text
            if isinstance(action, Heat | Bath)
            else action.part.text
            if isinstance(action, Replace)
            else ""
        )
        moving = moment.before.moving(part, world.family) if part and not iron else frozenset()
        reached = {*moving, *(beside.part for touch in moment.after.touches[-1:] for beside in touch.beside)}
        if any(
            world.parts[name].kind == "storage" and name not in moment.before.away
            for name in reached & set(world.parts)
        ):
            return True
    return False


def _uses(book: Book) -> Iterator[Mutant]:
    for site in sites(book):
        yield from (without(site, ("use", number)) for number in range(len(site.step.get("use", ()))))


def _unheld(case: Case) -> str:
    """Return why a tool that is not named is no danger: unless a temperature is said to be measured by it."""
    step = value(case.book.trees[case.mutant.path], case.mutant.at[:-2])
    tool = value(case.book.trees[case.mutant.path], case.mutant.at)
    known = case.book.trees["procedures/tools.yml"].get(tool, {})
    measured = any("reaches" in step.get(heat, {}) for heat in HEATS)
    return "" if measured and "temperature" in known.get("measures", {}) else UNLIT


def _unkeyed(book: Book) -> Iterator[Mutant]:
    """Yield each step that puts in an unkeyed part with neither picture nor why."""
    for site in sites(book):
        name = next((str(site.step[key]) for key in ("fit", "replace") if key in site.step), "")
        part = device_of(book, site).get("parts", {}).get(name, {})
        if part.get("keyed") is False and {"picture", "why"} & set(site.step):
            change = partial(_plain, pointer=site.pointer)
            yield at_step(site, (), f"picture and why left out of '{site.says}'", change)


def _plain(tree: Tree, pointer: Pointer) -> None:
    for key in ("picture", "why"):
        value(tree, pointer).pop(key, None)


def _proofs(book: Book) -> Iterator[Mutant]:
    for path, tree in procedures(book):
        if "prove" in tree:
            change = partial(drop, pointer=("prove",))
            yield Mutant(path, ("prove",), "prove", "the whole proof left out", change, after=("steps", 0))


MISSING = (
    Operator(
        "drop-proof",
        "the device goes back and nobody has seen it work",
        dict.fromkeys(("unproven-repair", "unproven-seal", "untested-function"), EVERYWHERE),
        _proofs,
        proof_matters,
    ),
    Operator(
        "drop-check-of-action",
        "an act whose outcome must be seen is seen by nobody",
        {rule: where | Where.HERE for rule, where in GUARDED.items()},
        leave_out(("check",), where=lambda site: bool(site.action)),
        check_matters,
    ),
    Operator(
        "drop-record",
        "what a liquid washes away was noted by nobody",
        {"washed-evidence": Where.LATER},
        leave_out(("record",)),
        within,
    ),
    Operator(
        "drop-consent",
        "the customer was not asked",
        {"data-at-risk": EVERYWHERE, "unproven-seal": EVERYWHERE},
        _consent,
        _unasked,
    ),
    Operator(
        "drop-hold",
        "nobody watches what lies beside the heat",
        HEAT,
        leave_out(*((heat, key) for heat in HEATS for key in ("hold", "shield"))),
        within,
    ),
    Operator(
        "drop-reaches",
        "nobody measures how hot the part itself gets",
        HEAT,
        leave_out(*((heat, "reaches") for heat in HEATS)),
        within,
    ),
    Operator(
        "drop-draught",
        "what dries in moving or warm air is still wet",
        UNFINISHED,
        leave_out(("wait", "air_speed"), ("wait", "at")),
        within,
    ),
    Operator(
        "drop-use",
        "the thermometer that a number hangs on is not in the hand",
        {"listing-mismatch": Where.PARTNER, "unmeasurable-value": Where.HERE},
        _uses,
        _unheld,
    ),
    Operator(
        "drop-orientation",
        "a part that fits two ways goes in the wrong one",
        {"unoriented-part": Where.HERE | Where.PARTNER},
        _unkeyed,
    ),
)
