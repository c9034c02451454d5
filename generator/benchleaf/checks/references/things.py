"""Names that a device gives: its parts, connectors, fasteners, bonds and levels, and for which variants they exist."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from benchleaf.checks.names import did_you_mean, listed, nearest, one
from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import having
from benchleaf.model.device import CLOSED

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.device import Device
    from benchleaf.model.words import OnlyFor, Said


class Thing(Protocol):
    """What may exist for some variants only."""

    @property
    def only(self) -> OnlyFor | None:
        """The variants that have it; all where it is None."""


FIELDS = {"part": "parts", "connector": "connectors", "fastener": "fasteners", "bond": "bonds", "level": "access"}
ON_A_DEVICE = frozenset({"part", "connector", "fastener", "bond", "socket"})
"""What a step may work on; a socket is a part or a connector."""
_COSTS = {
    "part": "nobody would know what to take hold of",
    "connector": "nobody would know what to pull",
    "fastener": "nobody would know which screws are meant",
    "bond": "nobody would know what to free or to glue",
    "level": "nobody would know how far to open it",
    "socket": "nobody would know where the supply goes in",
}


@dataclass(frozen=True, slots=True)
class Scope:
    """For which variants a name is used, and why it matters; what cures it, with a list of variants in its middle."""

    holds: str
    cure: str


STEP = Scope(
    "for which this step is performed: it could not be done there",
    "keep the step for those that have it, with `only: {}`",
)
PROCEDURE = Scope(
    "for which this procedure is written: it could not be done there",
    "write it for those that have it, with `variants: {}`",
)
THING = Scope(
    "where this exists: what stands here would mean nothing there", "write `only: {}` where this is described"
)


def things(device: Device, kind: str) -> Mapping[str, Thing]:
    """Return what *device* has of *kind*, by name; a socket is a part or a connector."""
    if kind == "socket":
        return {**device.parts, **device.connectors}
    found: dict[str, Mapping[str, Thing]] = {
        "part": device.parts,
        "connector": device.connectors,
        "fastener": device.fasteners,
        "bond": device.bonds,
        "level": device.access,
    }
    return found[kind]


def known(device: Device, kind: str, name: Said) -> Iterator[Hit]:
    """Yield what is wrong with *name* as that of something of *kind* which *device* has at all."""
    if name.text in things(device, kind) or (kind == "level" and name.text == CLOSED):
        return
    other = next((one_kind for one_kind in FIELDS if name.text in things(device, one_kind)), None)
    if other and kind in FIELDS:
        message = f"`{name}` is {one(other)}, and the name of {one(kind)} belongs here"
        otherwise = ""
    else:
        message = f"{device.title} has no {_called(kind)} `{name}`: {_COSTS[kind]}"
        field = FIELDS.get(kind, "parts")
        otherwise = f"give `{name}` an entry under `{field}` in {device.path}."
    names = [*things(device, kind), *([CLOSED] if kind == "level" else [])]
    yield Hit(name.place, message, did_you_mean(name.text, names, otherwise) or _no_such(device, kind))


def known_for(device: Device, kind: str, name: Said, variants: tuple[str, ...], scope: Scope) -> Iterator[Hit]:
    """Yield what is wrong with *name*, also that some of *variants*, to which *scope* speaks, have no such thing."""
    thing = things(device, kind).get(name.text)
    if thing is None:
        yield from known(device, kind, name)
    elif having(thing.only, variants) != variants:
        yield _lacking(device, kind, name, variants, scope)


def shared(device: Device, kind: str, name: Said, variants: tuple[str, ...], scope: Scope) -> Iterator[Hit]:
    """Yield what is wrong with *name*, which need exist for one of *variants* alone: the field knows no `only`."""
    thing = things(device, kind).get(name.text)
    if thing is None:
        yield from known(device, kind, name)
    elif not having(thing.only, variants):
        yield _lacking(device, kind, name, variants, scope)


def _lacking(device: Device, kind: str, name: Said, variants: tuple[str, ...], scope: Scope) -> Hit:
    """Return what is said where *name* exists, but not for all of *variants*."""
    present = having(things(device, kind)[name.text].only, variants)
    absent = tuple(sorted(set(variants) - set(present)))
    there = [other for other, thing in things(device, kind).items() if having(thing.only, absent) == absent]
    near = nearest(name.text, there)
    meant = f"Did you mean `{near}`? Or " if near else ""
    cure = scope.cure.format(f"[{', '.join(present)}]") if present else "change the `only` of the one or the other"
    message = f"The {_called(kind)} `{name}` is absent on {listed(absent)}, {scope.holds}"
    return Hit(name.place, message, f"{meant}{cure if near else cure[:1].upper() + cure[1:]}.", absent)


def _called(kind: str) -> str:
    return "part or connector" if kind == "socket" else kind


def _no_such(device: Device, kind: str) -> str:
    near = FIELDS.get(kind, "parts")
    return f"Write a name that stands under `{near}` in {device.path}."
