"""What a caller asks for by its name: found, or refused with the nearest name that there is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import FEW, listed, nearest
from benchleaf.findings import Refused
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.findings import Finding
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure

ARRIVALS = {
    "power": ("on", "off", "dead", "unknown"),
    "liquid": ("none", "water", "sea-water", "unknown"),
    "battery": ("sound", "swollen", "unknown"),
    "glass": ("whole", "broken"),
}
"""How a device may arrive, as the schema has it."""


def procedure_named(base: KnowledgeBase, written: str) -> Procedure | None:
    """Return the procedure that DEVICE/PROCEDURE names; None where it is there and its file or device does not fit."""
    device, stroke, name = written.partition("/")
    if not (device and stroke and name):
        example = next((f", for example {there}/{own}" for there, own in base.procedures), "")
        raise Refused(f"Write DEVICE/PROCEDURE{example}")
    unread = base.is_broken("device", device, device)
    if device not in {ANY_DEVICE, *base.devices} and not unread:
        raise _unknown(f"There is no device {device}", device, base.devices)
    if base.is_broken("procedure", device, name):
        return None
    found = base.procedures.get((device, name))
    if found is None:
        raise _unknown(
            f"There is no procedure {written}", written, [f"{there}/{own}" for there, own in base.procedures]
        )
    return None if unread else found


def must_have_variant(base: KnowledgeBase, procedure: Procedure, variant: str) -> None:
    """Refuse a *variant* for which *procedure* is not written."""
    names = base.variants_of(procedure) or ("any",)
    if variant not in names:
        raise _unknown(f"{procedure.device}/{procedure.id} has no variant {variant}", variant, names)


def diagnosis_named(base: KnowledgeBase, device: str, symptom: str) -> Diagnosis | None:
    """Return the diagnosis of *symptom* on *device*; None where it is there and its file or device does not fit."""
    unread = base.is_broken("device", device, device)
    if device not in base.devices and not unread:
        raise _unknown(f"There is no device {device}", device, base.devices)
    if base.is_broken("diagnosis", device, symptom):
        return None
    found = base.diagnoses.get((device, symptom))
    if found is None:
        own = [known for there, known in base.diagnoses if there == device]
        raise _unknown(f"There is no diagnosis of {symptom} on {device}", symptom, own)
    return None if unread else found


def variant_named(base: KnowledgeBase, device: str, variant: str | None) -> str:
    """Return *variant* of *device*, the first one where none is named; refuse one that is not there."""
    names = base.devices[device].variant_ids
    if variant is not None and variant not in names:
        raise _unknown(f"{device} has no variant {variant}", variant, names)
    return variant or names[0]


def outcomes_given(diagnosis: Diagnosis, written: Iterable[str]) -> dict[str, str]:
    """Return what each `TEST=OUTCOME` of *written* says, in their order; refuse names that are not there."""
    given: dict[str, str] = {}
    tests = {test.id: [outcome.id for outcome in test.outcomes] for test in diagnosis.tests}
    for text in written:
        test, sign, outcome = text.partition("=")
        if not (test and sign and outcome):
            raise Refused(f"Write TEST=OUTCOME, not {text}")
        if test not in tests:
            raise _unknown(f"There is no test {test} in this diagnosis", test, tests)
        if outcome not in tests[test]:
            raise _unknown(f"{test} has no outcome {outcome}", outcome, tests[test])
        if given.setdefault(test, outcome) != outcome:
            raise Refused(f"{test} shows {given[test]} and {outcome}: give one outcome of a test")
    return given


def states_arrived(written: Iterable[str]) -> dict[str, str]:
    """Return what each `WHAT=HOW` of *written* says of a device as it arrived; refuse what the format does not know."""
    arrived: dict[str, str] = {}
    for text in written:
        what, _, how = text.partition("=")
        if what not in ARRIVALS:
            raise _unknown(f"Nothing that arrives is called {what}", what, ARRIVALS)
        if how not in ARRIVALS[what]:
            raise _unknown(f"No {what} arrives {how or 'without a word'}", how, ARRIVALS[what])
        arrived[what] = how
    return arrived


def stopping(findings: Iterable[Finding], base: KnowledgeBase, procedure: Procedure) -> int:
    """Return how many of *findings*, in the files of *procedure* and its device, keep it from being published."""
    device = base.devices.get(procedure.device)
    paths = {procedure.path, device.path if device else procedure.path}
    return sum(1 for finding in findings if finding.stops and finding.place.path in paths)


def _unknown(what: str, name: str, names: Iterable[str]) -> Refused:
    known = list(names)
    near = nearest(name, known)
    if near:
        return Refused(f"{what}; did you mean {near}?")
    return Refused(f"{what}: there is {listed(known)}" if 0 < len(known) <= FEW else what)
