"""A document and the schema of its kind in; everything in which they differ out, each thing once, in reading order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.shape.local import local
from benchleaf.shape.paths import for_validator, own_pointer
from benchleaf.shape.spot import spot_at
from benchleaf.shape.suspects import misread, odd, suspects
from benchleaf.shape.wording import OF_VALUES, keyword_of, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from jsonschema_rs import ValidationError

    from benchleaf.findings import Fault, Place
    from benchleaf.shape.schemas import Pointer, Schemas
    from benchleaf.shape.spot import Spot
    from benchleaf.source.nodes import Table


def check(document: Table, kind: str, schemas: Schemas) -> tuple[Fault, ...]:
    """Return all that is wrong with the shape of *document*, a file of *kind*, sorted by place."""
    errors = [(own_pointer(error.instance_path), error) for error in schemas.errors(kind, for_validator(document))]
    unfit = dict.fromkeys(pointer for pointer, _ in errors)
    closely = (*suspects(document, schemas.bounded), *unfit)
    looked_at = {pointer: spot_at(document, kind, schemas, pointer) for pointer in closely}
    taken = dict(misread(looked_at.values()))
    found = list(taken.values())
    found += _worded((looked_at[pointer], error) for pointer, error in errors if pointer not in taken)
    found += odd(spot for pointer, spot in looked_at.items() if pointer not in taken and pointer not in unfit)
    found += _elsewhere(local(document, kind), found)
    return tuple(sorted(dict.fromkeys(found), key=_in_reading_order))


def _worded(errors: Iterable[tuple[Spot, ValidationError]]) -> Iterator[Fault]:
    """Yield each of *errors* in words, one for each value that is wrong in more than one way."""
    said: set[Pointer] = set()
    for spot, error in sorted(errors, key=_weight):
        if keyword_of(error) in OF_VALUES:
            if spot.pointer in said:
                continue
            said.add(spot.pointer)
        yield from say(spot, error)


def _weight(found: tuple[Spot, ValidationError]) -> int:
    order = list(OF_VALUES)
    keyword = keyword_of(found[1])
    return order.index(keyword) if keyword in order else len(order)


def _elsewhere(faults: Iterable[Fault], found: list[Fault]) -> list[Fault]:
    """Return those of *faults* that stand where nothing else was found: one slip is one finding."""
    places: set[Place] = {fault.place for fault in found}
    return [fault for fault in faults if fault.place not in places]


def _in_reading_order(fault: Fault) -> tuple[Place, str, str]:
    return fault.place, fault.rule, fault.message
