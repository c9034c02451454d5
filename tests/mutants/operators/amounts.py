"""Too much of a liquid, too tight a screw, a reading in another unit."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from tests.mutants.fault import Mutant, Operator, Where
from tests.mutants.operators.edits import and_also, changed
from tests.mutants.operators.numbers import AMOUNT, each, fields, within
from tests.mutants.quantities import in_unit, size, times, unit_of
from tests.mutants.sites import devices, sites
from tests.mutants.tree import Pointer, Tree, put, value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.mutants.book import Book
    from tests.mutants.case import Case

STRICTER = "what is asked for is stricter than what was: a sound device fails, and nobody is hurt"
_FACTORS = {"kΩ": "Ω", "MΩ": "kΩ", "A": "mA", "Pa": "kPa", "V": "mV", "°C": "°F"}


def _more(book: Book) -> Iterator[Mutant]:
    for factor in (2, 10):
        yield from each("volume", "apply", change=partial(times, factor=factor))(book)


def _more_listed(book: Book) -> Iterator[Mutant]:
    """Yield each amount doubled, tenfold or a hundredfold, by an author who keeps the list of materials alike."""
    for factor in (2, 10, 100):
        for site in sites(book):
            for field in fields(site, "volume", "apply"):
                material = str(field[1] if field[0] == "apply" else site.step[str(field[0])]["material"])
                mutant = changed(site, field, times(str(value(site.step, field)), factor))
                yield and_also(mutant, "and listed", partial(_list, material=material, factor=factor))


def _list(tree: Tree, material: str, factor: float) -> None:
    if material in tree.get("materials", {}):
        tree["materials"][material] = times(str(tree["materials"][material]), factor)


def _readings(book: Book) -> Iterator[Mutant]:
    """Yield each reading that is expected in a unit a thousand times smaller or larger."""
    for site in sites(book):
        for key in ("expect", "leak"):
            old = str(site.step.get("check", {}).get(key, ""))
            if unit_of(old) in _FACTORS:
                yield changed(site, ("check", key), in_unit(old, _FACTORS[unit_of(old)]))


def _laxer(case: Case) -> str:
    """Return why another reading is no danger: where less of what it was passes, and nothing more."""
    old, new = (str(value(tree, case.mutant.at)) for tree in (case.book.trees[case.mutant.path], case.changed.tree))
    return STRICTER if old[0] in "<≤" and size(new) < size(old) else ""


def _tighter(book: Book) -> Iterator[Mutant]:
    for path, tree in devices(book):
        for name, screw in tree.get("fasteners", {}).items():
            old, pointer = str(screw["torque"]), ("fasteners", name, "torque")
            slips = (times(old, 2), times(old, 10), in_unit(old, "N·m"), in_unit(old, "kgf·cm"))
            yield from (_torque(path, pointer, old, new) for new in slips)


def _torque(path: str, pointer: Pointer, old: str, new: str) -> Mutant:
    name, change = str(pointer[1]), partial(put, pointer=pointer, new=new)
    return Mutant(path, pointer, name, f"{old} -> {new}", change, here=(pointer[:2],), things=frozenset({name}))


AMOUNTS = (
    Operator("more-liquid", "more vapour, a longer drying, and a bottle that runs out", AMOUNT, _more, within),
    Operator(
        "more-liquid-listed", "more vapour and a longer drying, and the list agrees", AMOUNT, _more_listed, within
    ),
    Operator(
        "other-unit-expected",
        "a reading is taken for good that is not",
        {"unmeasurable-value": Where.HERE, "contradicting-number": Where.HERE},
        _readings,
        _laxer,
    ),
    Operator(
        "raise-torque",
        "a screw breaks off or its thread strips",
        {"over-torque": Where.HERE, "unsettable-torque": Where.HERE},
        _tighter,
        within,
    ),
)
