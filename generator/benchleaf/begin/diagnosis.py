"""The draft of a diagnosis: a cause for each procedure that cures the symptom, one more to refer, and a first test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.begin.words import FILL, modeline, offered, remark, scalar, whole
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase

_MOST = 6
_OTHER = "something-else"
_PRICE = "60 EUR"  # where the shop says nothing of what it writes off


def drafts(base: KnowledgeBase, device: str, symptom: str) -> Iterator[str]:
    """Yield drafts of the diagnosis of *symptom* on *device*: with its cures, and with a referral alone."""
    cures = {
        one.id: one.title.text
        for one in base.procedures.values()
        if one.device in {device, ANY_DEVICE} and one.approved and any(str(fixed) == symptom for fixed in one.fixes)
    }
    for known in (dict(list(cures.items())[:_MOST]), {}):
        yield whole(_lines(base, device, symptom, known))


def _lines(base: KnowledgeBase, device: str, symptom: str, cures: dict[str, str]) -> Iterator[str]:
    yield modeline("diagnosis", 3)
    title = base.symptoms[symptom].title.text if symptom in base.symptoms else symptom
    yield from remark(
        f"A draft: why a device comes in with “{title}”. Counts and shares are guesses until your bench has counted."
    )
    procedures = {one.id: one.title.text for one in base.procedures.values() if one.device in {device, ANY_DEVICE}}
    yield from offered("Procedures of this device", procedures)
    yield "causes:"
    causes = [f"needs-{name}" for name in cures]
    for cause, (name, cure) in zip(causes, cures.items(), strict=True):
        yield (f"  {cause}: {{title: {scalar(f'What this cures: {cure}')}, seen: 0, cures: [{{procedure: {name}}}]}}"
               f"  {FILL}the cause, and how often it was seen")  # fmt: skip
    money = base.shop.write_off if base.shop else None
    refer = f"{{title: A board-level workshop, price: {money.text if money else _PRICE}}}"
    yield f"  {_OTHER}:  {FILL}who takes what this bench cannot cure, and at what price"
    yield f"    {{title: Something else, seen: 0, cures: [{{refer: {refer}}}]}}"
    yield "tests:"
    yield "  first-look:"
    yield f"    do: Look at the closed device under a good light.  {FILL}the cheapest test that tells the causes apart"
    yield "    takes: 2 min"
    known = base.devices.get(device)
    if known:
        yield from offered("access: one of", {one.id: one.title.text for one in known.access.values()}, 4)
    yield from offered("with: one of", {name: tool.title.text for name, tool in base.tools.items()}, 4)
    yield from remark(
        "given is the share of an outcome where that is the cause: for each cause the outcomes sum to 1", 4
    )
    yield "    outcomes:"
    every = [*causes, _OTHER]
    for outcome, seen, share in (("nothing", "Nothing to be seen", 0.4), ("damage", "Damage or liquid", 0.6)):
        shares = ", ".join(f"{cause}: {share if cause != _OTHER else 1 - share:.1f}" for cause in every)
        yield f"      {outcome}: {{title: {seen}, given: {{{shares}}}}}  {FILL}what it shows, and how often"
