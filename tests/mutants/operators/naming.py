"""A wrong name or count: another variant's part, another screw, an old seal, another instrument, another solvent."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from tests.mutants.fault import Expected, Mutant, Operator, Where
from tests.mutants.operators.dropping import EVERYWHERE, LEDGER
from tests.mutants.operators.edits import and_also, at_step, changed, device_of, leave_out
from tests.mutants.operators.numbers import AMOUNT
from tests.mutants.sites import Site, devices, sites, things_in
from tests.mutants.tree import Pointer, Tree, put, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.mutants.book import Book
    from tests.mutants.case import Case

_HERE = Where.HERE | EVERYWHERE
_KINDS = {"parts": ("remove", "fit", "replace"), "connectors": ("unplug", "plug")}
_TURNED = frozenset({"screw", "unscrew"})

NOT_THERE = "it acts on nothing that some variants lack: who has no such thing sees so, and nothing is worse"


def _variants(book: Book, site: Site, device: Tree) -> set[str]:
    """Return the variants for which *site* is performed."""
    every = set(device.get("variants", ()))
    return every & set(book.trees[site.path].get("variants", every)) & set(site.step.get("only", every))


def _other_variant(book: Book) -> Iterator[Mutant]:
    """Yield each step that names a part or plug which not all of its variants have."""
    for site in sites(book):
        device = device_of(book, site)
        mine = _variants(book, site, device) if isinstance(device.get("variants"), dict) else set()
        for kind, actions in _KINDS.items():
            for name, thing in device.get(kind, {}).items() if site.action in actions else ():
                if not mine <= set(thing.get("only", mine)):
                    yield changed(site, (site.action,), name)


def _nothing_there(case: Case) -> str:
    """Return why a step for all variants is no danger: it acts on nothing that some of them lack."""
    step, here = value(case.book.trees[case.mutant.path], case.mutant.at[:-1]), case.changed.base.devices.values()
    limited = {
        name
        for device in here
        for things in (device.parts, device.connectors, device.fasteners, device.bonds)
        for name, thing in things.items()
        if thing.only
    }
    return "" if things_in(step) & limited or case.worse else NOT_THERE


def _other_screw(book: Book) -> Iterator[Mutant]:
    """Yield each step that turns the screws of another kind."""
    for site in sites(book):
        for name in device_of(book, site).get("fasteners", {}) if site.action in _TURNED else ():
            if name not in site.step[site.action]:
                yield changed(site, (site.action,), {name: next(iter(site.step[site.action].values()))})


def _miscounted(book: Book) -> Iterator[Mutant]:
    """Yield each step that turns one screw more or less, and each device that has one less."""
    for site in sites(book):
        for name, count in site.step[site.action].items() if site.action in _TURNED else ():
            for new in (count - 1, count + 1):
                if new > 0:
                    yield changed(site, (site.action,), {**site.step[site.action], name: new})
    for path, tree in devices(book):
        for name, screw in tree.get("fasteners", {}).items():
            pointer: Pointer = ("fasteners", name, "count")
            what = f"count {screw['count']} -> {screw['count'] - 1}"
            change = partial(put, pointer=pointer, new=screw["count"] - 1)
            yield Mutant(path, pointer, name, what, change, here=(pointer[:2],), things=frozenset({name}))


def _old_seal(book: Book) -> Iterator[Mutant]:
    """Yield each seal that is fitted again where a new one was laid."""
    for site in sites(book):
        name = site.step.get("replace")
        if device_of(book, site).get("parts", {}).get(name, {}).get("single_use"):
            yield at_step(site, (), f"replace {name} -> fit", partial(_refit, pointer=site.pointer))


def _refit(tree: Tree, pointer: Pointer) -> None:
    step = value(tree, pointer)
    put(tree, pointer, {("fit" if key == "replace" else key): each for key, each in step.items()})


def _instrument(book: Book) -> Iterator[Mutant]:
    """Yield each reading taken with an instrument that does not read it."""
    for site in sites(book):
        check = site.step.get("check", {})
        read = "pressure" if "leak" in check else str(check.get("measure"))
        for name, tool in book.trees["procedures/tools.yml"].items() if "with" in check else ():
            if tool.get("kind") == "meter" and read not in tool.get("measures", {}):
                yield changed(site, ("check", "with"), name)


def _acetone(book: Book) -> Iterator[Mutant]:
    """Yield each solvent that is acetone instead, and listed so."""
    for site in sites(book):
        old = site.step.get("solvent", {}).get("material")
        if old:
            mutant = changed(site, ("solvent", "material"), "acetone")
            listed = replace(mutant, listed=mutant.listed | {"acetone"})
            yield and_also(listed, "and listed", partial(_renamed, old=str(old)))


def _renamed(tree: Tree, old: str) -> None:
    tree["materials"] = {("acetone" if name == old else name): each for name, each in tree["materials"].items()}


NAMES: Expected = {
    "part-left-out": LEDGER | Where.HERE,
    "lopsided-closing": LEDGER | Where.HERE,
    "unknown-reference": Where.HERE,
    "wrong-value": Where.HERE | Where.PARTNER,
    "untested-function": EVERYWHERE,
    "reused-seal": _HERE,
    "contradicting-number": Where.HERE | Where.PARTNER,
}

NAMING = (
    Operator(
        "other-variant",
        "the part is not there on some of the devices",
        {"unknown-reference": Where.HERE},
        _other_variant,
    ),
    Operator(
        "every-variant",
        "a step is done on a variant that has nothing there",
        NAMES,
        leave_out(("only",)),
        _nothing_there,
    ),
    Operator("other-screw", "a long screw goes where a short one belongs", NAMES, _other_screw),
    Operator("miscount-screws", "a screw stays in the tray, or one is sought that never was", NAMES, _miscounted),
    Operator("refit-old-seal", "a spent seal is closed with", NAMES, _old_seal),
    Operator(
        "other-instrument", "a reading that the instrument cannot take", {"unmeasurable-value": Where.HERE}, _instrument
    ),
    Operator("acetone", "a solvent that attacks what it runs to", {**AMOUNT, "solvent-attack": _HERE}, _acetone),
)
