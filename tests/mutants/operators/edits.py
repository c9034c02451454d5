"""Small changes to one step, from which the operators are made."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from tests.mutants.fault import Mutant
from tests.mutants.sites import Site, devices, listed_in, sites, things_in
from tests.mutants.tree import Pointer, Tree, drop, put, value

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tests.mutants.book import Book


def at_step(site: Site, field: Pointer, what: str, change: Callable[[Tree], None]) -> Mutant:
    """Return the mutant in which *change* is made to *field* of the step of *site*."""
    return Mutant(
        path=site.path,
        at=(*site.pointer, *field),
        says=site.says,
        what=what,
        change=change,
        here=(site.pointer,),
        after=(*site.steps, site.number + 1),
        things=things_in(site.step),
        listed=listed_in(site.step),
    )


def changed(site: Site, field: Pointer, new: object) -> Mutant:
    """Return the mutant in which *field* of *site* is *new*; it is about what both the old and the new name."""
    old, pointer = value(site.step, field), (*site.pointer, *field)
    mutant = at_step(
        site, field, f"{_path(field)} {_short(old)} -> {_short(new)}", partial(put, pointer=pointer, new=new)
    )
    if len(field) > 1:
        return mutant
    return replace(mutant, things=mutant.things | things_in({str(field[0]): new}))


def without(site: Site, field: Pointer) -> Mutant:
    """Return the mutant in which *site* has no *field*."""
    old = value(site.step, field)
    left_out = old if isinstance(field[-1], int) else _path(field)
    return at_step(site, field, f"{left_out} left out of '{site.says}'", partial(drop, pointer=(*site.pointer, *field)))


def leave_out(*fields: Pointer, where: Callable[[Site], bool] = lambda _: True) -> Callable[[Book], Iterator[Mutant]]:
    """Return what yields each step *where* it holds, without one of *fields*."""

    def make(book: Book) -> Iterator[Mutant]:
        for site in sites(book):
            yield from (without(site, field) for field in fields if where(site) and has(site.step, field))

    return make


def and_also(mutant: Mutant, what: str, change: Callable[[Tree], None]) -> Mutant:
    """Return *mutant* with another *change* in the same file."""

    def both(tree: Tree) -> None:
        mutant.change(tree)
        change(tree)

    return replace(mutant, what=f"{mutant.what}, {what}", change=both)


def has(step: Tree, field: Pointer) -> bool:
    """Whether *step* has a value at *field*."""
    found: object = step
    for key in field:
        found = found[key] if isinstance(found, dict) and key in found else None
    return found is not None


def device_of(book: Book, site: Site) -> Tree:
    """Return the device that *site* belongs to, {} for a procedure of any device."""
    name = book.files[site.path].device
    return next((tree for path, tree in devices(book) if book.files[path].device == name), {})


def _path(field: Pointer) -> str:
    return ".".join(map(str, field))


def _short(what: object) -> str:
    return "/".join(f"{key} {each}" for key, each in what.items()) if isinstance(what, dict) else str(what)
