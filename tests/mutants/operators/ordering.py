"""Steps in the wrong order, and steps that slip in too early."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from tests.mutants.fault import Expected, Mutant, Operator, Where
from tests.mutants.operators.dropping import EVERYWHERE, GUARDED, LEDGER, LEFT, LIVE, UNFINISHED
from tests.mutants.sites import Site, listed_in, sites, things_in
from tests.mutants.tree import Pointer, Tree, drop, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.mutants.book import Book
    from tests.mutants.case import Case

FREE = "the two can be done in either order: no state that either meets, and no end, is worse"
_AROUND = Where.HERE | EVERYWHERE


def _swaps(book: Book) -> Iterator[Mutant]:
    """Yield each step with its neighbour before it."""
    before: Site | None = None
    for site in sites(book):
        if before is not None and (before.path, before.steps) == (site.path, site.steps):
            yield Mutant(
                path=site.path,
                at=before.pointer,
                says=before.says,
                what=f"'{before.says}' after '{site.says}'",
                change=partial(_swap, one=before.pointer, other=site.pointer),
                here=(before.pointer, site.pointer),
                after=before.pointer,
                things=things_in(before.step) | things_in(site.step),
                listed=listed_in(before.step) | listed_in(site.step),
            )
        before = site


def _swap(tree: Tree, one: Pointer, other: Pointer) -> None:
    steps = value(tree, one[:-1])
    first, second = int(one[-1]), int(other[-1])
    steps[first], steps[second] = steps[second], steps[first]


def _no_worse(case: Case) -> str:
    return "" if case.worse else FREE


def _opened(book: Book, device: str = "") -> Iterator[Site]:
    """Yield the steps of the work on opened devices, or on *device* alone."""
    for site in sites(book):
        opened = book.trees[site.path].get("access", "closed") != "closed"
        if site.steps == ("steps",) and opened and device in {"", book.files[site.path].device}:
            yield site


def _joinings(book: Book) -> Iterator[Site]:
    """Yield, for each device, the step of a closing that joins its battery."""
    for site in sites(book):
        if site.phase == "closing" and site.action == "plug":
            batteries = book.trees[site.path]["batteries"].values()
            if any(battery.get("plug") == site.step["plug"] for battery in batteries):
                yield site


def _inserted(site: Site, step: Tree) -> Mutant:
    return Mutant(
        path=site.path,
        at=site.pointer,
        says=site.says,
        what=f"'{step['do']}' before '{site.says}'",
        change=partial(_insert, pointer=site.pointer, step=step),
        here=(site.pointer,),
        after=site.pointer,
        things=things_in(step),
    )


def _insert(tree: Tree, pointer: Pointer, step: Tree) -> None:
    value(tree, pointer[:-1]).insert(int(pointer[-1]), step)


def _early_in_steps(book: Book) -> Iterator[Mutant]:
    """Yield each procedure with the battery joined before one of its steps, though its closing joins it later."""
    for plug in _joinings(book):
        for site in _opened(book, book.files[plug.path].device):
            yield _inserted(site, {"do": plug.says, "plug": plug.step["plug"]})


def _early_in_closing(book: Book) -> Iterator[Mutant]:
    """Yield each closing of a deeper level with the battery joined before one of its steps, and its own place empty."""
    for plug in _joinings(book):
        for site in sites(book):
            if site.path == plug.path and site.phase == "closing" and site.steps != plug.steps:
                yield Mutant(
                    path=site.path,
                    at=site.pointer,
                    says=site.says,
                    what=f"'{plug.says}' before '{site.says}'",
                    change=partial(_move, source=plug.pointer, target=site.pointer),
                    here=(site.pointer,),
                    after=site.pointer,
                    things=things_in(plug.step),
                )


def _move(tree: Tree, source: Pointer, target: Pointer) -> None:
    step = value(tree, source)
    drop(tree, source)
    _insert(tree, target, step)


def _early_power(book: Book) -> Iterator[Mutant]:
    """Yield each procedure that opens its device, with the device switched on before one of its steps."""
    for site in _opened(book):
        yield _inserted(site, {"do": "Switch the device on.", "power": "on"})


JOINED: Expected = {
    **LEFT,
    **dict.fromkeys((*UNFINISHED, *LIVE, "reused-damaged-battery", "charged-capacitor"), _AROUND),
}
SWAPPED: Expected = {
    **dict.fromkeys(
        (
            *JOINED, *GUARDED, "battery-beside-heat", "overheated-neighbour", "unreached-level", "solvent-attack",
            "mixed-alloy", "unknown-reference", "forced-bond", "reused-seal",
        ),
        _AROUND,
    ),
    **dict.fromkeys((*LEFT, "reused-seal"), _AROUND | LEDGER),
}  # fmt: skip

ORDERING = (
    Operator("swap-steps", "what must come first comes second", SWAPPED, _swaps, _no_worse),
    Operator("early-battery", "the battery is joined while somebody works inside", JOINED, _early_in_steps),
    Operator(
        "early-battery-in-closing",
        "the battery is joined before the leads and the board are back",
        JOINED,
        _early_in_closing,
    ),
    Operator("early-power", "the device is switched on while it lies open", JOINED, _early_power),
)
