"""A document and the schema of its kind in; everything in which they differ out, each thing once, in reading order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.shape.local import local
from benchleaf.shape.spot import spot_at
from benchleaf.shape.suspects import misread, odd, suspects
from benchleaf.shape.wording import OF_VALUES, keyword_of, say
from benchleaf.source.nodes import Table, plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from jsonschema_rs import ValidationError

    from benchleaf.findings import Fault, Place
    from benchleaf.shape.schemas import Pointer, Schemas


def check(document: Table, kind: str, schemas: Schemas) -> tuple[Fault, ...]:
    """Return all that is wrong with the shape of *document*, a file of *kind*, sorted by place."""
    looked_at = [spot_at(document, kind, schemas, pointer) for pointer in suspects(document, schemas.relative)]
    taken = dict(misread(looked_at))
    errors = [error for error in schemas.errors(kind, plain(document)) if tuple(error.instance_path) not in taken]
    unfit = {tuple(error.instance_path) for error in errors}
    found = [*taken.values(), *_worded(document, kind, schemas, errors)]
    found += odd(spot for spot in looked_at if spot.pointer not in taken and spot.pointer not in unfit)
    found += _elsewhere(local(document, kind), found)
    return tuple(sorted(dict.fromkeys(found), key=_in_reading_order))


def _worded(document: Table, kind: str, schemas: Schemas, errors: Iterable[ValidationError]) -> Iterator[Fault]:
    """Yield each of *errors* in words, one for each value that is wrong in more than one way."""
    said: set[Pointer] = set()
    for error in sorted(errors, key=_weight):
        pointer = tuple(error.instance_path)
        if keyword_of(error) in OF_VALUES:
            if pointer in said:
                continue
            said.add(pointer)
        yield from say(spot_at(document, kind, schemas, pointer), error)


def _weight(error: ValidationError) -> int:
    order = list(OF_VALUES)
    keyword = keyword_of(error)
    return order.index(keyword) if keyword in order else len(order)


def _elsewhere(faults: Iterable[Fault], found: list[Fault]) -> list[Fault]:
    """Return those of *faults* that stand where nothing else was found: one slip is one finding."""
    places: set[Place] = {fault.place for fault in found}
    return [fault for fault in faults if fault.place not in places]


def _in_reading_order(fault: Fault) -> tuple[Place, str, str]:
    return fault.place, fault.rule, fault.message
